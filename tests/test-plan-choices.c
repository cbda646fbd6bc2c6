// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the best aims of a solution's swings: what is left out is what nobody asked for. */
#include "plan-holes.h"
#include "solved.h"
#include "suite.h"

#include <math.h>

static const SolveChoice *
choice_of (const SolveChoice *choices, size_t n, size_t swing)
{
  for (size_t i = 0; i < n; i++)
    if (choices[i].swing == swing)
      return &choices[i];
  return NULL;
}

/* The first with another club than the best; n: there is none. */
static size_t
next_club (const PlanSolution *solution, const SolveChoice *choices)
{
  size_t n = solution->fleet->n_swings, i = 1;
  const Swing *swings = solution->fleet->swings;
  while (i < n && (!isfinite (choices[i].strokes) || swings[choices[i].swing].club == swings[choices[0].swing].club))
    i++;
  return i;
}

static void
compare_choices_of (const PlanSolution *solution, Vec2 ball, Lie lie, double margin)
{
  size_t n = solution->fleet->n_swings, n_left_out = 0;
  g_autofree SolveChoice *all = g_new (SolveChoice, n), *some = g_new (SolveChoice, n);
  solve_choices (solution, ball, lie, INFINITY, all);
  solve_choices (solution, ball, lie, margin, some);
  size_t next = next_club (solution, all);
  ck_assert_uint_lt (next, n);
  for (size_t i = 0; i < n; i++)
    {
      const SolveChoice *told = choice_of (some, n, all[i].swing);
      ck_assert_ptr_nonnull (told);
      bool is_asked_for = i == next || all[i].strokes <= all[0].strokes + margin;
      n_left_out += isfinite (all[i].strokes) && !isfinite (told->strokes);
      if (!is_asked_for)
        continue;
      ck_assert_double_eq (told->strokes, all[i].strokes);
      ck_assert (!isfinite (all[i].strokes) || (told->way.x == all[i].way.x && told->way.y == all[i].way.y));
    }
  ck_assert_uint_eq (some[0].swing, all[0].swing);
  ck_assert_uint_eq (some[next_club (solution, some)].swing, all[next].swing);
  if (margin == 0)
    ck_assert_uint_gt (n_left_out, 0);
}

START_TEST (swings_within_the_margin_and_the_next_club_are_told_of_as_if_all_were)
{
  static const double margins[] = { 0, 0.6, INFINITY };
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  g_autoptr (Hole) hole = pond_hole ();
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  for (size_t i = 0; i < G_N_ELEMENTS (margins); i++)
    {
      compare_choices_of (solution, solution->tee, LIE_TEE, margins[i]);
      compare_choices_of (solution, vec2 (5, 120), LIE_FAIRWAY, margins[i]);
      compare_choices_of (solution, vec2 (-30, 210), LIE_ROUGH, margins[i]);
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan choices");
  TCase *known = tcase_create ("known answers");
  tcase_set_timeout (known, 60);
  tcase_add_test (known, swings_within_the_margin_and_the_next_club_are_told_of_as_if_all_were);
  suite_add_tcase (suite, known);
  return suite;
}
