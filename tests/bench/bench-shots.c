// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * 100 000 recorded shots of 13 clubs, one in ten a poor strike that can be taken for a good one: reading the file, and fitting it. There is no
 * peer of the kind in the libraries; the figure is beside the second it may take.
 */
#include "bag.h"
#include "bench.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>

#define N_SHOTS 100000
#define N_CLUBS 13
#define N_RUNS 5
#define MOST_S 1.0

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return ((double)(*state >> 11) + 0.5) * 0x1p-53;
}

/* A standard normal (Box and Muller 1958). */
static double
next_normal (uint64_t *state)
{
  double radius = sqrt (-2 * log (next_random (state)));
  return radius * cos (2 * PI * next_random (state));
}

static GBytes *
make_file (void)
{
  uint64_t state = 88172645463325252u; /* the paper's seed */
  g_autoptr (GString) text = g_string_new ("club,carry_m,side_m\n");
  for (int i = 0; i < N_SHOTS; i++)
    {
      int club = i % N_CLUBS;
      bool is_poor = next_random (&state) < 0.1;
      double carry_m = 60 + 12 * club, spread = is_poor ? 2 : 1;
      g_string_append_printf (text, "club %d,%.2f,%.2f\n", club,
                              fmax (0, (is_poor ? 0.85 : 1) * carry_m + spread * 0.04 * carry_m * next_normal (&state)),
                              spread * 0.05 * carry_m * next_normal (&state));
    }
  return g_bytes_new (text->str, text->len);
}

int
main (void)
{
  g_autoptr (GBytes) bytes = make_file ();
  double read_s = INFINITY, fit_s = INFINITY;
  size_t n_parted = 0;
  for (int run = 0; run < N_RUNS; run++)
    {
      g_autoptr (GError) error = NULL;
      double begin_s = bench_now_s ();
      g_autoptr (ShotLog) log = shot_log_read_bytes (bytes, "shots", &error);
      if (log == NULL)
        g_error ("%s", error->message);
      double read_until_s = bench_now_s ();
      g_autofree ClubFit *fits = bag_fit (log);
      fit_s = fmin (fit_s, bench_now_s () - read_until_s);
      read_s = fmin (read_s, read_until_s - begin_s);
      n_parted = 0;
      for (size_t i = 0; i < shot_log_n_clubs (log); i++)
        n_parted += fits[i].has_mishits;
    }
  printf ("%d shots of %d clubs: read in %.3f s, fitted in %.3f s (%zu clubs with poor strikes); together %.2f of the %g s "
          "they may take\n",
          N_SHOTS, N_CLUBS, read_s, fit_s, n_parted, (read_s + fit_s) / MOST_S, MOST_S);
  return 0;
}
