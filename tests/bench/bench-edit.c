// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Edits of a full drawing, 300 areas of 100 nodes each: what a drag does at every step, and undo. Beside each stands what it may take, half
 * a frame for an edit and a millisecond for undo.
 */
#include "bench.h"
#include "edit.h"

#include <stdio.h>
#include <stdlib.h>

#define N_COLUMNS 20
#define N_AREAS 300
#define N_NODES 100
/* Areas stand so far apart, and are so large in radius: each overlaps its neighbours. */
#define APART_M 20
#define RADIUS_M 12
/* How long an edit may take: half a frame of a screen that shows 60 in a second, the other half being for the painter. */
#define EDIT_MS 8.0
#define UNDO_MS 1.0
#define N_ROUNDS 7
#define N_TURNS 10

static const Part *
blob (Vec2 middle)
{
  Part *part = part_new (KIND_BUNKER);
  PathNode nodes[N_NODES];
  for (int i = 0; i < N_NODES; i++)
    {
      double angle = 2 * PI * i / N_NODES, radius_m = RADIUS_M * (1 + 0.1 * sin (7 * angle));
      Vec2 along = vec2_scale (vec2 (-sin (angle), cos (angle)), radius_m * 2 * PI / N_NODES / 3);
      Vec2 at = vec2_add (middle, vec2_scale (vec2 (cos (angle), sin (angle)), radius_m));
      nodes[i] = (PathNode){
        .at = at, .in = vec2_sub (at, along), .out = vec2_add (at, along), .is_closed = true, .leaves = SEG_CUBIC
      };
    }
  path_add_nodes (&part->path, nodes, N_NODES);
  return part_seal (part);
}

static Hole *
full_drawing (void)
{
  const Part *parts[N_AREAS];
  for (int i = 0; i < N_AREAS; i++)
    parts[i] = blob (vec2 (APART_M * (i % N_COLUMNS), APART_M * (i / N_COLUMNS)));
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, parts, N_AREAS, NULL);
}

/* ---- the edits; each works on hole `bench->hole`, a little further at each turn ---- */

typedef struct
{
  Hole *hole;
  History *history;
  size_t all[N_AREAS];
} Bench;

static Hole *
move_node (const Bench *bench, int turn)
{
  return edit_move_node (bench->hole, N_AREAS / 2, 3, NODE_AT, vec2 (0.1 * turn, -30), NULL);
}

static Hole *
move_handle (const Bench *bench, int turn)
{
  return edit_move_node (bench->hole, N_AREAS / 2, 3, NODE_IN, vec2 (0.1 * turn, -30), NULL);
}

static Hole *
move_area (const Bench *bench, int turn)
{
  size_t part = N_AREAS / 2;
  return edit_transform (bench->hole, &part, 1, affine_translation (0.1 * (turn + 1), 0.2), NULL);
}

static Hole *
move_all (const Bench *bench, int turn)
{
  return edit_transform (bench->hole, bench->all, N_AREAS, affine_translation (0.1 * (turn + 1), 0.2), NULL);
}

static Hole *
turn_all (const Bench *bench, int turn)
{
  return edit_transform (bench->hole, bench->all, N_AREAS, affine_rotation (0.01 * (turn + 1)), NULL);
}

static Hole *
undo_and_redo (const Bench *bench, int turn)
{
  (void)turn;
  history_undo (bench->history);
  Hole *before = hole_ref (history_current (bench->history));
  history_redo (bench->history);
  return before;
}

/* Milliseconds of one turn. What is made is freed in it too, as a drag frees the frame before. */
static double
time_ms (Hole *(*edit) (const Bench *, int), const Bench *bench)
{
  double start_s = bench_now_s ();
  for (int turn = 0; turn < N_TURNS; turn++)
    {
      Hole *made = edit (bench, turn);
      if (!made)
        g_error ("an edit was refused");
      hole_unref (made);
    }
  return 1000 * (bench_now_s () - start_s) / N_TURNS;
}

int
main (void)
{
  static const struct
  {
    const char *name;
    Hole *(*edit) (const Bench *, int);
    double most_ms;
  } rows[] = {
    { "a node moved", move_node, EDIT_MS },     { "a handle moved", move_handle, EDIT_MS },
    { "an area moved", move_area, EDIT_MS },    { "everything moved", move_all, EDIT_MS },
    { "everything turned", turn_all, EDIT_MS }, { "undo and redo", undo_and_redo, UNDO_MS },
  };
  Bench bench = { .hole = full_drawing () };
  bench.history = history_new (bench.hole);
  for (size_t i = 0; i < N_AREAS; i++)
    bench.all[i] = i;
  Hole *moved = move_all (&bench, 0);
  history_push (bench.history, moved, "move");
  hole_unref (moved);
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double least_ms = INFINITY;
      for (int round = 0; round < N_ROUNDS; round++)
        least_ms = fmin (least_ms, time_ms (rows[i].edit, &bench));
      printf ("%-18s %8.3f ms of %g ms%s\n", rows[i].name, least_ms, rows[i].most_ms,
              least_ms <= rows[i].most_ms ? "" : ", TOO SLOW");
    }
  history_free (bench.history);
  hole_unref (bench.hole);
  return EXIT_SUCCESS;
}
