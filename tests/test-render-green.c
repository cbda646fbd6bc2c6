// SPDX-License-Identifier: GPL-3.0-or-later
/* render, the green by itself: how the view lies on it, and what the overlay writes and draws there. */
#include "render-green.h"
#include "pixels.h"
#include "render-labels.h"
#include "suite.h"

#define WIDE 800
#define HIGH 460
#define EXACT_M 1e-9
/* The green from the ball at the origin, up the hole: 30 m deep, the hole 15 m on, 16 m of room to its left and 8 m to its right. */
#define FRONT_M 140.0
#define HOLE_M 155.0
#define BACK_M 170.0
#define LEFT_M 16.0
#define RIGHT_M 8.0

typedef struct
{
  Hole *hole;
  Bag *bag;
  ShotResult shot;
  PlanGreen green;
  Approach approach;
  PlanScene scene;
  RenderView view;
  RenderLabels *labels;
} Stage;

/* A shot that lands on the green and runs on, and a number to play 4 m past the hole with the long side to miss on. */
static void
set_up (Stage *stage)
{
  static const char bag_text[] = "club,carry_m,carry_sd_m,side_sd_m\n7 iron,150,6,5\n";
  g_autoptr (GBytes) bytes = g_bytes_new_static (bag_text, strlen (bag_text));
  Part *green = part_new (KIND_GREEN);
  path_add_rectangle (&green->path, (Box){ -LEFT_M, FRONT_M, RIGHT_M, BACK_M }, 0, 0);
  memset (stage, 0, sizeof *stage);
  stage->hole = hole_of (part_seal (green), point (KIND_HOLE_LOCATION, vec2 (0, HOLE_M)), NULL);
  stage->bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (stage->bag);
  ShotInput input = { .aim = vec2 (0, 150), .club = bag_club (stage->bag, 0), .swing = 1, .curve_m = NAN };
  ck_assert (odds_shot (stage->hole, NULL, &input, &stage->shot, NULL));
  ck_assert (odds_green_play (stage->hole, NULL, &stage->shot, NULL, 0, &stage->green.play));
  ck_assert (stage->green.play.is_reached);
  stage->approach = (Approach){ .best = { .aim = vec2 (0, 158), .landing = vec2 (0, 158) },
                                .plays_m = 158,
                                .past_m = 4,
                                .misses = { [MISS_SHORT] = 3, [MISS_LONG] = 2.2, [MISS_LEFT] = 2.5, [MISS_RIGHT] = 2.6 },
                                .safest = MISS_LONG,
                                .dearest = MISS_SHORT };
  stage->green.approach = &stage->approach;
  stage->labels = render_labels_new ();
  stage->scene = (PlanScene){
    .hole = stage->hole, .shots = &stage->shot, .n_shots = 1, .green = &stage->green, .labels = stage->labels
  };
  stage->view = (RenderView){ .width_px = WIDE, .height_px = HIGH, .unit_px = 1, .units = UNIT_METRES };
  view_frame_green (&stage->view, &stage->scene);
}

static void
tear_down (Stage *stage)
{
  render_labels_free (stage->labels);
  bag_unref (stage->bag);
  hole_unref (stage->hole);
}

static unsigned
bit_of (const char *name)
{
  for (int i = 0; overlay_table[i].name != NULL; i++)
    if (strcmp (overlay_table[i].name, name) == 0)
      return 1u << i;
  ck_abort_msg ("no overlay %s", name);
}

static cairo_surface_t *
draw (Stage *stage)
{
  cairo_surface_t *surface = canvas (WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  render_overlays (cr, &stage->scene, &stage->view, bit_of ("green"));
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  return surface;
}

/* The label of the picture that was drawn, NULL without one. */
static const RenderLabel *
label_of (const Stage *stage, const char *text)
{
  size_t n;
  const RenderLabel *labels = render_labels_get (stage->labels, &n);
  for (size_t i = 0; i < n; i++)
    if (strcmp (labels[i].text, text) == 0)
      return &labels[i];
  return NULL;
}

static void
assert_label_at (const Stage *stage, const char *text, Vec2 at_m)
{
  const RenderLabel *label = label_of (stage, text);
  ck_assert_msg (label != NULL && label->label.is_placed, "nothing says \"%s\"", text);
  Vec2 at = view_point (&stage->view, at_m);
  ck_assert_msg (vec2_distance (at, label->label.anchor_px) < 0.5, "\"%s\" speaks of %.1f, %.1f and not of %.1f, %.1f", text,
                 label->label.anchor_px.x, label->label.anchor_px.y, at.x, at.y);
}

/* ---- known answers ---- */

START_TEST (the_view_runs_along_the_shot_and_holds_the_green)
{
  Stage stage;
  set_up (&stage);
  Vec2 ball = view_point (&stage.view, stage.shot.ball), hole = view_point (&stage.view, vec2 (0, HOLE_M));
  ck_assert_double_lt (ball.x, 0); /* the green alone: the ball is far to the left of it */
  ck_assert_double_eq_tol (ball.y, hole.y, 1e-6);
  for (int corner = 0; corner < 4; corner++)
    {
      Vec2 at = view_point (&stage.view, vec2 (corner & 1 ? RIGHT_M : -LEFT_M, corner & 2 ? BACK_M : FRONT_M));
      ck_assert (at.x > 0 && at.y > 0 && at.x < WIDE && at.y < HIGH);
    }
  /* Enlarged: the green takes more than half of the drawing's height or width. */
  double across_px = (LEFT_M + RIGHT_M) * stage.view.px_per_m, deep_px = (BACK_M - FRONT_M) * stage.view.px_per_m;
  ck_assert (across_px > HIGH / 2.0 || deep_px > WIDE / 2.0);
  tear_down (&stage);
}
END_TEST

START_TEST (an_aim_beside_the_green_is_in_view)
{
  Stage stage;
  set_up (&stage);
  stage.shot.aim = vec2 (-30, 150);
  view_frame_green (&stage.view, &stage.scene);
  Vec2 aim = view_point (&stage.view, stage.shot.aim);
  ck_assert (aim.x > 0 && aim.y > 0 && aim.x < WIDE && aim.y < HIGH);
  tear_down (&stage);
}
END_TEST

START_TEST (a_green_out_of_reach_is_seen_from_where_the_shot_stops)
{
  Stage stage;
  set_up (&stage);
  stage.green.play.is_reached = false;
  stage.green.play.from = vec2 (40, 115);
  ck_assert (odds_green_numbers (stage.hole, NULL, stage.green.play.from, &stage.green.play.numbers));
  view_frame_green (&stage.view, &stage.scene);
  Vec2 from = view_point (&stage.view, stage.green.play.from), hole = view_point (&stage.view, vec2 (0, HOLE_M));
  ck_assert_double_eq_tol (from.y, hole.y, 1e-6);
  ck_assert_double_lt (from.x, hole.x);
  cairo_surface_destroy (draw (&stage));
  ck_assert_ptr_null (label_of (&stage, "plays 158, 4 past the hole"));
  tear_down (&stage);
}
END_TEST

START_TEST (depths_stand_every_five_from_the_front_in_the_golfers_unit)
{
  GreenNumbers numbers = { .front_m = FRONT_M, .hole_m = HOLE_M, .back_m = BACK_M, .depth_m = BACK_M - FRONT_M };
  GreenDepth lines[GREEN_MOST_DEPTHS];
  size_t n = render_green_depths (&numbers, vec2 (0, 0), vec2 (0, HOLE_M), UNIT_METRES, lines, GREEN_MOST_DEPTHS);
  ck_assert_uint_eq (n, 7);
  for (size_t i = 0; i < n; i++)
    {
      ck_assert_int_eq (lines[i].depth, 5 * (int)i);
      ck_assert_double_eq_tol (lines[i].at.y, FRONT_M + 5.0 * (double)i, EXACT_M);
    }
  /* 30 m are 32.8 yd. */
  ck_assert_uint_eq (render_green_depths (&numbers, vec2 (0, 0), vec2 (0, HOLE_M), UNIT_YARDS, lines, GREEN_MOST_DEPTHS), 7);
  ck_assert_double_eq_tol (lines[6].at.y, FRONT_M + 30 * METRES_PER_YARD, EXACT_M);
  ck_assert_uint_eq (render_green_depths (&numbers, vec2 (0, 0), vec2 (0, HOLE_M), UNIT_METRES, lines, 3), 3);
}
END_TEST

START_TEST (front_hole_back_and_room_stand_where_they_are)
{
  Stage stage;
  set_up (&stage);
  cairo_surface_destroy (draw (&stage));
  assert_label_at (&stage, "front 140", vec2 (0, FRONT_M));
  assert_label_at (&stage, "hole 155", vec2 (0, HOLE_M));
  assert_label_at (&stage, "back 170", vec2 (0, BACK_M));
  assert_label_at (&stage, "16 L", vec2 (-LEFT_M, HOLE_M));
  assert_label_at (&stage, "8 R", vec2 (RIGHT_M, HOLE_M));
  for (int depth = 0; depth <= 30; depth += 5)
    {
      g_autofree char *text = g_strdup_printf ("%d", depth);
      const RenderLabel *label = label_of (&stage, text);
      ck_assert (label != NULL && label->label.is_placed);
      ck_assert_double_eq_tol (label->label.anchor_px.x, view_point (&stage.view, vec2 (0, FRONT_M + depth)).x, 1e-6);
    }
  tear_down (&stage);
}
END_TEST

START_TEST (the_number_to_play_stands_at_the_best_landing_and_the_side_to_miss_on_at_its_edge)
{
  Stage stage;
  set_up (&stage);
  cairo_surface_destroy (draw (&stage));
  assert_label_at (&stage, "plays 158, 4 past the hole", vec2 (0, 158));
  assert_label_at (&stage, "miss long", vec2 (0, BACK_M));
  stage.approach.safest = MISS_LEFT;
  cairo_surface_destroy (draw (&stage));
  assert_label_at (&stage, "miss left", vec2 (-LEFT_M, HOLE_M));
  stage.approach.misses[MISS_SHORT] = stage.approach.misses[MISS_LEFT]; /* none is better */
  cairo_surface_destroy (draw (&stage));
  ck_assert_ptr_null (label_of (&stage, "miss left"));
  tear_down (&stage);
}
END_TEST

/* ---- invariants ---- */

START_TEST (where_balls_come_to_rest_is_dashed_beyond_where_they_land)
{
  Stage stage;
  set_up (&stage);
  stage.shot.rest_pattern = stage.shot.pattern;
  cairo_surface_t *alike = draw (&stage);
  stage.shot.rest_pattern.mean = vec2_add (stage.shot.pattern.mean, vec2 (0, 9));
  cairo_surface_t *apart = draw (&stage);
  const unsigned accent = 0xff8a2f6b;
  ck_assert_int_eq (count_near (alike, accent, 40), 0);
  ck_assert_int_gt (count_near (apart, accent, 40), 40);
  cairo_surface_destroy (alike);
  cairo_surface_destroy (apart);
  tear_down (&stage);
}
END_TEST

static const char *
loudly (const char *text)
{
  static const char *const words[][2] = { { "front", "FRONT" }, { "miss long", "MISS LONG" }, { "%s L", "%s LEFT" } };
  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    if (strcmp (text, words[i][0]) == 0)
      return words[i][1];
  return text;
}

START_TEST (words_come_in_the_language_that_is_asked_for)
{
  Stage stage;
  set_up (&stage);
  stage.scene.translate = loudly;
  cairo_surface_destroy (draw (&stage));
  ck_assert_ptr_nonnull (label_of (&stage, "FRONT 140"));
  ck_assert_ptr_nonnull (label_of (&stage, "MISS LONG"));
  ck_assert_ptr_nonnull (label_of (&stage, "16 LEFT"));
  ck_assert_ptr_nonnull (label_of (&stage, "back 170"));
  tear_down (&stage);
}
END_TEST

/* ---- edges ---- */

START_TEST (elsewhere_than_in_its_view_nothing_is_drawn)
{
  Stage stage;
  set_up (&stage);
  stage.scene.green = NULL;
  cairo_surface_t *surface = draw (&stage);
  ck_assert (box_is_empty (ink_box (surface)));
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-green");
  TCase *view = tcase_create ("view");
  tcase_add_test (view, the_view_runs_along_the_shot_and_holds_the_green);
  tcase_add_test (view, an_aim_beside_the_green_is_in_view);
  tcase_add_test (view, a_green_out_of_reach_is_seen_from_where_the_shot_stops);
  suite_add_tcase (suite, view);
  TCase *words = tcase_create ("words");
  tcase_add_test (words, depths_stand_every_five_from_the_front_in_the_golfers_unit);
  tcase_add_test (words, front_hole_back_and_room_stand_where_they_are);
  tcase_add_test (words, the_number_to_play_stands_at_the_best_landing_and_the_side_to_miss_on_at_its_edge);
  tcase_add_test (words, words_come_in_the_language_that_is_asked_for);
  suite_add_tcase (suite, words);
  TCase *ink = tcase_create ("ink");
  tcase_add_test (ink, where_balls_come_to_rest_is_dashed_beyond_where_they_land);
  tcase_add_test (ink, elsewhere_than_in_its_view_nothing_is_drawn);
  suite_add_tcase (suite, ink);
  return suite;
}
