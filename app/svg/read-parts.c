// SPDX-License-Identifier: GPL-3.0-or-later
/* From one element to one part: its kind, its facts, its geometry in the hole frame. */
#include "number-private.h"
#include "read-private.h"

#include <string.h>

/* Points of all flattened areas together: hundreds of times a rich hole's. */
#define MOST_OUTLINE_POINTS 8e6

/* ---- facts ---- */

void
reader_take_fact (Reader *reader, unsigned node, const Fact *fact, void *base, const char *text)
{
  if (!text || fact_read (fact, base, text))
    return;
  g_autofree char *values = fact_values (fact);
  g_autofree char *mend = g_strdup_printf ("give it %s", values);
  reader_note (reader, FINDING_ERROR, node, g_strdup_printf ("hw:%s is \"%.40s\" and was ignored", fact->attribute, text),
               mend);
}

static void
take_part_facts (Reader *reader, unsigned node, const xmlNode *element, const Context *context, Part *part)
{
  for (size_t i = 0; i < N_PART_FACTS; i++)
    if (fact_applies (&part_facts[i], part->kind))
      reader_take_fact (reader, node, &part_facts[i], part,
                        part_facts[i].is_inherited ? context->facts[i]
                                                   : document_attribute (element, part_facts[i].attribute, SVG_HOLE_NAMESPACE));
  part->id = g_strdup (document_attribute (element, "id", NULL));
  if (!part->name)
    part->name = read_child_text (element, "title");
}

char *
read_child_text (const xmlNode *element, const char *child_name)
{
  for (const xmlNode *child = element->children; child; child = child->next)
    if (document_is_element (child, SVG_NAMESPACE) && strcmp ((const char *)child->name, child_name) == 0)
      {
        xmlChar *content = xmlNodeGetContent (child);
        char *text = g_strstrip (g_strdup (content ? (const char *)content : ""));
        xmlFree (content);
        if (*text == '\0')
          g_clear_pointer (&text, g_free);
        return text;
      }
  return NULL;
}

/* ---- parts ---- */

Part *
reader_begin_part (Reader *reader, unsigned node, const xmlNode *element, const Context *context, Kind kind)
{
  Part *part = part_new (kind);
  part->node = node;
  part->line = reader->document->lines[node];
  take_part_facts (reader, node, element, context, part);
  return part;
}

void
reader_add_part (Reader *reader, Part *part)
{
  g_ptr_array_add (reader->parts, (gpointer)part_seal (part));
}

static bool
in_bounds (Vec2 point)
{
  return fabs (point.x) <= SVG_LARGEST_M && fabs (point.y) <= SVG_LARGEST_M;
}

static bool
curves_in_bounds (const Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    if (!in_bounds (path->segs[i].to)
        || (path->segs[i].kind == SEG_CUBIC && !(in_bounds (path->segs[i].c1) && in_bounds (path->segs[i].c2))))
      return false;
  return true;
}

static bool
refuse_far (Reader *reader, unsigned node, const xmlNode *element)
{
  return reader_refuse (reader, node, SVG_ERROR_LIMIT,
                        "a %s lies more than %g km away; a user unit is one metre, so move it or scale it",
                        (const char *)element->name, SVG_LARGEST_M / 1000);
}

/* The kind an element asks for, by itself or through its groups; what cannot be is noted and gives KIND_NONE. */
static Kind
kind_of (Reader *reader, unsigned node, const xmlNode *element, const Context *context)
{
  Kind kind = KIND_NONE;
  if (!context->kind)
    return KIND_NONE;
  if (strcmp (context->kind, "shot") == 0)
    reader_note (reader, FINDING_WARNING, node, g_strdup ("a shot stands outside a plan and is ignored"),
                 "put it into a g with hw:kind=\"plan\"");
  else if (!kind_from_token (context->kind, &kind))
    reader_note (reader, FINDING_WARNING, node, g_strdup_printf ("the kind \"%.40s\" is not known", context->kind),
                 "give hw:kind one of the words of the format");
  return kind;
}

/* A kind that the element's shape cannot stand for. Said only where the element itself asked for it. */
static void
note_misfit (Reader *reader, unsigned node, const xmlNode *element, Kind kind)
{
  static const char *const mends[] = {
    [SHAPE_AREA] = "draw it as a closed shape",     [SHAPE_POINT] = "draw it as a circle",
    [SHAPE_LINE] = "draw it as a line or polyline", [SHAPE_TEXT] = "write it as a text element",
    [SHAPE_IMAGE] = "place it as an image",         [SHAPE_PLAN] = "make it a g that holds its shots",
  };
  if (kind != KIND_NONE && document_attribute (element, "kind", SVG_HOLE_NAMESPACE))
    reader_note (reader, FINDING_WARNING, node,
                 g_strdup_printf ("a %s cannot be a %s and is ignored", (const char *)element->name, kind_info (kind)->label),
                 mends[kind_info (kind)->shape]);
}

static bool
take_shot (Reader *reader, unsigned node, const xmlNode *element, const Context *context, const Shape *shape)
{
  if (!context->kind || strcmp (context->kind, "shot") != 0)
    return true;
  if (!shape->is_line || shape->path.n_segs < 2)
    {
      reader_note (reader, FINDING_WARNING, node,
                   g_strdup_printf ("a %s cannot be a shot and is ignored", (const char *)element->name),
                   "draw it as a line from the ball to the aim");
      return true;
    }
  Shot shot = { .node = node, .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  shot.from = affine_apply (context_to_hole (context), shape->path.segs[0].to);
  shot.aim = affine_apply (context_to_hole (context), path_current (&shape->path));
  if (!in_bounds (shot.from) || !in_bounds (shot.aim))
    return refuse_far (reader, node, element);
  for (size_t i = 0; i < N_SHOT_FACTS; i++)
    reader_take_fact (reader, node, &shot_facts[i], &shot,
                      document_attribute (element, shot_facts[i].attribute, SVG_HOLE_NAMESPACE));
  part_add_shot (reader->plan, &shot);
  g_free (shot.club);
  return true;
}

/* From user space to the hole frame. Most shapes stand under no transform at all, and then only y changes its sign. */
static void
path_into_hole (Path *path, const Context *context)
{
  const Affine *t = &context->to_file;
  bool is_flip = t->xx == 1 && t->yx == 0 && t->xy == 0 && t->yy == 1 && t->x0 == 0 && t->y0 == 0;
  if (!is_flip)
    {
      path_transform (path, context_to_hole (context));
      return;
    }
  for (size_t i = 0; i < path->n_segs; i++)
    {
      PathSeg *seg = &path->segs[i];
      seg->to.y = 0 - seg->to.y;
      seg->c1.y = 0 - seg->c1.y;
      seg->c2.y = 0 - seg->c2.y;
    }
}

/* How many points the curves come to when flattened (Wang 1984: a cubic needs sqrt (3/4 of its largest second difference / tolerance)). */
static double
flattened_size (const Path *path)
{
  double n = 0;
  Vec2 from = vec2 (0, 0);
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      n += 1;
      if (seg->kind == SEG_CUBIC)
        {
          Vec2 a = vec2_add (vec2_sub (from, vec2_scale (seg->c1, 2)), seg->c2);
          Vec2 b = vec2_add (vec2_sub (seg->c1, vec2_scale (seg->c2, 2)), seg->to);
          /* The sum of the sides for the diagonal: never less, at most a fifth more points. */
          double bend = MAX (fabs (a.x) + fabs (a.y), fabs (b.x) + fabs (b.y));
          n += sqrt (0.75 / FLATTEN_TOLERANCE_M * bend);
        }
      from = seg->to;
    }
  return n;
}

/* Keeps the sum of all areas within what memory and time allow. */
static bool
afford_area (Reader *reader, unsigned node, const Path *path)
{
  reader->n_area_segments += path->n_segs;
  reader->n_points += flattened_size (path);
  if (reader->n_area_segments > SVG_MOST_SEGMENTS)
    return reader_refuse (reader, node, SVG_ERROR_LIMIT, "the drawing has more than %d path segments; simplify its outlines",
                          SVG_MOST_SEGMENTS);
  if (reader->n_points > MOST_OUTLINE_POINTS)
    return reader_refuse (reader, node, SVG_ERROR_LIMIT,
                          "the curves are too many and too large to follow to 1 cm; check that a user unit is one metre");
  return true;
}

/* A shape of a known kind in the hole frame; takes over the shape's path. */
static bool
take_shape (Reader *reader, unsigned node, const xmlNode *element, const Context *context, Shape *shape)
{
  Kind kind = kind_of (reader, node, element, context);
  PartShape wanted = kind_info (kind)->shape;
  bool fits = (wanted == SHAPE_AREA && shape->is_area) || (wanted == SHAPE_POINT && shape->is_point)
              || (wanted == SHAPE_LINE && shape->is_line);
  if (!fits)
    {
      note_misfit (reader, node, element, kind);
      return true;
    }
  if (wanted == SHAPE_AREA)
    shape_draw (shape);
  if (wanted != SHAPE_POINT && shape->path.n_segs < 2)
    {
      if (kind != KIND_NONE)
        reader_note (reader, FINDING_WARNING, node,
                     g_strdup_printf ("a %s has no size and is ignored", kind_info (kind)->label),
                     "give it a size or take it out");
      return true;
    }
  Affine to_hole = context_to_hole (context);
  Part *part = reader_begin_part (reader, node, element, context, kind);
  bool near = true;
  if (wanted == SHAPE_POINT)
    {
      part->at = affine_apply (to_hole, shape->centre);
      part->radius_m = sqrt (shape->rx * shape->ry) * sqrt (fabs (to_hole.xx * to_hole.yy - to_hole.xy * to_hole.yx));
      near = in_bounds (part->at) && part->radius_m <= SVG_LARGEST_M;
    }
  else
    {
      path_into_hole (&shape->path, context);
      near = curves_in_bounds (&shape->path);
      part->path = shape->path;
      shape->path = (Path){ 0 };
      part->even_odd = wanted == SHAPE_AREA && context->even_odd;
    }
  bool good = near ? wanted != SHAPE_AREA || afford_area (reader, node, &part->path) : refuse_far (reader, node, element);
  if (good)
    reader_add_part (reader, part);
  else
    part_unref (part);
  return good;
}

bool
read_shape (Reader *reader, unsigned node, const xmlNode *element, const Context *context, const ShapeRow *row)
{
  Shape shape;
  if (!shape_read (reader, node, element, row, &shape))
    return false;
  bool good
      = reader->plan ? take_shot (reader, node, element, context, &shape) : take_shape (reader, node, element, context, &shape);
  shape_clear (&shape);
  return good;
}

/* ---- texts and images ---- */

/* The first number of a text's x or y, which may be a list. */
static bool
read_text_place (Reader *reader, unsigned node, const xmlNode *element, const char *attribute, double *value)
{
  const char *text = document_attribute (element, attribute, NULL);
  *value = 0;
  if (!text)
    return true;
  number_skip_space (&text);
  if (number_scan (&text, value))
    return true;
  return reader_refuse (reader, node, SVG_ERROR_FORMAT, "%s=\"%.40s\" of a text is no number; write metres", attribute, text);
}

bool
read_text (Reader *reader, unsigned node, const xmlNode *element, const Context *context)
{
  Kind kind = reader->plan ? KIND_NONE : kind_of (reader, node, element, context);
  if (kind != KIND_NOTE)
    {
      note_misfit (reader, node, element, kind);
      return true;
    }
  Vec2 at;
  if (!read_text_place (reader, node, element, "x", &at.x) || !read_text_place (reader, node, element, "y", &at.y))
    return false;
  at = affine_apply (context_to_hole (context), at);
  if (!in_bounds (at))
    return refuse_far (reader, node, element);
  Part *part = reader_begin_part (reader, node, element, context, KIND_NOTE);
  xmlChar *content = xmlNodeGetContent (element);
  part->text = g_strstrip (g_strdup (content ? (const char *)content : ""));
  xmlFree (content);
  part->at = at;
  reader_add_part (reader, part);
  return true;
}

bool
read_image (Reader *reader, unsigned node, const xmlNode *element, const Context *context)
{
  Kind kind = reader->plan ? KIND_NONE : kind_of (reader, node, element, context);
  if (kind != KIND_UNDERLAY)
    {
      note_misfit (reader, node, element, kind);
      return true;
    }
  double x, y, width, height;
  if (!reader_length (reader, node, element, "x", AXIS_X, 0, &x) || !reader_length (reader, node, element, "y", AXIS_Y, 0, &y)
      || !reader_length (reader, node, element, "width", AXIS_X, 0, &width)
      || !reader_length (reader, node, element, "height", AXIS_Y, 0, &height))
    return false;
  const char *href = document_attribute (element, "href", XLINK_NAMESPACE);
  Part *part = reader_begin_part (reader, node, element, context, KIND_UNDERLAY);
  part->href = g_strdup (href ? href : document_attribute (element, "href", NULL));
  part->image_box = (Box){ x, y, x + width, y + height };
  part->placement = context_to_hole (context);
  reader_add_part (reader, part);
  return true;
}
