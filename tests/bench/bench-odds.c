// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Chances of areas, exact, beside NumPy as one would ask it without exact integrals: one face of 200 corners against 100 000 drawn balls, and 13 clubs x 200
 * aims x 24 areas on two threads against 1024 nodes each, looked up on a grid. The peer is a process of its own, asked through a pipe. Both answers are printed, to show how near the
 * peer comes.
 */
#define _POSIX_C_SOURCE 200809L

#include "bench.h"
#include "../drawn.h"
#include "odds.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_AREAS 24
#define N_CORNERS 200
#define N_CLUBS 13
#define N_AIMS 200
#define N_THREADS 2
#define N_FACES 2000 /* chances of one face in a run */

typedef struct
{
  Hole *hole;
  const Faces *faces;
  Hole *one; /* the first area alone */
  const Faces *face;
  Normal normals[N_CLUBS * N_AIMS];
  FILE *ask, *answer;  /* the peer */
  double exact, nodes; /* answers, to be compared */
} Scene;

/* A repeatable stream of numbers in 0..1 (Marsaglia, "Xorshift RNGs", 2003). */
static double
next_random (uint64_t *state)
{
  *state ^= *state << 13;
  *state ^= *state >> 7;
  *state ^= *state << 17;
  return (double)(*state >> 11) * 0x1p-53;
}

/* Bays and headlands, 5 to 30 m, apart from each other: one in each field of a chequerboard along the hole, the first in the middle of it. */
static const Part *
make_area (uint64_t *state, int number, FILE *peer)
{
  double x = number == 0 ? 2 : -60 + 60 * (number % 3), y = number == 0 ? 203 : 40 + 30 * (number / 3);
  double size = 5 + 9 * next_random (state), phase = 2 * PI * next_random (state);
  Part *part = part_new (KIND_BUNKER);
  for (int i = 0; i < N_CORNERS; i++)
    {
      double angle = 2 * PI * i / N_CORNERS, r = size * (1 + 0.2 * sin (3 * angle + phase) + 0.1 * sin (5 * angle - phase));
      Vec2 at = vec2 (x + r * cos (angle), y + r * sin (angle));
      fprintf (peer, "%.17g %.17g ", at.x, at.y);
      if (i == 0)
        path_move_to (&part->path, at);
      else
        path_line_to (&part->path, at);
    }
  fprintf (peer, "\n");
  path_close (&part->path);
  return part_seal (part);
}

/* The patterns that numpy-odds.py makes, too. */
static void
make_patterns (Scene *scene)
{
  for (int club = 0; club < N_CLUBS; club++)
    for (int aim = 0; aim < N_AIMS; aim++)
      {
        double carry_m = 80 + 15 * club, turn = ((double)aim / N_AIMS - 0.5) * 0.8;
        Vec2 along = vec2 (sin (turn), cos (turn));
        Pattern pattern
            = { .mean = vec2_scale (along, carry_m), .along = along, .long_sd_m = 0.05 * carry_m, .side_sd_m = 0.04 * carry_m };
        scene->normals[club * N_AIMS + aim] = pattern_normal (&pattern);
      }
}

static double
ask (Scene *scene, const char *word)
{
  char line[64];
  fprintf (scene->ask, "%s\n", word);
  fflush (scene->ask);
  if (fgets (line, sizeof line, scene->answer) == NULL)
    g_error ("NumPy does not answer");
  return g_ascii_strtod (line, NULL);
}

static void
make_scene (Scene *scene, const char *script)
{
  uint64_t state = 88172645463325252u; /* the paper's seed */
  const Part *parts[N_AREAS], *first[1];
  bench_start_peer (script, &scene->ask, &scene->answer);
  for (int k = 0; k < N_AREAS; k++)
    parts[k] = make_area (&state, k, scene->ask);
  fprintf (scene->ask, "\n");
  first[0] = part_ref (parts[0]);
  scene->hole = hole_over (KIND_ROUGH, parts, N_AREAS);
  scene->one = hole_over (KIND_ROUGH, first, 1);
  scene->faces = hole_faces (scene->hole, NULL);
  scene->face = hole_faces (scene->one, NULL);
  make_patterns (scene);
  ask (scene, "face"); /* NumPy has begun by then */
}

/* ---- one face ---- */

static double
run_face (void *data)
{
  Scene *scene = data;
  double chances[2];
  for (int i = 0; i < N_FACES; i++)
    {
      Normal normal = { .mean = { 0, 200 }, .a = { 10, 0 }, .b = { 0, 6 } };
      faces_chances (scene->face, &normal, chances);
    }
  scene->exact = chances[0];
  return 0;
}

static double
draw_face (void *data)
{
  Scene *scene = data;
  for (int i = 0; i < N_FACES / 1000; i++)
    scene->nodes = ask (scene, "face");
  return 0;
}

/* ---- clubs, aims, areas ---- */

typedef struct
{
  const Scene *scene;
  int first, last;
  double sum;
} Share;

static gpointer
take_share (gpointer data)
{
  Share *share = data;
  double chances[N_AREAS + 1];
  for (int i = share->first; i < share->last; i++)
    {
      faces_chances (share->scene->faces, &share->scene->normals[i], chances);
      share->sum += chances[0];
    }
  return NULL;
}

static double
run_sweep (void *data)
{
  Scene *scene = data;
  Share shares[N_THREADS];
  GThread *threads[N_THREADS];
  scene->exact = 0;
  for (int t = 0; t < N_THREADS; t++)
    {
      shares[t] = (Share){ scene, N_CLUBS * N_AIMS * t / N_THREADS, N_CLUBS * N_AIMS * (t + 1) / N_THREADS, 0 };
      threads[t] = g_thread_new ("share", take_share, &shares[t]);
    }
  for (int t = 0; t < N_THREADS; t++)
    {
      g_thread_join (threads[t]);
      scene->exact += shares[t].sum;
    }
  return 0;
}

static double
sweep_nodes (void *data)
{
  Scene *scene = data;
  scene->nodes = ask (scene, "sweep");
  return 0;
}

int
main (int argc, char **argv)
{
  Scene scene = { 0 };
  if (argc != 2)
    g_error ("usage: bench-odds numpy-odds.py");
  make_scene (&scene, argv[1]);
  bench_compare ("chance of a face of 200 corners, the peer a thousandth as often", (BenchSide){ "ours", run_face, &scene },
                 (BenchSide){ "NumPy, 100 000 drawn", draw_face, &scene }, N_FACES, 2.5, 1);
  printf ("  ours %.12f, drawn %.6f\n", scene.exact, scene.nodes);
  bench_compare ("13 clubs x 200 aims x 24 areas, two threads", (BenchSide){ "ours", run_sweep, &scene },
                 (BenchSide){ "NumPy, 1024 nodes", sweep_nodes, &scene }, 1, 10, 4);
  printf ("  sum of the first area's chances: ours %.9f, by nodes %.6f\n", scene.exact, scene.nodes);
  fprintf (scene.ask, "quit\n");
  fclose (scene.ask);
  wait (NULL);
  hole_unref (scene.hole);
  hole_unref (scene.one);
  return 0;
}
