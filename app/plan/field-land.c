// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What it costs to land in each cell of a field: a ball comes down there and is followed over the ground to its rest, as the odds follow theirs.
 *
 *      o . o . o     Where a cell and those about it are of one lie, a ball comes down in its middle: in every second cell each way (o), and in the others only where those about
 *      . . . # #     do not rest alike; else they are taken to rest between them. Where an edge crosses a cell (#), a ball comes down on each lie of it. Where it matters on which of the
 *      o . # # #     lies a ball comes down or, beside its neighbour's, rests, more balls do, on places of which no two are in one row or column.
 */
#include "field-private.h"

#include "odds-rests.h"

#include <math.h>

/* It matters on which of two lies a ball rests when they differ by so many strokes. */
#define MATTERS_STROKES 0.2
/* Places looked at in a cell that an edge crosses: no two in one row or column (N rooks; Shirley 1991). One in so many of those of one lie has a ball. */
#define PLACES_PER_BALL 4
#define N_MANY 16
static const unsigned char many[N_MANY] = { 5, 12, 1, 9, 14, 3, 7, 11, 0, 13, 4, 8, 15, 2, 10, 6 };
/* Where it does not matter, and of the balls of a cell whose ball rests elsewhere than its neighbour's where it does. */
#define N_FEW 4
static const unsigned char few[N_FEW] = { 1, 3, 0, 2 };
/* Balls followed at a time, so that all that is known of them stays near at hand. */
#define BATCH 256
/* Balls rest alike that have run equally far to this, in cells. */
#define MOST_APART 1.0
/* As the odds have it: a ball runs less far than it flies in this time at its speed over the ground when it comes down (common practice). */
#define RUN_SPEEDS_S 2.0

#define NO_LIE 0xff

typedef enum
{
  CELL_OUT,    /* no ball comes there; 0, as field_passages has it */
  CELL_EDGE,   /* part of it lies otherwise */
  CELL_SHARP,  /* and it matters */
  CELL_STAYS,  /* what comes there stays */
  CELL_WANTED, /* a ball in its middle is to be followed */
  CELL_KNOWN   /* where it rests is known */
} CellState;

typedef struct
{
  Vec2 at;
  uint8_t lie;
} RestPlace;

typedef struct
{
  const Build *build;
  RunGround *ground;
  Passage *corners;       /* field_passages */
  uint8_t *states, *lies; /* CellState; Lie of the cell's middle */
  RestPlace *rests;       /* of cells that are known */
} Lander;

/* ---- batches of balls ---- */

/* A ball that comes down somewhere in a cell. */
typedef struct
{
  size_t cell;
  Vec2 at;
  float share; /* of the cell's balls */
} Fall;

typedef struct
{
  Lander *lander;
  void (*take) (Lander *lander, const Fall *fall, const RestPlace *rest);
  size_t n;
  Fall falls[BATCH];
  FlightPoint landings[BATCH];
  Vec2 rests[BATCH];
  int lands[BATCH], areas[BATCH];
} Batch;

static void
follow_batch (Batch *batch)
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

static void
let_fall (Batch *batch, size_t cell, Vec2 at, double share)
{
  batch->falls[batch->n++] = (Fall){ cell, at, (float)share };
  if (batch->n == BATCH)
    follow_batch (batch);
}

/* ---- lies ---- */

static size_t
n_cells (const Field *field)
{
  return (size_t)field->n_across * (size_t)field->n_along;
}

static Vec2
cell_middle (const Field *field, size_t cell)
{
  return field_point (field, (double)(cell % (size_t)field->n_across), (double)(cell / (size_t)field->n_across));
}

/* Does it count how exactly the cell is worth what it is? */
static bool
is_dense (const Lander *lander, size_t cell)
{
  return field_is_in (lander->build, &lander->build->dense, cell_middle (lander->build->field, cell));
}

static void
find_lies (Lander *lander)
{
  const Field *field = lander->build->field;
  const Hole *hole = lander->build->place->input.hole;
  size_t width = (size_t)field->n_across;
  g_autofree double *x = g_new (double, 2 * width);
  g_autofree int *areas = g_new (int, width);
  double *y = x + width;
  for (size_t first = 0; first < n_cells (field); first += width)
    {
      size_t n = 0;
      for (size_t i = 0; i < width; i++)
        {
          Vec2 at = cell_middle (field, first + i);
          lander->states[first + i] = field_is_in (lander->build, &lander->build->all, at) ? CELL_WANTED : CELL_OUT;
          if (lander->states[first + i] == CELL_OUT)
            continue;
          x[n] = at.x;
          y[n++] = at.y;
        }
      hole_areas_at (hole, x, y, n, areas);
      n = 0;
      for (size_t i = 0; i < width; i++)
        if (lander->states[first + i] != CELL_OUT)
          lander->lies[first + i] = (uint8_t)hole_area_lie (hole, areas[n++]);
    }
}

/* Do the neighbours lie alike? */
static bool
is_even (const Lander *lander, int i, int j)
{
  const Field *field = lander->build->field;
  uint8_t lie = lander->lies[j * field->n_across + i];
  for (int v = MAX (0, j - 1); v <= MIN (field->n_along - 1, j + 1); v++)
    for (int u = MAX (0, i - 1); u <= MIN (field->n_across - 1, i + 1); u++)
      if (lander->states[v * field->n_across + u] != CELL_OUT && lander->lies[v * field->n_across + u] != lie)
        return false;
  return true;
}

/* So many cells beside edges are looked at together, each at its corners. */
#define CORNERS 4
#define N_LOOKED 256

typedef struct
{
  size_t cells[N_LOOKED], n;
  double x[CORNERS * N_LOOKED], y[CORNERS * N_LOOKED];
} Looked;

static bool
does_matter (const Lander *lander, Vec2 at, Lie one, Lie other)
{
  const Place *place = lander->build->place;
  double hole_m = length_of (vec2_sub (at, place->target));
  return one != other
         && fabs (strokes_to_hole (place->input.table, one, hole_m) - strokes_to_hole (place->input.table, other, hole_m))
                > MATTERS_STROKES;
}

/* An edge crosses those of which a corner lies otherwise than the middle. */
static void
look_at_corners (Lander *lander, Looked *looked)
{
  const Hole *hole = lander->build->place->input.hole;
  int areas[CORNERS * N_LOOKED];
  hole_areas_at (hole, looked->x, looked->y, CORNERS * looked->n, areas);
  for (size_t k = 0; k < CORNERS * looked->n; k++)
    {
      size_t cell = looked->cells[k / CORNERS];
      Lie lie = hole_area_lie (hole, areas[k]), middle = (Lie)lander->lies[cell];
      if (lie != middle && lander->states[cell] != CELL_SHARP)
        lander->states[cell] = does_matter (lander, vec2 (looked->x[k], looked->y[k]), lie, middle) ? CELL_SHARP : CELL_EDGE;
    }
  looked->n = 0;
}

static void
look_closer (Lander *lander, Looked *looked, int i, int j)
{
  const Field *field = lander->build->field;
  for (int k = 0; k < CORNERS; k++)
    {
      Vec2 at = field_point (field, i + (k & 1) - 0.5, j + (k >> 1) - 0.5);
      looked->x[CORNERS * looked->n + (size_t)k] = at.x;
      looked->y[CORNERS * looked->n + (size_t)k] = at.y;
    }
  looked->cells[looked->n++] = (size_t)(j * field->n_across + i);
  if (looked->n == N_LOOKED)
    look_at_corners (lander, looked);
}

static void
find_states (Lander *lander)
{
  const Field *field = lander->build->field;
  Looked looked = { .n = 0 };
  for (int j = 0; j < field->n_along; j++)
    for (int i = 0; i < field->n_across; i++)
      {
        size_t cell = (size_t)(j * field->n_across + i);
        if (lander->states[cell] == CELL_OUT)
          continue;
        if (lander->build->place->stops[lander->lies[cell]])
          lander->states[cell] = CELL_STAYS;
        if (!is_even (lander, i, j) && is_dense (lander, cell))
          look_closer (lander, &looked, i, j);
      }
  look_at_corners (lander, &looked);
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
      Vec2 way = vec2_sub (lander->rests[about].at, cell_middle (field, about));
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
  rest->at = vec2_add (cell_middle (field, here), mean);
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
      rest->at = vec2_add (cell_middle (field, here), vec2_sub (lander->rests[about].at, cell_middle (field, about)));
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
                  && (rest_between (lander, i, j, &rest) || (!is_dense (lander, cell) && rest_beside (lander, i, j, &rest))))
                lander->rests[cell] = rest;
              else
                let_fall (batch, cell, cell_middle (field, cell), 1);
            }
        }
      follow_batch (batch);
    }
  return true;
}

/* ---- what it costs ---- */

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
      = lander->corners != NULL ? field_passage_to_cell (lander->build, lander->corners, cell) : (Passage){ 1, 0, 0 };
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
    let_fall (batch, (size_t)(j * field->n_across + i), place_within (field, i, j, few, k, N_FEW), 1.0 / N_FEW);
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
    let_fall (batch, cell, places[(2 * k + 1) * n / (2 * n_balls)], n * share / n_balls);
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
  Vec2 at = lander->states[cell] == CELL_KNOWN ? lander->rests[cell].at : cell_middle (field, cell);
  Lie fate = fate_of (lander, cell);
  for (int k = 0; k < 4; k++)
    {
      int u = i + across[k], v = j + along[k];
      if (u < 0 || v < 0 || u >= field->n_across || v >= field->n_along)
        continue;
      size_t about = (size_t)(v * field->n_across + u);
      if (lander->states[about] != CELL_OUT && does_matter (lander, at, fate, fate_of (lander, about)))
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
  const RestPlace stays = { cell_middle (field, cell), lander->lies[cell] };
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
      if (is_dense (lander, cell) && is_between_fates (lander, i, j))
        let_fall_many (batch, i, j);
      else
        add_whole (lander, cell, &lander->rests[cell]);
      break;
    case CELL_OUT:
    case CELL_WANTED:
      break;
    }
}

static bool
value_cells (Batch *batch, GError **error)
{
  const Lander *lander = batch->lander;
  const Field *field = lander->build->field;
  batch->take = take_part;
  for (size_t cell = 0; cell < n_cells (field); cell++)
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
  follow_batch (batch);
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
  size_t n = n_cells (field), n_padded = (size_t)field->pitch * (size_t)field->n_along;
  g_autoptr (RunGround) ground = run_ground_new (place->input.hole, &place->conditions, reached_box (build));
  g_autofree uint8_t *states = g_new (uint8_t, n), *lies = g_new (uint8_t, n);
  g_autofree RestPlace *rests = g_new (RestPlace, n);
  g_autofree Batch *batch = g_new (Batch, 1);
  Lander lander = { .build = build, .ground = ground, .states = states, .lies = lies, .rests = rests };
  batch->lander = &lander;
  batch->n = 0;
  find_lies (&lander);
  find_states (&lander);
  lander.corners = field_passages (build, states);
  bool is_landed = follow_middles (batch, error) && value_cells (batch, error);
  g_free (lander.corners);
  if (!is_landed)
    return false;
  bool has_again = false;
  for (size_t i = 0; i < n_padded && !has_again; i++)
    has_again = field->again[i] > 0;
  if (!has_again)
    g_clear_pointer (&field->again, g_free);
  return true;
}
