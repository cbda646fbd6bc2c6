// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * hole - one golf hole as an immutable value, its parts, the table of kinds, and its history for undo.
 *
 * A Hole never changes. An edit makes a new Hole that shares every untouched part and, when no area changed, the area index;
 * so any thread may read one without a lock, and "modified" is a comparison of pointers. Frame: metres, x right, y up the
 * hole, the tee near (0,0).
 */
#ifndef HOLEWRIGHT_HOLE_H
#define HOLEWRIGHT_HOLE_H

#include "geometry.h"

#include <glib.h>

/* ---- kinds ---- */

typedef enum
{
  KIND_NONE, /* a shape that has no kind yet */
  /* areas */
  KIND_TEE,
  KIND_FAIRWAY,
  KIND_FIRST_CUT,
  KIND_ROUGH,
  KIND_DEEP_ROUGH,
  KIND_FRINGE,
  KIND_GREEN,
  KIND_BUNKER,
  KIND_WASTE,
  KIND_PENALTY_AREA,
  KIND_WATER,
  KIND_OUT_OF_BOUNDS,
  KIND_TREES,
  KIND_PATH,
  KIND_BUILDING,
  /* points, lines and the rest */
  KIND_TEE_MARKER,
  KIND_HOLE_LOCATION,
  KIND_TREE,
  KIND_SPOT_HEIGHT,
  KIND_SLOPE,
  KIND_MARK,
  KIND_NOTE,
  KIND_LINE_OF_PLAY,
  KIND_UNDERLAY,
  KIND_PLAN,
  N_KINDS
} Kind;

typedef enum
{
  SHAPE_AREA,
  SHAPE_POINT,
  SHAPE_LINE,
  SHAPE_TEXT,
  SHAPE_IMAGE,
  SHAPE_PLAN
} PartShape;

/* What a ball lying there is played from, or what the Rules do with it. */
typedef enum
{
  LIE_NONE, /* the kind is no place for a ball */
  LIE_TEE,
  LIE_FAIRWAY,
  LIE_FIRST_CUT,
  LIE_ROUGH,
  LIE_DEEP_ROUGH,
  LIE_FRINGE,
  LIE_GREEN,
  LIE_SAND,
  LIE_WASTE,
  LIE_PENALTY,
  LIE_OUT_OF_BOUNDS,
  LIE_TREES,
  LIE_PATH,
  LIE_BUILDING,
  N_LIES
} Lie;

typedef struct
{
  const char *token; /* the word of hw:kind in the file; NULL for KIND_NONE */
  const char *label; /* what a golfer calls it, lower case */
  PartShape shape;
  Lie lie;
  bool is_trouble; /* something a golfer plans to stay out of: shown in carry tables and callouts */
  unsigned level;  /* where a drawing stacks it, lowest first; a higher one is drawn over a lower one */
  double radius_m; /* of a new point: a tree's canopy, for others the size of their circle in the file; 0 for the rest */
  unsigned landmark; /* how well it serves to aim by: 3 best, 0 not at all */
} KindInfo;

/* The row of the table of kinds. */
const KindInfo *kind_info (Kind kind);
/* Kind of an hw:kind word; false if unknown. */
bool kind_from_token (const char *token, Kind *kind);

typedef enum
{
  STAKES_RED, /* also the default: the Rules treat an unmarked penalty area as red (Rule 17.1a) */
  STAKES_YELLOW
} Stakes;

typedef enum
{
  SHOT_STRAIGHT,
  SHOT_DRAW,
  SHOT_FADE
} ShotShape;

/* ---- the day a plan is made for; NAN or NULL = not given ---- */

typedef struct
{
  double wind_mps, wind_from_deg; /* the bearing it comes from */
  double temperature_c;
  double altitude_m, pressure_pa; /* a pressure wins over the altitude */
  double humidity;                /* 0..1 */
  double green_speed_ft;
  char *firmness; /* "soft", "medium", "firm" */
} Day;

/* Nothing given. */
void day_init (Day *day);
void day_clear (Day *day);
/* `to` is overwritten, not cleared. */
void day_copy (const Day *from, Day *to);
bool day_equal (const Day *a, const Day *b);
bool day_is_given (const Day *day);

/* A day kept with the hole under a name, to plan for again. */
typedef struct
{
  char *name;
  Day day;
} NamedDay;

/* ---- parts ---- */

/* One stroke of a plan. */
typedef struct
{
  unsigned node; /* source element, 0 if new */
  Vec2 from, aim;
  char *club; /* NULL: chosen by the aim */
  ShotShape shape;
  double curve_m; /* NAN: the club's usual curve */
  double swing;   /* share of a full swing, 0 < swing <= 1 */
} Shot;

/* Default canopy height and density of an area of trees (common practice). */
#define TREES_HEIGHT_M 12.0
#define TREES_DENSITY 0.7

/*
 * One thing on the hole. Built once - part_new or part_copy, fill the fields, part_seal - and const ever after. Fields that the
 * kind does not use keep their defaults, which part_new sets.
 */
typedef struct
{
  Kind kind;
  unsigned node; /* ordinal (root = 1) of its element in the document it was read from; 0 for a new part */
  unsigned line; /* line of that element in the document, 0 if new */
  char *id;      /* may be NULL */
  char *name;    /* may be NULL: hw:name, else the element's <title> */

  Path path;        /* SHAPE_AREA and SHAPE_LINE: exact curves in the hole frame */
  bool even_odd;    /* fill rule of the area */
  Outline *outline; /* SHAPE_AREA, made by part_seal: path flattened to FLATTEN_TOLERANCE_M */
  Box bounds;       /* made by part_seal */

  Vec2 at;         /* SHAPE_POINT and SHAPE_TEXT */
  double radius_m; /* SHAPE_POINT; canopy radius of a tree */

  Stakes stakes;      /* penalty area, water */
  bool stakes_given;  /* water without stakes takes them from the penalty area round it */
  double height_m;    /* trees, tree: above ground; spot height: above the datum. NAN if not given */
  double density;     /* trees */
  double percent;     /* slope: fall along the line from its first to its second point */
  int par;            /* tee marker; 0 if not given */
  bool today;         /* hole location in use */
  bool fixed;         /* mark pinned in the adjustment */
  char *text;         /* note */
  double opacity;     /* underlay */
  char *href;         /* underlay: the image, as written */
  Box image_box;      /* underlay: x, y, width, height as written, file frame */
  Affine placement;   /* underlay: image_box's frame (y down) to the hole frame */

  char *tee, *hole_name; /* plan: names; NULL if not given */
  Day day;               /* plan */
  Shot *shots;           /* plan */
  size_t n_shots;
} Part;

/* A fresh part of this kind with one reference and every field at its default. */
Part *part_new (Kind kind);
/* A deep, mutable copy with one reference, to be changed and sealed. */
Part *part_copy (const Part *part);
/* Computes outline and bounds; returns its argument, from now on const. */
const Part *part_seal (Part *part);
const Part *part_ref (const Part *part);
void part_unref (const Part *part);
/* Appends a copy of the shot (with its strings) to a part not yet sealed. */
void part_add_shot (Part *plan, const Shot *shot);
/* Same facts? Ignores node and line. */
bool part_equal (const Part *a, const Part *b);
/* What a golfer calls it: its name, else its id with hyphens and underscores as spaces, else its kind's label. Never NULL. */
const char *part_label (const Part *part, char *buffer, size_t size);

/* ---- the hole ---- */

/* Facts of the hole as a whole. Numbers not given: 0 for integers, NAN for doubles; strings NULL. */
typedef struct
{
  char *title, *desc;
  int number, par, stroke_index;
  double up_bearing_deg; /* bearing of +y; NAN if not given */
  double latitude_deg, longitude_deg, altitude_m;
  char *datum;
  Kind ground;  /* lie of any point that no area covers; default KIND_ROUGH */
  Box view_box; /* drawing's extent in the hole frame; empty if not given */
  NamedDay *days;
  size_t n_days;
} HoleInfo;

typedef struct _Hole Hole;

void hole_info_init (HoleInfo *info);
void hole_info_clear (HoleInfo *info);
bool hole_info_equal (const HoleInfo *a, const HoleInfo *b);
/* Appends a copy. */
void hole_info_add_day (HoleInfo *info, const char *name, const Day *day);

/*
 * `info` is copied; `parts` are in document order, later lies on top, and their references are taken; `source` (may be NULL) is the document as read, kept for
 * writing back what the program does not know.
 */
Hole *hole_new (const HoleInfo *info, const Part *const *parts, size_t n_parts, GBytes *source);
Hole *hole_ref (Hole *hole);
void hole_unref (Hole *hole);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Hole, hole_unref)

const HoleInfo *hole_info (const Hole *hole);
size_t hole_n_parts (const Hole *hole);
/* Borrowed. */
const Part *hole_part (const Hole *hole, size_t i);
/* Borrowed; NULL for a hole not read from a document. */
GBytes *hole_source (const Hole *hole);
/* Same facts and same parts in the same order? */
bool hole_equal (const Hole *a, const Hole *b);

/* Edits: each returns a new Hole and takes over the reference to `part`. */
Hole *hole_with_part (const Hole *hole, size_t i, const Part *part);
Hole *hole_inserting_part (const Hole *hole, size_t i, const Part *part);
Hole *hole_without_part (const Hole *hole, size_t i);
Hole *hole_with_info (const Hole *hole, const HoleInfo *info);
/* The same hole with these parts instead of its own: many edits at once. Takes over the references in `parts`; the array stays the caller's. */
Hole *hole_with_parts (const Hole *hole, const Part *const *parts, size_t n_parts);

/* ---- terrain ---- */

/* A height that somebody measured. */
typedef struct
{
  Vec2 at;
  double height_m; /* above the datum */
} SpotHeight;

/*
 * A smooth surface through heights: thin-plate spline (Duchon 1977, Splines minimizing rotation-invariant semi-norms in Sobolev spaces), exact at each
 * height. Outside the heights' convex hull the ground goes on level, as at the nearest point of the hull. Heights closer together than a ball's width
 * are one, their mean. Of more than TERRAIN_MOST_HEIGHTS those that lie farthest apart are used. Immutable; for any thread.
 */
#define TERRAIN_MOST_HEIGHTS 400
typedef struct _Terrain Terrain;
/* NULL when no height is finite. One height: level ground. */
Terrain *terrain_new (const SpotHeight *heights, size_t n_heights);
void terrain_free (Terrain *terrain);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Terrain, terrain_free)
/* Height above the datum; 0 for a NULL terrain, as all below. */
double terrain_height (const Terrain *terrain, Vec2 at);
/* Rise per metre towards +x and +y. */
Vec2 terrain_slope (const Terrain *terrain, Vec2 at);
/*
 * Height and slope at the corners of a cell of a grid TERRAIN_NODE_M wide, whose lower left corner is column and row times that from the origin, numbers within a thousand million: that
 * corner, the one to its right, and the two above. Found at the first question and kept: some nanoseconds from then on. Not of a NULL terrain.
 */
#define TERRAIN_NODE_M 4.0
typedef struct
{
  double height_m;
  Vec2 slope;
} TerrainNode;
void terrain_cell (const Terrain *terrain, int column, int row, TerrainNode corners[4]);
/* The same where they are kept, two and two; where no more are kept they stand in `room`. */
typedef struct
{
  const TerrainNode *below, *above;
} TerrainCell;
TerrainCell terrain_cell_at (const Terrain *terrain, int column, int row, TerrainNode room[4]);
/* Do heights lie round the place, within their convex hull? Never where they are one place or lie on a line. */
bool terrain_covers (const Terrain *terrain, Vec2 at);

/*
 * The hole's terrain from its spot heights, and from the tee in use, which stands at 0 unless the hole names a datum. Made at the first question, shared by every
 * edit that moves no height. NULL when the hole has no spot heights: level. Borrowed.
 */
const Terrain *hole_terrain (const Hole *hole);

/* ---- faces: what is seen of each area from above ---- */

#define HOLE_ERROR (hole_error_quark ())
GQuark hole_error_quark (void);
typedef enum
{
  HOLE_ERROR_FACES /* the areas cannot be told apart: an outline that crosses itself a hundred thousand times, or too many areas over each other */
} HoleError;

/* Areas of known kinds, in document order: the order of their faces. */
size_t hole_n_areas (const Hole *hole);
/* Part index of area k. */
size_t hole_area_part (const Hole *hole, size_t k);

/*
 * The stacked areas cut into faces that do not overlap: of area k what no later one covers, which may be nothing. Where a point falls, hole_area_at tells the same
 * area but for a rounding beside an edge. Touching and crossing outlines are as their fill rule means them. Made at the first question, shared by every edit that moves
 * no area; an edit of some areas cuts anew only what their boxes meet. Borrowed; NULL with `error` naming the area.
 */
typedef struct _Faces Faces;
const Faces *hole_faces (const Hole *hole, GError **error);
/* Face of area k: rings with the inside on their left, no two of any faces overlapping. Borrowed. */
const Outline *faces_outline (const Faces *faces, size_t k);
/*
 * chances[k] that a ball which falls as `normal` says falls on area k, and chances[hole_n_areas] on none. As chance_map_integrate: some microseconds.
 * Any number of threads may ask at once.
 */
bool faces_chances (const Faces *faces, const Normal *normal, double *chances);

/* ---- questions ---- */

/* Index of the topmost area of a known kind that covers `point`, or -1 for the ground. Fast: an index made once per set of areas. */
int hole_area_at (const Hole *hole, Vec2 point);
/* Kind underfoot: that area's kind, else the ground's. */
Kind hole_kind_at (const Hole *hole, Vec2 point);
Lie hole_lie_at (const Hole *hole, Vec2 point);
/* Of many points, that at x_m[i], y_m[i]: areas[i] is k of the area as hole_area_part numbers them, or -1 for the ground. */
void hole_areas_at (const Hole *hole, const double *x_m, const double *y_m, size_t n, int *areas);
/* Lie of area k; -1: the ground's. */
Lie hole_area_lie (const Hole *hole, int k);
/* Stakes in force for a penalty area or a water area (part index i). */
Stakes hole_stakes (const Hole *hole, size_t i);

/* Part index of the tee marker called `name` (case ignored); NULL: the plan's tee, else the first. -1 if there is none. */
int hole_tee (const Hole *hole, const char *name);
/* Part index of the hole location called `name`; NULL: the plan's, else the one marked today, else the first. -1 if there is none. */
int hole_hole_location (const Hole *hole, const char *name);
/* The green in play: the one that covers the hole location (`hole_name` as above), else the nearest to it, else the first. -1 if none. */
int hole_green (const Hole *hole, const char *hole_name);
/* First plan, or -1. */
int hole_plan (const Hole *hole);
/* Any part by name or id (case ignored): tee markers, hole locations, marks, areas... -1 if there is none. */
int hole_find (const Hole *hole, const char *name);
/* Where a part is: its point, or the centroid of its area, or the start of its line. */
Vec2 part_position (const Part *part);
/* Today's hole, else the middle of the green. False if there is neither. */
bool hole_target (const Hole *hole, const char *hole_name, Vec2 *target);
/* Middle of the green in play (centroid of its area). */
bool hole_green_middle (const Hole *hole, Vec2 *middle);

/*
 * Points of the measured line from a tee: tee marker, the pivots of the line of play still ahead of it, middle of the green.
 * New array, free with g_free; 0 when there is no tee or no green.
 */
size_t hole_measured_line (const Hole *hole, const char *tee, Vec2 **points);
/*
 * Measured length in metres of the hole from a tee: horizontal, straight to each pivot, then to the middle of the green.
 * Source: Rules of Handicapping (World Handicap System), Appendix A, measuring of courses.
 * False when there is no tee or no green.
 */
bool hole_measured_length (const Hole *hole, const char *tee, double *length_m);
/* Extent of everything drawn, the view box included; never empty. */
Box hole_extent (const Hole *hole);

/* ---- a course: a folder of holes ---- */

typedef struct
{
  char *name, *colour; /* colour as written, "#ffffff"; may be NULL */
  double rating;       /* Course Rating, strokes; NAN if not given */
  int slope;           /* Slope Rating; 0 if not given */
} CourseTee;

typedef struct
{
  char *folder; /* absolute path */
  char *name;
  CourseTee *tees;
  size_t n_tees;
  char **hole_files; /* absolute paths, NULL-terminated */
  size_t n_holes;
} Course;

void course_free (Course *course);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Course, course_free)

/* ---- history ---- */

typedef struct _History History;

History *history_new (Hole *hole);
void history_free (History *history);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (History, history_free)
/* Borrowed. */
Hole *history_current (const History *history);
/* A new state under a name such as "move aim"; what was undone is forgotten. */
void history_push (History *history, Hole *hole, const char *label);
/* As push, but when the newest step carries the same non-zero `gesture` its state is replaced: one gesture, one step. */
void history_push_gesture (History *history, Hole *hole, const char *label, unsigned gesture);
bool history_undo (History *history);
bool history_redo (History *history);
/* Name of the step that undo / redo would take; NULL if none. */
const char *history_undo_label (const History *history);
const char *history_redo_label (const History *history);
void history_mark_saved (History *history);
/* Has the hole changed since it was opened or saved? Back at the saved state it has not. */
bool history_is_modified (const History *history);

#endif
