// SPDX-License-Identifier: GPL-3.0-or-later
/* Questions about places: what lies underfoot, which tee, which hole location, which green, how far. */
#include "hole-private.h"

#include <stdlib.h>

Kind
hole_kind_at (const Hole *hole, Vec2 point)
{
  int area = hole_area_at (hole, point);
  return area < 0 ? hole->info.ground : hole->parts[area]->kind;
}

Stakes
hole_stakes (const Hole *hole, size_t i)
{
  const Part *area = hole_part (hole, i);
  if (area->kind != KIND_WATER || area->stakes_given)
    return area->stakes;
  Vec2 inside = area->outline->n_points > 0 ? area->outline->points[0] : part_position (area);
  for (size_t k = hole->n_areas; k-- > 0;)
    {
      const Part *around = hole->parts[hole->area_parts[k]];
      if (around->kind == KIND_PENALTY_AREA
          && (outline_contains (around->outline, inside) || outline_contains (around->outline, part_position (area))))
        return around->stakes;
    }
  return area->stakes;
}

static bool
text_is (const char *text, const char *wanted)
{
  return text && g_ascii_strcasecmp (text, wanted) == 0;
}

/* First part of a kind, of this name unless `name` is NULL. */
static int
first_of_kind (const Hole *hole, Kind kind, const char *name)
{
  for (size_t i = 0; i < hole->n_parts; i++)
    {
      const Part *part = hole->parts[i];
      if (part->kind == kind && (!name || text_is (part->name, name) || text_is (part->id, name)))
        return (int)i;
    }
  return -1;
}

int
hole_plan (const Hole *hole)
{
  return first_of_kind (hole, KIND_PLAN, NULL);
}

int
hole_tee (const Hole *hole, const char *name)
{
  if (name)
    return first_of_kind (hole, KIND_TEE_MARKER, name);
  int plan = hole_plan (hole);
  if (plan >= 0 && hole->parts[plan]->tee)
    {
      int tee = first_of_kind (hole, KIND_TEE_MARKER, hole->parts[plan]->tee);
      if (tee >= 0)
        return tee;
    }
  return first_of_kind (hole, KIND_TEE_MARKER, NULL);
}

int
hole_hole_location (const Hole *hole, const char *name)
{
  if (name)
    return first_of_kind (hole, KIND_HOLE_LOCATION, name);
  int plan = hole_plan (hole);
  if (plan >= 0 && hole->parts[plan]->hole_name)
    {
      int location = first_of_kind (hole, KIND_HOLE_LOCATION, hole->parts[plan]->hole_name);
      if (location >= 0)
        return location;
    }
  for (size_t i = 0; i < hole->n_parts; i++)
    if (hole->parts[i]->kind == KIND_HOLE_LOCATION && hole->parts[i]->today)
      return (int)i;
  return first_of_kind (hole, KIND_HOLE_LOCATION, NULL);
}

int
hole_green (const Hole *hole, const char *hole_name)
{
  int location = hole_hole_location (hole, hole_name);
  if (location < 0)
    return first_of_kind (hole, KIND_GREEN, NULL);
  Vec2 at = hole->parts[location]->at;
  int nearest = -1;
  double nearest_m = INFINITY;
  for (size_t k = hole->n_areas; k-- > 0;)
    {
      size_t i = hole->area_parts[k];
      if (hole->parts[i]->kind != KIND_GREEN)
        continue;
      if (outline_contains (hole->parts[i]->outline, at))
        return (int)i;
      double distance_m = outline_distance (hole->parts[i]->outline, at, NULL);
      if (distance_m < nearest_m)
        {
          nearest_m = distance_m;
          nearest = (int)i;
        }
    }
  return nearest;
}

int
hole_find (const Hole *hole, const char *name)
{
  for (size_t i = 0; i < hole->n_parts; i++)
    if (text_is (hole->parts[i]->name, name))
      return (int)i;
  for (size_t i = 0; i < hole->n_parts; i++)
    if (text_is (hole->parts[i]->id, name))
      return (int)i;
  return -1;
}

bool
hole_green_middle (const Hole *hole, Vec2 *middle)
{
  int green = hole_green (hole, NULL);
  if (green < 0)
    return false;
  *middle = part_position (hole->parts[green]);
  return true;
}

bool
hole_target (const Hole *hole, const char *hole_name, Vec2 *target)
{
  int location = hole_hole_location (hole, hole_name);
  if (location < 0)
    return hole_green_middle (hole, target);
  *target = hole->parts[location]->at;
  return true;
}

/* Number of the line's segment that comes nearest to `point`; the later of two equally near, so that a tee standing on a pivot is past it. */
static size_t
nearest_segment (const Vec2 *points, size_t n_points, Vec2 point)
{
  size_t nearest = 0;
  double nearest_m = INFINITY;
  for (size_t i = 0; i + 1 < n_points; i++)
    {
      double distance_m = segment_distance (points[i], points[i + 1], point, NULL);
      if (distance_m <= nearest_m)
        {
          nearest_m = distance_m;
          nearest = i;
        }
    }
  return nearest;
}

size_t
hole_measured_line (const Hole *hole, const char *tee, Vec2 **points)
{
  int marker = hole_tee (hole, tee);
  Vec2 middle;
  if (marker < 0 || !hole_green_middle (hole, &middle))
    return 0;
  Vec2 start = hole->parts[marker]->at;
  Vec2 *line = NULL;
  size_t n_line = 0;
  int played = first_of_kind (hole, KIND_LINE_OF_PLAY, NULL);
  if (played >= 0)
    n_line = path_flatten_line (&hole->parts[played]->path, FLATTEN_TOLERANCE_M, &line);
  Vec2 *measured = g_new (Vec2, n_line + 2);
  size_t n = 0;
  measured[n++] = start;
  for (size_t i = n_line > 2 ? nearest_segment (line, n_line, start) + 1 : n_line; i + 1 < n_line; i++)
    measured[n++] = line[i];
  measured[n++] = middle;
  free (line);
  *points = measured;
  return n;
}

bool
hole_measured_length (const Hole *hole, const char *tee, double *length_m)
{
  g_autofree Vec2 *points = NULL;
  size_t n = hole_measured_line (hole, tee, &points);
  if (n == 0)
    return false;
  double sum_m = 0;
  for (size_t i = 0; i + 1 < n; i++)
    sum_m += vec2_distance (points[i], points[i + 1]);
  *length_m = sum_m;
  return true;
}

/* Side of the sheet shown for a hole with nothing on it, in metres. */
#define EMPTY_SHEET_M 100.0

Box
hole_extent (const Hole *hole)
{
  Box extent = hole->info.view_box;
  for (size_t i = 0; i < hole->n_parts; i++)
    extent = box_union (extent, hole->parts[i]->bounds);
  if (box_is_empty (extent))
    extent = (Box){ -EMPTY_SHEET_M / 2, 0, EMPTY_SHEET_M / 2, EMPTY_SHEET_M };
  return extent;
}
