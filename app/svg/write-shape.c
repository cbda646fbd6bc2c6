// SPDX-License-Identifier: GPL-3.0-or-later
/* Geometry into an element's own user space: the transforms above and on it are undone, and coordinates keep 1 mm on the ground. */
#include "grammar-private.h"
#include "units.h"
#include "write-private.h"

#include <string.h>

/* 1 mm in metres as decimals, and the most that are ever printed. */
#define MILLIMETRE_DECIMALS 3
#define MOST_DECIMALS 9

/* The way into an element's user space. */
typedef struct
{
  Affine from_hole;
  double user_per_metre; /* mean scale of lengths */
  int decimals;          /* that keep 1 mm */
} Frame;

static bool
frame_of (Editor *editor, const xmlNode *element, Frame *frame)
{
  Context parent, own;
  xml_context_of (element->parent, &parent);
  context_enter (&parent, element, &own);
  Affine to_hole = context_to_hole (&own);
  if (!affine_invert (to_hole, &frame->from_hole))
    {
      document_fault (editor->name, 0, SVG_ERROR_WRITE, editor->error,
                      "the transform of a %s squeezes it flat, so it cannot be changed; take the transform out",
                      (const char *)element->name);
      return false;
    }
  frame->user_per_metre = 1 / sqrt (fabs (to_hole.xx * to_hole.yy - to_hole.xy * to_hole.yx));
  /* One step of the last decimal is at most 1 mm on the ground; a hair is left for the rounding of the logarithm. */
  double wanted = ceil (MILLIMETRE_DECIMALS + log10 (affine_largest_scale (to_hole)) - 1e-9);
  frame->decimals = (int)fmin (fmax (wanted, 0), MOST_DECIMALS);
  return true;
}

static void
path_in_frame (const Frame *frame, const Path *path, Path *user)
{
  path_copy (path, user);
  path_transform (user, frame->from_hole);
}

static bool
is_polyline (const Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    if (path->segs[i].kind != (i == 0 ? SEG_MOVE : SEG_LINE))
      return false;
  return path->n_segs > 0;
}

static void
set_path (xmlNode *element, const Frame *frame, const Path *path)
{
  Path user;
  path_in_frame (frame, path, &user);
  g_autofree char *d = path_print (&user, frame->decimals);
  path_clear (&user);
  xml_rename (element, "path");
  xml_set (element, "d", d);
}

static void
set_points (xmlNode *element, const Frame *frame, const Path *path)
{
  Path user;
  path_in_frame (frame, path, &user);
  g_autofree char *points = points_print (&user, frame->decimals);
  path_clear (&user);
  xml_rename (element, "polyline");
  xml_set (element, "points", points);
}

/* Two ends of a line element; only the coordinates that moved are touched. */
static void
set_ends (xmlNode *element, const Frame *frame, const Vec2 *old, const Vec2 *ends)
{
  static const char *const names[2][2] = { { "x1", "y1" }, { "x2", "y2" } };
  if (strcmp ((const char *)element->name, "line") != 0)
    old = NULL;
  xml_rename (element, "line");
  for (int i = 0; i < 2; i++)
    {
      Vec2 before = old ? affine_apply (frame->from_hole, old[i]) : vec2 (NAN, NAN);
      Vec2 now = affine_apply (frame->from_hole, ends[i]);
      xml_set_number (element, names[i][0], now.x, before.x, frame->decimals);
      xml_set_number (element, names[i][1], now.y, before.y, frame->decimals);
    }
}

static void
write_area (xmlNode *element, const Frame *frame, const Part *old, const Part *part)
{
  if (!old || !path_equal (&old->path, &part->path))
    set_path (element, frame, &part->path);
}

/* A line stays what it is where that can hold it: path, else line for two points, else polyline, else path. */
static void
write_line (xmlNode *element, const Frame *frame, const Part *old, const Part *part, bool is_new)
{
  const Path *path = &part->path;
  if (old && path_equal (&old->path, path))
    return;
  const char *name = (const char *)element->name;
  bool is_path = strcmp (name, "path") == 0 && !is_new;
  bool is_line = strcmp (name, "line") == 0 || (is_new && part->kind == KIND_SLOPE);
  if (is_path || !is_polyline (path))
    set_path (element, frame, path);
  else if (is_line && path->n_segs == 2)
    {
      Vec2 ends[2] = { path->segs[0].to, path->segs[1].to }, before[2];
      bool is_known = old && old->path.n_segs == 2;
      for (int i = 0; i < 2 && is_known; i++)
        before[i] = old->path.segs[i].to;
      set_ends (element, frame, is_known ? before : NULL, ends);
    }
  else
    set_points (element, frame, path);
}

static void
write_point (xmlNode *element, const Frame *frame, const Part *old, const Part *part)
{
  bool is_ellipse = strcmp ((const char *)element->name, "ellipse") == 0;
  bool is_round = is_ellipse || strcmp ((const char *)element->name, "circle") == 0;
  bool is_resized = !old || old->radius_m != part->radius_m;
  if (!is_round || (is_ellipse && is_resized))
    {
      xml_rename (element, "circle");
      old = NULL;
      is_resized = true;
    }
  Vec2 before = old ? affine_apply (frame->from_hole, old->at) : vec2 (NAN, NAN);
  Vec2 now = affine_apply (frame->from_hole, part->at);
  if (!old || old->at.x != part->at.x || old->at.y != part->at.y)
    {
      xml_set_number (element, "cx", now.x, before.x, frame->decimals);
      xml_set_number (element, "cy", now.y, before.y, frame->decimals);
    }
  if (is_resized)
    xml_set_number (element, "r", part->radius_m * frame->user_per_metre, NAN, frame->decimals);
}

/* Spans with places of their own move along with their text. */
static void
shift_spans (xmlNode *element, const Frame *frame, Vec2 by)
{
  for (xmlNode *child = element->children; child; child = child->next)
    {
      if (child->type != XML_ELEMENT_NODE)
        continue;
      const char *x = document_attribute (child, "x", NULL), *y = document_attribute (child, "y", NULL);
      double value;
      if (x && units_parse_number (x, &value))
        xml_set_number (child, "x", value + by.x, value, frame->decimals);
      if (y && units_parse_number (y, &value))
        xml_set_number (child, "y", value + by.y, value, frame->decimals);
      shift_spans (child, frame, by);
    }
}

static void
write_text (xmlNode *element, const Frame *frame, const Part *old, const Part *part)
{
  if (strcmp ((const char *)element->name, "text") != 0)
    old = NULL;
  xml_rename (element, "text");
  Vec2 now = affine_apply (frame->from_hole, part->at);
  if (!old || g_strcmp0 (old->text, part->text) != 0)
    {
      xmlNodeSetContent (element, NULL);
      xmlNodeAddContent (element, BAD_CAST (part->text ? part->text : ""));
    }
  if (old && old->at.x == part->at.x && old->at.y == part->at.y)
    return;
  Vec2 before = old ? affine_apply (frame->from_hole, old->at) : vec2 (NAN, NAN);
  xml_set_number (element, "x", now.x, before.x, frame->decimals);
  xml_set_number (element, "y", now.y, before.y, frame->decimals);
  if (old)
    shift_spans (element, frame, vec2_sub (now, before));
}

static bool
box_equal (const Box *a, const Box *b)
{
  return a->x0 == b->x0 && a->y0 == b->y0 && a->x1 == b->x1 && a->y1 == b->y1;
}

static void
set_full (xmlNode *element, const char *name, double value)
{
  char text[UNITS_TEXT_SIZE];
  xml_set (element, name, units_print_full (value, text, sizeof text));
}

static char *
print_matrix (const Affine *t)
{
  const double numbers[6] = { t->xx, t->yx, t->xy, t->yy, t->x0, t->y0 };
  GString *text = g_string_new ("matrix(");
  for (int i = 0; i < 6; i++)
    {
      char number[UNITS_TEXT_SIZE];
      g_string_append_printf (text, "%s%s", i > 0 ? " " : "", units_print_full (numbers[i], number, sizeof number));
    }
  g_string_append_c (text, ')');
  return g_string_free (text, FALSE);
}

static bool
placement_equal (const Affine *a, const Affine *b)
{
  return a->xx == b->xx && a->yx == b->yx && a->xy == b->xy && a->yy == b->yy && a->x0 == b->x0 && a->y0 == b->y0;
}

/* The image keeps its own box; where it lies on the hole is its transform. */
static bool
write_image (Editor *editor, xmlNode *element, const Part *old, const Part *part)
{
  if (strcmp ((const char *)element->name, "image") != 0)
    old = NULL;
  xml_rename (element, "image");
  if (!old || !box_equal (&old->image_box, &part->image_box))
    {
      set_full (element, "x", part->image_box.x0);
      set_full (element, "y", part->image_box.y0);
      set_full (element, "width", part->image_box.x1 - part->image_box.x0);
      set_full (element, "height", part->image_box.y1 - part->image_box.y0);
    }
  if (!old || g_strcmp0 (old->href, part->href) != 0)
    xml_set_link (editor, element, part->href);
  if (old && placement_equal (&old->placement, &part->placement))
    return true;
  Context parent;
  Affine from_hole;
  xml_context_of (element->parent, &parent);
  if (!affine_invert (context_to_hole (&parent), &from_hole))
    {
      document_fault (editor->name, 0, SVG_ERROR_WRITE, editor->error,
                      "the transform of the group of an image squeezes it flat; take the transform out");
      return false;
    }
  Affine own = affine_then (part->placement, from_hole);
  g_autofree char *matrix = print_matrix (&own);
  xml_set (element, "transform", matrix);
  return true;
}

bool
write_shape (Editor *editor, xmlNode *element, const Part *old, const Part *part, bool is_new)
{
  PartShape shape = kind_info (part->kind)->shape;
  Frame frame;
  if (old && kind_info (old->kind)->shape != shape)
    old = NULL;
  if (shape == SHAPE_PLAN)
    {
      xml_rename (element, "g");
      return true;
    }
  if (shape == SHAPE_IMAGE)
    return write_image (editor, element, old, part);
  if (!frame_of (editor, element, &frame))
    return false;
  if (shape == SHAPE_AREA)
    write_area (element, &frame, old, part);
  else if (shape == SHAPE_LINE)
    write_line (element, &frame, old, part, is_new);
  else if (shape == SHAPE_POINT)
    write_point (element, &frame, old, part);
  else
    write_text (element, &frame, old, part);
  return true;
}

bool
write_shot_line (Editor *editor, xmlNode *element, const Shot *old, const Shot *shot)
{
  Frame frame;
  if (!frame_of (editor, element, &frame))
    return false;
  Vec2 before[2] = { { 0 } }, ends[2] = { shot->from, shot->aim };
  if (old)
    {
      before[0] = old->from;
      before[1] = old->aim;
    }
  if (!old || before[0].x != ends[0].x || before[0].y != ends[0].y || before[1].x != ends[1].x || before[1].y != ends[1].y)
    set_ends (element, &frame, old ? before : NULL, ends);
  return true;
}
