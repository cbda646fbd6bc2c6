// SPDX-License-Identifier: GPL-3.0-or-later
/* Aligning: parts turned until they lie along the line of play. */
#include "edit-private.h"

/* What aligning needs besides the part, and whether anything had an axis to turn. */
typedef struct
{
  const LineFrame *frame;
  bool is_turned;
} Alignment;

/* Where a part turns about: the middle of what it is, for a line the middle of its box. */
static Vec2
turning_point (const Part *part)
{
  return kind_info (part->kind)->shape == SHAPE_AREA ? part_position (part) : box_centre (part->bounds);
}

static const Part *
align_part (const Part *old, void *data, GError **error)
{
  Alignment *alignment = data;
  double angle = part_angle (old), along_m, right_m;
  if (isnan (angle) || old->kind == KIND_LINE_OF_PLAY)
    return part_ref (old);
  Vec2 middle = turning_point (old), direction;
  line_frame_measure (alignment->frame, middle, &along_m, &right_m, NULL);
  line_frame_point (alignment->frame, along_m, &direction);
  double turn = fold_angle (atan2 (direction.y, direction.x) - angle);
  Affine about = affine_then (affine_translation (-middle.x, -middle.y), affine_rotation (turn));
  alignment->is_turned = true;
  return transform_part (old, affine_then (about, affine_translation (middle.x, middle.y)), error);
}

Hole *
edit_align (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  LineFrame frame;
  if (!line_frame_init (&frame, hole))
    return refuse (error, EDIT_ERROR_EMPTY, "there is no tee marker or nothing to play to; add them first");
  Alignment alignment = { &frame, false };
  Hole *made = replace_parts (hole, parts, n_parts, align_part, &alignment, error);
  line_frame_clear (&frame);
  if (!made || alignment.is_turned)
    return made;
  hole_unref (made);
  return refuse (error, EDIT_ERROR_SHAPE, "this is as long as it is wide; turn it by hand");
}
