// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * recovered-bar - "Recovered work" above the drawing: each copy with its hole, file and time, to open or to discard. Nothing waits for it.
 *
 * Emits "open" (guint) with the index of the copy to be opened. Hidden while there is nothing to offer or the golfer put it off.
 */
#ifndef HW_RECOVERED_BAR_H
#define HW_RECOVERED_BAR_H

#include "recovered.h"

#include <gtk/gtk.h>

#define HW_TYPE_RECOVERED_BAR (hw_recovered_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwRecoveredBar, hw_recovered_bar, HW, RECOVERED_BAR, GtkWidget)

/* Once; shows what there is. */
void hw_recovered_bar_set_recovered (HwRecoveredBar *self, HwRecovered *recovered);

#endif
