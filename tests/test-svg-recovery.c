// SPDX-License-Identifier: GPL-3.0-or-later
/* Recovery copies: written while the program lives, offered when it is dead, never lost in between. */
#define _XOPEN_SOURCE 700
#include "suite.h"
#include "svg.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* A folder for copies that does not exist yet, below one that does. */
static char *top, *folder;

static void
set_up (void)
{
  top = g_dir_make_tmp ("holewright-recovery-XXXXXX", NULL);
  folder = g_build_filename (top, "state", "recovery", NULL);
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
  g_clear_pointer (&top, g_free);
  g_clear_pointer (&folder, g_free);
}

/* A hole with a title and one bunker at `x`. */
static Hole *
draw (const char *title, double x)
{
  HoleInfo info;
  hole_info_init (&info);
  info.title = g_strdup (title);
  info.view_box = (Box){ -50, -50, 50, 50 };
  Part *bunker = part_new (KIND_BUNKER);
  path_add_rectangle (&bunker->path, (Box){ x, 0, x + 8, 5 }, 0, 0);
  const Part *parts[] = { part_seal (bunker) };
  Hole *hole = hole_new (&info, parts, 1, NULL);
  hole_info_clear (&info);
  return hole;
}

static bool
write_copy (const char *key, const char *title, double x, const char *original)
{
  g_autoptr (Hole) hole = draw (title, x);
  g_autoptr (GBytes) held = original ? g_bytes_new_static ("before", strlen ("before")) : NULL;
  return recovery_write (folder, key, hole, original, held, NULL);
}

/* Writes a copy in a process of its own, which then ends. Returns its key. */
static char *
write_and_die (const char *title, double x, const char *original)
{
  int pipes[2], status;
  char key[64] = "";
  ck_assert_int_eq (pipe (pipes), 0);
  pid_t child = fork ();
  if (child == 0)
    {
      char *own = recovery_new_key ();
      bool good = write_copy (own, title, x, original) && write (pipes[1], own, strlen (own)) > 0;
      kill (getpid (), good ? SIGKILL : SIGABRT);
    }
  close (pipes[1]);
  ck_assert_int_gt (read (pipes[0], key, sizeof key - 1), 0);
  close (pipes[0]);
  ck_assert_int_eq (waitpid (child, &status, 0), child);
  ck_assert (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
  return g_strdup (key);
}

static GPtrArray *
list (void)
{
  g_autoptr (GError) error = NULL;
  GPtrArray *copies = recovery_list (folder, &error);
  ck_assert_msg (copies != NULL, "%s", error ? error->message : "");
  return copies;
}

static char *
file_of (const char *key, const char *ending)
{
  g_autofree char *name = g_strconcat (key, ending, NULL);
  return g_build_filename (folder, name, NULL);
}

/* ---- the life of a copy ---- */

START_TEST (the_copy_of_a_dead_process_is_offered_and_reads_back)
{
  gint64 before = g_get_real_time () / G_USEC_PER_SEC;
  g_autofree char *key = write_and_die ("The Weir", 12.5, "/some/where/hole 4.svg");
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
  const RecoveryCopy *copy = copies->pdata[0];
  ck_assert_str_eq (copy->key, key);
  ck_assert_str_eq (copy->original, "/some/where/hole 4.svg");
  ck_assert_str_eq (copy->title, "The Weir");
  ck_assert (copy->time_s >= before && copy->time_s <= g_get_real_time () / G_USEC_PER_SEC);
  g_autoptr (Hole) hole = recovery_read (copy, NULL, NULL), drawn = draw ("The Weir", 12.5);
  ck_assert (hole_equal (hole, drawn));
}
END_TEST

START_TEST (the_copy_of_a_living_process_is_its_own)
{
  g_autofree char *key = recovery_new_key ();
  ck_assert (write_copy (key, "Mine", 1, NULL));
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 0);
}
END_TEST

START_TEST (a_drawing_never_saved_has_a_copy_too)
{
  g_autofree char *key = write_and_die (NULL, 3, NULL);
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
  const RecoveryCopy *copy = copies->pdata[0];
  ck_assert_str_eq (copy->key, key);
  ck_assert_ptr_null (copy->original);
  ck_assert_ptr_null (copy->title);
}
END_TEST

START_TEST (a_later_copy_replaces_the_earlier_of_the_same_key)
{
  g_autofree char *key = recovery_new_key ();
  for (int i = 0; i < 5; i++)
    ck_assert (write_copy (key, "Mine", i, NULL));
  g_autofree char *path = file_of (key, ".svg");
  g_autoptr (Hole) last = svg_read_file (path, NULL, NULL), drawn = draw ("Mine", 4);
  ck_assert (hole_equal (last, drawn));
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  int n = 0;
  while (g_dir_read_name (dir))
    n++;
  ck_assert_int_eq (n, 2);
}
END_TEST

START_TEST (a_discarded_copy_is_gone_and_twice_is_no_harm)
{
  g_autofree char *one = write_and_die ("One", 1, NULL), *two = write_and_die ("Two", 2, NULL);
  ck_assert (recovery_discard (folder, one, NULL));
  ck_assert (recovery_discard (folder, one, NULL));
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
  ck_assert_str_eq (((RecoveryCopy *)copies->pdata[0])->key, two);
}
END_TEST

START_TEST (a_copy_is_taken_over_without_a_moment_without_one)
{
  g_autofree char *old = write_and_die ("The Weir", 8, "/some/where.svg");
  g_autoptr (GPtrArray) copies = list ();
  const RecoveryCopy *copy = copies->pdata[0];
  g_autoptr (Hole) hole = recovery_read (copy, NULL, NULL);
  g_autofree char *own = recovery_new_key ();
  ck_assert (recovery_write (folder, own, hole, copy->original, NULL, NULL));
  ck_assert (recovery_discard (folder, copy->key, NULL));
  g_autoptr (GPtrArray) left = list ();
  ck_assert_uint_eq (left->len, 0); /* what is left is ours, and we live */
  g_autofree char *path = file_of (own, ".svg");
  ck_assert (g_file_test (path, G_FILE_TEST_EXISTS));
}
END_TEST

START_TEST (a_copy_knows_whether_its_file_was_changed_by_another_since)
{
  g_autofree char *key = write_and_die ("Weir", 1, "/some/where.svg"), *facts = file_of (key, ".ini");
  g_autoptr (GBytes) before = g_bytes_new_static ("before", strlen ("before")),
                     after = g_bytes_new_static ("after", strlen ("after"));
  g_autoptr (GPtrArray) copies = list ();
  const RecoveryCopy *copy = copies->pdata[0];
  /* sha256sum (GNU coreutils) of "before" */
  ck_assert_str_eq (copy->held, "6db7d803e74f1ffa7d8f5adc0bf95b3e15bf4c8373fffadf546227cc6c6742cb");
  ck_assert (!recovery_is_overtaken (copy, before));
  ck_assert (recovery_is_overtaken (copy, after));
  ck_assert (g_file_set_contents (facts, "[copy]\ntitle=Weir\n", -1, NULL));
  g_autoptr (GPtrArray) again = list ();
  ck_assert_ptr_null (((RecoveryCopy *)again->pdata[0])->held);
  ck_assert (!recovery_is_overtaken (again->pdata[0], after));
}
END_TEST

START_TEST (the_copy_of_a_bag_is_offered_as_a_bag_until_its_file_holds_the_same)
{
  static const char text[] = "club,carry_yd\n7 iron,150\n";
  g_autofree char *original = g_build_filename (top, "partner.csv", NULL);
  g_autofree char *key = recovery_new_key (), *path = file_of (key, ".csv");
  g_autofree char *dead = g_strdup_printf ("%d-1-00000000", (int)G_MAXINT32), *dead_path = file_of (dead, ".csv"), *kept = NULL;
  g_autoptr (GBytes) bag = g_bytes_new_static (text, strlen (text)), held = g_bytes_new_static ("before", strlen ("before"));
  ck_assert (recovery_write_bag (folder, key, bag, original, held, NULL));
  g_autoptr (GPtrArray) living = list ();
  ck_assert_uint_eq (living->len, 0);
  ck_assert (g_file_get_contents (path, &kept, NULL, NULL));
  ck_assert_str_eq (kept, text);

  ck_assert (recovery_write_bag (folder, dead, bag, original, held, NULL));
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
  const RecoveryCopy *copy = copies->pdata[0];
  ck_assert (copy->is_bag && copy->title == NULL);
  ck_assert_str_eq (copy->original, original);
  ck_assert_str_eq (copy->path, dead_path);
  ck_assert (recovery_is_overtaken (copy, bag) && !recovery_is_overtaken (copy, held));
  ck_assert (g_file_set_contents (original, text, -1, NULL));
  g_autoptr (GPtrArray) none = list ();
  ck_assert_uint_eq (none->len, 0);
  ck_assert (!g_file_test (dead_path, G_FILE_TEST_EXISTS));
  ck_assert (recovery_discard (folder, key, NULL));
  ck_assert (!g_file_test (path, G_FILE_TEST_EXISTS));
  g_unlink (original);
}
END_TEST

START_TEST (keys_of_one_process_differ)
{
  g_autofree char *a = recovery_new_key (), *b = recovery_new_key ();
  ck_assert_str_ne (a, b);
}
END_TEST

START_TEST (the_newest_copy_comes_first)
{
  static const char *const times[] = { "2031-05-01T10:00:00Z", "2033-05-01T10:00:00Z", "2032-05-01T10:00:00Z" };
  static const char *const titles[] = { "first", "third", "second" };
  for (int i = 0; i < 3; i++)
    {
      g_autofree char *key = write_and_die (titles[i], i, NULL), *path = file_of (key, ".ini");
      g_autofree char *text = g_strdup_printf ("[copy]\ntitle=%s\ntime=%s\n", titles[i], times[i]);
      ck_assert (g_file_set_contents (path, text, -1, NULL));
    }
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 3);
  ck_assert_str_eq (((RecoveryCopy *)copies->pdata[0])->title, "third");
  ck_assert_str_eq (((RecoveryCopy *)copies->pdata[2])->title, "first");
}
END_TEST

START_TEST (the_users_folder_is_in_the_place_for_state)
{
  g_autofree char *path = recovery_folder (),
                  *expected = g_build_filename (g_get_user_state_dir (), "holewright", "recovery", NULL);
  ck_assert_str_eq (path, expected);
}
END_TEST

START_TEST (nobody_else_may_look_into_the_folder)
{
  struct stat status;
  g_autofree char *key = recovery_new_key ();
  ck_assert (write_copy (key, "Mine", 1, NULL));
  ck_assert_int_eq (stat (folder, &status), 0);
  ck_assert_uint_eq (status.st_mode & 0777, 0700);
}
END_TEST

/* ---- which process ---- */

/* A copy of this process under another key: its document and facts renamed. */
static void
rename_copy (const char *from, const char *to)
{
  static const char *const endings[] = { ".svg", ".ini" };
  for (int i = 0; i < 2; i++)
    {
      g_autofree char *old = file_of (from, endings[i]), *new = file_of (to, endings[i]);
      ck_assert_int_eq (g_rename (old, new), 0);
    }
}

START_TEST (a_process_that_got_the_id_later_is_not_taken_for_the_dead_one)
{
  g_autofree char *key = recovery_new_key ();
  ck_assert (write_copy (key, "Reused", 1, NULL));
  g_auto (GStrv) fields = g_strsplit (key, "-", -1);
  g_autofree char *earlier
      = g_strdup_printf ("%s-%" G_GUINT64_FORMAT "-%s", fields[0], g_ascii_strtoull (fields[1], NULL, 10) - 1, fields[2]);
  rename_copy (key, earlier);
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
}
END_TEST

START_TEST (a_copy_from_before_the_last_boot_is_offered)
{
  g_autofree char *key = recovery_new_key (), *path = NULL;
  ck_assert (write_copy (key, "Before", 1, NULL));
  path = file_of (key, ".ini");
  ck_assert (g_file_set_contents (path, "[copy]\nboot=00000000-0000-4000-8000-000000000000\n", -1, NULL));
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
}
END_TEST

START_TEST (a_dead_process_that_nobody_has_waited_for_is_dead)
{
  siginfo_t info;
  pid_t child = fork ();
  if (child == 0)
    {
      g_autofree char *key = recovery_new_key ();
      _exit (write_copy (key, "Left", 1, NULL) ? 0 : 1);
    }
  ck_assert_int_eq (waitid (P_PID, (id_t)child, &info, WEXITED | WNOWAIT), 0);
  ck_assert_int_eq (info.si_status, 0);
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
  ck_assert_int_eq (waitpid (child, NULL, 0), child);
}
END_TEST

/* ---- what can go wrong ---- */

START_TEST (a_copy_whose_facts_are_lost_or_broken_is_offered_all_the_same)
{
  static const char *const broken[] = { NULL, "", "[copy\n\xff=", "[copy]\ntime=yesterday\noriginal=somewhere\n" };
  for (size_t i = 0; i < G_N_ELEMENTS (broken); i++)
    {
      g_autofree char *key = write_and_die ("Lost", (double)i, "/some/where.svg"), *path = file_of (key, ".ini");
      if (broken[i])
        ck_assert (g_file_set_contents (path, broken[i], -1, NULL));
      else
        ck_assert_int_eq (g_unlink (path), 0);
    }
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, G_N_ELEMENTS (broken));
  for (guint i = 0; i < copies->len; i++)
    {
      const RecoveryCopy *copy = copies->pdata[i];
      g_autoptr (Hole) hole = recovery_read (copy, NULL, NULL);
      ck_assert_ptr_nonnull (hole);
      ck_assert_ptr_null (copy->original);
      ck_assert_int_gt (copy->time_s, 0);
    }
}
END_TEST

START_TEST (facts_without_a_document_and_other_files_are_passed_over)
{
  g_autofree char *key = write_and_die ("Gone", 1, NULL), *path = file_of (key, ".svg");
  ck_assert_int_eq (g_unlink (path), 0);
  static const char *const names[] = { "notes.txt",
                                       "12-34.svg",
                                       "x-1-00000000.svg",
                                       "1-x-00000000.svg",
                                       "1-1-0000000g.svg",
                                       ".svg",
                                       "99999999999999999999-1-00000000.svg" };
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *other = g_build_filename (folder, names[i], NULL);
      ck_assert (g_file_set_contents (other, "<svg/>", -1, NULL));
    }
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 0);
}
END_TEST

START_TEST (a_copy_equal_to_its_saved_file_has_nothing_to_give)
{
  g_autofree char *original = g_build_filename (top, "hole.svg", NULL);
  g_autofree char *saved = write_and_die ("Saved", 5, original), *newer = write_and_die ("Newer", 6, original);
  g_autofree char *path = file_of (saved, ".svg"), *facts = file_of (saved, ".ini");
  g_autoptr (GBytes) bytes = svg_read_contents (path, NULL);
  ck_assert (svg_save_bytes (bytes, original, NULL));
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 1);
  ck_assert_str_eq (((RecoveryCopy *)copies->pdata[0])->key, newer);
  ck_assert (!g_file_test (path, G_FILE_TEST_EXISTS) && !g_file_test (facts, G_FILE_TEST_EXISTS));
}
END_TEST

START_TEST (a_hole_that_would_not_read_back_does_not_replace_a_good_copy)
{
  g_autofree char *key = recovery_new_key (), *path = file_of (key, ".svg");
  ck_assert (write_copy (key, "Good", 7, NULL));
  g_autoptr (Hole) good = draw ("Good", 7);
  Part *lost = part_new (KIND_MARK);
  lost->at = vec2 (2e6, 0); /* beyond what a document may hold */
  g_autoptr (Hole) bad = hole_inserting_part (good, 0, part_seal (lost));
  g_autoptr (GError) error = NULL;
  ck_assert (!recovery_write (folder, key, bad, NULL, NULL, &error));
  ck_assert_ptr_nonnull (strstr (error->message, "; "));
  g_autoptr (Hole) kept = svg_read_file (path, NULL, NULL);
  ck_assert (hole_equal (kept, good));
}
END_TEST

START_TEST (a_folder_that_cannot_be_made_or_listed_is_told)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *key = recovery_new_key (), *state = g_build_filename (top, "state", NULL);
  ck_assert (g_file_set_contents (state, "in the way", -1, NULL));
  g_autoptr (Hole) hole = draw ("Mine", 1);
  ck_assert (!recovery_write (folder, key, hole, NULL, NULL, &error));
  ck_assert_msg (strstr (error->message, "no recovery copy can be kept"), "%s", error->message);
  g_clear_error (&error);
  ck_assert_ptr_null (recovery_list (folder, &error));
  ck_assert_msg (strstr (error->message, "cannot be looked for"), "%s", error->message);
}
END_TEST

START_TEST (no_folder_means_no_copies)
{
  g_autoptr (GPtrArray) copies = list ();
  ck_assert_uint_eq (copies->len, 0);
  ck_assert (recovery_discard (folder, "1-1-00000000", NULL));
}
END_TEST

START_TEST (names_in_any_encoding_are_kept)
{
  static const char name[] = "/caf\xe9/hole.svg"; /* ISO 8859-1, no UTF-8 */
  g_autofree char *key = write_and_die ("T\xc3\xa9\n \\ ;", 1, name);
  g_autoptr (GPtrArray) copies = list ();
  const RecoveryCopy *copy = copies->pdata[0];
  ck_assert_str_eq (copy->key, key);
  ck_assert_str_eq (copy->original, name);
  ck_assert_str_eq (copy->title, "T\xc3\xa9\n \\ ;");
}
END_TEST

/* ---- killed at any moment ---- */

START_TEST (a_kill_while_copying_leaves_a_whole_copy)
{
  enum
  {
    KILLS = 30
  };
  g_autoptr (GRand) random = g_rand_new_with_seed (11);
  for (guint n = 0; n < KILLS; n++)
    {
      int pipes[2], status;
      char byte;
      ck_assert_int_eq (pipe (pipes), 0);
      pid_t child = fork ();
      if (child == 0)
        {
          g_autofree char *key = recovery_new_key ();
          for (int i = 0; write_copy (key, "Long", i, NULL); i++)
            if (i == 0 && write (pipes[1], "x", 1) != 1)
              break;
          _exit (1);
        }
      ck_assert_int_eq (read (pipes[0], &byte, 1), 1); /* there is a copy */
      g_usleep ((gulong)g_rand_int_range (random, 0, 6000));
      kill (child, SIGKILL);
      ck_assert_int_eq (waitpid (child, &status, 0), child);
      ck_assert (WIFSIGNALED (status));
      close (pipes[0]);
      close (pipes[1]);
      g_autoptr (GPtrArray) copies = list ();
      ck_assert_uint_eq (copies->len, 1);
      g_autoptr (Hole) hole = recovery_read (copies->pdata[0], NULL, NULL);
      ck_assert_ptr_nonnull (hole);
      ck_assert_uint_eq (hole_n_parts (hole), 1);
      ck_assert (recovery_discard (folder, ((RecoveryCopy *)copies->pdata[0])->key, NULL));
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg-recovery");
  TCase *life = tcase_create ("the life of a copy"), *processes = tcase_create ("which process");
  TCase *mistakes = tcase_create ("what can go wrong"), *kills = tcase_create ("killed");
  TCase *all[] = { life, processes, mistakes, kills };
  for (size_t i = 0; i < G_N_ELEMENTS (all); i++)
    {
      tcase_add_checked_fixture (all[i], set_up, tear_down);
      tcase_set_timeout (all[i], 60);
      suite_add_tcase (suite, all[i]);
    }
  tcase_add_test (life, the_copy_of_a_dead_process_is_offered_and_reads_back);
  tcase_add_test (life, the_copy_of_a_living_process_is_its_own);
  tcase_add_test (life, a_drawing_never_saved_has_a_copy_too);
  tcase_add_test (life, a_later_copy_replaces_the_earlier_of_the_same_key);
  tcase_add_test (life, a_discarded_copy_is_gone_and_twice_is_no_harm);
  tcase_add_test (life, a_copy_is_taken_over_without_a_moment_without_one);
  tcase_add_test (life, a_copy_knows_whether_its_file_was_changed_by_another_since);
  tcase_add_test (life, the_copy_of_a_bag_is_offered_as_a_bag_until_its_file_holds_the_same);
  tcase_add_test (life, keys_of_one_process_differ);
  tcase_add_test (life, the_newest_copy_comes_first);
  tcase_add_test (life, the_users_folder_is_in_the_place_for_state);
  tcase_add_test (life, nobody_else_may_look_into_the_folder);
  tcase_add_test (processes, a_process_that_got_the_id_later_is_not_taken_for_the_dead_one);
  tcase_add_test (processes, a_copy_from_before_the_last_boot_is_offered);
  tcase_add_test (processes, a_dead_process_that_nobody_has_waited_for_is_dead);
  tcase_add_test (mistakes, a_copy_whose_facts_are_lost_or_broken_is_offered_all_the_same);
  tcase_add_test (mistakes, facts_without_a_document_and_other_files_are_passed_over);
  tcase_add_test (mistakes, a_copy_equal_to_its_saved_file_has_nothing_to_give);
  tcase_add_test (mistakes, a_hole_that_would_not_read_back_does_not_replace_a_good_copy);
  tcase_add_test (mistakes, a_folder_that_cannot_be_made_or_listed_is_told);
  tcase_add_test (mistakes, no_folder_means_no_copies);
  tcase_add_test (mistakes, names_in_any_encoding_are_kept);
  tcase_add_test (kills, a_kill_while_copying_leaves_a_whole_copy);
  return suite;
}
