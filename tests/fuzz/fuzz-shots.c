// SPDX-License-Identifier: GPL-3.0-or-later
/* Files of recorded shots: read or refused with one sentence; whatever is read is fitted without a figure that is no number. */
#include "bag.h"
#include "fuzz.h"

#include <math.h>
#include <string.h>

static void
assert_told (Figure figure)
{
  g_assert_true (!isinf (figure.value) && !isinf (figure.se));
  g_assert_true (!isnan (figure.value) || isnan (figure.se));
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (ShotLog) log = shot_log_read_bytes (bytes, "fuzz.csv", &error);
  if (log == NULL)
    {
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, "fuzz.csv"));
      return 0;
    }
  g_assert_no_error (error);
  size_t n_fits = shot_log_n_clubs (log);
  g_autofree ClubFit *fits = bag_fit (log);
  g_assert_cmpuint (n_fits, >, 0);
  for (size_t i = 0; i < n_fits; i++)
    {
      const Figure figures[] = { fits[i].carry_m,     fits[i].carry_sd_m,    fits[i].side_bias_m,       fits[i].side_sd_m,
                                 fits[i].correlation, fits[i].mishit_chance, fits[i].mishit_carry_share };
      g_assert_true (isfinite (fits[i].carry_m.value) && isfinite (fits[i].side_bias_m.value));
      for (size_t k = 0; k < G_N_ELEMENTS (figures); k++)
        assert_told (figures[k]);
      g_assert_true (isnan (fits[i].correlation.value) || fabs (fits[i].correlation.value) <= 1);
      g_assert_true (isnan (fits[i].carry_sd_m.value) || fits[i].carry_sd_m.value >= 0);
    }
  /* The reader may refuse the bag of such figures, but with a sentence. */
  g_autoptr (Bag) empty = bag_new ("fitted", UNIT_YARDS, LEVEL_SCRATCH_MEN);
  g_autoptr (Bag) bag = bag_with_fit (empty, fits, n_fits, &error);
  g_assert_true ((bag != NULL) == (error == NULL));
  return 0;
}
