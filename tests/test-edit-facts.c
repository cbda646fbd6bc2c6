// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of edit: the facts of parts - slopes, heights, stakes, today's hole and the rest. */
#include "edit.h"
#include "suite.h"

/* A direction of a line 10 m long whose ends lie on whole millimetres. */
#define CLOSE_RAD 3e-4

enum
{
  BROOK,
  POND,
  WOOD,
  MARKER,
  FRONT,
  BACK,
  OAK,
  SPOT,
  FALL,
  STONE,
  PHOTO,
  PLAN,
  N_SCENE
};

static const Part *
area (Kind kind, Box box)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, box, 0, 0);
  return part_seal (part);
}

static const Part *
point (Kind kind, const char *name, Vec2 at)
{
  Part *part = part_new (kind);
  part->name = g_strdup (name);
  part->at = at;
  part->radius_m = kind_info (kind)->radius_m;
  return part_seal (part);
}

static const Part *
slope (Vec2 from, Vec2 to)
{
  Part *part = part_new (KIND_SLOPE);
  path_move_to (&part->path, from);
  path_line_to (&part->path, to);
  return part_seal (part);
}

static Hole *
scene (void)
{
  Part *photo = part_new (KIND_UNDERLAY), *plan = part_new (KIND_PLAN);
  photo->image_box = (Box){ 0, 0, 10, 10 };
  plan->hole_name = g_strdup ("Front");
  const Part *parts[N_SCENE] = {
    [BROOK] = area (KIND_PENALTY_AREA, (Box){ -40, 100, 40, 130 }),
    [POND] = area (KIND_WATER, (Box){ -10, 105, 10, 120 }),
    [WOOD] = area (KIND_TREES, (Box){ 30, 0, 60, 90 }),
    [MARKER] = point (KIND_TEE_MARKER, "white", vec2 (0, 0)),
    [FRONT] = point (KIND_HOLE_LOCATION, "front", vec2 (0, 200)),
    [BACK] = point (KIND_HOLE_LOCATION, "back", vec2 (0, 210)),
    [OAK] = point (KIND_TREE, NULL, vec2 (-20, 50)),
    [SPOT] = point (KIND_SPOT_HEIGHT, NULL, vec2 (3, 200)),
    [FALL] = slope (vec2 (0, 195), vec2 (10, 195)),
    [STONE] = point (KIND_MARK, "A", vec2 (15, 40)),
    [PHOTO] = part_seal (photo),
    [PLAN] = part_seal (plan),
  };
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, N_SCENE, NULL);
}

static Hole *
set (const Hole *hole, size_t part, EditFact fact, double value)
{
  GError *error = NULL;
  Hole *made = edit_set_fact (hole, &part, 1, fact, value, &error);
  ck_assert_msg (made != NULL, "fact %d of part %zu: %s", fact, part, error ? error->message : "no message");
  return made;
}

static void
refuses (const Hole *hole, size_t part, EditFact fact, double value, EditError code)
{
  GError *error = NULL;
  Hole *made = edit_set_fact (hole, &part, 1, fact, value, &error);
  ck_assert_msg (made == NULL, "fact %d of part %zu took %g", fact, part, value);
  ck_assert_msg (g_error_matches (error, EDIT_ERROR, (int)code), "%s", error->message);
  ck_assert_ptr_nonnull (strstr (error->message, "; "));
  g_clear_error (&error);
}

/* A value each that every fact can have. */
static const struct
{
  size_t part;
  EditFact fact;
  double value;
} samples[] = {
  { FALL, EDIT_FACT_PERCENT, 3.5 }, { FALL, EDIT_FACT_DOWNHILL, 1 },   { OAK, EDIT_FACT_HEIGHT, 18.288 },
  { WOOD, EDIT_FACT_HEIGHT, 9 },    { SPOT, EDIT_FACT_HEIGHT, -1.25 }, { WOOD, EDIT_FACT_DENSITY, 0.4 },
  { BROOK, EDIT_FACT_STAKES, 1 },   { POND, EDIT_FACT_STAKES, 1 },     { BACK, EDIT_FACT_TODAY, 1 },
  { MARKER, EDIT_FACT_PAR, 5 },     { STONE, EDIT_FACT_FIXED, 1 },     { PHOTO, EDIT_FACT_OPACITY, 0.25 },
};

/* Rule 17.1a of the Rules of Golf: a penalty area whose colour is not marked is treated as red. */
START_TEST (an_unmarked_penalty_area_is_red_and_water_takes_the_stakes_round_it)
{
  g_autoptr (Hole) hole = scene ();
  ck_assert_double_eq (edit_get_fact (hole, BROOK, EDIT_FACT_STAKES), STAKES_RED);
  ck_assert_double_nan (edit_get_fact (hole, POND, EDIT_FACT_STAKES));
  g_autoptr (Hole) yellow = set (hole, BROOK, EDIT_FACT_STAKES, STAKES_YELLOW);
  ck_assert_int_eq (hole_stakes (yellow, BROOK), STAKES_YELLOW);
  ck_assert_int_eq (hole_stakes (yellow, POND), STAKES_YELLOW);
  g_autoptr (Hole) red = set (yellow, POND, EDIT_FACT_STAKES, STAKES_RED);
  ck_assert_int_eq (hole_stakes (red, POND), STAKES_RED);
  g_autoptr (Hole) again = set (red, POND, EDIT_FACT_STAKES, NAN);
  ck_assert (hole_equal (again, yellow));
}
END_TEST

/* Format: the first hole location is in use, or the one marked as today's. */
START_TEST (exactly_one_hole_location_is_todays)
{
  g_autoptr (Hole) hole = scene ();
  ck_assert_double_eq (edit_get_fact (hole, FRONT, EDIT_FACT_TODAY), 1);
  ck_assert_double_eq (edit_get_fact (hole, BACK, EDIT_FACT_TODAY), 0);
  g_autoptr (Hole) same = set (hole, FRONT, EDIT_FACT_TODAY, 1);
  ck_assert_ptr_eq (same, hole);
  g_autoptr (Hole) back = set (hole, BACK, EDIT_FACT_TODAY, 1);
  ck_assert_double_eq (edit_get_fact (back, FRONT, EDIT_FACT_TODAY), 0);
  ck_assert_double_eq (edit_get_fact (back, BACK, EDIT_FACT_TODAY), 1);
  ck_assert_str_eq (hole_part (back, PLAN)->hole_name, "back");
  g_autoptr (Hole) front = set (back, FRONT, EDIT_FACT_TODAY, 1);
  ck_assert_int_eq (hole_hole_location (front, NULL), FRONT);
  ck_assert (hole_part (front, FRONT)->today && !hole_part (front, BACK)->today);
  refuses (back, BACK, EDIT_FACT_TODAY, 0, EDIT_ERROR_NUMBER);
  const size_t both[] = { FRONT, BACK };
  GError *error = NULL;
  ck_assert_ptr_null (edit_set_fact (hole, both, 2, EDIT_FACT_TODAY, 1, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
}
END_TEST

START_TEST (of_two_marked_as_todays_the_one_chosen_stays)
{
  g_autoptr (Hole) hole = scene ();
  Part *front = part_copy (hole_part (hole, FRONT)), *back = part_copy (hole_part (hole, BACK));
  front->today = back->today = true;
  g_autoptr (Hole) half = hole_with_part (hole, FRONT, part_seal (front));
  g_autoptr (Hole) both = hole_with_part (half, BACK, part_seal (back));
  g_autoptr (Hole) one = set (both, FRONT, EDIT_FACT_TODAY, 1);
  ck_assert (hole_part (one, FRONT)->today && !hole_part (one, BACK)->today);
}
END_TEST

START_TEST (a_slope_turns_about_its_middle_until_it_falls_that_way)
{
  g_autoptr (Hole) hole = scene ();
  ck_assert_double_eq (edit_get_fact (hole, FALL, EDIT_FACT_DOWNHILL), 0);
  for (double direction_rad = -3; direction_rad < 3.1; direction_rad += 0.37)
    {
      g_autoptr (Hole) turned = set (hole, FALL, EDIT_FACT_DOWNHILL, direction_rad);
      const Path *path = &hole_part (turned, FALL)->path;
      Vec2 from = path->segs[0].to, to = path_current (path);
      ck_assert_double_eq_tol (edit_get_fact (turned, FALL, EDIT_FACT_DOWNHILL), direction_rad, CLOSE_RAD);
      ck_assert_double_eq_tol (vec2_distance (from, to), 10, 2 * EDIT_GRID_M);
      ck_assert_double_eq_tol (vec2_distance (vec2_scale (vec2_add (from, to), 0.5), vec2 (5, 195)), 0, 2 * EDIT_GRID_M);
      g_autoptr (Hole) again = set (turned, FALL, EDIT_FACT_DOWNHILL, direction_rad);
      ck_assert_ptr_eq (again, turned);
      g_autoptr (Hole) round = set (turned, FALL, EDIT_FACT_DOWNHILL, direction_rad + 2 * PI);
      ck_assert_ptr_eq (round, turned);
    }
}
END_TEST

START_TEST (every_fact_is_set_for_what_has_it_and_nothing_else_changes)
{
  g_autoptr (Hole) hole = scene ();
  for (size_t s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      size_t part = samples[s].part;
      g_autoptr (Hole) made = set (hole, part, samples[s].fact, samples[s].value);
      ck_assert (made != hole);
      ck_assert_double_eq_tol (edit_get_fact (made, part, samples[s].fact), samples[s].value, CLOSE_RAD);
      for (size_t i = 0; i < N_SCENE; i++)
        if (samples[s].fact != EDIT_FACT_TODAY)
          ck_assert_msg ((hole_part (made, i) == hole_part (hole, i)) == (i != part), "part %zu", i);
      g_autoptr (Hole) again = set (made, part, samples[s].fact, samples[s].value);
      ck_assert_msg (again == made, "fact %d changed the hole twice", samples[s].fact);
    }
}
END_TEST

START_TEST (undo_brings_back_the_very_hole)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (History) history = history_new (hole);
  for (size_t s = 0; s < G_N_ELEMENTS (samples); s++)
    {
      g_autoptr (Hole) made = set (history_current (history), samples[s].part, samples[s].fact, samples[s].value);
      history_push (history, made, "fact");
    }
  while (history_undo (history))
    ;
  ck_assert_ptr_eq (history_current (history), hole);
  ck_assert (!history_is_modified (history));
}
END_TEST

START_TEST (several_parts_get_a_fact_together_or_not_at_all)
{
  g_autoptr (Hole) hole = scene ();
  const size_t trees[] = { WOOD, OAK }, mixed[] = { WOOD, MARKER };
  GError *error = NULL;
  g_autoptr (Hole) made = edit_set_fact (hole, trees, 2, EDIT_FACT_HEIGHT, 15, &error);
  ck_assert (made != NULL && error == NULL);
  ck_assert_double_eq (hole_part (made, WOOD)->height_m, 15);
  ck_assert_double_eq (hole_part (made, OAK)->height_m, 15);
  ck_assert_ptr_null (edit_set_fact (hole, mixed, 2, EDIT_FACT_HEIGHT, 15, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_SHAPE));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_set_fact (hole, trees, 0, EDIT_FACT_HEIGHT, 15, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
  ck_assert_ptr_null (edit_set_fact (hole, trees, 0, EDIT_FACT_TODAY, 1, &error));
  ck_assert (g_error_matches (error, EDIT_ERROR, EDIT_ERROR_EMPTY));
  g_clear_error (&error);
}
END_TEST

START_TEST (a_fact_taken_off_is_what_it_would_be_by_itself)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) wood = set (hole, WOOD, EDIT_FACT_HEIGHT, 20);
  g_autoptr (Hole) usual = set (wood, WOOD, EDIT_FACT_HEIGHT, NAN);
  ck_assert (hole_equal (usual, hole));
  g_autoptr (Hole) thin = set (hole, WOOD, EDIT_FACT_DENSITY, 0.1);
  g_autoptr (Hole) dense = set (thin, WOOD, EDIT_FACT_DENSITY, NAN);
  ck_assert_double_eq (hole_part (dense, WOOD)->density, TREES_DENSITY);
  g_autoptr (Hole) steep = set (hole, FALL, EDIT_FACT_PERCENT, 2);
  g_autoptr (Hole) unknown = set (steep, FALL, EDIT_FACT_PERCENT, NAN);
  ck_assert_double_nan (hole_part (unknown, FALL)->percent);
  g_autoptr (Hole) five = set (hole, MARKER, EDIT_FACT_PAR, 5);
  g_autoptr (Hole) none = set (five, MARKER, EDIT_FACT_PAR, NAN);
  ck_assert_int_eq (hole_part (none, MARKER)->par, 0);
  ck_assert_double_nan (edit_get_fact (none, MARKER, EDIT_FACT_PAR));
}
END_TEST

START_TEST (numbers_are_rounded_to_what_a_file_says)
{
  g_autoptr (Hole) hole = scene ();
  g_autoptr (Hole) percent = set (hole, FALL, EDIT_FACT_PERCENT, 2.34567);
  ck_assert_double_eq (hole_part (percent, FALL)->percent, 2.35);
  g_autoptr (Hole) height = set (hole, SPOT, EDIT_FACT_HEIGHT, 40 * 0.3048 + 1e-7);
  ck_assert_double_eq (hole_part (height, SPOT)->height_m, 12.192);
  g_autoptr (Hole) flat = set (hole, SPOT, EDIT_FACT_HEIGHT, -1e-9);
  ck_assert (!signbit (hole_part (flat, SPOT)->height_m));
}
END_TEST

START_TEST (what_cannot_be_is_refused_in_a_sentence)
{
  g_autoptr (Hole) hole = scene ();
  refuses (hole, FALL, EDIT_FACT_PERCENT, 1001, EDIT_ERROR_NUMBER);
  refuses (hole, FALL, EDIT_FACT_PERCENT, -1, EDIT_ERROR_NUMBER);
  refuses (hole, FALL, EDIT_FACT_DOWNHILL, NAN, EDIT_ERROR_NUMBER);
  refuses (hole, FALL, EDIT_FACT_DOWNHILL, INFINITY, EDIT_ERROR_NUMBER);
  refuses (hole, OAK, EDIT_FACT_HEIGHT, -1, EDIT_ERROR_NUMBER);
  refuses (hole, OAK, EDIT_FACT_HEIGHT, 201, EDIT_ERROR_NUMBER);
  refuses (hole, SPOT, EDIT_FACT_HEIGHT, -501, EDIT_ERROR_NUMBER);
  refuses (hole, SPOT, EDIT_FACT_HEIGHT, INFINITY, EDIT_ERROR_NUMBER);
  refuses (hole, WOOD, EDIT_FACT_DENSITY, 1.01, EDIT_ERROR_NUMBER);
  refuses (hole, BROOK, EDIT_FACT_STAKES, NAN, EDIT_ERROR_NUMBER);
  ck_assert (!edit_may_lack_fact (KIND_PENALTY_AREA, EDIT_FACT_STAKES) && edit_may_lack_fact (KIND_WATER, EDIT_FACT_STAKES));
  refuses (hole, BROOK, EDIT_FACT_STAKES, 2, EDIT_ERROR_NUMBER);
  refuses (hole, MARKER, EDIT_FACT_PAR, 4.5, EDIT_ERROR_NUMBER);
  refuses (hole, MARKER, EDIT_FACT_PAR, 0, EDIT_ERROR_NUMBER);
  refuses (hole, PHOTO, EDIT_FACT_OPACITY, NAN, EDIT_ERROR_NUMBER);
  refuses (hole, STONE, EDIT_FACT_FIXED, 0.5, EDIT_ERROR_NUMBER);
  refuses (hole, WOOD, EDIT_FACT_TODAY, 1, EDIT_ERROR_SHAPE);
  refuses (hole, MARKER, EDIT_FACT_PERCENT, 1, EDIT_ERROR_SHAPE);
}
END_TEST

START_TEST (only_kinds_that_have_a_fact_say_so)
{
  g_autoptr (Hole) hole = scene ();
  for (int fact = 0; fact < N_EDIT_FACTS; fact++)
    {
      unsigned n = 0;
      for (int kind = 0; kind < N_KINDS; kind++)
        n += edit_has_fact ((Kind)kind, (EditFact)fact);
      ck_assert_uint_ge (n, 1);
      for (size_t i = 0; i < N_SCENE; i++)
        if (!edit_has_fact (hole_part (hole, i)->kind, (EditFact)fact))
          ck_assert_double_nan (edit_get_fact (hole, i, (EditFact)fact));
    }
}
END_TEST

START_TEST (a_slope_that_rises_along_its_line_falls_the_other_way)
{
  g_autoptr (Hole) hole = scene ();
  Part *rising = part_copy (hole_part (hole, FALL));
  rising->percent = -3;
  g_autoptr (Hole) risen = hole_with_part (hole, FALL, part_seal (rising));
  ck_assert_double_eq_tol (fabs (edit_get_fact (risen, FALL, EDIT_FACT_DOWNHILL)), PI, 1e-12);
  g_autoptr (Hole) turned = set (risen, FALL, EDIT_FACT_DOWNHILL, PI / 2);
  ck_assert_double_eq_tol (edit_get_fact (turned, FALL, EDIT_FACT_DOWNHILL), PI / 2, CLOSE_RAD);
}
END_TEST

START_TEST (a_slope_of_one_point_has_no_direction)
{
  const Part *dot = slope (vec2 (1, 1), vec2 (1, 1));
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, &dot, 1, NULL);
  ck_assert_double_nan (edit_get_fact (hole, 0, EDIT_FACT_DOWNHILL));
  g_autoptr (Hole) same = set (hole, 0, EDIT_FACT_DOWNHILL, 1);
  ck_assert_ptr_eq (same, hole);
}
END_TEST

START_TEST (a_place_is_measured_as_a_part_that_stands_there)
{
  g_autoptr (Hole) hole = scene ();
  double along_m = NAN, right_m = NAN;
  ck_assert (edit_measure_place (hole, vec2 (12, 150), &along_m, &right_m));
  ck_assert_double_eq_tol (along_m, 150, 1e-9);
  ck_assert_double_eq_tol (right_m, 12, 1e-9);
  g_autoptr (Hole) empty = edit_empty_hole (100, 100);
  along_m = 7;
  ck_assert (!edit_measure_place (empty, vec2 (1, 1), &along_m, &right_m));
  ck_assert_double_eq (along_m, 7);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-facts");
  TCase *known = tcase_create ("known answers"), *invariants = tcase_create ("invariants"), *edges = tcase_create ("edges");
  tcase_add_test (known, an_unmarked_penalty_area_is_red_and_water_takes_the_stakes_round_it);
  tcase_add_test (known, exactly_one_hole_location_is_todays);
  tcase_add_test (known, of_two_marked_as_todays_the_one_chosen_stays);
  tcase_add_test (known, a_slope_turns_about_its_middle_until_it_falls_that_way);
  tcase_add_test (known, a_place_is_measured_as_a_part_that_stands_there);
  tcase_add_test (invariants, every_fact_is_set_for_what_has_it_and_nothing_else_changes);
  tcase_add_test (invariants, undo_brings_back_the_very_hole);
  tcase_add_test (invariants, several_parts_get_a_fact_together_or_not_at_all);
  tcase_add_test (invariants, a_fact_taken_off_is_what_it_would_be_by_itself);
  tcase_add_test (invariants, numbers_are_rounded_to_what_a_file_says);
  tcase_add_test (invariants, only_kinds_that_have_a_fact_say_so);
  tcase_add_test (edges, what_cannot_be_is_refused_in_a_sentence);
  tcase_add_test (edges, a_slope_that_rises_along_its_line_falls_the_other_way);
  tcase_add_test (edges, a_slope_of_one_point_has_no_direction);
  suite_add_tcase (suite, known);
  suite_add_tcase (suite, invariants);
  suite_add_tcase (suite, edges);
  return suite;
}
