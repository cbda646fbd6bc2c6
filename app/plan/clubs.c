// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The clubs of a bag beside one another, each at its own best aim.
 */
#include "aims-private.h"

/* What counts in choosing: a part swing must save something. */
static double
rank_of (const AimStrokes *best)
{
  return best->strokes + (best->swing < 1 ? AIM_PART_SWING_STROKES : 0);
}

void
aims_clear_all (Aims *aims, size_t n)
{
  for (size_t i = 0; i < n; i++)
    aims_clear (&aims[i]);
}

/* One price for playing again, and what every aim costs at it. */
static void
price (Aims *aims, size_t n, const Place *place)
{
  g_autofree const AimValues **values = g_new (const AimValues *, n);
  for (size_t i = 0; i < n; i++)
    values[i] = &aims[i].values;
  double again = aims_again_strokes (values, n, place->again_strokes);
  for (size_t i = 0; i < n; i++)
    aims_finish (&aims[i], place, again);
}

size_t
aims_of_bag (const Place *place, const Bag *bag, size_t first, size_t end, Aims *aims, GError **error)
{
  size_t n = 0;
  for (size_t i = first; i < end; i++)
    {
      const Club *club = bag_club (bag, i);
      if (club->tee_only && place->lie != LIE_TEE)
        continue;
      if (place_is_cancelled (place, error))
        {
          aims_clear_all (aims, n);
          return 0;
        }
      /* A club that no ball leaves here, against a gale, is no choice. */
      if (aims_init (&aims[n], place, club, NULL))
        n++;
    }
  if (place_is_cancelled (place, error))
    {
      aims_clear_all (aims, n);
      return 0;
    }
  if (n == 0)
    g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_CLUB,
                         "no club of the bag can be played from here; put one into the bag that is not only for the tee");
  else
    price (aims, n, place);
  return n;
}

static int
compare_choices (const void *a, const void *b)
{
  double x = rank_of (&((const ClubChoice *)a)->best), y = rank_of (&((const ClubChoice *)b)->best);
  return (x > y) - (x < y);
}

static ClubChoice
choice_of (const Place *place, const Aims *aims)
{
  const AimMap *map = aims->map;
  Vec2 way = vec2_sub (map->best.aim, map->ball);
  Pattern pattern = response_pattern (&aims->response, map->ball, atan2 (way.y, way.x), map->best.swing);
  ClubChoice choice = { .club = map->club, .best = map->best };
  shot_strokes_of (place, &aims->response, &pattern, map->again_strokes, &choice.outcome);
  return choice;
}

ClubChoice *
plan_clubs (const PlanInput *input, const Bag *bag, size_t *n_choices, GError **error)
{
  Place place;
  if (!place_init (&place, input, error))
    return NULL;
  if (place.input.lies == NULL)
    place.input.lies = bag_lies (bag);
  size_t n_clubs = bag_n_clubs (bag);
  g_autofree Aims *aims = g_new0 (Aims, n_clubs + 1);
  size_t n = aims_of_bag (&place, bag, 0, n_clubs, aims, error);
  ClubChoice *choices = n > 0 ? g_new0 (ClubChoice, n) : NULL;
  for (size_t i = 0; i < n; i++)
    choices[i] = choice_of (&place, &aims[i]);
  if (n > 0)
    qsort (choices, n, sizeof *choices, compare_choices);
  for (size_t i = 0; i < n; i++)
    choices[i].over_best = choices[i].best.strokes - choices[0].best.strokes;
  aims_clear_all (aims, n);
  place_clear (&place);
  if (choices != NULL)
    *n_choices = n;
  return choices;
}
