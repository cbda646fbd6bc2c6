// SPDX-License-Identifier: GPL-3.0-or-later
/* What every edit is made of: coordinates on the grid, refusing in a sentence, and changing many parts at once. */
#include "edit-private.h"

G_DEFINE_QUARK (holewright - edit - error - quark, edit_error)

/* Steps of the grid in a metre: whole, so that a coordinate is the double nearest to its decimals. */
#define GRID_STEPS (1 / EDIT_GRID_M)

/* From here on every double is whole, and adding it to a smaller one drops what is behind the point. */
#define WHOLE 0x1p52

/* round of libm to the bit, halves away from nothing, without a call: a drag rounds every point of all that is selected. */
static inline double
round_inline (double number)
{
  double size = fabs (number);
  if (!(size < WHOLE))
    return number;
  double whole = (size + WHOLE) - WHOLE; /* halves to the even neighbour */
  return copysign (size - whole == 0.5 ? whole + 1 : whole, number);
}

double
grid_length (double length_m)
{
  return round_inline (length_m * GRID_STEPS) / GRID_STEPS + 0.0; /* no -0 */
}

Vec2
grid_point (Vec2 point)
{
  return vec2 (grid_length (point.x), grid_length (point.y));
}

void
grid_path (Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      PathSeg *seg = &path->segs[i];
      seg->to = grid_point (seg->to);
      if (seg->kind == SEG_CUBIC)
        {
          seg->c1 = grid_point (seg->c1);
          seg->c2 = grid_point (seg->c2);
        }
    }
}

void *
refuse (GError **error, EditError code, const char *sentence)
{
  g_set_error_literal (error, EDIT_ERROR, (int)code, sentence);
  return NULL;
}

bool
selection_holds (const size_t *parts, size_t n_parts, size_t i)
{
  size_t low = 0, high = n_parts;
  while (low < high)
    {
      size_t middle = (low + high) / 2;
      if (parts[middle] < i)
        low = middle + 1;
      else
        high = middle;
    }
  return low < n_parts && parts[low] == i;
}

/* Every part of the hole, each with a reference more. */
static const Part **
share_parts (const Hole *hole)
{
  size_t n = hole_n_parts (hole);
  const Part **parts = g_new (const Part *, n + 1);
  for (size_t i = 0; i < n; i++)
    parts[i] = part_ref (hole_part (hole, i));
  return parts;
}

static void
drop_parts (const Part **parts, size_t n_parts)
{
  for (size_t i = 0; i < n_parts; i++)
    part_unref (parts[i]);
}

Hole *
replace_parts (const Hole *hole, const size_t *parts, size_t n_parts, PartEdit edit, void *data, GError **error)
{
  if (n_parts == 0)
    return refuse (error, EDIT_ERROR_EMPTY, "nothing is selected; select something first");
  g_autofree const Part **all = share_parts (hole);
  bool is_changed = false;
  for (size_t k = 0; k < n_parts; k++)
    {
      const Part *old = hole_part (hole, parts[k]), *made = edit (old, data, error);
      if (!made)
        {
          drop_parts (all, hole_n_parts (hole));
          return NULL;
        }
      if (part_equal (old, made))
        {
          part_unref (made);
          continue;
        }
      part_unref (old);
      all[parts[k]] = made;
      is_changed = true;
    }
  if (is_changed)
    return hole_with_parts (hole, all, hole_n_parts (hole));
  drop_parts (all, hole_n_parts (hole));
  return hole_ref ((Hole *)hole);
}

Hole *
replace_part (const Hole *hole, size_t i, const Part *made)
{
  if (!part_equal (hole_part (hole, i), made))
    return hole_with_part (hole, i, made);
  part_unref (made);
  return hole_ref ((Hole *)hole);
}

static bool
is_too_small (Box box)
{
  return box.x1 - box.x0 < SMALLEST_M && box.y1 - box.y0 < SMALLEST_M;
}

static bool
is_near_enough (Box box)
{
  return box.x0 >= -FARTHEST_M && box.y0 >= -FARTHEST_M && box.x1 <= FARTHEST_M && box.y1 <= FARTHEST_M;
}

const Part *
seal_checked (Part *part, GError **error)
{
  PartShape shape = kind_info (part->kind)->shape;
  part_seal (part);
  EditError code = EDIT_ERROR_EMPTY;
  const char *why = NULL;
  bool is_drawn = shape == SHAPE_AREA || shape == SHAPE_LINE;
  if (is_drawn && !path_is_finite (&part->path))
    code = EDIT_ERROR_NUMBER, why = "a coordinate is no number; draw it again";
  else if (is_drawn && (box_is_empty (part->bounds) || is_too_small (part->bounds)))
    why = "it would be too small to see; drag further";
  else if (shape == SHAPE_AREA && part->outline->n_rings == 0)
    why = "the outline encloses nothing; draw a loop";
  else if (!box_is_empty (part->bounds) && !is_near_enough (part->bounds))
    code = EDIT_ERROR_NUMBER, why = "it would lie more than 1000 km away; use a smaller number";
  if (!why)
    return part;
  part_unref (part);
  return refuse (error, code, why);
}
