// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The sum over a chain of edges, several edges side by side. This source is compiled once for each kind of machine: chance-sum*.c say how wide its
 * vectors are, and name the function.
 *
 *     N_LANES     edges in a vector; divides CHAIN_PAD
 *     CHANCE_SUM  the function's name, declared in chance-private.h
 *
 * Gauss-Legendre along each edge. Phi (x) phi (y) is an entire function whose derivatives along a line grow as those of a normal density do, so that the
 * number of nodes follows from the length of the edge alone.
 */
#include "chance-private.h"
#include "geometry-lanes.h"

#define MOST_NODES 6
/* The nodes of an edge do not wait for each other, so that the machine works at several of them side by side. */
#define UNROLLED _Pragma ("GCC unroll 16")

/* Nodes on 0..1 and their weights (Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4), and the longest edge they are used for. */
static const struct
{
  int n;
  double longest_sds, at[MOST_NODES], weight[MOST_NODES];
} rules[] = {
  { 2, 0.02, { 0.21132486540518712, 0.78867513459481288 }, { 0.5, 0.5 } },
  { 3,
    0.16,
    { 0.11270166537925831, 0.5, 0.88729833462074169 },
    { 0.27777777777777778, 0.44444444444444444, 0.27777777777777778 } },
  { 4,
    0.45,
    { 0.069431844202973712, 0.33000947820757187, 0.66999052179242813, 0.93056815579702629 },
    { 0.17392742256872693, 0.32607257743127307, 0.32607257743127307, 0.17392742256872693 } },
  { 6,
    LONGEST_EDGE_SDS,
    { 0.033765242898423986, 0.16939530676686775, 0.38069040695840155, 0.61930959304159845, 0.83060469323313225,
      0.96623475710157601 },
    { 0.085662246189585173, 0.18038078652406930, 0.23395696728634552, 0.23395696728634552, 0.18038078652406930,
      0.085662246189585173 } },
};

/*
 * exp (z^2 / 2) times the chance that a standard normal is above z, for 0 <= z <= FARTHEST_SDS, as a polynomial of (z - TAIL_MIDDLE) / (z + TAIL_MIDDLE), highest
 * power first: Chebyshev's interpolation, computed with 40 digits. Times exp (-z^2 / 2) it is good to 2e-12.
 */
#define FARTHEST_SDS 9.0
#define TAIL_MIDDLE 4.0
static const double tail[]
    = { 8.647233025096606e-07, 1.1941783926711966e-05, 3.214513014383291e-05, -4.665357114170426e-05, -0.00018877517272434461,
        0.0006385721896151992, 0.0005077625049068144,  -0.008492039980754765, 0.030864794386388082,   -0.07170741053120515,
        0.12437925551285282,   -0.1703977215025755,    0.0944106413012998 };

#define LOG2_E 1.4426950408889634
/* ln 2 in two pieces, the first with zeroes at its end (Cody and Waite, Software Manual for the Elementary Functions). */
#define LN_2_HIGH 0x1.62e42fefa0000p-1
#define LN_2_LOW 0x1.cf79abc9e3b3ap-40
/* Added to a small number it leaves the number, rounded, in the sum's lowest bits. */
#define WHOLE 0x1.8p52
#define EXPONENT_SHIFT 52
#define SQUARES_MOST (FARTHEST_SDS * FARTHEST_SDS)
#define PHI_0 0.39894228040143268 /* 1 / sqrt (2 pi) */

/* exp (-square / 2), square from 0 to SQUARES_MOST. The series is cut where its next term is below 1e-12. */
LANES_INLINE Lanes
bell (Lanes square)
{
  static const double series[] = { 1.0 / 362880, 1.0 / 40320, 1.0 / 5040, 1.0 / 720, 1.0 / 120, 1.0 / 24, 1.0 / 6, 0.5, 1, 1 };
  Lanes power = square * -0.5, shifted = power * LOG2_E + WHOLE, whole = shifted - WHOLE;
  Lanes rest = power - whole * LN_2_HIGH - whole * LN_2_LOW;
  Lanes sum = rest * (1.0 / 3628800) + series[0];
  UNROLLED
  for (size_t i = 1; i < sizeof series / sizeof *series; i++)
    sum = sum * rest + series[i];
  return (Lanes)((Masks)sum + ((Masks)shifted << EXPONENT_SHIFT));
}

/* Phi (x) exp (-y^2 / 2). */
LANES_INLINE Lanes
below (Lanes x, Lanes y)
{
  Lanes size = (Lanes)((Masks)x & INT64_MAX), y2 = y * y;
  size = lanes_either (size < FARTHEST_SDS, size, (Lanes){ 0 } + FARTHEST_SDS);
  y2 = lanes_either (y2 < SQUARES_MOST, y2, (Lanes){ 0 } + SQUARES_MOST);
  Lanes place = (size - TAIL_MIDDLE) / (size + TAIL_MIDDLE), sum = (Lanes){ 0 } + tail[0];
  UNROLLED
  for (size_t i = 1; i < sizeof tail / sizeof *tail; i++)
    sum = sum * place + tail[i];
  Lanes density = bell (y2), beyond = sum * bell (size * size) * density;
  return lanes_either (x < 0, beyond, density - beyond);
}

LANES_INLINE double
sum_by_rule (const double *u, const double *v, size_t n_edges, int rule)
{
  Lanes total = { 0 };
  for (size_t i = 0; i < n_edges; i += N_LANES)
    {
      Lanes u0 = lanes_load (u + i), v0 = lanes_load (v + i), du = lanes_load (u + i + 1) - u0,
            dv = lanes_load (v + i + 1) - v0, sum = { 0 };
      UNROLLED
      for (int k = 0; k < rules[rule].n; k++)
        sum += rules[rule].weight[k] * below (u0 + rules[rule].at[k] * du, v0 + rules[rule].at[k] * dv);
      total += sum * dv;
    }
  double all = 0;
  for (int i = 0; i < N_LANES; i++)
    all += total[i];
  return PHI_0 * all;
}

double
CHANCE_SUM (const double *u, const double *v, size_t n_edges, double longest_sds)
{
  if (longest_sds <= rules[0].longest_sds)
    return sum_by_rule (u, v, n_edges, 0);
  if (longest_sds <= rules[1].longest_sds)
    return sum_by_rule (u, v, n_edges, 1);
  if (longest_sds <= rules[2].longest_sds)
    return sum_by_rule (u, v, n_edges, 2);
  return sum_by_rule (u, v, n_edges, 3);
}
