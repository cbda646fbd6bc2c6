// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A process that saves one hole over another, again and again, is killed at a random moment, many times. After each kill the file is one of the two
 * documents, whole; after the next save nothing else is left in the folder. A kill counts as within a save when it leaves
 * the hidden file of one; there are as many more kills as it takes for enough of those. usage: kill-save KILLS HOLE-FILE
 */
#define _GNU_SOURCE
#include "svg.h"

#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

/* A kill comes within so many times the length of one save after the first has begun, so that it hits every step of one. */
#define SAVES_A_KILL 3
/* At least one kill in so many must fall within a save; one in two or three does. */
#define KILLS_A_HIT 5
/* For that there are at most so many times the kills asked for. */
#define MOST_ROUNDS 5
/* How often it is looked whether a process has begun to save. */
#define LOOK_EVERY_US 50
/* Saves whose length is measured. */
#define SAVES_MEASURED 20
/* Every so manieth save is a whole one; the others only bring the bytes to the disk, which is where a kill can do harm. */
#define WHOLE_SAVES 8

typedef struct
{
  char *folder, *file;
  Hole *holes[2];
  GBytes *documents[2];
  gint64 save_us; /* length of one save */
  /* Saves that the process to be killed has begun: on a busy machine it may get no time before its kill is due. */
  unsigned *n_begun;
  int n_kills, n_within, n_second;
} Trial;

static void
insist (bool is_so, const char *what, const GError *error)
{
  if (is_so)
    return;
  printf ("not ok 1 - %s%s%s\n1..1\n", what, error ? ": " : "", error ? error->message : "");
  exit (1);
}

static bool
save (const Trial *trial, int n, GError **error)
{
  return n % WHOLE_SAVES == 0 ? svg_save_file (trial->holes[n % 2], trial->file, NULL, error)
                              : svg_save_bytes (trial->documents[n % 2], trial->file, error);
}

static void
begin (Trial *trial, const char *path)
{
  g_autoptr (GError) error = NULL;
  trial->folder = g_dir_make_tmp ("holewright-kill-XXXXXX", &error);
  insist (trial->folder != NULL, "a folder to save in", error);
  trial->file = g_build_filename (trial->folder, "hole.svg", NULL);
  trial->holes[0] = svg_read_file (path, NULL, &error);
  insist (trial->holes[0] != NULL, "reading the hole", error);
  HoleInfo info = *hole_info (trial->holes[0]);
  info.par = info.par == 3 ? 4 : 3;
  trial->holes[1] = hole_with_info (trial->holes[0], &info);
  for (int i = 0; i < 2; i++)
    trial->documents[i] = svg_write_bytes (trial->holes[i], &error);
  insist (trial->documents[0] && trial->documents[1] && !g_bytes_equal (trial->documents[0], trial->documents[1]),
          "two documents that differ", error);
  trial->n_begun = mmap (NULL, sizeof *trial->n_begun, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
  insist (trial->n_begun != MAP_FAILED, "memory that two processes share", NULL);
  gint64 start = g_get_monotonic_time ();
  for (int i = 0; i < SAVES_MEASURED; i++)
    insist (save (trial, i, &error), "saving", error);
  trial->save_us = (g_get_monotonic_time () - start) / SAVES_MEASURED + 1;
}

static void
end (Trial *trial)
{
  g_unlink (trial->file);
  insist (g_rmdir (trial->folder) == 0, "the folder holds nothing else at the end", NULL);
  for (int i = 0; i < 2; i++)
    {
      hole_unref (trial->holes[i]);
      g_bytes_unref (trial->documents[i]);
    }
  g_free (trial->folder);
  g_free (trial->file);
  munmap (trial->n_begun, sizeof *trial->n_begun);
}

static int
count_files (const Trial *trial)
{
  int n = 0;
  g_autoptr (GDir) dir = g_dir_open (trial->folder, 0, NULL);
  while (dir && g_dir_read_name (dir))
    n++;
  return n;
}

/* Saves until killed. */
static void
save_for_ever (const Trial *trial, int first)
{
  for (int i = first;; i++)
    {
      __atomic_add_fetch (trial->n_begun, 1, __ATOMIC_SEQ_CST);
      if (!save (trial, i, NULL))
        _exit (1);
    }
}

static void
kill_one (Trial *trial, GRand *random)
{
  int status, first = g_rand_int_range (random, 0, WHOLE_SAVES);
  *trial->n_begun = 0;
  pid_t child = fork ();
  insist (child >= 0, "a process", NULL);
  if (child == 0)
    save_for_ever (trial, first);
  while (__atomic_load_n (trial->n_begun, __ATOMIC_SEQ_CST) == 0)
    g_usleep (LOOK_EVERY_US);
  g_usleep ((gulong)g_rand_int_range (random, 0, (gint32)(SAVES_A_KILL * trial->save_us)));
  kill (child, SIGKILL);
  insist (waitpid (child, &status, 0) == child && WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL,
          "no save fails before the kill", NULL);
  trial->n_kills++;
}

static void
look (Trial *trial)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) now = svg_read_contents (trial->file, &error);
  insist (now != NULL, "the file is there after a kill", error);
  bool is_second = g_bytes_equal (now, trial->documents[1]);
  insist (is_second || g_bytes_equal (now, trial->documents[0]), "the file is whole after a kill", NULL);
  trial->n_second += is_second;
  trial->n_within += count_files (trial) > 1;
  insist (save (trial, is_second ? 0 : 1, &error), "saving after a kill", error);
  insist (count_files (trial) == 1, "nothing is left after the next save", NULL);
}

int
main (int argc, char **argv)
{
  Trial trial = { 0 };
  int n_kills = argc == 3 ? atoi (argv[1]) : 0;
  if (n_kills <= 0)
    {
      fprintf (stderr, "usage: %s KILLS HOLE-FILE\n", argv[0]);
      return 2;
    }
  g_autoptr (GRand) random = g_rand_new_with_seed ((guint32)n_kills);
  begin (&trial, argv[2]);
  int n_enough = (n_kills + KILLS_A_HIT - 1) / KILLS_A_HIT;
  while (trial.n_kills < n_kills || (trial.n_within < n_enough && trial.n_kills < MOST_ROUNDS * n_kills))
    {
      kill_one (&trial, random);
      look (&trial);
    }
  end (&trial);
  printf ("# %d of %d kills within a save, %d are enough; %d times the second document; a save takes %" G_GINT64_FORMAT " us\n",
          trial.n_within, trial.n_kills, n_enough, trial.n_second, trial.save_us);
  printf ("%sok 1 - %d kills leave a whole document, and nothing else after the next save\n1..1\n",
          trial.n_within >= n_enough ? "" : "not ", trial.n_kills);
  return trial.n_within >= n_enough ? 0 : 1; /* kills that never hit a save prove nothing */
}
