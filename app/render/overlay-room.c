// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-room - room for error: how far the balls may go left, right, short and long of where they land and stay in play nine in ten, as two brackets beside the pattern.
 *
 *          14 left
 *           +--
 *           |    .-""-.
 *           |   (  +   )      the ball flies from left to right
 *           |    `-..-'
 *           +--  |    |
 *      9 right   +----+
 *       22 short        18 long
 */
#include "overlay-private.h"

/* Design units of 1/96 inch. */
#define LINE_WIDTH 2.0
#define CASING 1.3
#define TICK 8.0
#define PATTERN_GAP 7.0
#define LABEL_GAP 3.0
/* Room that was not looked for further ends open. */
#define OPEN_M (ROOM_MOST_M - 0.5)

/* From the landing on the drawing: a way to go, how far, and the word for it. */
typedef struct
{
  Vec2 direction; /* unit vector */
  double room_m;
  const char *word;
} Way;

static Vec2
beside (Vec2 at, Vec2 direction, double px)
{
  return vec2_add (at, vec2_scale (direction, px));
}

/* "14 left", "44+ left" for what is not known to end there. */
static void
label_way (OverlaySheet *sheet, const Way *way, Vec2 end)
{
  char number[UNITS_TEXT_SIZE], text[LABEL_TEXT_SIZE];
  units_print_whole (way->room_m, sheet->view->units, number, sizeof number);
  g_snprintf (text, sizeof text, way->room_m > OPEN_M ? "%s+ %s" : "%s %s", number, sheet_word (sheet, way->word));
  sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, end, way->direction, LABEL_GAP * sheet->unit_px, true);
}

/* A line over both ways through `middle`, a tick towards the pattern at each end that is one. */
static void
draw_bracket (OverlaySheet *sheet, Vec2 middle, Vec2 towards, const Way ways[2])
{
  Vec2 ends[2];
  for (int i = 0; i < 2; i++)
    {
      ends[i] = beside (middle, ways[i].direction, ways[i].room_m * sheet->view->px_per_m);
      Vec2 tick = beside (ends[i], towards, TICK * sheet->unit_px);
      cairo_move_to (sheet->cr, ends[i].x, ends[i].y);
      if (ways[i].room_m <= OPEN_M)
        cairo_line_to (sheet->cr, tick.x, tick.y);
    }
  cairo_move_to (sheet->cr, ends[0].x, ends[0].y);
  cairo_line_to (sheet->cr, ends[1].x, ends[1].y);
  sheet_stroke_cased (sheet, PALETTE_ACCENT, LINE_WIDTH, CASING);
  for (int i = 0; i < 2; i++)
    label_way (sheet, &ways[i], ends[i]);
}

void
overlay_room (OverlaySheet *sheet)
{
  const Room *room = sheet->scene->room;
  const ShotResult *shot = sheet->shot;
  char text[LABEL_TEXT_SIZE];
  if (room == NULL)
    return;
  Vec2 landing = view_point (sheet->view, shot->landing), along = sheet_along (sheet), right = sheet_right (sheet);
  Vec2 back = vec2_scale (along, -1), left = vec2_scale (right, -1);
  double px_per_m = sheet->view->px_per_m, gap = PATTERN_GAP * sheet->unit_px;
  double long_px = PATTERN_NINE_IN_TEN_SDS * shot->pattern.long_sd_m * px_per_m + gap,
         side_px = PATTERN_NINE_IN_TEN_SDS * shot->pattern.side_sd_m * px_per_m + gap;
  if (isnan (room->left_m))
    {
      g_snprintf (text, sizeof text, sheet_word (sheet, N_ ("%.0f %% in trouble")),
                  100 * fmin (room->trouble, MOST_CHANCE_SHOWN));
      sheet_label (sheet, RANK_BESIDE, PLATE_PAPER, text, beside (landing, right, side_px), right, LABEL_GAP * sheet->unit_px,
                   true);
      return;
    }
  const Way across[2] = { { left, room->left_m, N_ ("left") }, { right, room->right_m, N_ ("right") } };
  const Way over[2] = { { back, room->short_m, N_ ("short") }, { along, room->long_m, N_ ("long") } };
  draw_bracket (sheet, beside (landing, back, long_px), along, across);
  draw_bracket (sheet, beside (landing, right, side_px), left, over);
}
