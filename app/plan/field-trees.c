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

/* Does a ball come to one of the cells about a cell of the lattice? */
static bool
is_asked (const Field *field, const uint8_t *reached, int i, int j)
{
  for (int v = MAX (0, j - 1); v <= MIN (field->n_along - 1, j + 1); v++)
    for (int u = MAX (0, i - 1); u <= MIN (field->n_across - 1, i + 1); u++)
      if (reached[v * field->n_across + u] != 0)
        return true;
  return false;
}

/* Every second cell each way. */
static int
lattice_width (const Field *field)
{
  return (field->n_across + 1) / 2;
}

Passage *
field_passages (const Build *build, const uint8_t *reached)
{
  const Field *field = build->field;
  if (build->place->ray_starts == NULL)
    return NULL;
  int width = lattice_width (field), height = (field->n_along + 1) / 2;
  Passage *passages = g_new (Passage, (size_t)width * (size_t)height);
  for (int j = 0; j < height; j++)
    for (int i = 0; i < width; i++)
      passages[j * width + i] = is_asked (field, reached, 2 * i, 2 * j)
                                    ? field_passage (build, field_point (field, 2 * i, 2 * j))
                                    : (Passage){ 1, 0, 0 };
  return passages;
}

Passage
field_passage_to_cell (const Build *build, const Passage *passages, size_t cell)
{
  const Field *field = build->field;
  int width = lattice_width (field), i = (int)(cell % (size_t)field->n_across), j = (int)(cell / (size_t)field->n_across);
  int i1 = MIN ((i + 1) / 2, width - 1), j1 = MIN ((j + 1) / 2, (field->n_along + 1) / 2 - 1);
  const Passage *about[] = { &passages[j / 2 * width + i / 2], &passages[j / 2 * width + i1], &passages[j1 * width + i / 2],
                             &passages[j1 * width + i1] };
  Passage mean = { 0, 0, 0 };
  for (int k = 0; k < 4; k++)
    {
      mean.passed += 0.25F * about[k]->passed;
      mean.strokes += 0.25F * about[k]->strokes;
      mean.again += 0.25F * about[k]->again;
    }
  return mean;
}
