// SPDX-License-Identifier: GPL-3.0-or-later
/* The odds of one shot: landing chances by the faces of the hole, rest chances by the run, as rows. */
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

static OddsTable *
make_table (const Hole *hole, const double *landing, const double *rest)
{
  size_t n_areas = hole_n_areas (hole);
  OddsTable *table = g_new0 (OddsTable, 1);
  table->rows = g_new (OddsRow, n_areas + 1);
  for (size_t k = 0; k <= n_areas; k++)
    {
      int part = k < n_areas ? (int)hole_area_part (hole, k) : -1;
      OddsRow row = { part, part >= 0 ? hole_part (hole, (size_t)part)->kind : hole_info (hole)->ground, landing[k], rest[k] };
      table->landing[row.kind] += row.landing;
      table->rest[row.kind] += row.rest;
      if (part < 0 || row.landing > NOTHING || row.rest > NOTHING)
        table->rows[table->n_rows++] = row;
    }
  qsort (table->rows, table->n_rows, sizeof *table->rows, compare_rows);
  return table;
}

/* Adds one strike's balls, each with its share, to both columns. `of_strike` has room for all areas and the ground. */
static bool
add_strike (const Ground *ground, const Faces *faces, const Strike *strike, double *of_strike, double *landing, double *rest,
            GError **error)
{
  Normal normal = pattern_normal (&strike->pattern);
  if (!faces_chances (faces, &normal, of_strike))
    {
      g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_NUMBERS,
                           "the shot's spread is not a length; check the club's deviations in the bag");
      return false;
    }
  for (size_t k = 0; k <= hole_n_areas (ground->hole); k++)
    landing[k] += strike->share * of_strike[k];
  rest_add (ground, strike, of_strike, rest);
  return true;
}

OddsTable *
odds_table_new (const Hole *hole, const ShotResult *shot, GError **error)
{
  Strike strikes[MOST_STRIKES];
  const Faces *faces = hole_faces (hole, error);
  size_t n_strikes = faces != NULL ? odds_strikes (hole, shot, strikes, error) : 0, n = hole_n_areas (hole) + 1;
  if (n_strikes == 0)
    return NULL;
  g_autofree double *landing = g_new0 (double, n), *rest = g_new0 (double, n), *of_strike = g_new (double, n);
  Ground ground;
  ground_init (&ground, hole, &shot->conditions);
  bool is_known = true;
  for (size_t i = 0; i < n_strikes && is_known; i++)
    is_known = add_strike (&ground, faces, &strikes[i], of_strike, landing, rest, error);
  ground_clear (&ground);
  return is_known ? make_table (hole, landing, rest) : NULL;
}

void
odds_table_free (OddsTable *table)
{
  if (table == NULL)
    return;
  g_free (table->rows);
  g_free (table);
}
