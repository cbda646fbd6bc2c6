// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The example course: what it was drawn for and what it is there to show. Other tests and whoever tries the program rely on these facts of its
 * holes. HW_COURSES names the folder of the courses.
 */
#include "suite.h"

#include "bag.h"
#include "svg.h"
#include "units.h"

static Hole *
open_hole (const char *path)
{
  g_autoptr (GError) error = NULL;
  Hole *hole = svg_read_file (path, NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error != NULL ? error->message : path);
  return hole;
}

static char *
fenwhistle (const char *name)
{
  return g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", name, NULL);
}

/* ---- known answers ---- */

/* The lengths the holes were drawn for, in yards, measured as the Rules of Handicapping (Appendix A) have it. */
typedef struct
{
  const char *file;
  const char *tee;
  double length_yd;
  int par;
} KnownLength;

static const KnownLength known_lengths[] = {
  { "01-quarry.svg", "white", 168, 3 },    { "01-quarry.svg", "yellow", 151, 3 },    { "01-quarry.svg", "red", 126, 3 },
  { "02-orchard.svg", "white", 398, 4 },   { "02-orchard.svg", "yellow", 371, 4 },   { "02-orchard.svg", "red", 333, 4 },
  { "03-mill-lane.svg", "white", 520, 5 }, { "03-mill-lane.svg", "yellow", 497, 5 }, { "03-mill-lane.svg", "red", 452, 5 },
  { "04-weir-pool.svg", "white", 376, 4 }, { "04-weir-pool.svg", "yellow", 352, 4 }, { "04-weir-pool.svg", "red", 311, 4 },
  { "05-rookery.svg", "white", 391, 4 },   { "05-rookery.svg", "yellow", 366, 4 },   { "05-rookery.svg", "red", 327, 4 },
  { "06-marram.svg", "white", 527, 5 },    { "06-marram.svg", "yellow", 501, 5 },    { "06-marram.svg", "red", 455, 5 },
  { "07-beacon.svg", "white", 357, 4 },    { "07-beacon.svg", "yellow", 336, 4 },    { "07-beacon.svg", "red", 298, 4 },
  { "08-hogsback.svg", "white", 186, 3 },  { "08-hogsback.svg", "yellow", 167, 3 },  { "08-hogsback.svg", "red", 139, 3 },
  { "09-boathouse.svg", "white", 402, 4 }, { "09-boathouse.svg", "yellow", 376, 4 }, { "09-boathouse.svg", "red", 337, 4 },
};

START_TEST (fenwhistle_measures_what_it_was_drawn_for)
{
  const KnownLength *known = &known_lengths[_i];
  g_autofree char *path = fenwhistle (known->file);
  g_autoptr (Hole) hole = open_hole (path);
  double length_m = 0;
  ck_assert (hole_measured_length (hole, known->tee, &length_m));
  ck_assert_double_eq_tol (length_m / METRES_PER_YARD, known->length_yd, 0.2);
  ck_assert_int_eq (hole_info (hole)->par, known->par);
}
END_TEST

/* Along the first leg; distances in yards from the white tee worked out apart from this program when the hole was drawn. */
START_TEST (the_stream_lies_beyond_the_bend_where_it_was_drawn)
{
  g_autofree char *path = fenwhistle ("02-orchard.svg");
  g_autoptr (Hole) hole = open_hole (path);
  int stream = hole_find (hole, "stream");
  ck_assert_int_ge (stream, 0);
  const Part *part = hole_part (hole, (size_t)stream);
  ck_assert_int_eq (part->kind, KIND_PENALTY_AREA);
  double bearing_rad = units_radians (90 - 11); /* the first leg leans 11 degrees to the right of up */
  IntervalList list = { 0 };
  outline_crossings (part->outline, vec2 (0, 0), vec2 (cos (bearing_rad), sin (bearing_rad)), 300, &list);
  ck_assert_uint_eq (list.n_items, 1);
  ck_assert_double_eq_tol (list.items[0].enter_m / METRES_PER_YARD, 227.94, 0.02);
  ck_assert_double_eq_tol (list.items[0].leave_m / METRES_PER_YARD, 242.58, 0.02);
  interval_list_clear (&list);
}
END_TEST

/* ---- what the example holes are there to show ---- */

/* Where the last leg of the hole, and 60 m beyond the middle of the green, run through an area: metres from its last pivot. */
static IntervalList
along_last_leg (const Hole *hole, const char *name, double *length_m)
{
  g_autofree Vec2 *points = NULL;
  size_t n = hole_measured_line (hole, "white", &points);
  ck_assert_uint_ge (n, 2);
  int at = hole_find (hole, name);
  ck_assert_msg (at >= 0, "there is no %s", name);
  IntervalList list = { 0 };
  Vec2 leg = vec2_sub (points[n - 1], points[n - 2]);
  *length_m = vec2_length (leg);
  outline_crossings (hole_part (hole, (size_t)at)->outline, points[n - 2], vec2_unit (leg), *length_m + 60, &list);
  return list;
}

START_TEST (the_weir_pool_lies_before_its_green_and_the_mere_behind)
{
  g_autofree char *pool_path = fenwhistle ("04-weir-pool.svg"), *mere_path = fenwhistle ("09-boathouse.svg");
  g_autoptr (Hole) pool_hole = open_hole (pool_path), mere_hole = open_hole (mere_path);
  double length_m = 0;
  IntervalList pool = along_last_leg (pool_hole, "weir pool", &length_m);
  ck_assert_uint_eq (pool.n_items, 1);
  ck_assert_double_lt (pool.items[0].leave_m, length_m - 10);
  ck_assert_double_gt (pool.items[0].leave_m, length_m - 40);
  interval_list_clear (&pool);
  IntervalList mere = along_last_leg (mere_hole, "the mere", &length_m);
  ck_assert_uint_eq (mere.n_items, 1);
  ck_assert_double_gt (mere.items[0].enter_m, length_m + 10);
  interval_list_clear (&mere);
}
END_TEST

START_TEST (the_lane_is_out_of_bounds_beside_the_whole_of_the_ninth_on_the_right)
{
  g_autofree char *path = fenwhistle ("09-boathouse.svg");
  g_autoptr (Hole) hole = open_hole (path);
  for (double y = 0; y <= 370; y += 10)
    {
      ck_assert_int_eq (hole_lie_at (hole, vec2 (45, y)), LIE_OUT_OF_BOUNDS);
      ck_assert_int_ne (hole_lie_at (hole, vec2 (20, y)), LIE_OUT_OF_BOUNDS);
    }
}
END_TEST

START_TEST (marram_runs_due_north)
{
  g_autofree char *path = fenwhistle ("06-marram.svg");
  g_autoptr (Hole) hole = open_hole (path);
  ck_assert_double_eq (hole_info (hole)->up_bearing_deg, 0);
}
END_TEST

/* Tall trees stand in the way of the straight line of the fifth, and beside that of its two legs. */
START_TEST (the_rookery_fills_the_corner_of_the_fifth)
{
  g_autofree char *path = fenwhistle ("05-rookery.svg");
  g_autoptr (Hole) hole = open_hole (path);
  const Part *rookery = hole_part (hole, (size_t)hole_find (hole, "rookery"));
  ck_assert_int_eq (rookery->kind, KIND_TREES);
  ck_assert_double_ge (rookery->height_m, 20);
  g_autofree Vec2 *points = NULL;
  size_t n = hole_measured_line (hole, "white", &points);
  ck_assert_uint_eq (n, 3);
  IntervalList list = { 0 };
  Vec2 whole = vec2_sub (points[2], points[0]);
  outline_crossings (rookery->outline, points[0], vec2_unit (whole), vec2_length (whole), &list);
  ck_assert_uint_gt (list.n_items, 0);
  for (size_t i = 0; i < 2; i++)
    {
      Vec2 leg = vec2_sub (points[i + 1], points[i]);
      outline_crossings (rookery->outline, points[i], vec2_unit (leg), vec2_length (leg), &list);
      ck_assert_uint_eq (list.n_items, 0);
    }
  interval_list_clear (&list);
}
END_TEST

/* Spot heights that make a smooth ground: many on the hole, a dozen and more on the green, one at each tee, and the climb that the words of the hole promise. */
static const struct
{
  const char *file;
  double least_climb_m, most_climb_m; /* white tee to today's hole */
} surveyed[]
    = { { "06-marram.svg", 0, 4 }, { "07-beacon.svg", 15, 20 }, { "08-hogsback.svg", 0, 4 }, { "09-boathouse.svg", -18, -12 } };

START_TEST (a_surveyed_hole_has_heights_enough)
{
  g_autofree char *path = fenwhistle (surveyed[_i].file);
  g_autoptr (Hole) hole = open_hole (path);
  const Part *green = hole_part (hole, (size_t)hole_green (hole, NULL));
  Vec2 target;
  ck_assert (hole_target (hole, NULL, &target));
  size_t n_heights = 0, n_green = 0, n_tees = 0;
  double nearest_m = INFINITY, climb_m = NAN;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_SPOT_HEIGHT)
        continue;
      n_heights++;
      n_green += outline_contains (green->outline, part->at);
      n_tees += hole_kind_at (hole, part->at) == KIND_TEE;
      if (vec2_distance (part->at, target) < nearest_m)
        {
          nearest_m = vec2_distance (part->at, target);
          climb_m = part->height_m;
        }
    }
  ck_assert_uint_ge (n_heights, 40);
  ck_assert_uint_ge (n_green, 12);
  ck_assert_uint_ge (n_tees, 3);
  ck_assert_double_ge (climb_m, surveyed[_i].least_climb_m);
  ck_assert_double_le (climb_m, surveyed[_i].most_climb_m);
}
END_TEST

/* Along the middle of the Hogsback the ground is higher than on either side of it. */
START_TEST (the_hogsback_falls_away_on_both_sides)
{
  g_autofree char *path = fenwhistle ("08-hogsback.svg");
  g_autoptr (Hole) hole = open_hole (path);
  double crest_m = 0, flank_m[2] = { 0, 0 };
  unsigned n_crest = 0, n_flank[2] = { 0, 0 };
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      if (part->kind != KIND_SPOT_HEIGHT || part->at.y < 50 || part->at.y > 190)
        continue;
      bool is_right = part->at.x > 0;
      if (fabs (part->at.x) < 8)
        crest_m += part->height_m, n_crest++;
      else if (fabs (part->at.x) > 35)
        flank_m[is_right] += part->height_m, n_flank[is_right]++;
    }
  ck_assert (n_crest >= 3 && n_flank[0] >= 3 && n_flank[1] >= 3);
  for (int side = 0; side < 2; side++)
    ck_assert_double_gt (crest_m / n_crest, flank_m[side] / n_flank[side] + 4);
}
END_TEST

/* Nine holes with the odd half of the stroke indexes, as nine-hole courses number them (common practice). */
START_TEST (fenwhistle_is_nine_holes_of_par_36)
{
  g_autofree char *path = fenwhistle ("course.xml");
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = svg_read_course (path, &error);
  ck_assert_msg (course != NULL, "%s", error != NULL ? error->message : "");
  ck_assert_uint_eq (course->n_holes, 9);
  int par = 0;
  bool has_index[19] = { false };
  for (size_t h = 0; h < course->n_holes; h++)
    {
      g_autoptr (Hole) hole = open_hole (course->hole_files[h]);
      const HoleInfo *info = hole_info (hole);
      par += info->par;
      ck_assert_msg (info->stroke_index % 2 == 1 && info->stroke_index < 19 && !has_index[info->stroke_index],
                     "hole %zu has the stroke index %d", h + 1, info->stroke_index);
      has_index[info->stroke_index] = true;
      ck_assert_ptr_nonnull (info->desc);
      ck_assert (isfinite (info->up_bearing_deg) && isfinite (info->altitude_m));
    }
  ck_assert_int_eq (par, 36);
}
END_TEST

START_TEST (every_club_of_the_example_has_a_loft_and_the_driver_its_curve)
{
  g_autofree char *path = fenwhistle ("bag.csv");
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_read_file (path, LEVEL_DEFAULT, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  ck_assert_uint_eq (bag_n_clubs (bag), 13); /* and a putter */
  size_t n_apex = 0;
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      const Club *club = bag_club (bag, i);
      ck_assert_msg (club->loft_deg > 0, "the %s has no loft", club->name);
      ck_assert_msg (i == 0 || club->loft_deg > bag_club (bag, i - 1)->loft_deg, "the %s has less loft than a longer club",
                     club->name);
      n_apex += isfinite (club->apex_m);
    }
  ck_assert_uint_ge (n_apex, 5);
  ck_assert_double_gt (bag_find (bag, "driver")->curve_m, 0);
}
END_TEST

START_TEST (the_range_session_tells_poor_strikes_apart_and_which_club_was_hit_too_little)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = fenwhistle ("range-session.csv");
  g_autoptr (ShotLog) log = shot_log_read_file (path, &error);
  ck_assert_msg (log != NULL, "%s", error != NULL ? error->message : path);
  g_autofree ClubFit *fits = bag_fit (log);
  size_t n_few = 0, n_parted = 0;
  for (size_t i = 0; i < shot_log_n_clubs (log); i++)
    {
      n_few += fits[i].n_shots < FIT_LEAST_SHOTS;
      n_parted += fits[i].has_mishits;
    }
  ck_assert_uint_eq (shot_log_n_clubs (log), 7);
  ck_assert_uint_eq (n_few, 1);
  ck_assert_uint_eq (n_parted, 5);
  /* Made up about a carry of 149 yd with an sd of 5.5 and one poor strike in eleven. */
  ck_assert_str_eq (fits[3].club, "7 iron");
  ck_assert_double_eq_tol (fits[3].carry_m.value, 149 * METRES_PER_YARD, 2 * fits[3].carry_m.se);
  ck_assert_double_eq_tol (fits[3].carry_sd_m.value, 5.5 * METRES_PER_YARD, 2 * fits[3].carry_sd_m.se);
  ck_assert_double_eq_tol (fits[3].mishit_chance.value, 0.09, 2 * fits[3].mishit_chance.se);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("fenwhistle");
  TCase *known = tcase_create ("known answers");
  tcase_add_loop_test (known, fenwhistle_measures_what_it_was_drawn_for, 0, (int)G_N_ELEMENTS (known_lengths));
  tcase_add_test (known, the_stream_lies_beyond_the_bend_where_it_was_drawn);
  tcase_add_test (known, fenwhistle_is_nine_holes_of_par_36);
  suite_add_tcase (suite, known);
  TCase *shows = tcase_create ("what the examples show");
  tcase_add_test (shows, the_weir_pool_lies_before_its_green_and_the_mere_behind);
  tcase_add_test (shows, the_lane_is_out_of_bounds_beside_the_whole_of_the_ninth_on_the_right);
  tcase_add_test (shows, marram_runs_due_north);
  tcase_add_test (shows, the_rookery_fills_the_corner_of_the_fifth);
  tcase_add_loop_test (shows, a_surveyed_hole_has_heights_enough, 0, (int)G_N_ELEMENTS (surveyed));
  tcase_add_test (shows, the_hogsback_falls_away_on_both_sides);
  tcase_add_test (shows, every_club_of_the_example_has_a_loft_and_the_driver_its_curve);
  tcase_add_test (shows, the_range_session_tells_poor_strikes_apart_and_which_club_was_hit_too_little);
  suite_add_tcase (suite, shows);
  return suite;
}
