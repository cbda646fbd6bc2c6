// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * How sure the ranking of the clubs is: what each costs when the club is a little other than the bag says, and the chance that it is the best for all that.
 */
#include "ends-private.h"
#include "words-private.h"

#include <glib/gi18n.h>

#include <math.h>

/* Nodes and weights of the three-point Gauss-Hermite rule for a standard normal (Abramowitz and Stegun 1964, table 25.10, scaled). */
#define NODE 1.7320508075688772
#define MIDDLE_WEIGHT (2 / 3.0)
#define OUTER_WEIGHT (1 / 6.0)
/* The normals of the clubs are summed over so many deviations in so many steps (Simpson's rule). */
#define INTEGRAL_SDS 6.0
#define INTEGRAL_STEPS 400
/* Two clubs of which all is known are told apart by this much. */
#define LEAST_SD_STROKES 1e-4
/* A spread is never narrower than this share of what the bag says. */
#define LEAST_SPREAD 0.1

const char *
plan_sureness_token (PlanSureness sureness)
{
  static const char *const tokens[] = { [PLAN_SURENESS_UNLIKELY] = "unlikely",
                                        [PLAN_SURENESS_EVEN] = "even",
                                        [PLAN_SURENESS_LIKELY] = "likely",
                                        [PLAN_SURENESS_SURE] = "sure" };
  return tokens[sureness];
}

/* ---- what is not known of a club ---- */

typedef struct
{
  double carry, side, long_spread, side_spread; /* standard errors: shares of the carry, twice, and of the two spreads */
} Errors;

/* A share of `whole`; the usual one where none was measured. */
static double
error_share (double error, double whole, double usual, bool *is_measured)
{
  if (isfinite (error) && error >= 0 && whole > 0)
    return error / whole;
  *is_measured = false;
  return usual;
}

static Errors
errors_of (const Club *club, bool *is_measured)
{
  bool has_shots = club->errors.n_shots > 0;
  const ClubErrors none = { 0, NAN, NAN, NAN, NAN, NAN, NAN, NAN };
  const ClubErrors *errors = has_shots ? &club->errors : &none;
  return (Errors){ .carry = error_share (errors->carry_m, club->carry_m, PLAN_CARRY_ERROR, is_measured),
                   .side = error_share (errors->side_bias_m, club->carry_m, PLAN_SIDE_ERROR, is_measured),
                   .long_spread = error_share (errors->carry_sd_m, club->carry_sd_m, PLAN_SPREAD_ERROR, is_measured),
                   .side_spread = error_share (errors->side_sd_m, club->side_sd_m, PLAN_SPREAD_ERROR, is_measured) };
}

typedef struct
{
  const PlanSolution *solution;
  Vec2 ball;
  Lie lie;
} Place;

/* What the shot costs when one figure of it is `shift` standard errors off. */
static double
strokes_when (const Place *place, Vec2 way, const Flown *flown, int figure, const Errors *errors, double shift)
{
  Flown other = *flown;
  if (figure == 0)
    other.along_m *= 1 + shift * errors->carry;
  else if (figure == 1)
    other.right_m += shift * errors->side * flown->along_m;
  else if (figure == 2)
    other.long_sd_m *= fmax (LEAST_SPREAD, 1 + shift * errors->long_spread);
  else
    other.side_sd_m *= fmax (LEAST_SPREAD, 1 + shift * errors->side_spread);
  return solve_flown_exactly (place->solution, place->ball, way, &other, NULL, NULL);
}

/* Mean and deviation of what a club costs; its rank is the next of `sure`. */
static void
look_at_club (const Place *place, const Club *club, Vec2 way, const Flown *flown, PlanSure *sure, double *means)
{
  enum
  {
    N_FIGURES = 4
  };
  PlanRank *rank = &sure->ranks[sure->n_ranks];
  double *mean = &means[sure->n_ranks++], variance = 0;
  rank->club = club;
  *mean = rank->strokes = solve_flown_exactly (place->solution, place->ball, way, flown, NULL, NULL);
  Errors errors = errors_of (club, &sure->is_measured);
  for (int figure = 0; figure < N_FIGURES; figure++)
    {
      double less = strokes_when (place, way, flown, figure, &errors, -NODE) - rank->strokes;
      double more = strokes_when (place, way, flown, figure, &errors, NODE) - rank->strokes;
      double shift = OUTER_WEIGHT * (less + more);
      variance
          += OUTER_WEIGHT * ((less - shift) * (less - shift) + (more - shift) * (more - shift)) + MIDDLE_WEIGHT * shift * shift;
      *mean += shift;
    }
  rank->sd = fmax (LEAST_SD_STROKES, sqrt (variance));
}

/* ---- the chance to be the best ---- */

static double
chance_of (const PlanSure *sure, const double *means, size_t club)
{
  double sum = 0, total = 0;
  for (int i = 0; i <= INTEGRAL_STEPS; i++)
    {
      double z = INTEGRAL_SDS * (2.0 * i / INTEGRAL_STEPS - 1), strokes = means[club] + z * sure->ranks[club].sd;
      double weight = (i == 0 || i == INTEGRAL_STEPS ? 1 : (i % 2 == 1 ? 4 : 2)) * exp (-0.5 * z * z), chance = 1;
      for (size_t k = 0; k < sure->n_ranks; k++)
        if (k != club)
          chance *= normal_below ((means[k] - strokes) / sure->ranks[k].sd);
      sum += weight * chance;
      total += weight;
    }
  return sum / total;
}

/* The chances of all add up to 1 but for rounding, and then exactly. */
static void
find_chances (PlanSure *sure, const double *means)
{
  double sum = 0;
  for (size_t i = 0; i < sure->n_ranks; i++)
    sum += sure->ranks[i].chance = chance_of (sure, means, i);
  for (size_t i = 0; sum > 0 && i < sure->n_ranks; i++)
    sure->ranks[i].chance /= sum;
  double chance = sure->ranks[0].chance;
  sure->sureness = chance >= PLAN_SURE_CHANCE     ? PLAN_SURENESS_SURE
                   : chance >= PLAN_LIKELY_CHANCE ? PLAN_SURENESS_LIKELY
                   : chance >= PLAN_EVEN_CHANCE   ? PLAN_SURENESS_EVEN
                                                  : PLAN_SURENESS_UNLIKELY;
}

static bool
is_ranked (const PlanSure *sure, const Club *club)
{
  for (size_t i = 0; i < sure->n_ranks; i++)
    if (sure->ranks[i].club == club)
      return true;
  return false;
}

bool
plan_sureness (const PlanSolution *solution, const PlanShot *shot, PlanSure *sure, GError **error)
{
  const Fleet *fleet = solution->fleet;
  Vec2 ball = shot->shot.ball;
  Place place = { solution, ball, ends_lie (solution, ball) };
  g_autofree SolveChoice *choices = g_new (SolveChoice, fleet->n_swings);
  double means[PLAN_MOST_RANKS];
  ShotEnds ends;
  Flown flown;
  if (!shot_ends_of (&ends, solution, shot, &flown, error))
    return false;
  shot_ends_clear (&ends);
  *sure = (PlanSure){ .is_measured = true };
  look_at_club (&place, shot->shot.club, vec2_unit (vec2_sub (shot->shot.aim, ball)), &flown, sure, means);
  solve_choices (solution, ball, place.lie, PLAN_RANK_STROKES, choices);
  for (size_t i = 0; i < fleet->n_swings && sure->n_ranks < PLAN_MOST_RANKS; i++)
    {
      const Club *club = fleet->swings[choices[i].swing].club;
      if (choices[i].strokes <= choices[0].strokes + PLAN_RANK_STROKES && !is_ranked (sure, club)
          && fleet_flown (fleet, choices[i].swing, place.lie, choices[i].way, &flown))
        look_at_club (&place, club, choices[i].way, &flown, sure, means);
    }
  find_chances (sure, means);
  return true;
}

/* ---- words ---- */

char *
plan_sureness_words (const PlanSure *sure, Translate translate)
{
  if (translate == NULL)
    translate = words_as_written;
  const PlanRank *best = &sure->ranks[0], *next = NULL;
  for (size_t i = 1; i < sure->n_ranks; i++)
    if (next == NULL || sure->ranks[i].chance > next->chance)
      next = &sure->ranks[i];
  if (next == NULL)
    return g_strdup_printf (translate (N_ ("Sure: no other club comes near the %s.")), best->club->name);
  g_autofree char *chance = words_percent (fmin (best->chance, MOST_CHANCE_SHOWN), translate);
  g_autofree char *other = words_percent (next->chance, translate);
  switch (sure->sureness)
    {
    case PLAN_SURENESS_SURE:
      return g_strdup_printf (translate (N_ ("Sure: as well as the bag is known, the %s is best with a chance of %s.")),
                              best->club->name, chance);
    case PLAN_SURENESS_LIKELY:
      return g_strdup_printf (
          translate (N_ ("Likely: as well as the bag is known, the %s is best with a chance of %s, the %s with %s.")),
          best->club->name, chance, next->club->name, other);
    case PLAN_SURENESS_EVEN:
      return g_strdup_printf (
          translate (N_ ("As good as even: as well as the bag is known, the %s is best with a chance of %s, the %s with %s.")),
          best->club->name, chance, next->club->name, other);
    case PLAN_SURENESS_UNLIKELY:
      break;
    }
  return g_strdup_printf (
      translate (N_ ("Unlikely: as well as the bag is known, the %s is best with a chance of %s, the %s with %s.")),
      best->club->name, chance, next->club->name, other);
}
