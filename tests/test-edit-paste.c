// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: parts pasted into a hole keep their places and their order, and nothing comes to lie on its twin. */
#include "edit.h"
#include "suite.h"

static const Part *
rectangle (Kind kind, double x0, double y0, double x1, double y1)
{
  Part *part = part_new (kind);
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

/* The hole location in use. */
static const Part *
todays (const char *name, double x, double y)
{
  Part *part = part_new (KIND_HOLE_LOCATION);
  part->name = g_strdup (name);
  part->at = vec2 (x, y);
  part->today = true;
  return part_seal (part);
}

static Hole *
hole_of (const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  return hole;
}

/* Fairway, green, white tee marker, and a hole location of today. */
static Hole *
scene (void)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, -15, 100, 15, 270), rectangle (KIND_GREEN, -10, 280, 10, 300),
                          point (KIND_TEE_MARKER, "white", 0, 0), todays ("front", 0, 290) };
  return hole_of (parts, G_N_ELEMENTS (parts));
}

static const Vec2 step = { 5, -5 };

/* Pastes and takes over the references of `parts`. */
static Hole *
paste (Hole *hole, const Part **parts, size_t n_parts, size_t **places, size_t *n_places, GError **error)
{
  Hole *made = edit_paste (hole, parts, n_parts, step, places, n_places, error);
  for (size_t i = 0; i < n_parts; i++)
    part_unref (parts[i]);
  return made;
}

START_TEST (what_is_pasted_on_another_hole_stands_where_it_was_and_where_its_kind_belongs)
{
  g_autoptr (Hole) hole = scene ();
  g_autofree size_t *places = NULL;
  size_t n = 0;
  const Part *parts[] = { rectangle (KIND_BUNKER, 20, 250, 30, 262), point (KIND_MARK, "A", 40, 200) };
  g_autoptr (Hole) made = paste (hole, parts, 2, &places, &n, NULL);
  ck_assert_uint_eq (n, 2);
  ck_assert_uint_eq (hole_n_parts (made), 6);
  ck_assert_uint_eq (places[0], 2); /* over the green, under the markers */
  ck_assert_uint_eq (places[1], 3);
  ck_assert_double_eq (hole_part (made, places[0])->bounds.x0, 20);
  ck_assert_double_eq (hole_part (made, places[0])->bounds.y1, 262);
  ck_assert_str_eq (hole_part (made, places[1])->name, "A");
}
END_TEST

START_TEST (on_the_same_hole_all_move_together_until_none_lies_on_its_twin)
{
  g_autoptr (Hole) hole = scene ();
  for (int round = 1; round <= 3; round++)
    {
      g_autofree size_t *places = NULL;
      size_t n = 0;
      /* The first has a twin; the second has none but keeps its distance from the first. */
      const Part *parts[] = { rectangle (KIND_GREEN, -10, 280, 10, 300), rectangle (KIND_BUNKER, 20, 250, 30, 262) };
      Hole *made = paste (hole, parts, 2, &places, &n, NULL);
      ck_assert_double_eq_tol (hole_part (made, places[0])->bounds.x0, -10 + 5 * round, 1e-9);
      ck_assert_double_eq_tol (hole_part (made, places[0])->bounds.y0, 280 - 5 * round, 1e-9);
      ck_assert_double_eq_tol (hole_part (made, places[1])->bounds.x0, 20 + 5 * round, 1e-9);
      hole_unref (hole);
      hole = made;
    }
}
END_TEST

START_TEST (what_was_cut_comes_back_to_its_very_place)
{
  g_autoptr (Hole) hole = scene ();
  const size_t green = 1;
  const Part *parts[] = { part_ref (hole_part (hole, green)) };
  g_autoptr (Hole) without = edit_delete (hole, &green, 1, NULL);
  g_autoptr (Hole) back = paste (without, parts, 1, NULL, NULL, NULL);
  ck_assert (hole_equal (back, hole));
}
END_TEST

START_TEST (pasted_things_keep_their_order_even_against_their_kinds)
{
  g_autoptr (Hole) hole = scene ();
  g_autofree size_t *places = NULL;
  size_t n = 0;
  const Part *parts[] = { rectangle (KIND_WATER, 0, 100, 30, 130), rectangle (KIND_FAIRWAY, 5, 105, 25, 125) };
  g_autoptr (Hole) made = paste (hole, parts, 2, &places, &n, NULL);
  ck_assert_uint_eq (places[1], places[0] + 1);
  ck_assert_int_eq (hole_part (made, places[0])->kind, KIND_WATER);
  ck_assert_int_eq (hole_kind_at (made, vec2 (15, 115)), KIND_FAIRWAY);
}
END_TEST

START_TEST (names_that_tell_apart_stay_where_they_are_free_and_only_one_hole_is_todays)
{
  g_autoptr (Hole) hole = scene ();
  g_autofree size_t *places = NULL;
  size_t n = 0;
  const Part *parts[]
      = { point (KIND_TEE_MARKER, "white", 0, 20), point (KIND_TEE_MARKER, "red", 0, 40), todays ("back", 3, 296) };
  g_autoptr (Hole) made = paste (hole, parts, 3, &places, &n, NULL);
  ck_assert_str_eq (hole_part (made, places[0])->name, "yellow");
  ck_assert_str_eq (hole_part (made, places[1])->name, "red");
  ck_assert_str_eq (hole_part (made, places[2])->name, "back");
  ck_assert (!hole_part (made, places[2])->today);
}
END_TEST

START_TEST (plans_and_specks_are_left_out_and_nothing_at_all_is_refused)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (GError) error = NULL;
  g_autofree size_t *places = NULL;
  size_t n = 0;
  const Part *parts[] = { part_seal (part_new (KIND_PLAN)), rectangle (KIND_GREEN, 0, 0, 0.01, 0.01),
                          rectangle (KIND_BUNKER, 20, 250, 30, 262) };
  g_autoptr (Hole) made = paste (hole, parts, 3, &places, &n, NULL);
  ck_assert_uint_eq (n, 1);
  ck_assert_uint_eq (hole_n_parts (made), 5);
  const Part *plan[] = { part_seal (part_new (KIND_PLAN)) };
  ck_assert_ptr_null (paste (hole, plan, 1, NULL, NULL, &error));
  ck_assert_ptr_nonnull (error);
  g_clear_error (&error);
  const Part *speck[] = { rectangle (KIND_GREEN, 0, 0, 0.01, 0.01) };
  ck_assert_ptr_null (paste (hole, speck, 1, NULL, NULL, &error));
  ck_assert_ptr_nonnull (error);
}
END_TEST

START_TEST (a_step_of_nothing_never_moves)
{
  g_autoptr (Hole) hole = scene ();
  const Part *green = hole_part (hole, 1);
  g_autoptr (Hole) made = edit_paste (hole, &green, 1, vec2 (0, 0), NULL, NULL, NULL);
  ck_assert_uint_eq (hole_n_parts (made), 5);
  ck_assert (part_equal (hole_part (made, 1), hole_part (made, 2)));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-paste");
  TCase *tcase = tcase_create ("pasting");
  tcase_add_test (tcase, what_is_pasted_on_another_hole_stands_where_it_was_and_where_its_kind_belongs);
  tcase_add_test (tcase, on_the_same_hole_all_move_together_until_none_lies_on_its_twin);
  tcase_add_test (tcase, what_was_cut_comes_back_to_its_very_place);
  tcase_add_test (tcase, pasted_things_keep_their_order_even_against_their_kinds);
  tcase_add_test (tcase, names_that_tell_apart_stay_where_they_are_free_and_only_one_hole_is_todays);
  tcase_add_test (tcase, plans_and_specks_are_left_out_and_nothing_at_all_is_refused);
  tcase_add_test (tcase, a_step_of_nothing_never_moves);
  suite_add_tcase (suite, tcase);
  return suite;
}
