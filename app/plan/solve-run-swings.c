// SPDX-License-Identifier: GPL-3.0-or-later
/* How balls of a plan come down: what a usual bag's do that run so far. */
#include "solve-run-parts-private.h"

#include <math.h>

/* So many swings, their shares added up, tell how balls come down. */
#define LEAST_COUNT 0.2
/* Tangent of the angle at which a ball comes down, at least. */
#define LEAST_DESCENT 0.05

static bool
run_level (const Surface *fairway, const Impact *impact, Run *run)
{
  FlightPoint landing = { .v_mps = impact->v_mps, .vz_mps = impact->vz_mps, .spin_radps = impact->spin_radps };
  return run_solve_level (&landing, fairway, run, NULL);
}

/* How far the ball runs that is so much faster over the ground. */
static double
run_of (const Surface *fairway, const Impact *impact, double faster)
{
  Impact other = { vec2_scale (impact->v_mps, faster), impact->vz_mps, impact->spin_radps };
  Run run;
  return run_level (fairway, &other, &run) ? run.rest.x : 0;
}

/* A ball that is a little slower or faster over the ground runs less far or farther; much faster, it digs in. */
#define LEAST_FASTER 0.8
#define MOST_FASTER 1.25
#define MOST_HALVINGS 20
/* What is still lacking is made up for by stretching the way that it runs, so much at most. */
#define MOST_STRETCH 2.5
#define NEAR_ENOUGH 0.01

/* Makes the ball run just so far on a level fairway. Returns what its way is still to be multiplied by. */
static double
fit_impact (const Surface *fairway, double run_m, Impact *impact)
{
  double slow = LEAST_FASTER, fast = MOST_FASTER;
  if (!(run_m > 0))
    return 1;
  for (int i = 0; i < MOST_HALVINGS; i++)
    {
      double middle = (slow + fast) / 2;
      if (run_of (fairway, impact, middle) < run_m)
        slow = middle;
      else
        fast = middle;
    }
  double fitted_m = run_of (fairway, impact, slow), found_m = run_of (fairway, impact, 1);
  if (fabs (fitted_m - run_m) < fabs (found_m - run_m))
    {
      impact->v_mps = vec2_scale (impact->v_mps, slow);
      found_m = fitted_m;
    }
  double stretch = found_m > 0 ? run_m / found_m : 1;
  return fabs (stretch - 1) < NEAR_ENOUGH ? 1 : fmin (MOST_STRETCH, fmax (1 / MOST_STRETCH, stretch));
}

/* The mean of swings that run about so far. */
typedef struct
{
  double count, run_m;
  Impact impact;
} Mean;

static void
add_flown (Mean *means, const Flown *flown)
{
  if (!(flown->along_m > 0))
    return;
  double at = worth_run (flown->run_m);
  int run = (int)fmin (N_RUNS - 2, at);
  for (int k = 0; k < 2; k++)
    {
      double share = k == 0 ? 1 - (at - run) : at - run;
      Mean *mean = &means[run + k];
      mean->count += share;
      mean->run_m += share * flown->run_m;
      mean->impact.v_mps.x += share * flown->land_mps;
      mean->impact.vz_mps -= share * flown->fall_mps;
      mean->impact.spin_radps += share * flown->spin_radps;
    }
}

static double
mixed (double a, double b, double share)
{
  return a + share * (b - a);
}

/* Between the two means on either side of a run; beyond them the last one. `means` are divided by their counts. */
static Impact
impact_at (const Mean *means, int n, double run_m)
{
  int i = 0;
  while (i + 2 < n && means[i + 1].run_m < run_m)
    i++;
  const Mean *a = &means[i], *b = &means[MIN (i + 1, n - 1)];
  double width_m = b->run_m - a->run_m, share = width_m > 0 ? fmin (1, fmax (0, (run_m - a->run_m) / width_m)) : 0;
  return (Impact){ vec2 (mixed (a->impact.v_mps.x, b->impact.v_mps.x, share), 0),
                   mixed (a->impact.vz_mps, b->impact.vz_mps, share),
                   mixed (a->impact.spin_radps, b->impact.spin_radps, share) };
}

/* How balls come down: as full swings of a usual bag do in such air without wind, so that it is not another thing for another bag. */
void
run_swings_find (const Conditions *conditions, RunSwings *swings)
{
  Surface fairway = odds_surface (LIE_FAIRWAY, conditions);
  Mean sums[N_RUNS] = { 0 }, means[N_RUNS];
  *swings = (RunSwings){ 0 };
  g_autoptr (Bag) usual = bag_new_usual ("usual", UNIT_METRES, LEVEL_SCRATCH_MEN);
  LieTable lies = lie_table_usual ();
  Conditions still = *conditions;
  still.wind.to_mps = vec2 (0, 0);
  for (size_t i = 0; i < bag_n_clubs (usual); i++)
    {
      ShotInput swing = { .club = bag_club (usual, i), .swing = 1, .curve_m = NAN, .conditions = &still };
      Flown flown;
      if (fleet_fly (&swing, &lies, LIE_TEE, vec2 (0, 1), &flown))
        add_flown (sums, &flown);
    }
  int n = 0;
  for (int run = 0; run < N_RUNS; run++)
    {
      const Mean *sum = &sums[run];
      double share = 1 / sum->count;
      if (sum->count > LEAST_COUNT)
        means[n++]
            = (Mean){ 1,
                      share * sum->run_m,
                      { vec2_scale (sum->impact.v_mps, share), share * sum->impact.vz_mps, share * sum->impact.spin_radps } };
    }
  for (int run = 0; run < N_RUNS && n > 0; run++)
    {
      Impact *landing = &swings->landings[run];
      *landing = impact_at (means, n, worth_runs_m[run]);
      swings->stretch[run] = fit_impact (&fairway, worth_runs_m[run], landing);
      swings->descents[run] = landing->v_mps.x > 0 ? fmax (LEAST_DESCENT, -landing->vz_mps / landing->v_mps.x) : 1;
    }
}
