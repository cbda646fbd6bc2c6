// SPDX-License-Identifier: GPL-3.0-or-later
/* strewn - the balls of a shot, spread evenly over the odds' own patterns, each run to rest over the hole itself. */
#ifndef HOLEWRIGHT_TESTS_STREWN_H
#define HOLEWRIGHT_TESTS_STREWN_H

#include "odds.h"
#include "suite.h"

#include <math.h>

/* Share of 0..1 by which places spread evenly go on, each way (Roberts 2018, R2). */
#define R2_FIRST 0.7548776662466927
#define R2_SECOND 0.5698402909980532

static inline double
strewn_share (double number)
{
  return number - floor (number);
}

/* Place `i` of those that stand for a pattern. */
static inline Vec2
strewn_place (const Normal *normal, size_t i)
{
  double u = strewn_share (0.5 + (double)i * R2_FIRST), v = strewn_share (0.5 + (double)i * R2_SECOND);
  double radius = sqrt (-2 * log1p (-u)), angle = 2 * PI * v; /* Box and Muller 1958 */
  return vec2_add (normal->mean,
                   vec2_add (vec2_scale (normal->a, radius * cos (angle)), vec2_scale (normal->b, radius * sin (angle))));
}

/* What a ball that rests there costs. */
typedef double (*StrewnCost) (const void *data, Vec2 rest);

/* The mean over a shot's balls, `n_balls` of each kind of strike. */
static inline double
strewn_mean (const Hole *hole, const ShotResult *shot, size_t n_balls, StrewnCost cost, const void *data)
{
  Strike strikes[MOST_STRIKES];
  GError *error = NULL;
  size_t n = odds_strikes (hole, shot, strikes, &error);
  double sum = 0;
  ck_assert_msg (n > 0, "%s", error != NULL ? error->message : "");
  for (size_t k = 0; k < n; k++)
    {
      Normal normal = pattern_normal (&strikes[k].pattern);
      FlightPoint landing = strikes[k].landing;
      for (size_t i = 0; i < n_balls; i++)
        {
          Vec2 rest;
          landing.at = strewn_place (&normal, i);
          ck_assert_msg (odds_rest_of (hole, &shot->conditions, &landing, &rest, &error), "%s",
                         error != NULL ? error->message : "");
          sum += strikes[k].share / (double)n_balls * cost (data, rest);
        }
    }
  return sum;
}

#endif
