// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * How sure the numbers of a mixture are: the information of the shots if each one's kind were known, less what not knowing it takes away (Louis 1982,
 * J. R. Statist. Soc. B 44:226-233), inverted.
 */
#include "mixture-private.h"

#include <math.h>
#include <string.h>

typedef double Matrix[N_MIXTURE][N_MIXTURE];

/* Slope of ln density of a normal by its numbers: mean, spreads, correlation. */
static void
normal_score (const StrikeNormal *normal, Strike at, double score[N_NORMAL])
{
  double r = normal->correlation, k = 1 / (1 - r * r);
  double u = (at.carry_m - normal->carry_m) / normal->carry_sd_m, v = (at.side_m - normal->side_m) / normal->side_sd_m;
  score[0] = k * (u - r * v) / normal->carry_sd_m;
  score[1] = k * (v - r * u) / normal->side_sd_m;
  score[2] = (k * u * (u - r * v) - 1) / normal->carry_sd_m;
  score[3] = (k * v * (v - r * u) - 1) / normal->side_sd_m;
  score[4] = k * (r + u * v - r * k * (u * u - 2 * r * u * v + v * v));
}

/* Information of `n` strikes of one kind about that kind's numbers, the first `n_numbers` of them, into the block that begins at `first`. */
static void
add_normal_information (const StrikeNormal *normal, double n, int first, int n_numbers, Matrix information)
{
  double a = 1 / normal->carry_sd_m, b = 1 / normal->side_sd_m;
  double r = normal->correlation, k = 1 / (1 - r * r);
  const double block[N_NORMAL][N_NORMAL] = {
    { k * a * a, -r * k * a * b, 0, 0, 0 },
    { -r * k * a * b, k * b * b, 0, 0, 0 },
    { 0, 0, (2 - r * r) * k * a * a, -r * r * k * a * b, -r * k * a },
    { 0, 0, -r * r * k * a * b, (2 - r * r) * k * b * b, -r * k * b },
    { 0, 0, -r * k * a, -r * k * b, (1 + r * r) * k * k },
  };
  for (int i = 0; i < n_numbers; i++)
    for (int j = 0; j < n_numbers; j++)
      information[first + i][first + j] += n * block[i][j];
}

/* Inverts a symmetric matrix by its Cholesky root. False when it is not positive definite. */
static bool
invert (Matrix matrix, Matrix inverse)
{
  Matrix root = { { 0 } };
  for (int i = 0; i < N_MIXTURE; i++)
    for (int j = 0; j <= i; j++)
      {
        double sum = matrix[i][j];
        for (int k = 0; k < j; k++)
          sum -= root[i][k] * root[j][k];
        if (i == j && !(sum > 0))
          return false;
        root[i][j] = i == j ? sqrt (sum) : sum / root[j][j];
      }
  for (int c = 0; c < N_MIXTURE; c++)
    {
      double x[N_MIXTURE];
      for (int i = 0; i < N_MIXTURE; i++)
        {
          x[i] = i == c;
          for (int k = 0; k < i; k++)
            x[i] -= root[i][k] * x[k];
          x[i] /= root[i][i];
        }
      for (int i = N_MIXTURE - 1; i >= 0; i--)
        {
          for (int k = i + 1; k < N_MIXTURE; k++)
            x[i] -= root[k][i] * x[k];
          x[i] /= root[i][i];
          inverse[i][c] = x[i];
        }
    }
  return true;
}

bool
mixture_covariance (const Mixture *mixture, const Strike *strikes, size_t n_strikes, double covariance[N_MIXTURE][N_MIXTURE])
{
  double n = (double)n_strikes, share = mixture->share;
  int n_poor = N_NORMAL - 1; /* it has no correlation */
  Matrix information = { { 0 } };
  information[MIXTURE_SHARE][MIXTURE_SHARE] = n / (share * (1 - share));
  add_normal_information (&mixture->good, (1 - share) * n, MIXTURE_GOOD_CARRY, N_NORMAL, information);
  add_normal_information (&mixture->poor, share * n, MIXTURE_POOR_CARRY, n_poor, information);
  for (size_t s = 0; s < n_strikes; s++)
    {
      double chance = mixture_chance_poor (mixture, strikes[s]), weight = chance * (1 - chance);
      if (weight < 1e-12) /* what it takes away is lost in rounding */
        continue;
      double apart[N_MIXTURE], poor[N_NORMAL];
      apart[MIXTURE_SHARE] = -1 / (share * (1 - share));
      normal_score (&mixture->good, strikes[s], apart + MIXTURE_GOOD_CARRY);
      normal_score (&mixture->poor, strikes[s], poor);
      for (int i = 0; i < n_poor; i++)
        apart[MIXTURE_POOR_CARRY + i] = -poor[i];
      for (int i = 0; i < N_MIXTURE; i++)
        for (int j = 0; j < N_MIXTURE; j++)
          information[i][j] -= weight * apart[i] * apart[j];
    }
  return invert (information, covariance);
}
