// SPDX-License-Identifier: GPL-3.0-or-later
/* trace - lines on standard error. */
#define _GNU_SOURCE
#include "trace.h"

#include "svg.h"

#include <stdio.h>
#include <time.h>

bool
hw_trace_is_on (void)
{
  return g_strcmp0 (g_getenv ("HOLEWRIGHT_TRACE"), "1") == 0 || hw_trace_has_changes ();
}

bool
hw_trace_has_changes (void)
{
  return g_strcmp0 (g_getenv ("HOLEWRIGHT_TRACE"), "changes") == 0;
}

gint64
hw_trace_busy_us (void)
{
  struct timespec busy = { 0 };
  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &busy);
  return (gint64)busy.tv_sec * G_USEC_PER_SEC + busy.tv_nsec / 1000;
}

void
hw_trace_window (void)
{
  fprintf (stderr, "trace window at %" G_GINT64_FORMAT " us\n", g_get_monotonic_time ());
}

void
hw_trace_frame (const HwTraceFrame *frame)
{
  fprintf (stderr,
           "trace frame %.2f ms edit %.2f ms busy %.2f ms at %" G_GINT64_FORMAT
           " us redraws %u paints %u corner %.0f %.0f place %.1f %.1f scale %.3f aim %.0f %.0f\n",
           frame->frame_ms, frame->edit_ms, frame->busy_ms, frame->at_us, frame->n_redraws, frame->n_paints, frame->corner_px.x,
           frame->corner_px.y, frame->place_px.x, frame->place_px.y, frame->px_per_m, frame->aim_px.x, frame->aim_px.y);
}

void
hw_trace_wind (double took_ms, double busy_ms)
{
  fprintf (stderr, "trace wind %.2f ms busy %.2f ms\n", took_ms, busy_ms);
}

void
hw_trace_change (gint64 since_us, const Hole *unsaved)
{
  gint64 at_us = since_us != 0 ? since_us : g_get_monotonic_time ();
  g_autoptr (GBytes) bytes = unsaved != NULL ? svg_write_bytes (unsaved, NULL) : NULL;
  g_autofree char *sum = bytes != NULL ? g_compute_checksum_for_bytes (G_CHECKSUM_SHA256, bytes) : NULL;
  fprintf (stderr, "trace change at %" G_GINT64_FORMAT " us %s\n", at_us, sum != NULL ? sum : "-");
}
