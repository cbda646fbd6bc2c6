// SPDX-License-Identifier: GPL-3.0-or-later
/* Arcs, ellipses and rectangles as cubic Bezier curves, after SVG 1.1 (chapters 8 and 9, appendix F.6). */
#include "geometry-private.h"

/* An eighth of a turn: with 4/3 tan (angle / 4) handles the curve is then at most 4.3e-6 of the radius off the ellipse. */
#define STEP_RAD (PI / 4)
/* Spans this little above a whole number of steps (a quarter turn rounded up) take no step more. */
#define STEP_SLACK 1e-9

/* An ellipse: the unit circle under `to_plane`, which has no translation, then moved to `centre`. */
typedef struct
{
  Vec2 centre;
  Affine to_plane;
} Ellipse;

static Vec2
ellipse_at (const Ellipse *ellipse, Vec2 on_circle)
{
  return vec2_add (ellipse->centre, affine_apply_direction (ellipse->to_plane, on_circle));
}

/* Cubics from the angle `from_rad` of the circle over `span_rad` (signed), ending exactly at `to`. */
static void
add_arc (Path *path, const Ellipse *ellipse, double from_rad, double span_rad, Vec2 to)
{
  int n = (int)fmax (1, ceil (fabs (span_rad) / STEP_RAD - STEP_SLACK));
  double step = span_rad / n;
  double handle = 4.0 / 3.0 * tan (step / 4);
  for (int i = 0; i < n; i++)
    {
      double a = from_rad + i * step, b = from_rad + (i + 1) * step;
      Vec2 p = vec2 (cos (a), sin (a)), q = vec2 (cos (b), sin (b));
      Vec2 c1 = ellipse_at (ellipse, vec2_add (p, vec2_scale (vec2_left (p), handle)));
      Vec2 c2 = ellipse_at (ellipse, vec2_sub (q, vec2_scale (vec2_left (q), handle)));
      path_cubic_to (path, c1, c2, i + 1 < n ? ellipse_at (ellipse, q) : to);
    }
}

/* SVG 1.1, F.6.5, on the plane turned and squeezed so that the ellipse is the unit circle; F.6.6.3 when the radii are too small. */
void
path_arc_to (Path *path, double rx, double ry, double x_axis_rad, bool large, bool sweep, Vec2 to)
{
  Vec2 from = path_current (path);
  if (from.x == to.x && from.y == to.y)
    return;
  rx = fabs (rx);
  ry = fabs (ry);
  Affine to_plane = affine_then (affine_scaling (rx, ry), affine_rotation (x_axis_rad));
  Affine to_circle;
  if (!affine_invert (to_plane, &to_circle))
    {
      path_line_to (path, to);
      return;
    }
  Vec2 half_chord = vec2_scale (affine_apply_direction (to_circle, vec2_sub (to, from)), 0.5);
  double half = vec2_length (half_chord);
  if (half > 1)
    {
      to_plane = affine_then (affine_scaling (half, half), to_plane);
      half_chord = vec2_scale (half_chord, 1 / half);
      half = 1;
    }
  /* The centre stands off the chord's middle to its left when the shorter way round is anticlockwise. */
  double off = sqrt (fmax (0, 1 - half * half)) * (large == sweep ? -1 : 1);
  Vec2 centre_from_middle = vec2_scale (vec2_left (vec2_unit (half_chord)), off);
  Vec2 start = vec2_sub (vec2_scale (half_chord, -1), centre_from_middle);
  Vec2 end = vec2_sub (half_chord, centre_from_middle);
  double from_rad = atan2 (start.y, start.x);
  double span = atan2 (end.y, end.x) - from_rad;
  if (sweep && span < 0)
    span += 2 * PI;
  if (!sweep && span > 0)
    span -= 2 * PI;
  Vec2 middle = vec2_lerp (from, to, 0.5);
  Ellipse ellipse = { vec2_add (middle, affine_apply_direction (to_plane, centre_from_middle)), to_plane };
  add_arc (path, &ellipse, from_rad, span, to);
}

void
path_add_ellipse (Path *path, Vec2 centre, double rx, double ry)
{
  if (!(rx > 0 && ry > 0))
    return;
  Ellipse ellipse = { centre, affine_scaling (rx, ry) };
  Vec2 start = vec2 (centre.x + rx, centre.y);
  path_move_to (path, start);
  add_arc (path, &ellipse, 0, 2 * PI, start);
  path_close (path);
}

/* A line, unless it would have no length. */
static void
add_side (Path *path, Vec2 to)
{
  Vec2 from = path_current (path);
  if (from.x != to.x || from.y != to.y)
    path_line_to (path, to);
}

void
path_add_rectangle (Path *path, Box box, double rx, double ry)
{
  double width = box.x1 - box.x0, height = box.y1 - box.y0;
  if (!(width > 0 && height > 0))
    return;
  rx = fmin (rx, width / 2);
  ry = fmin (ry, height / 2);
  if (!(rx > 0 && ry > 0))
    {
      path_move_to (path, vec2 (box.x0, box.y0));
      path_line_to (path, vec2 (box.x1, box.y0));
      path_line_to (path, vec2 (box.x1, box.y1));
      path_line_to (path, vec2 (box.x0, box.y1));
      path_close (path);
      return;
    }
  path_move_to (path, vec2 (box.x0 + rx, box.y0));
  add_side (path, vec2 (box.x1 - rx, box.y0));
  path_arc_to (path, rx, ry, 0, false, true, vec2 (box.x1, box.y0 + ry));
  add_side (path, vec2 (box.x1, box.y1 - ry));
  path_arc_to (path, rx, ry, 0, false, true, vec2 (box.x1 - rx, box.y1));
  add_side (path, vec2 (box.x0 + rx, box.y1));
  path_arc_to (path, rx, ry, 0, false, true, vec2 (box.x0, box.y1 - ry));
  add_side (path, vec2 (box.x0, box.y0 + ry));
  path_arc_to (path, rx, ry, 0, false, true, vec2 (box.x0 + rx, box.y0));
  path_close (path);
}
