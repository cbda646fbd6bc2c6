// SPDX-License-Identifier: GPL-3.0-or-later
/* Pasting: parts of another drawing, or of this one, put in together so that they keep their order and nothing lies hidden under its twin. */
#include "edit-private.h"

/* Two places written to the grid and read back are this far apart at most when they are the same: a step, and the rounding of a double. */
#define SAME_PLACE_M (1.5 * EDIT_GRID_M)

static void
unref_part (gpointer part)
{
  part_unref (part);
}

/* ---- twins ---- */

static Box
box_of (const Part *part)
{
  return box_is_empty (part->bounds) ? box_with_point (box_empty (), part->at) : part->bounds;
}

/* Would `part`, moved by `by`, stand where one like it stands? */
static bool
has_twin (const Hole *hole, const Part *part, Vec2 by)
{
  Box box = box_of (part);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *other = hole_part (hole, i);
      Box there = box_of (other);
      if (other->kind == part->kind && fabs (box.x0 + by.x - there.x0) <= SAME_PLACE_M
          && fabs (box.y0 + by.y - there.y0) <= SAME_PLACE_M && fabs (box.x1 + by.x - there.x1) <= SAME_PLACE_M
          && fabs (box.y1 + by.y - there.y1) <= SAME_PLACE_M)
        return true;
    }
  return false;
}

/* The first of 0, 1, 2... steps after which nothing has a twin. Each step that does not end it stands on a part of its own, so it ends. */
static Vec2
way_clear (const Hole *hole, const Part *const *parts, size_t n_parts, Vec2 step)
{
  Vec2 by = vec2 (0, 0);
  bool is_step = vec2_length (step) > SAME_PLACE_M;
  for (size_t i = 0; is_step && i < n_parts; i++)
    if (has_twin (hole, parts[i], by))
      {
        by = vec2_add (by, step);
        i = (size_t)-1;
      }
  return by;
}

/* ---- what tells parts apart ---- */

static bool
has_today (const GPtrArray *parts)
{
  for (guint i = 0; i < parts->len; i++)
    if (((const Part *)parts->pdata[i])->today)
      return true;
  return false;
}

/* The part as it stands among the others: moved, under a name of its own. NULL when it is not worth having. */
static const Part *
fit_in (const Part *model, Vec2 by, const GPtrArray *others, GError **error)
{
  Part *copy = part_copy (model);
  copy->node = copy->line = 0;
  copy->today = copy->today && !has_today (others);
  char *name = other_name (copy, (const Part *const *)others->pdata, others->len);
  if (name)
    {
      g_free (copy->name);
      copy->name = name;
    }
  const Part *moved = transform_part (copy, affine_translation (by.x, by.y), error);
  part_unref (copy);
  return moved;
}

/* ---- all together ---- */

static size_t
place_among (const GPtrArray *parts, Kind kind)
{
  size_t place = parts->len;
  while (place > 0 && kind_info (((const Part *)parts->pdata[place - 1])->kind)->level > kind_info (kind)->level)
    place--;
  return place;
}

Hole *
edit_paste (const Hole *hole, const Part *const *parts, size_t n_parts, Vec2 step, size_t **pasted, size_t *n_pasted,
            GError **error)
{
  Vec2 by = way_clear (hole, parts, n_parts, step);
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (unref_part);
  g_autoptr (GError) reason = NULL;
  g_autofree size_t *places = g_new (size_t, n_parts + 1);
  size_t n = 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    g_ptr_array_add (all, (gpointer)part_ref (hole_part (hole, i)));
  for (size_t k = 0; k < n_parts; k++)
    {
      const Part *part = parts[k]->kind == KIND_PLAN ? NULL : fit_in (parts[k], by, all, reason ? NULL : &reason);
      if (!part)
        continue;
      size_t place = place_among (all, part->kind);
      places[n] = n > 0 && place <= places[n - 1] ? places[n - 1] + 1 : place;
      g_ptr_array_insert (all, (int)places[n], (gpointer)part);
      n++;
    }
  if (n == 0)
    {
      if (!reason)
        return refuse (error, EDIT_ERROR_EMPTY, "there is nothing to put in; a plan stays with its hole");
      g_propagate_error (error, g_steal_pointer (&reason));
      return NULL;
    }
  g_ptr_array_set_free_func (all, NULL);
  Hole *made = hole_with_parts (hole, (const Part *const *)all->pdata, all->len);
  if (pasted)
    *pasted = g_steal_pointer (&places);
  if (n_pasted)
    *n_pasted = n;
  return made;
}
