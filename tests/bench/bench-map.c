// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The map of aims of the club in hand on each shot of the example holes' plans, by the processor's time of one thread, hole by hole; and beside it what it is good to: how far its strokes are
 * from those of the shots themselves, flown to the best aim and beside it, and over the full swings.
 */
#include "bench.h"
#include "plan.h"
#include "svg.h"

#include <math.h>
#include <stdio.h>

#define N_RUNS 5
#define WANTED_MS 2.0
/* Steps of the map about the best aim that count as beside it, and every so many of the full swings that are flown. */
#define BESIDE_TURNS 2.0
#define BESIDE_SWINGS 1.01
#define FLOWN_TURNS 4

/* Differences from flown shots. */
typedef struct
{
  double squares, worst;
  int n;
} Error;

typedef struct
{
  Error beside, full;
  double sum_s, worst_s;
  int n;
} Figures;

static void
add_error (Error *error, double strokes)
{
  error->squares += strokes * strokes;
  error->worst = fmax (error->worst, fabs (strokes));
  error->n++;
}

/* What the shot costs itself that the map tells of as node (turn, swing). */
static double
flown_strokes (const PlanInput *input, const AimMap *map, size_t turn, size_t swing)
{
  g_autoptr (GError) error = NULL;
  double direction = map->first_rad + (double)turn * map->turn_step_rad,
         share = map->first_swing + (double)swing * map->swing_step;
  Vec2 way = vec2_scale (vec2 (cos (direction), sin (direction)), share * map->carry_m);
  ShotInput asked = { .ball = map->ball,
                      .aim = vec2_add (map->ball, way),
                      .club = map->club,
                      .swing = share,
                      .curve_m = NAN,
                      .conditions = input->conditions,
                      .lies = input->lies };
  ShotResult shot;
  ShotStrokes strokes;
  if (!odds_shot (input->hole, NULL, &asked, &shot, &error)
      || !plan_shot_strokes (input, &shot, map->again_strokes, &strokes, &error))
    g_error ("%s", error->message);
  return strokes.strokes;
}

static void
compare_with_flown (const PlanInput *input, const AimMap *map, Figures *figures)
{
  Vec2 best = vec2_sub (map->best.aim, map->ball);
  double best_turn = remainder (atan2 (best.y, best.x) - map->first_rad, 2 * PI) / map->turn_step_rad,
         best_swing = (map->best.swing - map->first_swing) / map->swing_step;
  for (size_t s = 0; s < map->n_swings; s++)
    for (size_t t = 0; t < map->n_turns; t++)
      {
        bool is_beside = fabs ((double)t - best_turn) <= BESIDE_TURNS && fabs ((double)s - best_swing) <= BESIDE_SWINGS;
        bool is_full = s + 1 == map->n_swings && t % FLOWN_TURNS == 0;
        if (!is_beside && !is_full)
          continue;
        double off = map->strokes[s * map->n_turns + t] - flown_strokes (input, map, t, s);
        if (is_beside)
          add_error (&figures->beside, off);
        if (is_full)
          add_error (&figures->full, off);
      }
}

static void
take_shot (const PlanInput *input, const Club *club, Figures *figures)
{
  double least_s = INFINITY;
  for (int i = 0; i < N_RUNS; i++)
    {
      g_autoptr (GError) error = NULL;
      double begun_s = bench_processor_s ();
      g_autoptr (AimMap) map = aim_map_new (input, club, &error);
      least_s = fmin (least_s, bench_processor_s () - begun_s);
      if (map == NULL)
        g_error ("%s", error->message);
      if (i == 0)
        compare_with_flown (input, map, figures);
    }
  figures->sum_s += least_s;
  figures->worst_s = fmax (figures->worst_s, least_s);
  figures->n++;
}

static Figures
take_hole (const Hole *hole, const Bag *bag, const StrokesTable *table)
{
  g_autoptr (GError) error = NULL;
  Figures figures = { .n = 0 };
  int plan = hole_plan (hole);
  if (plan < 0)
    return figures;
  g_autofree ShotResult *shots = odds_plan (hole, (size_t)plan, bag, &error);
  if (shots == NULL || hole_faces (hole, &error) == NULL)
    g_error ("%s", error->message);
  for (size_t i = 0; i < hole_part (hole, (size_t)plan)->n_shots; i++)
    {
      const PlanInput input
          = { .hole = hole, .ball = shots[i].ball, .table = table, .conditions = &shots[i].conditions, .lies = bag_lies (bag) };
      take_shot (&input, shots[i].club, &figures);
    }
  return figures;
}

static void
add_all (Error *all, const Error *some)
{
  all->squares += some->squares;
  all->worst = fmax (all->worst, some->worst);
  all->n += some->n;
}

static void
print_error (const char *where, const Error *error)
{
  printf ("  %s within %.4f strokes of the shots themselves (rms of %d), %.4f at worst\n", where,
          sqrt (error->squares / error->n), error->n, error->worst);
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", NULL);
  g_autofree char *bag_file = g_build_filename (folder, "bag.csv", NULL);
  g_autoptr (Bag) bag = bag_read_file (bag_file, LEVEL_DEFAULT, &error);
  g_autoptr (Course) course = bag != NULL ? svg_read_course (folder, &error) : NULL;
  g_autoptr (StrokesTable) table = strokes_table_new (LEVEL_DEFAULT);
  Figures all = { .n = 0 };
  if (course == NULL)
    g_error ("%s", error->message);
  for (size_t i = 0; i < course->n_holes; i++)
    {
      g_autoptr (Hole) hole = svg_read_file (course->hole_files[i], NULL, &error);
      if (hole == NULL)
        g_error ("%s", error->message);
      Figures figures = take_hole (hole, bag, table);
      if (figures.n > 0)
        printf ("map of aims, hole %zu: %.2f ms on the mean of %d shots, %.2f at worst\n", i + 1,
                1e3 * figures.sum_s / figures.n, figures.n, 1e3 * figures.worst_s);
      all.sum_s += figures.sum_s;
      all.worst_s = fmax (all.worst_s, figures.worst_s);
      all.n += figures.n;
      add_all (&all.beside, &figures.beside);
      add_all (&all.full, &figures.full);
    }
  printf ("map of aims: %.2f ms on the mean of %d shots, %.2f at worst, of the processor (wanted: %g)\n",
          1e3 * all.sum_s / all.n, all.n, 1e3 * all.worst_s, WANTED_MS);
  print_error ("at the best aim and beside it", &all.beside);
  print_error ("full swings anywhere", &all.full);
  return 0;
}
