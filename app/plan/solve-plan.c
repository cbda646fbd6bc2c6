// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Plans made of a solution: the shots in order, what each is worth, and what the others would cost.
 */
#include "solve-private.h"

#include <math.h>

const char *
plan_choice_token (PlanChoice choice)
{
  static const char *const tokens[N_PLAN_CHOICES]
      = { [PLAN_SUGGESTED] = "suggested", [PLAN_LAY_UP] = "lay-up", [PLAN_ALL_OUT] = "all-out" };
  g_assert ((unsigned)choice < N_PLAN_CHOICES);
  return tokens[choice];
}

static void
add_end (void *data, size_t cell, Lie lie, double share, double strokes)
{
  PlanShot *shot = data;
  if (lie == LIE_FAIRWAY)
    shot->fairway += share;
  else if (lie == LIE_GREEN)
    shot->green += share;
  else if (lie == LIE_PENALTY || lie == LIE_OUT_OF_BOUNDS)
    shot->penalty += share;
  else if (lie == LIE_SAND || lie == LIE_WASTE || lie == LIE_TREES || lie == LIE_DEEP_ROUGH)
    shot->trouble += share;
}

/* The choice that the plan wants of the best aims, cheapest first; NULL for none, and where the suggested shot is a lay-up itself. */
static const SolveChoice *
pick (const PlanSolution *solution, PlanChoice wanted, const SolveChoice *choices)
{
  const Swing *swings = solution->fleet->swings;
  size_t n = solution->fleet->n_swings;
  double longest_m = 0;
  for (size_t i = 0; i < n; i++)
    if (isfinite (choices[i].strokes))
      longest_m = fmax (longest_m, swings[choices[i].swing].club->carry_m);
  for (size_t i = 0; i < n && isfinite (choices[i].strokes); i++)
    {
      const Swing *swing = &swings[choices[i].swing];
      double carry_m = swing->swing * swing->club->carry_m;
      if (wanted == PLAN_LAY_UP && carry_m <= PLAN_LAY_UP_SHARE * longest_m)
        return i > 0 ? &choices[i] : NULL;
      if (wanted == PLAN_SUGGESTED || (wanted == PLAN_ALL_OUT && carry_m >= longest_m))
        return &choices[i];
    }
  return NULL;
}

/* What another club, and the same one aimed straight at the hole, would cost more: all told as exactly as the shot itself. */
static void
compare (const PlanSolution *solution, const SolveShot *shot, const SolveChoice *choices, PlanShot *made)
{
  const Club *club = solution->fleet->swings[shot->swing].club;
  for (size_t i = 0; i < solution->fleet->n_swings && made->next_club == NULL; i++)
    if (isfinite (choices[i].strokes) && solution->fleet->swings[choices[i].swing].club != club)
      {
        SolveShot next = { shot->ball, shot->lie, choices[i].swing, choices[i].way };
        made->next_club = solution->fleet->swings[choices[i].swing].club;
        made->next_costs = solve_shot_exactly (solution, &next, NULL, NULL) - made->strokes;
      }
  SolveShot straight = *shot;
  straight.way = vec2_unit (vec2_sub (solution->grid->target, shot->ball));
  made->straight_costs = solve_shot_exactly (solution, &straight, NULL, NULL) - made->strokes;
}

static bool
make_shot (const PlanSolution *solution, const SolveShot *shot, const SolveChoice *choices, PlanShot *made, GError **error)
{
  Flown flown;
  const Swing *swing = &solution->fleet->swings[shot->swing];
  *made = (PlanShot){ .curve_m = NAN, .next_costs = NAN };
  if (!fleet_flown (solution->fleet, shot->swing, shot->lie, shot->way, &flown))
    return false;
  made->strokes = solve_shot_exactly (solution, shot, add_end, made);
  compare (solution, shot, choices, made);
  ShotInput input = { .ball = shot->ball,
                      .aim = vec2_add (shot->ball, vec2_scale (shot->way, flown.along_m)),
                      .club = swing->club,
                      .swing = swing->swing,
                      .curve_m = NAN,
                      .conditions = &solution->conditions,
                      .lies = &solution->lies };
  return odds_shot (solution->hole, solution->hole_name, &input, &made->shot, error);
}

/* Is the ball where strokes come from the table, or where none is played from? */
static bool
is_over (const PlanSolution *solution, Vec2 ball, Lie lie)
{
  return vec2_distance (ball, solution->grid->target) <= PLAN_TABLE_M || lie == LIE_GREEN || lie == LIE_PENALTY
         || lie == LIE_OUT_OF_BOUNDS || lie == LIE_TREES;
}

/* A hole that costs this many strokes and twice as many as its length has carries of the longest club is not finished: the golfer only goes to and fro (common practice). */
#define HOPELESS_STROKES 15.0
#define HOPELESS_CARRIES 2.0

static bool
is_hopeless (const PlanSolution *solution, const SolveChoice *best)
{
  double longest_m = 0;
  for (size_t i = 0; i < solution->fleet->n_swings; i++)
    longest_m = fmax (longest_m, solution->fleet->swings[i].club->carry_m);
  double carries = vec2_distance (solution->tee, solution->grid->target) / longest_m;
  return best->strokes >= fmin (MOST_STROKES, HOPELESS_STROKES + HOPELESS_CARRIES * carries);
}

/* Nor is one of which so many shots after the other leave hardly less to play than they found: less than so many strokes in all. */
#define ASTRAY_SHOTS 4
#define ASTRAY_STROKES 2.0

static bool
is_astray (const Plan *plan)
{
  const PlanShot *last = &plan->shots[plan->n_shots - 1];
  return plan->n_shots > ASTRAY_SHOTS && last[-ASTRAY_SHOTS].strokes - last->strokes < ASTRAY_STROKES;
}

static bool
fail_hopeless (GError **error)
{
  g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_REACH,
                       "no shot of this bag is expected to finish the hole; look for land between tee and green, or add a "
                       "longer club");
  return false;
}

bool
plan_make (const PlanSolution *solution, PlanChoice choice, Plan *plan, GError **error)
{
  g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
  SolveShot shot = { .ball = solution->tee, .lie = LIE_TEE };
  *plan = (Plan){ 0 };
  while (plan->n_shots < PLAN_MOST_SHOTS && (plan->n_shots == 0 || !is_over (solution, shot.ball, shot.lie)))
    {
      PlanChoice wanted = plan->n_shots == 0 ? choice : PLAN_SUGGESTED;
      solve_choices (solution, shot.ball, shot.lie, wanted == PLAN_SUGGESTED ? 0 : INFINITY, choices);
      const SolveChoice *best = pick (solution, wanted, choices);
      if (best == NULL || is_hopeless (solution, best))
        {
          if (plan->n_shots > 0)
            break;
          if (best != NULL)
            return fail_hopeless (error);
          g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_REACH,
                               "there is no such tee shot but the suggested one; leave the comparison out, or add a club");
          return false;
        }
      shot.swing = best->swing;
      shot.way = best->way;
      PlanShot *made = &plan->shots[plan->n_shots];
      if (!make_shot (solution, &shot, choices, made, error))
        return false;
      plan->n_shots++;
      if (is_astray (plan))
        return fail_hopeless (error);
      if (plan->n_shots == 1)
        {
          plan->strokes = made->strokes;
          solve_scores (solution, &shot, NULL, plan->chances);
        }
      shot.ball = made->shot.rest;
      shot.lie = solve_lie (hole_lie_at (solution->hole, shot.ball));
    }
  return true;
}
