// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Reasons of a shot: the best other club and the shot straight at the hole beside it, and the trouble that they meet more often.
 */
#include "ends-private.h"

#include <math.h>

const Hole *
plan_solution_hole (const PlanSolution *solution)
{
  return solution->hole;
}

const Bag *
plan_solution_bag (const PlanSolution *solution)
{
  return solution->bag;
}

const Conditions *
plan_solution_conditions (const PlanSolution *solution)
{
  return &solution->conditions;
}

const char *
plan_cause_token (PlanCause cause)
{
  static const char *const tokens[N_PLAN_CAUSES]
      = { [PLAN_CAUSE_PENALTY] = "penalty",   [PLAN_CAUSE_TROUBLE] = "trouble", [PLAN_CAUSE_ROUGH] = "rough",
          [PLAN_CAUSE_DISTANCE] = "distance", [PLAN_CAUSE_GREEN] = "green",     [PLAN_CAUSE_NEXT_SHOT] = "next-shot" };
  g_assert ((unsigned)cause < N_PLAN_CAUSES);
  return tokens[cause];
}

/* The worst by strokes of what `more` meets oftener than `less` (NULL: never); `is_of_more`: the shot in hand is `more`. */
static PlanDanger
find_danger (GArray *more, GArray *less, bool is_of_more)
{
  PlanDanger worst = { LIE_NONE, -1, 0, 0 };
  double most = 0;
  for (guint i = 0; i < more->len; i++)
    {
      const Trouble *trouble = &g_array_index (more, Trouble, i);
      double chance = 0, cost = 0;
      for (guint k = 0; less != NULL && k < less->len; k++)
        {
          const Trouble *same = &g_array_index (less, Trouble, k);
          if (same->lie == trouble->lie && same->part == trouble->part)
            {
              chance = same->chance;
              cost = same->cost;
            }
        }
      if (trouble->chance - chance < PLAN_LEAST_DANGER || trouble->cost - cost <= most)
        continue;
      most = trouble->cost - cost;
      worst = (PlanDanger){ trouble->lie, trouble->part, is_of_more ? trouble->chance : chance,
                            is_of_more ? chance : trouble->chance };
    }
  return worst;
}

typedef struct
{
  const PlanSolution *solution;
  const ShotEnds *ends; /* of the shot in hand */
  GArray *troubles;     /* its */
} Judge;

/* Plays the other shot and holds it against the one in hand. */
static void
judge_rival (const Judge *judge, const Club *club, double swing, Vec2 way, const Flown *flown, PlanRival *rival)
{
  ShotEnds other;
  shot_ends_init (&other, judge->solution, judge->ends->ball, way, flown);
  g_autoptr (GArray) troubles = ends_trouble (&other);
  *rival = (PlanRival){ .club = club,
                        .swing = swing,
                        .aim = vec2_add (judge->ends->ball, vec2_scale (way, flown->along_m)),
                        .strokes = other.strokes,
                        .costs = other.strokes - judge->ends->strokes,
                        .left_m = other.left_m,
                        .fairway = other.fairway,
                        .green = other.green,
                        .trouble = other.trouble,
                        .penalty = other.penalty,
                        .danger = find_danger (troubles, judge->troubles, false) };
  for (int cause = 0; cause < N_PLAN_CAUSES; cause++)
    rival->causes.strokes[cause] = other.causes.strokes[cause] - judge->ends->causes.strokes[cause];
  shot_ends_clear (&other);
}

static void
judge_next_club (const Judge *judge, const Club *club, PlanRival *next)
{
  const Fleet *fleet = judge->solution->fleet;
  Lie lie = ends_lie (judge->solution, judge->ends->ball);
  g_autofree SolveChoice *choices = g_new (SolveChoice, fleet->n_swings);
  solve_choices (judge->solution, judge->ends->ball, lie, 0, choices);
  for (size_t i = 0; i < fleet->n_swings && isfinite (choices[i].strokes); i++)
    {
      const Swing *swing = &fleet->swings[choices[i].swing];
      Flown flown;
      if (swing->club != club && fleet_flown (fleet, choices[i].swing, lie, choices[i].way, &flown))
        {
          judge_rival (judge, swing->club, swing->swing, choices[i].way, &flown, next);
          return;
        }
    }
}

static void
judge_straight (const Judge *judge, const PlanShot *shot, Vec2 straight, PlanRival *rival)
{
  const ShotResult *flight = &shot->shot;
  ShotInput swing = { .club = flight->club, .swing = flight->swing, .shape = flight->shape, .curve_m = shot->curve_m };
  Flown flown;
  if (ends_fly (judge->solution, &swing, ends_lie (judge->solution, flight->ball), straight, &flown))
    judge_rival (judge, flight->club, flight->swing, straight, &flown, rival);
}

bool
plan_reason (const PlanSolution *solution, const PlanShot *shot, PlanReason *reason, GError **error)
{
  const ShotResult *flight = &shot->shot;
  ShotEnds ends;
  if (!shot_ends_of (&ends, solution, shot, NULL, error))
    return false;
  g_autoptr (GArray) troubles = ends_trouble (&ends);
  Judge judge = { solution, &ends, troubles };
  Vec2 aim = vec2_sub (flight->aim, flight->ball), straight = vec2_unit (vec2_sub (solution->grid->target, flight->ball));
  *reason = (PlanReason){ .sights = odds_sights (solution->hole, solution->hole_name, flight),
                          .right_m = vec2_cross (aim, straight),
                          .left_m = ends.left_m,
                          .causes = ends.causes,
                          .risk = find_danger (troubles, NULL, true) };
  judge_next_club (&judge, flight->club, &reason->next);
  if (fabs (reason->right_m) > PLAN_STRAIGHT_M || vec2_dot (aim, straight) < 0)
    judge_straight (&judge, shot, straight, &reason->straight);
  shot_ends_clear (&ends);
  return true;
}
