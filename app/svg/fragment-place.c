// SPDX-License-Identifier: GPL-3.0-or-later
/* The parts of a fragment at a scale and a place of a hole, with kinds given to shapes that have none. */
#include "read-private.h"

#include <string.h>

/* Coordinates are saved to a millimetre, so they are placed on one. */
#define GRID_PER_M 1000.0
/* ---- places ---- */

static double
on_grid (double length_m)
{
  return round (length_m * GRID_PER_M) / GRID_PER_M;
}

static Vec2
move_point (Affine t, Vec2 point)
{
  Vec2 moved = affine_apply (t, point);
  return vec2 (on_grid (moved.x), on_grid (moved.y));
}

static void
move_path (Affine t, Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      PathSeg *seg = &path->segs[i];
      seg->to = move_point (t, seg->to);
      if (seg->kind == SEG_CUBIC)
        {
          seg->c1 = move_point (t, seg->c1);
          seg->c2 = move_point (t, seg->c2);
        }
    }
}

static void
move_part (Affine t, double scale, Part *part)
{
  PartShape shape = kind_info (part->kind)->shape;
  if (shape == SHAPE_POINT || shape == SHAPE_TEXT)
    part->at = move_point (t, part->at);
  if (shape == SHAPE_IMAGE)
    part->placement = affine_then (part->placement, t);
  part->radius_m = on_grid (part->radius_m * scale);
  move_path (t, &part->path);
  for (size_t i = 0; i < part->n_shots; i++)
    {
      part->shots[i].from = move_point (t, part->shots[i].from);
      part->shots[i].aim = move_point (t, part->shots[i].aim);
    }
}

/* ---- kinds ---- */

/* A shape without a kind as a part of one. The kind has been looked at. */
static Part *
with_kind (const Part *shape, Kind kind)
{
  PartShape wanted = kind_info (kind)->shape;
  Part *part = part_new (kind);
  part->id = g_strdup (shape->id);
  part->name = g_strdup (shape->name);
  if (wanted == SHAPE_POINT)
    {
      part->at = box_centre (shape->bounds);
      part->radius_m = ((shape->bounds.x1 - shape->bounds.x0) + (shape->bounds.y1 - shape->bounds.y0)) / 4;
      return part;
    }
  path_copy (&shape->path, &part->path);
  part->even_odd = wanted == SHAPE_AREA && shape->even_odd;
  return part;
}

static bool
check_kinds (const SvgFragment *fragment, const Kind *kinds, GError **error)
{
  for (size_t i = 0; kinds && i < fragment->n_parts; i++)
    if (kinds[i] != SVG_LEAVE_OUT && fragment->parts[i]->kind == KIND_NONE)
      {
        PartShape shape = kind_info (kinds[i])->shape;
        if (shape != SHAPE_AREA && shape != SHAPE_LINE && shape != SHAPE_POINT)
          {
            g_set_error (error, SVG_ERROR, SVG_ERROR_FORMAT, "a shape cannot become a %s; choose another kind for it",
                         kind_info (kinds[i])->label);
            return false;
          }
      }
  return true;
}

/* ---- ids ---- */

static void
collect_ids (const xmlNode *element, GHashTable *ids)
{
  const char *id = document_attribute (element, "id", NULL);
  if (id)
    g_hash_table_add (ids, g_strdup (id));
  for (const xmlNode *child = element->children; child; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      collect_ids (child, ids);
}

/* Every id of the hole's parts and of the document it was read from, foreign elements included. */
static GHashTable *
used_ids (const Hole *hole)
{
  GHashTable *ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  GBytes *source = hole_source (hole);
  g_autoptr (Document) document = source ? document_parse (source, "the document", NULL) : NULL;
  if (document)
    collect_ids (xmlDocGetRootElement (document->tree), ids);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->id)
      g_hash_table_add (ids, g_strdup (hole_part (hole, i)->id));
  return ids;
}

/* An id that is taken gets a number: bunker, bunker-2, bunker-3. */
static void
make_id_unique (GHashTable *ids, Part *part)
{
  if (!part->id)
    return;
  g_autofree char *wanted = g_steal_pointer (&part->id);
  part->id = g_strdup (wanted);
  for (unsigned n = 2; g_hash_table_contains (ids, part->id); n++)
    {
      g_free (part->id);
      part->id = g_strdup_printf ("%s-%u", wanted, n);
    }
  g_hash_table_add (ids, g_strdup (part->id));
}

/* ---- all together ---- */

static void
release_part (gpointer part)
{
  part_unref (part);
}

static bool
is_within (Box box)
{
  return box_is_empty (box)
         || (box.x0 >= -SVG_LARGEST_M && box.y0 >= -SVG_LARGEST_M && box.x1 <= SVG_LARGEST_M && box.y1 <= SVG_LARGEST_M);
}

static const Part *
place_part (const Part *old, const Kind *kind, Affine t, double scale, GHashTable *ids)
{
  bool is_given = old->kind == KIND_NONE && kind && *kind != KIND_NONE;
  Part *part = is_given ? with_kind (old, *kind) : part_copy (old);
  move_part (t, scale, part);
  if (is_given && kind_info (*kind)->shape == SHAPE_POINT && *kind != KIND_TREE)
    part->radius_m = kind_info (*kind)->radius_m;
  make_id_unique (ids, part);
  return part_seal (part);
}

GPtrArray *
svg_fragment_place (const SvgFragment *fragment, const Hole *hole, const Kind *kinds, double metres_per_unit, Vec2 middle,
                    GError **error)
{
  Vec2 centre = box_is_empty (fragment->extent) ? vec2 (0, 0) : box_centre (fragment->extent);
  Affine t
      = affine_then (affine_then (affine_translation (-centre.x, -centre.y), affine_scaling (metres_per_unit, metres_per_unit)),
                     affine_translation (middle.x, middle.y));
  if (!(metres_per_unit > 0) || !affine_is_finite (t))
    {
      g_set_error (error, SVG_ERROR, SVG_ERROR_FORMAT, "the drawing has no scale; say how many metres it is wide");
      return NULL;
    }
  if (!check_kinds (fragment, kinds, error))
    return NULL;
  g_autoptr (GPtrArray) placed = g_ptr_array_new_with_free_func (release_part);
  g_autoptr (GHashTable) ids = used_ids (hole);
  for (size_t i = 0; i < fragment->n_parts; i++)
    {
      if (kinds && kinds[i] == SVG_LEAVE_OUT)
        continue;
      const Part *part = place_part (fragment->parts[i], kinds ? &kinds[i] : NULL, t, metres_per_unit, ids);
      g_ptr_array_add (placed, (gpointer)part);
      if (!is_within (part->bounds))
        {
          g_set_error (error, SVG_ERROR, SVG_ERROR_LIMIT, "at this scale the drawing is larger than %g km; make it smaller",
                       SVG_LARGEST_M / 1000);
          return NULL;
        }
    }
  if (placed->len > 0)
    return g_steal_pointer (&placed);
  g_set_error (error, SVG_ERROR, SVG_ERROR_FORMAT, "every shape is left out; choose a kind for one of them");
  return NULL;
}
