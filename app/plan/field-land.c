// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What it costs to land in each cell of a field: a ball comes down there and is followed over the ground to its rest, as the odds follow theirs.
 *
 *      o . o . o     Where a cell and those about it are of one lie, a ball comes down in its middle: in every second cell each way (o), and in the others only where those about
 *      . . . # #     do not rest alike; else they are taken to rest between them. Where an edge crosses a cell (#), a ball comes down on each lie of it. Where it matters on which of the
 *      o . # # #     lies a ball comes down or, beside its neighbour's, rests, more balls do, on places of which no two are in one row or column.
 */
#include "field-land-private.h"

/* Balls rest alike that have run equally far to this, in cells. */
#define MOST_APART 1.0
/* As the odds have it: a ball runs less far than it flies in this time at its speed over the ground when it comes down (common practice). */
#define RUN_SPEEDS_S 2.0

/* ---- batches of balls ---- */

void
lander_follow (Batch *batch)
{
  Lander *lander = batch->lander;
  const Hole *hole = lander->build->place->input.hole;
  for (size_t k = 0; k < batch->n; k++)
    batch->landings[k] = response_landing (lander->build->response, lander->build->place->input.ball, batch->falls[k].at);
  run_ground_follow (lander->ground, batch->landings, batch->n, batch->rests, batch->lands, batch->areas);
  for (size_t k = 0; k < batch->n; k++)
    {
      RestPlace rest = { batch->rests[k], (uint8_t)hole_area_lie (hole, batch->areas[k]) };
      batch->take (lander, &batch->falls[k], &rest);
    }
  batch->n = 0;
}

void
lander_let_fall (Batch *batch, size_t cell, Vec2 at, double share)
{
  batch->falls[batch->n++] = (Fall){ cell, at, (float)share };
  if (batch->n == BATCH)
    lander_follow (batch);
}

/* ---- balls in the middles of cells ---- */

static void
take_middle (Lander *lander, const Fall *fall, const RestPlace *rest)
{
  lander->rests[fall->cell] = *rest;
  lander->states[fall->cell] = CELL_KNOWN;
}

/* Of a cell without a ball the mean of the two or four about it. False where those are not alike. */
static bool
rest_between (const Lander *lander, int i, int j, RestPlace *rest)
{
  const Field *field = lander->build->field;
  size_t here = (size_t)(j * field->n_across + i);
  Vec2 first = { 0, 0 }, mean = { 0, 0 };
  double most_m = MOST_APART * field->step_m;
  for (int k = 0; k < 4; k++)
    {
      int u = i + i % 2 * (k % 2 * 2 - 1), v = j + j % 2 * (k / 2 * 2 - 1);
      if (u >= field->n_across || v >= field->n_along)
        return false;
      size_t about = (size_t)(v * field->n_across + u);
      if (lander->states[about] != CELL_KNOWN || lander->lies[about] != lander->lies[here])
        return false;
      Vec2 way = vec2_sub (lander->rests[about].at, field_cell_middle (field, about));
      if (k == 0)
        {
          first = way;
          rest->lie = lander->rests[about].lie;
        }
      Vec2 apart = vec2_sub (way, first);
      if (lander->rests[about].lie != rest->lie || vec2_dot (apart, apart) > most_m * most_m)
        return false;
      mean = vec2_add (mean, vec2_scale (way, 0.25));
    }
  rest->at = vec2_add (field_cell_middle (field, here), mean);
  return rest->lie != LIE_PENALTY && hole_lie_at (lander->build->place->input.hole, rest->at) == (Lie)rest->lie;
}

/* The same where a cell weighs little: it goes as one of those about it did that lie alike, the one nearer to the middle first, so that a mirrored field is the field mirrored. */
static bool
rest_beside (const Lander *lander, int i, int j, RestPlace *rest)
{
  const Field *field = lander->build->field;
  size_t here = (size_t)(j * field->n_across + i);
  int inwards = (2 * i + 1 < field->n_across) - (2 * i + 1 > field->n_across);
  for (int k = 0; k < 4 && inwards != 0; k++)
    {
      int u = i + i % 2 * inwards * (1 - k % 2 * 2), v = j + j % 2 * (k / 2 * 2 - 1);
      size_t about = (size_t)(v * field->n_across + u);
      if (u < 0 || u >= field->n_across || v >= field->n_along || lander->states[about] != CELL_KNOWN
          || lander->lies[about] != lander->lies[here])
        continue;
      rest->at
          = vec2_add (field_cell_middle (field, here), vec2_sub (lander->rests[about].at, field_cell_middle (field, about)));
      rest->lie = (uint8_t)hole_lie_at (lander->build->place->input.hole, rest->at);
      return rest->lie != LIE_PENALTY;
    }
  return false;
}

static bool
is_of_lattice (int i, int j)
{
  return i % 2 == 0 && j % 2 == 0;
}

/* The cells of the lattice first; then the others, which are between them or followed as well. */
static bool
follow_middles (Batch *batch, GError **error)
{
  Lander *lander = batch->lander;
  const Field *field = lander->build->field;
  batch->take = take_middle;
  for (int between = 0; between < 2; between++)
    {
      for (int j = 0; j < field->n_along; j++)
        {
          if (place_is_cancelled (lander->build->place, error))
            return false;
          for (int i = 0; i < field->n_across; i++)
            {
              size_t cell = (size_t)(j * field->n_across + i);
              RestPlace rest = { { 0, 0 }, 0 };
              if (lander->states[cell] != CELL_WANTED || is_of_lattice (i, j) != (between == 0))
                continue;
              if (between == 1
                  && (rest_between (lander, i, j, &rest)
                      || (!lander_is_dense (lander, cell) && rest_beside (lander, i, j, &rest))))
                lander->rests[cell] = rest;
              else
                lander_let_fall (batch, cell, field_cell_middle (field, cell), 1);
            }
        }
      lander_follow (batch);
    }
  return true;
}

/* ---- all of it ---- */

static Box
reached_box (const Build *build)
{
  const Field *field = build->field;
  Box box = box_empty ();
  for (int k = 0; k < 4; k++)
    box = box_with_point (box, field_point (field, (k & 1) * field->n_across, (k >> 1) * field->n_along));
  return box_grown (box, RUN_SPEEDS_S * response_landing_mps (build->response));
}

bool
field_land (const Build *build, GError **error)
{
  Field *field = build->field;
  const Place *place = build->place;
  size_t n = field_n_cells (field), n_padded = (size_t)field->pitch * (size_t)field->n_along;
  g_autoptr (RunGround) ground = run_ground_new (place->input.hole, &place->conditions, reached_box (build));
  g_autofree uint8_t *states = g_new (uint8_t, n), *lies = g_new (uint8_t, n);
  g_autofree RestPlace *rests = g_new (RestPlace, n);
  g_autofree Batch *batch = g_new (Batch, 1);
  Lander lander = { .build = build, .ground = ground, .states = states, .lies = lies, .rests = rests };
  batch->lander = &lander;
  batch->n = 0;
  lander_find_lies (&lander);
  lander.passages = field_passages (build, states);
  bool is_landed = follow_middles (batch, error) && lander_value_cells (batch, error);
  g_free (lander.passages);
  if (!is_landed)
    return false;
  bool has_again = false;
  for (size_t i = 0; i < n_padded && !has_again; i++)
    has_again = field->again[i] > 0;
  if (!has_again)
    g_clear_pointer (&field->again, g_free);
  return true;
}
