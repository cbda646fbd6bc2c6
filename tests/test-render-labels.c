// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Labels of overlays on the example course, with every overlay on: none overlaps another or what is written on the drawing, and none jumps while an aim is
 * dragged but those that must. HW_COURSES names the folder of the courses.
 */
#include "render-labels.h"
#include "suite.h"
#include "svg.h"

#define WIDE 1000
#define HIGH 520
/* A drag of so many frames, by so much in each, across and then along the shot. */
#define N_FRAMES 24
#define FRAME_PX 2.0
/* Labels' boxes may touch. */
#define TOUCH_PX 0.01
/* A place that is free by less is not free: figures change the width of a number, and labels keep a little apart. */
#define SLACK_PX 6.0
/* A label that moves farther than this between frames, seen from its anchor, jumps. */
#define JUMP_PX 6.0

static const char *const holes[]
    = { "01-quarry.svg", "02-orchard.svg", "03-mill-lane.svg", "04-weir-pool.svg", "05-rookery.svg",
        "06-marram.svg", "07-beacon.svg",  "08-hogsback.svg",  "09-boathouse.svg" };

/* A shot of a hole with all that its overlays show, but for maps. */
typedef struct
{
  Hole *hole;
  Bag *bag;
  Conditions conditions;
  ShotResult shot;
  CarryTable *carries;
  TreeTable *trees;
  Room room;
  OddsPlace places[12];
  PlanScene scene;
  RenderView view;
  GArray *taken;
  RenderLabels *labels;
} Stage;

static void
clear_results (Stage *stage)
{
  g_clear_pointer (&stage->carries, carry_table_free);
  g_clear_pointer (&stage->trees, tree_table_free);
}

static void
fly (Stage *stage, Vec2 ball, Vec2 aim, const Club *club)
{
  ShotInput input = { .ball = ball,
                      .aim = aim,
                      .club = club,
                      .swing = 1,
                      .curve_m = NAN,
                      .conditions = &stage->conditions,
                      .lies = bag_lies (stage->bag) };
  clear_results (stage);
  ck_assert (odds_shot (stage->hole, NULL, &input, &stage->shot, NULL));
  stage->carries = carry_table_new (stage->hole, &stage->shot);
  stage->trees = tree_table_new (stage->hole, &stage->shot);
  bool has_room = odds_room (stage->hole, &stage->shot, &stage->room, NULL);
  g_autoptr (OddsTable) odds = odds_table_new (stage->hole, &stage->shot, NULL);
  stage->scene = (PlanScene){ .hole = stage->hole,
                              .shots = &stage->shot,
                              .n_shots = 1,
                              .carries = stage->carries,
                              .trees = stage->trees,
                              .room = has_room ? &stage->room : NULL,
                              .places = stage->places,
                              .taken = (const Box *)(void *)stage->taken->data,
                              .n_taken = stage->taken->len,
                              .labels = stage->labels };
  if (odds != NULL)
    stage->scene.n_places = odds_places (stage->hole, &stage->shot, odds, stage->places, G_N_ELEMENTS (stage->places));
}

/* The first shot of the hole's plan, or one from the tee at the hole, as the window frames it. */
static void
set_up (Stage *stage, const char *file)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", file, NULL);
  g_autofree char *bag_path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "bag.csv", NULL);
  memset (stage, 0, sizeof *stage);
  stage->taken = g_array_new (FALSE, FALSE, sizeof (Box));
  stage->labels = render_labels_new ();
  stage->hole = svg_read_file (path, NULL, NULL);
  stage->bag = bag_read_file (bag_path, LEVEL_BOGEY_MEN, NULL);
  ck_assert (stage->hole != NULL && stage->bag != NULL);
  int plan = hole_plan (stage->hole), tee = hole_tee (stage->hole, NULL);
  ck_assert_int_ge (tee, 0);
  Vec2 ball = hole_part (stage->hole, (size_t)tee)->at, aim = ball;
  ck_assert (hole_target (stage->hole, NULL, &aim));
  const Day *day = plan >= 0 ? &hole_part (stage->hole, (size_t)plan)->day : NULL;
  ck_assert (conditions_of_day (stage->hole, day, &stage->conditions, NULL));
  if (plan >= 0 && hole_part (stage->hole, (size_t)plan)->n_shots > 0)
    aim = hole_part (stage->hole, (size_t)plan)->shots[0].aim;
  double swing;
  const Club *club = odds_choose_club (stage->hole, ball, aim, stage->bag, &stage->conditions, true, &swing);
  fly (stage, ball, aim, club);
  stage->view = (RenderView){ .width_px = WIDE, .height_px = HIGH, .unit_px = 1, .units = UNIT_YARDS };
  view_frame_shot (&stage->view, &stage->scene);
  render_hole_words (stage->hole, &stage->view, stage->taken);
  stage->scene.taken = (const Box *)(void *)stage->taken->data;
  stage->scene.n_taken = stage->taken->len;
}

static void
tear_down (Stage *stage)
{
  clear_results (stage);
  render_labels_free (stage->labels);
  g_array_unref (stage->taken);
  hole_unref (stage->hole);
  bag_unref (stage->bag);
}

static const RenderLabel *
draw (Stage *stage, size_t *n)
{
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  render_live_overlays (cr, &stage->scene, &stage->view, ~0u);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return render_labels_get (stage->labels, n);
}

static bool
overlap (Box a, Box b, double by_px)
{
  return a.x0 + by_px < b.x1 && b.x0 + by_px < a.x1 && a.y0 + by_px < b.y1 && b.y0 + by_px < a.y1;
}

static void
assert_apart (Stage *stage, const char *file)
{
  size_t n, n_avoided;
  const RenderLabel *labels = render_labels_get (stage->labels, &n);
  const Box *avoided = render_labels_avoided (stage->labels, &n_avoided);
  ck_assert_uint_ge (n_avoided, stage->taken->len);
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; labels[i].label.is_placed && k < n + n_avoided; k++)
      {
        if (k == i || (k < n && !labels[k].label.is_placed))
          continue;
        Box other = k < n ? labels[k].label.box_px : avoided[k - n];
        ck_assert_msg (!overlap (labels[i].label.box_px, other, TOUCH_PX), "%s: \"%s\" overlaps %s", file, labels[i].text,
                       k < n ? labels[k].text : "what is written on the drawing");
      }
}

/* ---- invariants ---- */

START_TEST (no_two_labels_overlap_with_every_overlay_on)
{
  Stage stage;
  size_t n;
  set_up (&stage, holes[_i]);
  const RenderLabel *labels = draw (&stage, &n);
  ck_assert_uint_gt (n, 3);
  assert_apart (&stage, holes[_i]);
  for (size_t i = 0; i < n; i++) /* what matters finds a place; numbers along the line may give way to it */
    ck_assert_msg (labels[i].label.is_placed || labels[i].label.most_heights > 0, "%s: no room for \"%s\"", holes[_i],
                   labels[i].text);
  tear_down (&stage);
}
END_TEST

/* Would the label still have room where it stood, seen from what it speaks of? */
static bool
could_stay (const Stage *stage, const RenderLabel *labels, size_t i, const RenderLabel *before)
{
  const Label *now = &labels[i].label;
  Vec2 moved = vec2_sub (now->anchor_px, before->label.anchor_px);
  Vec2 centre = vec2_add (box_centre (before->label.box_px), moved);
  Box old = { centre.x - now->width_px / 2, centre.y - now->height_px / 2, centre.x + now->width_px / 2,
              centre.y + now->height_px / 2 };
  size_t n_avoided;
  const Box *avoided = render_labels_avoided (stage->labels, &n_avoided);
  Box wide = box_grown (old, SLACK_PX);
  if (wide.x0 < 0 || wide.y0 < 0 || wide.x1 > WIDE || wide.y1 > HIGH)
    return false;
  for (size_t k = 0; k < i; k++) /* those after it give way */
    if (labels[k].label.is_placed && overlap (wide, labels[k].label.box_px, 0))
      return false;
  for (size_t k = 0; k < n_avoided; k++)
    if (overlap (wide, avoided[k], 0))
      return false;
  return true;
}

/* Not placed at all is a jump too. */
static bool
stands_still (const Label *before, const Label *now)
{
  Vec2 then = vec2_sub (box_centre (before->box_px), before->anchor_px), here = vec2_sub (box_centre (now->box_px), now->anchor_px);
  return now->is_placed && vec2_distance (then, here) <= JUMP_PX;
}

/* Compares two frames; returns how many labels stand elsewhere, seen from their anchors. */
static int
count_jumps (const Stage *stage, const RenderLabel *before, size_t n_before, const RenderLabel *labels, size_t n,
             const char *file)
{
  int n_jumps = 0;
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k < n_before; k++)
      {
        if (before[k].key != labels[i].key || !before[k].label.is_placed || stands_still (&before[k].label, &labels[i].label))
          continue;
        n_jumps++;
        ck_assert_msg (!could_stay (stage, labels, i, &before[k]), "%s: \"%s\" jumped though it could stay", file,
                       labels[i].text);
      }
  return n_jumps;
}

START_TEST (while_an_aim_is_dragged_only_labels_that_must_jump)
{
  Stage stage;
  size_t n, n_before;
  int n_jumps = 0, n_seen = 0;
  set_up (&stage, holes[_i]);
  Vec2 ball = stage.shot.ball, aim = stage.shot.aim;
  const Club *club = stage.shot.club;
  draw (&stage, &n_before);
  for (int frame = 0; frame < 2 * N_FRAMES; frame++)
    {
      const RenderLabel *last = render_labels_get (stage.labels, &n_before);
      g_autofree RenderLabel *before = g_memdup2 (last, n_before * sizeof *last);
      Vec2 step = frame < N_FRAMES ? vec2 (0, FRAME_PX) : vec2 (-FRAME_PX, -FRAME_PX);
      aim = view_unproject (&stage.view, vec2_add (view_point (&stage.view, aim), step));
      fly (&stage, ball, aim, club);
      const RenderLabel *labels = draw (&stage, &n);
      n_jumps += count_jumps (&stage, before, n_before, labels, n, holes[_i]);
      n_seen += (int)n;
      assert_apart (&stage, holes[_i]);
    }
  /* Measured: at most 14 in a hundred, where labels of places that come and go crowd about the landing. */
  ck_assert_msg (n_jumps * 5 < n_seen, "%s: %d of %d labels jumped", holes[_i], n_jumps, n_seen);
  tear_down (&stage);
}
END_TEST

START_TEST (a_label_keeps_its_place_until_something_is_in_its_way)
{
  Box in_the_way = { 90, 60, 130, 95 }, within = { 0, 0, 200, 200 };
  Label label = { .anchor_px = { 100, 100 }, .width_px = 40, .height_px = 20, .preferred_px = { 0, -20 } };
  place_labels (&label, 1, &in_the_way, 1, within);
  Box aside = label.box_px;
  ck_assert (label.is_placed && !overlap (aside, in_the_way, 0));
  place_labels (&label, 1, NULL, 0, within); /* the way is clear again */
  ck_assert_double_eq (label.box_px.x0, aside.x0);
  ck_assert_double_eq (label.box_px.y0, aside.y0);
  place_labels (&label, 1, &aside, 1, within);
  ck_assert (label.is_placed && !overlap (label.box_px, aside, 0));
  label.place = 0;
  place_labels (&label, 1, NULL, 0, within);
  ck_assert_double_eq (box_centre (label.box_px).y, 80);
}
END_TEST

START_TEST (on_another_view_labels_are_placed_afresh)
{
  Stage stage;
  size_t n;
  set_up (&stage, "02-orchard.svg");
  RenderLabels *fresh = render_labels_new ();
  draw (&stage, &n);
  for (int i = 0; i < 6; i++)
    {
      Vec2 aim = view_unproject (&stage.view, vec2_add (view_point (&stage.view, stage.shot.aim), vec2 (0, 4 * FRAME_PX)));
      fly (&stage, stage.shot.ball, aim, stage.shot.club);
      draw (&stage, &n);
    }
  stage.view.px_per_m *= 1.01;
  const RenderLabel *moved = draw (&stage, &n);
  RenderLabels *kept = stage.labels;
  stage.scene.labels = stage.labels = fresh;
  const RenderLabel *afresh = draw (&stage, &n);
  for (size_t i = 0; i < n; i++)
    ck_assert_uint_eq (moved[i].label.place, afresh[i].label.place);
  render_labels_free (kept);
  tear_down (&stage);
}
END_TEST

START_TEST (what_is_written_on_a_moved_picture_moves_with_it)
{
  RenderView from = { .px_per_m = 2, .width_px = WIDE, .height_px = HIGH, .unit_px = 1 }, to = from;
  Box box = { 100, 100, 140, 110 };
  view_pan (&to, vec2 (30, -20));
  Box moved = render_box_moved (box, &from, &to);
  ck_assert_double_eq_tol (moved.x0, 130, 1e-9);
  ck_assert_double_eq_tol (moved.y1, 90, 1e-9);
  to = from;
  view_zoom (&to, 2, vec2 (0, 0));
  moved = render_box_moved (box, &from, &to);
  ck_assert_double_eq_tol (moved.x1, 280, 1e-9);
}
END_TEST

/* ---- edges ---- */

START_TEST (a_view_without_a_size_has_nothing_written_on_it)
{
  Stage stage;
  set_up (&stage, "02-orchard.svg");
  RenderView nowhere = { .px_per_m = NAN, .unit_px = 1 };
  g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (Box));
  render_hole_words (stage.hole, &nowhere, boxes);
  ck_assert_uint_eq (boxes->len, 0);
  ck_assert (box_is_empty (render_scale_bar_box (&nowhere, 20, 20)));
  tear_down (&stage);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-labels");
  TCase *course = tcase_create ("course");
  tcase_set_timeout (course, 60);
  tcase_add_loop_test (course, no_two_labels_overlap_with_every_overlay_on, 0, G_N_ELEMENTS (holes));
  tcase_add_loop_test (course, while_an_aim_is_dragged_only_labels_that_must_jump, 0, G_N_ELEMENTS (holes));
  suite_add_tcase (suite, course);
  TCase *places = tcase_create ("places");
  tcase_add_test (places, a_label_keeps_its_place_until_something_is_in_its_way);
  tcase_add_test (places, on_another_view_labels_are_placed_afresh);
  tcase_add_test (places, what_is_written_on_a_moved_picture_moves_with_it);
  suite_add_tcase (suite, places);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, a_view_without_a_size_has_nothing_written_on_it);
  suite_add_tcase (suite, edges);
  return suite;
}
