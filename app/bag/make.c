// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Bags and clubs that are made, not read: a usual bag of a level, a club once more, the place where one more is of most use.
 */
#include "bag-private.h"

#include <math.h>
#include <string.h>

/*
 * What a model golfer's drive carries: 250, 210, 200 and 150 yd less 20 yd of roll (Course Rating System Manual, the four model golfers and
 * their usual roll).
 */
static const double drive_yd[N_LEVELS]
    = { [LEVEL_SCRATCH_MEN] = 230, [LEVEL_SCRATCH_WOMEN] = 190, [LEVEL_BOGEY_MEN] = 180, [LEVEL_BOGEY_WOMEN] = 130 };

/* The clubs of a usual bag, what each carries as a share of the drive, and its loft (common practice). */
static const struct
{
  const char *name;
  double share, loft_deg;
} usual[] = { { "driver", 1, 10.5 },    { "3 wood", 0.90, 15 },         { "5 wood", 0.85, 18 },    { "4 hybrid", 0.80, 22 },
              { "5 iron", 0.75, 26 },   { "6 iron", 0.70, 29 },         { "7 iron", 0.65, 33 },    { "8 iron", 0.60, 37 },
              { "9 iron", 0.55, 41 },   { "pitching wedge", 0.50, 45 }, { "gap wedge", 0.44, 50 }, { "sand wedge", 0.38, 54 },
              { "lob wedge", 0.32, 58 } };

/* The first club of a bag carries this where it has none: a mid iron (common practice). */
#define FIRST_CARRY_M (150 * METRES_PER_YARD)
/* The second carries this share of the first (common practice). */
#define NEXT_SHARE 0.9

static double
whole (double length_m, LengthUnit unit)
{
  return unit_to_metres (unit, round (unit_from_metres (unit, length_m)));
}

Bag *
bag_new_usual (const char *name, LengthUnit unit, Level level)
{
  g_assert ((unsigned)level < N_LEVELS);
  g_autoptr (Bag) empty = bag_new (name, unit, level);
  Club clubs[G_N_ELEMENTS (usual)];
  for (size_t i = 0; i < G_N_ELEMENTS (usual); i++)
    {
      club_init (&clubs[i]);
      clubs[i].name = (char *)usual[i].name;
      clubs[i].carry_m = whole (usual[i].share * drive_yd[level] * METRES_PER_YARD, unit);
      clubs[i].loft_deg = usual[i].loft_deg;
      clubs[i].tee_only = i == 0;
    }
  Bag *bag = bag_with_clubs (empty, clubs, G_N_ELEMENTS (clubs), NULL);
  g_assert (bag != NULL);
  return bag;
}

char *
bag_free_name (const Bag *bag, const char *wanted)
{
  char *name = g_strdup (wanted);
  for (unsigned n = 2; bag_find (bag, name) != NULL; n++)
    {
      g_free (name);
      name = g_strdup_printf ("%s %u", wanted, n);
    }
  return name;
}

double
bag_propose_carry_m (const Bag *bag, LengthUnit unit)
{
  BagGap gap;
  double widest_m = 0, carry_m = FIRST_CARRY_M;
  if (bag_n_clubs (bag) > 0)
    carry_m = NEXT_SHARE * bag_club (bag, bag_n_clubs (bag) - 1)->carry_m;
  for (size_t i = 0; bag_gap (bag, i, &gap); i++)
    if (gap.gap_m > widest_m)
      {
        widest_m = gap.gap_m;
        carry_m = bag_club (bag, i)->carry_m - gap.gap_m / 2;
      }
  return whole (carry_m, unit);
}

Bag *
bag_duplicating_club (const Bag *bag, size_t i, GError **error)
{
  g_autoptr (CsvText) text = csv_text_new (bag->bytes);
  size_t line = bag_row (bag, i)->line;
  g_autofree char *name = bag_free_name (bag, bag_club (bag, i)->name);
  csv_text_insert (text, line + 1);
  size_t n_cells = ((const CsvLine *)text->lines->pdata[line])->cells->len;
  for (size_t cell = 0; cell < n_cells; cell++)
    {
      g_autofree char *value = csv_text_get (text, line, cell);
      csv_text_set (text, line + 1, cell, value);
    }
  csv_text_set (text, line + 1, (size_t)bag->layout.field_of[BAG_COLUMN_CLUB], name);
  g_autoptr (GBytes) bytes = csv_text_print (text);
  return bag_read_edited (bytes, bag->name, bag->level, error);
}
