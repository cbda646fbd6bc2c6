// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * At what wind another club becomes the best from the tee: the hole solved again in a few winds along or across the tee shot.
 */
#include "ends-private.h"
#include "words-private.h"

#include <glib/gi18n.h>

#include <math.h>

typedef struct
{
  const PlanSolution *solution; /* of the day */
  const PlanWindQuestion *question;
  Vec2 axis; /* unit vector that the wind blows along where its component is positive */
  double now_mps;
  const Club *club;
  bool is_coarse; /* in the larger cells of the question */
  PlanWind *wind;
} Search;

/* The best club from the tee. NULL: no shot finishes the hole. */
static const Club *
best_club (const PlanSolution *solution)
{
  g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
  solve_choices (solution, solution->tee, LIE_TEE, 0, choices);
  return isfinite (choices[0].strokes) ? solution->fleet->swings[choices[0].swing].club : NULL;
}

/* The hole with this much wind along the axis; `near` is its neighbour's solution. */
static PlanSolution *
solve_in (Search *search, double wind_mps, const PlanSolution *near, GError **error)
{
  const PlanSolution *of = search->solution;
  Conditions day = of->conditions;
  day.wind.to_mps = vec2_add (day.wind.to_mps, vec2_scale (search->axis, wind_mps - search->now_mps));
  PlanQuestion question = { .tee = of->tee_name,
                            .hole_name = of->hole_name,
                            .conditions = &day,
                            .lies = &of->lies,
                            .cell_m = search->is_coarse ? search->question->cell_m : search->solution->grid->cell_m,
                            .n_threads = of->n_threads,
                            .near = near,
                            .cancel = search->question->cancel };
  PlanSolution *solution = plan_solve (of->hole, of->bag, &question, error);
  search->wind->n_solves++;
  if (solution != NULL && search->question->progress != NULL)
    search->question->progress (search->wind->n_solves / (double)PLAN_MOST_WIND_SOLVES, search->question->data);
  return solution;
}

/* Between a wind with the club of now and one with another, both known. */
static bool
halve (Search *search, double same_mps, double other_mps, const PlanSolution *near, PlanWindChange *change, GError **error)
{
  while (fabs (other_mps - same_mps) > PLAN_WIND_FINE_MPS)
    {
      double middle_mps = (same_mps + other_mps) / 2;
      g_autoptr (PlanSolution) solution = solve_in (search, middle_mps, near, error);
      if (solution == NULL)
        return false;
      const Club *club = best_club (solution);
      if (club == search->club || club == NULL)
        same_mps = middle_mps;
      else
        {
          other_mps = middle_mps;
          change->club = club;
        }
    }
  change->at_mps = other_mps;
  return true;
}

/* Outwards in steps until another club is the best. */
static bool
search_way (Search *search, double sign, PlanWindChange *change, GError **error)
{
  *change = (PlanWindChange){ NULL, NAN };
  g_autoptr (PlanSolution) near = plan_solution_ref ((PlanSolution *)search->solution);
  double from_mps = search->now_mps, end_mps = sign * PLAN_MOST_WIND_MPS;
  while (sign * (end_mps - from_mps) > PLAN_WIND_FINE_MPS / 2)
    {
      /* Whole steps from no wind at all, so that what is found does not hang on the day's own wind. */
      double step = sign > 0 ? floor (from_mps / PLAN_WIND_STEP_MPS + 1.1) : ceil (from_mps / PLAN_WIND_STEP_MPS - 1.1);
      double to_mps = fmax (-PLAN_MOST_WIND_MPS, fmin (PLAN_MOST_WIND_MPS, step * PLAN_WIND_STEP_MPS));
      g_autoptr (PlanSolution) solution = solve_in (search, to_mps, near, error);
      if (solution == NULL)
        return false;
      const Club *club = best_club (solution);
      if (club != NULL && club != search->club)
        {
          change->club = club;
          return halve (search, from_mps, to_mps, solution, change, error);
        }
      plan_solution_unref (near);
      near = g_steal_pointer (&solution);
      from_mps = to_mps;
    }
  return true;
}

bool
plan_wind (const PlanSolution *solution, PlanWindAxis axis, const PlanWindQuestion *question, PlanWind *wind, GError **error)
{
  g_autofree SolveChoice *choices = g_new (SolveChoice, solution->fleet->n_swings);
  *wind = (PlanWind){ .axis = axis };
  Search search = { .solution = solution, .question = question, .wind = wind };
  search.is_coarse = question->cell_m > solution->grid->cell_m;
  g_autoptr (PlanSolution) base = NULL;
  solve_choices (solution, solution->tee, LIE_TEE, 0, choices);
  if (!isfinite (choices[0].strokes))
    {
      g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_CLUB, "no club of the bag can be played from the tee; add one");
      return false;
    }
  Vec2 way = choices[0].way;
  search.axis = axis == PLAN_WIND_ALONG ? vec2_scale (way, -1) : vec2_scale (vec2_left (way), -1);
  search.now_mps = wind->now_mps = vec2_dot (solution->conditions.wind.to_mps, search.axis);
  search.club = wind->club = solution->fleet->swings[choices[0].swing].club;
  if (search.is_coarse)
    {
      base = solve_in (&search, search.now_mps, solution, error);
      if (base == NULL)
        return false;
      /* Where larger cells do not say the same of this very day, they are not asked about others. */
      search.is_coarse = best_club (base) == search.club;
      if (search.is_coarse)
        search.solution = base;
    }
  return search_way (&search, 1, &wind->more, error) && search_way (&search, -1, &wind->less, error);
}

/* ---- words ---- */

/* "12 mph". */
static char *
speed_words (double wind_mps, LengthUnit unit, Translate translate)
{
  char number[UNITS_TEXT_SIZE];
  bool is_yards = unit == UNIT_YARDS;
  units_print_decimals (is_yards ? fabs (wind_mps) / PLAN_MPS_PER_MPH : fabs (wind_mps), is_yards ? 0 : 1, number,
                        sizeof number);
  return g_strdup_printf (translate (is_yards ? N_ ("%s mph") : N_ ("%s m/s")), number);
}

/* Where the wind of that sign comes from, as it grows and as it falls. */
static const char *
until_text (PlanWindAxis axis, bool is_positive, bool is_rising)
{
  if (axis == PLAN_WIND_ALONG && is_positive)
    return is_rising ? N_ ("until the head wind reaches %s, then the %s") : N_ ("until the head wind drops to %s, then the %s");
  if (axis == PLAN_WIND_ALONG)
    return is_rising ? N_ ("until the tail wind reaches %s, then the %s") : N_ ("until the tail wind drops to %s, then the %s");
  if (is_positive)
    return is_rising ? N_ ("until the wind from the left reaches %s, then the %s")
                     : N_ ("until the wind from the left drops to %s, then the %s");
  return is_rising ? N_ ("until the wind from the right reaches %s, then the %s")
                   : N_ ("until the wind from the right drops to %s, then the %s");
}

/* Free with g_free; NULL: no other club is ever better that way. */
static char *
change_words (const PlanWind *wind, const PlanWindChange *change, LengthUnit unit, Translate translate)
{
  if (change->club == NULL)
    return NULL;
  bool is_positive = change->at_mps >= 0, is_rising = is_positive ? change == &wind->more : change == &wind->less;
  g_autofree char *speed = speed_words (change->at_mps, unit, translate);
  return g_strdup_printf (translate (until_text (wind->axis, is_positive, is_rising)), speed, change->club->name);
}

char *
plan_wind_words (const PlanWind *wind, LengthUnit unit, Translate translate)
{
  if (translate == NULL)
    translate = words_as_written;
  const char *club = wind->club != NULL ? wind->club->name : translate (N_ ("No club"));
  g_autofree char *more = change_words (wind, &wind->more, unit, translate);
  g_autofree char *less = change_words (wind, &wind->less, unit, translate);
  if (more != NULL && less != NULL)
    return g_strdup_printf (translate (N_ ("%s %s; %s.")), club, more, less);
  if (more != NULL || less != NULL)
    return g_strdup_printf (translate (N_ ("%s %s.")), club, more != NULL ? more : less);
  g_autofree char *speed = speed_words (PLAN_MOST_WIND_MPS, unit, translate);
  return g_strdup_printf (translate (wind->axis == PLAN_WIND_ALONG ? N_ ("%s in any head or tail wind up to %s.")
                                                                   : N_ ("%s in any cross wind up to %s.")),
                          club, speed);
}
