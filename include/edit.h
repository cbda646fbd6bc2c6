// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * edit - what a golfer does to a hole: each edit is a pure function from a Hole to a new Hole that shares everything untouched.
 *
 * Selections are part indices of the given hole, sorted, without repeats. New coordinates are rounded to EDIT_GRID_M, so that
 * what is saved is what was drawn. An edit that cannot be done returns NULL with one sentence in `error`; the hole is as it was. An edit that
 * changes nothing returns the hole itself with a reference more. Out-parameters may be NULL.
 */
#ifndef HOLEWRIGHT_EDIT_H
#define HOLEWRIGHT_EDIT_H

#include "hole.h"
#include "odds.h"
#include "odds-known.h"

/* Coordinates stay on this grid. */
#define EDIT_GRID_M 0.001

#define EDIT_ERROR (edit_error_quark ())
GQuark edit_error_quark (void);
typedef enum
{
  EDIT_ERROR_EMPTY, /* nothing to do it to, or nothing would be left */
  EDIT_ERROR_SHAPE, /* not possible with this kind of part */
  EDIT_ERROR_NUMBER /* a length or an angle out of its range */
} EditError;

/* ---- a first drawing ---- */

typedef enum
{
  BEND_NONE,
  BEND_LEFT,
  BEND_RIGHT
} Bend;

typedef struct
{
  char *title;     /* borrowed; may be NULL */
  int number, par; /* number 0: not given; par 3..6 */
  double length_m; /* measured, 50..800 */
  Bend bend;
  double bend_at_m;       /* tee to pivot, 20 m from tee and green at least; NAN: where a drive ends (common practice) */
  double bend_angle_rad;  /* 1 to 90 degrees; NAN: 35 (common practice) */
  double fairway_width_m; /* 10..100; NAN: 30 (common practice) */
} HoleSketch;

/* A straight par 4 of 350 m. */
void hole_sketch_init (HoleSketch *sketch);
/*
 * Tees with their markers, fairway with first cut (not on a par 3, nor where there is no room for one), fringe, green, hole location and line of play, to pull into
 * shape; its measured length is length_m to 0.1 m. The tee stands at (0,0), the first leg runs up the sheet.
 */
Hole *edit_sketch_hole (const HoleSketch *sketch, GError **error);
/* An empty sheet with a view box of the given size (20 to 2000 m each way), the tee's place (0,0) near its foot. */
Hole *edit_empty_hole (double width_m, double length_m);

/* ---- drawing: each adds one part (or several) and says where: first index of what is new ---- */

/* Where a new part of this kind belongs in the stack: above the areas it lies on, below points. */
size_t edit_place_for (const Hole *hole, Kind kind);
/* Any path as an area or a line of a kind; closes an area's open subpaths. Refused when there is nothing to see or it encloses nothing. */
Hole *edit_add_path (const Hole *hole, Kind kind, const Path *path, size_t *part, GError **error);
/*
 * A stroke drawn by hand as an area, closed, or as a line, which stays open: fitted with path_fit, turns of more than 45 degrees kept as
 * corners. No drawn point is further than `tolerance_m` (1 mm to 100 m) and the rounding of a millimetre from it, but for what closing
 * cut off or eased. Refused as edit_add_path does.
 */
Hole *edit_add_stroke (const Hole *hole, Kind kind, const Vec2 *points, size_t n_points, double tolerance_m, size_t *part,
                       GError **error);
/* A round area, or a tree with that canopy. */
Hole *edit_add_circle (const Hole *hole, Kind kind, Vec2 centre, double radius_m, size_t *part, GError **error);
/* A point of a kind; a tee marker, hole location or mark gets the next free name ("white", "yellow", ...; "front", "middle", "back"; "A", "B", ...). */
Hole *edit_add_point (const Hole *hole, Kind kind, Vec2 at, size_t *part, GError **error);
Hole *edit_add_note (const Hole *hole, Vec2 at, const char *text, size_t *part, GError **error);
/* Trees along a stroke, about `spacing_m` apart, scattered by `spread_m` either side, radii and places drawn from `random`. `*part` receives the first. */
Hole *edit_scatter_trees (const Hole *hole, const Vec2 *points, size_t n_points, double spacing_m, double spread_m,
                          double radius_m, GRand *random, size_t *part, size_t *n_added, GError **error);

/* ---- whole parts ---- */

/* Anything moved, turned, scaled or mirrored; a tree's canopy is scaled, other points keep their size; a draw mirrored is a fade. */
Hole *edit_transform (const Hole *hole, const size_t *parts, size_t n_parts, Affine t, GError **error);
/*
 * Copies right above their models, moved by `by`; `*copies` receives their n_parts indices (g_free). A copy has no id, is not today's hole, and gets the next
 * free name if its kind is told apart by name.
 */
Hole *edit_duplicate (const Hole *hole, const size_t *parts, size_t n_parts, Vec2 by, size_t **copies, GError **error);
/*
 * Parts of any hole put into this one, in their order and each where its kind belongs at the lowest; their references stay the caller's. They keep their places,
 * unless one would stand exactly on one like it: then all move by `step` until none does (a step of nothing: never). A name that tells apart and is taken
 * becomes the next free one; ids are the caller's care (svg_fragment_place). Plans and what is too small are left out. `*pasted` (g_free) receives the
 * `*n_pasted` indices. Refused when nothing is left to put in.
 */
Hole *edit_paste (const Hole *hole, const Part *const *parts, size_t n_parts, Vec2 step, size_t **pasted, size_t *n_pasted,
                  GError **error);
Hole *edit_delete (const Hole *hole, const size_t *parts, size_t n_parts, GError **error);
/* Among areas, among lines or among points; refused across them. Keeps geometry and name; facts where both kinds have them. */
Hole *edit_set_kind (const Hole *hole, const size_t *parts, size_t n_parts, Kind kind, GError **error);
/* An empty name takes it off. A plan that names the tee or the hole location follows. */
Hole *edit_rename (const Hole *hole, size_t part, const char *name, GError **error);
/* The words of a note. */
Hole *edit_set_text (const Hole *hole, size_t part, const char *text, GError **error);
/* Moves one part to index `to` in the stack. */
Hole *edit_reorder (const Hole *hole, size_t part, size_t to, GError **error);
/* One step up (+1) or down (-1) past the next part that it overlaps; to the top (+2) or bottom (-2). `*to` receives its new
 * index. Refused when nothing lies that way. */
Hole *edit_raise (const Hole *hole, size_t part, int steps, size_t *to, GError **error);
/* Turns each part about its middle until its long axis runs along the line of play beside it; what is round stays. Refused when nothing has an axis. */
Hole *edit_align (const Hole *hole, const size_t *parts, size_t n_parts, GError **error);

/* ---- facts: what is known of a part besides its name and its place ---- */

typedef enum
{
  EDIT_FACT_PERCENT,  /* slope: fall along its line, percent; a file may hold a rise, less than 0 */
  EDIT_FACT_DOWNHILL, /* slope: where it falls to, radians anticlockwise from +x; its line turns about its middle */
  EDIT_FACT_HEIGHT,   /* tree, trees: above the ground; spot height: above the datum; metres */
  EDIT_FACT_DENSITY,  /* trees: chance 0..1 that a ball flying through them is stopped */
  EDIT_FACT_STAKES,   /* penalty area, water: a Stakes; NAN for water that takes them from the penalty area round it */
  EDIT_FACT_TODAY,    /* hole location: 1 for the one in use, else 0 */
  EDIT_FACT_PAR,      /* tee marker */
  EDIT_FACT_FIXED,    /* mark: 1 when it is pinned in the adjustment, else 0 */
  EDIT_FACT_OPACITY,  /* underlay: 0..1 */
  N_EDIT_FACTS
} EditFact;

/* Do parts of this kind have the fact? */
bool edit_has_fact (Kind kind, EditFact fact);
/* May it be taken off again? */
bool edit_may_lack_fact (Kind kind, EditFact fact);
/* The fact as it counts for the part; NAN where it is not given, or parts of the kind have none such. */
double edit_get_fact (const Hole *hole, size_t part, EditFact fact);
/*
 * Gives the fact to every part selected. NAN takes it off - trees are then as high as usual, a tee marker has the hole's par - and is refused
 * where there has to be one. Of the hole locations exactly one is in use: it is chosen with 1, for one part, and a plan that names another goes with it.
 * Numbers are rounded: lengths to EDIT_GRID_M, percentages to 0.01, shares to 0.001. Refused when a part selected has no such fact or the
 * number is out of its range.
 */
Hole *edit_set_fact (const Hole *hole, const size_t *parts, size_t n_parts, EditFact fact, double value, GError **error);

/* ---- nodes: numbered as path_nodes of the part's path gives them ---- */

typedef enum
{
  NODE_AT,
  NODE_IN,
  NODE_OUT
} NodeGrip;

/* Moves a node with its handles, or one handle; the other handle of a smooth node turns with it. */
Hole *edit_move_node (const Hole *hole, size_t part, size_t node, NodeGrip grip, Vec2 to, GError **error);
/* A node on the outline nearest to `near`, the curve unchanged but for the rounding; `*node` receives its index. Refused where there is a node. */
Hole *edit_add_node (const Hole *hole, size_t part, Vec2 near, size_t *node, GError **error);
/* Where the node was smooth its neighbours' handles grow to keep the curve. Refused when nothing would be left. */
Hole *edit_delete_node (const Hole *hole, size_t part, size_t node, GError **error);
/* Smooth: the handles get into one line. A corner: they are drawn in. */
Hole *edit_smooth_node (const Hole *hole, size_t part, size_t node, bool smooth, GError **error);

/*
 * Grows (positive) or shrinks each area by a distance, 100 m at most; corners that grow become round. The curves are fitted anew, to FLATTEN_TOLERANCE_M,
 * and the whole is refused when nothing would be left of one of them.
 */
Hole *edit_offset (const Hole *hole, const size_t *parts, size_t n_parts, double distance_m, GError **error);

/* ---- areas together (GEOS; curves that are not cut stay the curves they were) ---- */

/* All into the lowest of them, which keeps its kind and name. */
Hole *edit_unite (const Hole *hole, const size_t *parts, size_t n_parts, GError **error);
/* Takes the topmost away from the others and leaves it as it is. What it covers wholly goes. */
Hole *edit_subtract (const Hole *hole, const size_t *parts, size_t n_parts, GError **error);
/* Cuts each area right across which the line a-b goes; the largest piece stays what the area was, the others lie right above it. */
Hole *edit_cut (const Hole *hole, const size_t *parts, size_t n_parts, Vec2 a, Vec2 b, GError **error);
/* Parts an area that lies in several pieces into areas of one each (holes stay with their shell), from `part` on; `*n_pieces` receives how many. */
Hole *edit_split (const Hole *hole, size_t part, size_t *n_pieces, GError **error);
/* Makes areas of one kind one area, in the place of the lowest, as edit_unite does. */
Hole *edit_join (const Hole *hole, const size_t *parts, size_t n_parts, GError **error);

/* ---- a plan's shots ---- */

/* A hole with a plan of one shot, from the tee in use to the hole, added on top of its parts. Refused without a tee or without anything to aim at. */
Hole *edit_start_plan (const Hole *hole, GError **error);
/*
 * Moves a shot's aim. The next shot's ball goes with it when it lay on the old aim, or where the shot came to rest or landed (found with `bag`, which
 * may be NULL), and then lies where the shot comes to rest; so do the balls after that which lay where the shot before them ended. Lying elsewhere a
 * ball stays where the golfer put it.
 */
Hole *edit_move_aim (const Hole *hole, size_t plan, size_t shot, Vec2 aim, const Bag *bag);
/* Moves the ball that a shot is played from. */
Hole *edit_move_ball (const Hole *hole, size_t plan, size_t shot, Vec2 ball);
/* Plays a shot with this club, NULL: the club that the aim asks for; balls follow as with the aim. */
Hole *edit_choose_club (const Hole *hole, size_t plan, size_t shot, const char *club, const Bag *bag);
/*
 * Adds a shot to the hole from where the last one comes to rest, to an empty plan from its tee. Refused when nothing is left to play, and with
 * ODDS_ERROR when the last shot cannot be flown.
 */
Hole *edit_add_shot (const Hole *hole, size_t plan, const Bag *bag, GError **error);
/*
 * Plays the plan with these shots in the place of its own: ball, aim, club and swing of each, flying as the club usually does. Its tee, hole and day stay.
 * Refused without a shot.
 */
Hole *edit_take_shots (const Hole *hole, size_t plan, const ShotResult *shots, size_t n_shots, GError **error);
/* Takes a shot out; the one after it is then played from its ball. Refused for the only shot: a plan has at least one. */
Hole *edit_remove_shot (const Hole *hole, size_t plan, size_t shot, GError **error);

/*
 * How a shot is meant to fly: straight, a draw or a fade, and how far it curves at a full swing, + right; NAN: as the shape usually does. Balls follow
 * as with the aim. Refused for a curve that is not finite or longer than EDIT_MOST_CURVE_M, and with ODDS_ERROR when the club of a shot that
 * could be flown flies no such ball.
 */
#define EDIT_MOST_CURVE_M 200.0
Hole *edit_set_shape (const Hole *hole, size_t plan, size_t shot, ShotShape shape, double curve_m, const Bag *bag, GError **error);
/* Plays a shot with this share of a full swing; balls follow. Refused for a share below EDIT_LEAST_SWING or above 1. */
#define EDIT_LEAST_SWING 0.01
Hole *edit_set_swing (const Hole *hole, size_t plan, size_t shot, double swing, const Bag *bag, GError **error);
/* The same with the share whose ball lands as far away as the aim is, a full swing where none does. Refused, with ODDS_ERROR, when the shot cannot be flown. */
Hole *edit_fit_swing (const Hole *hole, size_t plan, size_t shot, const Bag *bag, GError **error);

/* ---- the day ---- */

/* The steps of a drag: edit_move_aim and edit_set_day, where shots that are known already are not flown again. `known` NULL: all are flown. */
Hole *edit_drag_aim (const Hole *hole, size_t plan, size_t shot, Vec2 aim, const Bag *bag, KnownShots *known);
Hole *edit_drag_day (const Hole *hole, size_t plan, const Day *day, const Bag *bag, KnownShots *known, GError **error);
/* The day that a plan is made for; balls that lay where the shot before them went follow it. `bag` may be NULL. Refused, with ODDS_ERROR, when conditions_of_day does not take it. */
Hole *edit_set_day (const Hole *hole, size_t plan, const Day *day, const Bag *bag, GError **error);
/* Keeps a day with the hole under a name, in the place of the one that has it (case ignored). Refused without a name, and as edit_set_day does. */
Hole *edit_keep_day (const Hole *hole, const char *name, const Day *day, GError **error);
/* Forgets the day kept under a name (case ignored). Refused when there is none. */
Hole *edit_forget_day (const Hole *hole, const char *name, GError **error);

/* ---- exactness ---- */

/*
 * What the fields beside a selected part show; NAN where there is no such thing. The line of play runs from the tee in use by the pivots ahead of it to the
 * middle of the green, and goes on straight before and beyond.
 */
typedef struct
{
  double from_tee_m;        /* part's place to the tee in use */
  double along_m;           /* along the line of play from the tee */
  double right_m;           /* off the line of play, + right */
  double width_m, height_m; /* bounds across and up the drawing */
  double angle_rad;         /* of its long axis, anticlockwise from +x, -PI/2 < angle <= PI/2; NAN for what is round */
  double area_m2;           /* what the outline encloses, or a canopy's disc */
} PartMeasures;

PartMeasures edit_measures (const Hole *hole, size_t part);
/* How far along the line of play from the tee a place is, and how far off it, + right. False without a tee or anything to play to. */
bool edit_measure_place (const Hole *hole, Vec2 at, double *along_m, double *right_m);
/* Moves the part so that it measures: it stands `along_m` from the tee along the line of play and `right_m` off it. */
Hole *edit_place (const Hole *hole, size_t part, double along_m, double right_m, GError **error);

typedef enum
{
  SNAP_NONE,
  SNAP_POINT,    /* a node, a point part, a mark */
  SNAP_EDGE,     /* an outline */
  SNAP_LINE,     /* the line of play */
  SNAP_DISTANCE, /* a round distance from the tee */
  N_SNAPS
} SnapKind;

typedef struct
{
  SnapKind kind;
  Vec2 at;
  int part;          /* what it snapped to - for a distance the tee marker -, or -1 */
  double distance_m; /* SNAP_DISTANCE: the round distance */
} Snap;

/*
 * Best snap for `point` within `reach_m`, leaving out the parts given (those being dragged): points before line before edges before distances; a round distance is
 * a multiple of `round_m` from the tee. Without any, the point itself on the grid.
 */
Snap edit_snap (const Hole *hole, Vec2 point, double reach_m, double round_m, const size_t *without, size_t n_without);

/* ---- picking ---- */

/*
 * Part under the pointer as things are painted over each other: the nearest mark or note within `reach_m`, else the nearest line, else the topmost tree, else the topmost area (by its
 * inside or its outline within reach) or image. Plans are not picked, nor parts in `without`. -1 for none.
 */
int edit_pick (const Hole *hole, Vec2 point, double reach_m, const size_t *without, size_t n_without);
/* Parts that lie wholly within the box, plans aside, as a new array (g_free); returns their count. */
size_t edit_pick_box (const Hole *hole, Box box, size_t **parts);
/*
 * Parts that an eraser strikes out on its straight way from `a` to `b`: what edit_pick finds there, but of areas only those whose outline is within
 * `reach_m`, and no image - rubbing out a tree on a fairway leaves the fairway. A new array in rising order (g_free); returns their count.
 */
size_t edit_pick_struck (const Hole *hole, Vec2 a, Vec2 b, double reach_m, const size_t *without, size_t n_without,
                         size_t **parts);
/* Node or handle of a part within `reach_m` of `point`. */
bool edit_pick_node (const Hole *hole, size_t part, Vec2 point, double reach_m, size_t *node, NodeGrip *grip);

/* ---- mending what a check found ---- */

/* What can be done about a problem. */
typedef enum
{
  MEND_NONE,
  MEND_ADD_HOLE_LOCATION, /* in the middle of the green */
  MEND_ADD_TEE_MARKER,    /* in the middle of the back tee */
  MEND_MOVE_ONTO_AREA,    /* a tee marker to the middle of the nearest tee, a hole location to that of the nearest green */
  MEND_LINE_TO_GREEN,     /* end of the line of play to the middle of the green, its start to the tee marker in use */
  MEND_UNCROSS,           /* a crossing outline becomes the edge of what it covers */
  MEND_GROW_SHEET         /* the view box takes in what lies outside it */
} Mend;

/* Mends the hole as a whole or its part `part`. */
Hole *edit_mend (const Hole *hole, Mend mend, size_t part, GError **error);

#endif
