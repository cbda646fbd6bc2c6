// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where strokes are lost on a hole: the excess of every place over an open fairway, carried forward with the balls and parted shot by shot.
 */
#include "plan-losses.h"

#include "ends-private.h"
#include "words-private.h"

#include <glib/gi18n.h>

#include <math.h>

/* Balls of one lie that lie in one square of this side are taken together. */
#define SPOT_M 8.0
/* Fewer balls than this share are not carried further. */
#define LEAST_CHANCE 1e-3

static const char *const tokens[N_PLAN_LOSSES] = {
  [PLAN_LOSS_PENALTY] = "penalty", [PLAN_LOSS_SAND] = "sand",           [PLAN_LOSS_TREES] = "trees",
  [PLAN_LOSS_ROUGH] = "rough",     [PLAN_LOSS_GOOD_LIES] = "good-lies",
};

static const char *const texts[N_PLAN_LOSSES] = {
  [PLAN_LOSS_PENALTY] = N_ ("penalties"),
  [PLAN_LOSS_SAND] = N_ ("sand"),
  [PLAN_LOSS_TREES] = N_ ("trees"),
  [PLAN_LOSS_ROUGH] = N_ ("rough"),
  [PLAN_LOSS_GOOD_LIES] = N_ ("tee and fairway shots"),
};

const char *
plan_loss_token (PlanLoss loss)
{
  g_assert ((unsigned)loss < N_PLAN_LOSSES);
  return tokens[loss];
}

const char *
plan_loss_words (PlanLoss loss, Translate translate)
{
  g_assert ((unsigned)loss < N_PLAN_LOSSES);
  return translate != NULL ? translate (texts[loss]) : texts[loss];
}

static PlanLoss
loss_of (Lie lie)
{
  if (ends_lie_is_penalty (lie))
    return PLAN_LOSS_PENALTY;
  if (lie == LIE_SAND || lie == LIE_WASTE)
    return PLAN_LOSS_SAND;
  if (lie == LIE_TREES || lie == LIE_BUILDING)
    return PLAN_LOSS_TREES;
  return lie == LIE_FIRST_CUT || lie == LIE_ROUGH || lie == LIE_DEEP_ROUGH ? PLAN_LOSS_ROUGH : PLAN_LOSS_GOOD_LIES;
}

/* ---- balls taken together ---- */

typedef struct
{
  Lie lie;
  double chance, excess; /* 0..1; that of all its balls, each weighed by its chance */
  size_t cell;           /* of those that are likeliest */
  double most;
} Spot;

typedef struct
{
  const PlanSolution *solution;
  double *lost;
  GArray *here, *next; /* Spot: those of the shot in hand, and what it leaves */
  GHashTable *found;   /* square and lie + 1, to index + 1 in `next` */
} Ledger;

static double
fairway_strokes (const PlanSolution *solution, Vec2 at)
{
  return strokes_to_hole (solution->table, LIE_FAIRWAY, vec2_distance (at, solution->grid->target));
}

static double
excess_of (const PlanSolution *solution, const End *end)
{
  return end->strokes - fairway_strokes (solution, solve_grid_centre (solution->grid, (int)end->cell));
}

/* `chance` of all balls come to the end. */
static void
keep (Ledger *ledger, const End *end, double chance, double excess)
{
  const SolveGrid *grid = ledger->solution->grid;
  int side = MAX (1, (int)(SPOT_M / grid->cell_m + 0.5)), x = (int)(end->cell % (size_t)grid->nx) / side;
  int y = (int)(end->cell / (size_t)grid->nx) / side, key = ((y * grid->nx) + x) * N_LIES + (int)end->lie + 1;
  gpointer known = g_hash_table_lookup (ledger->found, GINT_TO_POINTER (key));
  if (known == NULL)
    {
      Spot fresh = { .lie = end->lie };
      g_array_append_val (ledger->next, fresh);
      known = GUINT_TO_POINTER (ledger->next->len);
      g_hash_table_insert (ledger->found, GINT_TO_POINTER (key), known);
    }
  Spot *spot = &g_array_index (ledger->next, Spot, GPOINTER_TO_UINT (known) - 1);
  spot->chance += chance;
  spot->excess += chance * excess;
  if (chance <= spot->most)
    return;
  spot->most = chance;
  spot->cell = end->cell;
}

/* ---- one shot ---- */

/* Parts the excess of `chance` of all balls, which play this shot from `lie`. */
static void
part_excess (Ledger *ledger, const ShotEnds *ends, Lie lie, double chance, double excess)
{
  const PlanSolution *solution = ledger->solution;
  double penalties = 0, goes_on = 0, seen = 0;
  for (guint i = 0; i < ends->ends->len; i++)
    {
      const End *end = &g_array_index (ends->ends, End, i);
      double over = excess_of (solution, end);
      seen += end->share;
      if (ends_lie_is_penalty (end->lie))
        penalties += end->share * over;
      else if (end->lie != LIE_GREEN)
        {
          goes_on += end->share * over;
          if (solution->grid->state_ends[solution->grid->state_at[end->lie][end->cell]])
            ledger->lost[loss_of (end->lie)] += chance * end->share * over;
          else
            keep (ledger, end, chance * end->share, over);
        }
    }
  /* Penalty areas without relief tell no place: played again from where it was. */
  penalties += fmax (0, 1 - seen) * (1 + ends->strokes - fairway_strokes (solution, ends->ball));
  ledger->lost[PLAN_LOSS_PENALTY] += chance * penalties;
  ledger->lost[loss_of (lie)] += excess - chance * (penalties + goes_on);
}

/* Carries a spot's balls on with the best shot from there, where there is one and they are enough. */
static void
carry_on (Ledger *ledger, const Spot *spot)
{
  const PlanSolution *solution = ledger->solution;
  SolveShot shot;
  Flown flown;
  ShotEnds ends;
  size_t state = (size_t)solution->grid->state_at[spot->lie][spot->cell];
  if (spot->chance < LEAST_CHANCE || !solve_best_shot (solution, state, &shot)
      || !fleet_flown (solution->fleet, shot.swing, spot->lie, shot.way, &flown))
    {
      ledger->lost[loss_of (spot->lie)] += spot->excess;
      return;
    }
  shot_ends_init (&ends, solution, shot.ball, shot.way, &flown);
  part_excess (ledger, &ends, spot->lie, spot->chance, spot->excess);
  shot_ends_clear (&ends);
}

/* What the last shot left is in hand. */
static void
take_next (Ledger *ledger)
{
  GArray *done = ledger->here;
  ledger->here = ledger->next;
  ledger->next = done;
  g_array_set_size (ledger->next, 0);
  g_hash_table_remove_all (ledger->found);
}

static bool
follow_balls (Ledger *ledger, const gint *cancel, GError **error)
{
  for (int shot = 1; shot < PLAN_MOST_SHOTS && ledger->next->len > 0; shot++)
    {
      take_next (ledger);
      for (guint i = 0; i < ledger->here->len; i++)
        {
          if (cancel != NULL && g_atomic_int_get (cancel) != 0)
            {
              g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_CANCELLED, "the plan was given up");
              return false;
            }
          carry_on (ledger, &g_array_index (ledger->here, Spot, i));
        }
    }
  for (guint i = 0; i < ledger->next->len; i++)
    {
      const Spot *spot = &g_array_index (ledger->next, Spot, i);
      ledger->lost[loss_of (spot->lie)] += spot->excess;
    }
  return true;
}

bool
plan_losses (const PlanSolution *solution, const Plan *plan, const gint *cancel, PlanLosses *losses, GError **error)
{
  ShotEnds ends;
  if (!shot_ends_of (&ends, solution, &plan->shots[0], NULL, error))
    return false;
  double length_m;
  if (!hole_measured_length (solution->hole, solution->tee_name, &length_m))
    length_m = vec2_distance (solution->tee, solution->grid->target);
  PlanLosses found = { .open_strokes = strokes_to_hole (solution->table, LIE_TEE, length_m), .strokes = ends.strokes };
  Ledger ledger = { .solution = solution,
                    .lost = found.lost,
                    .here = g_array_new (FALSE, FALSE, sizeof (Spot)),
                    .next = g_array_new (FALSE, FALSE, sizeof (Spot)),
                    .found = g_hash_table_new (NULL, NULL) };
  part_excess (&ledger, &ends, LIE_TEE, 1, ends.strokes - found.open_strokes);
  shot_ends_clear (&ends);
  bool is_done = follow_balls (&ledger, cancel, error);
  g_array_unref (ledger.here);
  g_array_unref (ledger.next);
  g_hash_table_unref (ledger.found);
  if (is_done)
    *losses = found;
  return is_done;
}
