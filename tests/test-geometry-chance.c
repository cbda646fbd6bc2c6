// SPDX-License-Identifier: GPL-3.0-or-later
/* The chance of a normal distribution over areas. */
#include "geometry.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

/* As far as anything is from the mean, in deviations. */
#define FAR 40.0

static Outline *
polygon (const double *xy, size_t n)
{
  Vec2 *points = malloc (n * sizeof *points);
  for (size_t i = 0; i < n; i++)
    points[i] = vec2 (xy[2 * i], xy[2 * i + 1]);
  Outline *outline = outline_new (points, &n, 1, false);
  free (points);
  return outline;
}

static Outline *
box (double x0, double y0, double x1, double y1)
{
  const double corners[] = { x0, y0, x1, y0, x1, y1, x0, y1 };
  return polygon (corners, 4);
}

/* A polygon of so many corners that its edge is 1e-8 off the circle, of the circle's area. */
#define DISC_CORNERS 20000
static Outline *
disc (double x, double radius)
{
  double turn = 2 * PI / DISC_CORNERS, r = radius * sqrt (turn / sin (turn));
  double *xy = malloc (2 * DISC_CORNERS * sizeof *xy);
  for (int i = 0; i < DISC_CORNERS; i++)
    {
      xy[2 * i] = x + r * cos (i * turn);
      xy[2 * i + 1] = r * sin (i * turn);
    }
  Outline *outline = polygon (xy, DISC_CORNERS);
  free (xy);
  return outline;
}

/* Deviations sx and sy, correlated. */
static Normal
correlated (double x, double y, double sx, double sy, double r)
{
  return (Normal){ .mean = { x, y }, .a = { sx, r * sy }, .b = { 0, sqrt (1 - r * r) * sy } };
}

/* The chance of one outline, which is freed. */
static double
chance_of (Outline *outline, Normal normal)
{
  double chances[2];
  ChanceMap *map = chance_map_new ((const Outline *const *)&outline, NULL, 1, 1);
  ck_assert (chance_map_integrate (map, &normal, chances));
  ck_assert_double_eq_tol (chances[0] + chances[1], 1, 1e-12);
  chance_map_free (map);
  outline_free (outline);
  return chances[0];
}

static double
below (double z)
{
  return 0.5 * erfc (-z * sqrt (0.5));
}

/* ---- known answers ---- */

START_TEST (quarters_of_the_plane_have_sheppard_s_chances)
{
  /* 1/4 + asin (r) / 2 pi (Sheppard 1899, Phil. Trans. R. Soc. A 192:101). */
  const double rs[] = { 0, 0.5, -0.5, 0.9, -0.99 };
  for (size_t i = 0; i < sizeof rs / sizeof *rs; i++)
    ck_assert_double_eq_tol (chance_of (box (0, 0, FAR, FAR), correlated (0, 0, 1, 1, rs[i])), 0.25 + asin (rs[i]) / (2 * PI),
                             1e-10);
  ck_assert_double_eq_tol (chance_of (box (0, 0, FAR, FAR), correlated (0, 0, 1, 1, 0.5)), 1.0 / 3, 1e-10);
  ck_assert_double_eq_tol (chance_of (box (0, 0, FAR, FAR), correlated (0, 0, 1, 1, 0.9)), 0.428216853436, 1e-10);
}
END_TEST

START_TEST (upper_corners_have_computed_chances)
{
  /* P (X > h, Y > k) at correlation r, computed by an independent program. */
  static const double table[][4] = { { 0.5, 0.5, 0.5, 0.163319521309 },
                                     { 1, 1, 0.5, 0.062514094710 },
                                     { 1, 0.5, 0.3, 0.076501470457 },
                                     { -1, -1, -0.3, 0.693006537011 } };
  for (size_t i = 0; i < sizeof table / sizeof *table; i++)
    ck_assert_double_eq_tol (chance_of (box (table[i][0], table[i][1], FAR, FAR), correlated (0, 0, 1, 1, table[i][2])),
                             table[i][3], 1e-10);
}
END_TEST

START_TEST (wedges_have_owen_s_chances)
{
  /* T (h, a): X above h, Y between 0 and a X. Owen 1956, Ann. Math. Statist. 27:1075; values computed by an independent program, the last as published with
     Patefield and Tandy 2000, J. Statist. Softw. 5(5). */
  static const double table[][3]
      = { { 0.0625, 0.25, 0.0389119302347014 }, { 0.25, 0.5, 0.0713466338227178 }, { 0.5, 0.5, 0.0644886028475038 },
          { 0.5, 1, 0.106671062961449 },        { 0.5, 2, 0.141580603653978 },     { 0.5, 3, 0.151084043076018 },
          { 1, 0.5, 0.0430646911207854 },       { 1, 1, 0.0667418821657010 },      { 2, 0.5, 0.00862507798552151 },
          { 2, 1, 0.0111162817222598 },         { 0.78, 3.5, 0.108772167348523 } };
  for (size_t i = 0; i < sizeof table / sizeof *table; i++)
    {
      double h = table[i][0], a = table[i][1];
      const double wedge[] = { h, 0, FAR, 0, FAR, a * FAR, h, a * h };
      ck_assert_double_eq_tol (chance_of (polygon (wedge, 4), correlated (0, 0, 1, 1, 0)), table[i][2], 1e-10);
    }
}
END_TEST

START_TEST (discs_beside_the_mean_have_computed_chances)
{
  /* Radius, distance of the centre from the mean, chance; computed by an independent program. */
  static const double table[][3]
      = { { 1, 0, 0.393469340 }, { 1, 0.5, 0.357285770 }, { 1, 1, 0.267120196 }, { 2, 1, 0.730987940 } };
  for (size_t i = 0; i < sizeof table / sizeof *table; i++)
    ck_assert_double_eq_tol (chance_of (disc (table[i][1], table[i][0]), correlated (0, 0, 1, 1, 0)), table[i][2], 1e-9);
}
END_TEST

START_TEST (boxes_are_products_of_one_line_s_chances)
{
  ck_assert_double_eq_tol (chance_of (box (-1, -1, 1, 1), correlated (0, 0, 1, 1, 0)), 0.466064943, 5e-10);
  ck_assert_double_eq_tol (chance_of (box (-15, -1e4, 15, 1e4), correlated (5, 0, 15, 20, 0)), 0.656296, 5e-7);
  for (double sd = 0.01; sd < 2000; sd *= 3)
    {
      double expected = (below (9 / sd) - below (-4 / sd)) * (below (7 / (2 * sd)) - below (-5 / (2 * sd)));
      ck_assert_double_eq_tol (chance_of (box (-3, -3, 10, 9), correlated (1, 2, sd, 2 * sd, 0)), expected, 1e-9);
    }
}
END_TEST

/* ---- invariants ---- */

/* Three faces side by side and a fourth inside the second, which has a hole there. */
static void
make_faces (Outline *faces[4], double mirror)
{
  static const double left[] = { 0, 0, 4, 1, 5, 6, 0, 7 }, right[] = { 9, 0, 12, 2, 11, 8, 8, 7 };
  static const double middle[] = { 4, 1, 9, 0, 8, 7, 5, 6 }, inner[] = { 6, 3, 7, 3, 7, 4, 6, 4 };
  const double *const all[] = { left, middle, right, inner };
  for (int f = 0; f < 4; f++)
    {
      Vec2 points[8];
      size_t sizes[2] = { 4, 4 };
      for (int i = 0; i < 4; i++)
        {
          points[mirror < 0 ? 3 - i : i] = vec2 (mirror * all[f][2 * i], all[f][2 * i + 1]);
          points[mirror < 0 ? 4 + i : 7 - i] = vec2 (mirror * inner[2 * i], inner[2 * i + 1]);
        }
      faces[f] = outline_new (points, sizes, f == 1 ? 2 : 1, false);
    }
}

static void
integrate_faces (double mirror, const size_t *groups, size_t n_groups, Normal normal, double *chances)
{
  Outline *faces[4];
  make_faces (faces, mirror);
  ChanceMap *map = chance_map_new ((const Outline *const *)faces, groups, 4, n_groups);
  ck_assert (chance_map_integrate (map, &normal, chances));
  chance_map_free (map);
  for (int f = 0; f < 4; f++)
    outline_free (faces[f]);
}

START_TEST (faces_that_share_edges_have_the_chances_of_each_alone)
{
  Normal normal = correlated (6, 4, 2, 3, 0.4);
  double together[5], sum = 0;
  integrate_faces (1, NULL, 4, normal, together);
  Outline *faces[4];
  make_faces (faces, 1);
  for (int f = 0; f < 4; f++)
    ck_assert_double_eq_tol (together[f], chance_of (faces[f], normal), 1e-11);
  for (int f = 0; f < 5; f++)
    sum += together[f];
  ck_assert_double_eq_tol (sum, 1, 1e-12);
}
END_TEST

START_TEST (faces_of_one_group_are_counted_together)
{
  static const size_t groups[] = { 0, 1, 0, 1 };
  Normal normal = correlated (6, 4, 2, 3, 0.4);
  double alone[5], grouped[3];
  integrate_faces (1, NULL, 4, normal, alone);
  integrate_faces (1, groups, 2, normal, grouped);
  ck_assert_double_eq_tol (grouped[0], alone[0] + alone[2], 1e-11);
  ck_assert_double_eq_tol (grouped[1], alone[1] + alone[3], 1e-11);
  ck_assert_double_eq_tol (grouped[2], alone[4], 1e-11);
}
END_TEST

START_TEST (the_mirrored_distribution_over_mirrored_faces_has_the_same_chances)
{
  double plain[5], mirrored[5];
  integrate_faces (1, NULL, 4, correlated (6, 4, 2, 3, 0.4), plain);
  integrate_faces (-1, NULL, 4, correlated (-6, 4, 2, 3, -0.4), mirrored);
  for (int f = 0; f < 5; f++)
    ck_assert_double_eq_tol (plain[f], mirrored[f], 1e-11);
  Normal turned_round = correlated (6, 4, 2, 3, 0.4);
  turned_round.a = vec2_scale (turned_round.a, -1);
  integrate_faces (1, NULL, 4, turned_round, mirrored);
  for (int f = 0; f < 5; f++)
    ck_assert_double_eq_tol (plain[f], mirrored[f], 1e-11);
}
END_TEST

START_TEST (chances_add_up_to_one_however_narrow_or_wide_the_distribution)
{
  for (double sd = 1e-10; sd < 1e7; sd *= 7)
    for (int i = 0; i < 40; i++)
      {
        double chances[5], sum = 0;
        integrate_faces (1, NULL, 4, correlated (13.0 * i / 40, 5 + sin (i), sd, sd * (1 + i % 3), 0.2 * (i % 5)), chances);
        for (int f = 0; f < 5; f++)
          {
            ck_assert (chances[f] >= 0 && chances[f] <= 1);
            sum += chances[f];
          }
        ck_assert_double_eq_tol (sum, 1, 1e-11);
      }
}
END_TEST

/* ---- edges ---- */

START_TEST (a_distribution_on_a_point_is_where_the_point_is)
{
  static const Vec2 at[] = { { 2, 3 }, { 5.5, 3.5 }, { 10, 4 }, { 6.5, 3.5 }, { 20, 3 } };
  for (int i = 0; i < 5; i++)
    {
      double chances[5];
      integrate_faces (1, NULL, 4, (Normal){ .mean = at[i] }, chances);
      for (int f = 0; f < 5; f++)
        ck_assert_double_eq (chances[f], f == i);
    }
}
END_TEST

START_TEST (a_distribution_on_a_line_is_exact_along_it)
{
  /* Along y = 3.5 the faces meet at 4.5, 8.5 and so on; the inner one lies from 6 to 7. */
  double chances[5], sd = 2;
  integrate_faces (1, NULL, 4, (Normal){ .mean = { 6, 3.5 }, .b = { sd, 0 } }, chances);
  ck_assert_double_eq_tol (chances[3], below (1 / sd) - below (0), 1e-14);
  ck_assert_double_eq_tol (chances[0], below (-1.5 / sd) - below (-6 / sd), 1e-14);
  ck_assert_double_eq_tol (chances[1], below (2.5 / sd) - below (1 / sd) + below (0) - below (-1.5 / sd), 1e-14);
  ck_assert_double_eq_tol (chances[0] + chances[1] + chances[2] + chances[3] + chances[4], 1, 1e-14);
}
END_TEST

START_TEST (a_very_narrow_distribution_is_nearly_that_on_its_line)
{
  double thin[5], narrow[5];
  Normal normal = { .mean = { 6, 3.5 }, .a = { 2, 0.5 } };
  integrate_faces (1, NULL, 4, normal, thin);
  normal.b = vec2 (-1e-6, 1e-6);
  integrate_faces (1, NULL, 4, normal, narrow);
  for (int f = 0; f < 5; f++)
    ck_assert_double_eq_tol (thin[f], narrow[f], 1e-6);
}
END_TEST

START_TEST (a_distribution_a_million_metres_wide_falls_on_nothing)
{
  double chances[5];
  integrate_faces (1, NULL, 4, correlated (6, 4, 1e6, 1e6, 0), chances);
  ck_assert_double_eq_tol (chances[3], 1 / (2 * PI * 1e12), 1e-15);
  ck_assert_double_eq_tol (chances[4], 1, 1e-9);
}
END_TEST

START_TEST (without_faces_everything_falls_on_none)
{
  double chances[1];
  Normal normal = correlated (0, 0, 1, 1, 0);
  ChanceMap *map = chance_map_new (NULL, NULL, 0, 0);
  ck_assert (chance_map_integrate (map, &normal, chances));
  ck_assert_double_eq (chances[0], 1);
  chance_map_free (map);
}
END_TEST

START_TEST (numbers_that_are_not_finite_are_refused)
{
  Outline *face = box (0, 0, 1, 1);
  ChanceMap *map = chance_map_new ((const Outline *const *)&face, NULL, 1, 1);
  double chances[2] = { 7, 7 };
  const Normal wrong[] = { { .mean = { NAN, 0 }, .a = { 1, 0 }, .b = { 0, 1 } },
                           { .a = { INFINITY, 0 }, .b = { 0, 1 } },
                           { .a = { 1, 0 }, .b = { 0, NAN } },
                           { .a = { 1e200, 0 }, .b = { 0, 1e200 } } };
  for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
    ck_assert (!chance_map_integrate (map, &wrong[i], chances));
  ck_assert_double_eq (chances[0], 7);
  chance_map_free (map);
  outline_free (face);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry-chance");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, quarters_of_the_plane_have_sheppard_s_chances);
  tcase_add_test (known, upper_corners_have_computed_chances);
  tcase_add_test (known, wedges_have_owen_s_chances);
  tcase_add_test (known, discs_beside_the_mean_have_computed_chances);
  tcase_add_test (known, boxes_are_products_of_one_line_s_chances);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, faces_that_share_edges_have_the_chances_of_each_alone);
  tcase_add_test (invariants, faces_of_one_group_are_counted_together);
  tcase_add_test (invariants, the_mirrored_distribution_over_mirrored_faces_has_the_same_chances);
  tcase_add_test (invariants, chances_add_up_to_one_however_narrow_or_wide_the_distribution);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, a_distribution_on_a_point_is_where_the_point_is);
  tcase_add_test (edges, a_distribution_on_a_line_is_exact_along_it);
  tcase_add_test (edges, a_very_narrow_distribution_is_nearly_that_on_its_line);
  tcase_add_test (edges, a_distribution_a_million_metres_wide_falls_on_nothing);
  tcase_add_test (edges, without_faces_everything_falls_on_none);
  tcase_add_test (edges, numbers_that_are_not_finite_are_refused);
  suite_add_tcase (suite, edges);
  return suite;
}
