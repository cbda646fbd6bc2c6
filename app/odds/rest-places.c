// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where the balls of the grid over a strike's pattern rest, place by place.
 *
 * Of a square at whose corners the same becomes of balls, four of the balls that come down in it are told, at such places that their mean and deviation each way are those of all of them;
 * they rest between the corners' balls as they come down between them. So a mean over all places is as good as the squares are small against what changes. Elsewhere the corners' own
 * balls are told.
 */
#include "rest-grid-private.h"

#include <math.h>

void
traces_init (Traces *traces)
{
  *traces = (Traces){ .ball_at = g_new (uint16_t, N_PLACES * N_PLACES),
                      .balls = g_array_new (FALSE, FALSE, sizeof (KeptBall)),
                      .portions = g_array_new (FALSE, FALSE, sizeof (Portion)) };
}

void
traces_clear (Traces *traces)
{
  g_free (traces->ball_at);
  g_array_unref (traces->balls);
  g_array_unref (traces->portions);
}

void
traces_keep (Traces *traces, Square place, Vec2 landing, Vec2 rest, uint16_t fate)
{
  KeptBall ball = { landing, rest, 0, fate };
  traces->ball_at[grid_index (place.i, place.j)] = (uint16_t)traces->balls->len;
  g_array_append_val (traces->balls, ball);
}

void
traces_share_out (Traces *traces, Square square, int size, double share, double of_corner)
{
  Portion portion = { square, size, share, of_corner };
  g_array_append_val (traces->portions, portion);
}

/* ---- who is told ---- */

typedef struct
{
  Carrier *carrier;
  const double *landing; /* chance of each area, the ground's last */
  double *scales;        /* by area on which balls land: what a share of the grid is of all balls of the shot */
  double density[N_PLACES];
  RestVisit visit;
  void *data;
} Teller;

static const Fate *
fate_of (const Teller *teller, uint16_t number)
{
  return &g_array_index (teller->carrier->fates, Fate, number);
}

static uint16_t
fate_at (const Teller *teller, int i, int j)
{
  return teller->carrier->known[grid_index (i, j)];
}

static KeptBall *
ball_at (const Teller *teller, int i, int j)
{
  const Traces *traces = teller->carrier->traces;
  return &g_array_index (traces->balls, KeptBall, traces->ball_at[grid_index (i, j)]);
}

/* The area that ends there, as the hole numbers it. */
static int
area_of_end (const Hole *hole, size_t end)
{
  return end < hole_n_areas (hole) ? (int)end : -1;
}

/* Tells of balls that come to rest on an area, or stay in the air over it. */
static void
tell_area (const Teller *teller, size_t end, Vec2 at, double share)
{
  const Hole *hole = teller->carrier->ends->ground->hole;
  int area = area_of_end (hole, end);
  if (!(share > 0))
    return;
  RestBalls balls = { at, hole_area_lie (hole, area), area >= 0 ? (int)hole_area_part (hole, (size_t)area) : -1, share };
  teller->visit (teller->data, &balls);
}

static void
tell_trees (const Teller *teller, uint32_t canopy, Vec2 at, double share)
{
  const Ends *ends = teller->carrier->ends;
  size_t end = ends->end_of_canopy[canopy], n_areas = hole_n_areas (ends->ground->hole);
  if (end < n_areas)
    {
      tell_area (teller, end, at, share);
      return;
    }
  RestBalls balls = { at, LIE_TREES, (int)ends->parts_of_trees[end - n_areas - 1], share };
  teller->visit (teller->data, &balls);
}

/* A ball as it was followed, and what stops it in the air. */
static void
tell_ball (const Teller *teller, const Fate *fate, const KeptBall *ball)
{
  const Ends *ends = teller->carrier->ends;
  double share = ball->share * teller->scales[fate->lands];
  for (size_t i = 0; i < fate->stops.n && share > 0; i++)
    {
      double density;
      woods_canopy (ends->woods, fate->stops.canopies[i], &density);
      tell_trees (teller, fate->stops.canopies[i], woods_place (ends->woods, ball->landing, fate->stops.canopies[i]),
                  share * density);
      share *= 1 - density;
    }
  tell_area (teller, fate->rests, ball->rest, share);
}

/* ---- squares ---- */

/* Two places along an axis of a square, 0 and 1 its ends, whose mean and deviation are those of the normal distribution within it. */
static void
two_within (const Teller *teller, int from, int to, double at[2])
{
  double x0 = grid_deviation (from), x1 = grid_deviation (to), d0 = teller->density[from], d1 = teller->density[to];
  double chance = teller->carrier->below[to] - teller->carrier->below[from];
  double mean = (d0 - d1) / chance, square = 1 + (x0 * d0 - x1 * d1) / chance;
  double sd = sqrt (fmax (0, square - mean * mean));
  for (int k = 0; k < 2; k++)
    at[k] = (mean + (k == 0 ? -sd : sd) - x0) / (x1 - x0);
}

static void
tell_between (const Teller *teller, const Portion *portion, const Fate *fate)
{
  int i = portion->square.i, j = portion->square.j, size = portion->size;
  Vec2 low[2] = { ball_at (teller, i, j)->rest, ball_at (teller, i, j + size)->rest };
  Vec2 high[2] = { ball_at (teller, i + size, j)->rest, ball_at (teller, i + size, j + size)->rest };
  double along[2], across[2], share = portion->share * teller->scales[fate->lands] / 4;
  two_within (teller, i, i + size, along);
  two_within (teller, j, j + size, across);
  for (int k = 0; k < 4; k++)
    {
      double u = along[k & 1], v = across[k >> 1];
      tell_area (teller, fate->rests, vec2_lerp (vec2_lerp (low[0], low[1], v), vec2_lerp (high[0], high[1], v), u), share);
    }
}

/* Water is left where the ball went in: a place between two of its bank need not be in it. */
static bool
is_even (const Teller *teller, const Portion *portion)
{
  int i = portion->square.i, j = portion->square.j, size = portion->size;
  uint16_t fate = fate_at (teller, i, j);
  const Hole *hole = teller->carrier->ends->ground->hole;
  return fate_at (teller, i + size, j) == fate && fate_at (teller, i, j + size) == fate
         && fate_at (teller, i + size, j + size) == fate && fate_of (teller, fate)->stops.n == 0
         && hole_area_lie (hole, area_of_end (hole, fate_of (teller, fate)->rests)) != LIE_PENALTY;
}

static void
tell_portion (const Teller *teller, const Portion *portion)
{
  int i = portion->square.i, j = portion->square.j, size = portion->size;
  if (portion->of_corner == 0.25 && is_even (teller, portion))
    {
      tell_between (teller, portion, fate_of (teller, fate_at (teller, i, j)));
      return;
    }
  for (int k = 0; k < 4; k++)
    ball_at (teller, i + (k & 1) * size, j + (k >> 1) * size)->share += portion->share * portion->of_corner;
  if (portion->of_corner < 0.25)
    ball_at (teller, i + size / 2, j + size / 2)->share += portion->share * (1 - 4 * portion->of_corner);
}

static void
tell_kept (const Teller *teller)
{
  const GArray *balls = teller->carrier->traces->balls;
  for (guint i = 0; i < balls->len; i++)
    {
      const KeptBall *ball = &g_array_index (balls, KeptBall, i);
      if (ball->share > 0)
        tell_ball (teller, fate_of (teller, ball->fate), ball);
    }
}

/* ---- areas on which no ball was followed ---- */

/* Fewer than these are told of at the landing point: nothing is worth looking for where they are. */
#define LEAST_SHARE 1e-9

static void
tell_missed (const Teller *teller, size_t end)
{
  const Strike *strike = teller->carrier->strike;
  const Hole *hole = teller->carrier->ends->ground->hole;
  double share = strike->share * teller->landing[end];
  Vec2 at = strike->pattern.mean;
  if (!(share > 0))
    return;
  if (share > LEAST_SHARE && end < hole_n_areas (hole) && hole_area_at (hole, at) != (int)end)
    outline_distance (hole_part (hole, hole_area_part (hole, end))->outline, at, &at);
  tell_area (teller, end, at, share);
}

void
traces_tell (Carrier *carrier, const double *landing, RestVisit visit, void *data)
{
  size_t n_ends = hole_n_areas (carrier->ends->ground->hole) + 1;
  const GArray *portions = carrier->traces->portions;
  g_autofree double *landed = g_new0 (double, n_ends), *scales = g_new0 (double, n_ends);
  g_autofree Teller *teller = g_new0 (Teller, 1);
  *teller = (Teller){ .carrier = carrier, .landing = landing, .scales = scales, .visit = visit, .data = data };
  for (guint i = 0; i < carrier->fates->len; i++)
    landed[fate_of (teller, (uint16_t)i)->lands] += fate_of (teller, (uint16_t)i)->share;
  for (size_t k = 0; k < n_ends; k++)
    scales[k] = landed[k] > 0 ? carrier->strike->share * landing[k] / landed[k] : 0;
  /* Beyond the rim the distribution goes on for ever. */
  for (int i = 1; i + 1 < N_PLACES; i++)
    teller->density[i] = exp (-0.5 * grid_deviation (i) * grid_deviation (i)) / sqrt (2 * PI);
  for (guint i = 0; i < portions->len; i++)
    tell_portion (teller, &g_array_index (portions, Portion, i));
  tell_kept (teller);
  for (size_t k = 0; k < n_ends; k++)
    if (!(landed[k] > 0))
      tell_missed (teller, k);
}
