// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * display-memory - the memory in which cairo hands finished frames to an X server. A frame that is ready before the server has done with the last takes a further block of it,
 * and to touch all the pages of a block for the first time takes so long that the next frame is missed. So they are touched before anything moves.
 */
#ifndef HW_DISPLAY_MEMORY_H
#define HW_DISPLAY_MEMORY_H

#include <gtk/gtk.h>

typedef struct _HwDisplayMemory HwDisplayMemory;

/* Of a window, which outlives it. */
HwDisplayMemory *hw_display_memory_new (GtkWidget *window);
void hw_display_memory_free (HwDisplayMemory *self);
/* The window has another size; when it keeps that, memory for frames of it is made ready by a thread of its own. Only where cairo paints, for an X server. */
void hw_display_memory_follow (HwDisplayMemory *self);

#endif
