// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of a field share while it is built. */
#ifndef HOLEWRIGHT_PLAN_FIELD_PRIVATE_H
#define HOLEWRIGHT_PLAN_FIELD_PRIVATE_H

#include "plan-private.h"

/* Numbers of the field are worked on so many at a time. */
#define LANES 4

typedef struct
{
  const Place *place;
  const Response *response;
  Field *field;
  double near_m, far_m; /* from the ball: between them lies every place that counts */
  Vec2 rightmost,
      leftmost; /* unit vectors from the ball; all counts that lies between them or no more than `margin_m` beside */
  double margin_m;
} Build;

static inline Vec2
field_point (const Field *field, double i, double j)
{
  return vec2_add (field->origin,
                   vec2_add (vec2_scale (field->across, i * field->step_m), vec2_scale (field->along, j * field->step_m)));
}

static inline bool
field_is_reached (const Build *build, Vec2 at)
{
  Vec2 to = vec2_sub (at, build->place->input.ball);
  double squared = vec2_dot (to, to);
  return squared >= build->near_m * build->near_m && squared <= build->far_m * build->far_m
         && vec2_cross (build->rightmost, to) >= -build->margin_m && vec2_cross (build->leftmost, to) <= build->margin_m;
}

/* What trees on the way leave of the balls that come down at a place. */
typedef struct
{
  float passed, strokes, again; /* the share that gets past; what those cost that do not */
} Passage;

Passage field_passage (const Build *build, Vec2 landing);
/* At the corners of all cells, of which there is a row more and a column more; `reached` is 0 for cells that count for nothing. Free with g_free; NULL: no trees. */
Passage *field_passages (const Build *build, const uint8_t *reached);
/* Of all balls that come down in a cell: the mean of those at its corners. */
Passage field_passage_to_cell (const Build *build, const Passage *corners, size_t cell);

/* Fills in what landing costs; the field's numbers are 0. False when cancelled. */
bool field_land (const Build *build, GError **error);
void field_blur (Field *field);

#endif
