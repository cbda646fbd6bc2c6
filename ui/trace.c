// SPDX-License-Identifier: GPL-3.0-or-later
/* trace - the benchmarks' lines on standard error. */
#include "trace.h"

#include <stdio.h>

bool
hw_trace_is_on (void)
{
  return g_strcmp0 (g_getenv ("HOLEWRIGHT_TRACE"), "1") == 0;
}

void
hw_trace_window (void)
{
  fprintf (stderr, "trace window at %" G_GINT64_FORMAT " us\n", g_get_monotonic_time ());
}

void
hw_trace_frame (double frame_ms, double edit_ms, unsigned redraws, double aim_x_px, double aim_y_px)
{
  fprintf (stderr, "trace frame %.2f ms edit %.2f ms redraws %u aim %.0f %.0f\n", frame_ms, edit_ms, redraws, aim_x_px,
           aim_y_px);
}
