// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The bag in memory: an immutable list of clubs, longest first, and the questions asked of it.
 */
#include "bag-private.h"

#include <math.h>

/* What conversion to metres and back takes off a gap of just so many yards. */
#define GAP_SLACK_M 1e-9

G_DEFINE_QUARK (holewright - bag - error, bag_error)

void
club_init (Club *club)
{
  *club = (Club){ .carry_m = NAN,
                  .carry_sd_m = NAN,
                  .side_sd_m = NAN,
                  .loft_deg = NAN,
                  .apex_m = NAN,
                  .mishit_carry_share = NAN,
                  .errors = { 0, NAN, NAN, NAN, NAN, NAN, NAN, NAN } };
}

void
club_two_of_three (const Club *club, double *low_m, double *high_m)
{
  *low_m = club->carry_m - TWO_OF_THREE_LINE * club->carry_sd_m;
  *high_m = club->carry_m + TWO_OF_THREE_LINE * club->carry_sd_m;
}

static void
row_free (gpointer data)
{
  BagRow *row = data;
  g_free (row->club.name);
  g_free (row);
}

static gint
by_carry_longest_first (gconstpointer a, gconstpointer b)
{
  const Club *x = &(*(const BagRow *const *)a)->club, *y = &(*(const BagRow *const *)b)->club;
  return x->carry_m < y->carry_m ? 1 : x->carry_m > y->carry_m ? -1 : 0;
}

Bag *
bag_new_reading (GBytes *bytes, const char *name, Level level)
{
  Bag *bag = g_new0 (Bag, 1);
  bag->references = 1;
  bag->rows = g_ptr_array_new_with_free_func (row_free);
  bag->warnings = g_ptr_array_new_with_free_func (g_free);
  bag->bytes = g_bytes_ref (bytes);
  bag->name = g_strdup (name);
  bag->level = level;
  bag->lies = lie_table_usual ();
  return bag;
}

void
bag_seal (Bag *bag, const SheetLayout *layout)
{
  bag->layout = *layout;
  g_ptr_array_sort (bag->rows, by_carry_longest_first);
  g_ptr_array_add (bag->warnings, NULL);
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
  g_ptr_array_unref (bag->rows);
  g_ptr_array_unref (bag->warnings);
  g_bytes_unref (bag->bytes);
  g_free (bag->name);
  g_free (bag);
}

const BagRow *
bag_row (const Bag *bag, size_t i)
{
  g_assert (i < bag->rows->len);
  return bag->rows->pdata[i];
}

Level
bag_level (const Bag *bag)
{
  return bag->level;
}

const LieTable *
bag_lies (const Bag *bag)
{
  return &bag->lies;
}

size_t
bag_n_clubs (const Bag *bag)
{
  return bag->rows->len;
}

const Club *
bag_club (const Bag *bag, size_t i)
{
  return &bag_row (bag, i)->club;
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

bool
bag_gap (const Bag *bag, size_t i, BagGap *gap)
{
  if (i + 1 >= bag_n_clubs (bag))
    return false;
  double gap_m = bag_club (bag, i)->carry_m - bag_club (bag, i + 1)->carry_m;
  *gap = (BagGap){ gap_m, gap_m > BAG_WIDE_GAP_M + GAP_SLACK_M     ? GAP_WIDE
                          : gap_m < BAG_NARROW_GAP_M - GAP_SLACK_M ? GAP_NARROW
                                                                   : GAP_EVEN };
  return true;
}

const char *
gap_token (GapKind kind)
{
  static const char *const tokens[] = { [GAP_EVEN] = "even", [GAP_WIDE] = "wide", [GAP_NARROW] = "narrow" };
  g_assert ((unsigned)kind < G_N_ELEMENTS (tokens));
  return tokens[kind];
}
