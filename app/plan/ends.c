// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where the balls of one shot end: their strokes parted into causes, and the trouble among them told by the areas' names.
 */
#include "ends-private.h"

#include <math.h>
#include <string.h>

/* A ball is teed up within two club-lengths of the markers. */
#define TEED_M DROP_LATERAL_M

bool
ends_lie_is_penalty (Lie lie)
{
  return lie == LIE_PENALTY || lie == LIE_OUT_OF_BOUNDS;
}

bool
ends_lie_is_trouble (Lie lie)
{
  return lie == LIE_SAND || lie == LIE_WASTE || lie == LIE_TREES || lie == LIE_DEEP_ROUGH || lie == LIE_BUILDING;
}

Lie
ends_lie (const PlanSolution *solution, Vec2 ball)
{
  return vec2_distance (ball, solution->tee) < TEED_M ? LIE_TEE : solve_lie (hole_lie_at (solution->hole, ball));
}

/* Swings whose shares differ by less are one. */
#define SAME_SWING 1e-6

bool
ends_fly (const PlanSolution *solution, const ShotInput *swing, Lie lie, Vec2 way, Flown *flown)
{
  const Fleet *fleet = solution->fleet;
  bool is_usual = swing->shape == SHOT_STRAIGHT && isnan (swing->curve_m);
  for (size_t i = 0; is_usual && i < fleet->n_swings; i++)
    if (fleet->swings[i].club == swing->club && fabs (fleet->swings[i].swing - swing->swing) < SAME_SWING)
      return fleet_flown (fleet, i, lie, way, flown);
  ShotInput input = *swing;
  input.conditions = &solution->conditions;
  return fleet_fly (&input, &solution->lies, lie, way, flown);
}

/* ---- gathering ---- */

static PlanCause
cause_of (Lie lie)
{
  if (ends_lie_is_penalty (lie))
    return PLAN_CAUSE_PENALTY;
  if (ends_lie_is_trouble (lie))
    return PLAN_CAUSE_TROUBLE;
  if (lie == LIE_ROUGH || lie == LIE_FIRST_CUT)
    return PLAN_CAUSE_ROUGH;
  return lie == LIE_GREEN ? PLAN_CAUSE_GREEN : PLAN_CAUSE_NEXT_SHOT;
}

static double
hole_m (const PlanSolution *solution, size_t cell)
{
  return vec2_distance (solve_grid_centre (solution->grid, (int)cell), solution->grid->target);
}

/* All balls that come to be played from one state are one end. */
typedef struct
{
  const PlanSolution *solution;
  GArray *ends;
  guint *known; /* [state] its end among them + 1; 0: none yet */
} Keeper;

static void
keep_end (void *data, size_t cell, Lie lie, double share, double strokes)
{
  Keeper *keeper = data;
  const PlanSolution *solution = keeper->solution;
  End end = { cell, lie, share, strokes };
  if (isnan (strokes) && lie != LIE_OUT_OF_BOUNDS)
    {
      int state = solution->grid->state_at[lie][cell];
      guint *known = &keeper->known[state];
      if (*known > 0)
        {
          g_array_index (keeper->ends, End, *known - 1).share += share;
          return;
        }
      end.strokes = solution->value[state];
      *known = keeper->ends->len + 1;
    }
  g_array_append_val (keeper->ends, end);
}

static void
count_cause (ShotEnds *ends, Lie lie, double share, double strokes, double left_m)
{
  double fairway = strokes_to_hole (ends->solution->table, LIE_FAIRWAY, left_m);
  ends->causes.strokes[PLAN_CAUSE_DISTANCE] += share * fairway;
  ends->causes.strokes[cause_of (lie)] += share * (strokes - fairway);
}

static void
count_end (ShotEnds *ends, const End *end)
{
  double left_m = hole_m (ends->solution, end->cell);
  ends->fairway += end->lie == LIE_FAIRWAY ? end->share : 0;
  ends->green += end->lie == LIE_GREEN ? end->share : 0;
  ends->trouble += ends_lie_is_trouble (end->lie) ? end->share : 0;
  if (ends_lie_is_penalty (end->lie))
    ends->penalty += end->share;
  else
    ends->left_m += end->share * left_m;
  count_cause (ends, end->lie, end->share, end->strokes, left_m);
}

void
shot_ends_init (ShotEnds *ends, const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown)
{
  *ends = (ShotEnds){ .solution = solution, .ball = ball, .ends = g_array_new (FALSE, FALSE, sizeof (End)) };
  g_autofree guint *known = g_new0 (guint, solution->grid->n_states);
  ends->strokes = solve_flown_exactly (solution, ball, way, flown, keep_end, &(Keeper){ solution, ends->ends, known });
  /* Whoever lies in a penalty area may play again instead, and who is lost must: a stroke more than the shot was worth. */
  double again = 1 + ends->strokes, seen = 0;
  for (guint i = 0; i < ends->ends->len; i++)
    {
      End *end = &g_array_index (ends->ends, End, i);
      if (ends_lie_is_penalty (end->lie) && !(end->strokes < again))
        {
          end->strokes = again;
          ends->lost += end->share;
        }
      count_end (ends, end);
      seen += end->share;
    }
  /* Penalty areas without relief tell no place: such a ball is where it was played from, and two strokes are gone. */
  double unseen = fmax (0, 1 - seen);
  ends->penalty += unseen;
  ends->lost += unseen;
  if (ends->penalty < 1)
    ends->left_m /= 1 - ends->penalty;
  if (unseen > 0)
    count_cause (ends, LIE_OUT_OF_BOUNDS, unseen, again, vec2_distance (ball, solution->grid->target));
}

bool
shot_ends_of (ShotEnds *ends, const PlanSolution *solution, const PlanShot *shot, Flown *flown, GError **error)
{
  const ShotResult *flight = &shot->shot;
  Vec2 way = vec2_unit (vec2_sub (flight->aim, flight->ball));
  ShotInput swing = { .club = flight->club, .swing = flight->swing, .shape = flight->shape, .curve_m = shot->curve_m };
  Flown found;
  if (!ends_fly (solution, &swing, ends_lie (solution, flight->ball), way, &found))
    {
      g_set_error (error, PLAN_ERROR, PLAN_ERROR_CLUB, "the %s cannot be played from there; choose another club",
                   flight->club->name);
      return false;
    }
  shot_ends_init (ends, solution, flight->ball, way, &found);
  if (flown != NULL)
    *flown = found;
  return true;
}

void
shot_ends_clear (ShotEnds *ends)
{
  g_array_unref (ends->ends);
}

/* ---- by name ---- */

/* The area under a cell that has this lie: its middle first, then about it. -1: the ground, or there is none. */
static int
part_of (const PlanSolution *solution, const End *end)
{
  const Hole *hole = solution->hole;
  Vec2 middle = solve_grid_centre (solution->grid, (int)end->cell);
  double step_m = solution->grid->cell_m / 3;
  for (int i = 0; i < 9; i++)
    {
      int k = (i + 4) % 9;
      Vec2 at = vec2_add (middle, vec2 ((k % 3 - 1) * step_m, (k / 3 - 1) * step_m));
      int part = hole_area_at (hole, at);
      if (part >= 0 && solve_lie (kind_info (hole_part (hole, (size_t)part)->kind)->lie) == end->lie)
        return part;
    }
  return -1;
}

/* Water lies in a penalty area, and a name of either is that of both: the shorter, "pond" of "pond, margin". */
static int
name_of_water (const Hole *hole, int part)
{
  const Part *water = hole_part (hole, (size_t)part);
  int best = water->name != NULL ? part : -1;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *other = hole_part (hole, i);
      if (other->outline == NULL || kind_info (other->kind)->lie != LIE_PENALTY || other->name == NULL)
        continue;
      bool is_same = (other->outline->n_points > 0 && outline_contains (water->outline, other->outline->points[0]))
                     || (water->outline->n_points > 0 && outline_contains (other->outline, water->outline->points[0]));
      if (is_same && (best < 0 || strlen (other->name) < strlen (hole_part (hole, (size_t)best)->name)))
        best = (int)i;
    }
  return best;
}

/* The first area that has the name of this one, so that all pot bunkers are one; -1 for one without a name. */
static int
named_part (const Hole *hole, int part, Lie lie)
{
  if (part >= 0 && lie == LIE_PENALTY)
    part = name_of_water (hole, part);
  const char *name = part >= 0 ? hole_part (hole, (size_t)part)->name : NULL;
  if (name == NULL)
    return -1;
  for (int i = 0; i < part; i++)
    {
      const Part *other = hole_part (hole, (size_t)i);
      if (other->outline != NULL && other->name != NULL && solve_lie (kind_info (other->kind)->lie) == lie
          && strcmp (other->name, name) == 0)
        return i;
    }
  return part;
}

static void
add_trouble (GArray *troubles, Lie lie, int part, double chance, double cost)
{
  for (guint i = 0; i < troubles->len; i++)
    {
      Trouble *known = &g_array_index (troubles, Trouble, i);
      if (known->lie == lie && known->part == part)
        {
          known->chance += chance;
          known->cost += cost;
          return;
        }
    }
  Trouble found = { lie, part, chance, cost };
  g_array_append_val (troubles, found);
}

GArray *
ends_trouble (const ShotEnds *ends)
{
  const PlanSolution *solution = ends->solution;
  GArray *troubles = g_array_new (FALSE, FALSE, sizeof (Trouble));
  size_t n_parts = hole_n_parts (solution->hole);
  enum
  {
    UNKNOWN = -2
  };
  g_autofree int *names = g_new (int, n_parts);
  for (size_t i = 0; i < n_parts; i++)
    names[i] = UNKNOWN;
  for (guint i = 0; i < ends->ends->len; i++)
    {
      const End *end = &g_array_index (ends->ends, End, i);
      if (!ends_lie_is_penalty (end->lie) && !ends_lie_is_trouble (end->lie))
        continue;
      int part = part_of (solution, end);
      if (part >= 0 && names[part] == UNKNOWN)
        names[part] = named_part (solution->hole, part, end->lie);
      double fairway = strokes_to_hole (solution->table, LIE_FAIRWAY, hole_m (solution, end->cell));
      add_trouble (troubles, end->lie, part >= 0 ? names[part] : -1, end->share, end->share * (end->strokes - fairway));
    }
  return troubles;
}
