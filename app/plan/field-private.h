// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of a field share while it is built. */
#ifndef HOLEWRIGHT_PLAN_FIELD_PRIVATE_H
#define HOLEWRIGHT_PLAN_FIELD_PRIVATE_H

#include "plan-private.h"

/* Numbers of the field are worked on so many at a time. */
#define LANES 4

/* Places so far from the ball, and no farther than the margin beside all directions of aims. */
typedef struct
{
  double near_m, far_m, margin_m;
} Fan;

typedef struct
{
  const Place *place;
  const Response *response;
  Field *field;
  Fan all, dense;           /* every place that counts, and those where it counts how exactly */
  Vec2 rightmost, leftmost; /* unit vectors from the ball */
} Build;

static inline Vec2
field_point (const Field *field, double i, double j)
{
  return vec2_add (field->origin,
                   vec2_add (vec2_scale (field->across, i * field->step_m), vec2_scale (field->along, j * field->step_m)));
}

static inline bool
field_is_in (const Build *build, const Fan *fan, Vec2 at)
{
  Vec2 to = vec2_sub (at, build->place->input.ball);
  double squared = vec2_dot (to, to);
  return squared >= fan->near_m * fan->near_m && squared <= fan->far_m * fan->far_m
         && vec2_cross (build->rightmost, to) >= -fan->margin_m && vec2_cross (build->leftmost, to) <= fan->margin_m;
}

/* What trees on the way leave of the balls that come down at a place. */
typedef struct
{
  float passed, strokes, again; /* the share that gets past; what those cost that do not */
} Passage;

Passage field_passage (const Build *build, Vec2 landing);
/* In every second cell each way; `reached` is 0 for cells that count for nothing. Free with g_free; NULL: no trees. */
Passage *field_passages (const Build *build, const uint8_t *reached);
/* In a cell: that of its own, or between those about it. */
Passage field_passage_to_cell (const Build *build, const Passage *passages, size_t cell);

/* Fills in what landing costs; the field's numbers are 0. False when cancelled. */
bool field_land (const Build *build, GError **error);
void field_blur (Field *field);

#endif
