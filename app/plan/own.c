// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The golfer's own plan: each drawn shot with best play after it, and all of them played in turn from wherever the ball lies.
 */
#include "ends-private.h"
#include "plan-compare.h"

#include <math.h>

/* Balls of one lie that lie in one square of this side are taken together. */
#define LUMP_M 6.0
/* Fewer of them than this share of all balls are taken to go on with best play. */
#define LEAST_LUMP 1e-5

/* ---- balls taken together ---- */

typedef struct
{
  Vec2 sum; /* of their places, weighed */
  Lie lie;
  double chance, value; /* of all; strokes with best play, weighed */
} Lump;

typedef struct
{
  const PlanSolution *solution;
  GArray *lumps;     /* Lump */
  GHashTable *found; /* square and lie + 1, to index + 1 in lumps */
} Lumps;

static void
lumps_init (Lumps *lumps, const PlanSolution *solution)
{
  *lumps = (Lumps){ solution, g_array_new (FALSE, FALSE, sizeof (Lump)), g_hash_table_new (NULL, NULL) };
}

static void
lumps_clear (Lumps *lumps)
{
  g_array_unref (lumps->lumps);
  g_hash_table_unref (lumps->found);
}

static void
lumps_add (Lumps *lumps, const End *end, double chance)
{
  const SolveGrid *grid = lumps->solution->grid;
  int side = MAX (1, (int)(LUMP_M / grid->cell_m + 0.5)), x = (int)(end->cell % (size_t)grid->nx) / side;
  int y = (int)(end->cell / (size_t)grid->nx) / side, key = ((y * grid->nx) + x) * N_LIES + (int)end->lie + 1;
  gpointer known = g_hash_table_lookup (lumps->found, GINT_TO_POINTER (key));
  if (known == NULL)
    {
      Lump fresh = { .lie = end->lie };
      g_array_append_val (lumps->lumps, fresh);
      known = GUINT_TO_POINTER (lumps->lumps->len);
      g_hash_table_insert (lumps->found, GINT_TO_POINTER (key), known);
    }
  Lump *lump = &g_array_index (lumps->lumps, Lump, GPOINTER_TO_UINT (known) - 1);
  lump->sum = vec2_add (lump->sum, vec2_scale (solve_grid_centre (grid, (int)end->cell), chance));
  lump->chance += chance;
  lump->value += chance * end->strokes;
}

/* What is left to be played of a shot's ends, `chance` of all balls, those played again among them. */
static void
lumps_add_ends (Lumps *lumps, const ShotEnds *ends, double chance)
{
  const SolveGrid *grid = lumps->solution->grid;
  if (ends->lost > MOST_LOST)
    return;
  for (guint i = 0; i < ends->ends->len; i++)
    {
      const End *end = &g_array_index (ends->ends, End, i);
      if (!ends_lie_is_penalty (end->lie) && !grid->state_ends[grid->state_at[end->lie][end->cell]])
        lumps_add (lumps, end, chance * end->share / (1 - ends->lost));
    }
}

/* ---- a shot as drawn ---- */

/* The swing of the fleet that carries nearest to the aim from there. */
static bool
choose_swing (const PlanSolution *solution, Vec2 ball, Lie lie, Vec2 aim, Flown *flown)
{
  double aim_m = vec2_distance (ball, aim), best_m = INFINITY;
  Vec2 way = vec2_unit (vec2_sub (aim, ball));
  for (size_t i = 0; i < solution->fleet->n_swings; i++)
    {
      Flown other;
      if (!fleet_flown (solution->fleet, i, lie, way, &other) || fabs (other.along_m - aim_m) >= best_m)
        continue;
      best_m = fabs (other.along_m - aim_m);
      *flown = other;
    }
  return isfinite (best_m);
}

/* How the drawn shot flies in its turn; false where it is left out. */
static bool
fly_in_turn (const PlanSolution *solution, const Shot *shot, Vec2 ball, Lie lie, Flown *flown)
{
  Vec2 target = solution->grid->target;
  if (vec2_distance (ball, target) < vec2_distance (shot->aim, target))
    return false;
  if (shot->club == NULL && shot->swing >= 1)
    return choose_swing (solution, ball, lie, shot->aim, flown);
  ShotInput swing = { .swing = shot->swing, .shape = shot->shape, .curve_m = shot->curve_m };
  double fitted;
  swing.club = shot->club != NULL ? bag_find (solution->bag, shot->club)
                                  : bag_choose (solution->bag, vec2_distance (ball, shot->aim), lie == LIE_TEE, &fitted);
  return swing.club != NULL && ends_fly (solution, &swing, lie, vec2_unit (vec2_sub (shot->aim, ball)), flown);
}

/* Plays a shot from where the balls lie; what it leaves goes to `next`, unless it is NULL: then there is no other shot. */
static void
play_in_turn (const PlanSolution *solution, const Shot *shot, const Lumps *from, Lumps *next, double *given_away)
{
  for (guint i = 0; i < from->lumps->len; i++)
    {
      const Lump *lump = &g_array_index (from->lumps, Lump, i);
      Vec2 ball = vec2_scale (lump->sum, 1 / lump->chance);
      Flown flown;
      ShotEnds ends;
      if (lump->chance < LEAST_LUMP || !fly_in_turn (solution, shot, ball, lump->lie, &flown))
        continue;
      Vec2 way = vec2_unit (vec2_sub (shot->aim, ball));
      if (next == NULL)
        {
          *given_away += lump->chance * solve_flown_exactly (solution, ball, way, &flown, NULL, NULL) - lump->value;
          continue;
        }
      shot_ends_init (&ends, solution, ball, way, &flown);
      *given_away += lump->chance * ends.strokes - lump->value;
      lumps_add_ends (next, &ends, lump->chance);
      shot_ends_clear (&ends);
    }
}

/* ---- the plan ---- */

static bool
fly_drawn (const PlanSolution *solution, const Shot *shot, PlanShot *made, GError **error)
{
  Lie lie = ends_lie (solution, shot->from);
  ShotInput input = { .ball = shot->from,
                      .aim = shot->aim,
                      .swing = shot->swing,
                      .shape = shot->shape,
                      .curve_m = shot->curve_m,
                      .conditions = &solution->conditions,
                      .lies = &solution->lies };
  double fitted = 0;
  input.club = shot->club != NULL ? bag_find (solution->bag, shot->club)
                                  : odds_choose_club (solution->hole, shot->from, shot->aim, solution->bag,
                                                      &solution->conditions, lie == LIE_TEE, &fitted);
  if (input.club == NULL)
    {
      g_set_error (error, PLAN_ERROR, PLAN_ERROR_CLUB, "the bag has no club called %s; choose one of its clubs",
                   shot->club != NULL ? shot->club : "for this lie");
      return false;
    }
  if (shot->club == NULL && shot->swing >= 1 && fitted > 0)
    input.swing = fitted;
  *made = (PlanShot){ .curve_m = shot->curve_m, .next_costs = NAN };
  return odds_shot (solution->hole, solution->hole_name, &input, &made->shot, error);
}

static void
note_reason (const PlanSolution *solution, PlanShot *made)
{
  PlanReason reason;
  if (!plan_reason (solution, made, &reason, NULL))
    return;
  made->next_club = reason.next.club;
  made->next_costs = reason.next.club != NULL ? reason.next.costs : NAN;
  made->straight_costs = reason.straight.club != NULL ? reason.straight.costs : 0;
}

/* Values a drawn shot with best play after it; of the first one its ends are where the others begin. */
static bool
value_drawn (const PlanSolution *solution, const Shot *shot, bool is_first, PlanOwn *own, Lumps *next, GError **error)
{
  PlanShot *made = &own->plan.shots[own->plan.n_shots];
  ShotEnds ends;
  Flown flown;
  if (!fly_drawn (solution, shot, made, error) || !shot_ends_of (&ends, solution, made, &flown, error))
    return false;
  made->fairway = ends.fairway;
  made->green = ends.green;
  made->trouble = ends.trouble;
  made->penalty = ends.penalty;
  made->strokes = ends.strokes;
  if (is_first)
    {
      SolveShot tee_shot
          = { .ball = shot->from, .lie = ends_lie (solution, shot->from), .way = vec2_unit (vec2_sub (shot->aim, shot->from)) };
      g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
      solve_choices (solution, tee_shot.ball, tee_shot.lie, 0, choices);
      own->plan.strokes = ends.strokes;
      own->given_away[0] = ends.strokes - choices[0].strokes;
      own->as_drawn = choices[0].strokes;
      solve_scores (solution, &tee_shot, &flown, own->plan.chances);
      lumps_add_ends (next, &ends, 1);
    }
  shot_ends_clear (&ends);
  note_reason (solution, made);
  own->plan.n_shots++;
  return true;
}

static bool
make_own (const PlanSolution *solution, const Part *plan, const gint *cancel, Lumps *lumps, PlanOwn *own, GError **error)
{
  size_t n = MIN (plan->n_shots, PLAN_MOST_SHOTS);
  for (size_t i = 0; i < n; i++)
    {
      if (cancel != NULL && g_atomic_int_get (cancel) != 0)
        {
          g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_CANCELLED, "the plan was given up");
          return false;
        }
      if (!value_drawn (solution, &plan->shots[i], i == 0, own, lumps, error))
        {
          g_prefix_error (error, "shot %zu: ", i + 1);
          return false;
        }
      if (i > 0)
        {
          Lumps next;
          lumps_init (&next, solution);
          play_in_turn (solution, &plan->shots[i], lumps, i + 1 < n ? &next : NULL, &own->given_away[i]);
          lumps_clear (lumps);
          *lumps = next;
        }
      own->as_drawn += own->given_away[i];
    }
  return true;
}

bool
plan_make_own (const PlanSolution *solution, const Part *plan, const gint *cancel, PlanOwn *own, GError **error)
{
  g_assert (plan->kind == KIND_PLAN);
  Lumps lumps;
  *own = (PlanOwn){ 0 };
  if (plan->n_shots == 0)
    {
      g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_TARGET, "the plan has no shots yet; draw one from the tee");
      return false;
    }
  lumps_init (&lumps, solution);
  bool is_made = make_own (solution, plan, cancel, &lumps, own, error);
  lumps_clear (&lumps);
  return is_made;
}
