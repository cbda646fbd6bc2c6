// SPDX-License-Identifier: GPL-3.0-or-later
/* What trees on the way leave of the balls that come down in the cells of a field. */
#include "field-private.h"

Passage
field_passage (const Build *build, Vec2 landing)
{
  Value stopped;
  double passed = pass_trees (build->place, build->response, landing, &stopped);
  return (Passage){ (float)passed, (float)stopped.strokes, (float)stopped.again };
}

/* Does a ball come to one of the cells about a corner? */
static bool
is_corner_reached (const Field *field, const uint8_t *reached, int i, int j)
{
  for (int v = MAX (0, j - 1); v <= MIN (field->n_along - 1, j); v++)
    for (int u = MAX (0, i - 1); u <= MIN (field->n_across - 1, i); u++)
      if (reached[v * field->n_across + u] != 0)
        return true;
  return false;
}

Passage *
field_passages (const Build *build, const uint8_t *reached)
{
  const Field *field = build->field;
  if (build->place->ray_starts == NULL)
    return NULL;
  Passage *corners = g_new (Passage, (size_t)(field->n_across + 1) * (size_t)(field->n_along + 1));
  for (int j = 0; j <= field->n_along; j++)
    for (int i = 0; i <= field->n_across; i++)
      corners[j * (field->n_across + 1) + i] = is_corner_reached (field, reached, i, j)
                                                   ? field_passage (build, field_point (field, i - 0.5, j - 0.5))
                                                   : (Passage){ 1, 0, 0 };
  return corners;
}

Passage
field_passage_to_cell (const Build *build, const Passage *corners, size_t cell)
{
  size_t width = (size_t)build->field->n_across;
  Passage mean = { 0, 0, 0 };
  for (size_t k = 0; k < 4; k++)
    {
      const Passage *corner = &corners[cell + cell / width + (k & 1) + (k >> 1) * (width + 1)];
      mean.passed += 0.25F * corner->passed;
      mean.strokes += 0.25F * corner->strokes;
      mean.again += 0.25F * corner->again;
    }
  return mean;
}
