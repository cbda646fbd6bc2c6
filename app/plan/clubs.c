// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The clubs of a bag beside one another, each at its own best aim.
 */
#include "aims-private.h"

/* Clubs are weighed side by side: a notebook has two cores to spare (common practice). */
#define N_THREADS 2

double
aims_rank (const AimStrokes *best)
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

/* Those that can be played, weighed and put one behind the other; returns how many. */
static size_t
weigh_clubs (const Place *place, const Bag *bag, size_t first, size_t end, Aims *aims)
{
  size_t n = 0;
  g_autofree Aims *made = g_new0 (Aims, end + 1);
  g_autofree bool *is_made = g_new0 (bool, end + 1);
  Weighing weighing = { place, bag, made, is_made };
  work_on_all (first, end, weigh_club, &weighing);
  for (size_t i = first; i < end; i++)
    if (is_made[i])
      aims[n++] = made[i];
  return n;
}

typedef struct
{
  const Place *place;
  Aims *aims;
  GError **errors; /* by aims */
} Pinning;

static void
pin_club (void *data, size_t i)
{
  Pinning *pinning = data;
  if (!place_is_cancelled (pinning->place, &pinning->errors[i]))
    aims_pin (&pinning->aims[i], pinning->place, &pinning->errors[i]);
}

/* The first error of some is the answer; the others go. */
static bool
are_none (GError **errors, size_t n, GError **error)
{
  GError *first = NULL;
  for (size_t i = 0; i < n; i++)
    if (errors[i] != NULL && first == NULL)
      first = g_steal_pointer (&errors[i]);
    else
      g_clear_error (&errors[i]);
  if (first != NULL)
    g_propagate_error (error, first);
  return first == NULL;
}

static bool
pin_clubs (const Place *place, Aims *aims, size_t n, GError **error)
{
  g_autofree GError **errors = g_new0 (GError *, n + 1);
  Pinning pinning = { place, aims, errors };
  work_on_all (0, n, pin_club, &pinning);
  return are_none (errors, n, error);
}

size_t
aims_of_bag (const Place *place, const Bag *bag, size_t first, size_t end, Aims *aims, GError **error)
{
  size_t n = weigh_clubs (place, bag, first, end, aims);
  bool is_found = !place_is_cancelled (place, error);
  if (is_found && n == 0)
    g_set_error_literal (error, PLAN_ERROR, PLAN_ERROR_CLUB,
                         "no club of the bag can be played from here; put one into the bag that is not only for the tee");
  if (is_found && n > 0)
    {
      price (aims, n, place);
      is_found = pin_clubs (place, aims, n, error);
    }
  if (is_found)
    return n;
  aims_clear_all (aims, n);
  return 0;
}

static int
compare_choices (const void *a, const void *b)
{
  double x = aims_rank (&((const ClubChoice *)a)->best), y = aims_rank (&((const ClubChoice *)b)->best);
  return (x > y) - (x < y);
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
    choices[i] = (ClubChoice){ .club = aims[i].map->club, .best = aims[i].map->best, .outcome = aims[i].outcome };
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
