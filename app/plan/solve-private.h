// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of the whole-hole solver share.
 *
 *   hole --grid--> cells with lies, heights, relief     bag, day --fleet--> what each swing does in each direction
 *                    \                                   /
 *                     fields: what landing here is worth, run and Rules included, by run length and direction
 *                                       |  blurred by each swing's pattern
 *                     sweep: every state's best swing and aim  --> values --> fields ...
 *
 * A state is a cell and one of the lies in it. Its value is the fewest expected strokes to hole out.
 */
#ifndef HOLEWRIGHT_SOLVE_PRIVATE_H
#define HOLEWRIGHT_SOLVE_PRIVATE_H

#include "plan.h"

/* ---- the hole as cells ---- */

/* Directions are told apart this finely where the way a ball comes in matters but little: how it runs, where it crossed into a penalty area. */
#define N_SECTORS 32
/* Places back on the line that are looked at for relief, besides the lateral one. */
#define MOST_DROPS 10

typedef struct
{
  int drops[MOST_DROPS]; /* cells */
  int n_drops;           /* 0: only stroke and distance is left */
} Relief;

typedef struct
{
  double cell_m;
  Vec2 origin; /* centre of cell 0 */
  int nx, ny;
  size_t n_cells;
  Vec2 target;
  double *cover[N_LIES];     /* share of each cell that has this lie to play from; NULL: nowhere */
  double *height_m;          /* NULL: level */
  double *canopy, *canopy_m; /* chance 0..1 that a canopy over the cell stops a ball, and its height; NULL: no trees */
  bool *is_red;              /* the stakes of each cell; NULL: no penalty areas */
  double highest_canopy_m;
  int *penalty_of; /* index into reliefs of each cell, -1: no penalty area there; NULL: none at all */
  Relief *reliefs[N_SECTORS];
  size_t n_penalty;

  /* The states, sorted by lie. */
  size_t n_states;
  int *state_cell;
  Lie *state_lie;
  bool *state_ends; /* its value comes from the tables */
  size_t lie_begins[N_LIES + 1];
  int *state_at[N_LIES]; /* state of a cell and lie, -1: none; NULL: the lie is nowhere */
} SolveGrid;

/* How an area is played from once the ball is there: paths give free relief, a green that is not in play as well, and a tee is mown. */
Lie solve_lie (Lie lie);
bool solve_lie_stops (Lie lie);
SolveGrid *solve_grid_new (const Hole *hole, Vec2 target, double cell_m);
void solve_grid_free (SolveGrid *grid);
Vec2 solve_grid_centre (const SolveGrid *grid, int cell);
/* The cell that holds a place; one at the edge for places beyond. */
int solve_grid_cell (const SolveGrid *grid, Vec2 at);
double solve_grid_height (const SolveGrid *grid, Vec2 at);
/* Unit vector of the middle of a sector; sector of a direction. */
Vec2 solve_sector_unit (int sector);
int solve_sector (Vec2 unit);
/* Where a ball that came to `cell` along `unit` may be dropped. False where only stroke and distance is left. */
bool solve_relief (const SolveGrid *grid, int cell, Vec2 unit, Relief *relief);

/* ---- what the swings do on this day ---- */

/* Landing seen along the aim: how far, how far right; spread; run on a fairway; how a rise of the ground moves the landing. */
typedef struct
{
  double along_m, right_m;
  double long_sd_m, side_sd_m, correlation;
  double run_m;
  double rise_m1, rise_m2; /* landing moves by rise_m1 h + rise_m2 h^2 when the ground there is h higher */
  double descent;          /* tangent of the angle at which it comes down */
} Flown;

typedef struct
{
  const Club *club;
  double swing;
} Swing;

#define MOST_HEADINGS 16

typedef struct
{
  Swing *swings;
  size_t n_swings;
  bool is_tee_only_kept;    /* clubs for the tee are not played elsewhere; not so in a bag of nothing else */
  int n_headings;           /* 1: the same in all directions */
  Flown *flown;             /* [swing][lie][heading]; along_m NAN where no ball leaves so */
  double run_share[N_LIES]; /* run on a lie over that on a fairway */
} Fleet;

/* Flies them from the lies that are needed, besides fairway and tee. */
Fleet *fleet_new (const Bag *bag, const LieTable *lies, const Conditions *conditions, const bool is_needed[N_LIES],
                  int n_threads);
void fleet_free (Fleet *fleet);
/* Of a swing from a lie (LIE_TEE: off a peg) in a direction. False where the club is not played from there. */
bool fleet_flown (const Fleet *fleet, size_t swing, Lie lie, Vec2 unit, Flown *flown);

/* ---- what landing is worth ---- */

/* So many run lengths on a fairway are told apart; by what a swing runs more or less than the nearest its field is looked up elsewhere. */
#define N_RUNS 12
extern const double worth_runs_m[N_RUNS];

/*
 * What coming down in each cell is worth, for each run length and sector: strokes to hole out of where the ball ends, the penalties of the Rules included; what
 * is lost and played again counts nothing there and stands in `lost`.
 */
typedef struct
{
  const SolveGrid *grid;
  const Fleet *fleet;
  double descent[N_RUNS];         /* of the swings that run so far; NAN: none does */
  double *open;                   /* [cell] lies to play from, weighed */
  double *staying;                /* [cell] the part of it that keeps a ball that comes in */
  double *staying_share;          /* [cell] how much of the cell that is, penalty areas and out of bounds included */
  double *run_share;              /* [cell] of the rest */
  guint8 *to_staying, *to_canopy; /* [cell] no such cell is nearer than so many cells; NULL: there are none */
  float *slope_share[N_SECTORS];  /* [cell] on the run, by the slope; NULL: level */
  double *lost_share[N_SECTORS];  /* [cell] out of bounds, or a penalty area without relief */
  double *dropped[N_SECTORS];     /* [cell] strokes after relief, times its share */
  float *worth[N_RUNS][N_SECTORS];
  float *lost[N_RUNS][N_SECTORS]; /* NULL: nothing can be lost */
  bool is_anything_lost, is_lost_known;
} Worth;

Worth *worth_new (const SolveGrid *grid, const Fleet *fleet);
void worth_free (Worth *worth);
/* The run length that comes nearest. */
int worth_run (double run_m);

/* A share of balls that ends in a cell on a lie; `strokes` of a drop from a penalty area, its stroke included, else NAN. */
typedef void (*EndingVisit) (void *data, size_t cell, Lie lie, double share, double strokes);

/* The ways a ball ends that comes down in a cell: what they are worth, what is lost. Values are added to. */
typedef struct
{
  const Worth *worth;
  int sector; /* -1: exactly along `way`, told to `visit` (may be NULL) */
  Vec2 way;   /* unit vector */
  double run_m, descent;
  EndingVisit visit;
  void *data;
  double value, lost;
} Ending;
/* `share` of the balls come down in the cell. */
void worth_end_ball (Ending *ending, size_t cell, double share);
/* Takes over the states' values and makes all fields anew. */
void worth_update (Worth *worth, const double *value, int n_threads);

/* ---- blurred by a pattern ---- */

/* A field blurred by a round normal, as coefficients of a cubic spline on every step-th cell; true to the field at full resolution. */
typedef struct
{
  float *coefficients; /* of a grid BLUR_EDGE wider on each side */
  float per_cell;      /* nodes */
  int nx, ny;
} Blur;
#define BLUR_EDGE 3

/* Room for a blur of any field of the grid. */
typedef struct
{
  float *rows, *line, *kernel, *taps;
  size_t n_kernel;
} BlurRoom;
void blur_room_init (BlurRoom *room, const SolveGrid *grid);
void blur_room_clear (BlurRoom *room);
/* `coefficients` of the blur has room for blur_size floats. */
size_t blur_size (const SolveGrid *grid);
void blur_make (const SolveGrid *grid, const float *field, double sd_m, BlurRoom *room, Blur *blur);
/* At a place in cells of the grid; beyond the edge as at it. */
float blur_at (const Blur *blur, float x, float y);

/* ---- the sweep ---- */

/* Aims are told apart by 0.35 degrees: 1.4 m at the end of a long drive. */
#define N_AIMS 1024
/* Nodes along the pattern's longer axis. */
#define MOST_NODES 5

/* One swing from one lie, aim by aim. Lengths in cells. */
typedef struct
{
  bool is_played[N_AIMS];
  float x[N_AIMS], y[N_AIMS];               /* from the ball to where the sector's field is looked up */
  float land_x[N_AIMS], land_y[N_AIMS];     /* to where it comes down */
  float node_x[N_AIMS], node_y[N_AIMS];     /* a deviation of what the pattern is longer than round */
  float rise1[N_SECTORS], rise2[N_SECTORS]; /* per metre of rise and its square */
  double sd_m[N_SECTORS];                   /* of the round part; NAN: not played there */
  int n_nodes[N_SECTORS];
  int run[N_SECTORS];
  int step;          /* between coarse aims */
  double reach_m;    /* the least of carry and run */
  double farthest_m; /* the most carry */
  double spread_m;   /* how far from where it comes down nearly all its balls end */
} SwingAims;

/* NULL where the swing is not played from the lie. */
SwingAims *swing_aims_new (const SolveGrid *grid, const Fleet *fleet, size_t swing, Lie lie);
Vec2 solve_aim_unit (int aim);
int solve_aim (Vec2 unit);
/* The sector whose middle lies next to the right of an aim, and how far it is on the way to the next, 0..1. */
int solve_aim_sector (int aim);
double solve_aim_share (int aim);
/* Weights and places, in deviations, of the nodes along the longer axis (Gauss and Hermite). */
typedef struct
{
  float place, weight;
} Node;
const Node *solve_nodes (int n_nodes);

/* No ball is expected to need more: where the Rules send it back for ever. */
#define MOST_STROKES 40.0

/* Everything of one solution. */
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
  Fleet *fleet;
  Worth *worth;
  int n_threads;
  SwingAims **aims;     /* [swing * N_LIES + lie]; NULL: not played */
  double *value;        /* [state] */
  float *cost;          /* [swing * n_states + state]: of its best aim so far */
  gint16 *aim;          /* likewise; -1: never played from there */
  guint8 *best;         /* [state] swing */
  double least_reach_m; /* of the shortest swing */
  float *least_beyond;  /* [metre] least value of a state at least so far from the hole */
  size_t n_beyond;
  int n_sweeps;
};

typedef enum
{
  SWEEP_FIRST,   /* every swing, coarse aims, from every fourth cell */
  SWEEP_LEFT,    /* swings that may still be best, about their best aim */
  SWEEP_CERTIFY, /* every swing, coarse aims, from every cell */
  SWEEP_ALL      /* every swing, so many aims all round: to measure by */
} SweepKind;

/* One sweep over all states. Returns the largest change of a value; NAN when cancelled. */
double solve_sweep (PlanSolution *solution, SweepKind kind, int first_step, double margin, const gint *cancel);

/* ---- one shot from anywhere ---- */

/* A shot by a swing of the fleet. */
typedef struct
{
  Vec2 ball;
  Lie lie; /* LIE_TEE: off a peg */
  size_t swing;
  Vec2 way; /* unit vector to the aim */
} SolveShot;

/* Strokes to hole out from the ball with this shot and the best ones after it; MOST_STROKES at most. Coarse: seen at 169 nodes by sector. */
double solve_shot_roughly (const PlanSolution *solution, const SolveShot *shot);
/* The same, every cell under the pattern, exactly in the shot's direction; told to `visit` (may be NULL). */
double solve_shot_exactly (const PlanSolution *solution, const SolveShot *shot, EndingVisit visit, void *data);
/* The same of a shot that flies so, which the fleet need not have. */
double solve_flown_exactly (const PlanSolution *solution, Vec2 ball, Vec2 way, const Flown *flown, EndingVisit visit, void *data);

/* The best aim of one swing. */
typedef struct
{
  size_t swing;
  Vec2 way;
  double strokes; /* INFINITY: it is not played from there */
} SolveChoice;

/* The best aim of each swing of the fleet from a ball, cheapest swing first: `choices` has room for n_swings. */
void solve_choices (const PlanSolution *solution, Vec2 ball, Lie lie, SolveChoice *choices);

/* Chances of each score after a tee shot, as Plan has them. */
void solve_scores (const PlanSolution *solution, const SolveShot *tee_shot, double chances[PLAN_MOST_SCORE + 1]);

#endif
