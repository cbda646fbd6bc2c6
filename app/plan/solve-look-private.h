// SPDX-License-Identifier: GPL-3.0-or-later
/* solve-look-private - one state's swings looked at for their best aims, in a sweep. */
#ifndef HOLEWRIGHT_SOLVE_LOOK_PRIVATE_H
#define HOLEWRIGHT_SOLVE_LOOK_PRIVATE_H

#include "solve-private.h"

/* A swing whose coarse aim comes this near the best is looked at more finely when certifying. */
#define CERTIFY_MARGIN 0.03
/* A state that costs so much more than when all was looked at is looked at all round again. */
#define MUCH_RISEN 3e-3

/* One state's view of a swing. */
typedef struct
{
  PlanSolution *solution;
  const SweepPlan *plan;
  const SwingAims *aims;
  Vec2 at;
  double hole_m;
  int straight; /* the aim that lies nearest to the hole */
  double height_m, value;
  double bound; /* no aim of this swing costs less, where none is known yet; else what the best known costs */
  const FallsSeen *falls;
  double margin; /* as the plan's, or less where little depends on the state */
  int step;      /* likewise */
  double risen;  /* strokes since all was looked at: so much more than the best then may be the best now */
  double fallen; /* likewise: so much less */
  bool is_new;   /* nothing is known of it yet but what the tables say */
  double least;  /* of the swings looked at so far */
  int best;      /* aim of this swing */
  double cost;
} Look;

/* An aim, counted round. */
int look_wrapped (int aim);
/* In the sweeps that follow, swings that are known to cost this much more than the state are left out. */
double look_left_margin (const Look *look);
/* About the aim `before` that was the best: at the aims beside it where what they come down on is another thing now. `at`: of the swing, in what the solution has of all. */
void look_again (Look *look, size_t at, int before);
/* After that, at another aim too; the one before it is known to cost so much, if it was not looked at again. */
void look_also (Look *look, size_t at, int before, int aim, double known);
/* At all aims that may be better than what was found so far; `before` negative: none is known. */
void look_everywhere (Look *look, size_t at, int before, double known);
/* No fewer aims about one that was found from a place beside. */
#define LOOK_BESIDE_STEP 2
/* At the aim that was the best, and at those next to it; once all was looked at only where what they come down on is another thing now. */
void look_beside (Look *look, size_t at, int before);
/* At the aim `before` (negative: none is known) and at those that were found the best from places beside this one; about them as look_beside does if the swing is the best of a
   state that counts in full. */
void look_where (Look *look, size_t at, int before, const int *aims, int n_aims, bool is_best);

#endif
