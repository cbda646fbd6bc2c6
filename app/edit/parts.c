// SPDX-License-Identifier: GPL-3.0-or-later
/* Whole parts: moved, turned, scaled, mirrored, copied, deleted, given another kind or name. */
#include "edit-private.h"

/* ---- transforming ---- */

static double
determinant (Affine t)
{
  return t.xx * t.yy - t.xy * t.yx;
}

/* What is a draw on the hole is a fade on its mirror image. */
static void
mirror_shot (Shot *shot)
{
  static const ShotShape mirrored[] = { [SHOT_STRAIGHT] = SHOT_STRAIGHT, [SHOT_DRAW] = SHOT_FADE, [SHOT_FADE] = SHOT_DRAW };
  shot->shape = mirrored[shot->shape];
  shot->curve_m = -shot->curve_m;
}

static void
transform_plan (Part *plan, Affine t)
{
  for (size_t i = 0; i < plan->n_shots; i++)
    {
      Shot *shot = &plan->shots[i];
      shot->from = grid_point (affine_apply (t, shot->from));
      shot->aim = grid_point (affine_apply (t, shot->aim));
      if (determinant (t) < 0)
        mirror_shot (shot);
    }
}

const Part *
transform_part (const Part *old, Affine t, GError **error)
{
  Part *part = part_copy (old);
  switch (kind_info (part->kind)->shape)
    {
    case SHAPE_AREA:
    case SHAPE_LINE:
      path_transform (&part->path, t);
      grid_path (&part->path);
      break;
    case SHAPE_POINT:
      if (part->kind == KIND_TREE)
        part->radius_m = fmax (grid_length (part->radius_m * sqrt (fabs (determinant (t)))), EDIT_GRID_M);
      part->at = grid_point (affine_apply (t, part->at));
      break;
    case SHAPE_TEXT:
      part->at = grid_point (affine_apply (t, part->at));
      break;
    case SHAPE_IMAGE:
      part->placement = affine_then (part->placement, t);
      break;
    case SHAPE_PLAN:
      transform_plan (part, t);
      break;
    }
  return seal_checked (part, error);
}

static const Part *
transform_one (const Part *old, void *data, GError **error)
{
  return transform_part (old, *(const Affine *)data, error);
}

Hole *
edit_transform (const Hole *hole, const size_t *parts, size_t n_parts, Affine t, GError **error)
{
  Affine inverse;
  if (!affine_invert (t, &inverse))
    return refuse (error, EDIT_ERROR_NUMBER, "nothing would be left of it; use a larger number");
  return replace_parts (hole, parts, n_parts, transform_one, &t, error);
}

/* ---- copying and deleting ---- */

/* A new part like this one, moved, with what tells it apart taken off: its place in the document, its id, being today's. */
static const Part *
copy_part (const Part *model, Vec2 by, GError **error)
{
  Part *copy = part_copy (model);
  copy->node = 0;
  copy->line = 0;
  copy->today = false;
  g_clear_pointer (&copy->id, g_free);
  for (size_t i = 0; i < copy->n_shots; i++)
    copy->shots[i].node = 0;
  const Part *moved = transform_part (copy, affine_translation (by.x, by.y), error);
  part_unref (copy);
  return moved;
}

/* Gives a copy a name of its own where parts of its kind are told apart by name. */
static const Part *
with_own_name (const Part *copy, const GPtrArray *others)
{
  char *name = next_free_name (copy->kind, (const Part *const *)others->pdata, others->len);
  if (!name)
    return copy;
  Part *named = part_copy (copy);
  part_unref (copy);
  g_free (named->name);
  named->name = name;
  return part_seal (named);
}

static void
unref_part (gpointer part)
{
  part_unref (part);
}

Hole *
edit_duplicate (const Hole *hole, const size_t *parts, size_t n_parts, Vec2 by, size_t **copies, GError **error)
{
  if (n_parts == 0)
    return refuse (error, EDIT_ERROR_EMPTY, "nothing is selected; select something first");
  if (!isfinite (by.x) || !isfinite (by.y))
    return refuse (error, EDIT_ERROR_NUMBER, "the distance is no number; type one");
  g_autoptr (GPtrArray) all = g_ptr_array_new_with_free_func (unref_part);
  g_autofree size_t *places = g_new (size_t, n_parts);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    g_ptr_array_add (all, (gpointer)part_ref (hole_part (hole, i)));
  for (size_t k = 0; k < n_parts; k++)
    {
      const Part *copy = copy_part (hole_part (hole, parts[k]), by, error);
      if (!copy)
        return NULL;
      places[k] = parts[k] + k + 1; /* k copies lie below it already */
      g_ptr_array_insert (all, (int)places[k], (gpointer)with_own_name (copy, all));
    }
  g_ptr_array_set_free_func (all, NULL);
  Hole *made = hole_with_parts (hole, (const Part *const *)all->pdata, all->len);
  if (copies)
    *copies = g_steal_pointer (&places);
  return made;
}

Hole *
edit_delete (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  if (n_parts == 0)
    return refuse (error, EDIT_ERROR_EMPTY, "nothing is selected; select something first");
  g_autofree const Part **left = g_new (const Part *, hole_n_parts (hole) + 1);
  size_t n_left = 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (!selection_holds (parts, n_parts, i))
      left[n_left++] = part_ref (hole_part (hole, i));
  return hole_with_parts (hole, left, n_left);
}

/* ---- kind ---- */

static bool
has_stakes (Kind kind)
{
  return kind == KIND_PENALTY_AREA || kind == KIND_WATER;
}

/* The part as another kind of the same shape: its geometry, name and place in the document; facts only where both kinds have them. */
static const Part *
part_as (const Part *old, void *data, GError **error)
{
  Kind kind = *(const Kind *)data;
  if (kind_info (kind)->shape != kind_info (old->kind)->shape)
    return refuse (error, EDIT_ERROR_SHAPE, "areas, lines and points cannot become one another; draw it anew");
  if (kind == old->kind)
    return part_ref (old);
  Part *part = part_new (kind);
  part->node = old->node;
  part->line = old->line;
  part->id = g_strdup (old->id);
  part->name = g_strdup (old->name);
  path_copy (&old->path, &part->path);
  part->even_odd = old->even_odd;
  part->at = old->at;
  bool is_canopy = kind == KIND_TREE || old->kind == KIND_TREE;
  part->radius_m = is_canopy ? kind_info (kind)->radius_m : old->radius_m;
  if (has_stakes (kind) && has_stakes (old->kind))
    {
      part->stakes = old->stakes;
      part->stakes_given = old->stakes_given;
    }
  return part_seal (part);
}

Hole *
edit_set_kind (const Hole *hole, const size_t *parts, size_t n_parts, Kind kind, GError **error)
{
  PartShape shape = kind_info (kind)->shape;
  if (shape == SHAPE_IMAGE || shape == SHAPE_PLAN || shape == SHAPE_TEXT)
    return refuse (error, EDIT_ERROR_SHAPE, "areas, lines and points cannot become one another; draw it anew");
  return replace_parts (hole, parts, n_parts, part_as, &kind, error);
}

/* ---- names ---- */

/* A plan that calls a tee or a hole location by its old name calls it by the new one; others stay as they are. */
static const Part *
plan_with_name (const Part *plan, const Part *renamed, const char *name)
{
  bool is_tee = renamed->kind == KIND_TEE_MARKER;
  const char *called = is_tee ? plan->tee : plan->hole_name;
  if (!called || !renamed->name || g_ascii_strcasecmp (called, renamed->name) != 0)
    return part_ref (plan);
  Part *changed = part_copy (plan);
  char **field = is_tee ? &changed->tee : &changed->hole_name;
  g_free (*field);
  *field = g_strdup (name);
  return part_seal (changed);
}

static const Part *
part_with_name (const Part *old, const char *name)
{
  Part *part = part_copy (old);
  g_free (part->name);
  part->name = g_strdup (name);
  return part_seal (part);
}

Hole *
edit_rename (const Hole *hole, size_t part, const char *name, GError **error)
{
  g_autofree char *clean = clean_text (name);
  const Part *old = hole_part (hole, part);
  if (g_strcmp0 (old->name, clean) == 0)
    return hole_ref ((Hole *)hole);
  bool is_referred = old->kind == KIND_TEE_MARKER || old->kind == KIND_HOLE_LOCATION;
  g_autofree const Part **all = g_new (const Part *, hole_n_parts (hole));
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *other = hole_part (hole, i);
      if (i == part)
        all[i] = part_with_name (other, clean);
      else if (is_referred && other->kind == KIND_PLAN)
        all[i] = plan_with_name (other, old, clean);
      else
        all[i] = part_ref (other);
    }
  return hole_with_parts (hole, all, hole_n_parts (hole));
}

Hole *
edit_set_text (const Hole *hole, size_t part, const char *text, GError **error)
{
  const Part *old = hole_part (hole, part);
  if (old->kind != KIND_NOTE)
    return refuse (error, EDIT_ERROR_SHAPE, "only a note has words; give this a name instead");
  g_autofree char *clean = clean_text (text);
  if (!clean)
    return refuse (error, EDIT_ERROR_EMPTY, "a note needs words; type them, or delete the note");
  Part *changed = part_copy (old);
  g_free (changed->text);
  changed->text = g_steal_pointer (&clean);
  return replace_part (hole, part, part_seal (changed));
}
