// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The whole hole solved, of 500 x 200 yd in cells of 2 m with a full bag, cold beside one exhaustive sweep - every swing and aim from everywhere -; and after two kinds
 * of drag, beside cold: of an area, when the hole is solved again from the answer before; of an aim of the golfer's plan, when that is valued against the
 * answer, which stays. Beside each, how far the strokes from the tee are from those of exhaustive sweeps, and of a cold solve. All by the processor's time of both
 * threads; how soon a solve that is given up returns by the clock as well, for the worst of many moments.
 */
#include "../../app/plan/solve-private.h"
#include "../drawn.h"
#include "bench.h"
#include "memory.h"
#include "plan-compare.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Sweeps that a cold solve may take, and the share of it for one after a drag; strokes. */
#define GOAL_SWEEPS 1.0
#define LEAST_SWEEPS 3.5
#define GOAL_AGAIN (1 / 25.0)
#define LEAST_AGAIN (1 / 8.0)
#define GOAL_STROKES 5e-4
#define LEAST_STROKES 3e-3
#define CELL_M 2.0
#define N_RUNS_TIMED 3
#define MOST_GIVING_UP_S 0.05
#define N_GIVEN_UP 24

static const char bag_text[] = "club,carry_m,carry_sd_m,side_sd_m,loft_deg\n"
                               "driver,210,11,14,11\n3 wood,195,10,12,15\n5 wood,182,10,11,18\n4 hybrid,172,9,10,22\n"
                               "5 iron,160,8,9,26\n6 iron,150,8,8,29\n7 iron,140,7,7,33\n8 iron,128,7,6,37\n9 iron,117,6,6,41\n"
                               "pitching wedge,105,6,5,46\ngap wedge,92,5,5,50\nsand wedge,78,5,4,55\nlob wedge,62,5,4,60\n";

/* 500 x 200 yd, with the golfer's plan. */
static Hole *
make_hole (void)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = KIND_ROUGH;
  info.view_box = (Box){ -91, -20, 91, 437 };
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -18, 60, 18, 370 }),
                          rectangle (KIND_OUT_OF_BOUNDS, (Box){ 60, -20, 91, 437 }),
                          rectangle (KIND_TREES, (Box){ -91, 80, -40, 330 }),
                          rectangle (KIND_PENALTY_AREA, (Box){ 16, 150, 34, 240 }),
                          rectangle (KIND_BUNKER, (Box){ -28, 190, -14, 215 }),
                          rectangle (KIND_GREEN, (Box){ -13, 386, 13, 414 }),
                          place (KIND_HOLE_LOCATION, vec2 (0, 400)),
                          place (KIND_TEE_MARKER, vec2 (0, 0)) };
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}
#define BUNKER 4

/* The hole with its bunker `off_m` further along; as after any edit all else is the very same. */
static Hole *
drag_bunker (const Hole *hole, double off_m)
{
  const Part *parts[16];
  size_t n = hole_n_parts (hole);
  for (size_t i = 0; i < n; i++)
    parts[i]
        = i == BUNKER ? rectangle (KIND_BUNKER, (Box){ -28, 190 + off_m, -14, 215 + off_m }) : part_ref (hole_part (hole, i));
  return hole_new (hole_info (hole), parts, n, NULL);
}

/* The least of a few runs, s; the last solution is the caller's. */
static PlanSolution *
solve_timed (const Hole *hole, const Bag *bag, const PlanSolution *near, double *least_s)
{
  PlanSolution *solution = NULL;
  *least_s = INFINITY;
  for (int run = 0; run < N_RUNS_TIMED; run++)
    {
      g_clear_pointer (&solution, plan_solution_unref);
      double begin_s = bench_processor_s ();
      solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = CELL_M, .near = near }, NULL);
      *least_s = fmin (*least_s, bench_processor_s () - begin_s);
    }
  return solution;
}

/* Three shots whose first aim is `off_m` to the side. */
static Part *
plan_dragged (double off_m)
{
  const Vec2 places[] = { vec2 (0, 0), vec2 (off_m, 210), vec2 (0, 338), vec2 (0, 400) };
  Part *plan = part_new (KIND_PLAN);
  for (size_t i = 0; i + 1 < G_N_ELEMENTS (places); i++)
    part_add_shot (plan, &(Shot){ .from = places[i], .aim = places[i + 1], .curve_m = NAN, .swing = 1 });
  return plan;
}

/* The least of a few drags, s. */
static double
value_timed (const PlanSolution *solution, PlanOwn *own)
{
  double least_s = INFINITY;
  for (int run = 0; run < N_RUNS_TIMED; run++)
    {
      g_autoptr (GError) error = NULL;
      const Part *plan = part_seal (plan_dragged (run));
      double begin_s = bench_processor_s ();
      if (!plan_make_own (solution, plan, NULL, own, &error))
        g_error ("%s", error->message);
      least_s = fmin (least_s, bench_processor_s () - begin_s);
      part_unref (plan);
    }
  return least_s;
}

static double
from_tee (const PlanSolution *solution)
{
  g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
  solve_choices (solution, solution->tee, LIE_TEE, 0, choices);
  return choices[0].strokes;
}

/* Every state, every swing, aims all round. Returns the change. */
static double
sweep_everything (PlanSolution *solution)
{
  const double everything = 10;
  return solve_sweep (solution, (SweepPlan){ SWEEP_FIRST, 0, everything, 0 }, NULL);
}

/* ---- given up ---- */

typedef struct
{
  gint cancel;
  double wait_s, then_s, processor_s;
} Giver;

static gpointer
give_up_later (gpointer data)
{
  Giver *giver = data;
  g_usleep ((gulong)(1e6 * giver->wait_s));
  giver->then_s = bench_now_s ();
  giver->processor_s = bench_processor_s ();
  g_atomic_int_set (&giver->cancel, 1);
  return NULL;
}

/* At moments more of which are early, when one thing follows another. */
static void
print_giving_up (const Hole *hole, const Bag *bag, double whole_s)
{
  double worst_s = 0, worst_processor_s = 0;
  for (int i = 0; i < N_GIVEN_UP; i++)
    {
      double share = (i + 0.5) / N_GIVEN_UP;
      Giver giver = { .wait_s = share * share * whole_s };
      GThread *thread = g_thread_new ("gives up", give_up_later, &giver);
      PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = CELL_M, .cancel = &giver.cancel }, NULL);
      double end_s = bench_now_s (), end_processor_s = bench_processor_s ();
      g_thread_join (thread);
      if (solution == NULL)
        {
          worst_s = fmax (worst_s, end_s - giver.then_s);
          worst_processor_s = fmax (worst_processor_s, end_processor_s - giver.processor_s);
        }
      plan_solution_unref (solution);
    }
  printf ("given up at %d moments: at the worst %.0f ms by the clock and %.0f ms of the processor after it (at most %.0f ms)\n",
          N_GIVEN_UP, 1000 * worst_s, 1000 * worst_processor_s, 1000 * MOST_GIVING_UP_S);
}

int
main (void)
{
  hw_memory_keep (); /* as the program does */
  g_autoptr (GBytes) bytes = g_bytes_new_static (bag_text, strlen (bag_text));
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "bag", LEVEL_SCRATCH_MEN, NULL);
  g_autoptr (Hole) hole = make_hole ();
  g_autoptr (Hole) dragged = drag_bunker (hole, 4);
  double cold_s, again_s, afresh_s, begin_whole_s = bench_now_s ();
  g_autoptr (PlanSolution) solution = solve_timed (hole, bag, NULL, &cold_s);
  double whole_s = (bench_now_s () - begin_whole_s) / N_RUNS_TIMED;
  g_autoptr (PlanSolution) again = solve_timed (dragged, bag, solution, &again_s);
  g_autoptr (PlanSolution) afresh = solve_timed (dragged, bag, NULL, &afresh_s);
  PlanOwn own, own_afresh;
  double own_s = value_timed (again, &own);
  value_timed (afresh, &own_afresh);
  double found = from_tee (solution), again_off = fabs (from_tee (again) - from_tee (afresh));

  g_clear_pointer (&solution->weight, g_free);
  solution->n_active = 0;
  for (size_t state = 0; state < solution->grid->n_states; state++)
    if (!solution->grid->state_ends[state])
      solution->active[solution->n_active++] = state;
  double begin_s = bench_processor_s ();
  sweep_everything (solution);
  double sweep_s = bench_processor_s () - begin_s;
  for (int i = 0; i < PLAN_MOST_SWEEPS; i++)
    if (solve_sweep (solution, (SweepPlan){ SWEEP_LEFT, 4, 0.15, 0 }, NULL) < 1e-5)
      break;
  worth_update (solution->worth, solution->value, true);
  double off = fabs (found - from_tee (solution));

  printf ("whole hole, %zu states, %zu swings: cold %.3f s, %.2f of an exhaustive sweep's %.3f s (goal %g, at least %g)\n",
          solution->grid->n_states, solution->fleet->n_swings, cold_s, cold_s / sweep_s, sweep_s, GOAL_SWEEPS, LEAST_SWEEPS);
  printf (
      "bunker dragged by 4 m, solved again: %.3f s, 1/%.1f of cold (goal 1/%g, at least 1/%g), %.5f strokes from the tee off "
      "a cold solve\n",
      again_s, cold_s / again_s, 1 / GOAL_AGAIN, 1 / LEAST_AGAIN, again_off);
  printf ("aim dragged, the golfer's plan valued: %.3f s, 1/%.1f of cold, %.5f strokes as drawn off a cold solve\n", own_s,
          cold_s / own_s, fabs (own.as_drawn - own_afresh.as_drawn));
  printf ("from the tee %.5f strokes, %.5f from what exhaustive sweeps settle at (goal %g, at least %g)\n", found, off,
          GOAL_STROKES, LEAST_STROKES);
  print_giving_up (hole, bag, whole_s);
  return 0;
}
