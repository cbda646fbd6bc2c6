// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What was written against what was meant. Writing rounds coordinates to at most 1 mm on the ground, so places are compared within that;
 * everything else must be the same.
 */
#include "write-private.h"

#include <string.h>

/* Half a step of the last decimal in each axis, and as much again for a turned frame: less than the millimetre. */
#define KEPT_M 0.001

static bool
near (double a, double b)
{
  return fabs (a - b) <= KEPT_M || (isnan (a) && isnan (b));
}

static bool
points_near (Vec2 a, Vec2 b)
{
  return near (a.x, b.x) && near (a.y, b.y);
}

static bool
paths_near (const Path *a, const Path *b)
{
  if (a->n_segs != b->n_segs)
    return false;
  for (size_t i = 0; i < a->n_segs; i++)
    {
      const PathSeg *s = &a->segs[i], *t = &b->segs[i];
      bool is_curve = s->kind == SEG_CUBIC;
      if (s->kind != t->kind || !points_near (s->to, t->to)
          || (is_curve && !(points_near (s->c1, t->c1) && points_near (s->c2, t->c2))))
        return false;
    }
  return true;
}

/* Where the corners of the image come to lie. */
static bool
images_near (const Part *a, const Part *b)
{
  for (int i = 0; i < 4; i++)
    {
      Vec2 p = vec2 (i & 1 ? a->image_box.x1 : a->image_box.x0, i & 2 ? a->image_box.y1 : a->image_box.y0);
      Vec2 q = vec2 (i & 1 ? b->image_box.x1 : b->image_box.x0, i & 2 ? b->image_box.y1 : b->image_box.y0);
      if (!points_near (affine_apply (a->placement, p), affine_apply (b->placement, q)))
        return false;
    }
  return true;
}

static bool
shots_near (const Part *a, const Part *b)
{
  if (a->n_shots != b->n_shots)
    return false;
  for (size_t i = 0; i < a->n_shots; i++)
    if (!points_near (a->shots[i].from, b->shots[i].from) || !points_near (a->shots[i].aim, b->shots[i].aim))
      return false;
  return true;
}

/* Texts lose the white space at their ends, and an empty one is the same as none. */
static bool
texts_same (const char *a, const char *b)
{
  g_autofree char *p = g_strstrip (g_strdup (a ? a : "")), *q = g_strstrip (g_strdup (b ? b : ""));
  return strcmp (p, q) == 0;
}

/* Takes over the text of the other where it is the same. */
static void
settle_text (char **text, const char *other)
{
  if (!texts_same (*text, other))
    return;
  g_free (*text);
  *text = g_strdup (other);
}

static void
settle_texts (Part *part, const Part *other)
{
  settle_text (&part->id, other->id);
  settle_text (&part->name, other->name);
  settle_text (&part->text, other->text);
  settle_text (&part->href, other->href);
  settle_text (&part->tee, other->tee);
  settle_text (&part->hole_name, other->hole_name);
  settle_text (&part->day.firmness, other->day.firmness);
  for (size_t i = 0; i < part->n_shots; i++)
    settle_text (&part->shots[i].club, other->shots[i].club);
}

/* The part with the places of `other`, which are near its own, and the texts that are the same: what is left to compare must be equal. */
static Part *
with_places_of (const Part *part, const Part *other)
{
  Part *copy = part_copy (part);
  settle_texts (copy, other);
  path_clear (&copy->path);
  path_copy (&other->path, &copy->path);
  copy->at = other->at;
  copy->radius_m = other->radius_m;
  copy->image_box = other->image_box;
  copy->placement = other->placement;
  for (size_t i = 0; i < copy->n_shots; i++)
    {
      copy->shots[i].from = other->shots[i].from;
      copy->shots[i].aim = other->shots[i].aim;
    }
  return copy;
}

static bool
parts_near (const Part *a, const Part *b)
{
  if (part_equal (a, b))
    return true;
  if (!paths_near (&a->path, &b->path) || !points_near (a->at, b->at) || !near (a->radius_m, b->radius_m) || !images_near (a, b)
      || !shots_near (a, b))
    return false;
  Part *moved = with_places_of (a, b);
  bool same = part_equal (moved, b);
  part_unref (moved);
  return same;
}

static bool
infos_near (const HoleInfo *a, const HoleInfo *b)
{
  HoleInfo moved = *a;
  bool is_near = near (a->view_box.x0, b->view_box.x0) && near (a->view_box.y0, b->view_box.y0)
                 && near (a->view_box.x1, b->view_box.x1) && near (a->view_box.y1, b->view_box.y1);
  /* A new document is given a view box when the hole has none. */
  if (is_near || box_is_empty (a->view_box))
    moved.view_box = b->view_box;
  if (texts_same (a->title, b->title))
    moved.title = b->title;
  if (texts_same (a->desc, b->desc))
    moved.desc = b->desc;
  if (texts_same (a->datum, b->datum))
    moved.datum = b->datum;
  return hole_info_equal (&moved, b);
}

char *
write_difference (const Hole *hole, const Hole *back)
{
  if (!infos_near (hole_info (hole), hole_info (back)))
    return g_strdup ("the facts of the whole hole");
  if (hole_n_parts (hole) != hole_n_parts (back))
    return g_strdup_printf ("the number of parts (%zu, not %zu)", hole_n_parts (back), hole_n_parts (hole));
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      char buffer[64];
      const Part *part = hole_part (hole, i);
      if (!parts_near (part, hole_part (back, i)))
        return g_strdup_printf ("part %zu, the %s \"%s\",", i + 1, kind_info (part->kind)->label,
                                part_label (part, buffer, sizeof buffer));
    }
  return NULL;
}
