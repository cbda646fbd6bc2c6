// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The odds of every example hole against drawn shots: each of its planned shots, landing place by landing place, with the GNU Scientific Library's random numbers; some of them are walked
 * through the trees on their way and run to rest. N_DRAWN in every run; HW_DRAWN=10000000 in the environment draws as many instead.
 */
#include "odds.h"
#include "suite.h"
#include "svg.h"

#include <gsl/gsl_randist.h>
#include <stdlib.h>

#define N_DRAWN 200000
/* Runs are dear: so many of the drawn balls are run. */
#define N_RUN 500
/* A count may be so many of its deviations off; with the chance of 6e-5 for one area. Of a few hundred areas none is. */
#define FAR_OFF 4.0

static size_t
number_drawn (void)
{
  const char *wanted = g_getenv ("HW_DRAWN");
  return wanted != NULL ? (size_t)strtoull (wanted, NULL, 10) : N_DRAWN;
}

static Vec2
draw (gsl_rng *rng, const Normal *normal)
{
  double u = gsl_ran_gaussian_ziggurat (rng, 1), v = gsl_ran_gaussian_ziggurat (rng, 1);
  return vec2_add (normal->mean, vec2_add (vec2_scale (normal->a, u), vec2_scale (normal->b, v)));
}

/* Chances by part index + 1, the first of the ground. */
static void
chances_by_part (const OddsTable *table, double *landing, double *rest)
{
  for (size_t i = 0; i < table->n_rows; i++)
    {
      landing[table->rows[i].part + 1] = table->rows[i].landing;
      rest[table->rows[i].part + 1] = table->rows[i].rest;
    }
}

static void
check_counts (const char *what, const size_t *counts, const double *chances, size_t n, size_t n_drawn, double allowed)
{
  for (size_t i = 0; i < n; i++)
    {
      double expected = chances[i] * (double)n_drawn, sd = sqrt (fmax (1, expected * (1 - chances[i])));
      ck_assert_msg (fabs ((double)counts[i] - expected) <= FAR_OFF * sd + allowed * (double)n_drawn,
                     "%s: part %d has %zu of %zu balls, expected %.1f +- %.1f", what, (int)i - 1, counts[i], n_drawn, expected,
                     sd);
    }
}

/* ---- trees: a ball walked along its track ---- */

/* The mean ball's track in the frame of its line: along, left, height. */
#define N_STEPS 1200
typedef struct
{
  Vec2 ball, along, left;
  double length_m;
  double x_m[N_STEPS], y_m[N_STEPS], z_m[N_STEPS];
} MeanTrack;

static void
make_track (const ShotResult *shot, MeanTrack *track)
{
  Vec2 flown = vec2_sub (shot->landing, shot->ball);
  track->ball = shot->ball;
  track->along = vec2_unit (flown);
  track->left = vec2_left (track->along);
  track->length_m = vec2_length (flown);
  double from_z_m = shot->flight.points[0].z_m;
  for (int i = 0; i < N_STEPS; i++)
    {
      FlightPoint point = flight_at (&shot->flight, flight_landing (&shot->flight).t_s * (i + 1) / N_STEPS);
      Vec2 at = vec2_sub (point.at, shot->ball);
      track->x_m[i] = vec2_dot (track->along, at);
      track->y_m[i] = vec2_dot (track->left, at);
      track->z_m[i] = point.z_m - from_z_m;
    }
}

/* Is a place so high over the ball's own within a canopy? */
static bool
is_in (const Hole *hole, const Part *part, Vec2 ball, Vec2 at, double z_m)
{
  bool is_over = part->kind == KIND_TREE ? vec2_distance (at, part->at) < part->radius_m
                                         : box_contains (part->bounds, at) && outline_contains (part->outline, at);
  if (!is_over)
    return false;
  const Terrain *terrain = hole_terrain (hole);
  double rise_m = terrain_height (terrain, part->kind == KIND_TREE ? part->at : at) - terrain_height (terrain, ball);
  return z_m < (isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M) + rise_m;
}

/* The canopy that stops the ball that would come down there, by lot; -1 for none. */
static int
stopped_by (const Hole *hole, const MeanTrack *track, Vec2 landing, const GArray *trees, gsl_rng *rng)
{
  Vec2 by = vec2_sub (landing, track->ball);
  double stretch = fmax (0.05, vec2_dot (track->along, by) / track->length_m),
         shear = vec2_dot (track->left, by) / track->length_m;
  g_autofree bool *is_through = g_new0 (bool, trees->len + 1);
  for (int i = 0; i < N_STEPS; i++)
    {
      double forward_m = track->x_m[i] * stretch, left_m = track->y_m[i] + track->x_m[i] * shear;
      Vec2 at = vec2_add (track->ball, vec2_add (vec2_scale (track->along, forward_m), vec2_scale (track->left, left_m)));
      for (guint t = 0; t < trees->len; t++)
        {
          int number = g_array_index (trees, int, t);
          const Part *part = hole_part (hole, (size_t)number);
          if (is_through[t] || !is_in (hole, part, track->ball, at, track->z_m[i]))
            continue;
          is_through[t] = true;
          if (gsl_rng_uniform (rng) < (part->kind == KIND_TREE ? TREES_DENSITY : part->density))
            return number;
        }
    }
  return -1;
}

static GArray *
trees_of (const Hole *hole)
{
  GArray *trees = g_array_new (FALSE, FALSE, sizeof (int));
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      int number = (int)i;
      Kind kind = hole_part (hole, i)->kind;
      if (kind == KIND_TREE || kind == KIND_TREES)
        g_array_append_val (trees, number);
    }
  return trees;
}

/* ---- the balls ---- */

static void
check_shot (const Hole *hole, const ShotResult *shot, const char *what, gsl_rng *rng)
{
  size_t n = hole_n_parts (hole) + 1, n_drawn = number_drawn ();
  g_autofree double *landing = g_new0 (double, n), *rest = g_new0 (double, n);
  g_autofree size_t *landed = g_new0 (size_t, n), *rested = g_new0 (size_t, n);
  Strike strikes[MOST_STRIKES];
  GError *error = NULL;
  g_autoptr (OddsTable) table = odds_table_new (hole, shot, &error);
  ck_assert_msg (table != NULL, "%s: %s", what, error != NULL ? error->message : "");
  size_t n_strikes = odds_strikes (hole, shot, strikes, NULL);
  ck_assert_uint_ge (n_strikes, 1);
  chances_by_part (table, landing, rest);
  Normal normals[MOST_STRIKES];
  for (size_t i = 0; i < n_strikes; i++)
    normals[i] = pattern_normal (&strikes[i].pattern);
  g_autofree MeanTrack *track = g_new (MeanTrack, 1);
  g_autoptr (GArray) trees = trees_of (hole);
  make_track (shot, track);
  for (size_t i = 0; i < n_drawn; i++)
    {
      size_t strike = n_strikes > 1 && gsl_rng_uniform (rng) < strikes[1].share;
      Vec2 at = draw (rng, &normals[strike]);
      landed[hole_area_at (hole, at) + 1]++;
      if (i >= N_RUN)
        continue;
      FlightPoint point = strikes[strike].landing;
      point.at = at;
      int stopped = stopped_by (hole, track, at, trees, rng);
      if (stopped >= 0)
        {
          rested[stopped + 1]++;
          continue;
        }
      ck_assert (odds_rest_of (hole, &shot->conditions, &point, &at, NULL));
      rested[hole_area_at (hole, at) + 1]++;
    }
  check_counts (what, landed, landing, n, n_drawn, 0);
  check_counts (what, rested, rest, n, N_RUN, REST_ERROR);
}

START_TEST (every_planned_shot_of_the_example_agrees_with_drawn_ones)
{
  const char *courses = g_getenv ("HW_COURSES");
  g_autofree char *folder = g_build_filename (courses, "fenwhistle", NULL),
                  *bag_file = g_build_filename (folder, "bag.csv", NULL);
  g_autoptr (Course) course = svg_read_course (folder, NULL);
  g_autoptr (Bag) bag = bag_read_file (bag_file, LEVEL_DEFAULT, NULL);
  ck_assert (course != NULL && bag != NULL);
  gsl_rng *rng = gsl_rng_alloc (gsl_rng_mt19937);
  size_t n_shots = 0;
  for (size_t h = 0; h < course->n_holes; h++)
    {
      g_autoptr (Hole) hole = svg_read_file (course->hole_files[h], NULL, NULL);
      ck_assert (hole != NULL);
      int plan = hole_plan (hole);
      if (plan < 0)
        continue;
      g_autofree ShotResult *shots = odds_plan (hole, (size_t)plan, bag, NULL);
      ck_assert (shots != NULL);
      for (size_t i = 0; i < hole_part (hole, (size_t)plan)->n_shots; i++, n_shots++)
        {
          g_autofree char *what = g_strdup_printf ("%s, shot %zu", course->hole_files[h], i + 1);
          check_shot (hole, &shots[i], what, rng);
        }
    }
  gsl_rng_free (rng);
  ck_assert_uint_ge (n_shots, 9);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("odds-drawn");
  TCase *drawn = tcase_create ("drawn shots");
  tcase_set_timeout (drawn, 3000);
  tcase_add_test (drawn, every_planned_shot_of_the_example_agrees_with_drawn_ones);
  suite_add_tcase (suite, drawn);
  return suite;
}
