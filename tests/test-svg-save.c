// SPDX-License-Identifier: GPL-3.0-or-later
/* Saving: whatever happens, the name means the old content or the new one, whole. */
#define _DEFAULT_SOURCE /* flock */
#define _XOPEN_SOURCE 700
#include "suite.h"
#include "svg.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/file.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* A folder to save in, with a file "hole.svg" that holds "old". */
static char *folder, *file;

static void
set_up (void)
{
  folder = g_dir_make_tmp ("holewright-save-XXXXXX", NULL);
  file = g_build_filename (folder, "hole.svg", NULL);
  ck_assert (g_file_set_contents (file, "old", -1, NULL));
}

/* Removes the folder with everything directly in it; returns how many files there were. */
static int
clear_folder (const char *path)
{
  int n = 0;
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  for (const char *name = dir ? g_dir_read_name (dir) : NULL; name; name = g_dir_read_name (dir), n++)
    {
      g_autofree char *one = g_build_filename (path, name, NULL);
      if (g_file_test (one, G_FILE_TEST_IS_DIR) && !g_file_test (one, G_FILE_TEST_IS_SYMLINK))
        clear_folder (one);
      else
        g_unlink (one);
    }
  g_rmdir (path);
  return n;
}

static void
tear_down (void)
{
  clear_folder (folder);
  g_clear_pointer (&folder, g_free);
  g_clear_pointer (&file, g_free);
}

static bool
save_text (const char *path, const char *text, GError **error)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  return svg_save_bytes (bytes, path, error);
}

static void
holds (const char *path, const char *expected)
{
  g_autofree char *text = NULL;
  ck_assert (g_file_get_contents (path, &text, NULL, NULL));
  ck_assert_str_eq (text, expected);
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

/* The save fails with a reason, the file still holds "old", and nothing else is left behind. */
static void
fails (const char *path, const char *reason)
{
  g_autoptr (GError) error = NULL;
  int before = count_files ();
  ck_assert (!save_text (path, "new", &error));
  ck_assert (g_error_matches (error, SVG_ERROR, SVG_ERROR_WRITE));
  ck_assert_msg (g_str_has_prefix (error->message, path) && strstr (error->message, reason), "%s", error->message);
  ck_assert_ptr_nonnull (strstr (error->message, "; "));
  holds (file, "old");
  ck_assert_int_eq (count_files (), before);
}

static unsigned
mode_of (const char *path)
{
  struct stat status;
  ck_assert_int_eq (stat (path, &status), 0);
  return status.st_mode & 07777;
}

static char *
beside (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

/* ---- what saving does ---- */

START_TEST (saving_replaces_the_content_and_leaves_nothing_else)
{
  ck_assert (save_text (file, "new", NULL));
  holds (file, "new");
  ck_assert (save_text (file, "", NULL));
  holds (file, "");
  ck_assert_int_eq (count_files (), 1);
}
END_TEST

START_TEST (a_new_file_has_the_permissions_the_user_set_for_new_files)
{
  g_autofree char *fresh = beside ("fresh.svg");
  mode_t before = umask (027);
  ck_assert (save_text (fresh, "new", NULL));
  umask (before);
  ck_assert_uint_eq (mode_of (fresh), 0640);
}
END_TEST

START_TEST (an_old_file_keeps_its_permissions)
{
  ck_assert_int_eq (chmod (file, 0604), 0);
  ck_assert (save_text (file, "new", NULL));
  ck_assert_uint_eq (mode_of (file), 0604);
}
END_TEST

START_TEST (links_stay_links_and_their_target_is_saved)
{
  g_autofree char *link = beside ("link.svg"), *second = beside ("second.svg"), *absolute = beside ("absolute.svg");
  ck_assert_int_eq (symlink ("hole.svg", link), 0);
  ck_assert_int_eq (symlink ("link.svg", second), 0);
  ck_assert_int_eq (symlink (file, absolute), 0);
  ck_assert (save_text (second, "new", NULL));
  holds (file, "new");
  ck_assert (save_text (absolute, "newer", NULL));
  holds (file, "newer");
  ck_assert (g_file_test (link, G_FILE_TEST_IS_SYMLINK) && g_file_test (second, G_FILE_TEST_IS_SYMLINK));
  ck_assert_int_eq (count_files (), 4);
}
END_TEST

START_TEST (a_link_to_nothing_yet_makes_its_target)
{
  g_autofree char *link = beside ("link.svg"), *target = beside ("target.svg");
  ck_assert_int_eq (symlink ("target.svg", link), 0);
  ck_assert (save_text (link, "new", NULL));
  holds (target, "new");
}
END_TEST

START_TEST (a_link_up_from_a_linked_folder_is_followed_as_the_system_does)
{
  /* deep/inner/up -> ../hole.svg means deep/hole.svg also when inner is reached through a link from above. */
  g_autofree char *inner = beside ("deep/inner"), *target = beside ("deep/hole.svg"), *way = beside ("way"),
                  *up = beside ("way/up");
  ck_assert_int_eq (g_mkdir_with_parents (inner, 0700), 0);
  ck_assert (g_file_set_contents (target, "old", -1, NULL));
  ck_assert_int_eq (symlink ("deep/inner", way), 0);
  ck_assert_int_eq (symlink ("../hole.svg", up), 0);
  ck_assert (save_text (up, "new", NULL));
  holds (target, "new");
  holds (file, "old");
  g_autofree char *roundabout = beside ("way/../hole.svg");
  ck_assert (save_text (roundabout, "newer", NULL));
  holds (target, "newer");
  holds (file, "old");
  g_unlink (up);
  g_rmdir (inner);
}
END_TEST

/* ---- what can go wrong ---- */

START_TEST (folders_devices_and_missing_folders_are_refused)
{
  g_autofree char *missing = beside ("missing/hole.svg"), *loop = beside ("loop.svg"), *slash = beside ("name/"),
                  *pipe = beside ("pipe");
  ck_assert_int_eq (symlink ("loop.svg", loop), 0);
  ck_assert_int_eq (mkfifo (pipe, 0600), 0);
  fails (folder, "folder");
  fails ("/dev/null", "device");
  fails (pipe, "pipe");
  fails (missing, "No such file");
  fails (loop, "levels of symbolic links");
  fails (slash, "name of a file");
}
END_TEST

/* The user and group called nobody on Linux. */
#define NOBODY 65534

/* Root may do anything, so as root the tests of permissions run as nobody. */
static void
become_nobody (void)
{
  if (geteuid () != 0)
    return;
  ck_assert_int_eq (chown (folder, NOBODY, NOBODY), 0);
  ck_assert_int_eq (chown (file, NOBODY, NOBODY), 0);
  ck_assert_int_eq (seteuid (NOBODY), 0);
}

static void
become_oneself (void)
{
  ck_assert_int_eq (seteuid (getuid ()), 0);
}

START_TEST (a_read_only_folder_is_named)
{
  become_nobody ();
  ck_assert_int_eq (chmod (folder, 0555), 0);
  fails (file, "making a file beside it failed");
  ck_assert_int_eq (chmod (folder, 0755), 0);
  become_oneself ();
}
END_TEST

START_TEST (a_write_protected_file_is_not_replaced)
{
  become_nobody ();
  ck_assert_int_eq (chmod (file, 0444), 0);
  fails (file, "write-protected");
  become_oneself ();
}
END_TEST

/* Saves with files limited to `size` bytes, as on a disk that is nearly full. */
static void
fails_in (rlim_t size, const char *text)
{
  struct rlimit before, small;
  struct sigaction ignore = { .sa_handler = SIG_IGN }, usual;
  g_autoptr (GError) error = NULL;
  ck_assert_int_eq (getrlimit (RLIMIT_FSIZE, &before), 0);
  small = before;
  small.rlim_cur = size;
  sigaction (SIGXFSZ, &ignore, &usual);
  setrlimit (RLIMIT_FSIZE, &small);
  bool saved = save_text (file, text, &error);
  setrlimit (RLIMIT_FSIZE, &before);
  sigaction (SIGXFSZ, &usual, NULL);
  ck_assert (!saved);
  ck_assert_msg (strstr (error->message, "writing failed"), "%s", error->message);
  holds (file, "old");
  ck_assert_int_eq (count_files (), 1);
}

START_TEST (a_disk_that_fills_up_costs_nothing)
{
  g_autofree char *text = g_strnfill (100000, 'x');
  fails_in (0, text);
  fails_in (1, text);
  fails_in (99999, text);
  ck_assert (save_text (file, text, NULL));
}
END_TEST

/* Saves two contents in turn until killed. */
static void
save_for_ever (GBytes *a, GBytes *b)
{
  for (;;)
    if (!svg_save_bytes (a, file, NULL) || !svg_save_bytes (b, file, NULL))
      _exit (1);
}

START_TEST (a_kill_at_any_moment_leaves_one_whole_content)
{
  g_autofree char *many_a = g_strnfill (200000, 'a'), *many_b = g_strnfill (150000, 'b');
  g_autoptr (GBytes) a = g_bytes_new (many_a, strlen (many_a));
  g_autoptr (GBytes) b = g_bytes_new (many_b, strlen (many_b));
  ck_assert (svg_save_bytes (a, file, NULL));
  GRand *random = g_rand_new_with_seed (5);
  for (int i = 0; i < 60; i++)
    {
      int status;
      pid_t child = fork ();
      if (child == 0)
        save_for_ever (a, b);
      g_usleep ((gulong)g_rand_int_range (random, 0, 8000));
      kill (child, SIGKILL);
      ck_assert_int_eq (waitpid (child, &status, 0), child);
      ck_assert (WIFSIGNALED (status));
      g_autoptr (GBytes) now = svg_read_contents (file, NULL);
      ck_assert (now && (g_bytes_equal (now, a) || g_bytes_equal (now, b)));
    }
  g_rand_free (random);
}
END_TEST

START_TEST (the_next_save_removes_what_a_killed_one_left)
{
  g_autofree char *left = beside (".holewright-0123456789abcdef.tmp"), *other = beside (".holewright-notes.tmp"),
                  *target = beside ("fresh.svg");
  ck_assert (g_file_set_contents (left, "half", -1, NULL) && g_file_set_contents (other, "mine", -1, NULL));
  ck_assert (save_text (target, "new", NULL));
  ck_assert (!g_file_test (left, G_FILE_TEST_EXISTS));
  holds (other, "mine");
  ck_assert_int_eq (count_files (), 3);
}
END_TEST

START_TEST (the_hidden_file_of_a_save_under_way_is_not_removed)
{
  g_autofree char *held = beside (".holewright-0123456789abcdef.tmp");
  int open_file = open (held, O_WRONLY | O_CREAT, 0600);
  ck_assert_int_ge (open_file, 0);
  ck_assert_int_eq (flock (open_file, LOCK_EX), 0);
  ck_assert (save_text (file, "new", NULL));
  ck_assert (g_file_test (held, G_FILE_TEST_EXISTS));
  close (open_file);
  ck_assert (save_text (file, "newer", NULL));
  ck_assert (!g_file_test (held, G_FILE_TEST_EXISTS));
}
END_TEST

START_TEST (many_programs_save_in_one_folder_without_harm)
{
  enum
  {
    PROGRAMS = 4,
    SAVES = 100
  };
  pid_t children[PROGRAMS];
  for (int i = 0; i < PROGRAMS; i++)
    {
      children[i] = fork ();
      if (children[i] == 0)
        {
          g_autofree char *name = g_strdup_printf ("%d.svg", i), *own = beside (name);
          g_autoptr (GError) error = NULL;
          for (int n = 0; n < SAVES; n++)
            if (!save_text (n % 2 ? own : file, "new", &error))
              {
                g_printerr ("%s\n", error->message);
                _exit (1);
              }
          _exit (0);
        }
    }
  for (int i = 0; i < PROGRAMS; i++)
    {
      int status;
      ck_assert_int_eq (waitpid (children[i], &status, 0), children[i]);
      ck_assert (WIFEXITED (status) && WEXITSTATUS (status) == 0);
    }
  holds (file, "new");
  ck_assert_int_eq (count_files (), 1 + PROGRAMS);
}
END_TEST

/* ---- holes ---- */

static Hole *
read_weir (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", "weir.svg", NULL);
  Hole *hole = svg_read_file (path, NULL, NULL);
  ck_assert_ptr_nonnull (hole);
  return hole;
}

START_TEST (a_hole_is_saved_as_what_it_was_written_to)
{
  g_autoptr (Hole) hole = read_weir ();
  g_autoptr (GBytes) written = NULL;
  g_autoptr (GError) error = NULL;
  ck_assert_msg (svg_save_file (hole, file, &written, &error), "%s", error ? error->message : "");
  ck_assert (g_bytes_equal (written, hole_source (hole)));
  g_autoptr (GBytes) on_disk = svg_read_contents (file, NULL);
  ck_assert (g_bytes_equal (on_disk, written));
}
END_TEST

START_TEST (a_hole_that_would_not_read_back_is_not_saved)
{
  g_autoptr (Hole) hole = read_weir ();
  g_autoptr (GError) error = NULL;
  Part *twin = part_new (KIND_MARK);
  twin->id = g_strdup ("pond"); /* the id of another part */
  g_autoptr (Hole) doubled = hole_inserting_part (hole, 0, part_seal (twin));
  ck_assert (!svg_save_file (doubled, file, NULL, &error));
  ck_assert (g_error_matches (error, SVG_ERROR, SVG_ERROR_WRITE));
  ck_assert_msg (strstr (error->message, "pond"), "%s", error->message);
  g_clear_error (&error);
  Part *far = part_new (KIND_MARK);
  far->at = vec2 (NAN, 0);
  g_autoptr (Hole) lost = hole_inserting_part (hole, 0, part_seal (far));
  ck_assert (!svg_save_file (lost, file, NULL, &error));
  holds (file, "old");
}
END_TEST

START_TEST (a_cleared_or_padded_text_is_no_reason_not_to_save)
{
  g_autoptr (Hole) hole = read_weir ();
  g_autoptr (GError) error = NULL;
  HoleInfo info = *hole_info (hole);
  info.title = (char *)"";
  info.desc = (char *)"  two\nlines \n";
  g_autoptr (Hole) cleared = hole_with_info (hole, &info);
  int i = hole_find (cleared, "pond");
  Part *pond = part_copy (hole_part (cleared, (size_t)i));
  g_free (pond->name);
  pond->name = g_strdup ("");
  g_autoptr (Hole) unnamed = hole_with_part (cleared, (size_t)i, part_seal (pond));
  g_autoptr (Hole) noted = hole_inserting_part (unnamed, 0, part_seal (part_new (KIND_NOTE)));
  ck_assert_msg (svg_save_file (noted, file, NULL, &error), "%s", error ? error->message : "");
  g_autoptr (Hole) back = svg_read_file (file, NULL, &error);
  ck_assert_ptr_null (hole_info (back)->title);
  ck_assert_str_eq (hole_info (back)->desc, "two\nlines");
  ck_assert_ptr_null (hole_part (back, (size_t)hole_find (back, "pond"))->name);
}
END_TEST

/* ---- random edits ---- */

static Vec2
random_place (GRand *random)
{
  return vec2 (g_rand_int_range (random, -60000, 80000) / 1000.0, g_rand_int_range (random, -20000, 390000) / 1000.0);
}

static Part *
random_part (GRand *random)
{
  static const Kind kinds[] = { KIND_BUNKER, KIND_TREE, KIND_NOTE, KIND_SLOPE, KIND_LINE_OF_PLAY, KIND_WATER, KIND_PLAN };
  Part *part = part_new (kinds[g_rand_int_range (random, 0, G_N_ELEMENTS (kinds))]);
  PartShape shape = kind_info (part->kind)->shape;
  part->at = shape == SHAPE_POINT || shape == SHAPE_TEXT ? random_place (random) : part->at;
  part->radius_m = shape == SHAPE_POINT ? g_rand_int_range (random, 1, 9) : 0;
  part->text = shape == SHAPE_TEXT ? g_strdup ("a note") : NULL;
  part->percent = part->kind == KIND_SLOPE ? 2.5 : NAN;
  int n_points = shape == SHAPE_AREA || shape == SHAPE_LINE ? g_rand_int_range (random, 2, 6) : 0;
  for (int i = 0; i < n_points; i++)
    if (i == 0)
      path_move_to (&part->path, random_place (random));
    else if (shape == SHAPE_AREA && g_rand_boolean (random))
      path_cubic_to (&part->path, random_place (random), random_place (random), random_place (random));
    else
      path_line_to (&part->path, random_place (random));
  if (shape == SHAPE_AREA)
    path_close (&part->path);
  for (int i = shape == SHAPE_PLAN ? g_rand_int_range (random, 0, 3) : 0; i > 0; i--)
    {
      Shot shot = { 0, random_place (random), random_place (random), (char *)"wedge", SHOT_FADE, 2, 0.5 };
      part_add_shot (part, &shot);
    }
  return part;
}

static void
nudge (GRand *random, Part *part)
{
  Affine move
      = affine_translation (g_rand_int_range (random, -5000, 5000) / 1000.0, g_rand_int_range (random, -5000, 5000) / 1000.0);
  PartShape shape = kind_info (part->kind)->shape;
  path_transform (&part->path, move);
  if (shape == SHAPE_POINT || shape == SHAPE_TEXT)
    part->at = affine_apply (move, part->at);
  if (shape == SHAPE_IMAGE)
    part->placement = affine_then (part->placement, move);
  for (size_t i = 0; i < part->n_shots; i++)
    part->shots[i].aim = affine_apply (move, part->shots[i].aim);
  if (shape == SHAPE_AREA && g_rand_boolean (random))
    part->even_odd = !part->even_odd;
}

/* One edit as a user might make it. */
static Hole *
random_edit (GRand *random, const Hole *hole)
{
  size_t n = hole_n_parts (hole);
  size_t i = n > 0 ? (size_t)g_rand_int_range (random, 0, (int)n) : 0;
  switch (n > 0 ? g_rand_int_range (random, 0, 5) : 0)
    {
    case 0:
      return hole_inserting_part (hole, i, part_seal (random_part (random)));
    case 1:
      return hole_without_part (hole, i);
    case 2:
      {
        g_autoptr (Hole) without = hole_without_part (hole, i);
        const Part *part = part_ref (hole_part (hole, i));
        return hole_inserting_part (without, (size_t)g_rand_int_range (random, 0, (int)n), part);
      }
    case 3:
      {
        HoleInfo info = *hole_info (hole);
        info.par = g_rand_int_range (random, 3, 6);
        return hole_with_info (hole, &info);
      }
    default:
      {
        Part *part = part_copy (hole_part (hole, i));
        nudge (random, part);
        return hole_with_part (hole, i, part_seal (part));
      }
    }
}

START_TEST (random_edits_are_saved_read_back_and_written_again_alike)
{
  GRand *random = g_rand_new_with_seed (19);
  g_autoptr (Hole) first = read_weir ();
  for (int walk = 0; walk < 40; walk++)
    {
      Hole *hole = hole_ref (first);
      for (int i = g_rand_int_range (random, 1, 25); i > 0; i--)
        {
          Hole *next = random_edit (random, hole);
          hole_unref (hole);
          hole = next;
        }
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) written = NULL;
      ck_assert_msg (svg_save_file (hole, file, &written, &error), "walk %d: %s", walk, error ? error->message : "");
      g_autoptr (Hole) back = svg_read_file (file, NULL, &error);
      ck_assert_ptr_nonnull (back);
      g_autoptr (GBytes) again = svg_write_bytes (back, &error);
      ck_assert (g_bytes_equal (again, written));
      /* The same edits on top of what was saved change it again without loss. */
      g_autoptr (Hole) more = random_edit (random, back);
      ck_assert_msg (svg_save_file (more, file, NULL, &error), "walk %d: %s", walk, error ? error->message : "");
      hole_unref (hole);
    }
  g_autoptr (GBytes) untouched = svg_write_bytes (first, NULL);
  ck_assert (g_bytes_equal (untouched, hole_source (first)));
  g_rand_free (random);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg save");
  TCase *saving = tcase_create ("saving");
  tcase_add_checked_fixture (saving, set_up, tear_down);
  suite_add_tcase (suite, saving);
  tcase_add_test (saving, saving_replaces_the_content_and_leaves_nothing_else);
  tcase_add_test (saving, a_new_file_has_the_permissions_the_user_set_for_new_files);
  tcase_add_test (saving, an_old_file_keeps_its_permissions);
  tcase_add_test (saving, links_stay_links_and_their_target_is_saved);
  tcase_add_test (saving, a_link_to_nothing_yet_makes_its_target);
  tcase_add_test (saving, a_link_up_from_a_linked_folder_is_followed_as_the_system_does);
  tcase_add_test (saving, folders_devices_and_missing_folders_are_refused);
  tcase_add_test (saving, a_read_only_folder_is_named);
  tcase_add_test (saving, a_write_protected_file_is_not_replaced);
  tcase_add_test (saving, a_disk_that_fills_up_costs_nothing);
  tcase_add_test (saving, a_kill_at_any_moment_leaves_one_whole_content);
  tcase_add_test (saving, the_next_save_removes_what_a_killed_one_left);
  tcase_add_test (saving, the_hidden_file_of_a_save_under_way_is_not_removed);
  tcase_add_test (saving, many_programs_save_in_one_folder_without_harm);
  tcase_add_test (saving, a_hole_is_saved_as_what_it_was_written_to);
  tcase_add_test (saving, a_hole_that_would_not_read_back_is_not_saved);
  tcase_add_test (saving, a_cleared_or_padded_text_is_no_reason_not_to_save);
  tcase_add_test (saving, random_edits_are_saved_read_back_and_written_again_alike);
  return suite;
}
