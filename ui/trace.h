// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * trace - figures for the benchmarks and tests: with HOLEWRIGHT_TRACE=1 in the environment, lines on standard error.
 *
 *     trace window at 81234567 us                     first frame of a window, on the monotonic clock
 *     trace frame 3.41 ms edit 0.62 ms busy 3.12 ms at 81234567 us redraws 1 paints 7 corner 5 51 place 400.0 812.5 scale 2.310 aim 612 300
 *                                                     work of one frame of the drawing, the edit's part of it; what of it the processor gave the main thread, which
 *                                                     on a busy machine is less; when its last pixel was handed over; full redraws and
 *                                                     paintings of the overlays so far; where the drawing's top left stands in the window, where the hole's (0, 0) and the aim of
 *                                                     the shot in hand stand on the drawing, px, and px per metre
 *     trace wind 1.21 ms busy 1.10 ms                 work of one step of the wind that is dragged on its rose: days, flights, panels; the frame after it
 *                                                     tells of its own work only
 * With HOLEWRIGHT_TRACE=changes, which costs time in every edit, also
 *     trace change at 81234567 us 9f86d081...         since then there is something new that no file holds: SHA-256 of the document
 *                                                     with it; "-" in its place: nothing any more
 */
#ifndef HW_TRACE_H
#define HW_TRACE_H

#include "hole.h"

#include <glib.h>
#include <stdbool.h>

bool hw_trace_is_on (void);
bool hw_trace_has_changes (void);
/* Time that the processor has given this thread. */
gint64 hw_trace_busy_us (void);
void hw_trace_window (void);
typedef struct
{
  double frame_ms, edit_ms, busy_ms;
  gint64 at_us;
  unsigned n_redraws, n_paints;
  Vec2 corner_px, place_px, aim_px;
  double px_per_m;
} HwTraceFrame;

void hw_trace_frame (const HwTraceFrame *frame);
void hw_trace_wind (double took_ms, double busy_ms);
/* `since_us` 0: now. NULL: all is saved. */
void hw_trace_change (gint64 since_us, const Hole *unsaved);

#endif
