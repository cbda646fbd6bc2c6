// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bench-frame - one frame while the aim is dragged, against a full redraw, at 1600 x 1000 with all overlays.
 *
 * The dragged frame does what the window does: move the aim, fly the shots, build the carry table, copy the cached drawing and paint the
 * overlays over it, their words kept. The peer paints hole and overlays afresh. Interleaved, the least of seven,
 * the aim never twice in one place; beside them ruler and clubs, the section, and the shots and carries that are in every figure.
 */
#include "edit.h"
#include "render.h"
#include "svg.h"

#include <stdio.h>
#include <stdlib.h>

#define WIDTH 1600
#define HEIGHT 1000
#define RULER_HEIGHT 26
#define SECTION_HEIGHT 200
#define N_ROUNDS 7
#define N_FRAMES 20

typedef struct
{
  Hole *hole;
  Bag *bag;
  RenderView view;
  cairo_surface_t *drawing, *window;
  RenderWords *words;
} Bench;

static ShotResult *
fly (const Bench *bench, const Hole *hole, PlanScene *scene)
{
  GError *error = NULL;
  size_t plan = (size_t)hole_plan (hole);
  ShotResult *shots = odds_plan (hole, plan, bench->bag, &error);
  if (!shots)
    g_error ("%s", error->message);
  *scene = (PlanScene){ .hole = hole, .shots = shots, .n_shots = hole_part (hole, plan)->n_shots };
  scene->carries = carry_table_new (hole, &shots[0]);
  return shots;
}

static void
dragged_frame (Bench *bench, int step)
{
  size_t plan = (size_t)hole_plan (bench->hole);
  Vec2 aim = vec2_add (hole_part (bench->hole, plan)->shots[0].aim, vec2 (0.1 * step, 0.05 * step));
  Hole *moved = edit_move_aim (bench->hole, plan, 0, aim, bench->bag);
  PlanScene scene;
  ShotResult *shots = fly (bench, moved, &scene);
  cairo_t *cr = cairo_create (bench->window);

  scene.words = bench->words;
  cairo_set_operator (cr, CAIRO_OPERATOR_SOURCE);
  cairo_set_source_surface (cr, bench->drawing, 0, 0);
  cairo_paint (cr);
  cairo_set_operator (cr, CAIRO_OPERATOR_OVER);
  render_overlays (cr, &scene, &bench->view, overlay_default_mask ());
  cairo_destroy (cr);
  cairo_surface_flush (bench->window);
  carry_table_free ((CarryTable *)scene.carries);
  g_free (shots);
  hole_unref (moved);
}

static void
full_redraw (Bench *bench, int step)
{
  PlanScene scene;
  ShotResult *shots = fly (bench, bench->hole, &scene);
  cairo_t *cr = cairo_create (bench->window);

  render_hole (cr, bench->hole, &bench->view, PAINT_COLOUR);
  render_overlays (cr, &scene, &bench->view, overlay_default_mask ());
  cairo_destroy (cr);
  cairo_surface_flush (bench->window);
  carry_table_free ((CarryTable *)scene.carries);
  g_free (shots);
}

static void
overlays_only (Bench *bench, int step)
{
  PlanScene scene;
  ShotResult *shots = fly (bench, bench->hole, &scene);
  cairo_t *cr = cairo_create (bench->window);
  scene.words = bench->words;
  render_overlays (cr, &scene, &bench->view, overlay_default_mask ());
  cairo_destroy (cr);
  carry_table_free ((CarryTable *)scene.carries);
  g_free (shots);
}

static void
ruler_and_clubs (Bench *bench, int step)
{
  PlanScene scene;
  ShotResult *shots = fly (bench, bench->hole, &scene);
  cairo_t *cr = cairo_create (bench->window);
  scene.words = bench->words;
  RenderAxis axis = axis_of_view (&bench->view, shots[0].ball);
  render_ruler (cr, &axis, &scene, RULER_HEIGHT);
  render_clubs (cr, &axis, &scene, bench->bag, shots[0].club, render_clubs_height (bench->bag, &axis));
  cairo_destroy (cr);
  carry_table_free ((CarryTable *)scene.carries);
  g_free (shots);
}

/* All that a frame does for the section: its trees, itself, its picture. */
static void
section_alone (Bench *bench, int step)
{
  PlanScene scene;
  ShotResult *shots = fly (bench, bench->hole, &scene);
  TreeTable *trees = tree_table_new (bench->hole, &shots[0]);
  Section *section = section_new (bench->hole, NULL, &shots[0], scene.carries, trees);
  cairo_t *cr = cairo_create (bench->window);
  scene.words = bench->words;
  RenderAxis axis = axis_of_view (&bench->view, shots[0].ball);
  render_section (cr, &axis, &scene, section, SECTION_HEIGHT);
  cairo_destroy (cr);
  section_free (section);
  tree_table_free (trees);
  carry_table_free ((CarryTable *)scene.carries);
  g_free (shots);
}

/* What all of these do first. */
static void
shots_alone (Bench *bench, int step)
{
  PlanScene scene;
  ShotResult *shots = fly (bench, bench->hole, &scene);
  carry_table_free ((CarryTable *)scene.carries);
  g_free (shots);
}

static double
time_ms (void (*work) (Bench *, int), Bench *bench, int first_step)
{
  gint64 start = g_get_monotonic_time ();
  for (int i = 0; i < N_FRAMES; i++)
    work (bench, first_step + i);
  return (double)(g_get_monotonic_time () - start) / 1000.0 / N_FRAMES;
}

static void
bench_init (Bench *bench)
{
  GError *error = NULL;
  g_autofree char *hole_path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "02-orchard.svg", NULL);
  g_autofree char *bag_path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "bag.csv", NULL);
  PlanScene scene;

  bench->hole = svg_read_file (hole_path, NULL, &error);
  bench->bag = bench->hole ? bag_read_file (bag_path, LEVEL_SCRATCH_MEN, &error) : NULL;
  if (!bench->bag)
    g_error ("%s", error->message);
  bench->view = (RenderView){ .width_px = WIDTH, .height_px = HEIGHT, .unit_px = 1, .px_per_m = 1 };
  g_autofree ShotResult *shots = fly (bench, bench->hole, &scene);
  view_frame_shot (&bench->view, &scene);
  carry_table_free ((CarryTable *)scene.carries);
  bench->words = render_words_new ();
  bench->drawing = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  bench->window = cairo_image_surface_create (CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (bench->drawing);
  render_hole (cr, bench->hole, &bench->view, PAINT_COLOUR);
  cairo_destroy (cr);
}

int
main (void)
{
  static void (*const works[]) (Bench *, int)
      = { dragged_frame, full_redraw, overlays_only, ruler_and_clubs, section_alone, shots_alone };
  static const char *const names[]
      = { "dragged frame", "full redraw", "overlays alone", "ruler and clubs", "section", "shots alone" };
  double least[G_N_ELEMENTS (works)];
  Bench bench;

  bench_init (&bench);
  for (size_t i = 0; i < G_N_ELEMENTS (works); i++)
    least[i] = INFINITY;
  for (int round = 0; round < N_ROUNDS; round++)
    for (size_t i = 0; i < G_N_ELEMENTS (works); i++)
      least[i] = fmin (least[i], time_ms (works[i], &bench, round * N_FRAMES));
  for (size_t i = 0; i < G_N_ELEMENTS (works); i++)
    printf ("%-16s %8.3f ms\n", names[i], least[i]);
  printf ("dragged frame is 1/%.1f of a full redraw\n", least[1] / least[0]);

  render_words_free (bench.words);
  cairo_surface_destroy (bench.drawing);
  cairo_surface_destroy (bench.window);
  bag_unref (bench.bag);
  hole_unref (bench.hole);
  return EXIT_SUCCESS;
}
