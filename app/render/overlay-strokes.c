// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay-strokes - what it costs to hole out from everywhere: stepped bands of the second accent, dear ones dark, a line between two, each with its number.
 */
#include "overlay-private.h"

#include "plan-map.h"

/* From paper to the second accent, by lightness alone: apart in grey as well, and to eyes that see no red or green; thin, so that the hole's kinds show through. */
#define CHEAP_COLOUR 0xfdf3e4
#define DEAR_COLOUR PALETTE_SECOND_ACCENT
#define BAND_TINT 0.4
/* Two bands are parted by a line in a dark shade of it. */
#define LINE_COLOUR 0x8a430a
#define LINE_TINT 0.7
#define FULL 255.0

/* Premultiplied, as cairo has its pixels. */
static guint32
pixel (unsigned rgb, double alpha, PaintInk ink)
{
  Colour colour = colour_in_ink (colour_of (rgb), ink);
  unsigned red = (unsigned)(alpha * FULL * colour.red), green = (unsigned)(alpha * FULL * colour.green),
           blue = (unsigned)(alpha * FULL * colour.blue);
  return (guint32)(alpha * FULL) << 24 | red << 16 | green << 8 | blue;
}

/* From cheap to dear in equal steps. */
static unsigned
band_colour (size_t band, size_t n_bands)
{
  double share = n_bands > 1 ? (double)band / (double)(n_bands - 1) : 0;
  unsigned rgb = 0;
  for (int shift = 16; shift >= 0; shift -= 8)
    {
      double cheap = CHEAP_COLOUR >> shift & 0xff, dear = DEAR_COLOUR >> shift & 0xff;
      rgb |= (unsigned)(cheap + share * (dear - cheap)) << shift;
    }
  return rgb;
}

/* Does another band begin right or above of the cell? */
static bool
is_edge (const PlanMap *map, int column, int row)
{
  size_t columns = (size_t)map->grid.columns, i = (size_t)row * columns + (size_t)column;
  return (column + 1 < map->grid.columns && map->bands[i + 1] != map->bands[i])
         || (row + 1 < map->grid.rows && map->bands[i + columns] != map->bands[i]);
}

static cairo_surface_t *
map_image (const PlanMap *map, PaintInk ink)
{
  guint32 colours[PLAN_MAP_MOST_BANDS], line = pixel (LINE_COLOUR, LINE_TINT, ink);
  for (size_t band = 0; band < map->n_bands; band++)
    colours[band] = pixel (band_colour (band, map->n_bands), BAND_TINT, ink);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, map->grid.columns, map->grid.rows);
  if (cairo_surface_status (image) != CAIRO_STATUS_SUCCESS)
    return image;
  unsigned char *data = cairo_image_surface_get_data (image);
  int stride = cairo_image_surface_get_stride (image);
  for (int row = 0; row < map->grid.rows; row++)
    {
      guint32 *pixels = (guint32 *)(void *)(data + (size_t)row * (size_t)stride);
      const guint8 *bands = map->bands + (size_t)row * (size_t)map->grid.columns;
      for (int column = 0; column < map->grid.columns; column++)
        pixels[column] = bands[column] == PLAN_MAP_NONE ? 0 : is_edge (map, column, row) ? line : colours[bands[column]];
    }
  cairo_surface_mark_dirty (image);
  return image;
}

/* The outline of the whole map, as a path. */
static void
trace_map (cairo_t *cr, const PlanMap *map, Affine to_drawing)
{
  const PlanGrid *grid = &map->grid;
  double half_m = grid->cell_m / 2, width_m = grid->columns * grid->cell_m, height_m = grid->rows * grid->cell_m;
  const Vec2 corners[] = { { 0, 0 }, { width_m, 0 }, { width_m, height_m }, { 0, height_m } };
  cairo_new_path (cr);
  for (size_t i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      Vec2 at = affine_apply (to_drawing, vec2_add (vec2_sub (grid->origin, vec2 (half_m, half_m)), corners[i]));
      cairo_line_to (cr, at.x, at.y);
    }
  cairo_close_path (cr);
}

static void
ink_map (OverlaySheet *sheet, const PlanMap *map)
{
  const PlanGrid *grid = &map->grid;
  Affine to_drawing = view_to_drawing (sheet->view);
  cairo_surface_t *image = map_image (map, sheet->ink);
  cairo_pattern_t *pattern = cairo_pattern_create_for_surface (image);
  cairo_matrix_t matrix;
  cairo_matrix_init (&matrix, to_drawing.xx, to_drawing.yx, to_drawing.xy, to_drawing.yy, to_drawing.x0, to_drawing.y0);
  cairo_matrix_translate (&matrix, grid->origin.x - grid->cell_m / 2, grid->origin.y - grid->cell_m / 2);
  cairo_matrix_scale (&matrix, grid->cell_m, grid->cell_m);
  if (cairo_matrix_invert (&matrix) == CAIRO_STATUS_SUCCESS)
    {
      cairo_pattern_set_matrix (pattern, &matrix);
      trace_map (sheet->cr, map, to_drawing);
      sheet_will_ink (sheet, 0);
      cairo_set_source (sheet->cr, pattern);
      cairo_fill (sheet->cr);
    }
  cairo_pattern_destroy (pattern);
  cairo_surface_destroy (image);
}

static void
number_bands (OverlaySheet *sheet, const PlanMap *map)
{
  for (size_t i = 0; i < map->n_places; i++)
    {
      char text[UNITS_TEXT_SIZE];
      const PlanMapPlace *place = &map->places[i];
      units_print_decimals (plan_map_strokes (map, place->band), map->step < 0.1 || map->step == 0.25 ? 2 : 1, text,
                            sizeof text);
      sheet_label (sheet, RANK_MARK, PLATE_PAPER, text, view_point (sheet->view, place->at), vec2 (0, 0), 0, false);
    }
}

void
overlay_strokes_still (OverlaySheet *sheet)
{
  if (sheet->scene->map != NULL && sheet->scene->map->n_bands > 0)
    ink_map (sheet, sheet->scene->map);
}

void
overlay_strokes (OverlaySheet *sheet)
{
  if (sheet->scene->map != NULL && sheet->scene->map->n_bands > 0)
    number_bands (sheet, sheet->scene->map);
}
