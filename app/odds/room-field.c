// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What becomes of balls that come down about a pattern and farther round: found once at each place and kept, however often the pattern is moved.
 *
 *      +-------+-------+     Balls come down at the corners of cells a third of a deviation wide and run on. A cell at whose corners the same becomes is one
 *      |       | +-+-+ |     piece; any other is quartered into pieces, down to a twelfth where one ball ends in trouble and its neighbour does not. A corner
 *      +-------+-+-+-+-+     stands for a quarter of its piece. Cells are looked at when a pattern first reaches them.
 *
 * A moved pattern is then sums of normal shares over pieces. As in rest.c only the shares of what lands on an area that end in trouble come from the pieces; how much
 * lands there is the exact integral.
 */
#include "room-private.h"

#include <math.h>

/* The pattern as far as these deviations; what is beyond goes with the cells at the rim. */
#define FARTHEST_SDS 3.6
/* Places are numbered in pieces of the finest size, so many to a cell and to a deviation. */
#define CELL 8
#define A_DEVIATION (3 * CELL)
#define MOST_PLACES (8 * A_DEVIATION + 2 * CELL) /* more than twice FARTHEST_SDS and a cell at each end */
/* A piece at whose corners not the same becomes is quartered down to this size, and where some but not all end in trouble to the other. */
#define MIXED_SIZE 4
#define TROUBLE_SIZE 2
/* The grid of a pattern without width, or with balls on one line, is as fine as that of one at least so wide. */
#define LEAST_SD_M 0.1
#define MOST_CORRELATION 0.99
/* Cells each way; the grid of a pattern that would need more is wider. */
#define MOST_SIDE 1200
/* As in rest.c: why the grid lies askew. */
#define SKEW_RAD 0.5535743588970452

/* Balls that land on one area, and whether they rest in trouble: areas by their order, the ground last. */
typedef struct
{
  guint area;
  bool is_trouble;
} Fate;

typedef struct
{
  int i, j, size;
  Fate corners[4];
} Piece;

typedef struct
{
  GArray *pieces;           /* of Piece; NULL: not looked for yet */
  guint known[CELL * CELL]; /* fate at each of its places, as a number + 1; 0: not found yet */
} Cell;

struct _RoomField
{
  const Ground *ground;
  const Faces *faces;
  SlopePatch patch;
  Strike strike;
  Normal askew;         /* of the pattern where it is, by vectors turned in it; never without width */
  Cell **cells;         /* by column and row; NULL: no ball came down in it yet */
  int n_side;           /* so many of them each way, the pattern in the middle where it is */
  double *landing;      /* room for the chances of all areas and the ground */
  double *landed, *bad; /* the same, by pieces */
};

/* ---- places ---- */

/* The cell of a place, made when it is first asked for. */
static Cell *
cell_at (const RoomField *field, int i, int j)
{
  int middle = field->n_side / 2 * CELL;
  size_t column = (size_t)(i + middle) / CELL, row = (size_t)(j + middle) / CELL;
  g_assert (column < (size_t)field->n_side && row < (size_t)field->n_side);
  Cell **cell = &field->cells[column * (size_t)field->n_side + row];
  if (*cell == NULL)
    *cell = g_new0 (Cell, 1);
  return *cell;
}

static Vec2
place_at (const RoomField *field, int i, int j)
{
  double u = (double)i / A_DEVIATION, v = (double)j / A_DEVIATION;
  return vec2_add (field->askew.mean, vec2_add (vec2_scale (field->askew.a, u), vec2_scale (field->askew.b, v)));
}

static Kind
kind_of (const Hole *hole, int part)
{
  return part >= 0 ? hole_part (hole, (size_t)part)->kind : hole_info (hole)->ground;
}

/* 0 there: the ball of that place has not been followed. */
static guint *
known_at (const RoomField *field, int i, int j)
{
  int middle = field->n_side / 2 * CELL;
  return &cell_at (field, i, j)->known[(i + middle) % CELL * CELL + (j + middle) % CELL];
}

static Fate
fate_at (const RoomField *field, int i, int j)
{
  guint number = *known_at (field, i, j) - 1;
  return (Fate){ number / 2, number % 2 };
}

/* ---- what a pattern reaches ---- */

/* The places along one axis that a pattern moved by so many deviations reaches: a whole number of cells, and the chance below each. */
typedef struct
{
  int first, last;
  double below[MOST_PLACES];
} Axis;

static void
axis_init (Axis *axis, double moved)
{
  axis->first = CELL * (int)floor ((moved - FARTHEST_SDS) * A_DEVIATION / CELL);
  axis->last = CELL * (int)ceil ((moved + FARTHEST_SDS) * A_DEVIATION / CELL);
  for (int i = axis->first; i <= axis->last; i++)
    axis->below[i - axis->first] = i == axis->first ? 0 : i == axis->last ? 1 : normal_below ((double)i / A_DEVIATION - moved);
}

static double
axis_share (const Axis *axis, int from, int size)
{
  return axis->below[from + size - axis->first] - axis->below[from - axis->first];
}

/* ---- pieces ---- */

/* A piece that is to be looked at, of a cell whose pieces are being found. */
typedef struct
{
  int i, j, size;
  GArray *pieces;
} Wanted;

typedef struct
{
  int i, j;
} Place;

/* Follows the balls of these places, all together. */
static void
follow (RoomField *field, const GArray *places)
{
  const Hole *hole = field->ground->hole;
  size_t n = places->len;
  g_autofree Vec2 *landings = g_new (Vec2, n + 1);
  g_autofree int *lands = g_new (int, 2 * n + 1);
  int *rests = lands + n;
  for (size_t k = 0; k < n; k++)
    {
      Place place = g_array_index (places, Place, k);
      landings[k] = place_at (field, place.i, place.j);
    }
  rest_land_all (&field->patch, &(Falls){ &field->strike.landing, landings, 0, n }, lands, rests, NULL);
  for (size_t k = 0; k < n; k++)
    {
      Place place = g_array_index (places, Place, k);
      guint area = lands[k] >= 0 ? (guint)lands[k] : (guint)hole_n_areas (hole);
      Kind rest = kind_of (hole, rests[k] >= 0 ? (int)hole_area_part (hole, (size_t)rests[k]) : -1);
      *known_at (field, place.i, place.j) = 1 + 2 * area + kind_info (rest)->is_trouble;
    }
}

/* Makes the corners of wanted pieces known. */
static void
follow_corners (RoomField *field, const GArray *wanted)
{
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (Place));
  for (guint n = 0; n < wanted->len; n++)
    for (int k = 0; k < 4; k++)
      {
        const Wanted *piece = &g_array_index (wanted, Wanted, n);
        Place place = { piece->i + (k & 1) * piece->size, piece->j + (k >> 1) * piece->size };
        guint *known = known_at (field, place.i, place.j);
        if (*known != 0)
          continue;
        *known = 1; /* about to be found */
        g_array_append_val (places, place);
      }
  follow (field, places);
}

/* Keeps a piece, or quarters it into `smaller` ones. */
static void
take_piece (RoomField *field, const Wanted *wanted, GArray *smaller)
{
  Piece piece = { wanted->i, wanted->j, wanted->size, { { 0 } } };
  bool is_same = true, is_mixed = false;
  for (int k = 0; k < 4; k++)
    {
      piece.corners[k] = fate_at (field, piece.i + (k & 1) * piece.size, piece.j + (k >> 1) * piece.size);
      is_same &= piece.corners[k].area == piece.corners[0].area;
      is_mixed |= piece.corners[k].is_trouble != piece.corners[0].is_trouble;
    }
  int half = piece.size / 2;
  if (piece.size > (is_mixed ? TROUBLE_SIZE : is_same ? CELL : MIXED_SIZE))
    for (int k = 0; k < 4; k++)
      {
        Wanted quarter = { piece.i + (k & 1) * half, piece.j + (k >> 1) * half, half, wanted->pieces };
        g_array_append_val (smaller, quarter);
      }
  else
    g_array_append_val (wanted->pieces, piece);
}

/* Finds the pieces of all cells that a pattern reaches. */
static void
look_at_cells (RoomField *field, const Axis *along, const Axis *across)
{
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (Wanted)),
                     smaller = g_array_new (FALSE, FALSE, sizeof (Wanted));
  for (int i = along->first; i < along->last; i += CELL)
    for (int j = across->first; j < across->last; j += CELL)
      {
        Cell *cell = cell_at (field, i, j);
        if (cell->pieces != NULL)
          continue;
        cell->pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
        Wanted whole = { i, j, CELL, cell->pieces };
        g_array_append_val (wanted, whole);
      }
  while (wanted->len > 0)
    {
      follow_corners (field, wanted);
      g_array_set_size (smaller, 0);
      for (guint n = 0; n < wanted->len; n++)
        take_piece (field, &g_array_index (wanted, Wanted, n), smaller);
      GArray *swapped = wanted;
      wanted = smaller;
      smaller = swapped;
    }
}

/* ---- a pattern ---- */

static void
add_cell (RoomField *field, const Axis *along, const Axis *across, int i, int j)
{
  const GArray *pieces = cell_at (field, i, j)->pieces;
  for (guint n = 0; n < pieces->len; n++)
    {
      const Piece *piece = &g_array_index (pieces, Piece, n);
      double share = axis_share (along, piece->i, piece->size) * axis_share (across, piece->j, piece->size) / 4;
      for (int k = 0; k < 4; k++)
        {
          field->landed[piece->corners[k].area] += share;
          field->bad[piece->corners[k].area] += piece->corners[k].is_trouble ? share : 0;
        }
    }
}

bool
room_field_trouble (RoomField *field, Vec2 by_m, double *trouble)
{
  const Hole *hole = field->ground->hole;
  size_t n_areas = hole_n_areas (hole);
  Normal moved = pattern_normal (&field->strike.pattern);
  moved.mean = vec2_add (moved.mean, by_m);
  if (!faces_chances (field->faces, &moved, field->landing))
    return false;
  for (size_t k = 0; k <= n_areas; k++)
    field->landed[k] = field->bad[k] = 0;
  if (vec2_length (field->strike.landing.v_mps) > 0)
    {
      double cross = vec2_cross (field->askew.a, field->askew.b);
      g_autofree Axis *axes = g_new (Axis, 2);
      axis_init (&axes[0], vec2_cross (by_m, field->askew.b) / cross);
      axis_init (&axes[1], vec2_cross (field->askew.a, by_m) / cross);
      look_at_cells (field, &axes[0], &axes[1]);
      for (int i = axes[0].first; i < axes[0].last; i += CELL)
        for (int j = axes[1].first; j < axes[1].last; j += CELL)
          add_cell (field, &axes[0], &axes[1], i, j);
    }
  *trouble = 0;
  for (size_t k = 0; k <= n_areas; k++)
    {
      Kind kind = kind_of (hole, k < n_areas ? (int)hole_area_part (hole, k) : -1);
      double share = field->landed[k] > 0 ? field->bad[k] / field->landed[k] : kind_info (kind)->is_trouble;
      *trouble += field->landing[k] * share;
    }
  return true;
}

/* ---- the field ---- */

/* The grid's vectors, and how many cells it takes for a pattern moved `farthest_m`, whichever way. */
static void
lay_grid (RoomField *field, const Pattern *pattern, double least_sd_m, double farthest_m)
{
  Pattern wide = *pattern;
  wide.long_sd_m = fmax (least_sd_m, wide.long_sd_m);
  wide.side_sd_m = fmax (least_sd_m, wide.side_sd_m);
  wide.correlation = fmax (-MOST_CORRELATION, fmin (MOST_CORRELATION, wide.correlation));
  Normal normal = pattern_normal (&wide);
  double c = cos (SKEW_RAD), s = sin (SKEW_RAD);
  field->askew = (Normal){ .mean = normal.mean,
                           .a = vec2_add (vec2_scale (normal.a, c), vec2_scale (normal.b, s)),
                           .b = vec2_sub (vec2_scale (normal.b, c), vec2_scale (normal.a, s)) };
  double longest_m = fmax (vec2_length (field->askew.a), vec2_length (field->askew.b));
  double moved = farthest_m * longest_m / fabs (vec2_cross (field->askew.a, field->askew.b));
  field->n_side = 2 * (int)fmin (MOST_SIDE, ceil ((moved + FARTHEST_SDS) * A_DEVIATION / CELL) + 1);
}

RoomField *
room_field_new (const Ground *ground, const Faces *faces, const Strike *strike, double farthest_m)
{
  const Hole *hole = ground->hole;
  size_t n_areas = hole_n_areas (hole);
  RoomField *field = g_new0 (RoomField, 1);
  *field = (RoomField){ .ground = ground, .faces = faces, .strike = *strike };
  for (double least_sd_m = LEAST_SD_M; field->n_side == 0 || field->n_side > MOST_SIDE; least_sd_m *= 2)
    lay_grid (field, &strike->pattern, least_sd_m, farthest_m);
  field->cells = g_new0 (Cell *, (size_t)field->n_side * (size_t)field->n_side);
  field->landing = g_new (double, n_areas + 1);
  field->landed = g_new (double, n_areas + 1);
  field->bad = g_new (double, n_areas + 1);
  double reach_m = farthest_m + RUN_SPEEDS_S * vec2_length (strike->landing.v_mps)
                   + 2 * FARTHEST_SDS * (vec2_length (field->askew.a) + vec2_length (field->askew.b));
  Vec2 mean = field->askew.mean;
  Box box = { mean.x, mean.y, mean.x, mean.y };
  slope_patch_init (&field->patch, ground, box_grown (box, reach_m));
  return field;
}

void
room_field_free (RoomField *field)
{
  if (field == NULL)
    return;
  slope_patch_clear (&field->patch);
  for (size_t k = 0; k < (size_t)field->n_side * (size_t)field->n_side; k++)
    if (field->cells[k] != NULL)
      {
        g_clear_pointer (&field->cells[k]->pieces, g_array_unref);
        g_free (field->cells[k]);
      }
  g_free (field->cells);
  g_free (field->landing);
  g_free (field->landed);
  g_free (field->bad);
  g_free (field);
}
