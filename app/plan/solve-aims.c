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

/* Of a full turn, from the way up the hole. Between the marks, so that a mirrored hole has mirrored aims and none lies on the border of two sectors. */
static double
turn_of (int aim)
{
  return (aim + 0.5) / N_AIMS;
}

Vec2
solve_aim_unit (int aim)
{
  double angle = PI / 2 + 2 * PI * turn_of (aim);
  return vec2 (cos (angle), sin (angle));
}

int
solve_aim (Vec2 unit)
{
  double turn = (atan2 (unit.y, unit.x) - PI / 2) * (N_AIMS / (2 * PI));
  return ((int)floor (turn) + 2 * N_AIMS) % N_AIMS;
}

/* ---- one aim ---- */

/* Of the way that a ball goes which drifts so far right of its aim, 0 up to N_SECTORS. */
static double
sector_of (int aim, double drift_rad)
{
  double sector = N_SECTORS * (turn_of (aim) - drift_rad / (2 * PI));
  sector -= N_SECTORS * floor (sector / N_SECTORS);
  return sector < N_SECTORS ? sector : 0;
}

/* Lengths as worth_run has them by a metre. */
static double
runs_by_m (double run_m)
{
  return worth_run (run_m + 0.5) - worth_run (fmax (0, run_m - 0.5));
}

/* What aims have in common that are flown so, seen along the aim. */
typedef struct
{
  double along_m, right_m, drift_rad;
  double ll, ls, ss; /* covariance, m2: along, both, to the right */
  double run, rise1, rise2, run_rise;
} Common;

static Common
common_of (const Flown *flown)
{
  double l = fmax (LEAST_SD_M, flown->long_sd_m), s = fmax (LEAST_SD_M, flown->side_sd_m);
  /* What runs further than the last of the lengths comes down so much later. */
  double past_m = fmax (0, flown->run_m - worth_runs_m[N_RUNS - 1]);
  return (Common){ .along_m = flown->along_m + past_m,
                   .right_m = flown->right_m,
                   .drift_rad = flown->drift_rad,
                   .ll = l * l,
                   .ls = flown->correlation * l * s,
                   .ss = s * s,
                   .run = worth_run (flown->run_m),
                   .rise1 = flown->rise_m1,
                   .rise2 = flown->rise_m2,
                   .run_rise = flown->run_rise * runs_by_m (flown->run_m) };
}

/* What the swing is as a whole, of one way that it is flown. */
static void
note_flown (const Flown *flown, const Common *common, SwingAims *aims)
{
  double least_variance = (common->ll + common->ss) / 2 - hypot ((common->ll - common->ss) / 2, common->ls);
  aims->least_variance = (float)fmin (aims->least_variance, least_variance);
  aims->up_along_m = flown->up_along_m;
  aims->up_along_m2 = flown->up_along_m2;
  aims->up_right_m = flown->up_right_m;
  aims->up_rise1 = flown->up_rise_m1;
  aims->up_run = flown->up_run_m * runs_by_m (flown->run_m);
  aims->side_along_m = flown->side_along_m;
  aims->side_right_m = flown->side_right_m;
  aims->reach_m = fmin (aims->reach_m, flown->along_m + flown->run_m);
  aims->far_m = fmax (aims->far_m, hypot (common->along_m, common->right_m));
  aims->run_m = fmax (aims->run_m, flown->run_m);
  aims->long_sd_m = fmax (aims->long_sd_m, fmax (flown->long_sd_m, flown->side_sd_m));
  double angle = COARSE_SDS * sqrt (common->ss) / flown->along_m;
  aims->step = (int)fmin (aims->step, fmax (LEAST_STEP, floor (angle * (N_AIMS / (2 * PI)))));
}

static void
note_aim (const Common *common, int i, Vec2 u, SwingAim *aim)
{
  double ll = common->ll, ls = common->ls, ss = common->ss;
  Vec2 right = vec2_scale (vec2_left (u), -1);
  Vec2 land = vec2_add (vec2_scale (u, common->along_m), vec2_scale (right, common->right_m));
  *aim = (SwingAim){ .x_m = (float)land.x,
                     .y_m = (float)land.y,
                     .xx = (float)(ll * u.x * u.x + 2 * ls * u.x * right.x + ss * right.x * right.x),
                     .xy = (float)(ll * u.x * u.y + ls * (u.x * right.y + u.y * right.x) + ss * right.x * right.y),
                     .yy = (float)(ll * u.y * u.y + 2 * ls * u.y * right.y + ss * right.y * right.y),
                     .run = (float)common->run,
                     .sector = (float)sector_of (i, common->drift_rad),
                     .rise1 = (float)common->rise1,
                     .rise2 = (float)common->rise2,
                     .run_rise = (float)common->run_rise };
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

/* Aims `first` up to `end` are flown so. */
static void
note_aims (const Flown *flown, int first, int end, const Vec2 *units, SwingAims *aims)
{
  Common common = common_of (flown);
  note_flown (flown, &common, aims);
  for (int aim = first; aim < end; aim++)
    note_aim (&common, aim, units[aim], &aims->aims[aim]);
}

SwingAims *
swing_aims_new (const Fleet *fleet, size_t swing, Lie lie, const Vec2 units[N_AIMS])
{
  SwingAims *aims = aims_new ();
  bool is_any = false;
  /* Without wind all aims are flown alike. */
  int n = fleet->n_headings == 1 ? N_AIMS : 1;
  for (int aim = 0; aim < N_AIMS; aim += n)
    {
      Flown flown;
      if (!fleet_flown_turned (fleet, swing, lie, turn_of (aim), &flown))
        continue;
      is_any = true;
      note_aims (&flown, aim, aim + n, units, aims);
      if (!(flown.poor_share > 0))
        continue;
      if (aims->poor == NULL)
        aims->poor = aims_new ();
      aims->poor_share = (float)flown.poor_share;
      Flown poor = flown_poor (&flown);
      note_aims (&poor, aim, aim + n, units, aims->poor);
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
