// SPDX-License-Identifier: GPL-3.0-or-later
/* Bag files: read or refused with one sentence; every club that is read can be played. */
#include "bag.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

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
      g_assert_true (club->correlation >= -1 && club->correlation <= 1);
    }
  return 0;
}
