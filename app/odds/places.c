// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where the odds are written. A pattern's density falls with the distance from its mean in deviations, so that of an area's places the nearest so is looked for: on rings
 * about the mean, and then on finer ones about the place found.
 */
#include "odds-places.h"

#include <math.h>
#include <stdlib.h>

#define N_RINGS 35
#define N_DIRECTIONS 48
/* So much finer are the second look's steps. */
#define FINER 8

/* A place by its distance from the mean in deviations, and its direction. */
typedef struct
{
  double sds, direction_rad;
} Polar;

static Vec2
place_of (const Normal *normal, Polar polar)
{
  double u = polar.sds * cos (polar.direction_rad), v = polar.sds * sin (polar.direction_rad);
  return vec2_add (normal->mean, vec2_add (vec2_scale (normal->a, u), vec2_scale (normal->b, v)));
}

/* Index among the places of what lies there, or -1. */
static int
index_at (const Hole *hole, Vec2 at, const OddsPlace *places, size_t n)
{
  int part = hole_area_at (hole, at);
  for (size_t i = 0; i < n; i++)
    if (places[i].part == part)
      return (int)i;
  return -1;
}

/* The first place of each area on rings that grow; `found` of those not met before stays NAN. */
static void
look_round (const Hole *hole, const Normal *normal, const OddsPlace *places, size_t n, Polar *found)
{
  for (int ring = 0; ring <= N_RINGS; ring++)
    for (int k = 0; k < (ring == 0 ? 1 : N_DIRECTIONS); k++)
      {
        Polar polar = { PLACE_SDS * ring / N_RINGS, 2 * PI * k / N_DIRECTIONS };
        int i = index_at (hole, place_of (normal, polar), places, n);
        if (i >= 0 && isnan (found[i].sds))
          found[i] = polar;
      }
}

/* A nearer place of the same area within a step of the one found. */
static Polar
look_closer (const Hole *hole, const Normal *normal, int part, Polar found)
{
  Polar best = found;
  for (int ring = FINER; ring > 0; ring--)
    for (int k = -FINER; k <= FINER; k++)
      {
        Polar polar
            = { found.sds - PLACE_SDS * ring / (N_RINGS * FINER), found.direction_rad + 2 * PI * k / (N_DIRECTIONS * FINER) };
        if (polar.sds >= 0 && polar.sds < best.sds && hole_area_at (hole, place_of (normal, polar)) == part)
          best = polar;
      }
  return best;
}

/* Of the places without one. */
static void
place_by (const Hole *hole, const Pattern *pattern, OddsPlace *places, size_t n)
{
  Normal normal = pattern_normal (pattern);
  g_autofree Polar *found = g_new (Polar, n + 1);
  for (size_t i = 0; i < n; i++)
    found[i].sds = NAN;
  look_round (hole, &normal, places, n, found);
  for (size_t i = 0; i < n; i++)
    if (isnan (places[i].at.x) && !isnan (found[i].sds))
      places[i].at = place_of (&normal, look_closer (hole, &normal, places[i].part, found[i]));
}

static int
compare_places (const void *a, const void *b)
{
  const OddsPlace *p = a, *q = b;
  bool p_hurts = kind_info (p->kind)->is_trouble, q_hurts = kind_info (q->kind)->is_trouble;
  if (p_hurts != q_hurts)
    return p_hurts ? -1 : 1;
  if (p->chance != q->chance)
    return p->chance > q->chance ? -1 : 1;
  return (p->part > q->part) - (p->part < q->part);
}

size_t
odds_places (const Hole *hole, const ShotResult *shot, const OddsTable *odds, OddsPlace *places, size_t most)
{
  g_autofree OddsPlace *all = g_new (OddsPlace, odds->n_rows + 1);
  size_t n = 0, n_placed = 0;
  for (size_t i = 0; i < odds->n_rows; i++)
    {
      const OddsRow *row = &odds->rows[i];
      if (row->rest >= (kind_info (row->kind)->is_trouble ? PLACE_LEAST_TROUBLE : PLACE_LEAST_CHANCE))
        all[n++] = (OddsPlace){ row->part, row->kind, row->rest, { NAN, NAN } };
    }
  place_by (hole, &shot->rest_pattern, all, n);
  place_by (hole, &shot->pattern, all, n);
  qsort (all, n, sizeof *all, compare_places);
  for (size_t i = 0; i < n && n_placed < most; i++)
    if (!isnan (all[i].at.x))
      places[n_placed++] = all[i];
  return n_placed;
}
