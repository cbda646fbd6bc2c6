// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The bag in memory: an immutable list of clubs, longest first, and the questions asked of it.
 */
#include "bag-private.h"

#include <math.h>

struct _Bag
{
  int references;
  GPtrArray *clubs;    /* of Club */
  GPtrArray *warnings; /* of char *, ended by NULL */
};

G_DEFINE_QUARK (holewright - bag - error, bag_error)

void
club_free (Club *club)
{
  if (club == NULL)
    return;
  g_free (club->name);
  g_free (club);
}

static gint
by_carry_longest_first (gconstpointer a, gconstpointer b)
{
  const Club *x = *(const Club *const *)a, *y = *(const Club *const *)b;
  return x->carry_m < y->carry_m ? 1 : x->carry_m > y->carry_m ? -1 : 0;
}

Bag *
bag_new_taking (GPtrArray *clubs, GPtrArray *warnings)
{
  Bag *bag = g_new (Bag, 1);
  g_ptr_array_sort (clubs, by_carry_longest_first);
  g_ptr_array_add (warnings, NULL);
  *bag = (Bag){ 1, clubs, warnings };
  return bag;
}

Bag *
bag_ref (Bag *bag)
{
  g_atomic_int_inc (&bag->references);
  return bag;
}

void
bag_unref (Bag *bag)
{
  if (bag == NULL || !g_atomic_int_dec_and_test (&bag->references))
    return;
  g_ptr_array_unref (bag->clubs);
  g_ptr_array_unref (bag->warnings);
  g_free (bag);
}

size_t
bag_n_clubs (const Bag *bag)
{
  return bag->clubs->len;
}

const Club *
bag_club (const Bag *bag, size_t i)
{
  g_assert (i < bag->clubs->len);
  return bag->clubs->pdata[i];
}

const Club *
bag_find (const Bag *bag, const char *name)
{
  if (name == NULL)
    return NULL;
  g_autofree char *wanted = g_utf8_casefold (name, -1);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      const Club *club = bag_club (bag, i);
      g_autofree char *folded = g_utf8_casefold (club->name, -1);
      if (g_str_equal (folded, wanted))
        return club;
    }
  return NULL;
}

const char *const *
bag_warnings (const Bag *bag)
{
  return (const char *const *)bag->warnings->pdata;
}

const Club *
bag_choose (const Bag *bag, double distance_m, bool from_tee, double *swing)
{
  const Club *nearest = NULL, *shortest = NULL;
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      const Club *club = bag_club (bag, i);
      if (club->tee_only && !from_tee)
        continue;
      if (nearest == NULL || fabs (club->carry_m - distance_m) < fabs (nearest->carry_m - distance_m))
        nearest = club;
      shortest = club;
    }
  if (nearest == NULL)
    return NULL;
  *swing = distance_m < shortest->carry_m ? fmax (0, distance_m / shortest->carry_m) : 1;
  return *swing < 1 ? shortest : nearest;
}
