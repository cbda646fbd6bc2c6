// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * clubs - the bag as bars on the shot's own distance axis, so that "which club" is seen under the trouble that decides it.
 *
 * A bar spans the carries of two shots of three about the mean: what a golfer means by "185-195".
 */
#include "axis-private.h"

/* Design units of 1/96 inch. */
#define CLUB_PAD 8.0
#define CLUB_ROW 22.0
#define LEAST_ROW 13.0
#define CLUB_BAR 14.0
#define CLUB_TEXT 11.5
#define CLUB_NAME_GAP 7.0
#define CLUB_APART 12.0
#define LEAST_BAR 6.0
#define MEAN_OVERHANG 1.5

/* Where one club stands, as bar and name; `name_width` is 0 when the name has no room on the drawing. */
typedef struct
{
  double bar_x0, bar_x1, mean_x, name_x, name_width;
  guint row;
  bool is_placed;
} ClubPlace;

typedef struct
{
  ClubPlace *places; /* one for each club of the bag */
  size_t n_places;
  guint n_rows;
} ClubLayout;

static TextStyle
club_style (const RenderAxis *axis, bool is_chosen)
{
  return (TextStyle){ CLUB_TEXT * axis->unit_px, is_chosen ? TEXT_BOLD : TEXT_MEDIUM };
}

/*
 * Bar and name of one club, as it carries today or, when `today` is NULL, as the bag says. The name stands to the right of the bar, or to its left where
 * the drawing ends. False for a club that carries nowhere today.
 */
static bool
place_club (TextPen *pen, const RenderAxis *axis, const Club *club, const ClubToday *today, ClubPlace *placed)
{
  double unit = axis->unit_px, sd = isfinite (club->carry_sd_m) ? club->carry_sd_m : 0;
  double low_m = today ? today->low_m : club->carry_m - sd, high_m = today ? today->high_m : club->carry_m + sd;
  double carry_m = today ? today->carry_m : club->carry_m, gap = CLUB_NAME_GAP * unit;
  ClubPlace place = { .mean_x = axis_x (axis, carry_m) };
  if (!isfinite (carry_m) || !isfinite (low_m) || !isfinite (high_m))
    return false;

  place.bar_x0 = fmin (axis_x (axis, low_m), place.mean_x - LEAST_BAR / 2 * unit);
  place.bar_x1 = fmax (axis_x (axis, high_m), place.mean_x + LEAST_BAR / 2 * unit);
  /* Room for the bold name whether chosen or not, so that nothing moves when a club is chosen. */
  place.name_width = text_width (pen, club->name, club_style (axis, true));
  place.name_x = place.bar_x1 + gap;
  if (place.name_x + place.name_width > axis->width_px - gap)
    place.name_x = place.bar_x0 - gap - place.name_width;
  *placed = place;
  return true;
}

/* Longest first, each in the first row from the top where it runs into none: like bricks, so that few rows are needed. */
static ClubLayout
lay_out_clubs (const RenderAxis *axis, const Bag *bag, const ClubToday *clubs, RenderWords *words)
{
  ClubLayout layout = { .n_places = bag ? bag_n_clubs (bag) : 0 };
  TextPen *pen = text_pen_new_keeping (NULL, words);

  layout.places = g_new0 (ClubPlace, layout.n_places + 1);
  for (size_t i = 0; i < layout.n_places; i++)
    {
      ClubPlace *place = &layout.places[i];
      place->is_placed = place_club (pen, axis, bag_club (bag, i), clubs ? &clubs[i] : NULL, place);
      if (!place->is_placed)
        continue;
      double x0 = fmin (place->bar_x0, place->name_x) - CLUB_APART * axis->unit_px;
      double x1 = fmax (place->bar_x1, place->name_x + place->name_width) + CLUB_APART * axis->unit_px;
      for (size_t k = 0; k < i; k++)
        {
          const ClubPlace *other = &layout.places[k];
          double from = fmin (other->bar_x0, other->name_x), to = fmax (other->bar_x1, other->name_x + other->name_width);
          if (other->is_placed && other->row == place->row && from < x1 && to > x0)
            {
              place->row++;
              k = (size_t)-1;
            }
        }
      layout.n_rows = MAX (layout.n_rows, place->row + 1);
    }
  text_pen_free (pen);
  return layout;
}

/* Height of a row: the usual one, less where the panel is too low for that. */
static double
row_height (const RenderAxis *axis, guint n_rows, double height_px)
{
  double unit = axis->unit_px;
  return CLAMP ((height_px - 2 * CLUB_PAD * unit) / MAX (n_rows, 1), LEAST_ROW * unit, CLUB_ROW * unit);
}

double
render_clubs_height (const Bag *bag, const RenderAxis *axis)
{
  if (!axis_is_usable (axis))
    return 0;
  ClubLayout layout = lay_out_clubs (axis, bag, NULL, NULL);
  g_free (layout.places);
  return (2 * CLUB_PAD + layout.n_rows * CLUB_ROW) * axis->unit_px;
}

static void
draw_bar (cairo_t *cr, const ClubPlace *place, double middle, double bar, const PanelColours *colours, bool is_chosen,
          double unit, PaintInk ink)
{
  double r = fmin (bar, place->bar_x1 - place->bar_x0) / 2;

  cairo_new_sub_path (cr);
  cairo_arc (cr, place->bar_x1 - r, middle - bar / 2 + r, r, -PI / 2, 0);
  cairo_arc (cr, place->bar_x1 - r, middle + bar / 2 - r, r, 0, PI / 2);
  cairo_arc (cr, place->bar_x0 + r, middle + bar / 2 - r, r, PI / 2, PI);
  cairo_arc (cr, place->bar_x0 + r, middle - bar / 2 + r, r, PI, 3 * PI / 2);
  cairo_close_path (cr);
  palette_use (cr, is_chosen ? colours->accent : colours->bar, is_chosen ? 1 : 0.42, ink);
  cairo_fill (cr);
  cairo_move_to (cr, place->mean_x, middle - bar / 2 - (is_chosen ? 0 : MEAN_OVERHANG * unit));
  cairo_line_to (cr, place->mean_x, middle + bar / 2 + (is_chosen ? 0 : MEAN_OVERHANG * unit));
  palette_use (cr, is_chosen ? colours->on_accent : colours->bar, 1, ink);
  cairo_set_line_width (cr, 2 * unit);
  cairo_stroke (cr);
}

/* A chosen club is known by name: the bag may have been read again since. */
static bool
is_same_club (const Club *a, const Club *b)
{
  return a == b || (a && b && g_strcmp0 (a->name, b->name) == 0);
}

void
render_club_bars (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, const Bag *bag, const Club *chosen,
                  double height_px)
{
  const ClubToday *clubs = scene ? scene->clubs : NULL;
  RenderWords *words = scene ? scene->words : NULL;
  PaintInk ink = scene ? scene->ink : PAINT_COLOUR;
  if (!axis_is_usable (axis) || !(height_px > 0))
    return;
  const PanelColours *colours = panel_colours (axis->is_dark);
  ClubLayout layout = lay_out_clubs (axis, bag, clubs, words);
  TextPen *pen = text_pen_new_keeping (cr, words);
  double unit = axis->unit_px, row = row_height (axis, layout.n_rows, height_px), bar = fmin (CLUB_BAR * unit, row - 3 * unit);

  for (size_t i = 0; i < layout.n_places; i++)
    {
      const ClubPlace *place = &layout.places[i];
      const Club *club = bag_club (bag, i);
      if (!place->is_placed)
        continue;
      bool is_chosen = is_same_club (club, chosen);
      double middle = CLUB_PAD * unit + (place->row + 0.5) * row;
      draw_bar (cr, place, middle, bar, colours, is_chosen, unit, ink);
      palette_use (cr, is_chosen ? colours->accent : colours->quiet_ink, 1, ink);
      text_draw_middle (pen, club->name, club_style (axis, is_chosen), place->name_x, middle, TEXT_LEFT);
    }
  text_pen_free (pen);
  g_free (layout.places);
}

void
render_clubs (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, const Bag *bag, const Club *chosen, double height_px)
{
  PaintInk ink = scene ? scene->ink : PAINT_COLOUR;

  if (!axis_is_usable (axis) || !(height_px > 0))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, 0, 0, axis->width_px, height_px);
  cairo_clip (cr);
  palette_use (cr, panel_colours (axis->is_dark)->panel, 1, ink);
  cairo_paint (cr);
  axis_draw_columns (cr, axis, scene, 0, height_px);
  axis_draw_carry (cr, axis, scene, 0, height_px);
  if (bag)
    render_club_bars (cr, axis, scene, bag, chosen, height_px);
  cairo_restore (cr);
}

int
render_clubs_pick (const RenderAxis *axis, const Bag *bag, const ClubToday *clubs, double height_px, Vec2 at_px)
{
  int picked = -1;

  if (!axis_is_usable (axis) || !bag)
    return -1;
  ClubLayout layout = lay_out_clubs (axis, bag, clubs, NULL);
  double row = row_height (axis, layout.n_rows, height_px), top = CLUB_PAD * axis->unit_px;
  for (size_t i = 0; i < layout.n_places; i++)
    {
      const ClubPlace *place = &layout.places[i];
      double x0 = fmin (place->bar_x0, place->name_x), x1 = fmax (place->bar_x1, place->name_x + place->name_width);
      double y0 = top + place->row * row;
      if (place->is_placed && at_px.x >= x0 && at_px.x <= x1 && at_px.y >= y0 && at_px.y < y0 + row)
        picked = (int)i;
    }
  g_free (layout.places);
  return picked;
}
