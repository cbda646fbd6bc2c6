// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The clubs of a bag beside one another, each at its own best aim.
 */
#include "aims-private.h"

/* Clubs are weighed side by side: a notebook has two cores to spare (common practice). */
#define N_THREADS 2

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

/* A job for every club of a list, done on several threads: all of one place, so that what comes of one does not depend on the others. */
typedef struct
{
  void (*work) (void *data, size_t i);
  void *data;
  size_t first, end;
} Share;

static gpointer
take_share (gpointer data)
{
  const Share *share = data;
  for (size_t i = share->first; i < share->end; i += N_THREADS)
    share->work (share->data, i);
  return NULL;
}

static void
work_on_all (size_t first, size_t end, void (*work) (void *data, size_t i), void *data)
{
  Share shares[N_THREADS];
  GThread *threads[N_THREADS] = { NULL };
  for (size_t t = N_THREADS; t-- > 0;)
    {
      shares[t] = (Share){ work, data, first + t, end };
      if (t > 0 && first + t < end)
        threads[t] = g_thread_new ("clubs", take_share, &shares[t]);
    }
  take_share (&shares[0]);
  for (size_t t = 1; t < N_THREADS; t++)
    if (threads[t] != NULL)
      g_thread_join (threads[t]);
}

typedef struct
{
  const Place *place;
  const Bag *bag;
  Aims *aims; /* by club of the bag */
  bool *is_made;
} Weighing;

/* A club that no ball leaves here, against a gale, is no choice. */
static void
weigh_club (void *data, size_t i)
{
  Weighing *weighing = data;
  const Club *club = bag_club (weighing->bag, i);
  if (!place_is_cancelled (weighing->place, NULL) && (!club->tee_only || weighing->place->lie == LIE_TEE))
    weighing->is_made[i] = aims_init (&weighing->aims[i], weighing->place, club, NULL);
}

size_t
aims_of_bag (const Place *place, const Bag *bag, size_t first, size_t end, Aims *aims, GError **error)
{
  size_t n = 0;
  g_autofree Aims *made = g_new0 (Aims, end + 1);
  g_autofree bool *is_made = g_new0 (bool, end + 1);
  Weighing weighing = { place, bag, made, is_made };
  work_on_all (first, end, weigh_club, &weighing);
  for (size_t i = first; i < end; i++)
    if (is_made[i])
      aims[n++] = made[i];
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

typedef struct
{
  const Place *place;
  const Aims *aims;
  ClubChoice *choices;
} Choosing;

static void
choose_aim (void *data, size_t i)
{
  Choosing *choosing = data;
  choosing->choices[i] = choice_of (choosing->place, &choosing->aims[i]);
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
  Choosing choosing = { &place, aims, choices };
  work_on_all (0, n, choose_aim, &choosing);
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
