// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: a hole solved again after a change, from what was found before, and given up at any moment. */
#include "drawn.h"
#include "solved.h"
#include "suite.h"

#include <math.h>
#include <string.h>

#define CLUBS                                                                                                                  \
  "club,carry_m,carry_sd_m,side_sd_m,loft_deg\ndriver,210,11,14,11\n5 iron,160,8,9,26\n8 iron,128,7,6,37\nwedge,92,5,5,50\n"

static Bag *
some_bag (void)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (CLUBS, strlen (CLUBS));
  Bag *bag = bag_read_bytes (bytes, "bag", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  return bag;
}

/* A hole of 330 m with trouble on both sides of its fairway. */
static Hole *
first_hole (void)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = KIND_ROUGH;
  info.view_box = (Box){ -60, -10, 60, 360 };
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -18, 50, 18, 305 }),
                          rectangle (KIND_OUT_OF_BOUNDS, (Box){ 45, -10, 60, 360 }),
                          rectangle (KIND_TREES, (Box){ -60, 80, -35, 300 }),
                          rectangle (KIND_PENALTY_AREA, (Box){ 16, 170, 34, 220 }),
                          rectangle (KIND_BUNKER, (Box){ -28, 190, -14, 215 }),
                          rectangle (KIND_GREEN, (Box){ -12, 316, 12, 344 }),
                          place (KIND_HOLE_LOCATION, vec2 (0, 330)),
                          place (KIND_TEE_MARKER, vec2 (0, 0)) };
  Hole *hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  return hole;
}

/* The same with one area elsewhere; NULL for none: it is taken away. */
static Hole *
changed_hole (const Hole *hole, size_t which, const Part *other)
{
  const Part *parts[16];
  size_t n = 0;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (i != which)
      parts[n++] = part_ref (hole_part (hole, i));
    else if (other != NULL)
      parts[n++] = other;
  return hole_new (hole_info (hole), parts, n, NULL);
}

static PlanSolution *
solved_from (const Hole *hole, const Bag *bag, const PlanSolution *near)
{
  PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 2, .near = near }, NULL);
  ck_assert_ptr_nonnull (solution);
  return solution;
}

/* ---- the first hole's answer, which nearly all tests go on from: found once ---- */

static Hole *the_hole;
static Bag *the_bag;
static PlanSolution *the_answer;

static void
draw_first (void)
{
  the_hole = first_hole ();
  the_bag = some_bag ();
}

static void
solve_first (void)
{
  draw_first ();
  the_answer = solved_from (the_hole, the_bag, NULL);
}

static void
free_first (void)
{
  g_clear_pointer (&the_answer, plan_solution_unref);
  g_clear_pointer (&the_bag, bag_unref);
  g_clear_pointer (&the_hole, hole_unref);
}

/* So near must an answer found again be to one found afresh: from the tee, and from the places that one ball in twenty comes past, which are the ones looked at all round. */
#define TEE_AGREES 1e-4
#define STATES_AGREE 5e-3

static void
expect_same_answer (const PlanSolution *again, const PlanSolution *afresh)
{
  ck_assert_double_eq_tol (from_tee (again), from_tee (afresh), TEE_AGREES);
  ck_assert_uint_eq (again->grid->n_states, afresh->grid->n_states);
  for (size_t i = 0; i < afresh->n_active; i++)
    if (afresh->weight[i] >= 1)
      ck_assert_double_eq_tol (again->value[afresh->active[i]], afresh->value[afresh->active[i]], STATES_AGREE);
}

static void
expect_change_told (const Hole *other)
{
  g_autoptr (PlanSolution) again = solved_from (other, the_bag, the_answer), afresh = solved_from (other, the_bag, NULL);
  ck_assert_ptr_eq (again->flights, the_answer->flights);
  expect_same_answer (again, afresh);
}

START_TEST (a_dragged_bunker_is_told_as_by_solving_afresh)
{
  g_autoptr (Hole) other = changed_hole (the_hole, 4, rectangle (KIND_BUNKER, (Box){ -22, 196, -8, 221 }));
  expect_change_told (other);
}
END_TEST

START_TEST (water_dragged_across_the_fairway_is_told_as_by_solving_afresh)
{
  g_autoptr (Hole) other = changed_hole (the_hole, 3, rectangle (KIND_PENALTY_AREA, (Box){ -18, 180, 18, 225 }));
  expect_change_told (other);
}
END_TEST

START_TEST (trees_dragged_into_the_way_are_told_as_by_solving_afresh)
{
  g_autoptr (Hole) other = changed_hole (the_hole, 2, rectangle (KIND_TREES, (Box){ -50, 60, -12, 250 }));
  expect_change_told (other);
}
END_TEST

START_TEST (an_area_taken_away_is_told_as_by_solving_afresh)
{
  g_autoptr (Hole) other = changed_hole (the_hole, 3, NULL);
  g_autoptr (PlanSolution) again = solved_from (other, the_bag, the_answer), afresh = solved_from (other, the_bag, NULL);
  expect_same_answer (again, afresh);
}
END_TEST

/* Play comes to other places then, though nothing is worth another thing than before. */
START_TEST (a_dragged_tee_and_a_narrower_fairway_are_told_as_by_solving_afresh)
{
  g_autoptr (Bag) bag = some_bag ();
  g_autoptr (Hole) hole = first_hole ();
  g_autoptr (PlanSolution) near = solved_from (hole, bag, NULL);
  for (int i = 0; i < 2; i++)
    {
      g_autoptr (Hole) other = i == 0 ? changed_hole (hole, 7, place (KIND_TEE_MARKER, vec2 (-20, 25)))
                                      : changed_hole (hole, 0, rectangle (KIND_FAIRWAY, (Box){ -18, 50, 12, 305 }));
      g_autoptr (PlanSolution) again = solved_from (other, bag, near), afresh = solved_from (other, bag, NULL);
      expect_same_answer (again, afresh);
    }
}
END_TEST

START_TEST (small_changes_one_after_the_other_do_not_add_up_to_an_error)
{
  g_autoptr (PlanSolution) last = plan_solution_ref (the_answer);
  const int n_steps = 15;
  for (int step = 1; step <= n_steps; step++)
    {
      g_autoptr (Hole) other
          = changed_hole (the_hole, 4, rectangle (KIND_BUNKER, (Box){ -28 + 1.2 * step, 190, -14 + 1.2 * step, 215 }));
      PlanSolution *again = solved_from (other, the_bag, last);
      plan_solution_unref (last);
      last = again;
      if (step == n_steps)
        {
          g_autoptr (PlanSolution) afresh = solved_from (other, the_bag, NULL);
          expect_same_answer (again, afresh);
        }
    }
}
END_TEST

START_TEST (a_grid_made_from_another_is_as_one_made_afresh)
{
  g_autoptr (Hole) other = changed_hole (the_hole, 3, rectangle (KIND_PENALTY_AREA, (Box){ -7.3, 171.1, 22.7, 219.9 }));
  SolveGrid *old = solve_grid_new (the_hole, vec2 (0, 330), 2, NULL, NULL, 1, NULL);
  SolveGrid *again = solve_grid_new (other, vec2 (0, 330), 2, the_hole, old, 2, NULL),
            *afresh = solve_grid_new (other, vec2 (0, 330), 2, NULL, NULL, 1, NULL);
  ck_assert_uint_eq (again->n_states, afresh->n_states);
  for (int lie = 0; lie < N_LIES; lie++)
    {
      ck_assert (again->cover[lie] == NULL || afresh->cover[lie] != NULL);
      for (size_t cell = 0; afresh->cover[lie] != NULL && cell < afresh->n_cells; cell++)
        ck_assert_double_eq (again->cover[lie][cell], afresh->cover[lie][cell]);
    }
  ck_assert_int_eq (memcmp (again->canopy, afresh->canopy, afresh->n_cells * sizeof *afresh->canopy), 0);
  ck_assert_int_eq (memcmp (again->is_red, afresh->is_red, afresh->n_cells * sizeof *afresh->is_red), 0);
  solve_grid_free (old);
  solve_grid_free (again);
  solve_grid_free (afresh);
}
END_TEST

START_TEST (another_day_takes_over_neither_flights_nor_fields)
{
  Conditions day = conditions_standard ();
  day.wind.to_mps = vec2 (0, -5);
  PlanQuestion question = { .cell_m = 4, .conditions = &day, .near = the_answer }, fresh = { .cell_m = 4, .conditions = &day };
  g_autoptr (PlanSolution) again = plan_solve (the_hole, the_bag, &question, NULL),
                           afresh = plan_solve (the_hole, the_bag, &fresh, NULL);
  ck_assert_ptr_ne (again->flights, the_answer->flights);
  ck_assert_double_eq_tol (from_tee (again), from_tee (afresh), TEE_AGREES);
}
END_TEST

/* ---- given up ---- */

typedef struct
{
  gint cancel;
  gulong wait_us;
  gint64 cancelled_us;
} Canceller;

static gpointer
cancel_later (gpointer data)
{
  Canceller *canceller = data;
  g_usleep (canceller->wait_us);
  canceller->cancelled_us = g_get_monotonic_time ();
  g_atomic_int_set (&canceller->cancel, 1);
  return NULL;
}

START_TEST (a_question_given_up_beforehand_is_not_begun)
{
  g_autoptr (GError) error = NULL;
  gint cancel = 1;
  ck_assert_ptr_null (plan_solve (the_hole, the_bag, &(PlanQuestion){ .cancel = &cancel }, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
}
END_TEST

/* The machine may be busy with other things: a test of what is looked at how often, not of its speed. */
#define SOON_US 2000000

START_TEST (a_question_may_be_given_up_at_any_moment)
{
  const gulong waits_us[] = { 0, 300, 1000, 3000, 8000, 20000, 45000, 90000, 150000, 250000 };
  for (size_t i = 0; i < G_N_ELEMENTS (waits_us); i++)
    {
      Canceller canceller = { .wait_us = waits_us[i] };
      g_autoptr (GError) error = NULL;
      GThread *thread = g_thread_new ("cancels", cancel_later, &canceller);
      g_autoptr (PlanSolution) solution
          = plan_solve (the_hole, the_bag, &(PlanQuestion){ .cancel = &canceller.cancel }, &error);
      gint64 end_us = g_get_monotonic_time ();
      g_thread_join (thread);
      ck_assert (solution != NULL || g_error_matches (error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
      ck_assert_msg (solution != NULL || end_us - canceller.cancelled_us < SOON_US, "%g ms after it was given up",
                     (double)(end_us - canceller.cancelled_us) / 1000);
    }
}
END_TEST

/* ---- told meanwhile ---- */

typedef struct
{
  double share, first; /* strokes from the tee of the first answer; NAN: none yet */
  size_t n_told;
} Told;

static void
hear (double share, const PlanSolution *so_far, void *data)
{
  Told *told = data;
  ck_assert_double_ge (share, told->share);
  ck_assert_double_le (share, 1);
  told->share = share;
  told->n_told++;
  if (so_far != NULL && isnan (told->first))
    told->first = from_tee (so_far);
}

START_TEST (a_first_answer_is_told_early_and_is_near_the_last)
{
  Told told = { .first = NAN };
  g_autoptr (PlanSolution) solution = plan_solve (the_hole, the_bag, &(PlanQuestion){ .progress = hear, .data = &told }, NULL);
  ck_assert_double_eq (told.share, 1);
  ck_assert_uint_ge (told.n_told, 5);
  ck_assert_double_eq_tol (told.first, from_tee (solution), 0.1);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-again");
  TCase *again = tcase_create ("again");
  tcase_set_timeout (again, 0);
  tcase_add_unchecked_fixture (again, solve_first, free_first);
  tcase_add_test (again, a_dragged_bunker_is_told_as_by_solving_afresh);
  tcase_add_test (again, water_dragged_across_the_fairway_is_told_as_by_solving_afresh);
  tcase_add_test (again, trees_dragged_into_the_way_are_told_as_by_solving_afresh);
  tcase_add_test (again, an_area_taken_away_is_told_as_by_solving_afresh);
  tcase_add_test (again, a_dragged_tee_and_a_narrower_fairway_are_told_as_by_solving_afresh);
  tcase_add_test (again, small_changes_one_after_the_other_do_not_add_up_to_an_error);
  tcase_add_test (again, a_grid_made_from_another_is_as_one_made_afresh);
  tcase_add_test (again, another_day_takes_over_neither_flights_nor_fields);
  suite_add_tcase (suite, again);
  TCase *given_up = tcase_create ("given up");
  tcase_set_timeout (given_up, 0);
  tcase_add_unchecked_fixture (given_up, draw_first, free_first);
  tcase_add_test (given_up, a_question_given_up_beforehand_is_not_begun);
  tcase_add_test (given_up, a_question_may_be_given_up_at_any_moment);
  suite_add_tcase (suite, given_up);
  TCase *meanwhile = tcase_create ("told meanwhile");
  tcase_set_timeout (meanwhile, 0);
  tcase_add_unchecked_fixture (meanwhile, draw_first, free_first);
  tcase_add_test (meanwhile, a_first_answer_is_told_early_and_is_near_the_last);
  suite_add_tcase (suite, meanwhile);
  return suite;
}
