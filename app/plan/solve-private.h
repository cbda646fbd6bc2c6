// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of the whole-hole solver share.
 *
 *   hole --grid--> cells with lies, heights, relief     bag, day --fleet--> what each swing does in each direction
 *                    \                                   /
 *                     fields: what landing here is worth, run and Rules included, by run length and direction
 *                                       |  mean over each swing's pattern
 *                     sweep: every state's best swing and aim  --> values --> fields ...
 *
 * A state is a cell and one of the lies in it. Its value is the fewest expected strokes to hole out. All that is done for cells of 8 m first, and for
 * the cells asked for only where play that is near the best may come.
 */
#ifndef HOLEWRIGHT_SOLVE_PRIVATE_H
#define HOLEWRIGHT_SOLVE_PRIVATE_H

#include "solve-worth-private.h"

/* ---- the sweep ---- */

/* Aims are told apart by 0.35 degrees: 1.4 m at the end of a long drive. */
#define N_AIMS 1024

/* One aim of one swing, seen from the ball. */
typedef struct
{
  float x_m, y_m;   /* where it comes down */
  float xx, xy, yy; /* covariance, m2 */
  float run;        /* worth_run; negative: it is not played there */
  float
      sector; /* of the way that it goes when it comes down: the sector to the right of it, and how far it is on the way to the next */
  float rise1, rise2; /* of the way, by a metre of rise and its square */
  float run_rise;     /* of `run`, by a metre of rise */
} SwingAim;

/* One swing from one lie, aim by aim. */
typedef struct _SwingAims
{
  SwingAim aims[N_AIMS];
  struct _SwingAims *poor; /* its poor strikes; NULL: it has none */
  float poor_share;        /* of the balls */
  float least_variance;    /* m2: of the narrowest */
  int step;                /* between coarse aims */
  double reach_m;          /* the least of carry and run */
  double far_m;            /* the most of carry */
  double run_m;            /* the most */
  double long_sd_m;        /* the most */
  /* What the ground under the ball adds, as in Flown; of the run in lengths as worth_run has them. */
  double up_along_m, up_along_m2, up_right_m, up_run, up_rise1, side_along_m, side_right_m;
} SwingAims;

/* NULL where the swing is not played from the lie. `units`: solve_aim_unit's. */
SwingAims *swing_aims_new (const Fleet *fleet, size_t swing, Lie lie, const Vec2 units[N_AIMS]);
void swing_aims_free (SwingAims *aims);
Vec2 solve_aim_unit (int aim);
int solve_aim (Vec2 unit);
/* No ball is expected to need more: where the Rules send it back for ever. */
#define MOST_STROKES 40.0

/* Shared by solutions for one bag, day and table of lies. */
typedef struct
{
  gint ref_count;
  bool is_needed[N_LIES]; /* as it was made for */
  Fleet *fleet;
  SwingAims **aims;                   /* [swing * N_LIES + lie]; NULL: not played */
  size_t n_played;                    /* of them */
  double least_reach_m, most_reach_m; /* of the shortest swing and the longest */
  RunSwings runs;
} Flights;
/* Those of `near` (NULL: there is none), or new ones; NULL when cancelled. */
Flights *flights_for (const PlanSolution *solution, const PlanSolution *near, const bool is_needed[N_LIES], const gint *cancel);
void flights_unref (Flights *flights);

typedef struct _Thicket Thicket;

/* Everything of one solution, for cells of one size. */
struct _PlanSolution
{
  gint ref_count;
  Hole *hole;
  Bag *bag;
  char *hole_name, *tee_name;
  Conditions conditions;
  LieTable lies;
  StrokesTable *table;
  Vec2 tee;
  SolveGrid *grid;
  Flights *flights;
  const Fleet *fleet; /* of the flights, both */
  SwingAims *const *aims;
  Worth *worth;
  Thicket *thicket; /* NULL: no trees, or nothing to play out of them */
  int n_threads;
  const gint *n_helpers;   /* atomic: and so many more; NULL: none, as soon as it is solved */
  double widen, least_var; /* square cells: what is added to a pattern's variance, and the least that comes of it */
  double *value;           /* [state] */
  Pages *pages;            /* of the next two, and of `seen` and `looked` */
  float *cost;             /* [state * n_swings + swing]: of its best aim so far */
  gint16 *aim;             /* likewise; -1: never played from there */
  guint8 *best;            /* [state] swing */
  float *certified_value;  /* [state] at the last look at everything */
  gint certified;          /* version of the fields at the last look at everything; 0: there was none */
  guint16 *seen,
      *looked;    /* as cost: version of the fields of which it was worked out, and when aims beside it were looked at */
  size_t *active; /* states that are worked out; the others keep what the larger cells say */
  size_t n_active;
  float *weight;        /* [active] 0..1, how much a change of its value counts; NULL: all alike */
  double least_reach_m; /* of the shortest swing */
  float *least_beyond;  /* [metre] least value of a state at least so far from the hole */
  size_t n_beyond;
  int n_sweeps;
  bool is_part; /* its fleet and aims are another's */
  float *
      reached; /* [cell] chance, 0 and up, that play which is near the best comes past; NULL: it was not looked for in these cells */
  PlanSolution *coarser; /* of larger cells, where this one began; NULL: there is none */
};

/* ---- where a solution begins ---- */

/* What a ball on a lie is begun with: as by the table, and no less than a stroke for each full swing's length to where the table serves every bag. */
double solve_begin_strokes (const PlanSolution *solution, Lie lie, double hole_m);

/* Cells smaller than this begin with larger ones, and are worked out only where play may come. */
#define FINE_M 3.0

/* Of another solution that part which has cells of this size; NULL: none has. */
const PlanSolution *solve_part_like (const PlanSolution *other, double cell_m);
/* From the values of a solution of other cells, or of nearly the same question. */
void solve_start_from (PlanSolution *solution, const PlanSolution *other);
/* Has `near` (may be NULL) the same cells, swings and aims, and may its fields be taken over? */
bool solve_is_like (const PlanSolution *solution, const PlanSolution *near);
/* From all that such a one knows. It must outlive the solving. */
void solve_start_again (PlanSolution *solution, const PlanSolution *near);
/* States that count so little with that one that it never looked at them all round, and count more now, are known by nothing. */
void solve_doubt_light (PlanSolution *solution, const PlanSolution *near);
/* The most by which the value of a state that both have is another; of states on which so little depends that nothing is certified there, less. */
double solve_moved (const PlanSolution *solution, const PlanSolution *near);
/* States count by how often near-best play came to them before, where that is known of the same cells. */
void solve_weigh_reached (PlanSolution *solution, const PlanSolution *near);
/* Only states that near-best play may come to, as the larger cells say, stay active, and count by how often it does. */
void solve_keep_reached (PlanSolution *solution);

/* ---- among trees ---- */

/* What never changes of it; NULL where there are no trees, or none of the swings is played from among them. */
Thicket *thicket_new (const PlanSolution *solution);
void thicket_free (Thicket *thicket);
/*
 * The states among trees take their values from open ground beside them as it is worth just now: what a ball costs that comes out there on a fairway, a stroke for as much of the way as the
 * longest swing goes from among trees, and what trees cost more than a fairway by the table. Within PLAN_TABLE_M of the hole the table stands.
 */
void solve_value_trees (PlanSolution *solution);

/* ---- what an aim costs ---- */

/* So sure a loss is no plan. */
#define MOST_LOST 0.98
/* Strokes when what is lost is played again from here: Q = 1 + A + P (1 + Q); MOST_STROKES at most. */
static inline double
solve_play_again (double value, double lost)
{
  double strokes = lost > MOST_LOST ? MOST_STROKES : (1 + value + lost) / (1 - lost);
  return strokes < MOST_STROKES ? strokes : MOST_STROKES;
}

/* How a swing comes down that is aimed so, from a ball at rest at a place on the grid. */
Landing solve_landing (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m);
/* How its poor strikes do: they are spread as the good ones are. */
Landing solve_poor_landing (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m,
                            const Landing *good);
/* What it costs, with the best shots after it; MOST_STROKES at most. */
double solve_aim_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m);
/* The same to two hundredths of a stroke in what tells aims of a swing apart. */
double solve_rough_aim_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball, double height_m);
/* No less does it cost, as far as can be told without looking at what it comes down on; to be asked once solve_find_least_beyond was. */
double solve_least_cost (const PlanSolution *solution, const SwingAims *aims, int aim, Vec2 ball);
/* What the best places cost so far from the hole, by the values as they are. */
void solve_find_least_beyond (PlanSolution *solution);

/* ---- what has come to be better ---- */

/* What a swing may come down on that has. */
typedef struct
{
  const Fall *falls[MOST_FALLS];
  int n;
  CellBox box;      /* about all of them */
  double most_gain; /* no aim of the swing is better now by more */
} FallsMet;

/* How far from a place the nearest and the farthest cells lie that hold what has. */
typedef struct
{
  float near_m[MOST_FALLS], far_m[MOST_FALLS];
} FallsSeen;

void solve_find_falls_seen (const PlanSolution *solution, Vec2 at, FallsSeen *seen);
/* Most of a swing's balls that come down in one cell. */
double solve_density (const PlanSolution *solution, const SwingAims *aims, int aim);
/* Of balls that are played at that place. */
void solve_find_falls_met (const PlanSolution *solution, const SwingAims *aims, double density, const FallsSeen *seen,
                           FallsMet *met);
/* By how much an aim of it can be better now; of more than `enough` no more is told than that. */
double solve_gain (const PlanSolution *solution, const SwingAims *aims, const FallsMet *met, int aim, Vec2 at, double enough);

/* ---- the sweep ---- */

typedef enum
{
  SWEEP_FIRST,  /* every swing, coarse aims */
  SWEEP_LEFT,   /* swings that may still be best, about their best aim, where anything under them has changed */
  SWEEP_CERTIFY /* every swing that may be best for all that is known, coarse aims */
} SweepKind;

typedef struct
{
  SweepKind kind;
  int step; /* SWEEP_LEFT: aims about the best that are looked at; 0: none but it */
  double
      margin; /* swings that were known to cost this much more than the best are left out; SWEEP_FIRST: that can come no nearer to it */
  double weight; /* states that count less are left out */
} SweepPlan;

/* States that count less are not looked at all round. */
#define SOLVE_CERTIFY_WEIGHT 0.2

/* One sweep over the active states. Returns the largest change of a value, by its weight; NAN when cancelled. */
double solve_sweep (PlanSolution *solution, SweepPlan plan, const gint *cancel);

/* ---- one shot from anywhere ---- */

/* A shot by a swing of the fleet. */
typedef struct
{
  Vec2 ball;
  Lie lie; /* LIE_TEE: off a peg */
  size_t swing;
  Vec2 way; /* unit vector to the aim */
} SolveShot;

/* Strokes to hole out from the ball with this shot and the best ones after it; MOST_STROKES at most. Every cell under the pattern, exactly in the shot's
   direction, told to `visit` (may be NULL). */
double solve_shot_exactly (const PlanSolution *solution, const SolveShot *shot, EndingVisit visit, void *data);
/* The same of a shot that flies so, which the fleet need not have. */
double solve_flown_exactly (const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown, EndingVisit visit,
                            void *data);

/* The best aim of one swing. */
typedef struct
{
  size_t swing;
  Vec2 way;
  double strokes; /* INFINITY: it is not played from there */
} SolveChoice;

/* The best aim of each swing of the fleet from a ball, cheapest swing first: `choices` has room for n_swings. Those are told of that cost no more than `margin` over the best one,
   and the best with another club; others may be told of as dearer than they are, or as if they were not played. INFINITY: all are told of. */
void solve_choices (const PlanSolution *solution, Vec2 ball, Lie lie, double margin, SolveChoice *choices);
/* The same as the fields have it. */
void solve_rough_choices (const PlanSolution *solution, Vec2 ball, Lie lie, double margin, SolveChoice *choices);

/* The best shot from the middle of a state's cell. False where none is played. */
bool solve_best_shot (const PlanSolution *solution, size_t state, SolveShot *shot);
/* Chances of each score after a tee shot, as Plan has them; `flown`: how it flies where the fleet does not have it, else NULL. */
void solve_scores (const PlanSolution *solution, const SolveShot *tee_shot, const Flown *flown,
                   double chances[PLAN_MOST_SCORE + 1]);

/* Chance, 0 and up, that play which is near the best comes past each state: [state], free with g_free. */
float *solve_reach (const PlanSolution *solution, const gint *cancel);

#endif
