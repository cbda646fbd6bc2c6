// SPDX-License-Identifier: GPL-3.0-or-later
/* Courses edited on disk: what changes, what stays to the byte, and what happens when it cannot be done. */
#define _XOPEN_SOURCE 700
#include "suite.h"
#include "svg.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define FIRST "<svg xmlns='http://www.w3.org/2000/svg'><!-- first --><rect width='3' height='3'/></svg>\n"
#define SECOND "<svg xmlns='http://www.w3.org/2000/svg'><!-- second --></svg>\n"
#define THIRD "<svg xmlns='http://www.w3.org/2000/svg'><!-- third --></svg>\n"

/* With much that the program does not know. */
#define COURSE                                                                                                                 \
  "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"                                                                               \
  "<!-- kept -->\n"                                                                                                            \
  "<course xmlns=\"urn:holewright:course:1\" xmlns:x=\"urn:example:x\" name=\"Fenwhistle\" x:since=\"1911\">\n"                \
  "  <tee name=\"white\" colour=\"#ffffff\" rating=\"71.4\" slope=\"128\" x:mark=\"stone\"/>\n"                                \
  "  <tee name=\"red\" colour=\"#c62f2f\"/>\n"                                                                                 \
  "  <x:greenkeeper>A &amp; B</x:greenkeeper>\n"                                                                               \
  "  <hole file=\"01.svg\" x:hedge=\"yes\"/>\n"                                                                                \
  "  <!-- over the road -->\n"                                                                                                 \
  "  <hole file=\"02.svg\"/>\n"                                                                                                \
  "  <hole file=\"sub/03.svg\"/>\n"                                                                                            \
  "</course>\n"

/* A folder for everything, the course in it, and the place of the trash. */
static char *top, *folder, *trash;

static char *
in_course (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static void
put (const char *name, const char *text)
{
  g_autofree char *path = in_course (name);
  ck_assert (g_file_set_contents (path, text, -1, NULL));
}

static void
holds (const char *name, const char *expected)
{
  g_autofree char *path = in_course (name), *text = NULL;
  ck_assert_msg (g_file_get_contents (path, &text, NULL, NULL), "%s is not there", name);
  ck_assert_str_eq (text, expected);
}

static bool
is_there (const char *name)
{
  g_autofree char *path = in_course (name);
  return g_file_test (path, G_FILE_TEST_EXISTS);
}

static void
set_up (void)
{
  top = g_dir_make_tmp ("holewright-course-XXXXXX", NULL);
  folder = g_build_filename (top, "fenwhistle", NULL);
  g_autofree char *sub = in_course ("sub");
  ck_assert_int_eq (g_mkdir_with_parents (sub, 0700), 0);
  put ("course.xml", COURSE);
  put ("01.svg", FIRST);
  put ("02.svg", SECOND);
  put ("sub/03.svg", THIRD);
}

static void
clear_folder (const char *path)
{
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  for (const char *name = dir ? g_dir_read_name (dir) : NULL; name; name = g_dir_read_name (dir))
    {
      g_autofree char *one = g_build_filename (path, name, NULL);
      if (g_file_test (one, G_FILE_TEST_IS_DIR))
        clear_folder (one);
      else
        g_unlink (one);
    }
  g_rmdir (path);
}

static void
tear_down (void)
{
  clear_folder (top);
  clear_folder (trash);
  g_clear_pointer (&top, g_free);
  g_clear_pointer (&folder, g_free);
}

static int
count_files (void)
{
  int n = 0;
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  while (g_dir_read_name (dir))
    n++;
  return n;
}

static Course *
read_course (void)
{
  g_autoptr (GError) error = NULL;
  Course *course = svg_read_course (folder, &error);
  ck_assert_msg (course != NULL, "%s", error ? error->message : "");
  return course;
}

static Hole *
hole_of (const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  Hole *hole = svg_read_bytes (bytes, "test.svg", NULL, NULL);
  ck_assert_ptr_nonnull (hole);
  return hole;
}

static Hole *
hole_called (const char *title, int number)
{
  HoleInfo info;
  hole_info_init (&info);
  info.title = g_strdup (title);
  info.number = number;
  Hole *hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  return hole;
}

/* The edit was done: course.xml reads back as what was returned. Frees it. */
static void
done (Course *now, const GError *error)
{
  ck_assert_msg (now != NULL, "%s", error ? error->message : "");
  g_autoptr (Course) back = read_course ();
  ck_assert_uint_eq (now->n_holes, back->n_holes);
  ck_assert_str_eq (now->name, back->name);
  ck_assert_uint_eq (now->n_tees, back->n_tees);
  for (size_t i = 0; i < now->n_holes; i++)
    ck_assert_str_eq (now->hole_files[i], back->hole_files[i]);
  course_free (now);
}

/* The edit was refused in one sentence that says this. */
static void
refused (Course *now, GError **error, const char *what)
{
  ck_assert_ptr_null (now);
  ck_assert_msg (strstr ((*error)->message, what) && strstr ((*error)->message, "; ") && !strchr ((*error)->message, '\n'),
                 "%s", (*error)->message);
  g_clear_error (error);
}

/* course.xml is COURSE with `old` replaced by `new`. */
static void
course_is (const char *old, const char *new)
{
  const char *place = strstr (COURSE, old);
  ck_assert_ptr_nonnull (place);
  g_autofree char *before = g_strndup (COURSE, (gsize)(place - COURSE));
  g_autofree char *text = g_strconcat (before, new, place + strlen (old), NULL);
  holds ("course.xml", text);
}

/* ---- name and tees ---- */

START_TEST (a_new_name_changes_nothing_else)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  done (svg_course_set_name (course, "Fenwhistle & Links <\"9\">", &error), error);
  course_is ("name=\"Fenwhistle\"", "name=\"Fenwhistle &amp; Links &lt;&quot;9&quot;&gt;\"");
}
END_TEST

START_TEST (what_is_no_change_touches_nothing)
{
  /* Written as no writer would, so that any writing shows. */
  static const char odd[]
      = "<course  xmlns='urn:holewright:course:1'\n name='A' ><tee name='w' rating=''/><hole file='01.svg' /></course>";
  struct stat before, after;
  put ("course.xml", odd);
  g_autofree char *path = in_course ("course.xml");
  ck_assert_int_eq (stat (path, &before), 0);
  g_autoptr (Course) course = read_course ();
  done (svg_course_set_name (course, "A", NULL), NULL);
  done (svg_course_set_tees (course, course->tees, course->n_tees, NULL), NULL);
  done (svg_course_move_hole (course, 0, 0, NULL), NULL);
  done (svg_course_rename_hole (course, 0, "01", NULL), NULL);
  ck_assert_int_eq (stat (path, &after), 0);
  ck_assert_uint_eq (before.st_ino, after.st_ino);
  holds ("course.xml", odd);
}
END_TEST

START_TEST (tees_keep_their_elements_by_name_and_by_place)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  CourseTee tees[] = {
    { (char *)"red", (char *)"#c62f2f", NAN, 0 },
    { (char *)"blue", (char *)"#2040c0", 72.1, 131 },
    { (char *)"yellow", NULL, NAN, 0 },
  };
  done (svg_course_set_tees (course, tees, 3, &error), error);
  /* Red goes first; blue was white, so its stone stays; yellow is new. */
  course_is ("  <tee name=\"white\" colour=\"#ffffff\" rating=\"71.4\" slope=\"128\" x:mark=\"stone\"/>\n"
             "  <tee name=\"red\" colour=\"#c62f2f\"/>\n",
             "  <tee name=\"red\" colour=\"#c62f2f\"/>\n"
             "  <tee name=\"blue\" colour=\"#2040c0\" rating=\"72.1\" slope=\"131\" x:mark=\"stone\"/>\n"
             "  <tee name=\"yellow\"/>\n");
}
END_TEST

START_TEST (tees_can_all_go_and_come)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  Course *none = svg_course_set_tees (course, NULL, 0, &error);
  ck_assert_ptr_nonnull (none);
  CourseTee tee = { (char *)"white", (char *)"#ffffff", NAN, 0 };
  done (svg_course_set_tees (none, &tee, 1, &error), error);
  course_free (none);
  course_is ("  <tee name=\"white\" colour=\"#ffffff\" rating=\"71.4\" slope=\"128\" x:mark=\"stone\"/>\n"
             "  <tee name=\"red\" colour=\"#c62f2f\"/>\n"
             "  <x:greenkeeper>A &amp; B</x:greenkeeper>\n",
             "  <x:greenkeeper>A &amp; B</x:greenkeeper>\n  <tee name=\"white\" colour=\"#ffffff\"/>\n");
}
END_TEST

START_TEST (a_tee_that_would_not_read_back_is_refused)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  CourseTee steep = { (char *)"white", NULL, NAN, 300 }, nameless = { (char *)"", NULL, NAN, 0 };
  refused (svg_course_set_tees (course, &steep, 1, &error), &error, "slope=\"300\"");
  refused (svg_course_set_tees (course, &nameless, 1, &error), &error, "no name");
  holds ("course.xml", COURSE);
}
END_TEST

/* ---- holes ---- */

START_TEST (a_hole_moves_with_its_element)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  Course *now = svg_course_move_hole (course, 0, 2, &error);
  ck_assert_msg (now && g_str_has_suffix (now->hole_files[2], "/01.svg"), "%s", error ? error->message : "");
  course_is ("  <hole file=\"01.svg\" x:hedge=\"yes\"/>\n"
             "  <!-- over the road -->\n"
             "  <hole file=\"02.svg\"/>\n"
             "  <hole file=\"sub/03.svg\"/>\n",
             "  <!-- over the road -->\n"
             "  <hole file=\"02.svg\"/>\n"
             "  <hole file=\"sub/03.svg\"/>\n"
             "  <hole file=\"01.svg\" x:hedge=\"yes\"/>\n");
  done (svg_course_move_hole (now, 2, 0, &error), error);
  course_free (now);
  g_autoptr (Course) back = read_course ();
  ck_assert (g_str_has_suffix (back->hole_files[0], "/01.svg") && g_str_has_suffix (back->hole_files[1], "/02.svg"));
}
END_TEST

START_TEST (every_move_gives_the_order_asked_for)
{
  for (size_t from = 0; from < 3; from++)
    for (size_t to = 0; to < 3; to++)
      {
        put ("course.xml", COURSE);
        g_autoptr (Course) course = read_course ();
        g_autoptr (Course) now = svg_course_move_hole (course, from, to, NULL);
        g_autoptr (GPtrArray) files = g_ptr_array_new ();
        for (size_t i = 0; i < 3; i++)
          g_ptr_array_add (files, course->hole_files[i]);
        g_ptr_array_insert (files, (int)to, g_ptr_array_steal_index (files, (guint)from));
        for (size_t i = 0; i < 3; i++)
          ck_assert_str_eq (now->hole_files[i], files->pdata[i]);
      }
}
END_TEST

START_TEST (an_added_hole_has_a_file_called_after_it)
{
  static const struct
  {
    const char *title;
    int number;
    const char *file;
  } rows[] = {
    { "The Weir", 4, "04-the-weir.svg" },
    { "The Weir", 4, "04-the-weir-2.svg" },
    { "O'Grady's -- \"Caf\xc3\xa9\" / Green!", 12, "12-ogradys-cafe-green.svg" },
    { NULL, 0, "04.svg" },
    { "../../etc", 1, "01-etc.svg" },
    { "\xe6\xb0\xb4", 3, "03.svg" }, /* no letter of ASCII */
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      put ("course.xml", COURSE);
      g_autoptr (Course) course = read_course ();
      g_autoptr (Hole) hole = hole_called (rows[i].title, rows[i].number);
      g_autoptr (Course) now = svg_course_add_hole (course, 3, hole, &error);
      ck_assert_msg (now != NULL, "%s", error ? error->message : "");
      g_autofree char *name = g_path_get_basename (now->hole_files[3]);
      ck_assert_msg (strcmp (name, rows[i].file) == 0, "%s, not %s", name, rows[i].file);
      g_autoptr (Hole) back = svg_read_file (now->hole_files[3], NULL, NULL);
      ck_assert_str_eq (hole_info (back)->title ? hole_info (back)->title : "",
                        hole_info (hole)->title ? hole_info (hole)->title : "");
    }
}
END_TEST

START_TEST (a_hole_is_added_anywhere)
{
  for (size_t at = 0; at <= 3; at++)
    {
      put ("course.xml", COURSE);
      g_autoptr (Course) course = read_course ();
      g_autoptr (Hole) hole = hole_of (SECOND);
      g_autoptr (Course) now = svg_course_add_hole (course, at, hole, NULL);
      ck_assert_uint_eq (now->n_holes, 4);
      for (size_t i = 0; i < 3; i++)
        ck_assert_str_eq (now->hole_files[i < at ? i : i + 1], course->hole_files[i]);
      g_autofree char *text = NULL;
      ck_assert (g_file_get_contents (now->hole_files[at], &text, NULL, NULL));
      ck_assert_str_eq (text, SECOND);
    }
}
END_TEST

START_TEST (a_duplicate_has_the_same_bytes_and_stands_behind)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  g_autoptr (Course) now = svg_course_duplicate_hole (course, 2, &error);
  ck_assert_msg (now != NULL, "%s", error ? error->message : "");
  course_is ("  <hole file=\"sub/03.svg\"/>\n", "  <hole file=\"sub/03.svg\"/>\n  <hole file=\"sub/03-2.svg\"/>\n");
  holds ("sub/03-2.svg", THIRD);
  done (svg_course_duplicate_hole (now, 2, &error), error);
  holds ("sub/03-3.svg", THIRD);
}
END_TEST

START_TEST (a_file_gets_another_name_and_keeps_its_content)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Course) course = read_course ();
  done (svg_course_rename_hole (course, 2, "the weir & more", &error), error);
  course_is ("sub/03.svg", "sub/the weir &amp; more.svg");
  holds ("sub/the weir & more.svg", THIRD);
  ck_assert (!is_there ("sub/03.svg"));
}
END_TEST

START_TEST (a_file_named_twice_is_renamed_in_both_places)
{
  g_autoptr (GError) error = NULL;
  put ("course.xml", "<course xmlns='urn:holewright:course:1' name='A'><hole file='01.svg'/><hole file='02.svg'/><hole "
                     "file='01.svg'/></course>");
  g_autoptr (Course) course = read_course ();
  Course *now = svg_course_rename_hole (course, 0, "one", &error);
  ck_assert_msg (now && g_str_has_suffix (now->hole_files[0], "/one.svg") && g_str_has_suffix (now->hole_files[2], "/one.svg"),
                 "%s", error ? error->message : "");
  g_autoptr (CourseRemoved) removed = NULL;
  Course *less = svg_course_delete_hole (now, 0, &removed, &error);
  ck_assert_ptr_nonnull (less);
  ck_assert_str_eq (removed->kept, now->hole_files[0]); /* it is still the last hole */
  holds ("one.svg", FIRST);
  course_free (now);
  course_free (less);
}
END_TEST

START_TEST (names_that_cannot_be_are_refused)
{
  static const char *const names[][2] = { { "", "no name" },     { "..", "no name" },          { ".hidden", "no name" },
                                          { "a/b", "a folder" }, { "a\nb", "no name should" }, { "\xff", "UTF-8" } };
  g_autoptr (Course) course = read_course ();
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr (GError) error = NULL;
      refused (svg_course_rename_hole (course, 0, names[i][0], &error), &error, names[i][1]);
    }
  g_autoptr (GError) error = NULL;
  refused (svg_course_rename_hole (course, 0, "02.svg", &error), &error, "a file of this name");
  holds ("course.xml", COURSE);
  holds ("02.svg", SECOND);
}
END_TEST

/* ---- taking out ---- */

/* The content is in the trash or in the file that was kept. */
static void
is_kept (const char *kept, const char *name, const char *content)
{
  g_autofree char *in_trash = g_build_filename (trash, "Trash", "files", name, NULL), *text = NULL;
  ck_assert (g_file_get_contents (kept ? kept : in_trash, &text, NULL, NULL));
  ck_assert_str_eq (text, content);
}

START_TEST (a_hole_taken_out_is_kept)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CourseRemoved) removed = NULL;
  g_autoptr (Course) course = read_course ();
  done (svg_course_delete_hole (course, 1, &removed, &error), error);
  course_is ("  <hole file=\"02.svg\"/>\n", "");
  ck_assert (!is_there ("02.svg"));
  is_kept (removed->kept, "02.svg", SECOND);
}
END_TEST

START_TEST (without_a_trash_the_file_stays_under_another_name)
{
  g_autoptr (GError) error = NULL;
  ck_assert (g_file_set_contents (trash, "no folder here", -1, NULL));
  put ("02.svg.deleted", "an older one");
  g_autofree char *expected = in_course ("02.svg.deleted-2");
  g_autoptr (CourseRemoved) removed = NULL;
  g_autoptr (Course) course = read_course ();
  done (svg_course_delete_hole (course, 1, &removed, &error), error);
  ck_assert_str_eq (removed->kept, expected);
  holds ("02.svg.deleted-2", SECOND);
  holds ("02.svg.deleted", "an older one");
  ck_assert (!is_there ("02.svg"));
  g_unlink (trash);
}
END_TEST

/* Takes hole `i` out. */
static Course *
taken_out (const Course *course, size_t i, CourseRemoved **removed)
{
  g_autoptr (GError) error = NULL;
  Course *now = svg_course_delete_hole (course, i, removed, &error);
  ck_assert_msg (now != NULL, "%s", error ? error->message : "");
  return now;
}

START_TEST (a_hole_put_back_leaves_the_course_as_it_was)
{
  for (size_t i = 0; i < 3; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CourseRemoved) removed = NULL;
      g_autoptr (Course) course = read_course ();
      g_autoptr (Course) less = taken_out (course, i, &removed);
      done (svg_course_restore_hole (less, removed, &error), error);
      holds ("course.xml", COURSE);
      holds ("01.svg", FIRST);
      holds ("02.svg", SECOND);
      holds ("sub/03.svg", THIRD);
      ck_assert_int_eq (count_files (), 4);
    }
}
END_TEST

START_TEST (a_hole_kept_under_another_name_gets_its_own_back)
{
  g_autoptr (GError) error = NULL;
  ck_assert (g_file_set_contents (trash, "no folder here", -1, NULL));
  g_autoptr (CourseRemoved) removed = NULL;
  g_autoptr (Course) course = read_course ();
  g_autoptr (Course) less = taken_out (course, 1, &removed);
  ck_assert (is_there ("02.svg.deleted"));
  done (svg_course_restore_hole (less, removed, &error), error);
  holds ("02.svg", SECOND);
  ck_assert (!is_there ("02.svg.deleted"));
  g_unlink (trash);
}
END_TEST

START_TEST (a_hole_put_back_later_takes_no_file_s_place_and_undoes_nothing_else)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CourseRemoved) removed = NULL;
  g_autoptr (Course) course = read_course ();
  g_autoptr (Course) less = taken_out (course, 1, &removed);
  g_autoptr (Course) named = svg_course_set_name (less, "Other", &error);
  put ("02.svg", "of another program");
  g_autoptr (Course) now = svg_course_restore_hole (named, removed, &error);
  ck_assert_msg (now != NULL, "%s", error ? error->message : "");
  ck_assert_str_eq (now->name, "Other");
  ck_assert_uint_eq (now->n_holes, 3);
  ck_assert (g_str_has_suffix (now->hole_files[1], "/02-2.svg"));
  holds ("02.svg", "of another program");
  holds ("02-2.svg", SECOND);
}
END_TEST

START_TEST (a_hole_that_cannot_be_put_back_leaves_no_file_behind)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CourseRemoved) removed = NULL;
  g_autoptr (Course) course = read_course ();
  g_autoptr (Course) less = taken_out (course, 1, &removed);
  int before = count_files ();
  static const char changed[]
      = "<course xmlns='urn:holewright:course:1' name='Fenwhistle'><hole file='sub/03.svg'/><hole file='01.svg'/></course>";
  put ("course.xml", changed);
  refused (svg_course_restore_hole (less, removed, &error), &error, "another program has changed the course");
  holds ("course.xml", changed);
  ck_assert_int_eq (count_files (), before);
}
END_TEST

START_TEST (a_hole_whose_file_is_missing_can_be_taken_out_and_put_back)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CourseRemoved) removed = NULL;
  g_autofree char *path = in_course ("02.svg");
  ck_assert_int_eq (g_unlink (path), 0);
  int n = count_files ();
  g_autoptr (Course) course = read_course ();
  g_autoptr (Course) without = svg_course_delete_hole (course, 1, &removed, &error);
  ck_assert_msg (without != NULL, "%s", error ? error->message : "");
  course_is ("  <hole file=\"02.svg\"/>\n", "");
  ck_assert_ptr_null (removed->kept);
  done (svg_course_restore_hole (without, removed, &error), error);
  holds ("course.xml", COURSE);
  ck_assert_int_eq (count_files (), n);
}
END_TEST

START_TEST (the_last_hole_stays)
{
  g_autoptr (GError) error = NULL;
  put ("course.xml", "<course xmlns='urn:holewright:course:1' name='A'><hole file='01.svg'/></course>");
  g_autoptr (Course) course = read_course ();
  refused (svg_course_delete_hole (course, 0, NULL, &error), &error, "needs a hole");
  holds ("01.svg", FIRST);
}
END_TEST

/* ---- a new course ---- */

START_TEST (a_new_course_is_a_folder_with_one_hole)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *fresh = g_build_filename (top, "new", "course", NULL), *file = g_build_filename (fresh, "course.xml", NULL),
                  *text = NULL;
  g_autoptr (Hole) hole = hole_called ("The Weir", 1);
  g_autoptr (Course) course = svg_course_create (fresh, "Fenwhistle", hole, &error);
  ck_assert_msg (course != NULL, "%s", error ? error->message : "");
  ck_assert_str_eq (course->name, "Fenwhistle");
  ck_assert_str_eq (course->folder, fresh);
  ck_assert (g_file_get_contents (file, &text, NULL, NULL));
  ck_assert_str_eq (text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                          "<course xmlns=\"urn:holewright:course:1\" name=\"Fenwhistle\">\n"
                          "  <hole file=\"01-the-weir.svg\"/>\n"
                          "</course>\n");
  refused (svg_course_create (fresh, "Again", hole, &error), &error, "a course in this folder already");
}
END_TEST

START_TEST (a_new_course_overwrites_nothing_in_its_folder)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = in_course ("course.xml");
  ck_assert_int_eq (g_unlink (path), 0);
  g_autoptr (Hole) hole = hole_called (NULL, 1);
  g_autoptr (Course) course = svg_course_create (folder, "Fenwhistle", hole, &error);
  ck_assert_msg (course && g_str_has_suffix (course->hole_files[0], "/01-2.svg"), "%s", error ? error->message : "");
  holds ("01.svg", FIRST);
}
END_TEST

/* ---- what can go wrong ---- */

/* Each kind of edit once. */
static Course *
edit_number (int i, const Course *course, GError **error)
{
  CourseTee tee = { (char *)"blue", NULL, NAN, 0 };
  g_autoptr (Hole) hole = hole_called ("New", 9);
  switch (i)
    {
    case 0:
      return svg_course_set_name (course, "Other", error);
    case 1:
      return svg_course_set_tees (course, &tee, 1, error);
    case 2:
      return svg_course_add_hole (course, 1, hole, error);
    case 3:
      return svg_course_duplicate_hole (course, 0, error);
    case 4:
      return svg_course_move_hole (course, 0, 1, error);
    case 5:
      return svg_course_rename_hole (course, 0, "other", error);
    default:
      return svg_course_delete_hole (course, 0, NULL, error);
    }
}
#define N_EDITS 7

START_TEST (a_course_changed_by_another_program_is_not_touched)
{
  g_autoptr (Course) course = read_course ();
  static const char changed[]
      = "<course xmlns='urn:holewright:course:1' name='Fenwhistle'><hole file='02.svg'/><hole file='01.svg'/></course>";
  put ("course.xml", changed);
  for (int i = 0; i < N_EDITS; i++)
    {
      g_autoptr (GError) error = NULL;
      refused (edit_number (i, course, &error), &error, "another program has changed the course");
    }
  holds ("course.xml", changed);
  ck_assert_int_eq (count_files (), 4);
}
END_TEST

START_TEST (a_folder_that_vanished_is_named)
{
  g_autoptr (Course) course = read_course ();
  g_autofree char *moved = g_build_filename (top, "moved", NULL);
  ck_assert_int_eq (g_rename (folder, moved), 0);
  for (int i = 0; i < N_EDITS; i++)
    {
      g_autoptr (GError) error = NULL;
      refused (edit_number (i, course, &error), &error, "cannot be read (No such file");
    }
  ck_assert (!g_file_test (folder, G_FILE_TEST_EXISTS));
}
END_TEST

/* The user and group called nobody on Linux. */
#define NOBODY 65534

/* Root may do anything, so as root the tests of permissions run as nobody. */
static void
become_nobody (void)
{
  static const char *const names[] = { "", "course.xml", "01.svg", "02.svg", "sub", "sub/03.svg" };
  for (size_t i = 0; i < G_N_ELEMENTS (names) && geteuid () == 0; i++)
    {
      g_autofree char *path = in_course (names[i]);
      ck_assert_int_eq (chown (path, NOBODY, NOBODY), 0);
    }
  ck_assert_int_eq (chmod (top, 0755), 0);
  if (geteuid () == 0)
    ck_assert_int_eq (seteuid (NOBODY), 0);
}

START_TEST (a_read_only_folder_loses_nothing)
{
  g_autoptr (Course) course = read_course ();
  become_nobody ();
  ck_assert_int_eq (chmod (folder, 0555), 0);
  for (int i = 0; i < N_EDITS; i++)
    {
      g_autoptr (GError) error = NULL;
      refused (edit_number (i, course, &error), &error, "Permission denied");
    }
  g_autoptr (GError) error = NULL;
  g_autofree char *below = in_course ("new");
  g_autoptr (Hole) hole = hole_called ("New", 1);
  refused (svg_course_create (below, "New", hole, &error), &error, "cannot be made");
  ck_assert_int_eq (chmod (folder, 0755), 0);
  ck_assert_int_eq (seteuid (getuid ()), 0);
  holds ("course.xml", COURSE);
  ck_assert_int_eq (count_files (), 4);
}
END_TEST

START_TEST (a_write_protected_course_leaves_no_file_behind)
{
  g_autoptr (Course) course = read_course ();
  g_autofree char *path = in_course ("course.xml");
  become_nobody ();
  ck_assert_int_eq (chmod (path, 0444), 0);
  for (int i = 0; i < N_EDITS; i++)
    {
      g_autoptr (GError) error = NULL;
      refused (edit_number (i, course, &error), &error, "write-protected");
    }
  ck_assert_int_eq (seteuid (getuid ()), 0);
  holds ("course.xml", COURSE);
  holds ("01.svg", FIRST);
  ck_assert_int_eq (count_files (), 4);
}
END_TEST

Suite *
suite_make (void)
{
  /* Before GLib looks: nothing of these tests may reach the user's own trash. */
  g_autofree char *place = g_build_filename (g_get_tmp_dir (), "holewright-trash-XXXXXX", NULL);
  trash = g_strdup (g_mkdtemp (place));
  g_setenv ("XDG_DATA_HOME", trash, TRUE);
  Suite *suite = suite_create ("svg-course");
  TCase *facts = tcase_create ("name and tees"), *holes = tcase_create ("holes"), *out = tcase_create ("taking out");
  TCase *fresh = tcase_create ("a new course"), *mistakes = tcase_create ("what can go wrong");
  TCase *all[] = { facts, holes, out, fresh, mistakes };
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    {
      tcase_add_checked_fixture (all[i], set_up, tear_down);
      tcase_set_timeout (all[i], 30);
      suite_add_tcase (suite, all[i]);
    }
  tcase_add_test (facts, a_new_name_changes_nothing_else);
  tcase_add_test (facts, what_is_no_change_touches_nothing);
  tcase_add_test (facts, tees_keep_their_elements_by_name_and_by_place);
  tcase_add_test (facts, tees_can_all_go_and_come);
  tcase_add_test (facts, a_tee_that_would_not_read_back_is_refused);
  tcase_add_test (holes, a_hole_moves_with_its_element);
  tcase_add_test (holes, every_move_gives_the_order_asked_for);
  tcase_add_test (holes, an_added_hole_has_a_file_called_after_it);
  tcase_add_test (holes, a_hole_is_added_anywhere);
  tcase_add_test (holes, a_duplicate_has_the_same_bytes_and_stands_behind);
  tcase_add_test (holes, a_file_gets_another_name_and_keeps_its_content);
  tcase_add_test (holes, a_file_named_twice_is_renamed_in_both_places);
  tcase_add_test (holes, names_that_cannot_be_are_refused);
  tcase_add_test (out, a_hole_taken_out_is_kept);
  tcase_add_test (out, a_hole_put_back_leaves_the_course_as_it_was);
  tcase_add_test (out, a_hole_kept_under_another_name_gets_its_own_back);
  tcase_add_test (out, a_hole_put_back_later_takes_no_file_s_place_and_undoes_nothing_else);
  tcase_add_test (out, a_hole_that_cannot_be_put_back_leaves_no_file_behind);
  tcase_add_test (out, without_a_trash_the_file_stays_under_another_name);
  tcase_add_test (out, a_hole_whose_file_is_missing_can_be_taken_out_and_put_back);
  tcase_add_test (out, the_last_hole_stays);
  tcase_add_test (fresh, a_new_course_is_a_folder_with_one_hole);
  tcase_add_test (fresh, a_new_course_overwrites_nothing_in_its_folder);
  tcase_add_test (mistakes, a_course_changed_by_another_program_is_not_touched);
  tcase_add_test (mistakes, a_folder_that_vanished_is_named);
  tcase_add_test (mistakes, a_read_only_folder_loses_nothing);
  tcase_add_test (mistakes, a_write_protected_course_leaves_no_file_behind);
  return suite;
}
