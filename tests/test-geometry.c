// SPDX-License-Identifier: GPL-3.0-or-later
/* Geometry of boxes and outlines: inside, area, distance, lines through areas, and which area is on top. */
#include "geometry.h"
#include "suite.h"

#include <stdint.h>
#include <stdlib.h>

/* Rounding of sums of a few coordinates of a hundred metres. */
#define TINY_M 1e-12

/* ---- makers ---- */

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

static Outline *
make_ring (const Vec2 *points, size_t n_points, bool even_odd)
{
  return outline_new (points, &n_points, 1, even_odd);
}

#define RING(even_odd, ...) make_ring ((Vec2[]){ __VA_ARGS__ }, sizeof ((Vec2[]){ __VA_ARGS__ }) / sizeof (Vec2), even_odd)

/* The unit square times `side`, corner at the origin. */
static Outline *
make_square (double side)
{
  return RING (false, { 0, 0 }, { side, 0 }, { side, side }, { 0, side });
}

/* A star-shaped or a wholly tangled ring of `n` points in a box of 100 m. */
static Outline *
make_random (uint64_t *state, size_t n, bool tangled, bool even_odd)
{
  Vec2 *points = malloc (n * sizeof *points);
  for (size_t i = 0; i < n; i++)
    {
      double radius = 15 + 35 * next_random (state), angle = 2 * PI * (double)i / (double)n;
      points[i] = tangled ? vec2 (100 * next_random (state), 100 * next_random (state))
                          : vec2 (50 + radius * cos (angle), 50 + radius * sin (angle));
    }
  Outline *outline = make_ring (points, n, even_odd);
  free (points);
  return outline;
}

static Outline *
make_transformed (const Outline *outline, Affine t)
{
  Vec2 *points = malloc (outline->n_points * sizeof *points);
  size_t *sizes = malloc (outline->n_rings * sizeof *sizes);
  for (size_t i = 0; i < outline->n_points; i++)
    points[i] = affine_apply (t, outline->points[i]);
  for (size_t r = 0; r < outline->n_rings; r++)
    sizes[r] = outline->ring_starts[r + 1] - outline->ring_starts[r];
  Outline *moved = outline_new (points, sizes, outline->n_rings, outline->even_odd);
  free (points);
  free (sizes);
  return moved;
}

static void
assert_near (Vec2 a, Vec2 b, double tolerance_m)
{
  ck_assert_msg (vec2_distance (a, b) <= tolerance_m, "(%.17g, %.17g) is not (%.17g, %.17g)", a.x, a.y, b.x, b.y);
}

static void
assert_measure (Outline *outline, double area_m2, Vec2 centroid, double tolerance)
{
  double area = NAN;
  Vec2 centre = vec2 (NAN, NAN);
  ck_assert (outline_measure (outline, &area, &centre));
  ck_assert_double_eq_tol (area, area_m2, tolerance);
  assert_near (centre, centroid, tolerance);
  outline_free (outline);
}

static void
assert_no_area (Outline *outline)
{
  double area = -99;
  ck_assert (!outline_measure (outline, &area, NULL));
  ck_assert_double_eq (area, -99);
  outline_free (outline);
}

static void
assert_crossings (const Outline *outline, Vec2 from, Vec2 to, const Interval *expected, size_t n_expected)
{
  IntervalList list = { 0 };
  outline_crossings (outline, from, vec2_unit (vec2_sub (to, from)), vec2_distance (from, to), &list);
  ck_assert_uint_eq (list.n_items, n_expected);
  for (size_t i = 0; i < n_expected; i++)
    {
      ck_assert_double_eq_tol (list.items[i].enter_m, expected[i].enter_m, 1e-9);
      ck_assert_double_eq_tol (list.items[i].leave_m, expected[i].leave_m, 1e-9);
    }
  interval_list_clear (&list);
}

#define ONE(enter, leave) (Interval[]){ { enter, leave } }, 1
#define NONE NULL, 0

/* ---- known answers ---- */

START_TEST (a_quadrilateral_has_the_area_and_centroid_worked_by_hand)
{
  /* (0,0), (4,1), (6,0), (5,7): area 18, centroid (67/18, 8/3), a school exercise (matheass.eu). */
  assert_measure (RING (false, { 0, 0 }, { 4, 1 }, { 6, 0 }, { 5, 7 }), 18, vec2 (67.0 / 18, 8.0 / 3), TINY_M * 100);
  assert_measure (RING (true, { 5, 7 }, { 6, 0 }, { 4, 1 }, { 0, 0 }), 18, vec2 (67.0 / 18, 8.0 / 3), TINY_M * 100);
}
END_TEST

START_TEST (a_bow_tie_counts_both_wings)
{
  assert_measure (RING (false, { 0, 0 }, { 4, 4 }, { 4, 0 }, { 0, 4 }), 8, vec2 (2, 2), TINY_M);
  assert_measure (RING (true, { 0, 0 }, { 4, 4 }, { 4, 0 }, { 0, 4 }), 8, vec2 (2, 2), TINY_M);
}
END_TEST

START_TEST (a_pentagram_keeps_or_loses_its_middle_by_the_fill_rule)
{
  /* Circumradius 1; worked from the triangles about the centre. */
  Vec2 points[5];
  for (int i = 0; i < 5; i++)
    points[i] = vec2 (cos (4 * PI * i / 5), sin (4 * PI * i / 5));
  double inner = cos (2 * PI / 5) / cos (PI / 5); /* circumradius of the pentagon in the middle */
  double whole = 5 * inner * sin (PI / 5);        /* ten triangles between a tip, a notch and the centre */
  double middle = 2.5 * inner * inner * sin (2 * PI / 5);
  assert_measure (make_ring (points, 5, false), whole, vec2 (0, 0), TINY_M);
  assert_measure (make_ring (points, 5, true), whole - middle, vec2 (0, 0), TINY_M);
}
END_TEST

START_TEST (holes_are_holes_by_direction_or_by_parity)
{
  Vec2 points[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 2, 2 }, { 2, 4 }, { 4, 4 }, { 4, 2 } };
  Vec2 same_way[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 2, 2 }, { 4, 2 }, { 4, 4 }, { 2, 4 } };
  size_t sizes[] = { 4, 4 };
  Vec2 with_hole = vec2 ((500.0 - 12) / 96, (500.0 - 12) / 96);
  assert_measure (outline_new (points, sizes, 2, false), 96, with_hole, 1e-9);
  assert_measure (outline_new (points, sizes, 2, true), 96, with_hole, 1e-9);
  assert_measure (outline_new (same_way, sizes, 2, true), 96, with_hole, 1e-9);
  assert_measure (outline_new (same_way, sizes, 2, false), 100, vec2 (5, 5), 1e-9);
}
END_TEST

START_TEST (winding_counts_turns_anticlockwise)
{
  Outline *twice = RING (false, { 0, 0 }, { 4, 0 }, { 4, 4 }, { 0, 4 }, { 0, 0 }, { 4, 0 }, { 4, 4 }, { 0, 4 });
  Outline *back = RING (false, { 0, 0 }, { 0, 4 }, { 4, 4 }, { 4, 0 });
  ck_assert_int_eq (outline_winding (twice, vec2 (2, 2)), 2);
  ck_assert_int_eq (outline_winding (back, vec2 (2, 2)), -1);
  ck_assert_int_eq (outline_winding (back, vec2 (5, 2)), 0);
  ck_assert (outline_contains (twice, vec2 (2, 2)) && outline_contains (back, vec2 (2, 2)));
  outline_free (twice);
  outline_free (back);
}
END_TEST

START_TEST (distance_is_to_the_nearest_edge_from_either_side)
{
  Outline *square = make_square (10);
  Vec2 nearest;
  ck_assert_double_eq_tol (outline_distance (square, vec2 (5, 2), &nearest), 2, TINY_M);
  assert_near (nearest, vec2 (5, 0), TINY_M);
  ck_assert_double_eq_tol (outline_distance (square, vec2 (13, 14), &nearest), 5, TINY_M);
  assert_near (nearest, vec2 (10, 10), TINY_M);
  ck_assert_double_eq_tol (outline_distance (square, vec2 (0, 7), NULL), 0, TINY_M);
  outline_free (square);
  double t;
  ck_assert_double_eq_tol (segment_distance (vec2 (0, 0), vec2 (10, 0), vec2 (4, 3), &t), 3, TINY_M);
  ck_assert_double_eq_tol (t, 0.4, TINY_M);
  ck_assert_double_eq_tol (segment_distance (vec2 (1, 1), vec2 (1, 1), vec2 (4, 5), &t), 5, TINY_M);
  ck_assert_double_eq (t, 0);
}
END_TEST

START_TEST (a_line_through_a_square_enters_and_leaves)
{
  Outline *square = make_square (10);
  assert_crossings (square, vec2 (-5, 3), vec2 (25, 3), ONE (5, 15));
  assert_crossings (square, vec2 (5, 5), vec2 (25, 5), ONE (0, 5));  /* starts inside */
  assert_crossings (square, vec2 (-5, 5), vec2 (5, 5), ONE (5, 10)); /* ends inside */
  assert_crossings (square, vec2 (2, 5), vec2 (8, 5), ONE (0, 6));
  assert_crossings (square, vec2 (-5, 12), vec2 (25, 12), NONE);
  assert_crossings (square, vec2 (11, 5), vec2 (25, 5), NONE);                                /* the square lies behind */
  assert_crossings (square, vec2 (-2, -2), vec2 (18, 18), ONE (2 * sqrt (2), 12 * sqrt (2))); /* corner to corner */
  outline_free (square);
}
END_TEST

START_TEST (touching_a_corner_is_nothing_and_running_along_an_edge_counts)
{
  Outline *square = make_square (10);
  assert_crossings (square, vec2 (-5, 5), vec2 (5, -5), NONE);          /* touches (0,0) */
  assert_crossings (square, vec2 (-5, 10), vec2 (25, 10), ONE (5, 15)); /* along the top */
  assert_crossings (square, vec2 (-5, 0), vec2 (25, 0), ONE (5, 15));   /* along the bottom */
  assert_crossings (square, vec2 (0, 25), vec2 (0, -5), ONE (15, 25));  /* down the left side */
  assert_crossings (square, vec2 (-5, 0), vec2 (0, 0), NONE);           /* ends at the corner */
  outline_free (square);
  /* The same square turned: nothing lies exactly on the line any more. */
  for (int i = 0; i < 360; i += 7)
    {
      Affine turn = affine_then (affine_rotation (i * PI / 180), affine_translation (1234.5, -987.6));
      Outline *plain = make_square (10), *turned = make_transformed (plain, turn);
      assert_crossings (turned, affine_apply (turn, vec2 (-5, 5)), affine_apply (turn, vec2 (5, -5)), NONE);
      assert_crossings (turned, affine_apply (turn, vec2 (-5, 10)), affine_apply (turn, vec2 (25, 10)), ONE (5, 15));
      assert_crossings (turned, affine_apply (turn, vec2 (-5, 0)), affine_apply (turn, vec2 (25, 0)), ONE (5, 15));
      outline_free (plain);
      outline_free (turned);
    }
}
END_TEST

START_TEST (vertices_on_the_line_are_counted_right)
{
  /* Teeth pointing at the line y = 0 from above (touching) and through it. */
  Outline *teeth
      = RING (false, { 0, 5 }, { 2, 0 }, { 4, 5 }, { 6, -5 }, { 8, 5 }, { 10, 0 }, { 12, 0 }, { 14, 5 }, { 14, 9 }, { 0, 9 });
  assert_crossings (teeth, vec2 (-10, 0), vec2 (30, 0), (Interval[]){ { 15, 17 }, { 20, 22 } }, 2);
  assert_crossings (teeth, vec2 (30, 0), vec2 (-10, 0), (Interval[]){ { 18, 20 }, { 23, 25 } }, 2);
  outline_free (teeth);
  /* Two triangles meeting in a point on the line: one stretch. */
  Outline *bow = RING (false, { 0, -2 }, { 4, 0 }, { 8, 2 }, { 8, -2 }, { 4, 0 }, { 0, 2 });
  assert_crossings (bow, vec2 (-1, 0), vec2 (9, 0), ONE (1, 9));
  outline_free (bow);
}
END_TEST

START_TEST (a_hole_parts_the_stretch_and_an_overlap_does_not)
{
  Vec2 points[] = { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 4, 4 }, { 6, 4 }, { 6, 6 }, { 4, 6 } };
  size_t sizes[] = { 4, 4 };
  Outline *hole = outline_new (points, sizes, 2, true), *overlap = outline_new (points, sizes, 2, false);
  assert_crossings (hole, vec2 (-5, 5), vec2 (25, 5), (Interval[]){ { 5, 9 }, { 11, 15 } }, 2);
  assert_crossings (hole, vec2 (-5, 4), vec2 (25, 4), ONE (5, 15)); /* along the hole's edge: the closed area */
  assert_crossings (overlap, vec2 (-5, 5), vec2 (25, 5), ONE (5, 15));
  outline_free (hole);
  outline_free (overlap);
}
END_TEST

START_TEST (the_topmost_area_answers)
{
  Outline *stack[] = { make_square (100), RING (false, { 10, 10 }, { 50, 10 }, { 50, 50 }, { 10, 50 }),
                       RING (false, { 40, 40 }, { 60, 40 }, { 60, 60 }, { 40, 60 }) };
  AreaIndex *index = area_index_new ((const Outline *const *)stack, 3);
  for (int i = 0; i < 3; i++)
    outline_free (stack[i]);
  ck_assert_int_eq (area_index_top (index, vec2 (5, 5)), 0);
  ck_assert_int_eq (area_index_top (index, vec2 (20, 20)), 1);
  ck_assert_int_eq (area_index_top (index, vec2 (45, 45)), 2);
  ck_assert_int_eq (area_index_top (index, vec2 (55, 55)), 2);
  ck_assert_int_eq (area_index_top (index, vec2 (101, 5)), -1);
  ck_assert_int_eq (area_index_top (index, vec2 (5, -1)), -1);
  area_index_free (index);
}
END_TEST

START_TEST (boxes_grow_join_and_hold)
{
  Box box = box_empty ();
  ck_assert (box_is_empty (box) && !box_contains (box, vec2 (0, 0)) && box_is_empty (box_grown (box, 5)));
  box = box_with_point (box_with_point (box, vec2 (1, 5)), vec2 (3, 2));
  ck_assert (!box_is_empty (box) && box.x0 == 1 && box.x1 == 3 && box.y0 == 2 && box.y1 == 5);
  ck_assert (box_contains (box, vec2 (1, 2)) && !box_contains (box, vec2 (0.9, 3)));
  assert_near (box_centre (box), vec2 (2, 3.5), 0);
  Box grown = box_grown (box, 1);
  ck_assert (grown.x0 == 0 && grown.y0 == 1 && grown.x1 == 4 && grown.y1 == 6);
  Box other = { 3, 5, 9, 9 };
  ck_assert (box_overlaps (box, other) && !box_overlaps (box, (Box){ 3.1, 0, 9, 9 }) && !box_overlaps (box, box_empty ()));
  Box both = box_union (box, other);
  ck_assert (both.x0 == 1 && both.y0 == 2 && both.x1 == 9 && both.y1 == 9);
  ck_assert (box_union (box_empty (), other).x0 == 3 && box_union (other, box_empty ()).x0 == 3);
}
END_TEST

/* ---- invariants ---- */

START_TEST (area_and_centroid_move_with_the_outline)
{
  uint64_t state = 2463534242u;
  for (int i = 0; i < 200; i++)
    {
      Outline *outline = make_random (&state, 3 + (size_t)i % 40, i % 2, i % 3 == 0);
      double scale = 0.5 + next_random (&state);
      Affine t = affine_then (affine_scaling (i % 5 == 0 ? -scale : scale, scale), affine_rotation (next_random (&state) * 6));
      t = affine_then (t, affine_translation (300, -200));
      double area;
      Vec2 centroid;
      ck_assert (outline_measure (outline, &area, &centroid));
      assert_measure (make_transformed (outline, t), area * scale * scale, affine_apply (t, centroid), 1e-8);
      outline_free (outline);
    }
}
END_TEST

START_TEST (area_is_the_sum_of_many_crossings)
{
  uint64_t state = 521288629u;
  for (int i = 0; i < 30; i++)
    {
      Outline *outline = make_random (&state, 12, true, i % 2);
      IntervalList list = { 0 };
      double sum = 0, area;
      for (int k = 0; k < 4000; k++)
        {
          outline_crossings (outline, vec2 (-1, (k + 0.5) / 40), vec2 (1, 0), 200, &list);
          for (size_t j = 0; j < list.n_items; j++)
            sum += (list.items[j].leave_m - list.items[j].enter_m) / 40;
        }
      ck_assert (outline_measure (outline, &area, NULL));
      ck_assert_double_eq_tol (sum, area, 0.05); /* the middle sum's own error at 4000 steps */
      interval_list_clear (&list);
      outline_free (outline);
    }
}
END_TEST

START_TEST (crossings_agree_with_points_and_with_the_way_back)
{
  uint64_t state = 88675123u;
  IntervalList list = { 0 }, back = { 0 };
  for (int i = 0; i < 500; i++)
    {
      Outline *outline = make_random (&state, 3 + (size_t)i % 30, i % 2, i % 3 == 0);
      Vec2 from = vec2 (150 * next_random (&state) - 25, -20), to = vec2 (150 * next_random (&state) - 25, 120);
      Vec2 direction = vec2_unit (vec2_sub (to, from));
      double length = vec2_distance (from, to), last = 0;
      outline_crossings (outline, from, direction, length, &list);
      outline_crossings (outline, to, vec2_scale (direction, -1), length, &back);
      ck_assert_uint_eq (list.n_items, back.n_items);
      for (size_t j = 0; j < list.n_items; j++)
        {
          Interval in = list.items[j], rev = back.items[list.n_items - 1 - j];
          ck_assert (in.enter_m >= last && in.leave_m > in.enter_m && in.leave_m <= length);
          ck_assert_double_eq_tol (in.enter_m, length - rev.leave_m, 1e-9);
          Vec2 middle = vec2_add (from, vec2_scale (direction, (in.enter_m + in.leave_m) / 2));
          Vec2 gap = vec2_add (from, vec2_scale (direction, (last + in.enter_m) / 2));
          ck_assert (outline_contains (outline, middle));
          ck_assert (in.enter_m - last < 1e-6 || !outline_contains (outline, gap));
          last = in.leave_m;
        }
      outline_free (outline);
    }
  interval_list_clear (&list);
  interval_list_clear (&back);
}
END_TEST

/* A ring over few whole coordinates: doubled points and edges, vertices on edges, crossings in vertices. */
static Outline *
make_lattice (uint64_t *state, bool even_odd)
{
  Vec2 points[14];
  size_t n = 3 + (size_t)(12 * next_random (state));
  for (size_t i = 0; i < n; i++)
    points[i] = vec2 (10 * floor (9 * next_random (state)), 10 * floor (9 * next_random (state)));
  return make_ring (points, n, even_odd);
}

static bool
is_in_list (const IntervalList *list, double at_m)
{
  for (size_t i = 0; i < list->n_items; i++)
    if (at_m > list->items[i].enter_m && at_m < list->items[i].leave_m)
      return true;
  return false;
}

START_TEST (a_ray_is_in_the_area_where_either_side_of_it_is)
{
  uint64_t state = 1013904223u;
  IntervalList list = { 0 };
  for (int i = 0; i < 2000; i++)
    {
      Outline *outline = make_lattice (&state, i % 2);
      size_t at = (size_t)(next_random (&state) * (double)outline->n_points);
      Vec2 a = outline->points[at], b = outline->points[(at + 1 + (size_t)i % 3) % outline->n_points];
      Vec2 along = vec2_unit (vec2_sub (b, a)), aside = vec2_scale (vec2_left (along), 1e-6);
      Vec2 from = vec2_sub (a, vec2_scale (along, 50));
      outline_crossings (outline, from, along, 200, &list);
      for (int k = 0; k < 100 && vec2_length (along) > 0; k++)
        {
          double at_m = 200 * next_random (&state);
          Vec2 p = vec2_add (from, vec2_scale (along, at_m));
          bool beside = outline_contains (outline, vec2_add (p, aside)) || outline_contains (outline, vec2_sub (p, aside));
          ck_assert_msg (is_in_list (&list, at_m) == beside, "ring %d, %.17g m along", i, at_m);
        }
      outline_free (outline);
    }
  interval_list_clear (&list);
}
END_TEST

/* Every area from the top down, one by one: the answer the index must give. */
static int
top_one_by_one (Outline *const *stack, int n, Vec2 point)
{
  for (int i = n - 1; i >= 0; i--)
    if (outline_contains (stack[i], point))
      return i;
  return -1;
}

START_TEST (the_index_answers_exactly_as_the_outlines_do)
{
  uint64_t state = 1812433253u;
  for (int round = 0; round < 40; round++)
    {
      Outline *stack[24];
      int n = round % 24 + 1;
      for (int i = 0; i < n; i++)
        {
          Outline *outline = make_random (&state, 3 + (size_t)(100 * next_random (&state)), next_random (&state) < 0.3, i % 2);
          double size = i == 0 ? 3 : 0.05 + next_random (&state);
          Affine t = affine_then (affine_scaling (size, round % 7 == 6 ? size * 1e-3 : size),
                                  affine_translation (150 * next_random (&state), 250 * next_random (&state)));
          stack[i] = make_transformed (outline, t);
          outline_free (outline);
        }
      AreaIndex *index = area_index_new ((const Outline *const *)stack, (size_t)n);
      for (int k = 0; k < 3000; k++)
        {
          Vec2 point = vec2 (500 * next_random (&state) - 100, 600 * next_random (&state) - 100);
          const Outline *outline = stack[k % n];
          size_t at = (size_t)(next_random (&state) * (double)outline->n_points);
          if (k % 3 == 1)
            point = outline->points[at]; /* on a corner */
          if (k % 3 == 2)                /* on an edge but for rounding */
            point = vec2_lerp (outline->points[at], outline->points[(at + 1) % outline->n_points], next_random (&state));
          int top = top_one_by_one (stack, n, point), among_many;
          ck_assert_int_eq (area_index_top (index, point), top);
          area_index_tops (index, &point.x, &point.y, 1, &among_many);
          ck_assert_int_eq (among_many, top);
        }
      area_index_free (index);
      for (int i = 0; i < n; i++)
        outline_free (stack[i]);
    }
}
END_TEST

/* Corners, their nearest neighbours among doubles, and places between two corners: where rounding decides. */
static Vec2
next_awkward (uint64_t *state, const Outline *outline)
{
  Vec2 a = outline->points[(size_t)(next_random (state) * (double)outline->n_points)];
  Vec2 b = outline->points[(size_t)(next_random (state) * (double)outline->n_points)];
  double which = next_random (state);
  if (which < 0.3)
    return vec2_lerp (a, b, next_random (state));
  if (which < 0.6)
    return vec2 (a.x, b.y);
  double toward_x = next_random (state) < 0.5 ? -INFINITY : INFINITY,
         toward_y = next_random (state) < 0.5 ? -INFINITY : INFINITY;
  return vec2 (nextafter (a.x, toward_x), which < 0.8 ? a.y : nextafter (b.y, toward_y));
}

START_TEST (the_index_answers_exactly_where_rounding_decides)
{
  const Affine frames[] = {
    { 1, 0, 0, 1, 0, 0 },
    { 0.6, 0.8, -0.8, 0.6, 0, 0 }, /* whole numbers, and none whole */
    { 1e-3, 0, 0, 1, 1e6, -1e6 },
    { 1, 0, 0, 1e-7, 0, 1e9 }, /* thin and far off */
    { 1, 0, 0, 0, 0, 5 },
    { 0, 0, 0, 1, 5, 0 }, /* flat */
    { 1e-160, 0, 0, 1e-160, 0, 0 },
    { 1e160, 0, 0, 1e160, 0, 0 }, /* products under- and overflow */
    { 1e306, 0, 0, 1e306, -8e307, 0 },
  };
  uint64_t state = 1664525u;
  for (int round = 0; round < 180; round++)
    {
      Outline *stack[6];
      for (int i = 0; i < 6; i++)
        {
          Outline *outline = make_lattice (&state, i % 2);
          stack[i] = make_transformed (outline, frames[round % 9]);
          outline_free (outline);
        }
      AreaIndex *index = area_index_new ((const Outline *const *)stack, 6);
      for (int k = 0; k < 1000; k++)
        {
          Vec2 point = next_awkward (&state, stack[k % 6]);
          ck_assert_int_eq (area_index_top (index, point), top_one_by_one (stack, 6, point));
        }
      area_index_free (index);
      for (int i = 0; i < 6; i++)
        outline_free (stack[i]);
    }
}
END_TEST

/* ---- edges ---- */

START_TEST (an_empty_outline_is_nowhere)
{
  Outline *outline = outline_new (NULL, NULL, 0, false);
  ck_assert (!outline_contains (outline, vec2 (0, 0)));
  Vec2 nearest = vec2 (3, 4);
  ck_assert (isinf (outline_distance (outline, vec2 (0, 0), &nearest)));
  assert_crossings (outline, vec2 (0, 0), vec2 (1, 0), NONE);
  AreaIndex *index = area_index_new ((const Outline *const *)&outline, 1);
  ck_assert_int_eq (area_index_top (index, vec2 (0, 0)), -1);
  area_index_free (index);
  index = area_index_new (NULL, 0);
  ck_assert_int_eq (area_index_top (index, vec2 (0, 0)), -1);
  area_index_free (index);
  assert_no_area (outline);
}
END_TEST

START_TEST (what_has_no_area_says_so)
{
  assert_no_area (RING (false, { 1, 1 }));
  assert_no_area (RING (false, { 1, 1 }, { 5, 3 }));
  assert_no_area (RING (false, { 0, 0 }, { 5, 0 }, { 9, 0 }));
  assert_no_area (RING (false, { 0, 0 }, { 0, 5 }, { 0, 9 }, { 0, 2 }));
  /* Out and back over the same ground. */
  assert_no_area (RING (false, { 0, 0 }, { 4, 1 }, { 5, 5 }, { 4, 1 }));
  /* Twice around is nothing by parity. */
  assert_no_area (RING (true, { 0, 0 }, { 4, 0 }, { 4, 4 }, { 0, 0 }, { 4, 0 }, { 4, 4 }));
}
END_TEST

START_TEST (a_spike_and_a_doubled_edge_add_no_area)
{
  assert_measure (RING (false, { 0, 0 }, { 10, 0 }, { 10, 5 }, { 30, 5 }, { 10, 5 }, { 10, 10 }, { 0, 10 }), 100, vec2 (5, 5),
                  1e-9);
  /* A square with a slit to a hole, run both ways. */
  assert_measure (
      RING (false, { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 0, 0 }, { 4, 4 }, { 4, 6 }, { 6, 6 }, { 6, 4 }, { 4, 4 }), 96,
      vec2 (5, 5), 1e-9);
}
END_TEST

START_TEST (far_off_and_huge_outlines_measure_as_well)
{
  Outline *square = make_square (10);
  Outline *far = make_transformed (square, affine_translation (1e6, -1e6));
  assert_measure (far, 100, vec2 (1000005, -999995), 1e-6);
  Outline *huge = make_transformed (square, affine_scaling (1e100, 1e100));
  double area;
  ck_assert (outline_measure (huge, &area, NULL));
  ck_assert_double_eq_tol (area / 1e202, 1, 1e-12);
  ck_assert (outline_contains (huge, vec2 (5e100, 5e100)));
  outline_free (huge);
  huge = make_transformed (square, affine_scaling (1e200, 1e200));
  assert_no_area (huge); /* more square metres than a double holds */
  outline_free (square);
}
END_TEST

START_TEST (a_hopeless_tangle_is_given_up)
{
  /* Some hundred million crossings. */
  size_t n = 20000;
  uint64_t state = 69069u;
  Vec2 *points = malloc (n * sizeof *points);
  for (size_t i = 0; i < n; i++)
    points[i] = vec2 (100 * next_random (&state), 100 * next_random (&state));
  assert_no_area (make_ring (points, n, true));
  /* A comb of as many teeth is measured, standing or lying. */
  for (size_t i = 0; i < n; i++)
    points[i] = vec2 ((double)i, i % 2 ? 100 + next_random (&state) : next_random (&state));
  Outline *standing = make_ring (points, n, false), *lying = make_transformed (standing, affine_rotation (PI / 2));
  double area, turned;
  ck_assert (outline_measure (standing, &area, NULL) && outline_measure (lying, &turned, NULL));
  ck_assert_double_eq_tol (turned / area, 1, 1e-9);
  outline_free (standing);
  outline_free (lying);
  free (points);
}
END_TEST

START_TEST (nan_never_gets_in_or_out)
{
  Outline *square = make_square (10);
  AreaIndex *index = area_index_new ((const Outline *const *)&square, 1);
  const Vec2 rows[] = { { NAN, 5 }, { 5, NAN }, { NAN, NAN }, { INFINITY, 5 }, { 5, -INFINITY } };
  IntervalList list = { 0 };
  for (size_t i = 0; i < 5; i++)
    {
      ck_assert (!outline_contains (square, rows[i]));
      ck_assert_int_eq (area_index_top (index, rows[i]), -1);
      ck_assert (!isnan (outline_distance (square, rows[i], NULL)));
      outline_crossings (square, rows[i], vec2 (1, 0), 10, &list);
      ck_assert_uint_eq (list.n_items, 0);
      outline_crossings (square, vec2 (-5, 5), rows[i], 10, &list);
      ck_assert_uint_eq (list.n_items, 0);
    }
  outline_crossings (square, vec2 (-5, 5), vec2 (1, 0), NAN, &list);
  ck_assert_uint_eq (list.n_items, 0);
  outline_crossings (square, vec2 (-5, 5), vec2 (0, 0), 10, &list);
  ck_assert_uint_eq (list.n_items, 0);
  area_index_free (index);
  outline_free (square);
  /* A ring that is not finite is left out, the others stay. */
  Vec2 points[] = { { 0, 0 }, { NAN, 5 }, { 5, 5 }, { 20, 0 }, { 30, 0 }, { 30, 10 } };
  size_t sizes[] = { 3, 3 };
  Outline *rest = outline_new (points, sizes, 2, false);
  ck_assert_uint_eq (rest->n_rings, 1);
  assert_measure (rest, 50, vec2 (80.0 / 3, 10.0 / 3), 1e-9);
  interval_list_clear (&list);
}
END_TEST

START_TEST (crossings_of_the_largest_doubles_are_no_nan)
{
  Outline *huge = RING (false, { -1.7e308, -1.7e308 }, { 1.7e308, -1.7e308 }, { 1.7e308, 1.7e308 }, { -1.7e308, 1.7e308 });
  const Vec2 directions[] = { { 1, 0 }, { 0, -1 }, { 0.6, 0.8 }, { -0.8, 0.6 } };
  IntervalList list = { 0 };
  for (size_t i = 0; i < 4; i++)
    {
      outline_crossings (huge, vec2 (-1e308, 1e308), directions[i], 500, &list);
      for (size_t k = 0; k < list.n_items; k++)
        ck_assert (list.items[k].enter_m >= 0 && list.items[k].enter_m < list.items[k].leave_m && list.items[k].leave_m <= 500);
      ck_assert (!isnan (outline_distance (huge, vec2 (-1e308, 1e308), NULL)));
    }
  interval_list_clear (&list);
  outline_free (huge);
}
END_TEST

START_TEST (an_endless_ray_is_cut_by_the_area_only)
{
  Outline *square = make_square (10);
  IntervalList list = { 0 };
  outline_crossings (square, vec2 (-5, 5), vec2 (1, 0), INFINITY, &list);
  ck_assert_uint_eq (list.n_items, 1);
  ck_assert_double_eq_tol (list.items[0].leave_m, 15, TINY_M);
  interval_list_clear (&list);
  outline_free (square);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("geometry");
  TCase *known = tcase_create ("known answers");
  tcase_add_test (known, a_quadrilateral_has_the_area_and_centroid_worked_by_hand);
  tcase_add_test (known, a_bow_tie_counts_both_wings);
  tcase_add_test (known, a_pentagram_keeps_or_loses_its_middle_by_the_fill_rule);
  tcase_add_test (known, holes_are_holes_by_direction_or_by_parity);
  tcase_add_test (known, winding_counts_turns_anticlockwise);
  tcase_add_test (known, distance_is_to_the_nearest_edge_from_either_side);
  tcase_add_test (known, a_line_through_a_square_enters_and_leaves);
  tcase_add_test (known, touching_a_corner_is_nothing_and_running_along_an_edge_counts);
  tcase_add_test (known, vertices_on_the_line_are_counted_right);
  tcase_add_test (known, a_hole_parts_the_stretch_and_an_overlap_does_not);
  tcase_add_test (known, the_topmost_area_answers);
  tcase_add_test (known, boxes_grow_join_and_hold);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_add_test (invariants, area_and_centroid_move_with_the_outline);
  tcase_add_test (invariants, area_is_the_sum_of_many_crossings);
  tcase_add_test (invariants, crossings_agree_with_points_and_with_the_way_back);
  tcase_add_test (invariants, a_ray_is_in_the_area_where_either_side_of_it_is);
  tcase_add_test (invariants, the_index_answers_exactly_as_the_outlines_do);
  tcase_add_test (invariants, the_index_answers_exactly_where_rounding_decides);
  suite_add_tcase (suite, invariants);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, an_empty_outline_is_nowhere);
  tcase_add_test (edges, what_has_no_area_says_so);
  tcase_add_test (edges, a_spike_and_a_doubled_edge_add_no_area);
  tcase_add_test (edges, far_off_and_huge_outlines_measure_as_well);
  tcase_add_test (edges, a_hopeless_tangle_is_given_up);
  tcase_add_test (edges, nan_never_gets_in_or_out);
  tcase_add_test (edges, crossings_of_the_largest_doubles_are_no_nan);
  tcase_add_test (edges, an_endless_ray_is_cut_by_the_area_only);
  suite_add_tcase (suite, edges);
  return suite;
}
