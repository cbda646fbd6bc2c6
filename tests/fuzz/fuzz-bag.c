// SPDX-License-Identifier: GPL-3.0-or-later
/* Bag files: read or refused with one sentence; every club that is read can be played; a bag is written as read, and an edit reads back. */
#include "bag.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

/* Puts the longest club back by value, which changes nothing, types a carry into it, which must read back, and takes it out. */
static void
edit (const Bag *bag, GBytes *bytes)
{
  g_autoptr (GBytes) written = bag_write_bytes (bag);
  g_assert_true (g_bytes_equal (written, bytes));
  g_autoptr (Bag) same = bag_with_club (bag, 0, bag_club (bag, 0), NULL);
  g_assert_nonnull (same);
  g_autoptr (GBytes) again = bag_write_bytes (same);
  g_assert_true (g_bytes_equal (again, bytes));
  /* A full file has no room for more, and a curve may be too much for this carry. */
  g_autoptr (GError) refusal = NULL;
  g_autoptr (Bag) typed = bag_with_cell (bag, 0, BAG_COLUMN_CARRY, "140-150", UNIT_METRES, &refusal);
  g_assert_true ((typed != NULL) == (refusal == NULL));
  g_assert_true (typed == NULL || bag_n_clubs (typed) == bag_n_clubs (bag));
  /* A sum, and a range that takes the place of a spread; the standard errors of both go. */
  g_autoptr (GError) no_sum = NULL;
  g_autoptr (Bag) sum = bag_with_cell (bag, 0, BAG_COLUMN_CARRY, "140+12 yd", UNIT_METRES, &no_sum);
  g_assert_true ((sum != NULL) == (no_sum == NULL));
  g_autoptr (GError) no_twin = NULL;
  g_autoptr (Bag) twin = bag_duplicating_club (bag, 0, &no_twin);
  g_assert_true ((twin != NULL) == (no_twin == NULL));
  g_assert_true (twin == NULL || bag_n_clubs (twin) == bag_n_clubs (bag) + 1);
  double carry_m = bag_propose_carry_m (bag, UNIT_YARDS);
  g_assert_true (isfinite (carry_m) && carry_m >= 0);
  g_autoptr (Bag) without = bag_without_club (bag, 0);
  g_assert_cmpuint (bag_n_clubs (without) + 1, ==, bag_n_clubs (bag));
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_read_bytes (bytes, "fuzz.csv", LEVEL_BOGEY_MEN, &error);
  if (!bag)
    {
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, "fuzz.csv"));
      return 0;
    }
  g_assert_no_error (error);
  g_assert_cmpuint (bag_n_clubs (bag), >, 0);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      const Club *club = bag_club (bag, i);
      g_assert_true (isfinite (club->carry_m) && club->carry_m > 0);
      g_assert_true (isfinite (club->carry_sd_m) && club->carry_sd_m >= 0);
      g_assert_true (isfinite (club->side_sd_m) && club->side_sd_m >= 0);
      g_assert_true (isfinite (club->launch.speed_mps) && club->launch.speed_mps > 0);
      g_assert_true (club->correlation >= -1 && club->correlation <= 1);
      g_assert_true (club->errors.n_shots <= SHOT_LOG_MOST_SHOTS && !(club->errors.carry_m < 0) && !isinf (club->errors.carry_m));
    }
  edit (bag, bytes);
  return 0;
}
