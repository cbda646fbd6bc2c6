// SPDX-License-Identifier: GPL-3.0-or-later
/* Shots flown a moment ago, found again by all that they were flown from. */
#include "odds-known.h"

#include <string.h>

/* What one step of a drag asks about - the shots before it, and those after it - and that of the step before, of plans longer than are played. */
#define MOST_KNOWN 16

typedef struct
{
  bool is_taken, is_first;
  unsigned asked; /* when it was asked for last, by the count of questions */
  char *hole_name;
  Day day;
  Shot shot; /* its club is its own copy */
  ShotResult result;
} KnownShot;

struct _KnownShots
{
  Hole *hole; /* the drawing, whatever its plans; NULL: nothing is known */
  Bag *bag;   /* the results' clubs are its */
  KnownShot shots[MOST_KNOWN];
  unsigned n_asked; /* questions so far */
};

KnownShots *
known_shots_new (void)
{
  return g_new0 (KnownShots, 1);
}

static void
forget_one (KnownShot *shot)
{
  if (!shot->is_taken)
    return;
  g_free (shot->hole_name);
  g_free (shot->shot.club);
  day_clear (&shot->day);
  *shot = (KnownShot){ 0 };
}

static void
forget (KnownShots *known)
{
  for (size_t i = 0; i < MOST_KNOWN; i++)
    forget_one (&known->shots[i]);
  g_clear_pointer (&known->hole, hole_unref);
  g_clear_pointer (&known->bag, bag_unref);
}

void
known_shots_free (KnownShots *known)
{
  if (known == NULL)
    return;
  forget (known);
  g_free (known);
}

bool
odds_same_ground (const Hole *a, const Hole *b)
{
  if (a == b)
    return true;
  if (hole_n_parts (a) != hole_n_parts (b) || !hole_info_equal (hole_info (a), hole_info (b)))
    return false;
  for (size_t i = 0; i < hole_n_parts (a); i++)
    if (hole_part (a, i) != hole_part (b, i) && (hole_part (a, i)->kind != KIND_PLAN || hole_part (b, i)->kind != KIND_PLAN))
      return false;
  return true;
}

static bool
same_length (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static bool
is_shot (const KnownShot *known, const Part *plan, size_t i)
{
  const Shot *a = &known->shot, *b = &plan->shots[i];
  return known->is_taken && known->is_first == (i == 0) && a->from.x == b->from.x && a->from.y == b->from.y
         && a->aim.x == b->aim.x && a->aim.y == b->aim.y && a->shape == b->shape && a->swing == b->swing
         && same_length (a->curve_m, b->curve_m) && g_strcmp0 (a->club, b->club) == 0
         && g_strcmp0 (known->hole_name, plan->hole_name) == 0 && day_equal (&known->day, &plan->day);
}

static void
keep (KnownShots *known, const Part *plan, size_t i, const ShotResult *result)
{
  KnownShot *kept = &known->shots[0]; /* the one that was not asked for the longest, or is free, gives way */
  for (size_t k = 1; k < MOST_KNOWN; k++)
    if (known->shots[k].asked < kept->asked)
      kept = &known->shots[k];
  forget_one (kept);
  *kept = (KnownShot){ .is_taken = true,
                       .asked = known->n_asked,
                       .is_first = i == 0,
                       .hole_name = g_strdup (plan->hole_name),
                       .shot = plan->shots[i],
                       .result = *result };
  kept->shot.club = g_strdup (plan->shots[i].club);
  day_copy (&plan->day, &kept->day);
}

bool
known_shots_fly (KnownShots *known, const Hole *hole, const Part *plan, size_t i, const Bag *bag, ShotResult *result,
                 GError **error)
{
  if (known == NULL)
    return odds_plan_shot (hole, plan, i, bag, result, error);
  if (known->hole == NULL || known->bag != bag || !odds_same_ground (known->hole, hole))
    {
      forget (known);
      known->hole = hole_ref ((Hole *)hole);
      known->bag = bag_ref ((Bag *)bag);
    }
  known->n_asked++;
  for (size_t k = 0; k < MOST_KNOWN; k++)
    if (is_shot (&known->shots[k], plan, i))
      {
        known->shots[k].asked = known->n_asked;
        *result = known->shots[k].result;
        return true;
      }
  if (!odds_plan_shot (hole, plan, i, bag, result, error))
    return false;
  keep (known, plan, i, result);
  return true;
}

ShotResult *
known_shots_plan (KnownShots *known, const Hole *hole, size_t plan, const Bag *bag, GError **error)
{
  const Part *part = hole_part (hole, plan);
  g_assert (part->kind == KIND_PLAN);
  g_autofree ShotResult *results = g_new0 (ShotResult, MAX (part->n_shots, 1));
  for (size_t i = 0; i < part->n_shots; i++)
    if (!known_shots_fly (known, hole, part, i, bag, &results[i], error))
      {
        g_prefix_error (error, "shot %zu: ", i + 1);
        return NULL;
      }
  return g_steal_pointer (&results);
}
