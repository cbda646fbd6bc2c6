// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-plans - the tracks of plans that are compared: each with a colour, a dash and a name of its own, so that none needs the colour to be told from another.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define TRACK_WIDTH 2.0
#define CASING 1.4
#define REST_RADIUS 3.6
#define LABEL_GAP 9.0
#define FLIGHT_PIECES 24
#define SWATCH_ROOM 2.0
#define MOST_DASHES 4

typedef struct
{
  unsigned rgb;
  int n_dashes;
  double dashes[MOST_DASHES];
} TrackLook;

static const TrackLook looks[RENDER_MOST_TRACKS] = {
  { PALETTE_INK, 0, { 0 } },
  { PALETTE_SECOND_ACCENT, 2, { 9, 4 } },
  { 0x1d6a73, 4, { 7, 3, 2, 3 } },
};

static void
use_dashes (cairo_t *cr, const TrackLook *look, double unit_px)
{
  double dashes[MOST_DASHES];
  for (int i = 0; i < look->n_dashes; i++)
    dashes[i] = look->dashes[i] * unit_px;
  cairo_set_dash (cr, dashes, look->n_dashes, 0);
}

/* As the mean ball flies, and on to where it lies. */
static void
trace_shot (OverlaySheet *sheet, const ShotResult *shot)
{
  double end_s = flight_landing (&shot->flight).t_s;
  cairo_new_path (sheet->cr);
  for (int i = 0; i <= FLIGHT_PIECES; i++)
    {
      Vec2 at = i == FLIGHT_PIECES ? shot->landing : flight_at (&shot->flight, end_s * i / FLIGHT_PIECES).at;
      Vec2 px = view_point (sheet->view, at);
      cairo_line_to (sheet->cr, px.x, px.y);
    }
  Vec2 rest = view_point (sheet->view, shot->rest);
  cairo_line_to (sheet->cr, rest.x, rest.y);
}

static void
mark_rest (OverlaySheet *sheet, const TrackLook *look, Vec2 rest)
{
  double unit = sheet->unit_px;
  cairo_new_path (sheet->cr);
  cairo_arc (sheet->cr, rest.x, rest.y, REST_RADIUS * unit, 0, 2 * PI);
  sheet_will_ink (sheet, TRACK_WIDTH);
  palette_use (sheet->cr, PALETTE_WHITE, 1, sheet->ink);
  cairo_fill_preserve (sheet->cr);
  palette_use (sheet->cr, look->rgb, 1, sheet->ink);
  cairo_set_line_width (sheet->cr, TRACK_WIDTH * unit);
  cairo_stroke (sheet->cr);
  sheet_avoid (sheet, rest, REST_RADIUS * unit);
}

/* `i` picks the look, and the side that the name stands on. */
static void
draw_track (OverlaySheet *sheet, const PlanTrack *track, size_t i)
{
  const TrackLook *look = &looks[i];
  for (size_t k = 0; k < track->plan->n_shots; k++)
    {
      const ShotResult *shot = &track->plan->shots[k].shot;
      use_dashes (sheet->cr, look, sheet->unit_px);
      trace_shot (sheet, shot);
      sheet_stroke_cased (sheet, look->rgb, TRACK_WIDTH, CASING);
      cairo_set_dash (sheet->cr, NULL, 0, 0);
      Vec2 rest = view_point (sheet->view, shot->rest);
      mark_rest (sheet, look, rest);
      if (k > 0)
        continue;
      Vec2 along = vec2_unit (vec2_sub (rest, view_point (sheet->view, shot->ball)));
      Vec2 aside = i % 2 == 0 ? vec2 (along.y, -along.x) : vec2 (-along.y, along.x);
      sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, track->name, rest, aside, LABEL_GAP * sheet->unit_px, true);
    }
}

void
overlay_plans (OverlaySheet *sheet)
{
  for (size_t i = MIN (sheet->scene->n_tracks, RENDER_MOST_TRACKS); i-- > 0;)
    draw_track (sheet, &sheet->scene->tracks[i], i);
}

void
render_track_swatch (cairo_t *cr, size_t i, double width_px, double height_px, double unit_px)
{
  const TrackLook *look = &looks[MIN (i, RENDER_MOST_TRACKS - 1)];
  cairo_save (cr);
  use_dashes (cr, look, unit_px);
  palette_use (cr, look->rgb, 1, PAINT_COLOUR);
  cairo_set_line_width (cr, TRACK_WIDTH * unit_px);
  cairo_move_to (cr, SWATCH_ROOM * unit_px, height_px / 2);
  cairo_line_to (cr, width_px - SWATCH_ROOM * unit_px, height_px / 2);
  cairo_stroke (cr);
  cairo_restore (cr);
}
