// SPDX-License-Identifier: GPL-3.0-or-later
/* The odds of one shot: landing chances by the faces of the hole, rest chances by the run, as rows. */
#include "odds-rests.h"
#include "rest-private.h"

#include <math.h>
#include <stdlib.h>

/* Less is what integrals leave over: no area's chance. */
#define NOTHING 1e-15

static int
compare_rows (const void *a, const void *b)
{
  const OddsRow *x = a, *y = b;
  if (x->rest != y->rest)
    return x->rest > y->rest ? -1 : 1;
  if (x->landing != y->landing)
    return x->landing > y->landing ? -1 : 1;
  return x->part < y->part ? -1 : x->part > y->part;
}

static void
add_row (OddsTable *table, int part, Kind kind, double landing, double rest)
{
  table->landing[kind] += landing;
  table->rest[kind] += rest;
  if (part < 0 || landing > NOTHING || rest > NOTHING)
    table->rows[table->n_rows++] = (OddsRow){ part, kind, landing, rest };
}

static OddsTable *
make_table (const Ends *ends, const double *landing, const double *rest)
{
  const Hole *hole = ends->ground->hole;
  size_t n_areas = hole_n_areas (hole);
  OddsTable *table = g_new0 (OddsTable, 1);
  table->rows = g_new (OddsRow, ends->n_ends);
  for (size_t k = 0; k < n_areas; k++)
    add_row (table, (int)hole_area_part (hole, k), hole_part (hole, hole_area_part (hole, k))->kind, landing[k], rest[k]);
  add_row (table, -1, hole_info (hole)->ground, landing[n_areas], rest[n_areas]);
  for (size_t k = n_areas + 1; k < ends->n_ends; k++)
    add_row (table, (int)ends->parts_of_trees[k - n_areas - 1], KIND_TREES, 0, rest[k]);
  qsort (table->rows, table->n_rows, sizeof *table->rows, compare_rows);
  return table;
}

/* The strikes of a shot, and who is told where their balls rest. */
typedef struct
{
  const Ends *ends;
  const Faces *faces;
  RestVisit visit; /* NULL: nobody */
  void *data;
} Sums;

/* Adds one strike's balls, each with its share, to both columns. `of_strike` has room for all areas and the ground. */
static bool
add_strike (const Sums *sums, const Strike *strike, double *of_strike, double *landing, double *rest, GError **error)
{
  Normal normal = pattern_normal (&strike->pattern);
  if (!faces_chances (sums->faces, &normal, of_strike))
    {
      g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_NUMBERS,
                           "the shot's spread is not a length; check the club's deviations in the bag");
      return false;
    }
  for (size_t k = 0; k <= hole_n_areas (sums->ends->ground->hole); k++)
    landing[k] += strike->share * of_strike[k];
  rest_add (sums->ends, strike, of_strike, rest, sums->visit, sums->data);
  return true;
}

bool
odds_rests (const Hole *hole, const ShotResult *shot, RestVisit visit, void *data, OddsTable **odds, GError **error)
{
  Strike strikes[MOST_STRIKES];
  const Faces *faces = hole_faces (hole, error);
  size_t n_strikes = faces != NULL ? odds_strikes (hole, shot, strikes, error) : 0, n = hole_n_areas (hole) + 1;
  if (n_strikes == 0)
    return false;
  Ground ground;
  Ends ends;
  ground_init (&ground, hole, &shot->conditions);
  ends_init (&ends, &ground, shot, strikes, n_strikes);
  const Sums sums = { &ends, faces, visit, data };
  g_autofree double *landing = g_new0 (double, n), *of_strike = g_new (double, n), *rest = g_new0 (double, ends.n_ends);
  bool is_known = true;
  for (size_t i = 0; i < n_strikes && is_known; i++)
    is_known = add_strike (&sums, &strikes[i], of_strike, landing, rest, error);
  if (is_known && odds != NULL)
    *odds = make_table (&ends, landing, rest);
  ends_clear (&ends);
  return is_known;
}

OddsTable *
odds_table_new (const Hole *hole, const ShotResult *shot, GError **error)
{
  OddsTable *table = NULL;
  return odds_rests (hole, shot, NULL, NULL, &table, error) ? table : NULL;
}

void
odds_table_free (OddsTable *table)
{
  if (table == NULL)
    return;
  g_free (table->rows);
  g_free (table);
}
