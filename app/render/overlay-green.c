// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-green - the green by itself: depth from its front every 5, front, hole and back from the ball, the room beside the hole, where the balls come to rest, the
 * number to play and the side to miss on.
 *
 *       :    :  12 L  :    :
 *       :    :   |    :    :          the ball comes from the left
 *  front 154 :  174   :   back 187
 *       :    :   |    :    :
 *       0    5  18 R  10   15
 */
#include "overlay-private.h"
#include "plan-number.h"
#include "render-green.h"

/* Design units of 1/96 inch. */
#define DEPTH_WIDTH 0.8
#define DEPTH_DASH 3.0
#define DEPTH_BEYOND 10.0
#define TICK_HALF 9.0
#define TICK_WIDTH 2.2
#define ROOM_WIDTH 1.1
#define ROOM_TICK 4.0
#define CASING 0.9
#define LABEL_GAP 5.0
#define NUMBER_GAP 3.0
#define BEST_RADIUS 5.5
#define REST_WIDTH 1.3
#define REST_DASH 4.0
/* A rest pattern this near the landing pattern would only thicken its lines, m. */
#define APART_M 0.3

/* Labels that are known again: numbers of the green before figures of depth. */
enum
{
  KEY_FRONT = GREEN_MOST_DEPTHS,
  KEY_HOLE,
  KEY_BACK,
  KEY_LEFT,
  KEY_RIGHT,
  KEY_NUMBER,
  KEY_MISS
};

/* The way the green is played, on the drawing. */
typedef struct
{
  Vec2 from, hole;         /* hole frame */
  Vec2 along_px, right_px; /* unit vectors on the drawing */
} Way;

static Vec2
on_way (const OverlaySheet *sheet, const Way *way, double distance_m)
{
  Vec2 along = vec2_unit (vec2_sub (way->hole, way->from));
  return view_point (sheet->view, vec2_add (way->from, vec2_scale (along, distance_m)));
}

/* How far the green reaches on the drawing from the line of play, to one side of it. */
static double
reach_px (const OverlaySheet *sheet, const Way *way, const Outline *outline, Vec2 side_px)
{
  Vec2 hole_px = view_point (sheet->view, way->hole);
  double reach = 0;
  for (size_t i = 0; i < outline->n_points; i++)
    reach = fmax (reach, vec2_dot (vec2_sub (view_point (sheet->view, outline->points[i]), hole_px), side_px));
  return reach;
}

static void
draw_depths (OverlaySheet *sheet, const Way *way, const GreenNumbers *numbers, const Outline *outline)
{
  GreenDepth lines[GREEN_MOST_DEPTHS];
  size_t n = render_green_depths (numbers, way->from, way->hole, sheet->view->units, lines, G_N_ELEMENTS (lines));
  double unit = sheet->unit_px, dash[2] = { DEPTH_DASH * unit, DEPTH_DASH * unit };
  double right = reach_px (sheet, way, outline, way->right_px) + DEPTH_BEYOND * unit,
         left = reach_px (sheet, way, outline, vec2_scale (way->right_px, -1)) + DEPTH_BEYOND * unit;
  for (size_t i = 0; i < n; i++)
    {
      char number[UNITS_TEXT_SIZE];
      Vec2 at = view_point (sheet->view, lines[i].at), end = vec2_add (at, vec2_scale (way->right_px, right));
      Vec2 start = vec2_sub (at, vec2_scale (way->right_px, left));
      cairo_move_to (sheet->cr, start.x, start.y);
      cairo_line_to (sheet->cr, end.x, end.y);
      g_snprintf (number, sizeof number, "%d", lines[i].depth);
      sheet_label_of (sheet, i);
      sheet_label (sheet, RANK_MARK, PLATE_NONE, number, end, way->right_px, NUMBER_GAP * unit, false);
    }
  cairo_set_dash (sheet->cr, dash, 2, 0);
  sheet_stroke_cased (sheet, PALETTE_INK, DEPTH_WIDTH, 0);
  cairo_set_dash (sheet->cr, NULL, 0, 0);
}

/* "front 154", written at a place on the line of play. */
static void
label_number (OverlaySheet *sheet, unsigned key, const char *word, double length_m, Vec2 at_px, Vec2 towards_px)
{
  char number[UNITS_TEXT_SIZE], text[LABEL_TEXT_SIZE];
  units_print_whole (length_m, sheet->view->units, number, sizeof number);
  g_snprintf (text, sizeof text, "%s %s", sheet_word (sheet, word), number);
  sheet_label_of (sheet, key);
  sheet_label (sheet, RANK_ON_LINE, PLATE_PAPER, text, at_px, towards_px, LABEL_GAP * sheet->unit_px, true);
}

static void
draw_numbers (OverlaySheet *sheet, const Way *way, const GreenNumbers *numbers)
{
  Vec2 front = on_way (sheet, way, numbers->front_m), back = on_way (sheet, way, numbers->back_m),
       hole = view_point (sheet->view, way->hole);
  Vec2 half = vec2_scale (way->right_px, TICK_HALF * sheet->unit_px), before = vec2_scale (way->along_px, -1);
  cairo_move_to (sheet->cr, front.x - half.x, front.y - half.y);
  cairo_line_to (sheet->cr, front.x + half.x, front.y + half.y);
  cairo_move_to (sheet->cr, back.x - half.x, back.y - half.y);
  cairo_line_to (sheet->cr, back.x + half.x, back.y + half.y);
  sheet_stroke_cased (sheet, PALETTE_INK, TICK_WIDTH, CASING);
  label_number (sheet, KEY_FRONT, N_ ("front"), numbers->front_m, front, before);
  label_number (sheet, KEY_BACK, N_ ("back"), numbers->back_m, back, way->along_px);
  label_number (sheet, KEY_HOLE, N_ ("hole"), numbers->hole_m, hole, vec2_add (way->right_px, way->along_px));
}

/* From the hole to the green's edge on one side: "12 L". */
static void
draw_room (OverlaySheet *sheet, const Way *way, double room_m, Vec2 side_px, unsigned key, const char *format)
{
  char number[UNITS_TEXT_SIZE], text[LABEL_TEXT_SIZE];
  Vec2 hole = view_point (sheet->view, way->hole), edge = vec2_add (hole, vec2_scale (side_px, room_m * sheet->view->px_per_m));
  Vec2 tick = vec2_scale (way->along_px, ROOM_TICK * sheet->unit_px);
  if (!(room_m > 0))
    return;
  cairo_move_to (sheet->cr, hole.x, hole.y);
  cairo_line_to (sheet->cr, edge.x, edge.y);
  cairo_move_to (sheet->cr, edge.x - tick.x, edge.y - tick.y);
  cairo_line_to (sheet->cr, edge.x + tick.x, edge.y + tick.y);
  sheet_stroke_cased (sheet, PALETTE_INK, ROOM_WIDTH, CASING);
  units_print_whole (room_m, sheet->view->units, number, sizeof number);
  g_snprintf (text, sizeof text, sheet_word (sheet, format), number);
  sheet_label_of (sheet, key);
  sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, edge, side_px, LABEL_GAP * sheet->unit_px, true);
}

/* Where half of the balls, and nine in ten, come to rest: dashed, as the landing is drawn in full. */
static void
draw_rest (OverlaySheet *sheet)
{
  const Pattern *landing = &sheet->shot->pattern, *rest = &sheet->shot->rest_pattern;
  double dash[2] = { REST_DASH * sheet->unit_px, REST_DASH * sheet->unit_px };
  if (vec2_distance (landing->mean, rest->mean) < APART_M && fabs (landing->long_sd_m - rest->long_sd_m) < APART_M)
    return;
  cairo_set_dash (sheet->cr, dash, 2, 0);
  sheet_trace_contour (sheet, rest, PATTERN_HALF_SDS);
  sheet_trace_contour (sheet, rest, PATTERN_NINE_IN_TEN_SDS);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, REST_WIDTH, CASING);
  cairo_set_dash (sheet->cr, NULL, 0, 0);
}

/* A ring where the balls are best to land, and what that is to play; the side to miss on beyond the green's edge there. */
static void
draw_advice (OverlaySheet *sheet, const Way *way, const GreenNumbers *numbers, const Approach *approach)
{
  Vec2 best = view_point (sheet->view, approach->best.landing), left = vec2_scale (way->right_px, -1);
  Translate translate = sheet->scene->translate;
  g_autofree char *number = approach_number_words (approach, sheet->view->units, translate);
  const char *miss = approach_miss_words (approach, translate);
  double px_per_m = sheet->view->px_per_m;
  cairo_new_sub_path (sheet->cr);
  cairo_arc (sheet->cr, best.x, best.y, BEST_RADIUS * sheet->unit_px, 0, 2 * PI);
  sheet_stroke_cased (sheet, PALETTE_INK, TICK_WIDTH, CASING);
  sheet_label_of (sheet, KEY_NUMBER);
  sheet_label (sheet, RANK_LEFT, PLATE_INK, number, best, vec2_add (left, way->along_px), 2 * LABEL_GAP * sheet->unit_px, true);
  if (miss == NULL)
    return;
  Vec2 hole = view_point (sheet->view, way->hole);
  const Vec2 sides[N_MISSES] = { [MISS_SHORT] = on_way (sheet, way, numbers->front_m),
                                 [MISS_LONG] = on_way (sheet, way, numbers->back_m),
                                 [MISS_LEFT] = vec2_add (hole, vec2_scale (left, numbers->left_m * px_per_m)),
                                 [MISS_RIGHT] = vec2_add (hole, vec2_scale (way->right_px, numbers->right_m * px_per_m)) };
  Vec2 at = sides[approach->safest], away = vec2_unit (vec2_sub (at, hole));
  sheet_label_of (sheet, KEY_MISS);
  sheet_label (sheet, RANK_ON_LINE, PLATE_INK, miss, at, away, 2 * LABEL_GAP * sheet->unit_px, false);
}

void
overlay_green (OverlaySheet *sheet)
{
  const PlanGreen *green = sheet->scene->green;
  int part = green != NULL ? hole_green (sheet->scene->hole, NULL) : -1;
  Way way;
  if (part < 0 || !hole_target (sheet->scene->hole, NULL, &way.hole))
    return;
  way.from = green->play.from;
  way.along_px = vec2_unit (vec2_sub (view_point (sheet->view, way.hole), view_point (sheet->view, way.from)));
  way.right_px = vec2 (-way.along_px.y, way.along_px.x);
  const GreenNumbers *numbers = &green->play.numbers;
  draw_depths (sheet, &way, numbers, hole_part (sheet->scene->hole, (size_t)part)->outline);
  draw_numbers (sheet, &way, numbers);
  draw_room (sheet, &way, numbers->left_m, vec2_scale (way.right_px, -1), KEY_LEFT, N_ ("%s L"));
  draw_room (sheet, &way, numbers->right_m, way.right_px, KEY_RIGHT, N_ ("%s R"));
  if (!green->play.is_reached)
    return;
  draw_rest (sheet);
  if (green->approach != NULL)
    draw_advice (sheet, &way, numbers, green->approach);
}
