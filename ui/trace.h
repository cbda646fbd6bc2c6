// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * trace - figures for the benchmarks: with HOLEWRIGHT_TRACE=1 in the environment, lines on standard error.
 *
 *     trace window at 81234567 us                     first frame of a window, on the monotonic clock
 *     trace frame 3.41 ms edit 0.62 ms redraws 1 aim 612 300    work of one frame of the drawing, the edit's part of it, full
 *                                                     redraws so far, where the aim of the shot in hand stands on the drawing
 */
#ifndef HW_TRACE_H
#define HW_TRACE_H

#include <glib.h>
#include <stdbool.h>

bool hw_trace_is_on (void);
void hw_trace_window (void);
void hw_trace_frame (double frame_ms, double edit_ms, unsigned redraws, double aim_x_px, double aim_y_px);

#endif
