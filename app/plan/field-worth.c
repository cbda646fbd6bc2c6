// SPDX-License-Identifier: GPL-3.0-or-later
/* What landing costs in each cell of a field: of its ball, or where it matters of several, each on its lie. */
#include "field-land-private.h"

/* Places looked at in a cell that an edge crosses: no two in one row or column (N rooks; Shirley 1991). One in so many of those of one lie has a ball. */
#define PLACES_PER_BALL 8
#define N_MANY 16
static const unsigned char many[N_MANY] = { 5, 12, 1, 9, 14, 3, 7, 11, 0, 13, 4, 8, 15, 2, 10, 6 };
/* Where it does not matter, and of the balls of a cell whose ball rests elsewhere than its neighbour's where it does. */
#define N_FEW 4
static const unsigned char few[N_FEW] = { 1, 3, 0, 2 };
#define NO_LIE 0xff

/* What becomes of a share of a cell's balls: they rest there, but for those that trees on the way stop. */
static void
add_value (const Lander *lander, size_t cell, float share, const Passage *passage, const RestPlace *rest)
{
  Field *field = lander->build->field;
  Value value = value_at_rest (lander->build->place, rest->at, (Lie)rest->lie);
  size_t i = cell / (size_t)field->n_across * (size_t)field->pitch + cell % (size_t)field->n_across;
  field->strokes[i] += share * (passage->strokes + passage->passed * (float)value.strokes);
  field->again[i] += share * (passage->again + passage->passed * (float)value.again);
}

static void
add_fall (const Lander *lander, const Fall *fall, const RestPlace *rest)
{
  Passage passage = field_passage (lander->build, fall->at);
  add_value (lander, fall->cell, fall->share, &passage, rest);
}

static void
add_whole (const Lander *lander, size_t cell, const RestPlace *rest)
{
  Passage passage
      = lander->passages != NULL ? field_passage_to_cell (lander->build, lander->passages, cell) : (Passage){ 1, 0, 0 };
  add_value (lander, cell, 1, &passage, rest);
}

static void
take_part (Lander *lander, const Fall *fall, const RestPlace *rest)
{
  add_fall (lander, fall, rest);
}

/* Place k of n in a cell, one in each row and column; left of the middle the places are mirrored. */
static Vec2
place_within (const Field *field, int i, int j, const unsigned char *rows, int k, int n)
{
  double side = 2 * i < field->n_across ? -1 : 1;
  return field_point (field, i + side * ((k + 0.5) / n - 0.5), j + (rows[k] + 0.5) / n - 0.5);
}

static void
let_fall_many (Batch *batch, int i, int j)
{
  const Field *field = batch->lander->build->field;
  for (int k = 0; k < N_FEW; k++)
    lander_let_fall (batch, (size_t)(j * field->n_across + i), place_within (field, i, j, few, k, N_FEW), 1.0 / N_FEW);
}

/* Balls on the places of one lie in a cell that an edge crosses, each worth `share`: where they stay, all count at the middle one. */
static void
let_fall_on (Batch *batch, size_t cell, const Vec2 *places, int n, double share, uint8_t lie)
{
  if (batch->lander->build->place->stops[lie])
    {
      const Fall fall = { cell, places[n / 2], (float)(n * share) };
      add_fall (batch->lander, &fall, &(RestPlace){ fall.at, lie });
      return;
    }
  int n_balls = (n + PLACES_PER_BALL - 1) / PLACES_PER_BALL;
  for (int k = 0; k < n_balls; k++)
    lander_let_fall (batch, cell, places[(2 * k + 1) * n / (2 * n_balls)], n * share / n_balls);
}

static void
let_fall_by_lies (Batch *batch, int i, int j, const unsigned char *rows, int n_places)
{
  const Field *field = batch->lander->build->field;
  const Hole *hole = batch->lander->build->place->input.hole;
  double x[N_MANY], y[N_MANY];
  int areas[N_MANY];
  uint8_t lies[N_MANY];
  for (int k = 0; k < n_places; k++)
    {
      Vec2 at = place_within (field, i, j, rows, k, n_places);
      x[k] = at.x;
      y[k] = at.y;
    }
  hole_areas_at (hole, x, y, (size_t)n_places, areas);
  for (int k = 0; k < n_places; k++)
    lies[k] = (uint8_t)hole_area_lie (hole, areas[k]);
  for (int k = 0; k < n_places; k++)
    {
      Vec2 places[N_MANY];
      int n = 0;
      uint8_t lie = lies[k];
      for (int m = k; m < n_places && lie != NO_LIE; m++)
        if (lies[m] == lie)
          {
            places[n++] = vec2 (x[m], y[m]);
            lies[m] = NO_LIE;
          }
      if (n > 0)
        let_fall_on (batch, (size_t)(j * field->n_across + i), places, n, 1.0 / n_places, lie);
    }
}

/* On what a cell's ball rests, as far as that is known. */
static Lie
fate_of (const Lander *lander, size_t cell)
{
  return (Lie)(lander->states[cell] == CELL_KNOWN ? lander->rests[cell].lie : lander->lies[cell]);
}

/* Does a neighbour's ball rest where it matters? */
static bool
is_between_fates (const Lander *lander, int i, int j)
{
  const Field *field = lander->build->field;
  const int across[] = { -1, 1, 0, 0 }, along[] = { 0, 0, -1, 1 };
  size_t cell = (size_t)(j * field->n_across + i);
  Vec2 at = lander->states[cell] == CELL_KNOWN ? lander->rests[cell].at : field_cell_middle (field, cell);
  Lie fate = fate_of (lander, cell);
  for (int k = 0; k < 4; k++)
    {
      int u = i + across[k], v = j + along[k];
      if (u < 0 || v < 0 || u >= field->n_across || v >= field->n_along)
        continue;
      size_t about = (size_t)(v * field->n_across + u);
      if (lander->states[about] != CELL_OUT && lander_does_matter (lander, at, fate, fate_of (lander, about)))
        return true;
    }
  return false;
}

static void
value_cell (Batch *batch, int i, int j)
{
  const Lander *lander = batch->lander;
  const Field *field = lander->build->field;
  size_t cell = (size_t)(j * field->n_across + i);
  const RestPlace stays = { field_cell_middle (field, cell), lander->lies[cell] };
  switch ((CellState)lander->states[cell])
    {
    case CELL_SHARP:
      let_fall_by_lies (batch, i, j, many, N_MANY);
      break;
    case CELL_EDGE:
      if (is_between_fates (lander, i, j))
        let_fall_by_lies (batch, i, j, many, N_MANY);
      else
        let_fall_by_lies (batch, i, j, few, N_FEW);
      break;
    case CELL_STAYS:
      add_whole (lander, cell, &stays);
      break;
    case CELL_KNOWN:
      if (lander_is_dense (lander, cell) && is_between_fates (lander, i, j))
        let_fall_many (batch, i, j);
      else
        add_whole (lander, cell, &lander->rests[cell]);
      break;
    case CELL_OUT:
    case CELL_WANTED:
      break;
    }
}

bool
lander_value_cells (Batch *batch, GError **error)
{
  const Lander *lander = batch->lander;
  const Field *field = lander->build->field;
  batch->take = take_part;
  for (size_t cell = 0; cell < field_n_cells (field); cell++)
    if (lander->states[cell] == CELL_WANTED)
      lander->states[cell] = CELL_KNOWN;
  /* Far cells first, so that drops found for them serve the nearer ones. */
  for (int j = field->n_along; j-- > 0;)
    {
      if (place_is_cancelled (lander->build->place, error))
        return false;
      for (int i = 0; i < field->n_across; i++)
        value_cell (batch, i, j);
    }
  lander_follow (batch);
  return true;
}
