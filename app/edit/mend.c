// SPDX-License-Identifier: GPL-3.0-or-later
/* Mending what a check found: one function a way to mend. */
#include "edit-private.h"

#include <stdlib.h>

/* Room round what is drawn when the sheet grows. Common practice. */
#define SHEET_ROOM_M 20.0
/* What the one hole location of a green is called. */
#define ONLY_LOCATION "middle"

static Hole *
add_hole_location (const Hole *hole, size_t part, GError **error)
{
  Vec2 middle;
  size_t added;
  if (!hole_green_middle (hole, &middle))
    return refuse (error, EDIT_ERROR_EMPTY, "there is no green; draw it first");
  g_autoptr (Hole) made = edit_add_point (hole, KIND_HOLE_LOCATION, middle, &added, error);
  return made && hole_hole_location (hole, ONLY_LOCATION) < 0 ? edit_rename (made, added, ONLY_LOCATION, error)
                                                              : g_steal_pointer (&made);
}

/* The tee farthest from what is played to: the back one. -1 if there is none. */
static int
back_tee (const Hole *hole)
{
  Vec2 target;
  bool is_known = hole_target (hole, NULL, &target);
  int back = -1;
  double farthest_m = -1;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *tee = hole_part (hole, i);
      if (tee->kind != KIND_TEE)
        continue;
      double distance_m = is_known ? vec2_distance (part_position (tee), target) : 0;
      if (distance_m > farthest_m)
        {
          farthest_m = distance_m;
          back = (int)i;
        }
    }
  return back;
}

static Hole *
add_tee_marker (const Hole *hole, size_t part, GError **error)
{
  int tee = back_tee (hole);
  if (tee < 0)
    return refuse (error, EDIT_ERROR_EMPTY, "there is no tee; draw it first");
  return edit_add_point (hole, KIND_TEE_MARKER, part_position (hole_part (hole, (size_t)tee)), NULL, error);
}

static Hole *
move_onto_area (const Hole *hole, size_t part, GError **error)
{
  const Part *marker = hole_part (hole, part);
  Kind kind = marker->kind == KIND_TEE_MARKER ? KIND_TEE : KIND_GREEN;
  int nearest = -1;
  double nearest_m = INFINITY;
  if (marker->kind != KIND_TEE_MARKER && marker->kind != KIND_HOLE_LOCATION)
    return refuse (error, EDIT_ERROR_SHAPE, "only tee markers and hole locations have a place to stand on");
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *area = hole_part (hole, i);
      double distance_m = area->kind == kind ? outline_distance (area->outline, marker->at, NULL) : INFINITY;
      if (distance_m < nearest_m)
        {
          nearest_m = distance_m;
          nearest = (int)i;
        }
    }
  if (nearest < 0)
    return refuse (error, EDIT_ERROR_EMPTY, "there is nothing for it to stand on; draw it first");
  Vec2 by = vec2_sub (part_position (hole_part (hole, (size_t)nearest)), marker->at);
  return edit_transform (hole, &part, 1, affine_translation (by.x, by.y), error);
}

static Hole *
line_to_green (const Hole *hole, size_t part, GError **error)
{
  const Part *line = hole_part (hole, part);
  Vec2 middle;
  int tee = hole_tee (hole, NULL);
  if (line->kind != KIND_LINE_OF_PLAY)
    return refuse (error, EDIT_ERROR_SHAPE, "only the line of play leads to the green");
  if (!hole_green_middle (hole, &middle))
    return refuse (error, EDIT_ERROR_EMPTY, "there is no green; draw it first");
  PathNode *nodes = NULL;
  size_t n = path_nodes (&line->path, &nodes);
  free (nodes);
  if (n < 2)
    return refuse (error, EDIT_ERROR_EMPTY, "the line of play is a point; delete it and draw it anew");
  g_autoptr (Hole) led = edit_move_node (hole, part, n - 1, NODE_AT, middle, error);
  if (!led || tee < 0)
    return g_steal_pointer (&led);
  return edit_move_node (led, part, 0, NODE_AT, hole_part (hole, (size_t)tee)->at, error);
}

static Hole *
uncross (const Hole *hole, size_t part, GError **error)
{
  const Part *area = hole_part (hole, part);
  if (kind_info (area->kind)->shape != SHAPE_AREA)
    return refuse (error, EDIT_ERROR_SHAPE, "only the outline of an area can be uncrossed");
  const Part *made = uncross_area (area, error);
  return made ? replace_part (hole, part, made) : NULL;
}

static Hole *
grow_sheet (const Hole *hole, size_t part, GError **error)
{
  HoleInfo info = *hole_info (hole); /* its strings are borrowed */
  Box drawn = box_empty ();
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    drawn = box_union (drawn, hole_part (hole, i)->bounds);
  if (box_is_empty (drawn))
    return refuse (error, EDIT_ERROR_EMPTY, "nothing is drawn yet; draw something first");
  drawn = box_grown (drawn, SHEET_ROOM_M);
  Box grown = { floor (drawn.x0), floor (drawn.y0), ceil (drawn.x1), ceil (drawn.y1) };
  Box sheet = info.view_box;
  /* A side that is wide enough stays where it is. */
  if (!box_is_empty (sheet))
    {
      grown.x0 = drawn.x0 + SHEET_ROOM_M < sheet.x0 ? grown.x0 : sheet.x0;
      grown.y0 = drawn.y0 + SHEET_ROOM_M < sheet.y0 ? grown.y0 : sheet.y0;
      grown.x1 = drawn.x1 - SHEET_ROOM_M > sheet.x1 ? grown.x1 : sheet.x1;
      grown.y1 = drawn.y1 - SHEET_ROOM_M > sheet.y1 ? grown.y1 : sheet.y1;
    }
  info.view_box = grown;
  return hole_info_equal (&info, hole_info (hole)) ? hole_ref ((Hole *)hole) : hole_with_info (hole, &info);
}

static Hole *(*const ways[]) (const Hole *hole, size_t part, GError **error) = {
  [MEND_ADD_HOLE_LOCATION] = add_hole_location,
  [MEND_ADD_TEE_MARKER] = add_tee_marker,
  [MEND_MOVE_ONTO_AREA] = move_onto_area,
  [MEND_LINE_TO_GREEN] = line_to_green,
  [MEND_UNCROSS] = uncross,
  [MEND_GROW_SHEET] = grow_sheet,
};

Hole *
edit_mend (const Hole *hole, Mend mend, size_t part, GError **error)
{
  if ((size_t)mend >= G_N_ELEMENTS (ways) || !ways[mend])
    return refuse (error, EDIT_ERROR_SHAPE, "this has to be mended by hand");
  return ways[mend](hole, part, error);
}
