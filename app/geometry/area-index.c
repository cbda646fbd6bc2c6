// SPDX-License-Identifier: GPL-3.0-or-later
/* Which of a stack of outlines is on top at a point. */
#include "geometry-private.h"

struct _AreaIndex
{
  Outline **outlines;
  size_t n_outlines;
};

static Outline *
outline_copy (const Outline *outline)
{
  size_t *sizes = geometry_resize (NULL, outline->n_rings, sizeof *sizes);
  for (size_t r = 0; r < outline->n_rings; r++)
    sizes[r] = outline->ring_starts[r + 1] - outline->ring_starts[r];
  Outline *copy = outline_new (outline->points, sizes, outline->n_rings, outline->even_odd);
  free (sizes);
  return copy;
}

AreaIndex *
area_index_new (const Outline *const *outlines, size_t n_outlines)
{
  AreaIndex *index = geometry_resize (NULL, 1, sizeof *index);
  index->n_outlines = n_outlines;
  index->outlines = geometry_resize (NULL, n_outlines, sizeof *index->outlines);
  for (size_t i = 0; i < n_outlines; i++)
    index->outlines[i] = outline_copy (outlines[i]);
  return index;
}

void
area_index_free (AreaIndex *index)
{
  if (index == NULL)
    return;
  for (size_t i = 0; i < index->n_outlines; i++)
    outline_free (index->outlines[i]);
  free (index->outlines);
  free (index);
}

int
area_index_top (const AreaIndex *index, Vec2 point)
{
  for (size_t i = index->n_outlines; i > 0; i--)
    if (outline_contains (index->outlines[i - 1], point))
      return (int)(i - 1);
  return -1;
}
