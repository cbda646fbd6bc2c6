// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-shot - the shot in hand as one strong line with a handle at its aim, the plan's other shots thin and dashed.
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define SHOT_WIDTH 2.4
#define OTHER_WIDTH 1.2
#define CASING 1.2
#define BALL_RADIUS 5.0
#define OTHER_BALL_RADIUS 3.2
#define AIM_RADIUS 9.0
#define AIM_HAIR_IN 4.0
#define AIM_HAIR_OUT 15.0
#define LANDING_RADIUS 3.4
#define REST_RADIUS 2.6
/* A flight's track as so many straight pieces. */
#define FLIGHT_PIECES 24
/* The landing point is marked apart from the aim when they are farther apart than this. */
#define APART 6.0
/* Labels stay this far from the ball and from the aim's handle. */
#define BALL_CLEAR 8.0
#define AIM_CLEAR 16.0

static void
disc (OverlaySheet *sheet, Vec2 at, double radius)
{
  cairo_new_sub_path (sheet->cr);
  cairo_arc (sheet->cr, at.x, at.y, radius * sheet->unit_px, 0, 2 * PI);
  cairo_close_path (sheet->cr);
}

static void
line (OverlaySheet *sheet, Vec2 from, Vec2 to)
{
  cairo_move_to (sheet->cr, from.x, from.y);
  cairo_line_to (sheet->cr, to.x, to.y);
}

static void
draw_ball (OverlaySheet *sheet, Vec2 at, double radius)
{
  disc (sheet, at, radius);
  sheet_will_ink (sheet, 1.6);
  palette_use (sheet->cr, PALETTE_WHITE, 1, sheet->ink);
  cairo_fill_preserve (sheet->cr);
  palette_use (sheet->cr, PALETTE_INK, 1, sheet->ink);
  cairo_set_line_width (sheet->cr, 1.6 * sheet->unit_px);
  cairo_stroke (sheet->cr);
}

/* A ring to take hold of, with cross hairs. */
static void
draw_aim (OverlaySheet *sheet, Vec2 at)
{
  double in = AIM_HAIR_IN * sheet->unit_px, out = AIM_HAIR_OUT * sheet->unit_px;

  disc (sheet, at, AIM_RADIUS);
  palette_use (sheet->cr, PALETTE_PAPER, 0.55, sheet->ink);
  cairo_fill (sheet->cr);
  for (int quarter = 0; quarter < 4; quarter++)
    {
      Vec2 u = vec2 ((quarter == 0) - (quarter == 2), (quarter == 1) - (quarter == 3));
      line (sheet, vec2_add (at, vec2_scale (u, in)), vec2_add (at, vec2_scale (u, out)));
    }
  disc (sheet, at, AIM_RADIUS);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, 2.2, 0.9);
}

/* Where the ball flew, as seen from above: straight, or bent by wind and spin. */
static void
trace_flight (OverlaySheet *sheet, const ShotResult *shot)
{
  double end_s = flight_landing (&shot->flight).t_s;
  for (int i = 0; i <= FLIGHT_PIECES; i++)
    {
      Vec2 at = i == FLIGHT_PIECES ? shot->landing : flight_at (&shot->flight, end_s * i / FLIGHT_PIECES).at;
      Vec2 px = view_point (sheet->view, at);
      if (i == 0)
        cairo_move_to (sheet->cr, px.x, px.y);
      else
        cairo_line_to (sheet->cr, px.x, px.y);
    }
}

/* How it bounced and rolled on, and where it lies. */
static void
draw_run (OverlaySheet *sheet, const ShotResult *shot)
{
  Vec2 landing = view_point (sheet->view, shot->landing), rest = view_point (sheet->view, shot->rest);
  double dash[2] = { 2 * sheet->unit_px, 3 * sheet->unit_px };
  if (vec2_distance (landing, rest) < APART * sheet->unit_px)
    return;
  cairo_set_dash (sheet->cr, dash, 2, 0);
  cairo_move_to (sheet->cr, landing.x, landing.y);
  for (size_t i = 1; i < shot->run.n_path; i++)
    {
      Vec2 px = view_point (sheet->view, shot->run.path[i]);
      cairo_line_to (sheet->cr, px.x, px.y);
    }
  sheet_stroke_cased (sheet, PALETTE_ACCENT, OTHER_WIDTH, CASING);
  cairo_set_dash (sheet->cr, NULL, 0, 0);
  draw_ball (sheet, rest, REST_RADIUS);
}

static void
draw_other (OverlaySheet *sheet, const ShotResult *shot)
{
  Vec2 ball = view_point (sheet->view, shot->ball), landing = view_point (sheet->view, shot->landing);
  double dash[2] = { 3 * sheet->unit_px, 4 * sheet->unit_px };

  cairo_set_dash (sheet->cr, dash, 2, 0);
  trace_flight (sheet, shot);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, OTHER_WIDTH, 0);
  cairo_set_dash (sheet->cr, NULL, 0, 0);
  draw_ball (sheet, ball, OTHER_BALL_RADIUS);
  disc (sheet, landing, LANDING_RADIUS - 1);
  sheet_will_ink (sheet, 0);
  palette_use (sheet->cr, PALETTE_ACCENT, 1, sheet->ink);
  cairo_fill (sheet->cr);
}

/* The line flown is strong; where the aim lies beyond it, dots lead on to the handle. */
static void
draw_current (OverlaySheet *sheet)
{
  const ShotResult *shot = sheet->shot;
  Vec2 ball = view_point (sheet->view, shot->ball), aim = view_point (sheet->view, shot->aim);
  Vec2 landing = view_point (sheet->view, shot->landing);
  double dots[2] = { 0.1 * sheet->unit_px, 5 * sheet->unit_px };

  trace_flight (sheet, shot);
  sheet_stroke_long (sheet, PALETTE_ACCENT, SHOT_WIDTH, CASING);
  draw_run (sheet, shot);
  if (vec2_distance (landing, aim) > APART * sheet->unit_px)
    {
      cairo_set_dash (sheet->cr, dots, 2, 0);
      cairo_set_line_cap (sheet->cr, CAIRO_LINE_CAP_ROUND);
      line (sheet, landing, aim);
      sheet_stroke_cased (sheet, PALETTE_ACCENT, SHOT_WIDTH, 0);
      cairo_set_line_cap (sheet->cr, CAIRO_LINE_CAP_BUTT);
      cairo_set_dash (sheet->cr, NULL, 0, 0);
      disc (sheet, landing, LANDING_RADIUS);
      sheet_will_ink (sheet, 1);
      palette_use (sheet->cr, PALETTE_ACCENT, 1, sheet->ink);
      cairo_fill_preserve (sheet->cr);
      palette_use (sheet->cr, PALETTE_PAPER, 1, sheet->ink);
      cairo_set_line_width (sheet->cr, sheet->unit_px);
      cairo_stroke (sheet->cr);
    }
  draw_aim (sheet, aim);
  draw_ball (sheet, ball, BALL_RADIUS);
}

void
overlay_shot (OverlaySheet *sheet)
{
  for (size_t i = 0; i < sheet->scene->n_shots; i++)
    if (i != sheet->scene->current)
      draw_other (sheet, &sheet->scene->shots[i]);
  draw_current (sheet);
  sheet_avoid (sheet, view_point (sheet->view, sheet->shot->ball), BALL_CLEAR * sheet->unit_px);
  sheet_avoid (sheet, view_point (sheet->view, sheet->shot->aim), AIM_CLEAR * sheet->unit_px);
}
