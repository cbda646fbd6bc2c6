// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Opening a hole document - bytes to a Hole with its outlines, ready to draw - beside xmllint parsing it, and beside libxml2 parsing the same
 * bytes in this process, which leaves out the start of a program. One document is an example hole, the other a drawing near the limits.
 */
#define _POSIX_C_SOURCE 200809L
#include "bench.h"
#include "svg.h"

#include <fcntl.h>
#include <glib/gstdio.h>
#include <libxml/parser.h>
#include <spawn.h>
#include <stdio.h>
#include <sys/wait.h>
#include <unistd.h>

/* Opening may take so many times as long as parsing. */
#define GOAL (1 / 1.5)
#define LEAST (1 / 3.0)

/* A large drawing: areas of 100 curves each, near the limit on path segments. */
#define N_LARGE_AREAS 1900
#define N_CURVES 100

extern char **environ;

typedef struct
{
  const char *path;
  int n_times;
} Job;

static double
open_hole (void *data)
{
  const Job *job = data;
  for (int i = 0; i < job->n_times; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (Hole) hole = svg_read_file (job->path, NULL, &error);
      if (!hole)
        g_error ("%s", error->message);
    }
  return 0;
}

static double
run_xmllint (void *data)
{
  const Job *job = data;
  char *arguments[] = { (char *)"xmllint", (char *)"--noout", (char *)job->path, NULL };
  for (int i = 0; i < job->n_times; i++)
    {
      pid_t child;
      int status;
      if (posix_spawnp (&child, arguments[0], NULL, NULL, arguments, environ) != 0 || waitpid (child, &status, 0) != child
          || status != 0)
        g_error ("xmllint --noout %s failed", job->path);
    }
  return 0;
}

static double
parse_here (void *data)
{
  const Job *job = data;
  for (int i = 0; i < job->n_times; i++)
    {
      xmlDoc *tree = xmlReadFile (job->path, NULL, XML_PARSE_NONET);
      if (!tree)
        g_error ("libxml2 cannot parse %s", job->path);
      xmlFreeDoc (tree);
    }
  return 0;
}

static char *
write_large_document (void)
{
  char *path = NULL;
  int file = g_file_open_tmp ("holewright-large-XXXXXX.svg", &path, NULL);
  if (file < 0)
    g_error ("no room for a temporary file");
  close (file);
  GString *text = g_string_new ("<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='" SVG_HOLE_NAMESPACE "'>\n");
  for (int i = 0; i < N_LARGE_AREAS; i++)
    {
      g_string_append_printf (text, "<path id='a%d' hw:kind='bunker' d='M%d.125,%d.5", i, i % 50, i / 50);
      for (int k = 0; k < N_CURVES; k++)
        g_string_append_printf (text, " c%d.731,-1.204 2.5,%d.062 1.5,.875", k % 3, k % 5 - 2);
      g_string_append (text, "z'/>\n");
    }
  g_string_append (text, "</svg>\n");
  if (!g_file_set_contents (path, text->str, (gssize)text->len, NULL))
    g_error ("no room for a temporary file");
  g_string_free (text, TRUE);
  return path;
}

static void
compare (const char *what, Job *job)
{
  g_autofree char *beside = g_strdup_printf ("%s, in this process", what);
  BenchSide ours = { "holewright", open_hole, job };
  bench_compare (what, ours, (BenchSide){ "xmllint --noout", run_xmllint, job }, job->n_times, GOAL, LEAST);
  bench_compare (beside, ours, (BenchSide){ "libxml2", parse_here, job }, job->n_times, GOAL, LEAST);
}

int
main (void)
{
  g_autofree char *example = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "02-orchard.svg", NULL);
  g_autofree char *large = write_large_document ();
  compare ("open an example hole", &(Job){ example, 50 });
  compare ("open a drawing near the limits", &(Job){ large, 1 });
  g_remove (large);
  return 0;
}
