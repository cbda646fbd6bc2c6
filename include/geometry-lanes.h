// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * geometry-lanes - words for kernels: numbers side by side in the machine's vectors, as GCC has them.
 *
 * A kernel is a source that is compiled once for each kind of machine. Before it includes this it says
 *
 *     N_LANES        numbers in a vector: 2, 4 or 8
 *     ROOT_OF_LANES  square root of a vector, of which no number is negative; left out: one by one
 *     INVERSE_ROOT_GUESS  one over it, to a ten thousandth, where the machine is quicker at that; left out: by the root
 *
 * and by pragmas what the machine has. Everything here is inlined into the kernel, so that it is made of that machine's instructions.
 */
#ifndef HOLEWRIGHT_GEOMETRY_LANES_H
#define HOLEWRIGHT_GEOMETRY_LANES_H

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#ifndef N_LANES
#error "say how many lanes a vector has before geometry-lanes.h is included"
#endif

#define LANES_INLINE static inline __attribute__ ((always_inline))

typedef double Lanes __attribute__ ((vector_size (N_LANES * sizeof (double))));
/* What a comparison of Lanes gives: all bits of a lane, or none. */
typedef int64_t Masks __attribute__ ((vector_size (N_LANES * sizeof (int64_t))));
typedef uint64_t Bits __attribute__ ((vector_size (N_LANES * sizeof (uint64_t))));

/* The same number in all lanes. */
LANES_INLINE Lanes
lanes_all (double value)
{
  return (Lanes){ 0 } + value;
}

/* Lane by lane, what is computed of both is computed anyway. */
LANES_INLINE Lanes
lanes_either (Masks which, Lanes yes, Lanes no)
{
  return (Lanes)((which & (Masks)yes) | (~which & (Masks)no));
}

LANES_INLINE Lanes
lanes_least (Lanes a, Lanes b)
{
  return lanes_either (a < b, a, b);
}

LANES_INLINE Lanes
lanes_most (Lanes a, Lanes b)
{
  return lanes_either (a > b, a, b);
}

/* Without its sign. */
LANES_INLINE Lanes
lanes_size (Lanes a)
{
  return (Lanes)((Masks)a & INT64_MAX);
}

/* Is it so in any lane? */
LANES_INLINE bool
lanes_any (Masks which)
{
  int64_t together = 0;
  for (int i = 0; i < N_LANES; i++)
    together |= which[i];
  return together != 0;
}

LANES_INLINE Lanes
lanes_root (Lanes a)
{
#ifdef ROOT_OF_LANES
  return ROOT_OF_LANES (a);
#else
  Lanes result;
  for (int i = 0; i < N_LANES; i++)
    result[i] = sqrt (a[i]);
  return result;
#endif
}

/* One over the root of positive numbers, but for the last bits; of 0 anything. */
LANES_INLINE Lanes
lanes_inverse_root (Lanes a)
{
#ifdef INVERSE_ROOT_GUESS
  /* Newton's method doubles the guess's digits each time: a hundred millionth, then all there are. */
  Lanes root = INVERSE_ROOT_GUESS (a), half = 0.5 * a;
  root = root * (1.5 - half * root * root);
  return root * (1.5 - half * root * root);
#else
  return 1 / lanes_root (a);
#endif
}

/*
 * Natural logarithm of positive numbers of at least 2.3e-308, to 2e-16 and as much of its size. Of a number m 2^k with m from sqrt (1/2) to sqrt (2) it is k ln 2 + 2 artanh s,
 * s = (m - 1) / (m + 1), whose series is cut off at s^19.
 */
LANES_INLINE Lanes
lanes_log (Lanes a)
{
  const uint64_t one = UINT64_C (0x3ff0000000000000), root_half = UINT64_C (0x3fe6a09e667f3bcd),
                 fraction = (UINT64_C (1) << 52) - 1;
  /* A whole number in the lowest bits of a double of 2^52, and what is then too much of k. */
  const uint64_t whole = UINT64_C (0x4330000000000000);
  const double offset = 0x1p52 + 1023;
  Bits bits = (Bits)a + (one - root_half);
  Lanes k = (Lanes)((bits >> 52) | whole) - offset, m = (Lanes)((bits & fraction) + root_half);
  Lanes s = (m - 1) / (m + 1), s2 = s * s, series = lanes_all (1.0 / 19);
  for (int power = 17; power > 0; power -= 2)
    series = series * s2 + 1.0 / power;
  return k * 0.69314718055994530942 + 2 * s * series;
}

/* From and to N_LANES numbers, wherever they stand. */
LANES_INLINE Lanes
lanes_load (const double *from)
{
  Lanes lanes;
  memcpy (&lanes, from, sizeof lanes);
  return lanes;
}

LANES_INLINE void
lanes_store (double *to, Lanes lanes)
{
  memcpy (to, &lanes, sizeof lanes);
}

#endif
