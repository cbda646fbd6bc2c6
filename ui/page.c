// SPDX-License-Identifier: GPL-3.0-or-later
/* page - an image whose pixels are reached without cairo, which would take a copy of what it still paints from. */
#include "page.h"

#include <string.h>

#define BYTES_PER_PX 4

HwPage *
hw_page_new (int width, int height, int scale)
{
  HwPage *page = g_new0 (HwPage, 1);
  page->width = width;
  page->height = height;
  page->scale = scale;
  page->columns = (width + HW_TILE_PX - 1) / HW_TILE_PX;
  page->rows = (height + HW_TILE_PX - 1) / HW_TILE_PX;
  page->stride = (size_t)cairo_format_stride_for_width (CAIRO_FORMAT_ARGB32, width);
  page->data = g_malloc0_n ((size_t)height, page->stride);
  page->is_inked = g_new0 (bool, (size_t)(page->columns * page->rows));
  page->is_bare = true;
  return page;
}

void
hw_page_free (HwPage *page)
{
  g_free (page->data);
  g_free (page->is_inked);
  g_free (page);
}

bool
hw_page_is_of_size (const HwPage *page, int width, int height, int scale)
{
  return page != NULL && page->width == width && page->height == height && page->scale == scale;
}

cairo_surface_t *
hw_page_image (const HwPage *page)
{
  cairo_surface_t *image
      = cairo_image_surface_create_for_data (page->data, CAIRO_FORMAT_ARGB32, page->width, page->height, (int)page->stride);
  cairo_surface_set_device_scale (image, page->scale, page->scale);
  return image;
}

static guchar *
page_at (const HwPage *page, int x, int y)
{
  return page->data + (size_t)y * page->stride + (size_t)x * BYTES_PER_PX;
}

/* Width of the tile in a column, height of one in a row: the last may be cut. */
static int
tile_width (const HwPage *page, int column)
{
  return MIN (HW_TILE_PX, page->width - column * HW_TILE_PX);
}

static int
tile_height (const HwPage *page, int row)
{
  return MIN (HW_TILE_PX, page->height - row * HW_TILE_PX);
}

GBytes *
hw_page_copy_tile (const HwPage *page, int column, int row)
{
  size_t line = (size_t)tile_width (page, column) * BYTES_PER_PX;
  int height = tile_height (page, row);
  guchar *copy = g_malloc_n ((size_t)height, line);
  for (int y = 0; y < height; y++)
    memcpy (copy + (size_t)y * line, page_at (page, column * HW_TILE_PX, row * HW_TILE_PX + y), line);
  return g_bytes_new_take (copy, (size_t)height * line);
}

graphene_rect_t
hw_page_tile_bounds (const HwPage *page, int column, int row)
{
  float scale = (float)page->scale;
  return GRAPHENE_RECT_INIT ((float)(column * HW_TILE_PX) / scale, (float)(row * HW_TILE_PX) / scale,
                             (float)tile_width (page, column) / scale, (float)tile_height (page, row) / scale);
}

/* ---- the ground ---- */

/* A line of the ground, which is as large as the page, from a column of tiles on. */
static const guchar *
ground_line (cairo_surface_t *ground, int column, int line)
{
  return cairo_image_surface_get_data (ground) + (size_t)line * (size_t)cairo_image_surface_get_stride (ground)
         + (size_t)column * HW_TILE_PX * BYTES_PER_PX;
}

static void
make_tile_bare (HwPage *page, cairo_surface_t *ground, int column, int row)
{
  size_t n = (size_t)tile_width (page, column) * BYTES_PER_PX;
  for (int y = row * HW_TILE_PX; y < row * HW_TILE_PX + tile_height (page, row); y++)
    if (ground != NULL)
      memcpy (page_at (page, column * HW_TILE_PX, y), ground_line (ground, column, y), n);
    else
      memset (page_at (page, column * HW_TILE_PX, y), 0, n);
}

void
hw_page_make_bare (HwPage *page, cairo_surface_t *ground)
{
  for (int row = 0; row < page->rows; row++)
    for (int column = 0; column < page->columns; column++)
      if (page->is_bare || page->is_inked[row * page->columns + column])
        make_tile_bare (page, ground, column, row);
  page->is_bare = false;
}

/* Is there anything on this tile, on no ground? */
static bool
has_ink (const HwPage *page, int column, int row)
{
  int n = tile_width (page, column);
  for (int y = row * HW_TILE_PX; y < row * HW_TILE_PX + tile_height (page, row); y++)
    {
      const guint32 *line = (const guint32 *)(const void *)page_at (page, column * HW_TILE_PX, y);
      guint32 ink = 0;
      for (int x = 0; x < n; x++)
        ink |= line[x];
      if (ink != 0)
        return true;
    }
  return false;
}

/* Is there anything on it but the ground? */
static bool
tile_is_inked (const HwPage *page, cairo_surface_t *ground, int column, int row)
{
  if (ground == NULL)
    return has_ink (page, column, row);
  size_t n = (size_t)tile_width (page, column) * BYTES_PER_PX;
  for (int y = row * HW_TILE_PX; y < row * HW_TILE_PX + tile_height (page, row); y++)
    if (memcmp (page_at (page, column * HW_TILE_PX, y), ground_line (ground, column, y), n) != 0)
      return true;
  return false;
}

void
hw_page_find_ink (HwPage *page, cairo_surface_t *ground)
{
  for (int row = 0; row < page->rows; row++)
    for (int column = 0; column < page->columns; column++)
      page->is_inked[row * page->columns + column] = tile_is_inked (page, ground, column, row);
}

/* ---- what is kept ---- */

int
hw_page_cell_columns (const HwPage *page)
{
  return (page->width + HW_CELL_PX - 1) / HW_CELL_PX;
}

int
hw_page_cell_rows (const HwPage *page)
{
  return (page->height + HW_CELL_PX - 1) / HW_CELL_PX;
}

/* Makes a cell of `kept`, whose top left this is, show what `drawn` does; false if it did. */
static bool
take_cell (HwPage *kept, const HwPage *drawn, int x, int y)
{
  size_t n = (size_t)MIN (HW_CELL_PX, kept->width - x) * BYTES_PER_PX;
  int bottom = MIN (y + HW_CELL_PX, kept->height), line = y;
  while (line < bottom && memcmp (page_at (kept, x, line), page_at (drawn, x, line), n) == 0)
    line++;
  if (line == bottom)
    return false;
  for (; line < bottom; line++)
    memcpy (page_at (kept, x, line), page_at (drawn, x, line), n);
  return true;
}

static void
take_tile (HwPage *kept, const HwPage *drawn, int column, int row, bool *cells)
{
  int cell_columns = hw_page_cell_columns (kept), left = column * HW_TILE_PX, top = row * HW_TILE_PX;
  for (int y = top; y < top + tile_height (kept, row); y += HW_CELL_PX)
    for (int x = left; x < left + tile_width (kept, column); x += HW_CELL_PX)
      if (take_cell (kept, drawn, x, y))
        cells[y / HW_CELL_PX * cell_columns + x / HW_CELL_PX] = true;
}

void
hw_page_take_over (HwPage *kept, const HwPage *drawn, bool everywhere, bool *cells)
{
  for (int i = 0; i < kept->columns * kept->rows; i++)
    {
      if (everywhere || kept->is_inked[i] || drawn->is_inked[i])
        take_tile (kept, drawn, i % kept->columns, i / kept->columns, cells);
      kept->is_inked[i] = drawn->is_inked[i];
    }
}
