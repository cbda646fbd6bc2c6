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
/* As in rest.c: how far balls run, and why the grid lies askew. */
#define RUN_SPEEDS_S 2.0
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

struct _RoomField
{
  const Ground *ground;
  const Faces *faces;
  SlopePatch patch;
  Strike strike;
  Normal askew;         /* of the pattern where it is, by vectors turned in it; never without width */
  guint *area_of_part;  /* by part index + 1; the first is the ground */
  GHashTable *known;    /* fate at each place, as a number + 1 */
  GHashTable *cells;    /* GArray of Piece by a cell's place */
  double *landing;      /* room for the chances of all areas and the ground */
  double *landed, *bad; /* the same, by pieces */
};

/* ---- places ---- */

static gpointer
key_of (int i, int j)
{
  return GSIZE_TO_POINTER ((gsize)(guint32)i << 32 | (guint32)j);
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

static Fate
fate_at (RoomField *field, int i, int j)
{
  gpointer key = key_of (i, j), found = g_hash_table_lookup (field->known, key);
  guint number = GPOINTER_TO_UINT (found);
  if (number == 0)
    {
      const Hole *hole = field->ground->hole;
      FlightPoint landing = field->strike.landing;
      landing.at = place_at (field, i, j);
      int lands, rests;
      hole_areas_at (hole, &landing.at.x, &landing.at.y, 1, &lands);
      rest_run_all (&field->patch, &landing, &landing.at, &lands, 1, &rests);
      guint area = lands >= 0 ? (guint)lands : (guint)hole_n_areas (hole);
      number = 1 + 2 * area + kind_info (kind_of (hole, rests >= 0 ? (int)hole_area_part (hole, (size_t)rests) : -1))->is_trouble;
      g_hash_table_insert (field->known, key, GUINT_TO_POINTER (number));
    }
  return (Fate){ (number - 1) / 2, (number - 1) % 2 };
}

/* ---- pieces ---- */

static void
add_pieces (RoomField *field, GArray *pieces, int i, int j, int size)
{
  Piece piece = { i, j, size, { { 0 } } };
  bool is_same = true, is_mixed = false;
  for (int k = 0; k < 4; k++)
    {
      piece.corners[k] = fate_at (field, i + (k & 1) * size, j + (k >> 1) * size);
      is_same &= piece.corners[k].area == piece.corners[0].area;
      is_mixed |= piece.corners[k].is_trouble != piece.corners[0].is_trouble;
    }
  if (size > (is_mixed ? TROUBLE_SIZE : is_same ? CELL : MIXED_SIZE))
    for (int k = 0; k < 4; k++)
      add_pieces (field, pieces, i + (k & 1) * size / 2, j + (k >> 1) * size / 2, size / 2);
  else
    g_array_append_val (pieces, piece);
}

static GArray *
cell_pieces (RoomField *field, int i, int j)
{
  GArray *pieces = g_hash_table_lookup (field->cells, key_of (i, j));
  if (pieces == NULL)
    {
      pieces = g_array_new (FALSE, FALSE, sizeof (Piece));
      add_pieces (field, pieces, i, j, CELL);
      g_hash_table_insert (field->cells, key_of (i, j), pieces);
    }
  return pieces;
}

/* ---- a pattern ---- */

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

static void
add_cell (RoomField *field, const Axis *along, const Axis *across, int i, int j)
{
  const GArray *pieces = cell_pieces (field, i, j);
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

RoomField *
room_field_new (const Ground *ground, const Faces *faces, const Strike *strike, double farthest_m)
{
  const Hole *hole = ground->hole;
  size_t n_areas = hole_n_areas (hole);
  RoomField *field = g_new0 (RoomField, 1);
  *field = (RoomField){ .ground = ground, .faces = faces, .strike = *strike };
  Pattern wide = strike->pattern;
  wide.long_sd_m = fmax (LEAST_SD_M, wide.long_sd_m);
  wide.side_sd_m = fmax (LEAST_SD_M, wide.side_sd_m);
  wide.correlation = fmax (-MOST_CORRELATION, fmin (MOST_CORRELATION, wide.correlation));
  Normal normal = pattern_normal (&wide);
  double c = cos (SKEW_RAD), s = sin (SKEW_RAD);
  field->askew = (Normal){ .mean = normal.mean,
                           .a = vec2_add (vec2_scale (normal.a, c), vec2_scale (normal.b, s)),
                           .b = vec2_sub (vec2_scale (normal.b, c), vec2_scale (normal.a, s)) };
  field->area_of_part = g_new (guint, hole_n_parts (hole) + 1);
  field->area_of_part[0] = (guint)n_areas;
  for (size_t k = 0; k < n_areas; k++)
    field->area_of_part[hole_area_part (hole, k) + 1] = (guint)k;
  field->known = g_hash_table_new (NULL, NULL);
  field->cells = g_hash_table_new_full (NULL, NULL, NULL, (GDestroyNotify)g_array_unref);
  field->landing = g_new (double, n_areas + 1);
  field->landed = g_new (double, n_areas + 1);
  field->bad = g_new (double, n_areas + 1);
  double reach_m = farthest_m + RUN_SPEEDS_S * vec2_length (strike->landing.v_mps)
                   + 2 * FARTHEST_SDS * (vec2_length (field->askew.a) + vec2_length (field->askew.b));
  Box box = { normal.mean.x, normal.mean.y, normal.mean.x, normal.mean.y };
  slope_patch_init (&field->patch, ground, box_grown (box, reach_m));
  return field;
}

void
room_field_free (RoomField *field)
{
  if (field == NULL)
    return;
  slope_patch_clear (&field->patch);
  g_hash_table_unref (field->known);
  g_hash_table_unref (field->cells);
  g_free (field->area_of_part);
  g_free (field->landing);
  g_free (field->landed);
  g_free (field->bad);
  g_free (field);
}
