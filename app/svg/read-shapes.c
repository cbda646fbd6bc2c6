// SPDX-License-Identifier: GPL-3.0-or-later
/* The basic shapes and paths (SVG 1.1, chapters 8 and 9) as paths in their own user space, one row an element. */
#include "grammar-private.h"
#include "number-private.h"
#include "read-private.h"

#include <string.h>

/* ---- lengths ---- */

bool
reader_length (Reader *reader, unsigned node, const xmlNode *element, const char *attribute, Axis axis, double absent,
               double *value)
{
  const char *text = document_attribute (element, attribute, NULL);
  *value = absent;
  if (!text || length_read (text, &reader->view_box, axis, value, NULL))
    return true;
  return reader_refuse (reader, node, SVG_ERROR_FORMAT, "%s=\"%.40s\" of a %s is no length; write a plain number of metres",
                        attribute, text, (const char *)element->name);
}

/* A radius or side, which may not be negative. */
static bool
read_size (Reader *reader, unsigned node, const xmlNode *element, const char *attribute, Axis axis, double absent,
           double *value)
{
  if (!reader_length (reader, node, element, attribute, axis, absent, value))
    return false;
  if (*value < 0)
    return reader_refuse (reader, node, SVG_ERROR_FORMAT, "%s of a %s is negative; give it a size", attribute,
                          (const char *)element->name);
  return true;
}

/* ---- shapes ---- */

static bool
take_grammar (Reader *reader, unsigned node, const xmlNode *element, const char *attribute, Shape *shape,
              PathVerdict (*read) (const char *, Path *, size_t, size_t *))
{
  const char *text = document_attribute (element, attribute, NULL);
  size_t offset = 0;
  switch (text ? read (text, &shape->path, SVG_MOST_SEGMENTS - reader->n_segments, &offset) : PATH_GOOD)
    {
    case PATH_GOOD:
      break;
    case PATH_TOO_LONG:
      return reader_refuse (reader, node, SVG_ERROR_LIMIT, "the drawing has more than %d path segments; simplify its outlines",
                            SVG_MOST_SEGMENTS);
    case PATH_MISTAKE:
      {
        g_autofree char *rest = g_utf8_substring (text + offset, 0, MIN (12, g_utf8_strlen (text + offset, -1)));
        return reader_refuse (reader, node, SVG_ERROR_FORMAT, "%s of a %s is wrong at character %zu (\"%s\"); correct it there",
                              attribute, (const char *)element->name, offset + 1, rest);
      }
    }
  reader->n_segments += shape->path.n_segs;
  return true;
}

static bool
read_path (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  shape->is_area = shape->is_line = true;
  return take_grammar (reader, node, element, "d", shape, path_grammar_read);
}

static bool
read_polygon (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  shape->is_area = true;
  if (!take_grammar (reader, node, element, "points", shape, points_grammar_read))
    return false;
  path_close (&shape->path);
  return true;
}

static bool
read_polyline (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  shape->is_line = true;
  if (!take_grammar (reader, node, element, "points", shape, points_grammar_read))
    return false;
  size_t n = shape->path.n_segs;
  if (n > 2)
    {
      Vec2 first = shape->path.segs[0].to, last = shape->path.segs[n - 1].to;
      shape->is_area = first.x == last.x && first.y == last.y;
    }
  return true;
}

static bool
read_rect (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  double x, y, width, height, rx, ry;
  shape->is_area = true;
  if (!reader_length (reader, node, element, "x", AXIS_X, 0, &x) || !reader_length (reader, node, element, "y", AXIS_Y, 0, &y)
      || !read_size (reader, node, element, "width", AXIS_X, 0, &width)
      || !read_size (reader, node, element, "height", AXIS_Y, 0, &height)
      || !read_size (reader, node, element, "rx", AXIS_X, NAN, &rx)
      || !read_size (reader, node, element, "ry", AXIS_Y, NAN, &ry))
    return false;
  /* SVG 1.1, section 9.2: one radius alone serves for both. */
  if (isnan (rx))
    rx = isnan (ry) ? 0 : ry;
  if (isnan (ry))
    ry = rx;
  if (width > 0 && height > 0)
    path_add_rectangle (&shape->path, (Box){ x, y, x + width, y + height }, rx, ry);
  return true;
}

static bool
read_round (Reader *reader, unsigned node, const xmlNode *element, Shape *shape, double rx, double ry)
{
  shape->is_area = shape->is_point = true;
  shape->rx = rx;
  shape->ry = ry;
  return reader_length (reader, node, element, "cx", AXIS_X, 0, &shape->centre.x)
         && reader_length (reader, node, element, "cy", AXIS_Y, 0, &shape->centre.y);
}

void
shape_draw (Shape *shape)
{
  if (shape->is_point && shape->rx > 0 && shape->ry > 0)
    path_add_ellipse (&shape->path, shape->centre, shape->rx, shape->ry);
}

static bool
read_circle (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  double r;
  return read_size (reader, node, element, "r", AXIS_BOTH, 0, &r) && read_round (reader, node, element, shape, r, r);
}

static bool
read_ellipse (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  double rx, ry;
  return read_size (reader, node, element, "rx", AXIS_X, 0, &rx) && read_size (reader, node, element, "ry", AXIS_Y, 0, &ry)
         && read_round (reader, node, element, shape, rx, ry);
}

static bool
read_line (Reader *reader, unsigned node, const xmlNode *element, Shape *shape)
{
  Vec2 from, to;
  shape->is_line = true;
  if (!reader_length (reader, node, element, "x1", AXIS_X, 0, &from.x)
      || !reader_length (reader, node, element, "y1", AXIS_Y, 0, &from.y)
      || !reader_length (reader, node, element, "x2", AXIS_X, 0, &to.x)
      || !reader_length (reader, node, element, "y2", AXIS_Y, 0, &to.y))
    return false;
  path_move_to (&shape->path, from);
  path_line_to (&shape->path, to);
  return true;
}

static const ShapeRow rows[] = {
  { "path", read_path },     { "polygon", read_polygon }, { "polyline", read_polyline }, { "rect", read_rect },
  { "circle", read_circle }, { "ellipse", read_ellipse }, { "line", read_line },
};

const ShapeRow *
shape_row (const char *element_name)
{
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    if (strcmp (rows[i].element, element_name) == 0)
      return &rows[i];
  return NULL;
}

bool
shape_read (Reader *reader, unsigned node, const xmlNode *element, const ShapeRow *row, Shape *shape)
{
  *shape = (Shape){ 0 };
  if (row->read (reader, node, element, shape))
    return true;
  shape_clear (shape);
  return false;
}

void
shape_clear (Shape *shape)
{
  path_clear (&shape->path);
}
