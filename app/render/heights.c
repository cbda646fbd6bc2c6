// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * heights - of the heights and slopes on a small drawing those that can be read. A mark without its figure says nothing, and a figure that touches another one is misread: whatever finds
 * no room for both is left out, what is nearer to the hole staying.
 */
#include "heights-private.h"

#include <stdlib.h>

/* So many heights of its figure a figure stands off its mark at most, beyond the usual gap: farther off it could be another's. A slope's may stand farther rather than be left out. */
#define MOST_HEIGHTS 0.5
#define MOST_SLOPE_HEIGHTS 1.0
/* Design units of 1/96 inch that figures and marks keep apart, so that halos do not eat into what is beside them. */
#define APART 1.5

typedef struct
{
  size_t part;
  bool is_slope;
  double distance_m;
} Candidate;

static int
compare_candidates (const void *a, const void *b)
{
  const Candidate *p = a, *q = b;
  if (p->is_slope != q->is_slope)
    return p->is_slope ? -1 : 1;
  if (p->distance_m != q->distance_m)
    return p->distance_m < q->distance_m ? -1 : 1;
  return (p->part > q->part) - (p->part < q->part);
}

static GArray *
list_candidates (const Painter *painter, Vec2 middle)
{
  GArray *candidates = g_array_new (FALSE, FALSE, sizeof (Candidate));
  for (size_t i = 0; i < hole_n_parts (painter->hole); i++)
    {
      const Part *part = hole_part (painter->hole, i);
      Candidate candidate = { i, part->kind == KIND_SLOPE, 0 };
      if (!shows_height (painter, part))
        continue;
      candidate.distance_m = vec2_distance (height_place (part), middle);
      g_array_append_val (candidates, candidate);
    }
  g_array_sort (candidates, compare_candidates);
  return candidates;
}

/* What is on the drawing already. */
static GArray *
list_taken (const Painter *painter)
{
  GArray *taken = g_array_new (FALSE, FALSE, sizeof (Box));
  Box flag;
  if (flag_on_drawing (painter->hole, painter->view, &flag) > 0)
    g_array_append_val (taken, flag);
  for (size_t i = 0; i < hole_n_parts (painter->hole); i++)
    {
      const Part *part = hole_part (painter->hole, i);
      Box box = box_grown (other_hole_bounds (affine_apply (painter->to_drawing, part->at), painter->unit_px),
                           APART * painter->unit_px);
      if (part->kind == KIND_HOLE_LOCATION)
        g_array_append_val (taken, box);
    }
  return taken;
}

static bool
is_within (Box box, Box drawing)
{
  return box.x0 >= drawing.x0 && box.y0 >= drawing.y0 && box.x1 <= drawing.x1 && box.y1 <= drawing.y1;
}

/* Is there room for the mark? An arrow may cross what is there already, as long as its figure finds room. */
static bool
has_room (const Painter *painter, const GArray *taken, const Candidate *candidate, const Box *marks, size_t n_marks)
{
  const Box drawing = { 0, 0, painter->view->width_px, painter->view->height_px };
  for (size_t k = 0; k < n_marks; k++)
    {
      if (!is_within (marks[k], drawing))
        return false;
      for (guint i = 0; i < taken->len && !candidate->is_slope; i++)
        if (box_overlaps (marks[k], g_array_index (taken, Box, i)))
          return false;
    }
  return true;
}

static void
take_boxes (GArray *taken, const Box *boxes, size_t n, double apart)
{
  for (size_t k = 0; k < n; k++)
    {
      Box box = box_grown (boxes[k], apart);
      g_array_append_val (taken, box);
    }
}

/* Its figure's place, clear of all that is taken and of its own mark. */
static bool
place_figure (Painter *painter, const Candidate *candidate, GArray *taken, const Box *marks, size_t n_marks, Name *name)
{
  const Box drawing = { 0, 0, painter->view->width_px, painter->view->height_px };
  guint n_before = taken->len;
  if (!name_make (painter, hole_part (painter->hole, candidate->part), name))
    return false;
  name->label.most_heights = MOST_HEIGHTS;
  take_boxes (taken, marks, n_marks, 0);
  place_labels (&name->label, 1, (const Box *)(void *)taken->data, taken->len, drawing);
  if (!name->label.is_placed && candidate->is_slope)
    {
      name->label.most_heights = MOST_SLOPE_HEIGHTS;
      place_labels (&name->label, 1, (const Box *)(void *)taken->data, taken->len, drawing);
    }
  g_array_set_size (taken, n_before);
  if (name->label.is_placed)
    return true;
  name_clear (name);
  return false;
}

static void
clear_shown (gpointer shown)
{
  name_clear (&((HeightShown *)shown)->name);
}

GArray *
heights_choose (Painter *painter, Vec2 middle)
{
  g_autoptr (GArray) candidates = list_candidates (painter, middle), taken = list_taken (painter);
  GArray *chosen = g_array_new (FALSE, FALSE, sizeof (HeightShown));
  double apart = APART * painter->unit_px;
  g_array_set_clear_func (chosen, clear_shown);
  for (guint i = 0; i < candidates->len; i++)
    {
      const Candidate *candidate = &g_array_index (candidates, Candidate, i);
      HeightShown shown = { .part = candidate->part };
      Box marks[HEIGHT_BOXES];
      size_t n_marks = height_boxes (painter, hole_part (painter->hole, candidate->part), marks);
      if (!has_room (painter, taken, candidate, marks, n_marks)
          || !place_figure (painter, candidate, taken, marks, n_marks, &shown.name))
        continue;
      take_boxes (taken, marks, n_marks, apart);
      take_boxes (taken, &shown.name.label.box_px, 1, apart);
      g_array_append_val (chosen, shown);
    }
  return chosen;
}

void
render_few_heights (cairo_t *cr, const Hole *hole, const RenderView *view, Vec2 middle, PaintInk ink)
{
  Painter painter = { .cr = cr, .hole = hole, .view = view, .unit_px = view->unit_px, .ink = ink, .shows_each_height = true };
  painter.to_drawing = view_to_drawing (view);
  if (!affine_is_finite (painter.to_drawing) || !(view->width_px > 0) || !(view->height_px > 0))
    return;
  painter.visible_px = (Box){ 0, 0, view->width_px, view->height_px };
  painter.text = text_pen_new (cr);
  g_autoptr (GArray) chosen = heights_choose (&painter, middle);
  for (guint i = 0; i < chosen->len; i++)
    paint_symbol (&painter, g_array_index (chosen, HeightShown, i).part);
  /* Flags stand in front of the arrows that they cross. */
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->kind == KIND_HOLE_LOCATION)
      paint_symbol (&painter, i);
  for (guint i = 0; i < chosen->len; i++)
    draw_name (&painter, &g_array_index (chosen, HeightShown, i).name);
  text_pen_free (painter.text);
}
