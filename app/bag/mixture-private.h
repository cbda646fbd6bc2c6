// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * mixture - the shots of one club as good strikes and poor ones: two bivariate normals, the poor one shorter, at least as wide both ways and
 * without correlation.
 */
#ifndef HOLEWRIGHT_MIXTURE_PRIVATE_H
#define HOLEWRIGHT_MIXTURE_PRIVATE_H

#include <stdbool.h>
#include <stddef.h>

/* One shot: where it came down, metres along the line and right of it. */
typedef struct
{
  double carry_m, side_m;
} Strike;

/* A bivariate normal. */
typedef struct
{
  double carry_m, side_m; /* mean */
  double carry_sd_m, side_sd_m, correlation;
} StrikeNormal;

typedef struct
{
  double share; /* of the poor strikes, 0..1 */
  StrikeNormal good, poor;
} Mixture;

/* The numbers of a mixture in the order of its information. */
enum
{
  MIXTURE_SHARE,
  MIXTURE_GOOD_CARRY,
  MIXTURE_GOOD_SIDE,
  MIXTURE_GOOD_CARRY_SD,
  MIXTURE_GOOD_SIDE_SD,
  MIXTURE_GOOD_CORRELATION,
  MIXTURE_POOR_CARRY,
  MIXTURE_POOR_SIDE,
  MIXTURE_POOR_CARRY_SD,
  MIXTURE_POOR_SIDE_SD,
  N_MIXTURE
};
/* Of one normal alone: all but the share and the poor strikes' own. */
#define N_NORMAL 5

/* Moments of the shots with divisor n; a spread is never less than what a shot can be measured to. */
StrikeNormal strike_normal_of (const Strike *strikes, size_t n_strikes);
double strike_normal_log_likelihood (const StrikeNormal *normal, const Strike *strikes, size_t n_strikes);

/* `strikes` in order of their carry. False when they do not fall into two kinds, the poor one shorter. */
bool mixture_find (const Strike *strikes, size_t n_strikes, Mixture *mixture);
double mixture_log_likelihood (const Mixture *mixture, const Strike *strikes, size_t n_strikes);
/* Chance that this strike was a poor one. */
double mixture_chance_poor (const Mixture *mixture, Strike strike);

/* Covariance of the numbers of a mixture that has been found, from its observed information; false when that is not positive definite. */
bool mixture_covariance (const Mixture *mixture, const Strike *strikes, size_t n_strikes,
                         double covariance[N_MIXTURE][N_MIXTURE]);

#endif
