// SPDX-License-Identifier: GPL-3.0-or-later
/* Hole documents: read or refused with one sentence; what is read answers every question, and saves to the bytes it came from. */
#include "fuzz.h"
#include "odds.h"
#include "svg.h"

#include <glib.h>
#include <string.h>

static void
ask_everything (Hole *hole)
{
  g_autoptr (GPtrArray) findings = svg_check_hole (hole);
  g_assert_nonnull (findings);
  double length_m = 0;
  if (hole_measured_length (hole, NULL, &length_m))
    g_assert_true (isfinite (length_m));
  Vec2 target;
  int tee = hole_tee (hole, NULL);
  Club club = { (char *)"5 iron", 150, 8, 9, 0, 0, NAN, NAN, NAN, false, 0, NAN, false };
  if (tee < 0 || !hole_target (hole, NULL, &target))
    return;
  ShotInput input = { hole_part (hole, (size_t)tee)->at, target, &club, 1 };
  ShotResult shot;
  if (!odds_shot (hole, NULL, &input, &shot, NULL))
    return;
  g_autoptr (CarryTable) table = carry_table_new (hole, &shot);
  for (size_t i = 0; i < table->n_rows; i++)
    {
      const CarryRow *row = &table->rows[i];
      g_assert_true (row->reach_m <= row->carry_m);
      g_assert_true (row->gap_m >= 0);
      g_assert_true (row->clear >= 0 && row->clear <= 1);
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (Hole) hole = svg_read_bytes (bytes, "fuzz.svg", &findings, &error);
  if (!hole)
    {
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, "fuzz.svg"));
      return 0;
    }
  g_assert_no_error (error);
  ask_everything (hole);
  g_autoptr (GBytes) written = svg_write_bytes (hole, &error);
  g_assert_no_error (error);
  g_assert_true (g_bytes_equal (bytes, written));
  return 0;
}
