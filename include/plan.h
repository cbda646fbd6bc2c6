// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan - what a shot costs: strokes to hole out from any place, the Rules' relief, expected strokes of a shot and of every aim it could have.
 *
 * Pure functions of an immutable hole and of tables that never change; any thread may call them. Strokes are counted from the ball to
 * the bottom of the hole. Places and lengths are metres in the hole frame.
 */
#ifndef HOLEWRIGHT_PLAN_H
#define HOLEWRIGHT_PLAN_H

#include "odds.h"

/* ---- strokes to hole out ---- */

/*
 * Strokes to hole out by lie and distance, for one kind of golfer. Immutable once made. The published table is that of professionals (Broadie 2012,
 * Assessing golfer performance on the PGA Tour, Interfaces 42(2):146-165, Table B.1 and its table of putting, as transcribed elsewhere), straight between
 * its rows; beyond its last row it goes on as steeply as in its last 100 yd.
 *
 * No table of amateurs was found in open text. A golfer of a level is taken from the professionals' table so (the numbers and their sources are in
 * app/plan/strokes.c):
 *
 *   - a distance is to them what a longer one is to a professional, by how much further the professional drives; putts likewise, by the
 *     distance at which each holes one of two;
 *   - what a lie costs more than the fairway grows as the golfer's scatter in the published Accuracy Table grows over the scratch man's;
 *   - bogey golfers lose strokes besides, a few tenths, growing over the first pitches' lengths: as many as make eighteen holes come out at the
 *     Course Rating System's yardage rating.
 *
 * The levels' tables never fall with distance, as the published one does in places (its tees, its sand). Good to a tenth of a stroke or two
 * for a golfer of the level, and much better for the difference of two places, which is what aims are chosen by.
 */
#define STROKES_STEP_M 0.3048 /* a foot: rows at whole yards and feet come out exactly */
#define STROKES_NODES 3001    /* 0 to 1000 yd, and as steep beyond */

typedef struct
{
  double strokes[N_LIES][STROKES_NODES]; /* by lie and distance / STROKES_STEP_M */
} StrokesTable;

/* A golfer of the level. Free with strokes_table_free. */
StrokesTable *strokes_table_new (Level level);
/* The published table, all lies of the program mapped onto its columns. */
StrokesTable *strokes_table_new_tour (void);
void strokes_table_free (StrokesTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (StrokesTable, strokes_table_free)

/*
 * Strokes to hole out from a lie at `distance_m` >= 0 from the hole; at least 1. Tee, fairway, rough, sand and trees (recovery) are the table's columns, the
 * green its putts; the first cut, deep rough, fringe, waste, paths and buildings lie between them (app/plan/strokes.c). From a penalty area it is
 * what a drop beside it costs at the same distance, its stroke included; out of bounds a stroke more: plan_drops knows better.
 */
static inline double
strokes_to_hole (const StrokesTable *table, Lie lie, double distance_m)
{
  double place = distance_m * (1 / STROKES_STEP_M);
  size_t i = place < STROKES_NODES - 2 ? (size_t)place : STROKES_NODES - 2;
  const double *row = &table->strokes[lie][i];
  return row[0] + (place - (double)i) * (row[1] - row[0]);
}

/* From a ball at rest on the hole, by the area it lies in; `target` is the hole (hole_target). */
double strokes_from (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 ball);

/* ---- relief under the Rules of Golf ---- */

/* Two club-lengths, of a driver of 45 in (common practice): how far from where it went in a ball may be dropped. */
#define DROP_LATERAL_M 2.286
/* What a drop from a penalty area, a ball lost and a ball out of bounds cost (Rules 17.1d, 18.2b). */
#define DROP_PENALTY_STROKES 1.0

typedef enum
{
  DROP_AGAIN,   /* stroke and distance: played again from where it was (Rules 17.1d(1), 18.2b) */
  DROP_BACK,    /* back on the line from the hole through where it crossed the edge (Rule 17.1d(2)) */
  DROP_LATERAL, /* within two club-lengths of there, not nearer the hole; red stakes only (Rule 17.1d(3)) */
  N_DROP_RULES
} DropRule;

/* "again", "back-on-line", "lateral". */
const char *drop_rule_token (DropRule rule);

typedef struct
{
  DropRule rule;
  Vec2 crossing;  /* where the ball last crossed the edge on its way in; DROP_AGAIN out of bounds: where it went out */
  Vec2 at;        /* where the next ball is played from */
  Lie lie;        /* there */
  double strokes; /* to hole out, the penalty included */
} Drop;

/*
 * The drops that the Rules allow after a ball played from `ball` has come to rest at `rest` in a penalty area or out of bounds, cheapest first; returns
 * their count, 0 for a ball that lies anywhere else. The ball is taken to have gone straight from the one place to the other. Of the
 * places that a rule allows the one is taken from which the fewest strokes are left: lateral among 24 on the rim of the two club-lengths,
 * back on the line one every metre up to 100 m beyond the area. A ball played from the same penalty area, on the whole way from `ball` to `rest`, is
 * played again only. `again_strokes` is what playing again from `ball` costs, without the penalty; NAN: what the table says of it.
 */
size_t plan_drops (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 ball, Vec2 rest, double again_strokes,
                   Drop drops[N_DROP_RULES]);

/* ---- a place to play from ---- */

#define PLAN_ERROR (plan_error_quark ())
GQuark plan_error_quark (void);
typedef enum
{
  PLAN_ERROR_BALL,     /* the ball is not at a place on the hole */
  PLAN_ERROR_TARGET,   /* nothing to play to, or the ball lies in the hole */
  PLAN_ERROR_REACH,    /* no club gets that far */
  PLAN_ERROR_CLUB,     /* no club of the bag can be played */
  PLAN_ERROR_CANCELLED /* the caller wanted no answer any more */
} PlanError;

/* Everything borrowed; it must outlive what is made of it. */
typedef struct
{
  const Hole *hole;
  const char *hole_name; /* NULL: the hole location in use */
  Vec2 ball;
  const StrokesTable *table;
  const Conditions *conditions; /* NULL: the standard day */
  const LieTable *lies;         /* what the ball's lie does; NULL: what the bag's table says, without a bag nothing */
  double lost_chance;           /* 0..1 that a ball among trees is not found: then stroke and distance (Rule 18.2) */
  const int
      *cancelled; /* NULL, or looked at now and then, atomically: when it is not 0, the work ends with PLAN_ERROR_CANCELLED */
} PlanInput;

/* No place costs more than this: where every ball is lost, a number would grow without end. */
#define PLAN_MOST_STROKES 50.0

/* What a shot comes to in one kind of lie. */
typedef struct
{
  Lie lie;        /* where it comes to rest, or is lost */
  double chance;  /* 0..1 */
  double strokes; /* expected from there, penalties included */
  double
      cost; /* strokes that this kind of end costs the shot: chance x (strokes - those from the fairway at the same distances) */
} Outcome;

/* What one shot costs and what can become of it. */
typedef struct
{
  double strokes;       /* to hole out, this shot included */
  double again_strokes; /* what playing again from the ball was taken to cost */
  double left_m;        /* mean distance to the hole of the balls in play */
  Outcome outcomes[N_LIES];
  size_t n_outcomes; /* largest cost first; those that happen only */
} ShotStrokes;

/*
 * Expected strokes of a shot that odds_shot gave: 1 + the mean of the strokes from where its balls come to rest, those that odds_rests tells: so the chances of the outcomes are those
 * of odds_table_new at rest, by lies. Good to 0.005 strokes. Penalties are plan_drops's cheapest. `again_strokes` NAN: the same shot over and over. False with `error` also as
 * odds_table_new.
 */
bool plan_shot_strokes (const PlanInput *input, const ShotResult *shot, double again_strokes, ShotStrokes *result,
                        GError **error);

/* ---- the map of aims ---- */

/* One aim of one club. */
typedef struct
{
  Vec2 aim;
  double swing;
  Vec2 landing;        /* centre of the landing pattern */
  double strokes;      /* to hole out, this shot included */
  double again_chance; /* that it is to be played again: out of bounds, lost */
} AimStrokes;

/*
 * Expected strokes of one club over all aims worth a thought: from AIM_LEAST_SWING of its carry to a full swing, to either side of the line to the hole and of
 * the line of play, on a polar grid about the ball: value [swing * n_turns + turn] is for the aim at first_rad + turn * turn_step_rad, anticlockwise from +x, swung first_swing + swing *
 * swing_step of the carry; the last row is the full swing. An aim's distance is that share of `carry_m`.
 */
typedef struct
{
  const Club *club;
  Vec2 ball;
  double carry_m; /* of a full swing along the middle of the map, on the day */
  double first_rad, turn_step_rad, first_swing, swing_step;
  size_t n_turns, n_swings;
  double *strokes;      /* n_turns * n_swings */
  double again_strokes; /* what playing again from the ball was taken to cost */
  AimStrokes best;      /* a part swing only where it saves more than AIM_PART_SWING_STROKES */
  AimStrokes straight;  /* at the hole, as far as the club goes */
} AimMap;

/* Golfers mostly make full swings; the map shows parts of them down to this, and further where the hole is nearer (common practice). */
#define AIM_LEAST_SWING 0.8
/* A part swing must save this much over a full one to be worth it (common practice). */
#define AIM_PART_SWING_STROKES 0.1
/* The map reaches this far to either side of what there is to aim at. */
#define AIM_MOST_TURN_RAD (25 * PI / 180)

/*
 * The map of one club. Method: a ball comes down in each cell of a grid, one on each lie where an edge crosses it, several where it matters, and is followed over the ground
 * to its rest (run_ground_follow of odds-rests.h), running on in the direction in which it flew; what it then costs, with relief and trees, is
 * blurred by the round part of the smallest pattern, and read at a few nodes along the rest of each aim's pattern (trapezoid and Gauss-Hermite). What the day and the
 * ground do to the landing is flown in three directions and taken as a parabola between them; a part swing lies between the
 * least and the full one, both flown. `best`, found so, is then flown itself and costs what plan_shot_strokes says; by as much as that differs the map is corrected about it. Beside
 * plan_shot_strokes aims next to the best are within 0.004 strokes, full swings anywhere 0.021, part swings 0.025 (rms over the shots of the example; 0.15 at worst). The ball is played
 * again with the best of these aims. A map is never changed; free with aim_map_unref. NULL with `error` for a club that no ball leaves, as odds_table_new, and when cancelled.
 */
AimMap *aim_map_new (const PlanInput *input, const Club *club, GError **error);
/* Counted, from any thread. */
AimMap *aim_map_ref (AimMap *map);
void aim_map_unref (AimMap *map);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (AimMap, aim_map_unref)
/* Strokes at an aim, between the map's; beyond a full swing that of the full swing. NAN off the map. */
double aim_map_strokes (const AimMap *map, Vec2 aim);

/* ---- clubs beside one another ---- */

/* A club at its own best aim. */
typedef struct
{
  const Club *club; /* borrowed from the bag */
  AimStrokes best;
  double
      over_best; /* strokes more than the first club's: 0 for it; a part swing may be cheaper by up to AIM_PART_SWING_STROKES and still stand behind */
  ShotStrokes outcome; /* of that aim: what it leaves, what can go wrong */
} ClubChoice;

/*
 * Every club of the bag that can be played from the ball, the one to choose first; clubs for the tee only on a tee. Playing again is priced alike for all: with
 * the best of all their aims. New array of `*n_choices`, free with g_free; NULL with `error` when no club can be played, and when cancelled.
 */
ClubChoice *plan_clubs (const PlanInput *input, const Bag *bag, size_t *n_choices, GError **error);

/* ---- the approach: the number to play, and where to miss ---- */

typedef enum
{
  MISS_SHORT,
  MISS_LONG,
  MISS_LEFT,
  MISS_RIGHT,
  N_MISSES
} Miss;

/* "short", "long", "left", "right". */
const char *miss_token (Miss miss);

typedef struct
{
  /* The number: where the balls are best to land, if there were a club for just that distance. */
  AimStrokes
      best; /* its aim is where they land were it not for wind and curve; the swing is of `club`, and may be more than full */
  double plays_m; /* still-air level carry that lands there on this day */
  double past_m;  /* balls then rest so far beyond the hole on average, negative: short of it */
  double right_m; /* and so far right of it, negative: left */
  double
      at_hole_strokes; /* of the shot whose balls rest at the hole on average: what playing at it costs more is at_hole_strokes - best.strokes */
  /* The club that fits, as plan_clubs chooses, and those that bracket it, each at its own best aim; NULL where there is none. */
  const Club *club, *longer, *shorter;
  double club_strokes, longer_strokes, shorter_strokes;
  /* Of the shot at the hole: its worse half, parted by the side on which it misses most in its own deviations; mean strokes to hole out from there. */
  double misses[N_MISSES];
  Miss safest, dearest;
} Approach;

/* The aims of an approach are looked for as far as this share beyond a full swing of the nearest club: the next club's carry (common practice). */
#define APPROACH_MOST_SWING 1.15

/*
 * False with PLAN_ERROR_REACH when no club of the bag gets to the hole, and as plan_clubs. Accuracy as the map of aims; the balls of `club` swung harder or
 * softer are taken to scatter in proportion.
 */
bool plan_approach (const PlanInput *input, const Bag *bag, Approach *approach, GError **error);

/* Sentences for the golfer, `translate` as for sight_words: "Plays 147, finish 4 past the hole. Long is the side to miss: short costs 0.6 strokes more." Free with g_free. */
char *approach_words (const Approach *approach, LengthUnit unit, Translate translate);

/* ---- the whole hole, solved ---- */

/* How finely the hole is looked at when nothing else is asked for. */
#define PLAN_CELL_M 2.0

/*
 * The fewest expected strokes to hole out from everywhere on the hole, for one golfer on one day: states are cells and the lies in them, actions clubs
 * (the shorter ones also with less than a full swing) and aims; a ball lands as the club's pattern from that lie says, poor strikes as odds_strikes has them, is
 * caught by canopies, runs on and comes under the Rules. Nothing is known beyond the sheet: all there is as at its nearest edge, so what fills the drawing goes on for ever. On the green and within PLAN_TABLE_M of the hole strokes come from the golfer's table. Among trees
 * no shot is worked out: what open ground beside them costs just then, a stroke for as much of the way there as the longest swing goes from among trees, and what the table has trees cost more than a fairway. Found by
 * value iteration until nothing that counts changes by more than PLAN_TOLERANCE, and one more look at every club and aim: for cells of 8 m
 * first, then of the size asked for where that is less than 3 m, those only where play that is near the best may come from the tee. Elsewhere the values are those
 * of the larger cells. Other sizes are worked out everywhere at once.
 *
 * Solved again from the answer before (`near`), a hole is looked at only where it differs: a changed area's cells, and the swings that come down there or are the best from
 * where that costs more. After another bag, tee, hole location or day the answer before is only where to start from, but for the ground. An aim of the golfer's own plan changes
 * nothing here: plan_make_own (plan-compare.h) values it against the answer.
 *
 * Immutable and reference counted; for any thread. It keeps the hole and the bag, and the fields of what landing is worth where they were looked at: 100 MB for a long
 * hole, less than 1 GB at the very most; while it is solved again there are two.
 */
typedef struct _PlanSolution PlanSolution;

#define PLAN_TABLE_M 45.0
#define PLAN_TOLERANCE 5e-4
/* It always ends: no more sweeps than this are made. */
#define PLAN_MOST_SWEEPS 60

typedef struct
{
  const char *tee, *hole_name;  /* NULL: those in use */
  const Conditions *conditions; /* NULL: the standard day */
  const LieTable *lies;         /* NULL: the usual one */
  double cell_m;                /* 0: PLAN_CELL_M; a hole of more than 98 304 cells gets larger ones */
  int n_threads;                /* 0: two */
  const gint *n_helpers;        /* so many threads more, looked at atomically from time to time; NULL: none */
  const PlanSolution *near;     /* of nearly the same question, see above; NULL: it is solved afresh */
  const gint *cancel;           /* set from any thread: it returns soon; NULL: never */
  /* Called on the caller's thread with a share 0..1 of the time done, and `so_far` what there is: NULL, soon cells of 8 m - good but for a tenth of a stroke - and then
     smaller ones. It is that of this moment only. NULL: no one listens. */
  void (*progress) (double share, const PlanSolution *so_far, void *data);
  void *data;
} PlanQuestion;

/* NULL with one sentence in `error`. */
PlanSolution *plan_solve (const Hole *hole, const Bag *bag, const PlanQuestion *question, GError **error);
PlanSolution *plan_solution_ref (PlanSolution *solution);
void plan_solution_unref (PlanSolution *solution);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (PlanSolution, plan_solution_unref)

/* Expected strokes to hole out from a ball at rest there, by the lies of its cell; NAN where no ball is played from, such as out of bounds. */
double plan_strokes_at (const PlanSolution *solution, Vec2 at);
/* Places of the grid, for a map of them: its corner's middle, width of a cell, columns and rows. */
typedef struct
{
  Vec2 origin;
  double cell_m;
  int columns, rows;
} PlanGrid;
PlanGrid plan_grid (const PlanSolution *solution);

/* ---- plans made of a solution ---- */

/* What of a shot is decided beforehand. After the tee shot every plan goes on with the best shots. */
typedef enum
{
  PLAN_SUGGESTED, /* the fewest expected strokes */
  PLAN_LAY_UP, /* the best with a club that goes at most PLAN_LAY_UP_SHARE as far as the longest; none where that is the suggested shot */
  PLAN_ALL_OUT, /* the longest club, at its own best aim */
  N_PLAN_CHOICES
} PlanChoice;
#define PLAN_LAY_UP_SHARE 0.85

/* "suggested", "lay-up", "all-out". */
const char *plan_choice_token (PlanChoice choice);

/* One shot of a plan, played from where the mean ball of the one before comes to rest. */
typedef struct
{
  ShotResult shot;                         /* as it flies on the hole and the day */
  double curve_m;                          /* asked for; NAN: as the club usually does */
  double fairway, green, trouble, penalty; /* 0..1 that the ball ends there; penalty: penalty areas and out of bounds */
  double strokes;                          /* expected to hole out from its ball */
  const Club *next_club;                   /* the best other club; NULL: there is none */
  double next_costs;                       /* strokes that it would cost more */
  double straight_costs;                   /* ... and the same club aimed straight at the hole */
} PlanShot;

/* Shots of a plan at most, and strokes whose chance is told one by one; the last is that many or more. */
#define PLAN_MOST_SHOTS 8
#define PLAN_MOST_SCORE 12

typedef struct
{
  PlanShot shots[PLAN_MOST_SHOTS]; /* to the green or where the strokes come from the table */
  size_t n_shots;
  double strokes;                      /* expected score */
  double chances[PLAN_MOST_SCORE + 1]; /* of each score; they add up to 1 */
} Plan;

/*
 * A plan from the tee. Scores come from carrying the chances of every cell forward, shot by shot; strokes of the table are the two whole numbers on either side
 * of what it says, so that scores are spread a little too narrowly. False with `error` where a tee shot of this choice is not in the bag, or when no shot
 * is expected to finish the hole.
 */
bool plan_make (const PlanSolution *solution, PlanChoice choice, Plan *plan, GError **error);

#endif
