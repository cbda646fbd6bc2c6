// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Every example document: opened, checked, measured, written back. HW_COURSES names the folder of the courses; the file list is made from the
 * folder, so a document added there is tried without being named here.
 */
#define _GNU_SOURCE /* open_memstream */
#include "suite.h"

#include "bag.h"
#include "command.h"
#include "odds.h"
#include "svg.h"
#include "units.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>

/* All files below the courses with this ending, sorted, as absolute paths. */
static void
collect (const char *folder, const char *ending, GPtrArray *paths)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  ck_assert_msg (dir != NULL, "%s cannot be listed", folder);
  const char *name;
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);
      if (g_file_test (path, G_FILE_TEST_IS_DIR))
        collect (path, ending, paths);
      else if (g_str_has_suffix (name, ending))
        g_ptr_array_add (paths, g_steal_pointer (&path));
    }
}

static int
by_name (const void *a, const void *b)
{
  return strcmp (*(char *const *)a, *(char *const *)b);
}

static GPtrArray *
documents (const char *ending)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);
  const char *courses = g_getenv ("HW_COURSES");
  ck_assert_msg (courses != NULL, "HW_COURSES is not set");
  collect (courses, ending, paths);
  ck_assert_msg (paths->len > 0, "no %s below %s", ending, courses);
  g_ptr_array_sort (paths, by_name);
  return paths;
}

static Hole *
open_hole (const char *path, GPtrArray **findings)
{
  g_autoptr (GError) error = NULL;
  Hole *hole = svg_read_file (path, findings, &error);
  ck_assert_msg (hole != NULL, "%s", error != NULL ? error->message : path);
  return hole;
}

static char *
fenwhistle (const char *name)
{
  return g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", name, NULL);
}

/* ---- every document ---- */

START_TEST (every_document_opens_without_a_complaint)
{
  g_autoptr (GPtrArray) paths = documents (".svg");
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);
      g_autoptr (GPtrArray) findings = NULL;
      g_autoptr (Hole) hole = open_hole (path, &findings);
      g_autoptr (GPtrArray) suspects = svg_check_hole (hole);
      GPtrArray *lists[] = { findings, suspects };
      for (size_t l = 0; l < G_N_ELEMENTS (lists); l++)
        for (guint f = 0; lists[l] != NULL && f < lists[l]->len; f++)
          {
            const Finding *finding = g_ptr_array_index (lists[l], f);
            ck_assert_msg (finding->severity == FINDING_NOTE, "%s:%u: %s; %s", path, finding->line, finding->what,
                           finding->mend);
          }
    }
}
END_TEST

START_TEST (every_untouched_document_is_written_back_byte_for_byte)
{
  g_autoptr (GPtrArray) paths = documents (".svg");
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);
      g_autoptr (Hole) hole = open_hole (path, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) written = svg_write_bytes (hole, &error);
      g_autoptr (GBytes) read = svg_read_contents (path, NULL);
      ck_assert_msg (written != NULL, "%s", error != NULL ? error->message : path);
      ck_assert_msg (g_bytes_equal (written, read), "%s changed on its way", path);
    }
}
END_TEST

/* A document built anew from the parts alone, without its source, must hold the same hole. */
START_TEST (every_document_survives_being_written_anew)
{
  g_autoptr (GPtrArray) paths = documents (".svg");
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);
      g_autoptr (Hole) hole = open_hole (path, NULL);
      size_t n_parts = hole_n_parts (hole);
      g_autofree const Part **parts = g_new (const Part *, n_parts);
      for (size_t p = 0; p < n_parts; p++)
        parts[p] = part_ref (hole_part (hole, p));
      g_autoptr (Hole) bare = hole_new (hole_info (hole), parts, n_parts, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) written = svg_write_bytes (bare, &error);
      ck_assert_msg (written != NULL, "%s", error != NULL ? error->message : path);
      g_autoptr (Hole) again = svg_read_bytes (written, path, NULL, &error);
      ck_assert_msg (again != NULL, "%s", error != NULL ? error->message : path);
      ck_assert_uint_eq (hole_n_parts (again), n_parts);
      for (size_t p = 0; p < n_parts; p++)
        ck_assert_int_eq (hole_part (again, p)->kind, hole_part (hole, p)->kind);
      double before_m = 0, after_m = 0;
      ck_assert (hole_measured_length (hole, NULL, &before_m) && hole_measured_length (again, NULL, &after_m));
      ck_assert_double_eq_tol (before_m, after_m, 1e-3);
    }
}
END_TEST

START_TEST (a_dragged_aim_changes_one_line_of_the_file)
{
  g_autofree char *path = fenwhistle ("02-orchard.svg");
  g_autoptr (Hole) hole = open_hole (path, NULL);
  int at = hole_plan (hole);
  ck_assert_int_ge (at, 0);
  Part *plan = part_copy (hole_part (hole, (size_t)at));
  plan->shots[plan->n_shots - 1].aim.x += 3;
  g_autoptr (Hole) edited = hole_with_part (hole, (size_t)at, part_seal (plan));
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) before = svg_read_contents (path, NULL);
  g_autoptr (GBytes) after = svg_write_bytes (edited, &error);
  ck_assert_msg (after != NULL, "%s", error != NULL ? error->message : "");
  g_autofree char *text_before = g_strndup (g_bytes_get_data (before, NULL), g_bytes_get_size (before));
  g_autofree char *text_after = g_strndup (g_bytes_get_data (after, NULL), g_bytes_get_size (after));
  g_auto (GStrv) lines_before = g_strsplit (text_before, "\n", -1);
  g_auto (GStrv) lines_after = g_strsplit (text_after, "\n", -1);
  ck_assert_uint_eq (g_strv_length (lines_before), g_strv_length (lines_after));
  unsigned n_changed = 0;
  for (size_t i = 0; lines_before[i] != NULL; i++)
    n_changed += strcmp (lines_before[i], lines_after[i]) != 0;
  ck_assert_uint_eq (n_changed, 1);
}
END_TEST

START_TEST (every_course_names_each_of_its_holes_once)
{
  g_autoptr (GPtrArray) courses = documents ("course.xml");
  g_autoptr (GPtrArray) paths = documents (".svg");
  size_t n_named = 0;
  for (guint i = 0; i < courses->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (Course) course = svg_read_course (g_ptr_array_index (courses, i), &error);
      ck_assert_msg (course != NULL, "%s", error != NULL ? error->message : "");
      ck_assert_uint_gt (course->n_tees, 0);
      for (size_t h = 0; h < course->n_holes; h++, n_named++)
        {
          g_autoptr (Hole) hole = open_hole (course->hole_files[h], NULL);
          ck_assert_int_eq (hole_info (hole)->number, (int)h + 1);
          for (size_t t = 0; t < course->n_tees; t++)
            ck_assert_msg (hole_tee (hole, course->tees[t].name) >= 0, "%s has no %s tee", course->hole_files[h],
                           course->tees[t].name);
        }
    }
  ck_assert_uint_eq (n_named, paths->len);
}
END_TEST

START_TEST (every_bag_opens_without_a_warning)
{
  g_autoptr (GPtrArray) paths = documents ("bag.csv");
  for (guint i = 0; i < paths->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (Bag) bag = bag_read_file (g_ptr_array_index (paths, i), LEVEL_SCRATCH_MEN, &error);
      ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
      ck_assert_ptr_null (bag_warnings (bag)[0]);
    }
}
END_TEST

START_TEST (every_file_of_recorded_shots_makes_a_bag)
{
  g_autoptr (GPtrArray) paths = documents ("session.csv");
  for (guint i = 0; i < paths->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (ShotLog) log = shot_log_read_file (g_ptr_array_index (paths, i), &error);
      ck_assert_msg (log != NULL, "%s", error != NULL ? error->message : "");
      g_autofree ClubFit *fits = bag_fit (log);
      g_autoptr (Bag) empty = bag_new ("fitted", UNIT_YARDS, LEVEL_SCRATCH_MEN);
      g_autoptr (Bag) bag = bag_with_fit (empty, fits, shot_log_n_clubs (log), &error);
      ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
    }
}
END_TEST

/* Tee, hole and clubs of the plan exist, every planned shot flies, and none of them is planned into trouble. */
START_TEST (every_plan_can_be_played)
{
  g_autofree char *bag_path = fenwhistle ("bag.csv");
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_read_file (bag_path, LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  g_autoptr (GPtrArray) paths = documents (".svg");
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);
      g_autoptr (Hole) hole = open_hole (path, NULL);
      int at = hole_plan (hole);
      ck_assert_int_ge (at, 0);
      const Part *plan = hole_part (hole, (size_t)at);
      ck_assert_int_ge (hole_tee (hole, plan->tee), 0);
      ck_assert_int_ge (hole_hole_location (hole, plan->hole_name), 0);
      g_autofree ShotResult *shots = odds_plan (hole, (size_t)at, bag, &error);
      ck_assert_msg (shots != NULL, "%s: %s", path, error != NULL ? error->message : "");
      for (size_t s = 0; s < plan->n_shots; s++)
        {
          ck_assert_msg (!kind_info (hole_kind_at (hole, shots[s].landing))->is_trouble, "%s: shot %zu lands in trouble", path,
                         s + 1);
          /* A club and a half: up a hill the carry is shorter than the bag says. */
          ck_assert_double_lt (fabs (shots[s].beyond_aim_m), 15);
        }
    }
}
END_TEST

START_TEST (the_check_command_passes_every_document)
{
  g_autoptr (GPtrArray) paths = documents (".svg");
  g_autoptr (GPtrArray) words = g_ptr_array_new ();
  g_ptr_array_add (words, (char *)"holewright");
  g_ptr_array_add (words, (char *)"check");
  for (guint i = 0; i < paths->len; i++)
    g_ptr_array_add (words, g_ptr_array_index (paths, i));
  int n_words = (int)words->len;
  g_ptr_array_add (words, NULL);
  char *out_text = NULL, *err_text = NULL;
  size_t out_size, err_size;
  FILE *out = open_memstream (&out_text, &out_size), *err = open_memstream (&err_text, &err_size);
  int status = command_run (n_words, (char **)words->pdata, out, err);
  fclose (out);
  fclose (err);
  ck_assert_msg (status == 0, "%s%s", out_text, err_text);
  ck_assert_str_eq (err_text, "");
  for (guint i = 0; i < paths->len; i++)
    {
      g_autofree char *name = g_path_get_basename (g_ptr_array_index (paths, i));
      ck_assert_msg (strstr (out_text, name) != NULL, "check says nothing of %s:\n%s", name, out_text);
    }
  free (out_text);
  free (err_text);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("documents");
  TCase *every = tcase_create ("every document");
  tcase_add_test (every, every_document_opens_without_a_complaint);
  tcase_add_test (every, every_untouched_document_is_written_back_byte_for_byte);
  tcase_add_test (every, every_document_survives_being_written_anew);
  tcase_add_test (every, a_dragged_aim_changes_one_line_of_the_file);
  tcase_add_test (every, every_course_names_each_of_its_holes_once);
  tcase_add_test (every, every_bag_opens_without_a_warning);
  tcase_add_test (every, every_file_of_recorded_shots_makes_a_bag);
  tcase_add_test (every, every_plan_can_be_played);
  tcase_add_test (every, the_check_command_passes_every_document);
  suite_add_tcase (suite, every);
  return suite;
}
