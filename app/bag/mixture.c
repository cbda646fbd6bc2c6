// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Good and poor strikes told apart by expectation and maximisation: each step takes the chances that every shot was a poor one, and from them
 * the numbers of both kinds (Dempster, Laird and Rubin 1977). Where a step would make the poor strikes the narrower ones, both get the spread of
 * all. Several starts, on at most SAMPLE shots, tell the best hill; from its foot all shots lead up.
 */
#include "mixture-private.h"

#include <glib.h>
#include <math.h>

/* A place is not recorded more finely than this (common practice); no spread is taken as less. */
#define LEAST_SD_M 0.1
/* Nor is a correlation taken as closer to 1 than this. */
#define MOST_CORRELATION 0.999
/* ln (2 pi). */
#define LOG_TWO_PI 1.8378770664093454836

/* Shots on which the starts are tried. */
#define SAMPLE 2000
#define MOST_SAMPLE_STEPS 150
#define MOST_STEPS 1000
/* The search is over when no number moves by more than this share of its standard error. */
#define CLOSE_ENOUGH 1e-3
/* Fewer poor strikes than this are none. */
#define LEAST_POOR 0.5
/* More than this share are not the poor ones. */
#define MOST_SHARE 0.5

/* The shares of the shortest shots from which the search starts (common practice). */
static const double starts[] = { 0.02, 0.08, 0.25 };

/* ---- one normal ---- */

/* Sums over strikes, each with its weight, about a place near their middle. */
typedef struct
{
  double n, carry, side, carry_carry, side_side, carry_side;
} Sums;

static void
sums_add (Sums *sums, Strike at, double weight)
{
  double carry = weight * at.carry_m, side = weight * at.side_m;
  sums->n += weight;
  sums->carry += carry;
  sums->side += side;
  sums->carry_carry += carry * at.carry_m;
  sums->side_side += side * at.side_m;
  sums->carry_side += carry * at.side_m;
}

static Sums
sums_without (const Sums *all, const Sums *some)
{
  return (Sums){ all->n - some->n,
                 all->carry - some->carry,
                 all->side - some->side,
                 all->carry_carry - some->carry_carry,
                 all->side_side - some->side_side,
                 all->carry_side - some->carry_side };
}

static StrikeNormal
normal_of_sums (const Sums *sums)
{
  double carry_m = sums->carry / sums->n, side_m = sums->side / sums->n;
  double carry_sd_m = fmax (LEAST_SD_M, sqrt (fmax (0, sums->carry_carry / sums->n - carry_m * carry_m)));
  double side_sd_m = fmax (LEAST_SD_M, sqrt (fmax (0, sums->side_side / sums->n - side_m * side_m)));
  double correlation = (sums->carry_side / sums->n - carry_m * side_m) / (carry_sd_m * side_sd_m);
  return (StrikeNormal){ carry_m, side_m, carry_sd_m, side_sd_m, CLAMP (correlation, -MOST_CORRELATION, MOST_CORRELATION) };
}

static Strike
middle_of (const Strike *strikes, size_t n_strikes)
{
  Strike middle = { 0, 0 };
  for (size_t i = 0; i < n_strikes; i++)
    {
      middle.carry_m += strikes[i].carry_m / (double)n_strikes;
      middle.side_m += strikes[i].side_m / (double)n_strikes;
    }
  return middle;
}

static Strike
from_middle (Strike strike, Strike middle)
{
  return (Strike){ strike.carry_m - middle.carry_m, strike.side_m - middle.side_m };
}

static void
move_normal (StrikeNormal *normal, Strike by)
{
  normal->carry_m += by.carry_m;
  normal->side_m += by.side_m;
}

StrikeNormal
strike_normal_of (const Strike *strikes, size_t n_strikes)
{
  Strike middle = middle_of (strikes, n_strikes);
  Sums sums = { 0 };
  for (size_t i = 0; i < n_strikes; i++)
    sums_add (&sums, from_middle (strikes[i], middle), 1);
  StrikeNormal normal = normal_of_sums (&sums);
  move_normal (&normal, middle);
  return normal;
}

/* A normal with what its density needs worked out once. */
typedef struct
{
  StrikeNormal normal;
  double log_peak, per_carry_sd, per_side_sd, half_k;
} Density;

static Density
density_of (const StrikeNormal *normal, double share)
{
  double rest = 1 - normal->correlation * normal->correlation;
  return (Density){ *normal, log (share) - LOG_TWO_PI - log (normal->carry_sd_m * normal->side_sd_m) - log (rest) / 2,
                    1 / normal->carry_sd_m, 1 / normal->side_sd_m, 0.5 / rest };
}

static inline double
log_density (const Density *density, Strike at)
{
  double u = (at.carry_m - density->normal.carry_m) * density->per_carry_sd;
  double v = (at.side_m - density->normal.side_m) * density->per_side_sd;
  return density->log_peak - density->half_k * (u * u - 2 * density->normal.correlation * u * v + v * v);
}

double
strike_normal_log_likelihood (const StrikeNormal *normal, const Strike *strikes, size_t n_strikes)
{
  Density density = density_of (normal, 1);
  double sum = 0;
  for (size_t i = 0; i < n_strikes; i++)
    sum += log_density (&density, strikes[i]);
  return sum;
}

/* ---- two of them ---- */

double
mixture_log_likelihood (const Mixture *mixture, const Strike *strikes, size_t n_strikes)
{
  Density good = density_of (&mixture->good, 1 - mixture->share), poor = density_of (&mixture->poor, mixture->share);
  double sum = 0;
  for (size_t i = 0; i < n_strikes; i++)
    {
      double a = log_density (&good, strikes[i]), b = log_density (&poor, strikes[i]);
      sum += fmax (a, b) + log1p (exp (-fabs (a - b)));
    }
  return sum;
}

double
mixture_chance_poor (const Mixture *mixture, Strike strike)
{
  Density good = density_of (&mixture->good, 1 - mixture->share), poor = density_of (&mixture->poor, mixture->share);
  return 1 / (1 + exp (log_density (&good, strike) - log_density (&poor, strike)));
}

/* The larger spread for the poor strikes; where they have the smaller one, that of both together. */
static void
widen (double *good_sd_m, double *poor_sd_m, double share)
{
  if (*poor_sd_m < *good_sd_m)
    *good_sd_m = *poor_sd_m = sqrt ((1 - share) * *good_sd_m * *good_sd_m + share * *poor_sd_m * *poor_sd_m);
}

/* The mixture whose poor strikes have these sums. False when there are hardly any of one kind. */
static bool
mixture_of_sums (const Sums *all, const Sums *poor, Mixture *mixture)
{
  Sums good = sums_without (all, poor);
  if (poor->n < LEAST_POOR || good.n < N_NORMAL)
    return false;
  *mixture = (Mixture){ poor->n / all->n, normal_of_sums (&good), normal_of_sums (poor) };
  mixture->poor.correlation = 0;
  widen (&mixture->good.carry_sd_m, &mixture->poor.carry_sd_m, mixture->share);
  widen (&mixture->good.side_sd_m, &mixture->poor.side_sd_m, mixture->share);
  return true;
}

/* How far the numbers have moved, in spreads. */
static double
movement (const Mixture *a, const Mixture *b)
{
  const double moved[] = {
    a->share - b->share,
    (a->good.carry_m - b->good.carry_m) / b->good.carry_sd_m,
    (a->good.side_m - b->good.side_m) / b->good.side_sd_m,
    a->good.carry_sd_m / b->good.carry_sd_m - 1,
    a->good.side_sd_m / b->good.side_sd_m - 1,
    a->good.correlation - b->good.correlation,
    (a->poor.carry_m - b->poor.carry_m) / b->poor.carry_sd_m,
    (a->poor.side_m - b->poor.side_m) / b->poor.side_sd_m,
    a->poor.carry_sd_m / b->poor.carry_sd_m - 1,
    a->poor.side_sd_m / b->poor.side_sd_m - 1,
  };
  double most = 0;
  for (size_t i = 0; i < G_N_ELEMENTS (moved); i++)
    most = fmax (most, fabs (moved[i]));
  return most;
}

/* Climbs from `*mixture`. The strikes are those from their middle, `all` their sums. */
static bool
climb (const Strike *strikes, const Sums *all, int most_steps, Mixture *mixture)
{
  size_t n_strikes = (size_t)all->n;
  double close = CLOSE_ENOUGH / sqrt (all->n);
  for (int step = 0; step < most_steps; step++)
    {
      Density good = density_of (&mixture->good, 1 - mixture->share), poor = density_of (&mixture->poor, mixture->share);
      Sums sums = { 0 };
      for (size_t i = 0; i < n_strikes; i++)
        sums_add (&sums, strikes[i], 1 / (1 + exp (log_density (&good, strikes[i]) - log_density (&poor, strikes[i]))));
      Mixture before = *mixture;
      if (!mixture_of_sums (all, &sums, mixture))
        return false;
      if (movement (mixture, &before) < close)
        break;
    }
  return true;
}

static Sums
sums_of (const Strike *strikes, size_t n_strikes)
{
  Sums sums = { 0 };
  for (size_t i = 0; i < n_strikes; i++)
    sums_add (&sums, strikes[i], 1);
  return sums;
}

/* The best of the starts, tried on a sample evenly taken from the shots in their order. */
static bool
find_start (const Strike *strikes, size_t n_strikes, Mixture *best)
{
  size_t n_sample = MIN (n_strikes, SAMPLE);
  g_autofree Strike *sample = g_new (Strike, n_sample);
  for (size_t i = 0; i < n_sample; i++)
    sample[i] = strikes[(2 * i + 1) * n_strikes / (2 * n_sample)];
  Sums all = sums_of (sample, n_sample);
  double best_likelihood = -INFINITY;
  for (size_t s = 0; s < G_N_ELEMENTS (starts); s++)
    {
      Sums shortest = sums_of (sample, (size_t)fmax (1, starts[s] * (double)n_sample));
      Mixture mixture;
      if (!mixture_of_sums (&all, &shortest, &mixture) || !climb (sample, &all, MOST_SAMPLE_STEPS, &mixture))
        continue;
      double likelihood = mixture_log_likelihood (&mixture, sample, n_sample);
      if (likelihood > best_likelihood)
        {
          best_likelihood = likelihood;
          *best = mixture;
        }
    }
  return best_likelihood > -INFINITY;
}

bool
mixture_find (const Strike *strikes, size_t n_strikes, Mixture *mixture)
{
  Strike middle = middle_of (strikes, n_strikes);
  g_autofree Strike *centred = g_new (Strike, n_strikes);
  for (size_t i = 0; i < n_strikes; i++)
    centred[i] = from_middle (strikes[i], middle);
  Sums all = sums_of (centred, n_strikes);
  Mixture found;
  if (!find_start (centred, n_strikes, &found) || !climb (centred, &all, MOST_STEPS, &found)
      || found.poor.carry_m >= found.good.carry_m || found.share > MOST_SHARE)
    return false;
  move_normal (&found.good, middle);
  move_normal (&found.poor, middle);
  *mixture = found;
  return true;
}
