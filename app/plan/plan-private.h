// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of this module share: a place to play from, what a ball at rest costs, what a club does from the place, and the field of what
 * landing anywhere costs.
 *
 *      Place (ball, hole, trees in the way) ──► Response (a club from there) ──► Field (landing there costs) ──► map of aims
 */
#ifndef HOLEWRIGHT_PLAN_PRIVATE_H
#define HOLEWRIGHT_PLAN_PRIVATE_H

#include "plan.h"

#include <math.h>
#include <stdint.h>

/* Strokes to come: `strokes` + `again` times what playing again from the ball costs. */
typedef struct
{
  double strokes, again;
} Value;

static inline Value
value_add (Value a, double share, Value b)
{
  return (Value){ a.strokes + share * b.strokes, a.again + share * b.again };
}

/* hypot guards against lengths that a hole does not have, at ten times the price. */
static inline double
length_of (Vec2 a)
{
  return sqrt (vec2_dot (a, a));
}

/* ---- the place ---- */

/* Trees on a ray from the ball. */
typedef struct
{
  double near_m, far_m;
  double top_m; /* above the ball's own place */
  double density;
} Canopy;

/* Relief found before, by direction from the ball: neighbours drop at the same place. */
typedef struct
{
  double from_m, to_m; /* along the ray; nothing when from_m > to_m */
  Value value;
} KeptDrop;
#define KEPT_DROP_RAD (0.25 * PI / 180)
#define N_KEPT_DROPS 1440
/* So many for each direction: waters behind one another. */
#define N_KEPT_WATERS 3
typedef struct
{
  GMutex lock;                      /* of the drops */
  KeptDrop (*drops)[N_KEPT_WATERS]; /* N_KEPT_DROPS, each with the latest first; NULL before the first one */
  gsize spread, least;              /* of place_spread and place_least; 0: not asked for yet */
} Kept;
Kept *kept_new (void);
void kept_free (Kept *kept);

/* Any number of threads may ask of one place at once. */
typedef struct
{
  PlanInput input;
  Conditions conditions;
  Vec2 target;
  Lie lie;
  bool stops[N_LIES];         /* does a ball that comes into such a lie stay there? */
  double again_strokes;       /* what the table says of the ball's place */
  double first_rad, last_rad; /* directions worth aiming in */
  /* Canopies by direction, for rays every RAY_RAD from first_ray_rad: those of ray i are canopies[ray_starts[i]] .. [ray_starts[i + 1] - 1], by near_m. */
  double first_ray_rad;
  Vec2 middle_ray; /* unit vector */
  size_t n_rays;
  size_t *ray_starts; /* NULL: no trees */
  Canopy *canopies;
  Kept *kept; /* found once, for all who ask */
} Place;

bool place_init (Place *place, const PlanInput *input, GError **error);
void place_clear (Place *place);
/* Places looked at over a pattern, in its deviations along and across: N_SPREAD of them. */
#define N_SPREAD 4096
const Vec2 *place_spread (const Place *place);
/* True, with `error`, when the caller wants no answer any more. */
bool place_is_cancelled (const Place *place, GError **error);
/* Fills in the rays. */
void place_find_trees (Place *place);
/* Canopies on the way from the ball; returns their count. */
size_t place_canopies (const Place *place, Vec2 way, const Canopy **canopies);

/* ---- a ball at rest ---- */

/* By nodes of the strokes table: what no lie is below there or farther from the hole. */
const double *place_least (const Place *place);
/*
 * plan_drops, where the lie of `ball` is known, which is looked for among all parts of the hole, and place_least of the table (NULL: unknown): nothing is looked at that lies too far from
 * the hole to be cheaper than what there is.
 */
size_t drops_from (const Hole *hole, const StrokesTable *table, const double *least, Vec2 target, Vec2 ball, Lie from,
                   Vec2 rest, double again_strokes, Drop drops[N_DROP_RULES]);
/* What a ball at rest there costs. `lie` is hole_lie_at. */
Value value_at_rest (const Place *place, Vec2 at, Lie lie);

/* ---- a club from the place ---- */

/* Heights of the mean ball along its carry, every 1 / (N_HEIGHTS - 1) of it. */
#define N_HEIGHTS 33

/* One swing along the middle of the aims. */
typedef struct
{
  double swing, carry_m, side_m; /* landing along the aim, and right of it */
  double heights_m[N_HEIGHTS];   /* above the ball */
  Impact impact;                 /* as it comes down: x along the way from the ball, y to the left of it */
  double run_m;                  /* how far on the way from the ball it then runs */
} Stroke;

typedef struct
{
  const Club *club;
  double middle_rad;
  Stroke full, part; /* part.swing == full.swing: no other */
  /* How a full swing's landing changes with the turn d from the middle: by slope d + bend d^2, along the aim and right of it. */
  double carry_slope_m, carry_bend_m, side_slope_m, side_bend_m;
  double long_sd_m, side_sd_m, correlation; /* of a full swing along the middle */
} Response;

bool response_init (Response *response, const Place *place, const Club *club, double least_swing, GError **error);
/* As this shot was flown: towards its aim only. */
void response_of_shot (Response *response, const ShotResult *shot);
/* Centre of the pattern and the pattern itself for an aim. */
Pattern response_pattern (const Response *response, Vec2 ball, double direction_rad, double swing);
/*
 * The pattern by which a field is read for an aim, a little narrower: in the field each ball runs on as it flew, fanned out from where it was played, while the odds let all of a
 * shot's run on as its mean one.
 */
Pattern response_narrowed (const Response *response, Vec2 ball, const Pattern *pattern);
/* How the ball comes down that lands there, but for its time and height. */
FlightPoint response_landing (const Response *response, Vec2 ball, Vec2 landing);
/* The fastest of them over the ground. */
double response_landing_mps (const Response *response);
/* Where a poor strike's balls land, as to the good ones' pattern; false for a club that has none. */
bool poor_pattern (const Club *club, const Pattern *good, Vec2 ball, Pattern *poor);
/* Does a canopy on its way meet the ball that lands `landing_m` away? */
bool response_is_stopped (const Response *response, double landing_m, const Canopy *canopy);
/* What a ball costs that comes down at `landing`: trees on the way are told apart from the rest, 0..1 that it gets past them. */
double pass_trees (const Place *place, const Response *response, Vec2 landing, Value *stopped);

/* ---- the field: what it costs to land anywhere ---- */

typedef struct
{
  Vec2 origin, across, along; /* node (0,0), unit vectors of the grid */
  double step_m;
  int n_across, n_along, pitch;
  float *strokes, *again; /* blurred; again NULL: never */
  double blur_m;          /* deviation that is in the field already, each way */
} Field;

/* Over the places that the patterns between `least_swing` and `most_swing` reach. */
bool field_init (Field *field, const Place *place, const Response *response, double least_swing, double most_swing,
                 GError **error);
void field_clear (Field *field);
/* Mean over a pattern. */
Value field_mean (const Field *field, const Pattern *pattern);

/* ---- aims ---- */

/* An aim's mean, poor strikes included. */
Value aim_mean (const Field *field, const Response *response, Vec2 ball, double direction_rad, double swing);

/* As plan_shot_strokes, of a shot from the place; `*odds` (may be NULL) receives its odds. */
bool shot_strokes_of (const Place *place, const ShotResult *shot, double again_strokes, ShotStrokes *result, OddsTable **odds,
                      GError **error);

/* Where a pattern's balls rest on average, good strikes only. */
Vec2 mean_rest_of (const Place *place, const Response *response, const Pattern *pattern);
/* Mean strokes from where a pattern's worse half rests, by the side missed on. */
void miss_strokes_of (const Place *place, const Response *response, const Pattern *pattern, double again_strokes,
                      double strokes[N_MISSES]);

#endif
