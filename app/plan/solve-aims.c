// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One swing from one lie, aim by aim: where it comes down and how its pattern is parted into a round normal and nodes along the longer axis.
 */
#include "solve-private.h"

#include <math.h>

/* Aims of the first look lie this many side deviations apart at the landing; what is best between them is found later. */
#define COARSE_SDS 0.6
#define LEAST_STEP 2
#define MOST_STEP 16
/* A pattern longer than this many times its round part is seen at five nodes. */
#define FIVE_NODES_RATIO 0.7
/* No pattern is narrower: a ball is not placed by hand. */
#define LEAST_SD_M 0.3
/* Nor narrower than this many cells, between which it would fall. */
#define LEAST_SD_CELLS 0.6
/* Nearly all balls come down within so many deviations. */
#define MOST_SDS 3.5

Vec2
solve_aim_unit (int aim)
{
  /* Between the marks, so that a mirrored hole has mirrored aims and none lies on the border of two sectors. */
  double angle = PI / 2 + (aim + 0.5) * (2 * PI / N_AIMS);
  return vec2 (cos (angle), sin (angle));
}

int
solve_aim (Vec2 unit)
{
  double turn = (atan2 (unit.y, unit.x) - PI / 2) * (N_AIMS / (2 * PI));
  return ((int)floor (turn) + 2 * N_AIMS) % N_AIMS;
}

int
solve_aim_sector (int aim)
{
  return aim / (N_AIMS / N_SECTORS);
}

double
solve_aim_share (int aim)
{
  const int per = N_AIMS / N_SECTORS;
  return (aim % per + 0.5) / per;
}

const Node *
solve_nodes (int n_nodes)
{
  static const Node one[] = { { 0, 1 } };
  static const Node three[] = { { -1.7320508f, 1 / 6.0f }, { 0, 2 / 3.0f }, { 1.7320508f, 1 / 6.0f } };
  static const Node five[] = { { -2.8569700f, 0.0112574f },
                               { -1.3556262f, 0.2220759f },
                               { 0, 0.5333334f },
                               { 1.3556262f, 0.2220759f },
                               { 2.8569700f, 0.0112574f } };
  return n_nodes == 1 ? one : (n_nodes == 3 ? three : five);
}

/* The round part of the pattern, and the axis along which it is longer with the deviation that is left for it: along and right of the aim. */
static double
part_pattern (const Flown *flown, double cell_m, Vec2 *longer)
{
  double narrowest = fmax (LEAST_SD_M, LEAST_SD_CELLS * cell_m);
  double l = fmax (narrowest, flown->long_sd_m), s = fmax (narrowest, flown->side_sd_m), both = flown->correlation * l * s;
  double mean = (l * l + s * s) / 2, half = (l * l - s * s) / 2, radius = hypot (half, both);
  double least = fmax (narrowest * narrowest, mean - radius), angle = 0.5 * atan2 (both, half);
  double left = sqrt (fmax (0, mean + radius - least));
  *longer = vec2 (left * cos (angle), left * sin (angle));
  return sqrt (least);
}

static bool
look_at_sectors (const SolveGrid *grid, const Fleet *fleet, size_t swing, Lie lie, SwingAims *aims)
{
  bool is_any = false;
  for (int sector = 0; sector < N_SECTORS; sector++)
    {
      Flown flown;
      Vec2 longer;
      aims->sd_m[sector] = NAN;
      if (!fleet_flown (fleet, swing, lie, solve_sector_unit (sector), &flown))
        continue;
      is_any = true;
      aims->sd_m[sector] = part_pattern (&flown, grid->cell_m, &longer);
      double ratio = vec2_length (longer) / aims->sd_m[sector];
      aims->n_nodes[sector] = ratio < 0.02 ? 1 : (ratio < FIVE_NODES_RATIO ? 3 : 5);
      aims->run[sector] = worth_run (flown.run_m);
      aims->rise1[sector] = (float)flown.rise_m1;
      aims->rise2[sector] = (float)flown.rise_m2;
    }
  return is_any;
}

static void
look_at_aim (const SolveGrid *grid, const Fleet *fleet, size_t swing, Lie lie, int aim, SwingAims *aims)
{
  Flown flown;
  Vec2 longer, unit = solve_aim_unit (aim), right = vec2_scale (vec2_left (unit), -1);
  int sector = solve_aim_sector (aim), next = (sector + 1) % N_SECTORS;
  double share = solve_aim_share (aim);
  if (isnan (aims->sd_m[sector]) || isnan (aims->sd_m[next]) || !fleet_flown (fleet, swing, lie, unit, &flown))
    return;
  part_pattern (&flown, grid->cell_m, &longer);
  double cell = 1 / grid->cell_m;
  Vec2 land = vec2_add (vec2_scale (unit, flown.along_m), vec2_scale (right, flown.right_m));
  Vec2 known = vec2_lerp (vec2_scale (solve_sector_unit (sector), worth_runs_m[aims->run[sector]]),
                          vec2_scale (solve_sector_unit (next), worth_runs_m[aims->run[next]]), share);
  Vec2 run = vec2_sub (vec2_scale (unit, flown.run_m), known);
  Vec2 at = vec2_add (land, run), node = vec2_add (vec2_scale (unit, longer.x), vec2_scale (right, longer.y));
  aims->is_played[aim] = true;
  aims->land_x[aim] = (float)(land.x * cell);
  aims->land_y[aim] = (float)(land.y * cell);
  aims->x[aim] = (float)(at.x * cell);
  aims->y[aim] = (float)(at.y * cell);
  aims->node_x[aim] = (float)(node.x * cell);
  aims->node_y[aim] = (float)(node.y * cell);
  aims->reach_m = fmin (aims->reach_m, flown.along_m + flown.run_m);
  aims->farthest_m = fmax (aims->farthest_m, hypot (flown.along_m, flown.right_m));
  aims->spread_m = fmax (aims->spread_m, flown.run_m + MOST_SDS * fmax (flown.long_sd_m, flown.side_sd_m));
  double angle = COARSE_SDS * fmax (LEAST_SD_M, flown.side_sd_m) / flown.along_m;
  aims->step = (int)fmin (aims->step, fmax (LEAST_STEP, floor (angle * (N_AIMS / (2 * PI)))));
}

SwingAims *
swing_aims_new (const SolveGrid *grid, const Fleet *fleet, size_t swing, Lie lie)
{
  g_autofree SwingAims *aims = g_new0 (SwingAims, 1);
  aims->step = MOST_STEP;
  aims->reach_m = INFINITY;
  if (!look_at_sectors (grid, fleet, swing, lie, aims))
    return NULL;
  for (int aim = 0; aim < N_AIMS; aim++)
    look_at_aim (grid, fleet, swing, lie, aim, aims);
  return isfinite (aims->reach_m) ? g_steal_pointer (&aims) : NULL;
}
