// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bench - time one thing beside its peer, in one run: taken in turns, the least of seven each, so that whatever else the
 * machine does meets both. Nothing passes or fails on time.
 */
#ifndef HOLEWRIGHT_BENCH_H
#define HOLEWRIGHT_BENCH_H

#include <stdio.h>

/* Does the work once over; what it returns is something about the answers, which two that agree have alike. */
typedef double (*BenchRun) (void *data);

typedef struct
{
  const char *name;
  BenchRun run;
  void *data;
} BenchSide;

/* Seconds that have passed since some fixed moment. */
double bench_now_s (void);
/* Seconds that all threads of this program have had of the processor: what else the machine does hardly shows in it. */
double bench_processor_s (void);

/*
 * Runs both sides in turns and prints one line: `what`, the time of ours and of the peer for each of the `n_units` pieces of
 * work in a run, how many times faster ours is, and the ratios aimed at (`goal`, and what must hold: `least`; less than 1 when
 * ours may take longer). Says so when their answers differ. Returns the ratio.
 */
double bench_compare (const char *what, BenchSide ours, BenchSide peer, double n_units, double goal, double least);

/* Starts a Python script that answers on its output what it is asked on its input; ends the program when it cannot be started. */
void bench_start_peer (const char *script, FILE **ask, FILE **answer);

#endif
