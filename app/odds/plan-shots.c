// SPDX-License-Identifier: GPL-3.0-or-later
/* A plan's shots, each flown from its own ball on the plan's day. */
#include "odds-known.h"
#include "odds-private.h"

/* The club that a plan's shot is played with, and the swing. NULL with `error` set when the bag has none. */
static const Club *
plan_club (const Hole *hole, const Shot *shot, bool is_first, const Bag *bag, const Conditions *conditions, double *swing,
           GError **error)
{
  *swing = shot->swing;
  if (shot->club != NULL)
    {
      const Club *club = bag_find (bag, shot->club);
      if (club == NULL)
        g_set_error (error, ODDS_ERROR, ODDS_ERROR_CLUB, "the bag has no club called %s; choose one of its clubs", shot->club);
      return club;
    }
  double fitted;
  bool from_tee = is_first || odds_lie (hole, shot->from) == LIE_TEE;
  const Club *club = odds_choose_club (hole, shot->from, shot->aim, bag, conditions, from_tee, &fitted);
  if (club == NULL)
    g_set_error_literal (error, ODDS_ERROR, ODDS_ERROR_CLUB,
                         "the bag has no club for this lie; add one that is not for the tee only");
  else if (shot->swing >= 1 && fitted > 0)
    *swing = fitted;
  return club;
}

bool
odds_plan_shot (const Hole *hole, const Part *plan, size_t i, const Bag *bag, ShotResult *result, GError **error)
{
  const Shot *shot = &plan->shots[i];
  Conditions conditions;
  if (!conditions_of_day (hole, &plan->day, &conditions, error))
    return false;
  ShotInput input
      = { .ball = shot->from, .aim = shot->aim, .shape = shot->shape, .curve_m = shot->curve_m, .conditions = &conditions };
  input.lies = bag_lies (bag);
  input.club = plan_club (hole, shot, i == 0, bag, &conditions, &input.swing, error);
  return input.club != NULL && odds_shot (hole, plan->hole_name, &input, result, error);
}

ShotResult *
odds_plan (const Hole *hole, size_t plan, const Bag *bag, GError **error)
{
  return known_shots_plan (NULL, hole, plan, bag, error);
}
