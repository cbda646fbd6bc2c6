// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Flights of 13 clubs in 24 winds, each landing true to a millimetre, one by one and batched, beside GSL's rk8pd one by one. GSL gets the loosest
 * tolerance, in steps of 1, 2, 5, with which all its landings are that true, its step kept from flight to flight, and the landing by three single
 * steps of its own. What is true is GSL at 1e-12.
 */
#include "bench.h"
#include "flight.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <stdio.h>
#include <stdlib.h>

#define N_CLUBS 13
#define N_WINDS 24
#define N_FLIGHTS (N_CLUBS * N_WINDS)
#define TRUE_M 1e-3
#define YARD_M 0.9144
/* 10 mph. */
#define WIND_MPS 4.4704
#define MILLI 1e3

typedef struct
{
  FlightInput inputs[N_FLIGHTS];
  FlightPoint landings[N_FLIGHTS];
  double gsl_tolerance;
} Bag;

static void
fill (Bag *bag)
{
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      FlightShape shape = { (75 + 14 * (i / N_WINDS)) * YARD_M, NAN, NAN, NAN };
      FlightInput *input = &bag->inputs[i];
      *input = (FlightInput){ .direction = { 0, 1 }, .air = air_standard () };
      double from = 2 * PI * (i % N_WINDS) / N_WINDS;
      input->wind = (Wind){ { WIND_MPS * cos (from), WIND_MPS * sin (from) }, ROUGHNESS_GRASS_M };
      if (!flight_launch (&shape, &input->launch, NULL))
        exit (EXIT_FAILURE);
    }
}

/* ---- the peer ---- */

typedef struct
{
  double k, rough_log, scale, wind_x, wind_y, axis[3];
} World;

static int
forces (double t_s, const double y[], double rates[], void *data)
{
  const World *w = data;
  double share = w->scale * (0.5 * log (y[2] * y[2] + WIND_LEAST_HEIGHT_M * WIND_LEAST_HEIGHT_M) - w->rough_log);
  double ux = y[3] - share * w->wind_x, uy = y[4] - share * w->wind_y, uz = y[5], v = sqrt (ux * ux + uy * uy + uz * uz);
  double s = fmin (0.75, fmax (0.02, y[6] * 0.021335 / v));
  double drag = w->k * v * (0.1304 + s * (0.9287 - 0.8259 * s)), lift = w->k * v * (0.0504 + s * (1.2031 - 1.1490 * s));
  rates[0] = y[3], rates[1] = y[4], rates[2] = y[5];
  rates[3] = lift * (w->axis[1] * uz - w->axis[2] * uy) - drag * ux;
  rates[4] = lift * (w->axis[2] * ux - w->axis[0] * uz) - drag * uy;
  rates[5] = lift * (w->axis[0] * uy - w->axis[1] * ux) - drag * uz - 9.80665;
  rates[6] = -8.948e-4 * v * y[6];
  return GSL_SUCCESS;
}

typedef struct
{
  gsl_odeiv2_step *step;
  gsl_odeiv2_control *control;
  gsl_odeiv2_evolve *evolve;
} Gsl;

static Gsl
gsl_make (double tolerance)
{
  return (Gsl){ gsl_odeiv2_step_alloc (gsl_odeiv2_step_rk8pd, 7), gsl_odeiv2_control_y_new (tolerance, tolerance),
                gsl_odeiv2_evolve_alloc (7) };
}

static void
gsl_free (Gsl *gsl)
{
  gsl_odeiv2_evolve_free (gsl->evolve);
  gsl_odeiv2_control_free (gsl->control);
  gsl_odeiv2_step_free (gsl->step);
}

static Vec2
gsl_land (Gsl *gsl, const FlightInput *input)
{
  const Launch *launch = &input->launch;
  double c = launch->speed_mps * cos (launch->angle_rad), area = PI * 0.021335 * 0.021335, felt = sqrt (104);
  World world = { 0.5 * input->air.density_kgm3 * area / 0.04593,
                  log (input->wind.roughness_m),
                  1 / log (felt / input->wind.roughness_m),
                  input->wind.to_mps.x,
                  input->wind.to_mps.y,
                  { 1, 0, 0 } };
  gsl_odeiv2_system system = { forces, NULL, 7, &world };
  double y[7] = { 0, 0, 0, 0, c, launch->speed_mps * sin (launch->angle_rad), launch->spin_radps }, off[7];
  double t_s = 0, h_s = 0.05;
  gsl_odeiv2_step_reset (gsl->step);
  gsl_odeiv2_evolve_reset (gsl->evolve);
  do
    gsl_odeiv2_evolve_apply (gsl->evolve, gsl->control, gsl->step, &system, &t_s, FLIGHT_LONGEST_S, &h_s, y);
  while (y[2] > 0);
  for (int i = 0; i < 3; i++)
    gsl_odeiv2_step_apply (gsl->step, t_s, -y[2] / y[5], y, off, NULL, NULL, &system);
  return vec2 (y[0], y[1]);
}

static double
run_gsl (void *data)
{
  const Bag *bag = data;
  Gsl gsl = gsl_make (bag->gsl_tolerance);
  double sum = 0;
  for (int i = 0; i < N_FLIGHTS; i++)
    sum += gsl_land (&gsl, &bag->inputs[i]).y;
  gsl_free (&gsl);
  return round (sum);
}

/* ---- ours ---- */

static double
run_single (void *data)
{
  Bag *bag = data;
  double sum = 0;
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      Flight flight;
      if (flight_solve (&bag->inputs[i], &flight, NULL))
        sum += flight_landing (&flight).at.y;
    }
  return round (sum);
}

static double
run_batch (void *data)
{
  Bag *bag = data;
  double sum = 0;
  if (flight_land_many (bag->inputs, N_FLIGHTS, bag->landings, NULL))
    for (int i = 0; i < N_FLIGHTS; i++)
      sum += bag->landings[i].at.y;
  return round (sum);
}

/* ---- how true each is ---- */

static double
worst_gsl (const Bag *bag, const Vec2 truth[N_FLIGHTS], double tolerance)
{
  Gsl gsl = gsl_make (tolerance);
  double worst_m = 0;
  for (int i = 0; i < N_FLIGHTS; i++)
    worst_m = fmax (worst_m, vec2_distance (gsl_land (&gsl, &bag->inputs[i]), truth[i]));
  gsl_free (&gsl);
  return worst_m;
}

static void
measure (Bag *bag)
{
  Vec2 truth[N_FLIGHTS];
  Gsl gsl = gsl_make (1e-12);
  double single_m = 0, batch_m = 0;
  run_batch (bag);
  for (int i = 0; i < N_FLIGHTS; i++)
    {
      Flight flight;
      truth[i] = gsl_land (&gsl, &bag->inputs[i]);
      if (flight_solve (&bag->inputs[i], &flight, NULL))
        single_m = fmax (single_m, vec2_distance (flight_landing (&flight).at, truth[i]));
      batch_m = fmax (batch_m, vec2_distance (bag->landings[i].at, truth[i]));
    }
  gsl_free (&gsl);
  static const double steps[] = { 5, 2, 1 };
  double decade = 1;
  for (int i = 0; bag->gsl_tolerance = decade * steps[i % 3], worst_gsl (bag, truth, bag->gsl_tolerance) > TRUE_M; i++)
    if (i % 3 == 2)
      decade /= 10;
  printf ("%d flights; worst landing: one by one %.2g mm, batched %.2g mm, GSL rk8pd at %.0e %.2g mm\n", N_FLIGHTS,
          MILLI * single_m, MILLI * batch_m, bag->gsl_tolerance, MILLI * worst_gsl (bag, truth, bag->gsl_tolerance));
}

int
main (void)
{
  Bag *bag = g_new0 (Bag, 1);
  fill (bag);
  measure (bag);
  BenchSide peer = { "GSL rk8pd", run_gsl, bag };
  bench_compare ("flights one by one", (BenchSide){ "flight_solve", run_single, bag }, peer, N_FLIGHTS, 4, 2.5);
  bench_compare ("flights batched", (BenchSide){ "flight_land_many", run_batch, bag }, peer, N_FLIGHTS, 15, 7);
  bench_compare ("13 clubs in 24 winds", (BenchSide){ "flight_land_many", run_batch, bag }, peer, 1, 15, 7);
  g_free (bag);
  return EXIT_SUCCESS;
}
