// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of this folder share: the grid, refusals, many parts changed at once, names, and the frame of the line of play. */
#ifndef HOLEWRIGHT_EDIT_PRIVATE_H
#define HOLEWRIGHT_EDIT_PRIVATE_H

#include "edit.h"

/* Nothing is drawn farther from the origin; hole documents hold no larger coordinate. */
#define FARTHEST_M 1e6
/* What is smaller in both directions is a slip of the hand; the hole itself is 54 mm in radius (Rules of Golf, Definitions: Hole). */
#define SMALLEST_M 0.05

/* ---- the grid ---- */

double grid_length (double length_m);
Vec2 grid_point (Vec2 point);
void grid_path (Path *path);

/* ---- refusing ---- */

/* Sets the error and returns NULL, so that an edit can end with it. */
void *refuse (GError **error, EditError code, const char *sentence);

/* ---- parts ---- */

/* Does the sorted selection hold part i? */
bool selection_holds (const size_t *parts, size_t n_parts, size_t i);

/* What becomes of one part: a sealed part (or the old one with a reference more), or NULL with `error` set. */
typedef const Part *(*PartEdit) (const Part *old, void *data, GError **error);
/* Does that to each selected part. Parts that come out as they were stay shared; when all do, the hole itself comes back. */
Hole *replace_parts (const Hole *hole, const size_t *parts, size_t n_parts, PartEdit edit, void *data, GError **error);
/* Part `i` replaced by `made`, whose reference is taken over; the hole itself when they are equal. */
Hole *replace_part (const Hole *hole, size_t i, const Part *made);

/* Seals the part when it is worth having - finite, near enough, not too small, an area enclosing something; else frees it and refuses. */
const Part *seal_checked (Part *part, GError **error);
/* Is a sealed area worth having? */
bool encloses_something (const Part *area);
/* Puts a new part where its kind belongs. Takes over the reference; NULL is passed on. */
Hole *add_part (const Hole *hole, const Part *part, size_t *index);

/* Direction of the part's long axis, -PI/2 < angle <= PI/2; NAN for what has none. */
double part_angle (const Part *part);
/* The same axis in that range: an axis has no head. */
double fold_angle (double angle_rad);
/* A sealed copy of the part under a transform that can be inverted. */
const Part *transform_part (const Part *old, Affine t, GError **error);

/* A sealed copy of an area whose outline no longer crosses itself: the edge of what it covers, curves kept. */
const Part *uncross_area (const Part *area, GError **error);

/* ---- names ---- */

/* Text without control characters, runs of spaces and spaces at its ends; NULL when nothing is left. Free with g_free. */
char *clean_text (const char *text);
/* A name for a new part of a kind whose parts are told apart by name; NULL for other kinds. `others` are the parts there are. */
char *next_free_name (Kind kind, const Part *const *others, size_t n_others);
/* The name that `part` has to take among `others`: the next free one where its own is taken or missing; NULL: it keeps what it has. */
char *other_name (const Part *part, const Part *const *others, size_t n_others);

/* ---- along and off the line of play ---- */

/* Points from the tee in use by the pivots to the middle of the green, or to the hole. */
typedef struct
{
  Vec2 *points;
  size_t n_points;
} LineFrame;

/* False when the hole has no tee or nothing to play to. */
bool line_frame_init (LineFrame *frame, const Hole *hole);
void line_frame_clear (LineFrame *frame);
/* Before the tee and past the end the line goes on straight. `*foot` (may be NULL) receives the place on the line nearest to `at`. */
void line_frame_measure (const LineFrame *frame, Vec2 at, double *along_m, double *right_m, Vec2 *foot);
/* Place `along_m` on the line, and the unit vector along it there. */
Vec2 line_frame_point (const LineFrame *frame, double along_m, Vec2 *direction);

#endif
