// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The maps of aims of a whole bag from one ball, on two threads, beside NumPy doing the same with 1024 nodes for each aim. NumPy is spared most of the work: it reads what every place
 * costs from a grid made beforehand, balls neither run nor meet trees, and nobody drops. Beside it the map of one club alone.
 */
#define _POSIX_C_SOURCE 200809L

#include "bench.h"
#include "../drawn.h"
#include "plan.h"

#include <math.h>
#include <stdio.h>
#include <sys/wait.h>
#include <unistd.h>

#define N_CLUBS 13
#define N_THREADS 2
#define N_TURNS 7
#define LONG_SHARE 0.05
#define SIDE_SHARE 0.04
/* The peer's grid. */
#define STEP_M 0.5
#define COLUMNS 800
#define ROWS 1000
#define X0 (-200.0)
#define Y0 (-50.0)

typedef struct
{
  Hole *hole;
  Bag *bag;
  StrokesTable *table;
  PlanInput input;
  FILE *ask, *answer; /* the peer */
  double ours, theirs;
} Scene;

static const Part *
disc (Kind kind, double x, double y, double rx, double ry)
{
  Part *part = part_new (kind);
  path_add_ellipse (&part->path, vec2 (x, y), rx, ry);
  return part_seal (part);
}

/* A par 4 of 340 m: bunkers by the fairway and the green, water across and beside. */
static Hole *
make_hole (void)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -18, 120, 16, 320 }),
                          rectangle (KIND_WATER, (Box){ -60, 255, 60, 270 }),
                          disc (KIND_WATER, 45, 180, 20, 50),
                          disc (KIND_BUNKER, -20, 205, 6, 9),
                          disc (KIND_BUNKER, 15, 225, 5, 7),
                          disc (KIND_GREEN, 0, 340, 14, 12),
                          disc (KIND_BUNKER, -15, 332, 4, 5),
                          rectangle (KIND_DEEP_ROUGH, (Box){ -90, 100, -45, 340 }) };
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}

static Bag *
make_bag (void)
{
  g_autoptr (GString) text = g_string_new ("club,carry_m,carry_sd_m,side_sd_m\n");
  for (int i = 0; i < N_CLUBS; i++)
    {
      double carry_m = 230 - 13 * i;
      g_string_append_printf (text, "club %d,%g,%g,%g\n", i + 1, carry_m, LONG_SHARE * carry_m, SIDE_SHARE * carry_m);
    }
  g_autoptr (GError) error = NULL;
  gsize length = text->len;
  g_autoptr (GBytes) bytes = g_bytes_new (text->str, length);
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_DEFAULT, &error);
  if (bag == NULL)
    g_error ("%s", error->message);
  return bag;
}

/* What every place costs, and which aims our maps have. */
static void
tell_peer (const Scene *scene)
{
  Vec2 target;
  if (!hole_target (scene->hole, NULL, &target))
    g_error ("nothing to play to");
  fprintf (scene->ask, "%d %d %g %g %g\n", COLUMNS, ROWS, STEP_M, X0, Y0);
  for (int row = 0; row < ROWS; row++)
    for (int column = 0; column < COLUMNS; column++)
      {
        Vec2 at = vec2 (X0 + (column + 0.5) * STEP_M, Y0 + (row + 0.5) * STEP_M);
        float strokes = (float)strokes_from (scene->hole, scene->table, target, at);
        fwrite (&strokes, sizeof strokes, 1, scene->ask);
      }
  for (size_t i = 0; i < bag_n_clubs (scene->bag); i++)
    {
      g_autoptr (AimMap) map = aim_map_new (&scene->input, bag_club (scene->bag, i), NULL);
      fprintf (scene->ask, "%.17g %.17g %.17g %.17g %.17g %zu %.17g %.17g %zu\n", map->carry_m, LONG_SHARE * map->carry_m,
               SIDE_SHARE * map->carry_m, map->first_rad, map->turn_step_rad, map->n_turns, map->first_swing, map->swing_step,
               map->n_swings);
    }
  fprintf (scene->ask, "\n");
}

static double
run_peer (void *data)
{
  Scene *scene = data;
  char line[64];
  fprintf (scene->ask, "map\n");
  fflush (scene->ask);
  if (fgets (line, sizeof line, scene->answer) == NULL)
    g_error ("NumPy does not answer");
  scene->theirs = g_ascii_strtod (line, NULL);
  return 0;
}

/* Every N_THREADS-th club. */
typedef struct
{
  const Scene *scene;
  size_t first;
  double strokes;
} Share;

static gpointer
take_share (gpointer data)
{
  Share *share = data;
  share->strokes = INFINITY;
  for (size_t i = share->first; i < N_CLUBS; i += N_THREADS)
    {
      g_autoptr (AimMap) map = aim_map_new (&share->scene->input, bag_club (share->scene->bag, i), NULL);
      share->strokes = fmin (share->strokes, map->best.strokes);
    }
  return NULL;
}

static double
run_maps (void *data)
{
  Scene *scene = data;
  Share shares[N_THREADS];
  GThread *threads[N_THREADS];
  scene->ours = INFINITY;
  for (size_t t = 0; t < N_THREADS; t++)
    {
      shares[t] = (Share){ scene, t, 0 };
      threads[t] = g_thread_new ("share", take_share, &shares[t]);
    }
  for (size_t t = 0; t < N_THREADS; t++)
    {
      g_thread_join (threads[t]);
      scene->ours = fmin (scene->ours, shares[t].strokes);
    }
  return 0;
}

/* The comparison that the window shows: at one price for playing again, and what can become of each club's best aim. */
static double
run_clubs (void *data)
{
  Scene *scene = data;
  size_t n;
  g_autofree ClubChoice *choices = plan_clubs (&scene->input, scene->bag, &n, NULL);
  return choices[0].best.strokes;
}

static double
run_club (void *data)
{
  Scene *scene = data;
  g_autoptr (AimMap) map = aim_map_new (&scene->input, bag_club (scene->bag, N_CLUBS / 2), NULL);
  return map->best.strokes;
}

static void
print_least (const char *what, BenchRun run, Scene *scene)
{
  double least_s = INFINITY;
  for (int i = 0; i < N_TURNS; i++)
    {
      double start_s = bench_now_s ();
      run (scene);
      least_s = fmin (least_s, bench_now_s () - start_s);
    }
  printf ("  %s: %.2f ms\n", what, 1e3 * least_s);
}

int
main (int argc, char **argv)
{
  Scene scene = { .hole = make_hole (), .bag = make_bag (), .table = strokes_table_new (LEVEL_DEFAULT) };
  if (argc != 2)
    g_error ("usage: bench-aims numpy-aims.py");
  scene.input = (PlanInput){ .hole = scene.hole, .table = scene.table };
  bench_start_peer (argv[1], &scene.ask, &scene.answer);
  tell_peer (&scene);
  run_peer (&scene); /* NumPy has begun by then */
  bench_compare ("maps of aims of 13 clubs from one ball, two threads", (BenchSide){ "ours", run_maps, &scene },
                 (BenchSide){ "NumPy, 1024 nodes an aim", run_peer, &scene }, 1, 45, 25);
  printf ("  fewest strokes: ours %.3f with run, relief and trees, the peer without %.3f\n", scene.ours, scene.theirs);
  print_least ("map of one club alone", run_club, &scene);
  print_least ("the clubs compared, two threads", run_clubs, &scene);
  fprintf (scene.ask, "quit\n");
  fclose (scene.ask);
  wait (NULL);
  strokes_table_free (scene.table);
  bag_unref (scene.bag);
  hole_unref (scene.hole);
  return 0;
}
