// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What recorded shots tell of a club, each figure with its standard error, and how it comes into a bag.
 */
#include "bag-private.h"
#include "mixture-private.h"

#include <math.h>
#include <stdlib.h>

static const Figure unknown = { NAN, NAN };

static int
by_carry_then_side (const void *a, const void *b)
{
  const Strike *x = a, *y = b;
  if (x->carry_m != y->carry_m)
    return x->carry_m < y->carry_m ? -1 : 1;
  return x->side_m < y->side_m ? -1 : x->side_m > y->side_m;
}

/* In order, so that the order in the file leaves no trace in any rounding. */
static Strike *
sorted_strikes (const ClubShots *shots)
{
  Strike *strikes = g_new (Strike, shots->n_shots);
  for (size_t i = 0; i < shots->n_shots; i++)
    strikes[i] = (Strike){ shots->carry_m[i], shots->side_m[i] };
  qsort (strikes, shots->n_shots, sizeof *strikes, by_carry_then_side);
  return strikes;
}

/* ---- one normal ---- */

static void
fit_moments (const Strike *strikes, size_t n_strikes, ClubFit *fit)
{
  double n = (double)n_strikes, carry_m = 0, side_m = 0, cc = 0, ss = 0, cs = 0;
  for (size_t i = 0; i < n_strikes; i++)
    {
      carry_m += strikes[i].carry_m / n;
      side_m += strikes[i].side_m / n;
    }
  for (size_t i = 0; i < n_strikes; i++)
    {
      double c = strikes[i].carry_m - carry_m, s = strikes[i].side_m - side_m;
      cc += c * c;
      ss += s * s;
      cs += c * s;
    }
  fit->carry_m.value = carry_m;
  fit->side_bias_m.value = side_m;
  if (n_strikes < 2)
    return;
  double carry_sd_m = sqrt (cc / (n - 1)), side_sd_m = sqrt (ss / (n - 1));
  fit->carry_m.se = carry_sd_m / sqrt (n);
  fit->side_bias_m.se = side_sd_m / sqrt (n);
  if (n_strikes < FIT_LEAST_SHOTS)
    return;
  fit->carry_sd_m = (Figure){ carry_sd_m, carry_sd_m / sqrt (2 * (n - 1)) };
  fit->side_sd_m = (Figure){ side_sd_m, side_sd_m / sqrt (2 * (n - 1)) };
  if (!(cc > 0 && ss > 0))
    return;
  double r = CLAMP (cs / sqrt (cc * ss), -1, 1);
  fit->correlation = (Figure){ r, (1 - r * r) / sqrt (n - 1) };
}

/* ---- two of them ---- */

/* Schwarz 1978: half of ln n for each number that was free. */
static double
penalty (int n_numbers, size_t n_strikes)
{
  return 0.5 * n_numbers * log ((double)n_strikes);
}

static bool
are_mixed (const Strike *strikes, size_t n_strikes, Mixture *mixture)
{
  if (n_strikes < FIT_LEAST_MIXED || !mixture_find (strikes, n_strikes, mixture))
    return false;
  StrikeNormal alone = strike_normal_of (strikes, n_strikes);
  double one = strike_normal_log_likelihood (&alone, strikes, n_strikes) - penalty (N_NORMAL, n_strikes);
  double two = mixture_log_likelihood (mixture, strikes, n_strikes) - penalty (N_MIXTURE, n_strikes);
  return two > one;
}

/* Standard errors as if it were known which strikes were the poor ones, for shots that tell too little else. */
static void
simple_covariance (const Mixture *mixture, size_t n_strikes, double covariance[N_MIXTURE][N_MIXTURE])
{
  double n_good = (1 - mixture->share) * (double)n_strikes, n_poor = mixture->share * (double)n_strikes;
  const StrikeNormal *good = &mixture->good, *poor = &mixture->poor;
  double rest = 1 - good->correlation * good->correlation;
  const double variances[N_MIXTURE] = {
    [MIXTURE_SHARE] = mixture->share * (1 - mixture->share) / (double)n_strikes,
    [MIXTURE_GOOD_CARRY] = good->carry_sd_m * good->carry_sd_m / n_good,
    [MIXTURE_GOOD_SIDE] = good->side_sd_m * good->side_sd_m / n_good,
    [MIXTURE_GOOD_CARRY_SD] = good->carry_sd_m * good->carry_sd_m / (2 * n_good),
    [MIXTURE_GOOD_SIDE_SD] = good->side_sd_m * good->side_sd_m / (2 * n_good),
    [MIXTURE_GOOD_CORRELATION] = rest * rest / n_good,
    [MIXTURE_POOR_CARRY] = poor->carry_sd_m * poor->carry_sd_m / n_poor,
  };
  for (int i = 0; i < N_MIXTURE; i++)
    for (int j = 0; j < N_MIXTURE; j++)
      covariance[i][j] = i == j ? variances[i] : 0;
}

static void
fit_mixture (const Mixture *mixture, const Strike *strikes, size_t n_strikes, ClubFit *fit)
{
  double covariance[N_MIXTURE][N_MIXTURE], se[N_MIXTURE];
  if (!mixture_covariance (mixture, strikes, n_strikes, covariance))
    simple_covariance (mixture, n_strikes, covariance);
  for (int i = 0; i < N_MIXTURE; i++)
    se[i] = sqrt (covariance[i][i]);
  const StrikeNormal *good = &mixture->good;
  /* Maximum likelihood divides by n; what is told divides by n - 1, as without poor strikes. */
  double n_good = (1 - mixture->share) * (double)n_strikes, unbiased = sqrt (n_good / (n_good - 1));
  fit->has_mishits = true;
  fit->carry_m = (Figure){ good->carry_m, se[MIXTURE_GOOD_CARRY] };
  fit->side_bias_m = (Figure){ good->side_m, se[MIXTURE_GOOD_SIDE] };
  fit->carry_sd_m = (Figure){ unbiased * good->carry_sd_m, unbiased * se[MIXTURE_GOOD_CARRY_SD] };
  fit->side_sd_m = (Figure){ unbiased * good->side_sd_m, unbiased * se[MIXTURE_GOOD_SIDE_SD] };
  fit->correlation = (Figure){ good->correlation, se[MIXTURE_GOOD_CORRELATION] };
  fit->mishit_chance = (Figure){ mixture->share, se[MIXTURE_SHARE] };
  /* The error of a ratio, by its slopes. */
  double ratio = fmax (0, mixture->poor.carry_m / good->carry_m);
  double variance = covariance[MIXTURE_POOR_CARRY][MIXTURE_POOR_CARRY]
                    - 2 * ratio * covariance[MIXTURE_POOR_CARRY][MIXTURE_GOOD_CARRY]
                    + ratio * ratio * covariance[MIXTURE_GOOD_CARRY][MIXTURE_GOOD_CARRY];
  fit->mishit_carry_share = (Figure){ ratio, sqrt (fmax (0, variance)) / good->carry_m };
}

void
club_fit (const ClubShots *shots, ClubFit *fit)
{
  g_assert (shots->n_shots > 0);
  *fit = (ClubFit){ .club = shots->club,
                    .n_shots = shots->n_shots,
                    .carry_m = unknown,
                    .carry_sd_m = unknown,
                    .side_bias_m = unknown,
                    .side_sd_m = unknown,
                    .correlation = unknown,
                    .mishit_chance = unknown,
                    .mishit_carry_share = unknown };
  g_autofree Strike *strikes = sorted_strikes (shots);
  Mixture mixture;
  if (are_mixed (strikes, shots->n_shots, &mixture))
    fit_mixture (&mixture, strikes, shots->n_shots, fit);
  else
    fit_moments (strikes, shots->n_shots, fit);
}

FitWorth
club_fit_worth (const ClubFit *fit)
{
  return fit->n_shots < FIT_LEAST_SHOTS   ? FIT_TELLS_NO_SPREAD
         : fit->n_shots < FIT_LEAST_MIXED ? FIT_TELLS_NO_MISHITS
                                          : FIT_TELLS_ALL;
}

/* ---- the bag ---- */

static gint
by_carry_longest_first (gconstpointer a, gconstpointer b, gpointer data)
{
  const ClubFit *x = a, *y = b;
  return x->carry_m.value < y->carry_m.value ? 1 : x->carry_m.value > y->carry_m.value ? -1 : 0;
}

ClubFit *
bag_fit (const ShotLog *log)
{
  size_t n_clubs = shot_log_n_clubs (log);
  ClubFit *fits = g_new (ClubFit, n_clubs);
  for (size_t i = 0; i < n_clubs; i++)
    {
      ClubShots shots = shot_log_club (log, i);
      club_fit (&shots, &fits[i]);
    }
  g_qsort_with_data (fits, (gint)n_clubs, sizeof *fits, by_carry_longest_first, NULL);
  return fits;
}

/* A figure, or what is there already where it cannot be told. */
static double
told (Figure figure, double present)
{
  return isfinite (figure.value) ? figure.value : present;
}

static void
apply_fit (const ClubFit *fit, Club *club)
{
  club->carry_m = fit->carry_m.value;
  club->side_bias_m = fit->side_bias_m.value;
  club->correlation = told (fit->correlation, club->correlation);
  club->mishit_chance = told (fit->mishit_chance, club->mishit_chance);
  club->mishit_carry_share = told (fit->mishit_carry_share, club->mishit_carry_share);
  club->carry_sd_m = told (fit->carry_sd_m, club->carry_sd_m);
  club->side_sd_m = told (fit->side_sd_m, club->side_sd_m);
  club->errors = (ClubErrors){ .n_shots = fit->n_shots,
                               .carry_m = fit->carry_m.se,
                               .carry_sd_m = fit->carry_sd_m.se,
                               .side_sd_m = fit->side_sd_m.se,
                               .correlation = fit->correlation.se,
                               .side_bias_m = fit->side_bias_m.se,
                               .mishit_chance = fit->mishit_chance.se,
                               .mishit_carry_share = fit->mishit_carry_share.se };
}

Bag *
bag_with_fit (const Bag *bag, const ClubFit *fits, size_t n_fits, GError **error)
{
  g_autofree Club *clubs = g_new (Club, n_fits);
  for (size_t i = 0; i < n_fits; i++)
    {
      const Club *known = bag_find (bag, fits[i].club);
      if (known != NULL)
        clubs[i] = *known;
      else
        {
          club_init (&clubs[i]);
          clubs[i].name = (char *)fits[i].club;
        }
      apply_fit (&fits[i], &clubs[i]);
    }
  return bag_with_clubs (bag, clubs, n_fits, error);
}
