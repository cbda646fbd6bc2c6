// SPDX-License-Identifier: GPL-3.0-or-later
/* What each club does from a place on a day, and which of them an aim asks for. */
#include "fly-private.h"
#include "odds-private.h"
#include "odds-stance.h"

#include <math.h>

/* One club towards the aim. False when no ball leaves it so, or the wind blows it back over the golfer's head. */
static bool
club_today (const Ground *ground, const LieTable *lies, const Club *club, Vec2 ball, Vec2 along, bool is_run, ClubToday *today)
{
  LieEffect effect = lie_effect_at (ground->hole, lies, ball, club);
  Sendoff sendoff;
  Flight flight;
  Vec2 at;
  Run run = { 0 };
  if (!sendoff_make (club, &effect, 1, ball, along, usual_curve (club, SHOT_STRAIGHT, NAN), &sendoff, NULL)
      || !sendoff_fly (&sendoff, ground->conditions, ground, &flight, &at, NULL))
    return false;
  FlightPoint landing = flight_landing (&flight);
  landing.at = at;
  if (is_run && !run_solve (&landing, ground_surface, ground, &run, NULL))
    return false;
  Vec2 flown = vec2_sub (at, ball);
  double carry_m = vec2_length (flown), sd_m = effect.long_factor * club->carry_sd_m * carry_m / sendoff.meant_m;
  *today = (ClubToday){ .club = club,
                        .carry_m = carry_m,
                        .run_m = run.run_m,
                        .side_m = -vec2_cross (along, flown),
                        .low_m = fmax (0, carry_m - TWO_OF_THREE_LINE * sd_m),
                        .high_m = carry_m + TWO_OF_THREE_LINE * sd_m };
  return true;
}

static void
clubs_today (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, bool is_run, ClubToday *clubs)
{
  Conditions standard = conditions_standard ();
  Vec2 along = vec2_unit (vec2_sub (aim, ball));
  Ground ground;
  ground_init (&ground, hole, conditions != NULL ? conditions : &standard);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    if (!club_today (&ground, bag_lies (bag), bag_club (bag, i), ball, along, is_run, &clubs[i]))
      clubs[i] = (ClubToday){ bag_club (bag, i), NAN, NAN, NAN, NAN, NAN };
}

void
odds_clubs_today (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, ClubToday *clubs)
{
  clubs_today (hole, ball, aim, bag, conditions, true, clubs);
}

void
odds_clubs_day (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, ClubDay *clubs)
{
  size_t n_clubs = bag_n_clubs (bag);
  g_autofree ClubToday *today = g_new (ClubToday, n_clubs + 1), *standard = g_new (ClubToday, n_clubs + 1);
  clubs_today (hole, ball, aim, bag, conditions, true, today);
  clubs_today (hole, ball, aim, bag, NULL, true, standard);
  for (size_t i = 0; i < n_clubs; i++)
    clubs[i] = (ClubDay){ .today = today[i],
                          .standard = standard[i],
                          .carry_change_m = today[i].carry_m - standard[i].carry_m,
                          .run_change_m = today[i].run_m - standard[i].run_m,
                          .side_change_m = today[i].side_m - standard[i].side_m };
}

bool
odds_club_today (const Hole *hole, Vec2 ball, Vec2 aim, const Club *club, const LieTable *lies, const Conditions *conditions,
                 ClubToday *today)
{
  Conditions standard = conditions_standard ();
  Ground ground;
  ground_init (&ground, hole, conditions != NULL ? conditions : &standard);
  bool is_flown = club_today (&ground, lies, club, ball, vec2_unit (vec2_sub (aim, ball)), true, today);
  return is_flown;
}

/* The clubs that come nearest to a distance today, of those flown. */
typedef struct
{
  double distance_m;
  ClubToday best, shortest; /* no club: none yet */
} Choice;

static void
consider (Choice *choice, const ClubToday *today)
{
  if (choice->best.club == NULL
      || fabs (today->carry_m - choice->distance_m) < fabs (choice->best.carry_m - choice->distance_m))
    choice->best = *today;
  if (choice->shortest.club == NULL || today->carry_m < choice->shortest.carry_m)
    choice->shortest = *today;
}

/*
 * Flies clubs from the one whose own carry is nearest to the distance outwards, to both sides, until one carries this share past it: clubs stand in the order of their carries, and no
 * lie is in question, so the day alone would have to bring one that far back past the others.
 */
#define PAST_SHARE 0.2

static void
fly_around (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, bool from_tee, bool is_plain,
            Choice *choice)
{
  Vec2 along = vec2_unit (vec2_sub (aim, ball));
  double swing;
  const Club *nearest = bag_choose (bag, choice->distance_m, true, &swing);
  int n = (int)bag_n_clubs (bag), middle = 0;
  Ground ground;
  ground_init (&ground, hole, conditions);
  while (middle + 1 < n && bag_club (bag, (size_t)middle) != nearest)
    middle++;
  for (int step = -1; step <= 1; step += 2)
    for (int i = step < 0 ? middle : middle + 1; i >= 0 && i < n; i += step)
      {
        const Club *club = bag_club (bag, (size_t)i);
        ClubToday today;
        if ((club->tee_only && !from_tee) || !club_today (&ground, bag_lies (bag), club, ball, along, false, &today)
            || !isfinite (today.carry_m))
          continue;
        consider (choice, &today);
        double past = (today.carry_m / choice->distance_m - 1) * (step < 0 ? 1 : -1);
        if (is_plain && past > PAST_SHARE)
          break;
      }
}

const Club *
odds_choose_club (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, bool from_tee,
                  double *swing)
{
  Conditions standard = conditions_standard ();
  const LieEffect *effect = &bag_lies (bag)->effects[odds_lie (hole, ball)];
  bool is_plain = lie_effect_is_none (effect);
  Choice choice = { .distance_m = vec2_distance (ball, aim) };
  Vec2 slope;
  if (is_plain && hole_terrain (hole) == NULL && !odds_stance_arrow (hole, ball, &slope)
      && (conditions == NULL || conditions_equal (conditions, &standard)))
    return bag_choose (bag, choice.distance_m, from_tee, swing);
  fly_around (hole, ball, aim, bag, conditions != NULL ? conditions : &standard, from_tee, is_plain, &choice);
  const ClubToday *best = &choice.best;
  if (best->club == NULL)
    return NULL;
  bool is_short = best->club == choice.shortest.club && choice.distance_m < best->carry_m;
  *swing = is_short ? choice.distance_m / best->carry_m : 1;
  return best->club;
}
