// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Building the grid of an AreaIndex: area by area from the top, every edge is put into the cells near it, twice over the same
 * ground: first to count, then to fill. A cell wholly inside an area is closed to all areas below.
 */
#include "area-index-private.h"

#include <float.h>

/* Cells for each edge, and their bounds: measured, coarser grids answer slower and finer ones no faster. */
#define CELLS_PER_EDGE 64
#define LEAST_CELLS 256
#define MOST_CELLS 65536
/* Edges kept in cells, in all. Only a hostile drawing reaches it, and gets a coarser grid. */
#define MOST_KEPT (1u << 20)
/* Going over so many cells costs as much as keeping an edge (order of magnitude). */
#define CELLS_PER_KEPT 64
/* An edge this share of the drawing away from a cell is near: a million times what rounding can do. */
#define NEAR_SHARE 1e-9
/* Coordinates larger, or an extent smaller than this share of them, get a single cell: products could overflow. */
#define LARGEST_GRIDDED 1e100
#define LEAST_EXTENT_SHARE 1e-9
/* The box spans so much less than its number of columns or rows: half a cell at its start, a quarter at its end. */
#define ROUNDED_OFF 0.75
#define NONE UINT32_MAX

/* An entry while its cell's list is still growing: the last is followed by the first. */
typedef struct
{
  IndexEntry entry;
  uint32_t next;
  int32_t closed; /* of the last: the area wholly around the cell, or -1 */
} LinkedEntry;

/* The cells that one area can be in. */
typedef struct
{
  uint32_t column, row, n_columns, n_rows;
} Window;

typedef struct
{
  IndexGrid grid;
  Vec2 cell_m, near_m;
  IndexCell *cells; /* the area wholly around each, or -1; or the last of its entries: at LISTED - cell */
  LinkedEntry *entries;
  size_t n_entries, entries_capacity;
  uint32_t *lists;
  size_t n_listed, lists_capacity;
  IndexEdge *edges; /* room for an edge and a step of each corner */
  size_t n_edges;
  /* For the area in hand, by cell of its window. */
  Window window;
  uint32_t *counts;  /* edges near the cell; while filling, where the next goes */
  int32_t *windings; /* of the edges wholly on the right */
  bool filling;
} Build;

/* ---- the grid's size ---- */

/* What the building costs: an edge is kept in as many cells as it crosses columns and rows, and each area's box is gone over. */
static double
estimate_kept (const Outline *const *outlines, size_t n_outlines, double columns_per_m, double rows_per_m)
{
  double kept = 0;
  for (size_t k = 0; k < n_outlines; k++)
    {
      const Vec2 *p = outlines[k]->points;
      Box box = outlines[k]->bounds;
      if (!box_is_empty (box))
        kept += (1 + (box.x1 - box.x0) * columns_per_m) * (1 + (box.y1 - box.y0) * rows_per_m) / CELLS_PER_KEPT;
      for (size_t r = 0; r < outlines[k]->n_rings; r++)
        {
          size_t start = outlines[k]->ring_starts[r], end = outlines[k]->ring_starts[r + 1];
          for (size_t i = start, before = end - 1; i < end; before = i++)
            kept += 2 + fabs (p[i].x - p[before].x) * columns_per_m + fabs (p[i].y - p[before].y) * rows_per_m;
        }
    }
  return kept;
}

static bool
can_be_gridded (double low, double high)
{
  double largest = fmax (fabs (low), fabs (high));
  return largest < LARGEST_GRIDDED && high - low > largest * LEAST_EXTENT_SHARE && high - low > 1 / LARGEST_GRIDDED;
}

static IndexGrid
choose_grid (const Outline *const *outlines, size_t n_outlines, Box box)
{
  IndexGrid grid = { .n_columns = 1, .n_rows = 1 };
  if (!can_be_gridded (box.x0, box.x1) || !can_be_gridded (box.y0, box.y1))
    return grid;
  size_t n_edges = 0;
  for (size_t k = 0; k < n_outlines; k++)
    n_edges += outlines[k]->n_points;
  double width = box.x1 - box.x0, height = box.y1 - box.y0;
  grid.origin = vec2 (box.x0, box.y0);
  double n_cells = fmin (fmax ((double)n_edges * CELLS_PER_EDGE, LEAST_CELLS), MOST_CELLS);
  for (;; n_cells /= 4)
    {
      double columns = fmax (fmin (floor (sqrt (n_cells * width / height)), n_cells), 1);
      double rows = fmax (floor (n_cells / columns), 1);
      grid.n_columns = (uint64_t)columns;
      grid.n_rows = (uint64_t)rows;
      grid.columns_per_m = (columns - ROUNDED_OFF) / width;
      grid.rows_per_m = (rows - ROUNDED_OFF) / height;
      if (n_cells <= 1 || estimate_kept (outlines, n_outlines, grid.columns_per_m, grid.rows_per_m) <= MOST_KEPT)
        return grid;
    }
}

/* ---- one area ---- */

/* Of numbers that are finite: without the calls that NaN would need. */
static inline double
least (double a, double b)
{
  return a < b ? a : b;
}

static inline double
most (double a, double b)
{
  return a > b ? a : b;
}

static IndexEdge
make_edge (Vec2 a, Vec2 b)
{
  bool up = a.y <= b.y;
  Vec2 low = up ? a : b, high = up ? b : a;
  return (IndexEdge){ low.y, high.y, low.x, high.x, up ? 1 : -1 };
}

/* The columns that the edge is near, within a row that it reaches. */
static void
find_columns (const Build *build, const IndexEdge *edge, uint32_t row, uint32_t *first, uint32_t *last)
{
  *first = *last = 0;
  if (build->grid.n_columns == 1)
    return;
  double bottom = build->grid.origin.y + ((double)row - 0.5) * build->cell_m.y - build->near_m.y;
  double top = build->grid.origin.y + ((double)row + 0.5) * build->cell_m.y + build->near_m.y;
  double t0 = 0, t1 = 1;
  double dx = edge->high_x - edge->low_x, dy = edge->high_y - edge->low_y;
  if (dy > 0)
    {
      t0 = least (most ((bottom - edge->low_y) / dy, 0), 1);
      t1 = least (most ((top - edge->low_y) / dy, 0), 1);
    }
  double x0 = edge->low_x + dx * t0, x1 = edge->low_x + dx * t1;
  *first = (uint32_t)column_of (&build->grid, most (least (x0, x1) - build->near_m.x, least (edge->low_x, edge->high_x)));
  *last = (uint32_t)column_of (&build->grid, least (most (x0, x1) + build->near_m.x, most (edge->low_x, edge->high_x)));
}

static size_t
window_cell (const Build *build, uint32_t column, uint32_t row)
{
  return (size_t)(row - build->window.row) * build->window.n_columns + (column - build->window.column);
}

static size_t
grid_cell (const Build *build, uint32_t column, uint32_t row)
{
  return (size_t)row * build->grid.n_columns + column;
}

/* Counts, or puts in its place, an edge or a step of one cell. It gets a number, NONE until then, with the first cell that keeps it. */
static void
keep (Build *build, uint32_t column, uint32_t row, const IndexEdge *edge, uint32_t *number)
{
  uint32_t *count = &build->counts[window_cell (build, column, row)];
  if (!build->filling)
    ++*count;
  else if (*count != NONE)
    {
      if (*number == NONE)
        {
          *number = (uint32_t)build->n_edges++;
          build->edges[*number] = *edge;
        }
      build->lists[(*count)++] = *number;
    }
}

/* The first columns that an edge is near in the rows of its ends. */
typedef struct
{
  uint32_t at_a, at_b;
} FirstColumns;

static FirstColumns
add_edge (Build *build, Vec2 a, Vec2 b)
{
  IndexEdge edge = make_edge (a, b);
  uint32_t a_row = (uint32_t)row_of (&build->grid, a.y), b_row = (uint32_t)row_of (&build->grid, b.y);
  uint32_t first_row = edge.turn > 0 ? a_row : b_row, last_row = edge.turn > 0 ? b_row : a_row;
  uint32_t number = NONE;
  FirstColumns firsts = { 0, 0 };
  for (uint32_t row = first_row; row <= last_row; row++)
    {
      uint32_t first, last;
      find_columns (build, &edge, row, &first, &last);
      for (uint32_t column = first; column <= last && edge.high_y > edge.low_y; column++)
        keep (build, column, row, &edge, &number);
      /* For the cells on its left: ends below the row have been passed. */
      int passed = (a_row < row) - (b_row < row);
      if (!build->filling && first > build->window.column)
        build->windings[window_cell (build, first - 1, row)] += passed;
      firsts.at_a = row == a_row ? first : firsts.at_a;
      firsts.at_b = row == b_row ? first : firsts.at_b;
    }
  return firsts;
}

/* The vertex between two edges, each near its row from a column on: a step for the cells that have just one of the two wholly on their right. */
static void
add_step (Build *build, Vec2 vertex, uint32_t first_before, uint32_t first_after)
{
  IndexEdge step = { vertex.y, INFINITY, INFINITY, INFINITY, first_after > first_before ? 1 : -1 };
  uint32_t row = (uint32_t)row_of (&build->grid, vertex.y), number = NONE;
  uint32_t end = first_after > first_before ? first_after : first_before;
  for (uint32_t column = first_after > first_before ? first_before : first_after; column < end; column++)
    keep (build, column, row, &step, &number);
}

static void
add_outline (Build *build, const Outline *outline)
{
  const Vec2 *p = outline->points;
  for (size_t r = 0; r < outline->n_rings; r++)
    {
      size_t start = outline->ring_starts[r], end = outline->ring_starts[r + 1];
      FirstColumns first = add_edge (build, p[end - 1], p[start]), before = first;
      for (size_t i = start; i + 1 < end; i++)
        {
          FirstColumns after = add_edge (build, p[i], p[i + 1]);
          add_step (build, p[i], before.at_b, after.at_a);
          before = after;
        }
      add_step (build, p[end - 1], before.at_b, first.at_a);
    }
}

static LinkedEntry *
last_entry (const Build *build, size_t cell)
{
  return build->cells[cell] <= LISTED ? &build->entries[LISTED - build->cells[cell]] : NULL;
}

static void
link_entry (Build *build, size_t cell, IndexEntry entry)
{
  build->entries = geometry_make_room (build->entries, build->n_entries, &build->entries_capacity, sizeof *build->entries);
  uint32_t place = (uint32_t)build->n_entries++;
  LinkedEntry *last = last_entry (build, cell);
  build->entries[place] = (LinkedEntry){ entry, last == NULL ? place : last->next, -1 };
  if (last != NULL)
    last->next = place;
  build->cells[cell] = LISTED - (IndexCell)place;
}

static bool
is_closed (const Build *build, size_t cell)
{
  const LinkedEntry *last = last_entry (build, cell);
  return (last != NULL ? last->closed : build->cells[cell]) >= 0;
}

/* Areas below do not come to this cell. */
static void
close_cell (Build *build, size_t cell, int32_t area)
{
  LinkedEntry *last = last_entry (build, cell);
  *(last != NULL ? &last->closed : &build->cells[cell]) = area;
}

/* After counting: closes the cells wholly inside, and makes an entry with room for its edges in those that edges come near. */
static void
make_entries (Build *build, int32_t area, bool even_odd)
{
  const Window *window = &build->window;
  for (uint32_t row = window->row; row < window->row + window->n_rows; row++)
    {
      int32_t winding = 0;
      for (uint32_t column = window->column + window->n_columns; column-- > window->column;)
        {
          size_t here = window_cell (build, column, row), cell = grid_cell (build, column, row);
          winding += build->windings[here];
          uint32_t count = build->counts[here];
          if (count == 0)
            {
              if (winding_is_inside (even_odd, winding) && !is_closed (build, cell))
                close_cell (build, cell, area);
              continue;
            }
          build->counts[here] = NONE;
          if (is_closed (build, cell))
            continue;
          link_entry (build, cell,
                      (IndexEntry){ { -1, area }, winding, (uint32_t)build->n_listed, count, even_odd ? 1 : -1, false });
          build->counts[here] = (uint32_t)build->n_listed;
          build->n_listed += count;
        }
    }
  if (build->n_listed > build->lists_capacity)
    {
      build->lists_capacity = 2 * build->n_listed;
      build->lists = geometry_resize (build->lists, build->lists_capacity, sizeof *build->lists);
    }
}

static void
add_area (Build *build, int32_t area, const Outline *outline)
{
  if (box_is_empty (outline->bounds))
    return;
  Box box = outline->bounds;
  uint32_t column = (uint32_t)column_of (&build->grid, box.x0), row = (uint32_t)row_of (&build->grid, box.y0);
  uint32_t last_column = (uint32_t)column_of (&build->grid, box.x1), last_row = (uint32_t)row_of (&build->grid, box.y1);
  build->window = (Window){ column, row, last_column - column + 1, last_row - row + 1 };
  size_t n_cells = (size_t)build->window.n_columns * build->window.n_rows;
  memset (build->counts, 0, n_cells * sizeof *build->counts);
  memset (build->windings, 0, n_cells * sizeof *build->windings);
  build->filling = false;
  add_outline (build, outline);
  make_entries (build, area, outline->even_odd);
  build->filling = true;
  add_outline (build, outline);
}

/* ---- the whole ---- */

static void
begin_build (Build *build, const Outline *const *outlines, size_t n_outlines)
{
  Box box = box_empty ();
  for (size_t k = 0; k < n_outlines; k++)
    box = box_union (box, outlines[k]->bounds);
  IndexGrid grid = choose_grid (outlines, n_outlines, box);
  *build = (Build){ .grid = grid };
  size_t n_cells = (size_t)(grid.n_columns * grid.n_rows);
  double largest_x = fmax (fabs (box.x0), fabs (box.x1)), largest_y = fmax (fabs (box.y0), fabs (box.y1));
  build->cell_m = vec2 (1 / grid.columns_per_m, 1 / grid.rows_per_m);
  build->near_m.x = NEAR_SHARE * (box.x1 - box.x0) + 8 * DBL_EPSILON * largest_x;
  build->near_m.y = NEAR_SHARE * (box.y1 - box.y0) + 8 * DBL_EPSILON * largest_y;
  build->cells = geometry_resize (NULL, n_cells, sizeof *build->cells);
  size_t n_corners = 0;
  for (size_t k = 0; k < n_outlines; k++)
    n_corners += outlines[k]->n_points;
  build->edges = geometry_resize (NULL, 2 * n_corners, sizeof *build->edges);
  build->counts = geometry_resize (NULL, n_cells, sizeof *build->counts);
  build->windings = geometry_resize (NULL, n_cells, sizeof *build->windings);
  for (size_t i = 0; i < n_cells; i++)
    build->cells[i] = -1;
}

/* Lays entries and lists out in the order of the cells, so that one cell's are neighbours. The closed cells and the edges become the index's. */
static AreaIndex *
finish_build (Build *build)
{
  size_t n_cells = (size_t)(build->grid.n_columns * build->grid.n_rows);
  AreaIndex *index = geometry_resize (NULL, 1, sizeof *index);
  index->grid = build->grid;
  index->cells = build->cells;
  build->cells = NULL;
  index->entries = geometry_resize (NULL, build->n_entries, sizeof *index->entries);
  index->lists = geometry_resize (NULL, build->n_listed, sizeof *index->lists);
  index->edges = build->edges;
  build->edges = NULL;
  uint32_t n_entries = 0, n_listed = 0;
  for (size_t i = 0; i < n_cells; i++)
    {
      if (index->cells[i] > LISTED)
        continue;
      uint32_t last = (uint32_t)(LISTED - index->cells[i]);
      IndexCell closed = build->entries[last].closed;
      index->cells[i] = LISTED - (IndexCell)n_entries;
      for (uint32_t at = build->entries[last].next;; at = build->entries[at].next)
        {
          IndexEntry entry = build->entries[at].entry;
          memcpy (index->lists + n_listed, build->lists + entry.first_edge, entry.n_edges * sizeof *index->lists);
          entry.first_edge = n_listed;
          entry.answers[0] = closed;
          entry.is_last = at == last;
          n_listed += entry.n_edges;
          index->entries[n_entries++] = entry;
          if (at == last)
            break;
        }
    }
  return index;
}

static void
end_build (Build *build)
{
  free (build->cells);
  free (build->entries);
  free (build->lists);
  free (build->edges);
  free (build->counts);
  free (build->windings);
}

AreaIndex *
area_index_new (const Outline *const *outlines, size_t n_outlines)
{
  Build build;
  begin_build (&build, outlines, n_outlines);
  for (size_t k = n_outlines; k > 0; k--)
    add_area (&build, (int32_t)(k - 1), outlines[k - 1]);
  AreaIndex *index = finish_build (&build);
  end_build (&build);
  return index;
}
