// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a drag of the aim asks of the odds at every frame, on each shot of the example holes' plans with its aim swung to either side: the mean and the worst of the
 * processor's time. There is no peer of the kind in the libraries; the figure is beside the share of a frame that it may take.
 */
#include "bench.h"
#include "odds-room.h"
#include "odds.h"
#include "svg.h"

#include <math.h>
#include <stdio.h>

#define N_TURNS 6
#define TURN_RAD 0.04
#define N_RUNS 3
#define MEAN_MS 1.0
#define WORST_MS 2.0

typedef struct
{
  const Hole *hole;
  const Part *plan;
  const Bag *bag;
  ShotResult shot;
} Asked;

typedef struct
{
  const char *name;
  void (*run) (const Asked *asked);
  double sum_s, worst_s;
} Row;

static void
run_table (const Asked *asked)
{
  odds_table_free (odds_table_new (asked->hole, &asked->shot, NULL));
}

static void
run_carries (const Asked *asked)
{
  carry_table_free (carry_table_new (asked->hole, &asked->shot));
}

static void
run_trees (const Asked *asked)
{
  tree_table_free (tree_table_new (asked->hole, &asked->shot));
}

static void
run_clubs (const Asked *asked)
{
  g_autofree ClubToday *clubs = g_new (ClubToday, bag_n_clubs (asked->bag) + 1);
  odds_clubs_today (asked->hole, asked->shot.ball, asked->shot.aim, asked->bag, &asked->shot.conditions, clubs);
}

static void
run_room (const Asked *asked)
{
  Room room;
  odds_room (asked->hole, &asked->shot, &room, NULL);
}

static void
run_shape (const Asked *asked)
{
  ShapeRoom room;
  odds_shape_room (asked->hole, &asked->shot, &room, NULL);
}

static void
take_row (Row *row, const Asked *asked)
{
  double least_s = INFINITY;
  for (int i = 0; i < N_RUNS; i++)
    {
      double begun_s = bench_processor_s ();
      row->run (asked);
      least_s = fmin (least_s, bench_processor_s () - begun_s);
    }
  row->sum_s += least_s;
  row->worst_s = fmax (row->worst_s, least_s);
}

/* Every shot of the hole's plan, its aim swung; returns how many. */
static int
take_hole (Asked *asked, Row *rows, size_t n_rows)
{
  int n = 0;
  for (size_t i = 0; i < asked->plan->n_shots; i++)
    for (int k = 0; k < N_TURNS; k++)
      {
        g_autoptr (GError) error = NULL;
        Part *plan = part_copy (asked->plan);
        Shot *shot = &plan->shots[i];
        double turn = TURN_RAD * (k - 0.5 * (N_TURNS - 1));
        Vec2 way = vec2_sub (shot->aim, shot->from);
        shot->aim = vec2_add (shot->from, vec2_add (vec2_scale (way, cos (turn)), vec2_scale (vec2_left (way), sin (turn))));
        if (!odds_plan_shot (asked->hole, plan, i, asked->bag, &asked->shot, &error))
          g_error ("%s", error->message);
        for (size_t r = 0; r < n_rows; r++)
          take_row (&rows[r], asked);
        part_unref (part_seal (plan));
        n++;
      }
  return n;
}

int
main (void)
{
  Row rows[]
      = { { "odds table", run_table, 0, 0 },  { "carry table", run_carries, 0, 0 }, { "trees", run_trees, 0, 0 },
          { "clubs today", run_clubs, 0, 0 }, { "room", run_room, 0, 0 },           { "room to curve", run_shape, 0, 0 } };
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", NULL);
  g_autofree char *bag_file = g_build_filename (folder, "bag.csv", NULL);
  g_autoptr (Bag) bag = bag_read_file (bag_file, LEVEL_DEFAULT, &error);
  g_autoptr (Course) course = bag != NULL ? svg_read_course (folder, &error) : NULL;
  if (course == NULL)
    g_error ("%s", error->message);
  int n = 0;
  for (size_t i = 0; i < course->n_holes; i++)
    {
      g_autoptr (Hole) hole = svg_read_file (course->hole_files[i], NULL, &error);
      if (hole == NULL || hole_faces (hole, &error) == NULL)
        g_error ("%s", error->message);
      int plan = hole_plan (hole);
      Asked asked = { .hole = hole, .plan = plan >= 0 ? hole_part (hole, (size_t)plan) : NULL, .bag = bag };
      n += asked.plan != NULL ? take_hole (&asked, rows, G_N_ELEMENTS (rows)) : 0;
    }
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    printf ("%-14s %.2f ms on the mean of %d shots, %.2f at worst, of the processor\n", rows[r].name, 1e3 * rows[r].sum_s / n,
            n, 1e3 * rows[r].worst_s);
  printf ("the odds table may take %g ms on the mean and %g at worst\n", MEAN_MS, WORST_MS);
  return 0;
}
