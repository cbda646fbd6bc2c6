// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan-course: the holes of a course solved side by side. */
#include "plan-course.h"
#include "plan-holes.h"
#include "suite.h"

#define N_HOLES 5

/* What was told of a run. */
typedef struct
{
  PlanCourseHole *holes;
  double last_share;
  bool fell; /* a share was smaller than the one before */
  int n_told[N_HOLES];
  gint cancel_at; /* cancels when a hole is told; 0: never */
  gint cancel;
} Told;

static void
on_told (double share, const PlanCourseHole *answered, void *data)
{
  Told *told = data;
  told->fell |= share < told->last_share - 1e-12;
  told->last_share = share;
  if (answered == NULL)
    return;
  told->n_told[answered - told->holes]++;
  if (told->cancel_at > 0)
    g_atomic_int_set (&told->cancel, 1);
}

/* Short holes of five lengths, all but the third, which is nothing. */
static void
lay_out (PlanCourseHole *asked, Hole **holes)
{
  for (int i = 0; i < N_HOLES; i++)
    {
      holes[i] = i == 2 ? NULL : hole_with (KIND_ROUGH, 90 + 15 * i, NULL, 0);
      asked[i] = (PlanCourseHole){ .hole = holes[i] };
    }
}

static void
clear (PlanCourseHole *asked, Hole **holes)
{
  for (int i = 0; i < N_HOLES; i++)
    {
      plan_course_clear (&asked[i]);
      g_clear_pointer (&holes[i], hole_unref);
    }
}

START_TEST (each_hole_has_the_plan_and_the_losses_that_it_has_alone_in_whatever_order_they_are_begun)
{
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  Hole *holes[N_HOLES];
  PlanCourseHole asked[N_HOLES];
  lay_out (asked, holes);
  PlanCourseHole *turns[] = { &asked[4], &asked[0], &asked[3], &asked[2], &asked[1] };
  Told told = { .holes = asked };
  plan_course (turns, N_HOLES, bag, NULL, on_told, &told);
  for (int i = 0; i < N_HOLES; i++)
    {
      ck_assert_int_eq (told.n_told[i], 1);
      ck_assert_ptr_null (asked[i].error);
      ck_assert ((asked[i].plan != NULL) == (i != 2));
      if (i == 2)
        continue;
      g_autoptr (PlanSolution) alone
          = plan_solve (holes[i], bag, &(PlanQuestion){ .lies = bag_lies (bag), .n_threads = 1 }, NULL);
      Plan plan;
      PlanLosses losses;
      ck_assert (plan_make (alone, PLAN_SUGGESTED, &plan, NULL) && plan_losses (alone, &plan, NULL, &losses, NULL));
      ck_assert_double_eq_tol (asked[i].plan->strokes, plan.strokes, 1e-12);
      ck_assert_ptr_eq (asked[i].plan->shots[0].shot.club, plan.shots[0].shot.club);
      ck_assert_double_eq_tol (asked[i].losses.open_strokes, losses.open_strokes, 1e-12);
    }
  ck_assert (!told.fell);
  ck_assert_double_eq_tol (told.last_share, 1, 1e-12);
  clear (asked, holes);
}
END_TEST

START_TEST (a_hole_without_a_green_says_so_and_the_others_are_planned)
{
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  const Part *tee[] = { place (KIND_TEE_MARKER, vec2 (0, 0)) };
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ -60, -10, 60, 200 };
  g_autoptr (Hole) bare = hole_new (&info, tee, G_N_ELEMENTS (tee), NULL);
  g_autoptr (Hole) sound = hole_with (KIND_ROUGH, 100, NULL, 0);
  hole_info_clear (&info);
  PlanCourseHole asked[] = { { .hole = bare }, { .hole = sound } }, *turns[] = { &asked[0], &asked[1] };
  plan_course (turns, 2, bag, NULL, NULL, NULL);
  ck_assert_ptr_null (asked[0].plan);
  ck_assert (g_error_matches (asked[0].error, PLAN_ERROR, PLAN_ERROR_TARGET));
  ck_assert_ptr_nonnull (asked[1].plan);
  for (int i = 0; i < 2; i++)
    plan_course_clear (&asked[i]);
}
END_TEST

START_TEST (cancelled_it_ends_without_beginning_another_hole)
{
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  Hole *holes[N_HOLES];
  PlanCourseHole asked[N_HOLES];
  lay_out (asked, holes);
  PlanCourseHole *turns[] = { &asked[0], &asked[1], &asked[2], &asked[3], &asked[4] };
  Told told = { .holes = asked, .cancel = 1 };
  plan_course (turns, N_HOLES, bag, &told.cancel, on_told, &told);
  for (int i = 0; i < N_HOLES; i++)
    ck_assert (asked[i].plan == NULL && asked[i].error == NULL && told.n_told[i] == 0);

  /* After the first answer those in hand give up, and none is begun that was not. */
  told = (Told){ .holes = asked, .cancel_at = 1 };
  plan_course (turns, N_HOLES, bag, &told.cancel, on_told, &told);
  int n_plans = 0;
  for (int i = 0; i < N_HOLES; i++)
    {
      n_plans += asked[i].plan != NULL;
      ck_assert (asked[i].error == NULL || g_error_matches (asked[i].error, PLAN_ERROR, PLAN_ERROR_CANCELLED));
    }
  ck_assert_int_ge (n_plans, 1);
  ck_assert_int_le (n_plans, 4);
  if (g_get_num_processors () <= 3)
    ck_assert (asked[4].plan == NULL && asked[4].error == NULL);
  clear (asked, holes);
}
END_TEST

START_TEST (no_holes_are_no_work)
{
  g_autoptr (Bag) bag = bag_read (FIGURES, FEW_CLUBS);
  Told told = { 0 };
  plan_course (NULL, 0, bag, NULL, on_told, &told);
  ck_assert_double_eq (told.last_share, 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan course");
  TCase *known = tcase_create ("known answers"), *edges = tcase_create ("edges");
  tcase_set_timeout (known, 120);
  tcase_set_timeout (edges, 120);
  tcase_add_test (known, each_hole_has_the_plan_and_the_losses_that_it_has_alone_in_whatever_order_they_are_begun);
  tcase_add_test (edges, a_hole_without_a_green_says_so_and_the_others_are_planned);
  tcase_add_test (edges, cancelled_it_ends_without_beginning_another_hole);
  tcase_add_test (edges, no_holes_are_no_work);
  suite_add_tcase (suite, known);
  suite_add_tcase (suite, edges);
  return suite;
}
