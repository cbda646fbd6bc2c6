// SPDX-License-Identifier: GPL-3.0-or-later
/* Whether a plan is worth comparing, and where the difference of two comes from, in causes that add up and in words that can be translated. */
#include "ends-private.h"
#include "plan-compare.h"
#include "words-private.h"

#include <glib/gi18n.h>

#include <math.h>

/* Less than this is not told of. */
#define LEAST_TOLD 0.005

/* Aims nearer than this are one. */
#define SAME_AIM_M 1.0

bool
plan_is_apart (const PlanSolution *solution, const Plan *suggested, const Plan *other)
{
  const ShotResult *best = &suggested->shots[0].shot, *shot = &other->shots[0].shot;
  double hole_m = vec2_distance (shot->ball, solution->grid->target);
  bool is_same = shot->club == best->club && shot->swing == best->swing && vec2_distance (shot->aim, best->aim) < SAME_AIM_M;
  return !is_same && shot->carry_m <= PLAN_PAST_THE_HOLE * hole_m;
}

bool
plan_difference (const PlanSolution *solution, const Plan *plan, const Plan *other, PlanDifference *difference, GError **error)
{
  ShotEnds one, two;
  if (!shot_ends_of (&one, solution, &plan->shots[0], NULL, error))
    return false;
  if (!shot_ends_of (&two, solution, &other->shots[0], NULL, error))
    {
      shot_ends_clear (&one);
      return false;
    }
  difference->strokes = two.strokes - one.strokes;
  for (int cause = 0; cause < N_PLAN_CAUSES; cause++)
    difference->causes.strokes[cause] = two.causes.strokes[cause] - one.causes.strokes[cause];
  shot_ends_clear (&one);
  shot_ends_clear (&two);
  return true;
}

/* ---- words ---- */

/* "penalties 0.24", the largest first, each once. */
static char *
causes_words (const PlanCauses *causes, Translate translate)
{
  GString *words = g_string_new (NULL);
  bool is_told[N_PLAN_CAUSES] = { false };
  for (int n = 0; n < N_PLAN_CAUSES; n++)
    {
      int most = -1;
      for (int cause = 0; cause < N_PLAN_CAUSES; cause++)
        if (!is_told[cause] && (most < 0 || fabs (causes->strokes[cause]) > fabs (causes->strokes[most])))
          most = cause;
      is_told[most] = true;
      if (fabs (causes->strokes[most]) < LEAST_TOLD)
        break;
      double strokes = causes->strokes[most];
      g_autofree char *number = g_strdup_printf (strokes < 0 ? "−%.2f" : "+%.2f", fabs (strokes));
      g_string_append_printf (words, "%s%s %s", words->len > 0 ? ", " : "", plan_cause_words ((PlanCause)most, translate),
                              number);
    }
  return g_string_free (words, FALSE);
}

char *
plan_difference_words (const PlanDifference *difference, Translate translate)
{
  if (translate == NULL)
    translate = words_as_written;
  g_autofree char *causes = causes_words (&difference->causes, translate);
  if (causes[0] == '\0')
    return g_strdup (translate (fabs (difference->strokes) < LEAST_TOLD ? N_ ("no difference") : N_ ("hardly any difference")));
  g_autofree char *size = g_strdup_printf ("%.2f", fabs (difference->strokes));
  if (fabs (difference->strokes) < LEAST_TOLD)
    return g_strdup_printf (translate (N_ ("as many strokes: %s")), causes);
  return g_strdup_printf (translate (difference->strokes > 0 ? N_ ("%s more: %s") : N_ ("%s fewer: %s")), size, causes);
}
