// SPDX-License-Identifier: GPL-3.0-or-later
/* Timing two sides in turns. */
#define _POSIX_C_SOURCE 200809L

#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <unistd.h>

#define N_TURNS 7

typedef struct
{
  double least_s;
  double answer;
} Timing;

static void
take_turn (const BenchSide *side, Timing *timing)
{
  double start = bench_now_s ();
  timing->answer = side->run (side->data);
  timing->least_s = fmin (timing->least_s, bench_now_s () - start);
}

/* "4.1 ns", "12 us", "3.2 ms", "1.1 s". */
static void
print_time (double seconds, char *text, size_t size)
{
  static const char *const units[] = { "s", "ms", "us", "ns" };
  int i = 0;
  while (i < 3 && seconds < 1)
    {
      seconds *= 1000;
      i++;
    }
  snprintf (text, size, "%.3g %s", seconds, units[i]);
}

double
bench_now_s (void)
{
  struct timespec now;
  clock_gettime (CLOCK_MONOTONIC, &now);
  return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

double
bench_processor_s (void)
{
  struct timespec used;
  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &used);
  return (double)used.tv_sec + 1e-9 * (double)used.tv_nsec;
}

double
bench_compare (const char *what, BenchSide ours, BenchSide peer, double n_units, double goal, double least)
{
  Timing our = { INFINITY, 0 }, their = { INFINITY, 0 };
  for (int i = 0; i < N_TURNS; i++)
    {
      take_turn (&ours, &our);
      take_turn (&peer, &their);
    }
  double ratio = their.least_s / our.least_s;
  char our_time[32], their_time[32];
  print_time (our.least_s / n_units, our_time, sizeof our_time);
  print_time (their.least_s / n_units, their_time, sizeof their_time);
  printf ("%s: %s %s, %s %s, ratio %.3g (goal %g, at least %g)%s\n", what, ours.name, our_time, peer.name, their_time, ratio,
          goal, least,
          ratio >= goal    ? ""
          : ratio >= least ? ", below the goal"
                           : ", BELOW WHAT MUST HOLD");
  if (our.answer != their.answer)
    printf ("%s: the answers differ, %.17g and %.17g\n", what, our.answer, their.answer);
  fflush (stdout);
  return ratio;
}

void
bench_start_peer (const char *script, FILE **ask, FILE **answer)
{
  int to[2], from[2];
  if (pipe (to) != 0 || pipe (from) != 0)
    {
      perror ("no pipe");
      abort ();
    }
  pid_t peer = fork ();
  if (peer == 0)
    {
      dup2 (to[0], 0);
      dup2 (from[1], 1);
      close (to[1]);
      close (from[0]);
      execl ("/usr/bin/python3", "python3", script, (char *)NULL);
      _exit (127);
    }
  close (to[0]);
  close (from[1]);
  *ask = fdopen (to[1], "w");
  *answer = fdopen (from[0], "r");
}
