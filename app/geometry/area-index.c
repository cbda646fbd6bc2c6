// SPDX-License-Identifier: GPL-3.0-or-later
/* Looking up which of a stack of outlines is on top at a point. */
#include "area-index-private.h"

/* edge_winding() without branches: the edges near a cell come in no order a processor could foresee. */
static inline int
index_edge_winding (const IndexEdge *edge, Vec2 point)
{
  double min_x = edge->low_x < edge->high_x ? edge->low_x : edge->high_x,
         max_x = edge->low_x < edge->high_x ? edge->high_x : edge->low_x;
  int beside = (edge->low_y <= point.y) & (point.y < edge->high_y);
  int right = (edge->high_x - edge->low_x) * (point.y - edge->low_y) > (edge->high_y - edge->low_y) * (point.x - edge->low_x);
  right = (point.x < min_x) | ((point.x <= max_x) & right);
  return edge->turn & -(beside & right);
}

/* Kept apart, so that the way of most points, which ends at the cell, needs no stack frame. */
__attribute__ ((noinline)) static int
top_of_list (const AreaIndex *index, const IndexEntry *entry, Vec2 point)
{
  for (;; entry++)
    {
      int winding = entry->winding;
      const uint32_t *list = index->lists + entry->first_edge;
      for (uint32_t i = 0; i < entry->n_edges; i++)
        winding += index_edge_winding (&index->edges[list[i]], point);
      bool inside = (winding & entry->inside_bits) != 0;
      if (entry->is_last)
        return entry->answers[inside];
      if (inside)
        return entry->answers[1];
    }
}

static inline int
top_at (const AreaIndex *index, Vec2 point)
{
  const IndexGrid *grid = &index->grid;
  uint64_t column = column_of (grid, point.x), row = row_of (grid, point.y);
  if (column >= grid->n_columns || row >= grid->n_rows)
    return -1;
  IndexCell cell = index->cells[row * grid->n_columns + column];
  return cell > LISTED ? cell : top_of_list (index, index->entries + (LISTED - cell), point);
}

int
area_index_top (const AreaIndex *index, Vec2 point)
{
  return top_at (index, point);
}

/* Points that are looked up together. */
#define N_TOGETHER 64

/* The cells of all points first, which the processor looks up side by side; then those whose cell has edges, with nothing to guess between them. */
static void
tops_together (const AreaIndex *index, const double *x, const double *y, size_t n, int *tops)
{
  const IndexGrid *grid = &index->grid;
  uint8_t listed[N_TOGETHER];
  size_t n_listed = 0;
  for (size_t i = 0; i < n; i++)
    {
      uint64_t column = column_of (grid, x[i]), row = row_of (grid, y[i]);
      bool is_out = (column >= grid->n_columns) | (row >= grid->n_rows);
      IndexCell cell = index->cells[is_out ? 0 : row * grid->n_columns + column];
      tops[i] = is_out ? -1 : cell;
      listed[n_listed] = (uint8_t)i;
      n_listed += tops[i] <= LISTED;
    }
  for (size_t k = 0; k < n_listed; k++)
    __builtin_prefetch (&index->entries[LISTED - tops[listed[k]]]);
  for (size_t k = 0; k < n_listed; k++)
    {
      size_t i = listed[k];
      tops[i] = top_of_list (index, index->entries + (LISTED - tops[i]), vec2 (x[i], y[i]));
    }
}

void
area_index_tops (const AreaIndex *index, const double *x, const double *y, size_t n, int *tops)
{
  for (size_t first = 0; first < n; first += N_TOGETHER)
    tops_together (index, x + first, y + first, n - first < N_TOGETHER ? n - first : N_TOGETHER, tops + first);
}

void
area_index_free (AreaIndex *index)
{
  if (index == NULL)
    return;
  free (index->cells);
  free (index->entries);
  free (index->lists);
  free (index->edges);
  free (index);
}
