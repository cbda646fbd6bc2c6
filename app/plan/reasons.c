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
static bool
judge_rival (const Judge *judge, size_t swing, Lie lie, Vec2 way, PlanRival *rival)
{
  const PlanSolution *solution = judge->solution;
  Flown flown;
  ShotEnds other;
  if (!fleet_flown (solution->fleet, swing, lie, way, &flown))
    return false;
  shot_ends_init (&other, solution, judge->ends->ball, way, &flown);
  g_autoptr (GArray) troubles = ends_trouble (&other);
  *rival = (PlanRival){ .club = solution->fleet->swings[swing].club,
                        .swing = solution->fleet->swings[swing].swing,
                        .aim = vec2_add (judge->ends->ball, vec2_scale (way, flown.along_m)),
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
  return true;
}

static void
judge_next_club (const Judge *judge, Lie lie, const Club *club, PlanRival *next)
{
  const PlanSolution *solution = judge->solution;
  size_t n = solution->fleet->n_swings;
  g_autofree SolveChoice *choices = g_new (SolveChoice, n);
  solve_choices (solution, judge->ends->ball, lie, choices);
  for (size_t i = 0; i < n && isfinite (choices[i].strokes); i++)
    if (solution->fleet->swings[choices[i].swing].club != club)
      {
        judge_rival (judge, choices[i].swing, lie, choices[i].way, next);
        return;
      }
}

bool
plan_reason (const PlanSolution *solution, const PlanShot *shot, PlanReason *reason, GError **error)
{
  const ShotResult *flight = &shot->shot;
  Vec2 ball = flight->ball, way = vec2_unit (vec2_sub (flight->aim, ball)), target = solution->grid->target;
  Lie lie = ends_lie (solution, ball);
  size_t swing = ends_swing (solution, flight->club, flight->swing);
  Flown flown;
  if (swing == solution->fleet->n_swings || !fleet_flown (solution->fleet, swing, lie, way, &flown))
    {
      g_set_error (error, PLAN_ERROR, PLAN_ERROR_CLUB, "the %s cannot be played from there; choose another club",
                   flight->club->name);
      return false;
    }
  ShotEnds ends;
  shot_ends_init (&ends, solution, ball, way, &flown);
  g_autoptr (GArray) troubles = ends_trouble (&ends);
  Judge judge = { solution, &ends, troubles };
  Vec2 straight = vec2_unit (vec2_sub (target, ball));
  *reason = (PlanReason){ .sights = odds_sights (solution->hole, solution->hole_name, flight),
                          .right_m = vec2_cross (vec2_sub (flight->aim, ball), straight),
                          .left_m = ends.left_m,
                          .causes = ends.causes,
                          .risk = find_danger (troubles, NULL, true) };
  judge_next_club (&judge, lie, flight->club, &reason->next);
  if (fabs (reason->right_m) > PLAN_STRAIGHT_M || vec2_dot (way, straight) < 0)
    judge_rival (&judge, swing, lie, straight, &reason->straight);
  shot_ends_clear (&ends);
  return true;
}
