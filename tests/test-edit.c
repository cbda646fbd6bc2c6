// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: drawing parts, and moving, copying, deleting, renaming and stacking them. */
#include "edit.h"
#include "suite.h"

#include <string.h>

/* Half a step of the grid and the rounding of a double at a kilometre. */
#define ON_GRID_M 1e-9

/* ---- building blocks ---- */

static const Part *
rectangle (Kind kind, const char *id, double x0, double y0, double x1, double y1)
{
  Part *part = part_new (kind);
  part->id = g_strdup (id);
  path_add_rectangle (&part->path, (Box){ x0, y0, x1, y1 }, 0, 0);
  return part_seal (part);
}

static const Part *
point (Kind kind, const char *name, double x, double y)
{
  Part *part = part_new (kind);
  part->name = g_strdup (name);
  part->at = vec2 (x, y);
  part->radius_m = 1;
  return part_seal (part);
}

static const Part *
plan (const char *tee, const char *hole_name)
{
  Part *part = part_new (KIND_PLAN);
  part->tee = g_strdup (tee);
  part->hole_name = g_strdup (hole_name);
  Shot shot = { .node = 7, .from = { 0, 0 }, .aim = { 5, 180 }, .shape = SHOT_DRAW, .curve_m = -4, .swing = 1 };
  part_add_shot (part, &shot);
  return part_seal (part);
}

enum
{
  FAIRWAY,
  GREEN,
  BUNKER,
  WHITE,
  FLAG,
  LINE,
  PLAN,
  N_SCENE
};

/* A straight hole of 300 m with one of most things. */
static Hole *
scene (void)
{
  Part *line = part_new (KIND_LINE_OF_PLAY);
  path_move_to (&line->path, vec2 (0, 0));
  path_line_to (&line->path, vec2 (0, 300));
  const Part *front = point (KIND_HOLE_LOCATION, "front", 0, 295);
  Part *flag = part_copy (front);
  part_unref (front);
  flag->today = true;
  const Part *parts[] = { rectangle (KIND_FAIRWAY, "fairway", -20, 100, 20, 280),
                          rectangle (KIND_GREEN, "green", -12, 285, 12, 315),
                          rectangle (KIND_BUNKER, "sand", 10, 290, 20, 300),
                          point (KIND_TEE_MARKER, "white", 0, 0),
                          part_seal (flag),
                          part_seal (line),
                          plan ("white", "front") };
  HoleInfo info;
  hole_info_init (&info);
  info.par = 4;
  return hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
}

static Path
square (double side_m, bool is_closed)
{
  Path path = { 0 };
  path_move_to (&path, vec2 (0, 0));
  path_line_to (&path, vec2 (side_m, 0));
  path_line_to (&path, vec2 (side_m, side_m));
  path_line_to (&path, vec2 (0, side_m));
  if (is_closed)
    path_close (&path);
  return path;
}

static bool
is_on_grid (double length_m)
{
  double steps = length_m / EDIT_GRID_M;
  return fabs (steps - round (steps)) * EDIT_GRID_M < ON_GRID_M;
}

static void
expect_on_grid (const Part *part)
{
  ck_assert (is_on_grid (part->at.x) && is_on_grid (part->at.y));
  for (size_t i = 0; i < part->path.n_segs; i++)
    {
      const PathSeg *seg = &part->path.segs[i];
      ck_assert (is_on_grid (seg->to.x) && is_on_grid (seg->to.y));
      if (seg->kind == SEG_CUBIC)
        ck_assert (is_on_grid (seg->c1.x) && is_on_grid (seg->c1.y) && is_on_grid (seg->c2.x) && is_on_grid (seg->c2.y));
    }
}

/* That the edit was refused for this reason, in a sentence. */
static void
expect_refused (Hole *made, GError **error, EditError code)
{
  ck_assert_ptr_null (made);
  ck_assert (g_error_matches (*error, EDIT_ERROR, (int)code));
  ck_assert_uint_gt (strlen ((*error)->message), 10);
  g_clear_error (error);
}

static double
area_of (const Hole *hole, size_t part)
{
  double area_m2 = 0;
  ck_assert (outline_measure (hole_part (hole, part)->outline, &area_m2, NULL));
  return area_m2;
}

/* ---- drawing ---- */

START_TEST (a_drawn_area_lies_over_what_it_lies_on_and_under_the_points)
{
  g_autoptr (Hole) hole = scene ();
  Path path = square (8, false);
  size_t part = 99;
  g_autoptr (Hole) made = edit_add_path (hole, KIND_WATER, &path, &part, NULL);
  ck_assert_ptr_nonnull (made);
  ck_assert_uint_eq (part, WHITE);
  ck_assert_int_eq (hole_part (made, part)->kind, KIND_WATER);
  ck_assert_int_eq (hole_kind_at (made, vec2 (4, 4)), KIND_WATER);
  ck_assert_uint_eq (hole_n_parts (made), N_SCENE + 1);
  ck_assert_uint_eq (edit_place_for (hole, KIND_ROUGH), 0);
  ck_assert_uint_eq (edit_place_for (hole, KIND_FRINGE), GREEN);
  ck_assert_uint_eq (edit_place_for (hole, KIND_PLAN), N_SCENE);
  path_clear (&path);
}
END_TEST

START_TEST (an_open_outline_is_closed_and_a_line_is_not)
{
  g_autoptr (Hole) hole = scene ();
  Path path = square (10, false);
  size_t part = 0;
  g_autoptr (Hole) area = edit_add_path (hole, KIND_BUNKER, &path, &part, NULL);
  const Path *drawn = &hole_part (area, part)->path;
  ck_assert_int_eq (drawn->segs[drawn->n_segs - 1].kind, SEG_CLOSE);
  ck_assert_double_eq_tol (area_of (area, part), 100, 1e-9);
  g_autoptr (Hole) line = edit_add_path (hole, KIND_LINE_OF_PLAY, &path, &part, NULL);
  ck_assert (path_equal (&hole_part (line, part)->path, &path));
  path_clear (&path);
}
END_TEST

START_TEST (subpaths_are_closed_one_by_one_and_lone_points_left_out)
{
  Path path = square (10, false);
  path_move_to (&path, vec2 (50, 50));
  path_move_to (&path, vec2 (20, 0));
  path_cubic_to (&path, vec2 (20, 5), vec2 (30, 5), vec2 (30, 0));
  path_close (&path);
  path_line_to (&path, vec2 (25, -5)); /* goes on where the last one was closed */
  path_line_to (&path, vec2 (30, -5));
  g_autoptr (Hole) hole = scene ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_path (hole, KIND_WASTE, &path, &part, NULL);
  const Part *drawn = hole_part (made, part);
  ck_assert_uint_eq (drawn->outline->n_rings, 3);
  /* The bow of a cubic with these handles: 3/5 of its 10 by 5 box, as the area under y = 15 t (1 - t) with x from 20 to 30. */
  ck_assert_double_eq_tol (area_of (made, part), 100 + 30 + 12.5, 0.2);
  path_clear (&path);
}
END_TEST

START_TEST (what_is_drawn_lies_on_the_millimetre)
{
  g_autoptr (Hole) hole = scene ();
  size_t part = 0;
  g_autoptr (Hole) pond = edit_add_circle (hole, KIND_WATER, vec2 (1 / 3.0, -2 / 7.0), PI, &part, NULL);
  expect_on_grid (hole_part (pond, part));
  ck_assert_double_eq_tol (area_of (pond, part), PI * PI * PI, 0.2);
  g_autoptr (Hole) tree = edit_add_circle (hole, KIND_TREE, vec2 (1 / 3.0, 0), PI, &part, NULL);
  expect_on_grid (hole_part (tree, part));
  ck_assert_double_eq (hole_part (tree, part)->radius_m, 3.142);
  const size_t all[] = { FAIRWAY, GREEN, BUNKER, WHITE, FLAG, LINE };
  g_autoptr (Hole) turned = edit_transform (hole, all, G_N_ELEMENTS (all), affine_rotation (0.3), NULL);
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    expect_on_grid (hole_part (turned, i));
}
END_TEST

START_TEST (tee_markers_and_hole_locations_get_the_next_free_name)
{
  g_autoptr (Hole) hole = scene ();
  size_t part = 0;
  g_autoptr (Hole) tee = edit_add_point (hole, KIND_TEE_MARKER, vec2 (0, 20), &part, NULL);
  ck_assert_str_eq (hole_part (tee, part)->name, "yellow");
  g_autoptr (Hole) flag = edit_add_point (tee, KIND_HOLE_LOCATION, vec2 (0, 305), &part, NULL);
  ck_assert_str_eq (hole_part (flag, part)->name, "middle");
  g_autoptr (Hole) many = hole_ref (flag);
  for (int i = 0; i < 12; i++)
    {
      Hole *more = edit_add_point (many, i % 2 ? KIND_TEE_MARKER : KIND_HOLE_LOCATION, vec2 (0, i), NULL, NULL);
      hole_unref (many);
      many = more;
    }
  for (size_t i = 0; i < hole_n_parts (many); i++)
    for (size_t k = 0; k < i; k++)
      if (hole_part (many, i)->kind == hole_part (many, k)->kind && hole_part (many, i)->name)
        ck_assert_str_ne (hole_part (many, i)->name, hole_part (many, k)->name);
}
END_TEST

START_TEST (a_zero_length_drag_draws_nothing_and_says_so)
{
  g_autoptr (Hole) hole = scene ();
  GError *error = NULL;
  Path path = { 0 };
  expect_refused (edit_add_path (hole, KIND_GREEN, &path, NULL, &error), &error, EDIT_ERROR_EMPTY);
  path_move_to (&path, vec2 (3, 3));
  path_line_to (&path, vec2 (3, 3));
  expect_refused (edit_add_path (hole, KIND_GREEN, &path, NULL, &error), &error, EDIT_ERROR_EMPTY);
  path_line_to (&path, vec2 (30, 3)); /* there and back */
  expect_refused (edit_add_path (hole, KIND_GREEN, &path, NULL, &error), &error, EDIT_ERROR_EMPTY);
  path_line_to (&path, vec2 (NAN, 3));
  expect_refused (edit_add_path (hole, KIND_GREEN, &path, NULL, &error), &error, EDIT_ERROR_NUMBER);
  path_clear (&path);
  expect_refused (edit_add_circle (hole, KIND_BUNKER, vec2 (0, 0), 0, NULL, &error), &error, EDIT_ERROR_EMPTY);
  expect_refused (edit_add_circle (hole, KIND_BUNKER, vec2 (0, 0), NAN, NULL, &error), &error, EDIT_ERROR_NUMBER);
  expect_refused (edit_add_point (hole, KIND_MARK, vec2 (0, INFINITY), NULL, &error), &error, EDIT_ERROR_NUMBER);
  expect_refused (edit_add_note (hole, vec2 (0, 0), " \n\t", NULL, &error), &error, EDIT_ERROR_EMPTY);
}
END_TEST

START_TEST (a_kind_is_drawn_only_in_its_own_way)
{
  g_autoptr (Hole) hole = scene ();
  GError *error = NULL;
  Path path = square (5, true);
  expect_refused (edit_add_path (hole, KIND_TREE, &path, NULL, &error), &error, EDIT_ERROR_SHAPE);
  expect_refused (edit_add_point (hole, KIND_GREEN, vec2 (0, 0), NULL, &error), &error, EDIT_ERROR_SHAPE);
  expect_refused (edit_add_circle (hole, KIND_MARK, vec2 (0, 0), 5, NULL, &error), &error, EDIT_ERROR_SHAPE);
  path_clear (&path);
}
END_TEST

START_TEST (words_keep_nothing_that_no_document_can_hold)
{
  g_autoptr (Hole) hole = scene ();
  size_t part = 0;
  g_autoptr (Hole) made = edit_add_note (hole, vec2 (0, 0), "  mind\x01 the\n\n\tgap \xff\xef\xbf\xbf", &part, NULL);
  ck_assert_str_eq (hole_part (made, part)->text, "mind the gap \xef\xbf\xbd");
  g_autoptr (Hole) again = edit_set_text (made, part, "carry 182", NULL);
  ck_assert_str_eq (hole_part (again, part)->text, "carry 182");
  GError *error = NULL;
  expect_refused (edit_set_text (made, part, "", &error), &error, EDIT_ERROR_EMPTY);
  expect_refused (edit_set_text (made, 0, "x", &error), &error, EDIT_ERROR_SHAPE);
}
END_TEST

/* ---- whole parts ---- */

START_TEST (moving_shares_what_is_not_moved)
{
  g_autoptr (Hole) hole = scene ();
  const size_t moved[] = { BUNKER, FLAG };
  g_autoptr (Hole) made = edit_transform (hole, moved, 2, affine_translation (1.5, -2), NULL);
  for (size_t i = 0; i < N_SCENE; i++)
    ck_assert_int_eq (hole_part (made, i) == hole_part (hole, i), i != BUNKER && i != FLAG);
  ck_assert_double_eq (hole_part (made, FLAG)->at.x, 1.5);
  ck_assert_double_eq (hole_part (made, FLAG)->at.y, 293);
  ck_assert_double_eq_tol (area_of (made, BUNKER), 100, 1e-9);
  ck_assert_double_eq (hole_part (hole, FLAG)->at.y, 295); /* the old one is as it was */
}
END_TEST

START_TEST (what_is_moved_stands_on_the_nearest_millimetre_and_halves_go_away_from_nothing)
{
  /* The peer is libm's round; two of the steps are the doubles next to a half. */
  static const double steps[] = { 0, 0.2, 0.5, 1.5, 2.5, 12345.5, 0.49999999999999994, 0.5000000000000001, 123456.7, 9e8 };
  g_autoptr (Hole) hole = scene ();
  size_t flag = FLAG;
  for (size_t i = 0; i < G_N_ELEMENTS (steps); i++)
    for (int sign = -1; sign <= 1; sign += 2)
      {
        Vec2 by = vec2 (sign * steps[i] / 1000, -sign * steps[i] / 1000);
        g_autoptr (GError) error = NULL;
        g_autoptr (Hole) moved = edit_transform (hole, &flag, 1, affine_translation (by.x, by.y), &error);
        ck_assert_msg (moved != NULL, "%s", error != NULL ? error->message : "");
        Vec2 at = vec2_add (hole_part (hole, FLAG)->at, by), on = hole_part (moved, FLAG)->at;
        ck_assert (on.x == round (at.x * 1000) / 1000 && on.y == round (at.y * 1000) / 1000);
      }
}
END_TEST

START_TEST (moving_by_nothing_gives_the_hole_itself)
{
  g_autoptr (Hole) hole = scene ();
  const size_t moved[] = { FAIRWAY, WHITE };
  g_autoptr (Hole) made = edit_transform (hole, moved, 2, affine_translation (0, 0), NULL);
  ck_assert_ptr_eq (made, hole);
  g_autoptr (Hole) same_kind = edit_set_kind (hole, moved, 1, KIND_FAIRWAY, NULL);
  ck_assert_ptr_eq (same_kind, hole);
  g_autoptr (Hole) same_name = edit_rename (hole, WHITE, " white ", NULL);
  ck_assert_ptr_eq (same_name, hole);
  g_autoptr (Hole) same_place = edit_reorder (hole, GREEN, GREEN, NULL);
  ck_assert_ptr_eq (same_place, hole);
}
END_TEST

START_TEST (mirrored_twice_everything_is_as_it_was)
{
  g_autoptr (Hole) hole = scene ();
  const size_t all[] = { FAIRWAY, GREEN, BUNKER, WHITE, FLAG, LINE, PLAN };
  Affine mirror = affine_then (affine_scaling (-1, 1), affine_translation (13.37, 0));
  g_autoptr (Hole) once = edit_transform (hole, all, N_SCENE, mirror, NULL);
  ck_assert (!hole_equal (once, hole));
  ck_assert_int_eq (hole_part (once, PLAN)->shots[0].shape, SHOT_FADE);
  ck_assert_double_eq (hole_part (once, PLAN)->shots[0].curve_m, 4);
  g_autoptr (Hole) twice = edit_transform (once, all, N_SCENE, mirror, NULL);
  ck_assert (hole_equal (twice, hole));
}
END_TEST

START_TEST (a_scaled_area_grows_with_the_square_and_a_marker_keeps_its_size)
{
  g_autoptr (Hole) hole = scene ();
  size_t tree = 0;
  g_autoptr (Hole) planted = edit_add_circle (hole, KIND_TREE, vec2 (40, 40), 4, &tree, NULL);
  size_t selected[] = { BUNKER, 0 };
  selected[1] = tree;
  g_autoptr (Hole) made = edit_transform (planted, selected, 2, affine_scaling (3, 3), NULL);
  ck_assert_double_eq_tol (area_of (made, BUNKER), 900, 1e-9);
  ck_assert_double_eq (hole_part (made, tree)->radius_m, 12);
  const size_t marker[] = { WHITE + 0 };
  g_autoptr (Hole) marked = edit_transform (hole, marker, 1, affine_scaling (3, 3), NULL);
  ck_assert_double_eq (hole_part (marked, WHITE)->radius_m, 1);
}
END_TEST

START_TEST (scaling_to_nothing_or_out_of_the_world_is_refused)
{
  g_autoptr (Hole) hole = scene ();
  const size_t selected[] = { BUNKER };
  GError *error = NULL;
  expect_refused (edit_transform (hole, selected, 1, affine_scaling (0, 1), &error), &error, EDIT_ERROR_NUMBER);
  expect_refused (edit_transform (hole, selected, 1, affine_translation (NAN, 0), &error), &error, EDIT_ERROR_NUMBER);
  expect_refused (edit_transform (hole, selected, 1, affine_scaling (1e-4, 1e-4), &error), &error, EDIT_ERROR_EMPTY);
  expect_refused (edit_transform (hole, selected, 1, affine_translation (2e6, 0), &error), &error, EDIT_ERROR_NUMBER);
  expect_refused (edit_transform (hole, NULL, 0, affine_identity (), &error), &error, EDIT_ERROR_EMPTY);
}
END_TEST

START_TEST (copies_lie_on_their_models_and_share_no_id_and_no_name_that_tells_apart)
{
  g_autoptr (Hole) hole = scene ();
  const size_t selected[] = { GREEN, WHITE, FLAG, PLAN };
  g_autofree size_t *copies = NULL;
  g_autoptr (Hole) made = edit_duplicate (hole, selected, 4, vec2 (5, 0), &copies, NULL);
  ck_assert_uint_eq (hole_n_parts (made), N_SCENE + 4);
  for (size_t k = 0; k < 4; k++)
    {
      const Part *model = hole_part (hole, selected[k]), *copy = hole_part (made, copies[k]);
      ck_assert_ptr_eq (hole_part (made, copies[k] - 1), model);
      ck_assert_int_eq (copy->kind, model->kind);
      ck_assert_ptr_null (copy->id);
      ck_assert_uint_eq (copy->node, 0);
      ck_assert_double_eq_tol (copy->bounds.x0, model->bounds.x0 + 5, 1e-9);
    }
  ck_assert_str_eq (hole_part (made, copies[1])->name, "yellow");
  ck_assert_str_eq (hole_part (made, copies[2])->name, "middle");
  ck_assert (!hole_part (made, copies[2])->today);
  ck_assert_uint_eq (hole_part (made, copies[3])->shots[0].node, 0);
  ck_assert_uint_eq (hole_part (hole, PLAN)->shots[0].node, 7);
}
END_TEST

START_TEST (deleting_leaves_the_rest_in_order_even_when_nothing_is_left)
{
  g_autoptr (Hole) hole = scene ();
  const size_t selected[] = { FAIRWAY, BUNKER, PLAN }, all[] = { 0, 1, 2, 3, 4, 5, 6 };
  g_autoptr (Hole) made = edit_delete (hole, selected, 3, NULL);
  ck_assert_uint_eq (hole_n_parts (made), N_SCENE - 3);
  ck_assert_ptr_eq (hole_part (made, 0), hole_part (hole, GREEN));
  ck_assert_ptr_eq (hole_part (made, 1), hole_part (hole, WHITE));
  g_autoptr (Hole) bare = edit_delete (hole, all, N_SCENE, NULL);
  ck_assert_uint_eq (hole_n_parts (bare), 0);
}
END_TEST

START_TEST (a_bunker_made_water_keeps_its_outline_and_its_name)
{
  g_autoptr (Hole) hole = scene ();
  const size_t selected[] = { GREEN, BUNKER };
  g_autoptr (Hole) wet = edit_set_kind (hole, selected, 2, KIND_TREES, NULL);
  ck_assert_int_eq (hole_part (wet, BUNKER)->kind, KIND_TREES);
  ck_assert_str_eq (hole_part (wet, BUNKER)->id, "sand");
  ck_assert (path_equal (&hole_part (wet, BUNKER)->path, &hole_part (hole, BUNKER)->path));
  ck_assert_double_eq (hole_part (wet, BUNKER)->height_m, TREES_HEIGHT_M);
  g_autoptr (Hole) back = edit_set_kind (wet, &selected[1], 1, KIND_BUNKER, NULL);
  ck_assert (part_equal (hole_part (back, BUNKER), hole_part (hole, BUNKER)));
  GError *error = NULL;
  expect_refused (edit_set_kind (hole, selected, 2, KIND_TREE, &error), &error, EDIT_ERROR_SHAPE);
  expect_refused (edit_set_kind (hole, selected, 2, KIND_NOTE, &error), &error, EDIT_ERROR_SHAPE);
}
END_TEST

START_TEST (a_plan_follows_the_new_name_of_its_tee_and_its_hole)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) tee = edit_rename (hole, WHITE, "medal", NULL);
  g_autoptr (Hole) both = edit_rename (tee, FLAG, "today's", NULL);
  ck_assert_str_eq (hole_part (both, PLAN)->tee, "medal");
  ck_assert_str_eq (hole_part (both, PLAN)->hole_name, "today's");
  g_autoptr (Hole) other = edit_rename (hole, BUNKER, "white", NULL);
  ck_assert_ptr_eq (hole_part (other, PLAN), hole_part (hole, PLAN));
  g_autoptr (Hole) nameless = edit_rename (hole, WHITE, "", NULL);
  ck_assert_ptr_null (hole_part (nameless, WHITE)->name);
}
END_TEST

/* ---- the stack ---- */

START_TEST (a_part_moves_in_the_stack_and_the_others_keep_their_order)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) up = edit_reorder (hole, FAIRWAY, BUNKER, NULL);
  ck_assert_ptr_eq (hole_part (up, BUNKER), hole_part (hole, FAIRWAY));
  ck_assert_ptr_eq (hole_part (up, 0), hole_part (hole, GREEN));
  ck_assert_ptr_eq (hole_part (up, 1), hole_part (hole, BUNKER));
  g_autoptr (Hole) back = edit_reorder (up, BUNKER, FAIRWAY, NULL);
  ck_assert (hole_equal (back, hole));
}
END_TEST

START_TEST (raising_steps_past_the_next_part_that_it_overlaps)
{
  const Part *parts[] = { rectangle (KIND_GREEN, "low", 0, 0, 10, 10), rectangle (KIND_BUNKER, "far", 50, 0, 60, 10),
                          rectangle (KIND_WATER, "beside", 10.5, 0, 20, 10), rectangle (KIND_WASTE, "over", 5, 5, 15, 15),
                          rectangle (KIND_TREES, "inside", 1, 1, 2, 2) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  size_t to = 0;
  GError *error = NULL;
  g_autoptr (Hole) once = edit_raise (hole, 0, 1, &to, NULL);
  ck_assert_uint_eq (to, 3);
  ck_assert_ptr_eq (hole_part (once, 3), parts[0]);
  g_autoptr (Hole) again = edit_raise (once, to, 1, &to, NULL);
  ck_assert_uint_eq (to, 4);
  expect_refused (edit_raise (again, to, 1, &to, &error), &error, EDIT_ERROR_EMPTY);
  ck_assert_uint_eq (to, 4);
  g_autoptr (Hole) down = edit_raise (hole, 4, -1, &to, NULL);
  ck_assert_uint_eq (to, 0);
  g_autoptr (Hole) top = edit_raise (hole, 1, 2, &to, NULL);
  ck_assert_uint_eq (to, 4);
  g_autoptr (Hole) bottom = edit_raise (hole, 3, -2, &to, NULL);
  ck_assert_uint_eq (to, 0);
  expect_refused (edit_raise (hole, 1, 1, &to, &error), &error, EDIT_ERROR_EMPTY);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit");
  TCase *drawing = tcase_create ("drawing");
  tcase_add_test (drawing, a_drawn_area_lies_over_what_it_lies_on_and_under_the_points);
  tcase_add_test (drawing, an_open_outline_is_closed_and_a_line_is_not);
  tcase_add_test (drawing, subpaths_are_closed_one_by_one_and_lone_points_left_out);
  tcase_add_test (drawing, what_is_drawn_lies_on_the_millimetre);
  tcase_add_test (drawing, tee_markers_and_hole_locations_get_the_next_free_name);
  tcase_add_test (drawing, a_zero_length_drag_draws_nothing_and_says_so);
  tcase_add_test (drawing, a_kind_is_drawn_only_in_its_own_way);
  tcase_add_test (drawing, words_keep_nothing_that_no_document_can_hold);
  suite_add_tcase (suite, drawing);
  TCase *parts = tcase_create ("whole parts");
  tcase_add_test (parts, moving_shares_what_is_not_moved);
  tcase_add_test (parts, what_is_moved_stands_on_the_nearest_millimetre_and_halves_go_away_from_nothing);
  tcase_add_test (parts, moving_by_nothing_gives_the_hole_itself);
  tcase_add_test (parts, mirrored_twice_everything_is_as_it_was);
  tcase_add_test (parts, a_scaled_area_grows_with_the_square_and_a_marker_keeps_its_size);
  tcase_add_test (parts, scaling_to_nothing_or_out_of_the_world_is_refused);
  tcase_add_test (parts, copies_lie_on_their_models_and_share_no_id_and_no_name_that_tells_apart);
  tcase_add_test (parts, deleting_leaves_the_rest_in_order_even_when_nothing_is_left);
  tcase_add_test (parts, a_bunker_made_water_keeps_its_outline_and_its_name);
  tcase_add_test (parts, a_plan_follows_the_new_name_of_its_tee_and_its_hole);
  suite_add_tcase (suite, parts);
  TCase *stack = tcase_create ("stack");
  tcase_add_test (stack, a_part_moves_in_the_stack_and_the_others_keep_their_order);
  tcase_add_test (stack, raising_steps_past_the_next_part_that_it_overlaps);
  suite_add_tcase (suite, stack);
  return suite;
}
