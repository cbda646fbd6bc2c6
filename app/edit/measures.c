// SPDX-License-Identifier: GPL-3.0-or-later
/* Exactness: where a part stands and how large it is, and putting it where the numbers say. */
#include "edit-private.h"

/* A shape whose spread differs by less than this share between its axes has no long one: a circle, an even star. */
#define ROUND_SHARE 0.01
/* Numbers closer than this to what is measured mean "leave it there". */
#define SAME_M (EDIT_GRID_M / 2)

/* ---- the long axis ---- */

/* Area, middle and second moments about it of the rings as they are wound; sums of Green's theorem. */
typedef struct
{
  double area, x, y, xx, xy, yy;
} Moments;

static void
add_edge (Moments *m, Vec2 a, Vec2 b)
{
  double cross = vec2_cross (a, b);
  m->area += cross / 2;
  m->x += (a.x + b.x) * cross / 6;
  m->y += (a.y + b.y) * cross / 6;
  m->xx += (a.x * a.x + a.x * b.x + b.x * b.x) * cross / 12;
  m->yy += (a.y * a.y + a.y * b.y + b.y * b.y) * cross / 12;
  m->xy += (a.x * b.y + 2 * a.x * a.y + 2 * b.x * b.y + b.x * a.y) * cross / 24;
}

static Moments
outline_moments (const Outline *outline)
{
  Moments m = { 0 };
  Vec2 origin = box_centre (outline->bounds);
  for (size_t r = 0; r < outline->n_rings; r++)
    for (size_t i = outline->ring_starts[r], end = outline->ring_starts[r + 1]; i < end; i++)
      {
        Vec2 next = outline->points[i + 1 < end ? i + 1 : outline->ring_starts[r]];
        add_edge (&m, vec2_sub (outline->points[i], origin), vec2_sub (next, origin));
      }
  return m;
}

double
fold_angle (double angle_rad)
{
  double folded = remainder (angle_rad, PI);
  return folded <= -PI / 2 ? folded + PI : folded;
}

static double
area_angle (const Outline *outline)
{
  Moments m = outline_moments (outline);
  if (!(fabs (m.area) > 0))
    return NAN;
  double xx = m.xx / m.area - (m.x / m.area) * (m.x / m.area), yy = m.yy / m.area - (m.y / m.area) * (m.y / m.area);
  double xy = m.xy / m.area - (m.x / m.area) * (m.y / m.area);
  double spread = xx + yy, difference = hypot (xx - yy, 2 * xy);
  if (!(difference > ROUND_SHARE * fabs (spread)))
    return NAN;
  return fold_angle (atan2 (2 * xy, xx - yy) / 2);
}

static double
direction_angle (Vec2 direction)
{
  return direction.x == 0 && direction.y == 0 ? NAN : fold_angle (atan2 (direction.y, direction.x));
}

double
part_angle (const Part *part)
{
  switch (kind_info (part->kind)->shape)
    {
    case SHAPE_AREA:
      return area_angle (part->outline);
    case SHAPE_LINE:
      if (part->path.n_segs > 0)
        return direction_angle (vec2_sub (path_current (&part->path), part->path.segs[0].to));
      break;
    case SHAPE_IMAGE:
      return direction_angle (affine_apply_direction (part->placement, vec2 (1, 0)));
    case SHAPE_POINT:
    case SHAPE_TEXT:
    case SHAPE_PLAN:
      break;
    }
  return NAN;
}

/* ---- measuring ---- */

bool
edit_measure_place (const Hole *hole, Vec2 at, double *along_m, double *right_m)
{
  LineFrame frame;
  if (!line_frame_init (&frame, hole))
    return false;
  line_frame_measure (&frame, at, along_m, right_m, NULL);
  line_frame_clear (&frame);
  return true;
}

PartMeasures
edit_measures (const Hole *hole, size_t part)
{
  PartMeasures m = { NAN, NAN, NAN, NAN, NAN, NAN, NAN };
  const Part *measured = hole_part (hole, part);
  if (box_is_empty (measured->bounds))
    return m;
  Vec2 at = part_position (measured);
  int tee = hole_tee (hole, NULL);
  if (tee >= 0)
    m.from_tee_m = vec2_distance (hole_part (hole, (size_t)tee)->at, at);
  edit_measure_place (hole, at, &m.along_m, &m.right_m);
  PartShape shape = kind_info (measured->kind)->shape;
  if (shape != SHAPE_TEXT && (shape != SHAPE_POINT || measured->kind == KIND_TREE))
    {
      m.width_m = measured->bounds.x1 - measured->bounds.x0;
      m.height_m = measured->bounds.y1 - measured->bounds.y0;
    }
  m.angle_rad = part_angle (measured);
  if (measured->kind == KIND_TREE)
    m.area_m2 = PI * measured->radius_m * measured->radius_m;
  if (shape == SHAPE_AREA && !outline_measure (measured->outline, &m.area_m2, NULL))
    m.area_m2 = 0;
  return m;
}

/* ---- placing ---- */

/*
 * Where something at `at` goes. A pivot has room round its outside that is equally far along and off: there it stays on the side
 * where it is.
 */
static Vec2
place_for (const LineFrame *frame, Vec2 at, double along_m, double right_m)
{
  double along_now_m = 0, right_now_m = 0;
  Vec2 direction, foot;
  line_frame_measure (frame, at, &along_now_m, &right_now_m, &foot);
  if (fabs (along_m - along_now_m) < SAME_M && fabs (right_now_m) >= EDIT_GRID_M)
    return vec2_add (foot, vec2_scale (vec2_sub (at, foot), right_m / right_now_m));
  Vec2 on_line = line_frame_point (frame, along_m, &direction);
  return vec2_add (on_line, vec2_scale (vec2_left (direction), -right_m));
}

Hole *
edit_place (const Hole *hole, size_t part, double along_m, double right_m, GError **error)
{
  const Part *old = hole_part (hole, part);
  LineFrame frame;
  if (!(fabs (along_m) <= FARTHEST_M) || !(fabs (right_m) <= FARTHEST_M))
    return refuse (error, EDIT_ERROR_NUMBER, "the distance is no number within reach; type another");
  if (box_is_empty (old->bounds))
    return refuse (error, EDIT_ERROR_EMPTY, "there is nothing to move; draw it first");
  if (!line_frame_init (&frame, hole))
    return refuse (error, EDIT_ERROR_EMPTY, "there is no tee marker or nothing to play to; add them first");
  Vec2 at = part_position (old), to = place_for (&frame, at, along_m, right_m);
  line_frame_clear (&frame);
  if (vec2_distance (at, to) < SAME_M)
    return hole_ref ((Hole *)hole);
  return edit_transform (hole, &part, 1, affine_translation (to.x - at.x, to.y - at.y), error);
}
