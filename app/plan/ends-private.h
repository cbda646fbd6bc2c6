// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * ends-private - where the balls of one shot end, and what each ending costs: what the reasons, the split of a difference and the losses of a course are
 * made of.
 */
#ifndef HOLEWRIGHT_ENDS_PRIVATE_H
#define HOLEWRIGHT_ENDS_PRIVATE_H

#include "plan-reasons.h"
#include "solve-private.h"

/* A share of a shot's balls that ends in a cell on a lie. */
typedef struct
{
  size_t cell;
  Lie lie;
  double share, strokes; /* to hole out from there, penalties included */
} End;

/* Trouble of one name or, without a name, of one lie. */
typedef struct
{
  Lie lie;
  int part;            /* index in the hole of an area with that name; -1: none has one */
  double chance, cost; /* 0..1; strokes beyond those of a fairway as far from the hole, times the chance */
} Trouble;

typedef struct
{
  const PlanSolution *solution;
  Vec2 ball;
  double strokes;                                  /* expected, the shot included */
  double lost;                                     /* 0..1: played again, as the Rules or the golfer want it */
  GArray *ends;                                    /* End; lost balls, which are played again, with where they went */
  double fairway, green, trouble, penalty, left_m; /* as in PlanShot and PlanRival */
  PlanCauses causes;
} ShotEnds;

/* What the solution plays a ball from: off a peg where it is on its tee. */
Lie ends_lie (const PlanSolution *solution, Vec2 ball);
bool ends_lie_is_trouble (Lie lie);
bool ends_lie_is_penalty (Lie lie);
/* How a shot flies by club, swing, shape and curve (NAN: the usual one): as the fleet where that has the swing. False where no ball leaves so. */
bool ends_fly (const PlanSolution *solution, const ShotInput *swing, Lie lie, Vec2 way, Flown *flown);
/* Plays a shot that flies so. Cleared with shot_ends_clear. */
void shot_ends_init (ShotEnds *ends, const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown);
/* A shot of a plan, its lie, way and flight; `flown` may be NULL. False with PLAN_ERROR_CLUB, nothing to clear. */
bool shot_ends_of (ShotEnds *ends, const PlanSolution *solution, const PlanShot *shot, Flown *flown, GError **error);
void shot_ends_clear (ShotEnds *ends);

/* The trouble of these ends, a Trouble for each name or lie: free with g_array_unref. */
GArray *ends_trouble (const ShotEnds *ends);

#endif
