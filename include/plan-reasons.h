// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan-reasons - why a plan is as it is: what each shot gains and over what, which trouble it keeps out of play, what it leaves; at what wind another
 * club is better from the tee; how sure that is, as well as the bag is known.
 *
 * Pure functions of a solution and of the plans made of it; any thread may call them. Words come from functions of their own, `translate` as for
 * sight_words, and are freed with g_free.
 */
#ifndef HOLEWRIGHT_PLAN_REASONS_H
#define HOLEWRIGHT_PLAN_REASONS_H

#include "plan.h"

/* What was solved, borrowed. */
const Hole *plan_solution_hole (const PlanSolution *solution);
const Bag *plan_solution_bag (const PlanSolution *solution);
const Conditions *plan_solution_conditions (const PlanSolution *solution);

/* ---- what a shot's strokes are made of ---- */

/*
 * Every ball of a shot ends somewhere with some strokes to hole out. Each is counted against the same ball on a fairway as far from the hole, as the golfer's table
 * has it: where that is the distance left, and what the ball costs more than that goes to what it lies in.
 */
typedef enum
{
  PLAN_CAUSE_PENALTY,   /* penalty areas, out of bounds: their strokes, and what is played again */
  PLAN_CAUSE_TROUBLE,   /* sand, waste, trees, deep rough, buildings: getting out */
  PLAN_CAUSE_ROUGH,     /* rough and first cut */
  PLAN_CAUSE_DISTANCE,  /* how far it still is */
  PLAN_CAUSE_GREEN,     /* a putt instead of a pitch: negative */
  PLAN_CAUSE_NEXT_SHOT, /* on fairways: what the next shot meets there more or less than in the table, such as water to carry */
  N_PLAN_CAUSES
} PlanCause;

/* "penalty", "trouble", "rough", "distance", "green", "next-shot". */
const char *plan_cause_token (PlanCause cause);
/* "penalties", "trouble", "rough", "distance left", "on the green", "the next shot". */
const char *plan_cause_words (PlanCause cause, Translate translate);

/* The shot itself is one stroke; these and that one add up to its expected strokes. */
typedef struct
{
  double strokes[N_PLAN_CAUSES];
} PlanCauses;

/* ---- reasons of a shot ---- */

/* Trouble that one shot meets more often than another. */
typedef struct
{
  Lie lie;             /* what it is; LIE_NONE: there is none to tell */
  int part;            /* index in the hole of the area with a name of its own; -1: all without one that lie so */
  double chance;       /* 0..1 that the shot in hand ends there */
  double other_chance; /* ... that the other one does */
} PlanDanger;

/* Trouble must be met this much oftener to be told of (common practice: one ball in fifty). */
#define PLAN_LEAST_DANGER 0.02

/* A shot that is not taken. */
typedef struct
{
  const Club *club; /* borrowed from the bag; NULL: there is no such shot, and nothing else of it is looked at */
  double swing;
  Vec2 aim;
  double strokes;                          /* expected, this shot included */
  double costs;                            /* strokes more than the shot in hand; below 0 where that is not the best */
  double left_m;                           /* mean distance to the hole of the balls in play */
  double fairway, green, trouble, penalty; /* as in PlanShot */
  PlanCauses causes;                       /* where `costs` comes from: they add up to it */
  PlanDanger danger;                       /* what it meets more often, by strokes the worst */
} PlanRival;

typedef struct
{
  Sights sights;      /* what to start it at, and where it finishes */
  double right_m;     /* at the aim, so far right of the straight line to the hole; negative: left */
  double left_m;      /* mean distance to the hole of the balls in play */
  PlanCauses causes;  /* of its strokes */
  PlanDanger risk;    /* the trouble that it still meets, by strokes the worst; other_chance is 0 */
  PlanRival next;     /* the best other club, at its own best aim */
  PlanRival straight; /* the same swing straight at the hole; no club: where that is its aim */
} PlanReason;

/* An aim within this of the line to the hole is one straight at it (common practice). */
#define PLAN_STRAIGHT_M 2.0

/*
 * Reasons of a shot of a plan that plan_make or plan_make_own gave of this solution. All shots are summed cell by cell under their patterns, with best play after
 * them. Some ten milliseconds. False with PLAN_ERROR_CLUB where the club does not fly from there.
 */
bool plan_reason (const PlanSolution *solution, const PlanShot *shot, PlanReason *reason, GError **error);

/*
 * Two sentences or three: "5 wood, 12 yd right of the gate (180 yd): 0.11 better than the 5 iron, which leaves 24 yd more, and 0.85 better than straight at the hole,
 * which brings the pond in (14 %). It leaves 152 yd."
 */
char *plan_reason_words (const PlanSolution *solution, const PlanShot *shot, const PlanReason *reason, LengthUnit unit,
                         Translate translate);

/* ---- wind ---- */

typedef enum
{
  PLAN_WIND_ALONG, /* head wind is positive */
  PLAN_WIND_ACROSS /* from the left is positive */
} PlanWindAxis;

/* Wind is looked at up to so much, in steps of so much, and the change found to within a mile per hour (common practice: what a forecast tells). */
#define PLAN_MPS_PER_MPH 0.44704 /* 1609.344 m in an hour, exactly */
#define PLAN_MOST_WIND_MPS (25 * PLAN_MPS_PER_MPH)
#define PLAN_WIND_STEP_MPS (PLAN_MOST_WIND_MPS / 3)
#define PLAN_WIND_FINE_MPS PLAN_MPS_PER_MPH
/* The hole is solved no more often than this for one axis: 7 steps, halvings on each side, and once where the cells are other ones. */
#define PLAN_MOST_WIND_SOLVES 20

/* Where another club becomes best from the tee. */
typedef struct
{
  const Club *club; /* borrowed from the bag; NULL: none does up to PLAN_MOST_WIND_MPS */
  double at_mps;    /* wind along the axis, signed as it, at which it does; NAN */
} PlanWindChange;

typedef struct
{
  PlanWindAxis axis;
  const Club *club;          /* best now */
  double now_mps;            /* wind along the axis of the solution's day */
  PlanWindChange more, less; /* as the wind along the axis rises from now, and as it falls */
  int n_solves;
} PlanWind;

typedef struct
{
  /* Larger than the solution's: faster; asked only where it says the same club of the solution's own day. 0: the solution's. */
  double cell_m;
  const gint *cancel; /* as in PlanQuestion, both */
  void (*progress) (double share, void *data);
  void *data;
} PlanWindQuestion;

/*
 * Solves the hole again in other winds along or across the tee shot, each from the answer before, the rest of the day as it is: outwards in steps to either side until the
 * best club from the tee is another, then by halving. A club that is best only between two steps is passed over. False with PLAN_ERROR_CANCELLED, or with
 * what plan_solve says.
 */
bool plan_wind (const PlanSolution *solution, PlanWindAxis axis, const PlanWindQuestion *question, PlanWind *wind,
                GError **error);

/* "Driver until the head wind reaches 12 mph, then the 3 wood.", "Driver in any head or tail wind up to 25 mph." Metres: in m/s. */
char *plan_wind_words (const PlanWind *wind, LengthUnit unit, Translate translate);

/* ---- how sure the ranking is ---- */

/* How well a golfer knows a club that was not fitted to recorded shots: shares of the carry for its mean and for where it goes to the side, of the spreads for the
   spreads (common practice: 4 yd in 200, a spread to a fifth). */
#define PLAN_CARRY_ERROR 0.02
#define PLAN_SIDE_ERROR 0.01
#define PLAN_SPREAD_ERROR 0.2

typedef enum
{
  PLAN_SURENESS_UNLIKELY, /* a chance below one in three */
  PLAN_SURENESS_EVEN,     /* another club may as well be the best */
  PLAN_SURENESS_LIKELY,   /* two in three */
  PLAN_SURENESS_SURE      /* nine in ten */
} PlanSureness;
#define PLAN_EVEN_CHANCE (1 / 3.0)
#define PLAN_LIKELY_CHANCE (2 / 3.0)
#define PLAN_SURE_CHANCE 0.9

/* "unlikely", "even", "likely", "sure". */
const char *plan_sureness_token (PlanSureness sureness);

typedef struct
{
  const Club *club;
  double strokes; /* expected at its best aim, as the bag stands */
  double sd;      /* of that, by what is not known of the club */
  double chance;  /* 0..1 that it is the best in truth */
} PlanRank;

/* Clubs further behind than this many, or by more than this many strokes, are never the best. */
#define PLAN_MOST_RANKS 6
#define PLAN_RANK_STROKES 1.0

typedef struct
{
  PlanRank ranks[PLAN_MOST_RANKS]; /* the shot's own club first, then by strokes */
  size_t n_ranks;
  bool is_measured; /* the errors of all are from recorded shots; else some are the usual ones above */
  PlanSureness sureness;
} PlanSure;

/*
 * How sure it is that the shot's club is the best from there. The true carry, spreads and mean miss of each club lie about those of the bag with the standard errors that it
 * keeps of recorded shots, else the usual ones, each for itself. The golfer aims as the bag says; what the shot then costs is summed under the shifted pattern at the
 * nodes -sqrt 3, 0, sqrt 3 of each of the four figures, against the same value of where balls end. Mean and variance of a club's strokes are the three-point
 * Gauss-Hermite sums over them, without cross terms; the chance that it costs least is the integral of a normal beside the others' normals. Nothing is
 * drawn at random. False as plan_reason.
 */
bool plan_sureness (const PlanSolution *solution, const PlanShot *shot, PlanSure *sure, GError **error);

/* "Sure: the driver is best in 93 of 100 cases, as well as the bag is known." */
char *plan_sureness_words (const PlanSure *sure, Translate translate);

#endif
