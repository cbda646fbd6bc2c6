// SPDX-License-Identifier: GPL-3.0-or-later
/* render, what needs no picture: views, the places of labels, the shared distance axis and the layout of clubs. */
#include "render.h"
#include "suite.h"

#include <stdlib.h>
#include <string.h>

/* Coordinates are metres or drawing units of at most thousands; this is rounding. */
#define CLOSE 1e-9
#define N_TRIALS 300
#define MOST_LABELS 40

#define ck_assert_close(a, b, by)                                                                                              \
  ck_assert_msg (fabs ((a) - (b)) <= (by), "%s is %.12g, not %.12g", #a, (double)(a), (double)(b))
#define ck_assert_vec(a, b, by)                                                                                                \
  do                                                                                                                           \
    {                                                                                                                          \
      Vec2 vec_a = (a), vec_b = (b);                                                                                           \
      ck_assert_msg (vec2_distance (vec_a, vec_b) <= (by), "%s is %.9g,%.9g, not %.9g,%.9g", #a, vec_a.x, vec_a.y, vec_b.x,    \
                     vec_b.y);                                                                                                 \
    }                                                                                                                          \
  while (0)

static double
between (GRand *rand, double low, double high)
{
  return g_rand_double_range (rand, low, high);
}

static RenderView
random_view (GRand *rand)
{
  return (RenderView){ .centre = vec2 (between (rand, -300, 300), between (rand, -300, 300)),
                       .px_per_m = exp (between (rand, log (0.2), log (200))),
                       .turn_rad = between (rand, -7, 7),
                       .width_px = between (rand, 50, 3000),
                       .height_px = between (rand, 50, 3000),
                       .unit_px = 1 };
}

/* ---- views ---- */

START_TEST (up_the_hole_is_up_the_drawing)
{
  RenderView view = { .centre = vec2 (5, 100), .px_per_m = 2, .width_px = 400, .height_px = 300, .unit_px = 1 };
  ck_assert_vec (view_point (&view, vec2 (5, 100)), vec2 (200, 150), CLOSE);
  ck_assert_vec (view_point (&view, vec2 (5, 110)), vec2 (200, 130), CLOSE);
  ck_assert_vec (view_point (&view, vec2 (15, 100)), vec2 (220, 150), CLOSE);
}
END_TEST

START_TEST (a_quarter_turn_anticlockwise_sends_up_to_the_left)
{
  RenderView view = { .px_per_m = 1, .turn_rad = PI / 2, .width_px = 200, .height_px = 100, .unit_px = 1 };
  ck_assert_vec (view_point (&view, vec2 (0, 10)), vec2 (90, 50), CLOSE);
  ck_assert_vec (view_point (&view, vec2 (10, 0)), vec2 (100, 40), CLOSE);
}
END_TEST

START_TEST (a_place_on_the_drawing_comes_back_from_the_hole)
{
  GRand *rand = g_rand_new_with_seed (1);
  for (int i = 0; i < N_TRIALS; i++)
    {
      RenderView view = random_view (rand);
      Vec2 point = vec2 (between (rand, -500, 500), between (rand, -500, 500));
      ck_assert_vec (view_unproject (&view, view_point (&view, point)), point, 1e-7);
      ck_assert_vec (affine_apply (view_to_drawing (&view), point), view_point (&view, point), 1e-7);
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (the_shot_runs_from_left_to_right)
{
  GRand *rand = g_rand_new_with_seed (2);
  for (int i = 0; i < N_TRIALS; i++)
    {
      RenderView view = { .width_px = 1000, .height_px = 500, .unit_px = 1, .px_per_m = 1 };
      Vec2 ball = vec2 (between (rand, -50, 50), between (rand, -50, 50));
      Vec2 aim = vec2 (between (rand, -300, 300), between (rand, 60, 300));
      view_along_shot (&view, ball, aim, 300, 70, 30);
      ck_assert_vec (view_point (&view, ball), vec2 (70, 250), 1e-7);
      ck_assert_vec (view_point (&view, aim), vec2 (70 + 3 * vec2_distance (ball, aim), 250), 1e-7);
      ck_assert_close (view.px_per_m, 900.0 / 300, CLOSE);
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (an_aim_on_the_ball_still_gives_a_view)
{
  RenderView view = { .width_px = 1000, .height_px = 500, .unit_px = 1, .px_per_m = 1 };
  view_along_shot (&view, vec2 (1, 2), vec2 (1, 2), 0, 70, 30);
  ck_assert (affine_is_finite (view_to_drawing (&view)));
  ck_assert_vec (view_point (&view, vec2 (1, 2)), vec2 (70, 250), 1e-7);
}
END_TEST

START_TEST (fitting_shows_the_whole_box_and_no_more)
{
  GRand *rand = g_rand_new_with_seed (3);
  for (int i = 0; i < N_TRIALS; i++)
    {
      RenderView view = random_view (rand);
      view.width_px += 100;
      view.height_px += 100;
      Box box = { between (rand, -90, 0), between (rand, -90, 0), between (rand, 20, 90), between (rand, 20, 400) },
          seen = box_empty ();
      view_fit (&view, box, 20);
      for (int k = 0; k < 4; k++)
        seen = box_with_point (seen, view_point (&view, vec2 (k & 1 ? box.x1 : box.x0, k & 2 ? box.y1 : box.y0)));
      double spare = fmin (fmin (seen.x0, view.width_px - seen.x1), fmin (seen.y0, view.height_px - seen.y1));
      ck_assert_close (spare, 20, 1e-6);
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (fitting_nothing_or_a_point_leaves_a_usable_view)
{
  RenderView view = { .px_per_m = 3, .width_px = 400, .height_px = 300, .unit_px = 1 };
  view_fit (&view, box_empty (), 20);
  ck_assert_close (view.px_per_m, 3, 0);
  view_fit (&view, (Box){ 5, 6, 5, 6 }, 20);
  ck_assert_close (view.px_per_m, 200, 0);
  ck_assert_vec (view_point (&view, vec2 (5, 6)), vec2 (200, 150), CLOSE);
}
END_TEST

START_TEST (zooming_keeps_the_point_under_the_pointer)
{
  GRand *rand = g_rand_new_with_seed (4);
  for (int i = 0; i < N_TRIALS; i++)
    {
      RenderView view = random_view (rand);
      Vec2 pointer = vec2 (between (rand, 0, view.width_px), between (rand, 0, view.height_px));
      Vec2 under = view_unproject (&view, pointer);
      view_zoom (&view, between (rand, 0.01, 100), pointer);
      ck_assert_vec (view_point (&view, under), pointer, 1e-6);
      ck_assert (view.px_per_m >= 0.2 && view.px_per_m <= 200);
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (a_zoom_that_is_no_number_changes_nothing)
{
  RenderView view = { .px_per_m = 3, .width_px = 400, .height_px = 300, .unit_px = 1 }, before = view;
  view_zoom (&view, NAN, vec2 (1, 1));
  view_zoom (&view, 0, vec2 (1, 1));
  view_zoom (&view, -2, vec2 (1, 1));
  ck_assert_mem_eq (&view, &before, sizeof view);
}
END_TEST

START_TEST (panning_moves_the_drawing_by_as_much)
{
  GRand *rand = g_rand_new_with_seed (5);
  for (int i = 0; i < N_TRIALS; i++)
    {
      RenderView view = random_view (rand);
      Vec2 point = vec2 (between (rand, -50, 50), between (rand, -50, 50)),
           by = vec2 (between (rand, -90, 90), between (rand, -90, 90));
      Vec2 before = view_point (&view, point);
      view_pan (&view, by);
      ck_assert_vec (view_point (&view, point), vec2_add (before, by), 1e-6);
    }
  g_rand_free (rand);
}
END_TEST

/* ---- labels ---- */

static const Box sheet = { 0, 0, 800, 600 };

static size_t
random_labels (GRand *rand, Label *labels, size_t most)
{
  size_t n = (size_t)g_rand_int_range (rand, 1, (int)most + 1);
  for (size_t i = 0; i < n; i++)
    labels[i] = (Label){ .anchor_px = vec2 (between (rand, 0, 800), between (rand, 0, 600)),
                         .width_px = between (rand, 10, 120),
                         .height_px = between (rand, 10, 30),
                         .preferred_px = vec2 (between (rand, -60, 60), between (rand, -60, 60)) };
  return n;
}

static bool
clash (Box a, Box b)
{
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

START_TEST (a_lone_label_stands_where_it_reads_best)
{
  Label label = { .anchor_px = vec2 (300, 200), .width_px = 60, .height_px = 20, .preferred_px = vec2 (12, 40) };
  place_labels (&label, 1, NULL, 0, sheet);
  ck_assert (label.is_placed);
  ck_assert_close (label.box_px.x0, 282, CLOSE);
  ck_assert_close (label.box_px.y0, 230, CLOSE);
  ck_assert_close (label.box_px.x1, 342, CLOSE);
  ck_assert_close (label.box_px.y1, 250, CLOSE);
}
END_TEST

START_TEST (labels_never_overlap_nor_leave_the_drawing)
{
  GRand *rand = g_rand_new_with_seed (6);
  Label labels[MOST_LABELS];
  Box avoid[] = { { 100, 100, 300, 160 }, { 500, 0, 540, 600 } };
  size_t n_placed = 0, n_all = 0;
  for (int trial = 0; trial < N_TRIALS; trial++)
    {
      size_t n = random_labels (rand, labels, MOST_LABELS);
      place_labels (labels, n, avoid, G_N_ELEMENTS (avoid), sheet);
      for (size_t i = 0; i < n; i++)
        {
          Box box = labels[i].box_px;
          n_all++;
          if (!labels[i].is_placed)
            continue;
          n_placed++;
          ck_assert_close (box.x1 - box.x0, labels[i].width_px, CLOSE);
          ck_assert_close (box.y1 - box.y0, labels[i].height_px, CLOSE);
          ck_assert (box.x0 >= sheet.x0 - CLOSE && box.y0 >= sheet.y0 - CLOSE && box.x1 <= sheet.x1 + CLOSE
                     && box.y1 <= sheet.y1 + CLOSE);
          ck_assert (!clash (box, avoid[0]) && !clash (box, avoid[1]));
          for (size_t k = 0; k < i; k++)
            ck_assert (!labels[k].is_placed || !clash (box, labels[k].box_px));
        }
    }
  /* A quarter of the drawing at most is covered, so nearly every label finds room. */
  ck_assert_uint_gt (n_placed, n_all * 95 / 100);
  g_rand_free (rand);
}
END_TEST

START_TEST (a_label_slides_along_the_edge_of_the_drawing)
{
  for (double x = 40; x > 10; x -= 0.5)
    {
      Label label = { .anchor_px = vec2 (x, 300), .width_px = 60, .height_px = 20, .preferred_px = vec2 (0, 30) };
      place_labels (&label, 1, NULL, 0, sheet);
      ck_assert (label.is_placed);
      ck_assert_vec (box_centre (label.box_px), vec2 (fmax (x, 30), 330), CLOSE);
    }
}
END_TEST

START_TEST (the_same_labels_get_the_same_places)
{
  GRand *rand = g_rand_new_with_seed (7);
  Label first[MOST_LABELS], second[MOST_LABELS];
  for (int trial = 0; trial < N_TRIALS / 10; trial++)
    {
      size_t n = random_labels (rand, first, MOST_LABELS);
      memcpy (second, first, sizeof first);
      place_labels (first, n, NULL, 0, sheet);
      place_labels (second, n, NULL, 0, sheet);
      for (size_t i = 0; i < n; i++)
        {
          ck_assert (first[i].is_placed == second[i].is_placed);
          ck_assert_mem_eq (&first[i].box_px, &second[i].box_px, sizeof (Box));
        }
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (a_later_label_never_moves_an_earlier_one)
{
  GRand *rand = g_rand_new_with_seed (8);
  Label all[MOST_LABELS], few[MOST_LABELS];
  for (int trial = 0; trial < N_TRIALS / 10; trial++)
    {
      size_t n = random_labels (rand, all, MOST_LABELS);
      memcpy (few, all, sizeof all);
      place_labels (all, n, NULL, 0, sheet);
      place_labels (few, n / 2, NULL, 0, sheet);
      for (size_t i = 0; i < n / 2; i++)
        ck_assert_mem_eq (&all[i].box_px, &few[i].box_px, sizeof (Box));
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (labels_move_with_their_anchors)
{
  GRand *rand = g_rand_new_with_seed (9);
  Label still[MOST_LABELS], moved[MOST_LABELS];
  Box wide = { -1e5, -1e5, 1e5, 1e5 };
  Vec2 by = vec2 (3.25, -1.5);
  for (int trial = 0; trial < N_TRIALS / 10; trial++)
    {
      size_t n = random_labels (rand, still, MOST_LABELS);
      memcpy (moved, still, sizeof still);
      for (size_t i = 0; i < n; i++)
        moved[i].anchor_px = vec2_add (moved[i].anchor_px, by);
      place_labels (still, n, NULL, 0, wide);
      place_labels (moved, n, NULL, 0, wide);
      for (size_t i = 0; i < n; i++)
        ck_assert_vec (vec2_add (box_centre (still[i].box_px), by), box_centre (moved[i].box_px), 1e-9);
    }
  g_rand_free (rand);
}
END_TEST

START_TEST (a_small_drag_does_not_make_a_label_jump)
{
  /* Two plates whose anchors draw together, 0.25 px a frame: the second gives way once, and does not flicker back. */
  Vec2 last = vec2 (0, 0);
  int n_jumps = 0;
  for (int frame = 0; frame < 240; frame++)
    {
      Label labels[2];
      for (int i = 0; i < 2; i++)
        labels[i] = (Label){
          .anchor_px = vec2 (i ? 460 - 0.25 * frame : 400, 300), .width_px = 60, .height_px = 20, .preferred_px = vec2 (0, 30)
        };
      place_labels (labels, 2, NULL, 0, sheet);
      ck_assert (labels[0].is_placed && labels[1].is_placed);
      Vec2 offset = vec2_sub (box_centre (labels[1].box_px), labels[1].anchor_px);
      n_jumps += frame > 0 && vec2_distance (offset, last) > 1e-6;
      last = offset;
    }
  ck_assert_int_ge (n_jumps, 1);
  ck_assert_int_le (n_jumps, 6);
}
END_TEST

START_TEST (a_crowd_leaves_labels_out_rather_than_pile_them_up)
{
  Label labels[MOST_LABELS];
  Box small = { 0, 0, 100, 60 };
  int n_placed = 0;
  for (int i = 0; i < MOST_LABELS; i++)
    labels[i] = (Label){ .anchor_px = vec2 (50, 30), .width_px = 30, .height_px = 14, .preferred_px = vec2 (0, -12) };
  place_labels (labels, MOST_LABELS, NULL, 0, small);
  for (int i = 0; i < MOST_LABELS; i++)
    n_placed += labels[i].is_placed;
  ck_assert_int_ge (n_placed, 4);
  ck_assert_int_le (n_placed, 14);
  ck_assert (labels[0].is_placed);
}
END_TEST

START_TEST (a_label_without_a_usable_place_is_left_out)
{
  Label labels[] = { { .anchor_px = { NAN, 10 }, .width_px = 10, .height_px = 10 },
                     { .anchor_px = { 10, 10 }, .width_px = INFINITY, .height_px = 10 },
                     { .anchor_px = { 10, 10 }, .width_px = 0, .height_px = 10 },
                     { .anchor_px = { 10, 10 }, .width_px = 900, .height_px = 10 },
                     { .anchor_px = { 400, 300 }, .width_px = 50, .height_px = 10 } };
  place_labels (labels, G_N_ELEMENTS (labels), NULL, 0, sheet);
  for (size_t i = 0; i + 1 < G_N_ELEMENTS (labels); i++)
    ck_assert (!labels[i].is_placed);
  ck_assert (labels[4].is_placed);
  ck_assert_vec (box_centre (labels[4].box_px), vec2 (400, 300), CLOSE);
  place_labels (NULL, 0, NULL, 0, sheet);
}
END_TEST

/* ---- ruler and clubs share the drawing's axis ---- */

START_TEST (a_distance_on_the_axis_stands_under_its_place_on_the_drawing)
{
  RenderView view = { .width_px = 1000, .height_px = 500, .unit_px = 1, .px_per_m = 1 };
  Vec2 ball = vec2 (3, 4), aim = vec2 (60, 200), along = vec2_unit (vec2_sub (aim, ball));
  view_along_shot (&view, ball, aim, 300, 70, 30);
  RenderAxis axis = axis_of_view (&view, ball);
  for (double d = 0; d < 300; d += 17)
    ck_assert_close (axis.zero_px + d * axis.px_per_m, view_point (&view, vec2_add (ball, vec2_scale (along, d))).x, 1e-7);
}
END_TEST

static const char bag_text[]
    = "club,carry_yd,carry_sd_yd,side_sd_yd\n"
      "driver,230,12,18\n3 wood,210,10,15\n5 wood,195,9,14\n4 hybrid,180,9,13\n5 iron,168,8,12\n6 iron,158,8,11\n"
      "7 iron,147,7,10\n8 iron,136,7,9\n9 iron,125,6,8\npitching wedge,112,6,7\nsand wedge,85,6,6\n";

static Bag *
small_bag (void)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (bag_text, strlen (bag_text));
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  return bag;
}

START_TEST (every_club_is_picked_at_its_own_bar)
{
  g_autoptr (Bag) bag = small_bag ();
  RenderAxis axis = { .zero_px = 70, .px_per_m = 4, .width_px = 1000, .unit_px = 1 };
  double height = render_clubs_height (bag, &axis);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      int n_found = 0;
      double x = axis.zero_px + bag_club (bag, i)->carry_m * axis.px_per_m;
      for (double y = 1; y < height && x < axis.width_px; y += 2)
        n_found += render_clubs_pick (&axis, bag, NULL, height, vec2 (x, y)) == (int)i;
      ck_assert_msg (n_found >= 5 || x >= axis.width_px, "%s is picked in %d places", bag_club (bag, i)->name, n_found);
    }
  ck_assert_int_eq (render_clubs_pick (&axis, bag, NULL, height, vec2 (5, height / 2)), -1);
  ck_assert_int_eq (render_clubs_pick (&axis, bag, NULL, height, vec2 (400, -5)), -1);
}
END_TEST

START_TEST (crowded_clubs_need_more_height)
{
  g_autoptr (Bag) bag = small_bag ();
  RenderAxis wide = { .zero_px = 70, .px_per_m = 10, .width_px = 2500, .unit_px = 1 }, narrow = wide, large = wide;
  narrow.px_per_m = 1;
  large.unit_px = 2;
  ck_assert_double_gt (render_clubs_height (bag, &wide), 0);
  ck_assert_double_gt (render_clubs_height (bag, &narrow), render_clubs_height (bag, &wide));
  ck_assert_double_gt (render_clubs_height (bag, &large), render_clubs_height (bag, &wide));
}
END_TEST

START_TEST (no_bag_and_no_axis_give_no_club)
{
  RenderAxis axis = { .zero_px = 70, .px_per_m = 4, .width_px = 1000, .unit_px = 1 }, broken = axis;
  g_autoptr (Bag) bag = small_bag ();
  broken.px_per_m = NAN;
  ck_assert_int_eq (render_clubs_pick (&axis, NULL, NULL, 100, vec2 (400, 20)), -1);
  ck_assert_int_eq (render_clubs_pick (&broken, bag, NULL, 100, vec2 (400, 20)), -1);
  ck_assert (isfinite (render_clubs_height (NULL, &axis)));
  ck_assert (isfinite (render_clubs_height (bag, &broken)));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render");
  TCase *views = tcase_create ("views"), *labels = tcase_create ("labels"), *axis = tcase_create ("axis");
  tcase_add_test (views, up_the_hole_is_up_the_drawing);
  tcase_add_test (views, a_quarter_turn_anticlockwise_sends_up_to_the_left);
  tcase_add_test (views, a_place_on_the_drawing_comes_back_from_the_hole);
  tcase_add_test (views, the_shot_runs_from_left_to_right);
  tcase_add_test (views, an_aim_on_the_ball_still_gives_a_view);
  tcase_add_test (views, fitting_shows_the_whole_box_and_no_more);
  tcase_add_test (views, fitting_nothing_or_a_point_leaves_a_usable_view);
  tcase_add_test (views, zooming_keeps_the_point_under_the_pointer);
  tcase_add_test (views, a_zoom_that_is_no_number_changes_nothing);
  tcase_add_test (views, panning_moves_the_drawing_by_as_much);
  tcase_add_test (labels, a_lone_label_stands_where_it_reads_best);
  tcase_add_test (labels, labels_never_overlap_nor_leave_the_drawing);
  tcase_add_test (labels, a_label_slides_along_the_edge_of_the_drawing);
  tcase_add_test (labels, the_same_labels_get_the_same_places);
  tcase_add_test (labels, a_later_label_never_moves_an_earlier_one);
  tcase_add_test (labels, labels_move_with_their_anchors);
  tcase_add_test (labels, a_small_drag_does_not_make_a_label_jump);
  tcase_add_test (labels, a_crowd_leaves_labels_out_rather_than_pile_them_up);
  tcase_add_test (labels, a_label_without_a_usable_place_is_left_out);
  tcase_add_test (axis, a_distance_on_the_axis_stands_under_its_place_on_the_drawing);
  tcase_add_test (axis, every_club_is_picked_at_its_own_bar);
  tcase_add_test (axis, crowded_clubs_need_more_height);
  tcase_add_test (axis, no_bag_and_no_axis_give_no_club);
  suite_add_tcase (suite, views);
  suite_add_tcase (suite, labels);
  suite_add_tcase (suite, axis);
  return suite;
}
