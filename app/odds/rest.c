// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The landing chances carried through the run.
 *
 *      +---+---+-+-+---+     Balls come down at the corners of a grid over the pattern and run on. What becomes of a ball is where it lands and where it
 *      |   |   +-+-+   |     rests. Of a square at whose corners the same becomes, it becomes of all; any other is quartered, down to where a corner
 *      +---+-+-+-+-+---+     stands for a quarter of its square, or the centre for half of it and each corner for an eighth.
 *
 * The shares of what lands on a face that run on to each other one are taken from the squares; how much lands on the face is the exact integral. So nothing of the squares'
 * error shows where balls stay, and whatever it is, nothing is lost.
 */
#include "rest-grid-private.h"

#include <math.h>
#include <string.h>

/* Each square is quartered while more of the balls come down on it than that: any share, or one at whose corners different things become of them. */
#define MOST_SHARE 1e-3
#define MOST_MIXED_SHARE 4.2e-4
/* A square of this size or less with the same at all corners is taken as one: a third of a deviation. */
#define WHOLE (LARGEST / 4)
#define UNKNOWN UINT16_MAX
#define WANTED (UINT16_MAX - 1)
G_STATIC_ASSERT (N_PLACES *N_PLACES < WANTED);
/* The grid lies askew, by the golden ratio, so that no straight edge runs along a row of it: their errors would add up. */
#define SKEW_RAD 0.5535743588970452

static bool
is_same_fate (const Fate *a, const Fate *b)
{
  return a->lands == b->lands && a->rests == b->rests && a->stops.n == b->stops.n
         && memcmp (a->stops.canopies, b->stops.canopies, a->stops.n * sizeof *a->stops.canopies) == 0;
}

static uint16_t
fate_number (Carrier *carrier, const Fate *fate)
{
  const Fate *fates = (const Fate *)(const void *)carrier->fates->data;
  if (carrier->fates->len > 0 && is_same_fate (&fates[carrier->latest], fate))
    return carrier->latest;
  guint i = 0;
  while (i < carrier->fates->len && !is_same_fate (&fates[i], fate))
    i++;
  if (i == carrier->fates->len)
    g_array_append_vals (carrier->fates, fate, 1);
  return carrier->latest = (uint16_t)i;
}

static uint16_t *
known_at (const Carrier *carrier, int i, int j)
{
  return &carrier->known[grid_index (i, j)];
}

static Vec2
landing_at (const Carrier *carrier, int i, int j)
{
  Vec2 from = vec2_add (vec2_scale (carrier->normal.a, grid_deviation (i)), vec2_scale (carrier->normal.b, grid_deviation (j)));
  return vec2_add (carrier->normal.mean, from);
}

/* The ground comes after all areas. */
static size_t
end_of_area (const Hole *hole, int area)
{
  return area >= 0 ? (size_t)area : hole_n_areas (hole);
}

/* Follows the balls of places that are WANTED, all together. */
static void
follow_wanted (Carrier *carrier, const GArray *wanted)
{
  size_t n = wanted->len;
  const Hole *hole = carrier->patch.ground->hole;
  g_autofree Vec2 *landings = g_new (Vec2, 2 * n + 1);
  g_autofree int *lands = g_new (int, 2 * n + 1);
  Vec2 *places = carrier->traces != NULL ? landings + n : NULL;
  int *rests = lands + n;
  for (size_t k = 0; k < n; k++)
    {
      Square place = g_array_index (wanted, Square, k);
      landings[k] = landing_at (carrier, place.i, place.j);
    }
  rest_land_all (&carrier->patch, &(Falls){ &carrier->strike->landing, landings, 0, n }, lands, rests, places);
  for (size_t k = 0; k < n; k++)
    {
      Square place = g_array_index (wanted, Square, k);
      Fate fate = { .lands = end_of_area (hole, lands[k]), .rests = end_of_area (hole, rests[k]) };
      if (carrier->ends->woods != NULL)
        woods_stops (carrier->ends->woods, landings[k], &fate.stops);
      uint16_t number = *known_at (carrier, place.i, place.j) = fate_number (carrier, &fate);
      if (places != NULL)
        traces_keep (carrier->traces, place, landings[k], places[k], number);
    }
}

/* Makes places known: the corners of squares of this size, or their centres. */
static void
follow_places (Carrier *carrier, const GArray *squares, int size, bool are_centres)
{
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (Square));
  for (guint k = 0; k < squares->len; k++)
    for (int corner = 0; corner < (are_centres ? 1 : 4); corner++)
      {
        Square square = g_array_index (squares, Square, k);
        Square place = are_centres ? (Square){ square.i + size / 2, square.j + size / 2 }
                                   : (Square){ square.i + (corner & 1) * size, square.j + (corner >> 1) * size };
        uint16_t *known = known_at (carrier, place.i, place.j);
        if (*known != UNKNOWN)
          continue;
        *known = WANTED;
        g_array_append_val (wanted, place);
      }
  follow_wanted (carrier, wanted);
}

static double
share_between (const Carrier *carrier, int low, int high)
{
  return carrier->below[high] - carrier->below[low];
}

static void
add_share (Carrier *carrier, int i, int j, double share)
{
  g_array_index (carrier->fates, Fate, *known_at (carrier, i, j)).share += share;
}

/* Shares out the balls of a square to the fates of its corners, and to that of its centre as far as they leave. */
static void
share_out (Carrier *carrier, Square square, int size, double share, double of_corner)
{
  for (int k = 0; k < 4; k++)
    add_share (carrier, square.i + (k & 1) * size, square.j + (k >> 1) * size, share * of_corner);
  if (of_corner < 0.25)
    add_share (carrier, square.i + size / 2, square.j + size / 2, share * (1 - 4 * of_corner));
  if (carrier->traces != NULL)
    traces_share_out (carrier->traces, square, size, share, of_corner);
}

static double
square_share (const Carrier *carrier, Square square, int size)
{
  return share_between (carrier, square.i, square.i + size) * share_between (carrier, square.j, square.j + size);
}

/* The balls of a square of this size: shared out to the fates of its corners, or it is to be looked at more closely: quartered, or by its centre. */
static void
take_square (Carrier *carrier, Square square, int size, GArray *closer)
{
  int i = square.i, j = square.j, half = size / 2;
  const uint16_t corners[4] = { *known_at (carrier, i, j), *known_at (carrier, i + size, j), *known_at (carrier, i, j + size),
                                *known_at (carrier, i + size, j + size) };
  bool is_same = corners[0] == corners[1] && corners[0] == corners[2] && corners[0] == corners[3];
  double share = square_share (carrier, square, size);
  if (share <= (is_same ? MOST_SHARE : MOST_MIXED_SHARE) || (is_same && size <= WHOLE))
    share_out (carrier, square, size, share, 0.25);
  else if (size == SMALLEST)
    g_array_append_val (closer, square);
  else
    for (int k = 0; k < 4; k++)
      {
        Square quarter = { i + (k & 1) * half, j + (k >> 1) * half };
        g_array_append_val (closer, quarter);
      }
}

static void
follow_balls (Carrier *carrier)
{
  g_autoptr (GArray) squares = g_array_new (FALSE, FALSE, sizeof (Square)),
                     closer = g_array_new (FALSE, FALSE, sizeof (Square));
  carrier->known = g_new (uint16_t, N_PLACES * N_PLACES);
  memset (carrier->known, 0xff, sizeof *carrier->known * N_PLACES * N_PLACES);
  for (int i = 0; i < N_PLACES; i++)
    carrier->below[i] = i == 0 ? 0 : i + 1 == N_PLACES ? 1 : normal_below (grid_deviation (i));
  for (int i = 0; i + 1 < N_PLACES; i += LARGEST)
    for (int j = 0; j + 1 < N_PLACES; j += LARGEST)
      {
        Square square = { i, j };
        g_array_append_val (squares, square);
      }
  for (int size = LARGEST; size >= SMALLEST; size /= 2)
    {
      follow_places (carrier, squares, size, false);
      g_array_set_size (closer, 0);
      for (guint k = 0; k < squares->len; k++)
        take_square (carrier, g_array_index (squares, Square, k), size, closer);
      GArray *swapped = squares;
      squares = closer;
      closer = swapped;
    }
  follow_places (carrier, squares, SMALLEST, true);
  for (guint k = 0; k < squares->len; k++)
    {
      Square square = g_array_index (squares, Square, k);
      share_out (carrier, square, SMALLEST, square_share (carrier, square, SMALLEST), 0.125);
    }
}

/* A share of all balls, of one fate: each canopy on their way stops some, the others go on. */
static void
end_fate (const Ends *ends, const Fate *fate, double share, double *rest)
{
  for (size_t i = 0; i < fate->stops.n; i++)
    {
      double density;
      woods_canopy (ends->woods, fate->stops.canopies[i], &density);
      rest[ends->end_of_canopy[fate->stops.canopies[i]]] += share * density;
      share *= 1 - density;
    }
  rest[fate->rests] += share;
}

/* What lands on each area, spread over where the balls went that landed there; of an area that none landed on everything stays. */
static void
spread (const Carrier *carrier, size_t n_areas, const double *landing, double *rest)
{
  const Fate *fates = (const Fate *)(const void *)carrier->fates->data;
  g_autofree double *landed = g_new0 (double, n_areas + 1);
  double share = carrier->strike->share;
  for (guint i = 0; i < carrier->fates->len; i++)
    landed[fates[i].lands] += fates[i].share;
  for (size_t k = 0; k <= n_areas; k++)
    if (!(landed[k] > 0))
      rest[k] += share * landing[k];
  for (guint i = 0; i < carrier->fates->len; i++)
    if (fates[i].share > 0)
      end_fate (carrier->ends, &fates[i], share * landing[fates[i].lands] * fates[i].share / landed[fates[i].lands], rest);
}

/* The same distribution by vectors turned in it. */
static Normal
skewed (Normal normal)
{
  double c = cos (SKEW_RAD), s = sin (SKEW_RAD);
  return (Normal){ .mean = normal.mean,
                   .a = vec2_add (vec2_scale (normal.a, c), vec2_scale (normal.b, s)),
                   .b = vec2_sub (vec2_scale (normal.b, c), vec2_scale (normal.a, s)) };
}

/* Where the grid's balls come down and, nearly all of them, run. */
static Box
reached (const Normal *normal, const FlightPoint *landing)
{
  double x = FARTHEST_SDS * hypot (normal->a.x, normal->b.x) * sqrt (2),
         y = FARTHEST_SDS * hypot (normal->a.y, normal->b.y) * sqrt (2);
  double run_m = RUN_SPEEDS_S * vec2_length (landing->v_mps);
  return box_grown ((Box){ normal->mean.x - x, normal->mean.y - y, normal->mean.x + x, normal->mean.y + y }, run_m);
}

void
rest_add (const Ends *ends, const Strike *strike, const double *landing, double *rest, RestVisit visit, void *data)
{
  const Ground *ground = ends->ground;
  g_autoptr (GArray) fates = g_array_new (FALSE, FALSE, sizeof (Fate));
  g_autofree Carrier *carrier = g_new0 (Carrier, 1);
  Traces traces;
  *carrier = (Carrier){ .ends = ends, .strike = strike, .fates = fates };
  carrier->normal = skewed (pattern_normal (&strike->pattern));
  if (visit != NULL)
    {
      traces_init (&traces);
      carrier->traces = &traces;
    }
  slope_patch_init (&carrier->patch, ground, reached (&carrier->normal, &strike->landing));
  if (vec2_length (strike->landing.v_mps) > 0)
    follow_balls (carrier);
  slope_patch_clear (&carrier->patch);
  spread (carrier, hole_n_areas (ground->hole), landing, rest);
  if (visit != NULL)
    {
      traces_tell (carrier, landing, visit, data);
      traces_clear (&traces);
    }
  g_free (carrier->known);
}

bool
odds_rest_of (const Hole *hole, const Conditions *conditions, const FlightPoint *landing, Vec2 *rest, GError **error)
{
  Ground ground;
  Run run;
  ground_init (&ground, hole, conditions);
  bool is_run = run_solve (landing, ground_surface, &ground, &run, error);
  if (is_run)
    *rest = run.rest;
  return is_run;
}
