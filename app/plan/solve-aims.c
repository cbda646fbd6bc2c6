// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * One swing from one lie, aim by aim: where it comes down, how widely, and how far it runs on.
 */
#include "solve-private.h"

#include <math.h>

/* Aims of the first look lie this many side deviations apart at the landing; what is best between them is found later. */
#define COARSE_SDS 0.6
#define LEAST_STEP 2
#define MOST_STEP 16
/* No pattern is narrower: a ball is not placed by hand. */
#define LEAST_SD_M 0.3

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

/* ---- one aim ---- */

/* Least variance in any direction. */
static double
least_variance (const SwingAim *aim)
{
  return (aim->xx + aim->yy) / 2 - hypot ((aim->xx - aim->yy) / 2, aim->xy);
}

/* Of the way that a ball goes which drifts so far right of its aim, 0 up to N_SECTORS. */
static double
sector_of (Vec2 aim, double drift_rad)
{
  double sector = (atan2 (aim.y, aim.x) - drift_rad - PI / 2) / (2 * PI / N_SECTORS);
  sector -= N_SECTORS * floor (sector / N_SECTORS);
  return sector < N_SECTORS ? sector : 0;
}

/* Lengths as worth_run has them by a metre. */
static double
runs_by_m (double run_m)
{
  return worth_run (run_m + 0.5) - worth_run (fmax (0, run_m - 0.5));
}

static void
note_aim (Flown flown, int i, SwingAims *aims)
{
  SwingAim *aim = &aims->aims[i];
  Vec2 u = solve_aim_unit (i), right = vec2_scale (vec2_left (u), -1);
  double l = fmax (LEAST_SD_M, flown.long_sd_m), s = fmax (LEAST_SD_M, flown.side_sd_m), both = flown.correlation * l * s;
  double run = worth_run (flown.run_m), past_m = fmax (0, flown.run_m - worth_runs_m[N_RUNS - 1]);
  /* What runs further than the last of the lengths comes down so much later. */
  Vec2 land = vec2_add (vec2_scale (u, flown.along_m + past_m), vec2_scale (right, flown.right_m));
  *aim = (SwingAim){ .x_m = (float)land.x,
                     .y_m = (float)land.y,
                     .xx = (float)(l * l * u.x * u.x + 2 * both * u.x * right.x + s * s * right.x * right.x),
                     .xy = (float)(l * l * u.x * u.y + both * (u.x * right.y + u.y * right.x) + s * s * right.x * right.y),
                     .yy = (float)(l * l * u.y * u.y + 2 * both * u.y * right.y + s * s * right.y * right.y),
                     .run = (float)run,
                     .sector = (float)sector_of (u, flown.drift_rad),
                     .rise1 = (float)flown.rise_m1,
                     .rise2 = (float)flown.rise_m2,
                     .run_rise = (float)(flown.run_rise * runs_by_m (flown.run_m)) };
  aims->least_variance = (float)fmin (aims->least_variance, least_variance (aim));
  aims->up_along_m = flown.up_along_m;
  aims->up_along_m2 = flown.up_along_m2;
  aims->up_right_m = flown.up_right_m;
  aims->up_rise1 = flown.up_rise_m1;
  aims->up_run = flown.up_run_m * runs_by_m (flown.run_m);
  aims->side_along_m = flown.side_along_m;
  aims->side_right_m = flown.side_right_m;
  aims->reach_m = fmin (aims->reach_m, flown.along_m + flown.run_m);
  aims->far_m = fmax (aims->far_m, vec2_length (land));
  aims->run_m = fmax (aims->run_m, flown.run_m);
  aims->long_sd_m = fmax (aims->long_sd_m, fmax (flown.long_sd_m, flown.side_sd_m));
  double angle = COARSE_SDS * s / flown.along_m;
  aims->step = (int)fmin (aims->step, fmax (LEAST_STEP, floor (angle * (N_AIMS / (2 * PI)))));
}

static SwingAims *
aims_new (void)
{
  SwingAims *aims = g_new0 (SwingAims, 1);
  aims->step = MOST_STEP;
  aims->reach_m = INFINITY;
  aims->least_variance = INFINITY;
  for (int aim = 0; aim < N_AIMS; aim++)
    aims->aims[aim].run = -1;
  return aims;
}

SwingAims *
swing_aims_new (const Fleet *fleet, size_t swing, Lie lie)
{
  SwingAims *aims = aims_new ();
  bool is_any = false;
  for (int aim = 0; aim < N_AIMS; aim++)
    {
      Flown flown;
      if (!fleet_flown (fleet, swing, lie, solve_aim_unit (aim), &flown))
        continue;
      is_any = true;
      note_aim (flown, aim, aims);
      if (!(flown.poor_share > 0))
        continue;
      if (aims->poor == NULL)
        aims->poor = aims_new ();
      aims->poor_share = (float)flown.poor_share;
      note_aim (flown_poor (&flown), aim, aims->poor);
    }
  if (is_any)
    return aims;
  swing_aims_free (aims);
  return NULL;
}

void
swing_aims_free (SwingAims *aims)
{
  if (aims == NULL)
    return;
  g_free (aims->poor);
  g_free (aims);
}
