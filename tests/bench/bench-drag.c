// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bench-drag - what the window computes at every frame of a drag, piece by piece: of an aim that goes round in a circle, and of a wind that turns once round.
 *
 * Nothing is painted, and nothing runs beside: the window gives one piece to a second thread, here each has the processor's time that it takes. The least of
 * seven rounds for each piece, for one frame.
 */
#include "bench.h"
#include "edit.h"
#include "odds-green.h"
#include "odds-known.h"
#include "odds-section.h"
#include "svg.h"

#include <math.h>
#include <stdlib.h>

#define N_ROUNDS 7
#define N_FRAMES 180
/* As far as a golfer looks for an aim, and a wind that moves every club. */
#define RADIUS_M 15.0
#define WIND_MPS 6.0

typedef enum
{
  PIECE_EDIT, /* the hole with its plan changed, and the balls after it where they come to lie */
  PIECE_SHOTS,
  PIECE_CLUBS,
  PIECE_CARRIES,
  PIECE_ODDS,
  PIECE_TREES,
  PIECE_SECTION,
  PIECE_SIGHTS,
  PIECE_GREEN,
  N_PIECES
} Piece;

static const char *const piece_names[N_PIECES]
    = { "edit", "shots", "clubs", "carries", "odds", "trees", "section", "sights", "green" };

typedef struct
{
  Hole *hole;
  Bag *bag;
  KnownShots *known;
  double began_s, took_s[N_PIECES];
} Bench;

/* Ends a piece. */
static void
took (Bench *bench, Piece piece)
{
  double now_s = bench_processor_s ();
  bench->took_s[piece] += now_s - bench->began_s;
  bench->began_s = now_s;
}

static Hole *
drag_aim (Bench *bench, int frame)
{
  size_t plan = (size_t)hole_plan (bench->hole);
  double angle = 2 * PI * frame / N_FRAMES;
  Vec2 aim = vec2_add (hole_part (bench->hole, plan)->shots[0].aim, vec2 (RADIUS_M * cos (angle), RADIUS_M * sin (angle)));
  return edit_drag_aim (bench->hole, plan, 0, aim, bench->bag, bench->known);
}

static Hole *
drag_wind (Bench *bench, int frame)
{
  size_t plan = (size_t)hole_plan (bench->hole);
  Day day = hole_part (bench->hole, plan)->day;
  day.wind_mps = WIND_MPS;
  day.wind_from_deg = 360.0 * frame / N_FRAMES;
  return edit_drag_day (bench->hole, plan, &day, bench->bag, bench->known, NULL);
}

/* What follows from the first shot, as ui/document.c and the panels ask for it. */
static void
follow_shot (Bench *bench, const Hole *hole, const ShotResult *shot)
{
  g_autofree ClubToday *clubs = g_new0 (ClubToday, bag_n_clubs (bench->bag) + 1);
  GreenPlay play;
  odds_clubs_today (hole, shot->ball, shot->aim, bench->bag, &shot->conditions, clubs);
  took (bench, PIECE_CLUBS);
  CarryTable *carries = carry_table_new (hole, shot);
  took (bench, PIECE_CARRIES);
  OddsTable *odds = odds_table_new (hole, shot, NULL);
  took (bench, PIECE_ODDS);
  TreeTable *trees = tree_table_new (hole, shot);
  took (bench, PIECE_TREES);
  Section *section = section_new (hole, NULL, shot, carries, trees);
  took (bench, PIECE_SECTION);
  odds_sights (hole, NULL, shot);
  took (bench, PIECE_SIGHTS);
  odds_green_play (hole, NULL, shot, clubs, bag_n_clubs (bench->bag), &play);
  took (bench, PIECE_GREEN);
  section_free (section);
  tree_table_free (trees);
  odds_table_free (odds);
  carry_table_free (carries);
}

static void
drag_frame (Bench *bench, Hole *(*drag) (Bench *, int), int frame)
{
  bench->began_s = bench_processor_s ();
  Hole *dragged = drag (bench, frame);
  took (bench, PIECE_EDIT);
  ShotResult *shots = known_shots_plan (bench->known, dragged, (size_t)hole_plan (dragged), bench->bag, NULL);
  took (bench, PIECE_SHOTS);
  if (shots == NULL)
    g_error ("a shot of the plan cannot be flown");
  follow_shot (bench, dragged, &shots[0]);
  g_free (shots);
  hole_unref (dragged);
}

static void
run (Bench *bench, const char *name, Hole *(*drag) (Bench *, int))
{
  double least_s[N_PIECES], all_s = 0;
  for (int i = 0; i < N_PIECES; i++)
    least_s[i] = INFINITY;
  for (int round = 0; round < N_ROUNDS; round++)
    {
      for (int i = 0; i < N_PIECES; i++)
        bench->took_s[i] = 0;
      for (int frame = 0; frame < N_FRAMES; frame++)
        drag_frame (bench, drag, frame);
      for (int i = 0; i < N_PIECES; i++)
        least_s[i] = fmin (least_s[i], bench->took_s[i]);
    }
  printf ("%s dragged:", name);
  for (int i = 0; i < N_PIECES; i++)
    {
      printf (" %s %.0f us%s", piece_names[i], 1e6 * least_s[i] / N_FRAMES, i + 1 < N_PIECES ? "," : "");
      all_s += least_s[i];
    }
  printf (", together %.3f ms a frame\n", 1e3 * all_s / N_FRAMES);
}

int
main (void)
{
  GError *error = NULL;
  g_autofree char *hole_path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "06-marram.svg", NULL);
  g_autofree char *bag_path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "bag.csv", NULL);
  Bench bench = { .known = known_shots_new () };
  bench.hole = svg_read_file (hole_path, NULL, &error);
  bench.bag = bench.hole != NULL ? bag_read_file (bag_path, LEVEL_SCRATCH_MEN, &error) : NULL;
  if (bench.bag == NULL)
    g_error ("%s", error->message);
  run (&bench, "aim", drag_aim);
  run (&bench, "wind", drag_wind);
  known_shots_free (bench.known);
  bag_unref (bench.bag);
  hole_unref (bench.hole);
  return EXIT_SUCCESS;
}
