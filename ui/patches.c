// SPDX-License-Identifier: GPL-3.0-or-later
/* patches - every row of cells begins as a band of its own; the two neighbours that waste least by it are joined, until few enough are left. */
#include "patches.h"

#include <glib.h>

/* Stretches with fewer cells than this between them become one. */
#define LEAST_BETWEEN 6
/* Other bands are worth it when they hold this share less. */
#define WORTH_SHARE 0.2

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

/* Adds a stretch to the right of those there are, which it may join; where there are too many, the two with the least between them become one. */
static void
add_stretch (Stretch *stretches, int *n, Stretch added)
{
  if (*n > 0 && added.x0 - stretches[*n - 1].x1 < LEAST_BETWEEN)
    {
      stretches[*n - 1].x1 = MAX (stretches[*n - 1].x1, added.x1);
      return;
    }
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

/* Two neighbours as one. */
static Band
band_join (const Band *a, const Band *b)
{
  Stretch stretches[MOST_STRETCHES];
  Band band = { .y0 = a->y0, .y1 = b->y1 };
  for (int i = 0, k = 0; i < a->n || k < b->n;)
    add_stretch (stretches, &band.n,
                 k == b->n || (i < a->n && a->stretches[i].x0 <= b->stretches[k].x0) ? a->stretches[i++] : b->stretches[k++]);
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

static GArray *
rows_as_bands (const bool *cells, int columns, int rows)
{
  GArray *bands = g_array_sized_new (FALSE, FALSE, sizeof (Band), (guint)rows);
  for (int y = 0; y < rows; y++)
    {
      Band band = band_of_row (cells + (size_t)y * (size_t)columns, columns, y);
      g_array_append_val (bands, band);
    }
  return bands;
}

/* Joins the neighbours that take in the fewest cells more by it. */
static void
join_cheapest (GArray *bands)
{
  guint best = 0;
  int least = G_MAXINT;
  Band best_band = { 0 };
  for (guint i = 0; i + 1 < bands->len; i++)
    {
      const Band *a = &g_array_index (bands, Band, i), *b = a + 1;
      Band joined = band_join (a, b);
      int more = band_cells (&joined) - band_cells (a) - band_cells (b);
      if (more >= least)
        continue;
      best = i;
      least = more;
      best_band = joined;
    }
  g_array_index (bands, Band, best) = best_band;
  g_array_remove_index (bands, best + 1);
}

/* The rows between the edges of `kept` as its bands. */
static GArray *
as_kept (const GArray *rows, const HwBands *kept)
{
  GArray *bands = g_array_sized_new (FALSE, FALSE, sizeof (Band), HW_MOST_BANDS);
  for (int i = 0; i < kept->n; i++)
    {
      Band band = g_array_index (rows, Band, (guint)kept->edges[i]);
      for (int y = kept->edges[i] + 1; y < kept->edges[i + 1]; y++)
        band = band_join (&band, &g_array_index (rows, Band, (guint)y));
      g_array_append_val (bands, band);
    }
  return bands;
}

static int
count_cells (const GArray *bands)
{
  int n = 0;
  for (guint i = 0; i < bands->len; i++)
    n += band_cells (&g_array_index (bands, Band, i));
  return n;
}

static void
keep (HwBands *kept, const GArray *bands)
{
  kept->n = (int)bands->len;
  for (guint i = 0; i < bands->len; i++)
    kept->edges[i + 1] = g_array_index (bands, Band, i).y1;
}

size_t
hw_patches_find (const bool *cells, int columns, int rows, int most, HwBands *bands, HwPatch patches[HW_MOST_PATCHES])
{
  g_autoptr (GArray) best = rows_as_bands (cells, columns, rows);
  g_autoptr (GArray) kept = as_kept (best, bands);
  while (best->len > (guint)CLAMP (most, 1, HW_MOST_BANDS))
    join_cheapest (best);
  bool is_kept = bands->n > 0 && count_cells (best) >= (1 - WORTH_SHARE) * count_cells (kept);
  if (!is_kept)
    keep (bands, best);
  const GArray *used = is_kept ? kept : best;
  size_t n = 0;
  for (guint i = 0; i < used->len; i++)
    {
      const Band *band = &g_array_index (used, Band, i);
      for (int k = 0; k < band->n; k++)
        patches[n++] = (HwPatch){ band->stretches[k].x0, band->y0, band->stretches[k].x1, band->y1 };
    }
  return n;
}
