// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * hatch - the table of hatches: the size of a tile and the marks in it, in design units of 1/96 inch.
 *
 * Marks may reach over the edge of their tile: the tile is drawn with its neighbours, so repeating it shows no seam.
 */
#include "hatch-private.h"

typedef struct
{
  double width, height; /* of the tile */
  double line_width;    /* 0: marks are filled */
  void (*trace) (cairo_t *cr);
} HatchRow;

static void
trace_upright (cairo_t *cr)
{
  cairo_move_to (cr, 2.5, 6.5);
  cairo_rel_line_to (cr, 0, -4);
  cairo_move_to (cr, 5, 6.5);
  cairo_rel_line_to (cr, 0.8, -3.2);
  cairo_move_to (cr, 10, 12.5);
  cairo_rel_line_to (cr, 0, -4);
  cairo_move_to (cr, 12.5, 12.5);
  cairo_rel_line_to (cr, 0.8, -3.2);
}

static void
trace_dot (cairo_t *cr, double x, double y, double radius)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, radius, 0, 2 * PI);
  cairo_close_path (cr);
}

static void
trace_stipple (cairo_t *cr)
{
  trace_dot (cr, 1.6, 1.6, 0.8);
  trace_dot (cr, 5.1, 5.1, 0.8);
}

static void
trace_sparse_stipple (cairo_t *cr)
{
  trace_dot (cr, 3, 3, 0.8);
  trace_dot (cr, 9.5, 9.5, 0.8);
}

static void
trace_wave (cairo_t *cr, double x, double y)
{
  cairo_move_to (cr, x, y);
  cairo_rel_curve_to (cr, 2.2, -2.4, 4.4, -2.4, 6.6, 0);
  cairo_rel_curve_to (cr, 2.2, 2.4, 4.4, 2.4, 6.6, 0);
}

static void
trace_waves (cairo_t *cr)
{
  trace_wave (cr, 1.4, 3.5);
  trace_wave (cr, 9.4, 10.5);
}

static void
trace_rising_diagonal (cairo_t *cr, double side)
{
  cairo_move_to (cr, 0, side);
  cairo_line_to (cr, side, 0);
}

static void
trace_wide_diagonal (cairo_t *cr)
{
  trace_rising_diagonal (cr, 12);
}

static void
trace_close_diagonal (cairo_t *cr)
{
  trace_rising_diagonal (cr, 6);
}

static void
trace_cross (cairo_t *cr)
{
  trace_rising_diagonal (cr, 7);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, 7, 7);
}

static void
trace_arc (cairo_t *cr, double x, double y)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, x, y, 3, PI, 2 * PI);
}

static void
trace_arcs (cairo_t *cr)
{
  trace_arc (cr, 5, 6);
  trace_arc (cr, 13.5, 13);
}

static const HatchRow hatches[N_HATCHES] = {
  [HATCH_UPRIGHT] = { 15, 12, 0.9, trace_upright },
  [HATCH_STIPPLE] = { 7, 7, 0, trace_stipple },
  [HATCH_SPARSE_STIPPLE] = { 13, 13, 0, trace_sparse_stipple },
  [HATCH_WAVES] = { 16, 14, 0.9, trace_waves },
  [HATCH_WIDE_DIAGONAL] = { 12, 12, 0.9, trace_wide_diagonal },
  [HATCH_CLOSE_DIAGONAL] = { 6, 6, 0.8, trace_close_diagonal },
  [HATCH_ARCS] = { 17, 14, 0.95, trace_arcs },
  [HATCH_CROSS] = { 7, 7, 0.8, trace_cross },
};

void
hatch_pen_init (HatchPen *pen, cairo_t *cr, PaintInk ink, double unit_px, Vec2 anchor_px)
{
  cairo_surface_t *target = cairo_get_group_target (cr);
  cairo_surface_type_t type = cairo_surface_get_type (target);
  cairo_matrix_t m;
  double device_x, device_y, offset_x, offset_y;

  cairo_get_matrix (cr, &m);
  cairo_surface_get_device_scale (target, &device_x, &device_y);
  cairo_surface_get_device_offset (target, &offset_x, &offset_y);
  *pen = (HatchPen){ .cr = cr, .ink = ink, .unit_px = unit_px, .anchor_px = anchor_px };
  pen->scale = m.xx * device_x;
  pen->origin_x = m.x0 * device_x + offset_x;
  pen->origin_y = m.y0 * device_y + offset_y;
  pen->is_raster = type != CAIRO_SURFACE_TYPE_PDF && type != CAIRO_SURFACE_TYPE_PS && type != CAIRO_SURFACE_TYPE_SVG
                   && type != CAIRO_SURFACE_TYPE_RECORDING && type != CAIRO_SURFACE_TYPE_SCRIPT && m.xy == 0 && m.yx == 0
                   && m.xx > 0 && m.xx == m.yy && device_x == device_y;
}

void
hatch_pen_clear (HatchPen *pen)
{
  for (int i = 0; i < N_HATCHES; i++)
    if (pen->tiles[i])
      cairo_pattern_destroy (pen->tiles[i]);
  *pen = (HatchPen){ 0 };
}

/* Strokes or fills the marks traced so far; `scale` is user units per design unit. */
static void
ink_marks (cairo_t *cr, const HatchRow *row, double scale)
{
  if (row->line_width > 0)
    {
      cairo_set_line_width (cr, row->line_width * scale);
      cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
      cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
      cairo_set_dash (cr, NULL, 0, 0);
      cairo_stroke (cr);
      return;
    }
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_WINDING);
  cairo_fill (cr);
}

/* A tile of whole device pixels, so that repeating it needs no resampling. */
static cairo_pattern_t *
new_tile (const HatchPen *pen, const HatchRow *row, unsigned rgb)
{
  double scale = pen->unit_px * pen->scale;
  int width = (int)fmax (round (row->width * scale), 2), height = (int)fmax (round (row->height * scale), 2);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (surface);

  for (int i = -1; i <= 1; i++)
    for (int j = -1; j <= 1; j++)
      {
        cairo_identity_matrix (cr);
        cairo_translate (cr, i * width, j * height);
        cairo_scale (cr, width / row->width, height / row->height);
        row->trace (cr);
      }
  cairo_identity_matrix (cr);
  palette_use (cr, rgb, 1, pen->ink);
  ink_marks (cr, row, sqrt (width / row->width * height / row->height));
  cairo_destroy (cr);

  cairo_pattern_t *tile = cairo_pattern_create_for_surface (surface);
  cairo_surface_destroy (surface);
  cairo_pattern_set_extend (tile, CAIRO_EXTEND_REPEAT);
  cairo_pattern_set_filter (tile, CAIRO_FILTER_NEAREST);
  /* User units to tile pixels, the anchor on a whole device pixel. */
  double x = round (pen->anchor_px.x * pen->scale + pen->origin_x) - pen->origin_x;
  double y = round (pen->anchor_px.y * pen->scale + pen->origin_y) - pen->origin_y;
  cairo_matrix_t matrix;
  cairo_matrix_init (&matrix, pen->scale, 0, 0, pen->scale, -fmod (x, width), -fmod (y, height));
  cairo_pattern_set_matrix (tile, &matrix);
  return tile;
}

/* Marks of every tile that touches the clip, as one path. */
static void
draw_marks (HatchPen *pen, const HatchRow *row, unsigned rgb)
{
  cairo_t *cr = pen->cr;
  double x0, y0, x1, y1, unit = pen->unit_px;

  cairo_save (cr);
  cairo_clip (cr);
  cairo_clip_extents (cr, &x0, &y0, &x1, &y1);
  double width = row->width * unit, height = row->height * unit;
  double left = pen->anchor_px.x + floor ((x0 - pen->anchor_px.x) / width - 1) * width;
  double top = pen->anchor_px.y + floor ((y0 - pen->anchor_px.y) / height - 1) * height;
  int n_across = (int)ceil ((x1 - left) / width) + 1, n_down = (int)ceil ((y1 - top) / height) + 1;
  bool is_visible = x1 > x0 && y1 > y0;

  for (int i = 0; is_visible && i < n_across; i++)
    for (int j = 0; j < n_down; j++)
      {
        cairo_save (cr);
        cairo_translate (cr, left + i * width, top + j * height);
        cairo_scale (cr, unit, unit);
        row->trace (cr);
        cairo_restore (cr);
      }
  palette_use (cr, rgb, 1, pen->ink);
  ink_marks (cr, row, unit);
  cairo_restore (cr);
  cairo_new_path (cr);
}

void
hatch_fill (HatchPen *pen, Hatch hatch, unsigned rgb)
{
  const HatchRow *row = &hatches[hatch];

  if (!row->trace)
    cairo_new_path (pen->cr);
  else if (!pen->is_raster)
    draw_marks (pen, row, rgb);
  else
    {
      if (pen->tiles[hatch] && pen->tile_inks[hatch] != rgb)
        g_clear_pointer (&pen->tiles[hatch], cairo_pattern_destroy);
      if (!pen->tiles[hatch])
        pen->tiles[hatch] = new_tile (pen, row, rgb);
      pen->tile_inks[hatch] = rgb;
      cairo_set_source (pen->cr, pen->tiles[hatch]);
      cairo_fill (pen->cr);
    }
}
