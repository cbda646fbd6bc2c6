// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Chances to get past trees against a million balls each: drawn from the landing pattern, and each of their tracks walked along in small steps of time and
 * asked at every step whether it is in a canopy.
 */
#include "drawn.h"
#include "odds.h"
#include "suite.h"

#include <stdlib.h>

#define N_BALLS 1000000
/* 15 cm apart at most. */
#define N_STEPS 2400
/* What is promised; the balls themselves scatter by 0.05 %. */
#define CHANCE 2e-3

static const Club driver = {
  .name = (char *)"driver", .carry_m = 220, .carry_sd_m = 9, .side_sd_m = 14, .correlation = 0.25, .loft_deg = 11, .apex_m = NAN
};

/* splitmix64 (Steele, Lea and Flood 2014), and normals by Box and Muller 1958. */
static double
next_share (guint64 *state)
{
  guint64 z = *state += 0x9e3779b97f4a7c15u;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return ((double)((z ^ (z >> 31)) >> 11) + 0.5) / 9007199254740992.0;
}

static void
next_normals (guint64 *state, double *a, double *b)
{
  double radius = sqrt (-2 * log (next_share (state))), angle = 2 * PI * next_share (state);
  *a = radius * cos (angle);
  *b = radius * sin (angle);
}

/* ---- holes ---- */

static const Part *
polygon (const Vec2 *corners, size_t n_corners, double height_m, double density)
{
  Part *part = part_new (KIND_TREES);
  path_move_to (&part->path, corners[0]);
  for (size_t i = 1; i < n_corners; i++)
    path_line_to (&part->path, corners[i]);
  path_close (&part->path);
  part->height_m = height_m;
  part->density = density;
  return part_seal (part);
}

/* ---- the balls ---- */

static bool
is_in (const Part *part, Vec2 at, double z_m)
{
  double top_m = isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M;
  if (!(z_m < top_m))
    return false;
  if (part->kind == KIND_TREE)
    return vec2_distance (at, part->at) < part->radius_m;
  return box_contains (part->bounds, at) && outline_contains (part->outline, at);
}

/* Steps one after the other, 5 m together: those none of which can be in a canopy need not be asked one by one. */
#define N_TOGETHER 32

typedef struct
{
  int first, end;
  Vec2 middle, half; /* their box: x flown along the way, y to the left of it */
  double lowest_m;
} Stretch;

static Stretch
stretch_of (const double *x_m, const double *y_m, const double *z_m, int first, int end)
{
  Vec2 least = vec2 (x_m[first], y_m[first]), most = least;
  double lowest_m = z_m[first];
  for (int i = first + 1; i < end; i++)
    {
      least = vec2 (fmin (least.x, x_m[i]), fmin (least.y, y_m[i]));
      most = vec2 (fmax (most.x, x_m[i]), fmax (most.y, y_m[i]));
      lowest_m = fmin (lowest_m, z_m[i]);
    }
  return (Stretch){ first, end, vec2_lerp (least, most, 0.5), vec2_scale (vec2_sub (most, least), 0.5), lowest_m };
}

/* May the part be where these steps lead a ball whose way is stretched and sheared so? `from` is where the ball lay. */
static bool
may_meet (const Stretch *steps, const Part *part, Vec2 from, Vec2 along, double stretch, double shear)
{
  double top_m = isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M;
  Vec2 middle = vec2 (steps->middle.x * stretch, steps->middle.y + steps->middle.x * shear), left = vec2_left (along);
  Vec2 half = vec2 (steps->half.x * fabs (stretch), steps->half.y + steps->half.x * fabs (shear));
  Vec2 at = vec2_add (from, vec2_add (vec2_scale (along, middle.x), vec2_scale (left, middle.y)));
  Vec2 off = vec2 (fabs (along.x) * half.x + fabs (left.x) * half.y, fabs (along.y) * half.x + fabs (left.y) * half.y);
  Box box = { at.x - off.x, at.y - off.y, at.x + off.x, at.y + off.y };
  return steps->lowest_m < top_m && box_overlaps (box, part->bounds);
}

/* Shares of the balls that get past each part, and past all. */
static void
play_balls (const Hole *hole, const ShotResult *shot, double *past)
{
  size_t n = hole_n_parts (hole);
  Vec2 flown = vec2_sub (shot->landing, shot->ball), along = vec2_unit (flown), left = vec2_left (along);
  Vec2 l = shot->pattern.along, s = vec2_scale (vec2_left (l), -1);
  double length_m = vec2_length (flown), r = shot->pattern.correlation;
  guint64 state = 20250101;
  double highest_m = 0;
  for (size_t i = 0; i <= n; i++)
    past[i] = 0;
  for (size_t i = 0; i < n; i++)
    highest_m = fmax (highest_m, hole_part (hole, i)->height_m);
  /* The steps that are low enough for any tree. */
  static double x_m[N_STEPS], y_m[N_STEPS], z_m[N_STEPS];
  int n_low = 0;
  for (int i = 1; i <= N_STEPS; i++)
    {
      FlightPoint step = flight_at (&shot->flight, flight_landing (&shot->flight).t_s * i / N_STEPS);
      Vec2 flown_m = vec2_sub (step.at, shot->ball);
      if (step.z_m >= highest_m)
        continue;
      x_m[n_low] = vec2_dot (along, flown_m);
      y_m[n_low] = vec2_dot (left, flown_m);
      z_m[n_low++] = step.z_m;
    }
  Stretch stretches[N_STEPS / N_TOGETHER + 1];
  int n_stretches = 0;
  for (int i = 0; i < n_low; i += N_TOGETHER)
    stretches[n_stretches++] = stretch_of (x_m, y_m, z_m, i, MIN (i + N_TOGETHER, n_low));
  for (int ball = 0; ball < N_BALLS; ball++)
    {
      double a, b;
      next_normals (&state, &a, &b);
      b = r * a + sqrt (1 - r * r) * b;
      Vec2 by = vec2_add (vec2_scale (l, a * shot->pattern.long_sd_m), vec2_scale (s, b * shot->pattern.side_sd_m));
      double stretch = 1 + vec2_dot (by, along) / length_m, shear = vec2_dot (by, left) / length_m, all = 1;
      for (size_t k = 0; k < n; k++)
        {
          const Part *part = hole_part (hole, k);
          bool hit = false;
          for (int j = 0; j < n_stretches && !hit; j++)
            if (may_meet (&stretches[j], part, shot->ball, along, stretch, shear))
              for (int i = stretches[j].first; i < stretches[j].end && !hit; i++)
                {
                  double forward_m = x_m[i] * stretch, left_m = y_m[i] + x_m[i] * shear;
                  Vec2 at = vec2 (along.x * forward_m + left.x * left_m, along.y * forward_m + left.y * left_m);
                  hit = is_in (part, vec2_add (shot->ball, at), z_m[i]);
                }
          double through = hit ? 1 - (part->kind == KIND_TREE ? TREES_DENSITY : part->density) : 1;
          past[k] += through / N_BALLS;
          all *= through;
        }
      past[n] += all / N_BALLS;
    }
}

static void
compare (const Part *const *parts, size_t n_parts, ShotInput input)
{
  g_autoptr (Hole) hole = hole_over (KIND_ROUGH, parts, n_parts);
  ShotResult shot;
  double past[8];
  ck_assert (odds_shot (hole, NULL, &input, &shot, NULL));
  g_autoptr (TreeTable) table = tree_table_new (hole, &shot);
  play_balls (hole, &shot, past);
  ck_assert_uint_eq (table->n_rows, n_parts);
  for (size_t i = 0; i < table->n_rows; i++)
    ck_assert_msg (fabs (table->rows[i].chance - past[table->rows[i].part]) < CHANCE, "part %zu: %g, of the balls %g",
                   table->rows[i].part, table->rows[i].chance, past[table->rows[i].part]);
  ck_assert_double_eq_tol (table->chance, past[n_parts], CHANCE);
  ck_assert_msg (past[n_parts] > 0.02 && past[n_parts] < 0.98, "%g tells nothing", past[n_parts]);
}

START_TEST (a_fade_over_a_corner_of_trees)
{
  /* The corner stands in the way on the right where the ball is coming down; part of the balls fly over it, part past it. */
  const Vec2 wood[] = { { 2, 165 }, { 60, 150 }, { 70, 200 }, { 18, 196 } };
  const Part *parts[] = { polygon (wood, G_N_ELEMENTS (wood), 19, 0.7) };
  compare (parts, 1, (ShotInput){ .aim = { 0, 220 }, .club = &driver, .swing = 1, .shape = SHOT_FADE, .curve_m = 14 });
}
END_TEST

START_TEST (trees_right_across_the_line)
{
  const Vec2 hedge[] = { { -80, 203 }, { 80, 203 }, { 80, 209 }, { -80, 209 } };
  const Part *parts[] = { polygon (hedge, G_N_ELEMENTS (hedge), 9, 1) };
  compare (parts, 1, (ShotInput){ .aim = { 0, 220 }, .club = &driver, .swing = 1, .curve_m = NAN });
}
END_TEST

START_TEST (a_wood_with_a_bay_a_slanting_row_and_two_single_trees_in_the_wind)
{
  const Vec2 wood[]
      = { { -70, 60 }, { -8, 60 }, { -8, 80 }, { -30, 90 }, { -30, 130 }, { -6, 140 }, { -6, 170 }, { -70, 170 } };
  const Vec2 row[] = { { 5, 190 }, { 6, 190 }, { 36, 214 }, { 35, 214 } };
  const Part *parts[] = { polygon (wood, G_N_ELEMENTS (wood), 30, 0.55), polygon (row, G_N_ELEMENTS (row), 14, 0.8),
                          tree (4, 12, 3, 5), tree (10, 205, 6, 17) };
  Conditions conditions = conditions_standard ();
  conditions.wind = (Wind){ { -5, -3 }, ROUGHNESS_GRASS_M };
  compare (
      parts, G_N_ELEMENTS (parts),
      (ShotInput){
          .aim = { 30, 215 }, .club = &driver, .swing = 1, .shape = SHOT_DRAW, .curve_m = NAN, .conditions = &conditions });
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("trees");
  TCase *all = tcase_create ("a million balls");
  tcase_set_timeout (all, 120);
  tcase_add_test (all, a_fade_over_a_corner_of_trees);
  tcase_add_test (all, trees_right_across_the_line);
  tcase_add_test (all, a_wood_with_a_bay_a_slanting_row_and_two_single_trees_in_the_wind);
  suite_add_tcase (suite, all);
  return suite;
}
