// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * names - the words on the drawing itself: notes, marks, heights, tee names; each placed clear of the others, small and quiet.
 */
#include "painter-private.h"
#include "render-labels.h"

#include <string.h>

/* Design units of 1/96 inch. */
#define NAME_SIZE 10.5
#define NAME_HALO 2.0
#define NAME_GAP 7.0
#define NAME_LEADING 1.3
/* Names of tees and marks are left out where a design unit is more than this many metres: they would crowd. */
#define NAMES_BELOW_M_PER_UNIT 0.9
/* From a slope's arrow to its words. */
#define SLOPE_GAP 3.0
/* Decimals of heights and slopes: nobody reads more off the ground. */
#define HEIGHT_DECIMALS 1

void
name_clear (Name *name)
{
  g_free (name->text);
  g_strfreev (name->lines);
}

static void
clear_name (gpointer name)
{
  name_clear (name);
}

static TextStyle
name_style (const Painter *painter)
{
  return (TextStyle){ NAME_SIZE * painter->unit_px, TEXT_MEDIUM };
}

/* What stands beside a height or a slope; NULL for nothing. */
static char *
height_words (const Painter *painter, const Part *part)
{
  char number[UNITS_TEXT_SIZE];
  bool is_slope = part->kind == KIND_SLOPE;
  double value = is_slope ? fabs (part->percent) : unit_height_from_metres (painter->view->units, part->height_m);
  if (!isfinite (value) || !shows_height (painter, part))
    return NULL;
  units_print_decimals (value, HEIGHT_DECIMALS, number, sizeof number);
  return is_slope ? g_strdup_printf ("%s %%", number) : g_strdup (number);
}

/* What stands beside a part; NULL for nothing. Free with g_free. */
static char *
words_of (const Painter *painter, const Part *part)
{
  bool is_close = painter->unit_px / painter->view->px_per_m <= NAMES_BELOW_M_PER_UNIT;
  bool has_names = !(painter->omit & HOLE_WITHOUT_NAMES);
  switch (part->kind)
    {
    case KIND_NOTE:
      return has_names ? g_strdup (part->text) : NULL;
    case KIND_MARK:
    case KIND_TEE_MARKER:
      return has_names && is_close ? g_strdup (part->name) : NULL;
    case KIND_SPOT_HEIGHT:
    case KIND_SLOPE:
      return height_words (painter, part);
    default:
      return NULL;
    }
}

/* From the middle of a slope's arrow to its words: square to it, below it where there is a below. */
static Vec2
beside_slope (const Painter *painter, const Part *part, const Label *label)
{
  Vec2 from = affine_apply (painter->to_drawing, part->path.segs[0].to);
  Vec2 to = affine_apply (painter->to_drawing, path_current (&part->path));
  Vec2 away = vec2_left (vec2_unit (vec2_sub (to, from)));
  if (away.y < 0)
    away = vec2_scale (away, -1);
  double gap = SLOPE_GAP * painter->unit_px;
  return vec2 (away.x * (gap + label->width_px / 2), away.y * (gap + label->height_px / 2));
}

bool
name_make (Painter *painter, const Part *part, Name *name)
{
  char *words = words_of (painter, part);
  Vec2 at = affine_apply (painter->to_drawing, part->kind == KIND_SLOPE ? height_place (part) : part->at);
  *name = (Name){ .text = words, .label = { .anchor_px = at } };

  if (!words || !*words || !box_contains (painter->visible_px, at))
    {
      g_free (words);
      return false;
    }
  name->lines = g_strsplit (words, "\n", -1);
  guint n_lines = g_strv_length (name->lines);
  for (guint i = 0; i < n_lines; i++)
    name->label.width_px = fmax (name->label.width_px, text_width (painter->text, name->lines[i], name_style (painter)));
  name->label.height_px = n_lines * NAME_LEADING * NAME_SIZE * painter->unit_px;
  if (part->kind == KIND_SLOPE)
    name->label.preferred_px = beside_slope (painter, part, &name->label);
  else if (part->kind != KIND_NOTE)
    name->label.preferred_px = vec2 (0, NAME_GAP * painter->unit_px + name->label.height_px / 2);
  return true;
}

size_t
flag_on_drawing (const Hole *hole, const RenderView *view, Box *flag)
{
  int part = hole_hole_location (hole, NULL);
  if (part < 0)
    return 0;
  *flag = flag_bounds (view_point (view, hole_part (hole, (size_t)part)->at), view->unit_px);
  return 1;
}

void
draw_name (Painter *painter, const Name *name)
{
  double leading = NAME_LEADING * NAME_SIZE * painter->unit_px;
  double x = (name->label.box_px.x0 + name->label.box_px.x1) / 2;
  TextStyle style = name_style (painter);

  for (int is_ink = 0; is_ink < 2; is_ink++)
    for (guint i = 0; name->lines[i]; i++)
      {
        double middle = name->label.box_px.y0 + (i + 0.5) * leading;
        palette_use (painter->cr, is_ink ? PALETTE_INK : PALETTE_PAPER, is_ink ? 1 : 0.85, painter->ink);
        if (is_ink)
          text_draw_middle (painter->text, name->lines[i], style, x, middle, TEXT_CENTRE);
        else
          text_halo_middle (painter->text, name->lines[i], style, x, middle, TEXT_CENTRE, NAME_HALO * painter->unit_px);
      }
}

/* All names, heights and notes, each with its place. */
static GArray *
place_names (Painter *painter)
{
  GArray *names = g_array_new (FALSE, TRUE, sizeof (Name));
  Box drawing = { 0, 0, painter->view->width_px, painter->view->height_px }, flag;
  size_t n_flags = flag_on_drawing (painter->hole, painter->view, &flag);

  g_array_set_clear_func (names, clear_name);
  for (size_t i = 0; i < hole_n_parts (painter->hole); i++)
    {
      Name name;
      if (name_make (painter, hole_part (painter->hole, i), &name))
        g_array_append_val (names, name);
    }
  g_autofree Label *labels = g_new0 (Label, names->len + 1);
  for (guint i = 0; i < names->len; i++)
    labels[i] = g_array_index (names, Name, i).label;
  place_labels (labels, names->len, &flag, n_flags, drawing);
  for (guint i = 0; i < names->len; i++)
    g_array_index (names, Name, i).label = labels[i];
  return names;
}

void
paint_names (Painter *painter)
{
  GArray *names = place_names (painter);
  for (guint i = 0; i < names->len; i++)
    if (g_array_index (names, Name, i).label.is_placed)
      draw_name (painter, &g_array_index (names, Name, i));
  g_array_unref (names);
}

void
render_hole_words (const Hole *hole, const RenderView *view, GArray *boxes)
{
  Painter painter = { .hole = hole, .view = view, .unit_px = view->unit_px, .to_drawing = view_to_drawing (view) };
  Box flag;
  if (!affine_is_finite (painter.to_drawing) || !(view->width_px > 0) || !(view->height_px > 0))
    return;
  painter.visible_px = box_grown ((Box){ 0, 0, view->width_px, view->height_px }, STROKE_ROOM * view->unit_px);
  painter.text = text_pen_new (NULL);
  GArray *names = place_names (&painter);
  for (guint i = 0; i < names->len; i++)
    if (g_array_index (names, Name, i).label.is_placed)
      g_array_append_val (boxes, g_array_index (names, Name, i).label.box_px);
  g_array_unref (names);
  text_pen_free (painter.text);
  if (flag_on_drawing (hole, view, &flag) > 0)
    g_array_append_val (boxes, flag);
}
