// SPDX-License-Identifier: GPL-3.0-or-later
/* patches - every row of cells begins as a band of its own; the two neighbours that waste least by it are joined, until few enough are left. */
#include "patches.h"

#include <glib.h>

/* A stretch of columns, the end not included. */
typedef struct
{
  int x0, x1;
} Stretch;

typedef struct
{
  int y0, y1;
  int n; /* stretches, from left to right */
  Stretch stretches[HW_PATCHES_ABREAST];
} Band;

/* More than two bands side by side can have. */
#define MOST_STRETCHES (2 * HW_PATCHES_ABREAST + 1)

/* Adds a stretch to the right of those there are; where there are too many, the two with the least between them become one. */
static void
add_stretch (Stretch *stretches, int *n, Stretch added)
{
  stretches[(*n)++] = added;
  if (*n <= HW_PATCHES_ABREAST)
    return;
  int least = 1;
  for (int i = 2; i < *n; i++)
    if (stretches[i].x0 - stretches[i - 1].x1 < stretches[least].x0 - stretches[least - 1].x1)
      least = i;
  stretches[least - 1].x1 = stretches[least].x1;
  for (int i = least; i + 1 < *n; i++)
    stretches[i] = stretches[i + 1];
  (*n)--;
}

static Band
band_of_row (const bool *row, int columns, int y)
{
  Stretch stretches[MOST_STRETCHES];
  Band band = { .y0 = y, .y1 = y + 1 };
  for (int x = 0; x < columns; x++)
    {
      int from = x;
      while (x < columns && row[x])
        x++;
      if (x > from)
        add_stretch (stretches, &band.n, (Stretch){ from, x });
    }
  for (int i = 0; i < band.n; i++)
    band.stretches[i] = stretches[i];
  return band;
}

/* Both and what lies between them. */
static Band
band_join (const Band *a, const Band *b)
{
  Stretch stretches[MOST_STRETCHES], all[MOST_STRETCHES] = { 0 };
  int n = 0;
  Band band = { .y0 = a->y0, .y1 = b->y1 };
  for (int i = 0, k = 0; i < a->n || k < b->n;)
    all[n++] = k == b->n || (i < a->n && a->stretches[i].x0 <= b->stretches[k].x0) ? a->stretches[i++] : b->stretches[k++];
  Stretch last = all[0];
  for (int i = 1; i < n; i++)
    if (all[i].x0 <= last.x1)
      last.x1 = MAX (last.x1, all[i].x1);
    else
      {
        add_stretch (stretches, &band.n, last);
        last = all[i];
      }
  add_stretch (stretches, &band.n, last);
  for (int i = 0; i < band.n; i++)
    band.stretches[i] = stretches[i];
  return band;
}

static int
band_cells (const Band *band)
{
  int across = 0;
  for (int i = 0; i < band->n; i++)
    across += band->stretches[i].x1 - band->stretches[i].x0;
  return across * (band->y1 - band->y0);
}

static int
band_count (const Band *band)
{
  return band->n + 1;
}

/* Joins the neighbours that by it take in the fewest cells more for each that they count less; false if none would do so for nothing, and that was asked for. */
static bool
join_cheapest (GArray *bands, bool for_nothing)
{
  guint best = 0;
  double least = 0;
  Band best_band = { 0 };
  for (guint i = 0; i + 1 < bands->len; i++)
    {
      const Band *a = &g_array_index (bands, Band, i), *b = a + 1;
      Band joined = band_join (a, b);
      int more = band_cells (&joined) - band_cells (a) - band_cells (b),
          saved = band_count (a) + band_count (b) - band_count (&joined); // at least 1: a band has no more than two stretches
      double price = (double)more / saved;
      if (i == 0 || price < least)
        {
          best = i;
          least = price;
          best_band = joined;
        }
    }
  if (bands->len < 2 || (for_nothing && least > 0))
    return false;
  g_array_index (bands, Band, best) = best_band;
  g_array_remove_index (bands, best + 1);
  return true;
}

static int
count_all (const GArray *bands)
{
  int count = 0;
  for (guint i = 0; i < bands->len; i++)
    count += band_count (&g_array_index (bands, Band, i));
  return count;
}

/* The last one band, if its stretches are still too many, as one. */
static void
make_one (Band *band, int most)
{
  if (band_count (band) <= most)
    return;
  band->stretches[0].x1 = band->stretches[band->n - 1].x1;
  band->n = 1;
}

size_t
hw_patches_find (const bool *cells, int columns, int rows, int most, HwPatch *patches)
{
  g_autoptr (GArray) bands = g_array_new (FALSE, FALSE, sizeof (Band));
  for (int y = 0; y < rows; y++)
    {
      Band band = band_of_row (cells + (size_t)y * (size_t)columns, columns, y);
      if (band.n > 0)
        g_array_append_val (bands, band);
    }
  while (join_cheapest (bands, count_all (bands) <= most))
    ;
  size_t n = 0;
  for (guint i = 0; i < bands->len; i++)
    {
      Band *band = &g_array_index (bands, Band, i);
      make_one (band, most);
      for (int k = 0; k < band->n; k++)
        patches[n++] = (HwPatch){ band->stretches[k].x0, band->y0, band->stretches[k].x1, band->y1 };
    }
  return n;
}
