// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay - the table of overlays, and how one picture of them is made: every row inks its lines and hands in its labels, then all labels
 * are placed together and drawn on top.
 */
#include "overlay-private.h"
#include "stamps-private.h"

#include <string.h>

/* Design units of 1/96 inch. */
#define PLATE_SIZE 12.5
#define PLATE_PAD 7.0
#define PLATE_HEIGHT 20.0
#define PLATE_CORNER 4.0
#define MARK_SIZE 11.0
#define MARK_HEIGHT 13.0
#define MARK_HALO 2.0
/* A number that no line leads to says nothing farther off than this, in its heights. */
#define MARK_MOST_HEIGHTS 0.5
/* Labels keep this far inside the drawing, and a leader is drawn when one has moved farther than this. */
#define DRAWING_MARGIN 4.0
#define LEADER_FROM 12.0
/* Anti-aliasing and the last bit of a coordinate. */
#define SOFT_EDGE 1.0
/* Coordinates beyond this would not fit cairo's fixed point; such a scene lies nowhere near the drawing. */
#define FARTHEST_PX 4e6

/* Parts of one picture. */
enum
{
  OVERLAY_STILL = 1 << 0,
  OVERLAY_LIVE = 1 << 1
};

const Overlay overlay_table[] = {
  { "strokes", N_ ("Map of strokes"), false, overlay_strokes, SCENE_NEEDS_MAP, overlay_strokes_still },
  { "plans", N_ ("Plans compared"), true, overlay_plans, 0 },
  { "aims", N_ ("Map of aims"), false, overlay_aims, 0, overlay_aims_still },
  { "pattern", N_ ("Pattern"), true, overlay_pattern, 0 },
  { "marks", N_ ("Distances"), true, overlay_marks, 0 },
  { "left", N_ ("What is left"), true, overlay_left, 0 },
  { "carries", N_ ("Carries"), true, overlay_carries, 0 },
  { "trees", N_ ("Trees"), true, overlay_trees, SCENE_NEEDS_TREES },
  { "room", N_ ("Room"), true, overlay_room, SCENE_NEEDS_ROOM },
  { "odds", N_ ("Odds"), false, overlay_odds, SCENE_NEEDS_PLACES },
  { "green", N_ ("Green"), true, overlay_green, 0 },
  { "track", N_ ("Start line"), true, overlay_track, 0 },
  { "shot", N_ ("Shots"), true, overlay_shot, 0 },
  { NULL, NULL, false, NULL, 0 },
};

unsigned
overlay_default_mask (void)
{
  unsigned mask = 0;
  for (int i = 0; overlay_table[i].name; i++)
    if (overlay_table[i].is_default)
      mask |= 1u << i;
  return mask;
}

unsigned
overlay_needs (unsigned mask)
{
  unsigned needs = 0;
  for (int i = 0; overlay_table[i].name; i++)
    if (mask & (1u << i))
      needs |= overlay_table[i].needs;
  return needs;
}

static const unsigned plate_colours[] = {
  [PLATE_PAPER] = PALETTE_PAPER, [PLATE_ACCENT] = PALETTE_ACCENT, [PLATE_INK] = PALETTE_INK, [PLATE_NONE] = PALETTE_PAPER
};

/* ---- what rows ask of the sheet ---- */

const char *
sheet_word (const OverlaySheet *sheet, const char *text)
{
  return scene_word (sheet->scene, text);
}

Vec2
sheet_along (const OverlaySheet *sheet)
{
  Vec2 from = view_point (sheet->view, sheet->shot->ball);
  return vec2_unit (vec2_sub (view_point (sheet->view, sheet->shot->landing), from));
}

Vec2
sheet_right (const OverlaySheet *sheet)
{
  Vec2 along = sheet_along (sheet);
  return vec2 (-along.y, along.x);
}

Vec2
sheet_on_line (const OverlaySheet *sheet, double distance_m)
{
  Vec2 from = view_point (sheet->view, sheet->shot->ball);
  return vec2_add (from, vec2_scale (sheet_along (sheet), distance_m * sheet->view->px_per_m));
}

/* Cuts lo..hi to where at + t * step stays within 0..most. */
static bool
cut_to (double at, double step, double least, double most, double *lo, double *hi)
{
  if (fabs (step) < 1e-12)
    return at >= least && at <= most;
  double a = (least - at) / step, b = (most - at) / step;
  *lo = fmax (*lo, fmin (a, b));
  *hi = fmin (*hi, fmax (a, b));
  return *lo < *hi;
}

bool
sheet_cut (const OverlaySheet *sheet, Vec2 at_px, Vec2 step_px, double *lo, double *hi)
{
  double margin = DRAWING_MARGIN * sheet->unit_px, from = *lo, to = *hi;
  if (!cut_to (at_px.x, step_px.x, margin, sheet->view->width_px - margin, &from, &to)
      || !cut_to (at_px.y, step_px.y, margin, sheet->view->height_px - margin, &from, &to))
    return false;
  *lo = from;
  *hi = to;
  return true;
}

bool
sheet_visible_stretch (const OverlaySheet *sheet, double *from_m, double *to_m)
{
  Vec2 step = vec2_scale (sheet_along (sheet), sheet->view->px_per_m);
  return sheet_cut (sheet, view_point (sheet->view, sheet->shot->ball), step, from_m, to_m);
}

void
sheet_avoid (OverlaySheet *sheet, Vec2 centre_px, double half_px)
{
  Box box = { centre_px.x - half_px, centre_px.y - half_px, centre_px.x + half_px, centre_px.y + half_px };
  g_array_append_val (sheet->avoid, box);
}

/* Labels of one row of the table are told apart from those of another, and things of a row from labels that are counted. */
#define KEYS_OF_ROW (1u << 20)
#define KEYS_OF_THINGS (1u << 19)
#define MOST_ROWS 32u

void
sheet_label_of (OverlaySheet *sheet, size_t thing)
{
  sheet->key = sheet->key / KEYS_OF_ROW * KEYS_OF_ROW + KEYS_OF_THINGS + (unsigned)(thing % KEYS_OF_THINGS);
}

static TextStyle
plate_style (double unit_px, Plate plate)
{
  if (plate == PLATE_NONE)
    return (TextStyle){ MARK_SIZE * unit_px, TEXT_MEDIUM };
  return (TextStyle){ PLATE_SIZE * unit_px, TEXT_SEMIBOLD };
}

void
sheet_label (OverlaySheet *sheet, LabelRank rank, Plate plate, const char *text, Vec2 anchor_px, Vec2 towards_px, double gap_px,
             bool has_leader)
{
  OverlayLabel row = { .key = sheet->key++, .plate = plate, .rank = rank, .has_leader = has_leader };
  g_strlcpy (row.text, text, sizeof row.text);
  text_end_whole (row.text);
  double unit = sheet->unit_px, width = text_width (sheet->text, row.text, plate_style (sheet->unit_px, plate));
  Vec2 u = vec2_unit (towards_px);

  row.label.anchor_px = anchor_px;
  row.label.width_px = width + (plate == PLATE_NONE ? 2 * MARK_HALO : 2 * PLATE_PAD) * unit;
  row.label.height_px = (plate == PLATE_NONE ? MARK_HEIGHT : PLATE_HEIGHT) * unit;
  row.label.most_heights = rank == RANK_MARK ? MARK_MOST_HEIGHTS : 0;
  double reach = fmin (fabs (u.x) > 1e-9 ? row.label.width_px / 2 / fabs (u.x) : INFINITY,
                       fabs (u.y) > 1e-9 ? row.label.height_px / 2 / fabs (u.y) : INFINITY);
  if (isfinite (reach))
    row.label.preferred_px = vec2_scale (u, reach + gap_px);
  g_array_append_val (sheet->labels, row);
}

void
sheet_will_ink (OverlaySheet *sheet, double width)
{
  double half = (width / 2 + SOFT_EDGE) * sheet->unit_px;
  Box box;
  cairo_path_extents (sheet->cr, &box.x0, &box.y0, &box.x1, &box.y1);
  sheet->ink_box = box_union (sheet->ink_box, box_grown (box, half));
}

void
sheet_stroke_cased (OverlaySheet *sheet, unsigned rgb, double width, double casing)
{
  cairo_t *cr = sheet->cr;
  sheet_will_ink (sheet, width + 2 * casing);
  if (casing > 0)
    {
      palette_use (cr, PALETTE_PAPER, 0.75, sheet->ink);
      cairo_set_line_width (cr, (width + 2 * casing) * sheet->unit_px);
      cairo_stroke_preserve (cr);
    }
  palette_use (cr, rgb, 1, sheet->ink);
  cairo_set_line_width (cr, width * sheet->unit_px);
  cairo_stroke (cr);
}

void
sheet_stroke_long (OverlaySheet *sheet, unsigned rgb, double width, double casing)
{
  cairo_set_antialias (sheet->cr, CAIRO_ANTIALIAS_DEFAULT);
  sheet_stroke_cased (sheet, rgb, width, casing);
  cairo_set_antialias (sheet->cr, CAIRO_ANTIALIAS_FAST);
}

/* ---- labels ---- */

static int
compare_rank (const void *a, const void *b)
{
  const OverlayLabel *p = a, *q = b;
  return (p->rank > q->rank) - (p->rank < q->rank);
}

static void
trace_plate (cairo_t *cr, Box box, double r)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, box.x1 - r, box.y0 + r, r, -PI / 2, 0);
  cairo_arc (cr, box.x1 - r, box.y1 - r, r, 0, PI / 2);
  cairo_arc (cr, box.x0 + r, box.y1 - r, r, PI / 2, PI);
  cairo_arc (cr, box.x0 + r, box.y0 + r, r, PI, 3 * PI / 2);
  cairo_close_path (cr);
}

static void
draw_leader (OverlaySheet *sheet, const Label *label)
{
  Vec2 at = label->anchor_px;
  Vec2 edge = vec2 (CLAMP (at.x, label->box_px.x0, label->box_px.x1), CLAMP (at.y, label->box_px.y0, label->box_px.y1));
  if (vec2_distance (at, edge) < LEADER_FROM * sheet->unit_px)
    return;
  cairo_move_to (sheet->cr, at.x, at.y);
  cairo_line_to (sheet->cr, edge.x, edge.y);
  sheet_stroke_cased (sheet, PALETTE_INK, 0.9, 0.9);
}

/* Its plate or halo and its words, where it fills the box. */
static void
ink_label (cairo_t *cr, TextPen *text, const OverlayLabel *row, Box box, double unit, PaintInk ink)
{
  Vec2 middle = vec2 ((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2);
  TextStyle style = plate_style (unit, row->plate);
  if (row->plate == PLATE_NONE)
    {
      palette_use (cr, PALETTE_PAPER, 0.8, ink);
      text_halo_middle (text, row->text, style, middle.x, middle.y, TEXT_CENTRE, MARK_HALO * unit);
    }
  else
    {
      bool is_dark = row->plate != PLATE_PAPER;
      trace_plate (cr, box_grown (box, -0.5 * unit), PLATE_CORNER * unit);
      palette_use (cr, plate_colours[row->plate], 1, ink);
      cairo_fill_preserve (cr);
      palette_use (cr, is_dark ? PALETTE_WHITE : PALETTE_INK, 0.35, ink);
      cairo_set_line_width (cr, unit);
      cairo_stroke (cr);
    }
  palette_use (cr, row->plate == PLATE_ACCENT || row->plate == PLATE_INK ? PALETTE_WHITE : PALETTE_INK, 1, ink);
  text_draw_middle (text, row->text, style, middle.x, middle.y, TEXT_CENTRE);
}

typedef struct
{
  const OverlaySheet *sheet;
  const OverlayLabel *row;
} StampedLabel;

static void
ink_stamp (cairo_t *cr, Box box, gconstpointer data)
{
  const StampedLabel *label = data;
  TextPen *text = text_pen_new_keeping (cr, label->sheet->words);
  ink_label (cr, text, label->row, box, label->sheet->unit_px, label->sheet->ink);
  text_pen_free (text);
}

static void
draw_label (OverlaySheet *sheet, const OverlayLabel *row)
{
  Box box = stamp_box (sheet->cr, row->label.box_px);
  StampKey key = { row->text, (unsigned)row->plate + N_PLATES * (unsigned)sheet->ink, sheet->unit_px };
  sheet->ink_box = box_union (sheet->ink_box, box_grown (box, SOFT_EDGE * sheet->unit_px));
  if (!sheet->words || !stamp_draw (sheet->words, sheet->cr, &key, box, ink_stamp, &(StampedLabel){ sheet, row }))
    ink_label (sheet->cr, sheet->text, row, box, sheet->unit_px, sheet->ink);
}

static void
draw_labels (OverlaySheet *sheet)
{
  GArray *rows = sheet->labels;
  double margin = DRAWING_MARGIN * sheet->unit_px;
  Box within = { margin, margin, sheet->view->width_px - margin, sheet->view->height_px - margin };

  g_array_sort (rows, compare_rank);
  labels_recall (sheet->kept, rows, sheet->view);
  g_autofree Label *labels = g_new0 (Label, rows->len + 1);
  for (guint i = 0; i < rows->len; i++)
    labels[i] = g_array_index (rows, OverlayLabel, i).label;
  place_labels (labels, rows->len, (const Box *)(void *)sheet->avoid->data, sheet->avoid->len, within);
  for (guint i = 0; i < rows->len; i++)
    g_array_index (rows, OverlayLabel, i).label = labels[i];
  labels_keep (sheet->kept, rows, sheet->avoid, sheet->view);
  for (guint i = 0; i < rows->len; i++)
    if (labels[i].is_placed && g_array_index (rows, OverlayLabel, i).has_leader)
      draw_leader (sheet, &labels[i]);
  for (guint i = 0; i < rows->len; i++)
    if (labels[i].is_placed)
      draw_label (sheet, &g_array_index (rows, OverlayLabel, i));
}

/* ---- one picture ---- */

static bool
is_near (const RenderView *view, Vec2 point)
{
  Vec2 p = view_point (view, point);
  return fabs (p.x) < FARTHEST_PX && fabs (p.y) < FARTHEST_PX;
}

static bool
can_draw (const PlanScene *scene, const RenderView *view)
{
  if (!scene->shots || scene->current >= scene->n_shots || !affine_is_finite (view_to_drawing (view)))
    return false;
  for (size_t i = 0; i < scene->n_shots; i++)
    {
      const ShotResult *shot = &scene->shots[i];
      if (!is_near (view, shot->ball) || !is_near (view, shot->aim) || !is_near (view, shot->landing))
        return false;
    }
  return view->width_px > 0 && view->height_px > 0;
}

/* Has the rows draw one part of every scene. */
static void
draw_rows (OverlaySheet *sheet, const PlanScene *scenes, size_t n_scenes, const Overlay *rows, unsigned mask, bool is_still)
{
  for (int i = 0; rows[i].name; i++)
    for (size_t k = 0; k < n_scenes && (mask & (1u << i)); k++)
      {
        void (*draw) (OverlaySheet *) = is_still ? rows[i].draw_still : rows[i].draw;
        if (!draw || !can_draw (&scenes[k], sheet->view))
          continue;
        sheet->scene = &scenes[k];
        sheet->shot = &scenes[k].shots[scenes[k].current];
        sheet->ink = scenes[k].ink;
        sheet->key = (unsigned)(k * MOST_ROWS + (size_t)i) * KEYS_OF_ROW;
        draw (sheet);
      }
}

static Box
render_parts (cairo_t *cr, const PlanScene *scenes, size_t n_scenes, const Overlay *rows, unsigned mask, const RenderView *view,
              const Box *avoid, size_t n_avoid, unsigned parts)
{
  OverlaySheet sheet = { .cr = cr, .view = view, .unit_px = view->unit_px, .ink_box = box_empty () };
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, view->width_px, view->height_px);
  cairo_clip (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  /* In half the time, and not told from the finest but where long lines are nearly level. */
  cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
  sheet.words = n_scenes > 0 ? scenes[0].words : NULL;
  sheet.text = text_pen_new_keeping (cr, sheet.words);
  sheet.labels = g_array_new (FALSE, FALSE, sizeof (OverlayLabel));
  sheet.avoid = g_array_new (FALSE, FALSE, sizeof (Box));
  g_array_append_vals (sheet.avoid, avoid, (guint)n_avoid);
  for (size_t i = 0; i < n_scenes; i++)
    g_array_append_vals (sheet.avoid, scenes[i].taken, (guint)scenes[i].n_taken);
  sheet.kept = parts & OVERLAY_LIVE && n_scenes > 0 ? scenes[0].labels : NULL;

  if (parts & OVERLAY_STILL)
    draw_rows (&sheet, scenes, n_scenes, rows, mask, true);
  if (parts & OVERLAY_LIVE)
    draw_rows (&sheet, scenes, n_scenes, rows, mask, false);
  draw_labels (&sheet);

  g_array_unref (sheet.avoid);
  g_array_unref (sheet.labels);
  text_pen_free (sheet.text);
  cairo_restore (cr);
  Box ink = sheet.ink_box;
  ink = (Box){ fmax (ink.x0, 0), fmax (ink.y0, 0), fmin (ink.x1, view->width_px), fmin (ink.y1, view->height_px) };
  return ink.x0 < ink.x1 && ink.y0 < ink.y1 ? ink : box_empty ();
}

Box
render_overlay_rows (cairo_t *cr, const PlanScene *scenes, size_t n_scenes, const Overlay *rows, unsigned mask,
                     const RenderView *view, const Box *avoid, size_t n_avoid)
{
  return render_parts (cr, scenes, n_scenes, rows, mask, view, avoid, n_avoid, OVERLAY_STILL | OVERLAY_LIVE);
}

Box
render_overlays (cairo_t *cr, const PlanScene *scene, const RenderView *view, unsigned mask)
{
  return render_overlay_rows (cr, scene, 1, overlay_table, mask, view, NULL, 0);
}

Box
render_still_overlays (cairo_t *cr, const PlanScene *scene, const RenderView *view, unsigned mask)
{
  return render_parts (cr, scene, 1, overlay_table, mask, view, NULL, 0, OVERLAY_STILL);
}

Box
render_live_overlays (cairo_t *cr, const PlanScene *scene, const RenderView *view, unsigned mask)
{
  return render_parts (cr, scene, 1, overlay_table, mask, view, NULL, 0, OVERLAY_LIVE);
}
