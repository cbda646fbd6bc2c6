// SPDX-License-Identifier: GPL-3.0-or-later
/* Drawing: each adds a part where its kind belongs in the stack. */
#include "edit-private.h"

/* A stroke that turns by more than this at once was meant to have a corner there: half a right angle, common practice. */
#define CORNER_RAD (PI / 4)
/* Nothing is followed closer than the grid, or more loosely than a fairway is wide three times over: a choice. */
#define CLOSEST_STROKE_M EDIT_GRID_M
#define LOOSEST_STROKE_M 100.0

size_t
edit_place_for (const Hole *hole, Kind kind)
{
  size_t place = hole_n_parts (hole);
  while (place > 0 && kind_info (hole_part (hole, place - 1)->kind)->level > kind_info (kind)->level)
    place--;
  return place;
}

Hole *
add_part (const Hole *hole, const Part *part, size_t *index)
{
  if (!part)
    return NULL;
  size_t place = edit_place_for (hole, part->kind);
  Hole *made = hole_inserting_part (hole, place, part);
  if (index)
    *index = place;
  return made;
}

/* Copies the path with every open subpath closed, and without subpaths of a single point. */
static void
close_subpaths (const Path *from, Path *to)
{
  size_t i = 0;
  while (i < from->n_segs)
    {
      size_t start = i++;
      Vec2 first = from->segs[start].to;
      if (from->segs[start].kind != SEG_MOVE)
        {
          /* A drawing segment after a close: its subpath begins where the pen stands. */
          first = start > 0 ? from->segs[start - 1].to : vec2 (0, 0);
          i = start;
        }
      size_t end = i;
      while (end < from->n_segs && from->segs[end].kind != SEG_MOVE && from->segs[end].kind != SEG_CLOSE)
        end++;
      if (end > i)
        {
          path_move_to (to, first);
          for (size_t k = i; k < end; k++)
            if (from->segs[k].kind == SEG_LINE)
              path_line_to (to, from->segs[k].to);
            else
              path_cubic_to (to, from->segs[k].c1, from->segs[k].c2, from->segs[k].to);
          path_close (to);
        }
      i = end < from->n_segs && from->segs[end].kind == SEG_CLOSE ? end + 1 : end;
    }
}

bool
encloses_something (const Part *area)
{
  double area_m2 = 0;
  return outline_measure (area->outline, &area_m2, NULL) && area_m2 >= SMALLEST_M * SMALLEST_M;
}

Hole *
edit_add_path (const Hole *hole, Kind kind, const Path *path, size_t *part, GError **error)
{
  PartShape shape = kind_info (kind)->shape;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return refuse (error, EDIT_ERROR_SHAPE, "this kind is not drawn as a line; click where it stands");
  Part *drawn = part_new (kind);
  if (shape == SHAPE_AREA)
    close_subpaths (path, &drawn->path);
  else
    path_copy (path, &drawn->path);
  grid_path (&drawn->path);
  const Part *sealed = seal_checked (drawn, error);
  if (sealed && shape == SHAPE_AREA && !encloses_something (sealed))
    {
      part_unref (sealed);
      return refuse (error, EDIT_ERROR_EMPTY, "the outline encloses nothing; draw a loop");
    }
  return add_part (hole, sealed, part);
}

Hole *
edit_add_stroke (const Hole *hole, Kind kind, const Vec2 *points, size_t n_points, double tolerance_m, size_t *part,
                 GError **error)
{
  PartShape shape = kind_info (kind)->shape;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return refuse (error, EDIT_ERROR_SHAPE, "this kind is not drawn as a line; click where it stands");
  if (!(tolerance_m >= CLOSEST_STROKE_M && tolerance_m <= LOOSEST_STROKE_M))
    return refuse (error, EDIT_ERROR_NUMBER, "a stroke is followed to between 1 mm and 100 m; choose a tolerance there");
  for (size_t i = 0; i < n_points; i++)
    if (!(fabs (points[i].x) <= FARTHEST_M && fabs (points[i].y) <= FARTHEST_M))
      return refuse (error, EDIT_ERROR_NUMBER, "a coordinate is no number within reach; draw the stroke again");
  Path fitted = { 0 };
  if (!path_fit (points, n_points, shape == SHAPE_AREA, tolerance_m, CORNER_RAD, &fitted, NULL))
    return refuse (error, EDIT_ERROR_EMPTY, "the stroke is too short to see; drag further");
  Hole *made = edit_add_path (hole, kind, &fitted, part, error);
  path_clear (&fitted);
  return made;
}

Hole *
edit_add_circle (const Hole *hole, Kind kind, Vec2 centre, double radius_m, size_t *part, GError **error)
{
  if (kind_info (kind)->shape != SHAPE_AREA && kind != KIND_TREE)
    return refuse (error, EDIT_ERROR_SHAPE, "this kind is no circle; choose an area or a tree");
  if (!isfinite (centre.x) || !isfinite (centre.y) || !(fabs (radius_m) <= FARTHEST_M))
    return refuse (error, EDIT_ERROR_NUMBER, "a circle needs a middle and a radius; drag from its middle outwards");
  if (!(radius_m >= SMALLEST_M))
    return refuse (error, EDIT_ERROR_EMPTY, "the circle would be too small to see; drag further from its middle");
  Part *drawn = part_new (kind);
  if (kind == KIND_TREE)
    {
      drawn->at = grid_point (centre);
      drawn->radius_m = grid_length (radius_m);
    }
  else
    {
      path_add_ellipse (&drawn->path, centre, radius_m, radius_m);
      grid_path (&drawn->path);
    }
  return add_part (hole, seal_checked (drawn, error), part);
}

/* Borrowed parts of the hole as an array. */
static const Part **
list_parts (const Hole *hole)
{
  const Part **parts = g_new (const Part *, hole_n_parts (hole) + 1);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    parts[i] = hole_part (hole, i);
  return parts;
}

Hole *
edit_add_point (const Hole *hole, Kind kind, Vec2 at, size_t *part, GError **error)
{
  if (kind_info (kind)->shape != SHAPE_POINT)
    return refuse (error, EDIT_ERROR_SHAPE, "this kind is no point; drag its shape");
  if (!isfinite (at.x) || !isfinite (at.y))
    return refuse (error, EDIT_ERROR_NUMBER, "a coordinate is no number; click where it stands");
  g_autofree const Part **others = list_parts (hole);
  Part *drawn = part_new (kind);
  drawn->at = grid_point (at);
  drawn->radius_m = kind_info (kind)->radius_m;
  drawn->name = next_free_name (kind, others, hole_n_parts (hole));
  return add_part (hole, seal_checked (drawn, error), part);
}

Hole *
edit_add_note (const Hole *hole, Vec2 at, const char *text, size_t *part, GError **error)
{
  g_autofree char *clean = clean_text (text);
  if (!clean)
    return refuse (error, EDIT_ERROR_EMPTY, "a note needs words; type them first");
  if (!isfinite (at.x) || !isfinite (at.y))
    return refuse (error, EDIT_ERROR_NUMBER, "a coordinate is no number; click where it stands");
  Part *drawn = part_new (KIND_NOTE);
  drawn->at = grid_point (at);
  drawn->text = g_steal_pointer (&clean);
  return add_part (hole, seal_checked (drawn, error), part);
}
