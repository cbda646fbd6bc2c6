// SPDX-License-Identifier: GPL-3.0-or-later
/* What golfers type: lengths, ranges, angles, transforms; whatever is read is finite, and printed in full reads back the same. */
#include "fuzz.h"
#include "svg.h"
#include "units.h"

#include <glib.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = g_strndup ((const char *)data, size);
  double value = 0, low_m = 0, high_m = 0;
  if (units_parse_number (text, &value))
    {
      char printed[64];
      double again = 0;
      g_assert_true (isfinite (value));
      g_assert_true (units_parse_number (units_print_full (value, printed, sizeof printed), &again));
      g_assert_true (again == value);
    }
  if (units_parse_length (text, UNIT_YARDS, &value))
    g_assert_true (isfinite (value));
  if (units_parse_range (text, UNIT_METRES, &low_m, &high_m))
    g_assert_true (low_m <= high_m);
  if (units_parse_angle (text, &value))
    g_assert_true (isfinite (value));
  Affine transform;
  if (svg_parse_transform (text, &transform))
    g_assert_true (affine_is_finite (transform));
  return 0;
}
