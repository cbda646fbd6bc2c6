// SPDX-License-Identifier: GPL-3.0-or-later
/* Where a shot may end, what hurts most first. */
#include "plan-ends.h"

#include <math.h>
#include <stdlib.h>

static int
compare_ends (const void *a, const void *b)
{
  const ShotEnd *p = a, *q = b;
  if (p->cost_strokes != q->cost_strokes)
    return p->cost_strokes > q->cost_strokes ? -1 : 1;
  if (p->chance != q->chance)
    return p->chance > q->chance ? -1 : 1;
  return (int)p->kind - (int)q->kind;
}

size_t
plan_ends (const OddsTable *odds, const StrokesTable *table, double left_m, ShotEnd *ends)
{
  double from_m = isnan (left_m) ? 0 : left_m, fairway = strokes_to_hole (table, LIE_FAIRWAY, from_m);
  size_t n = 0;
  for (int kind = 0; kind < N_KINDS; kind++)
    {
      double chance = odds->rest[kind];
      if (!(chance >= ENDS_LEAST_CHANCE))
        continue;
      double cost = chance * (strokes_to_hole (table, kind_info ((Kind)kind)->lie, from_m) - fairway);
      ends[n++] = (ShotEnd){ (Kind)kind, chance, cost < ENDS_LEAST_COST_STROKES ? 0 : cost };
    }
  qsort (ends, n, sizeof *ends, compare_ends);
  return n;
}
