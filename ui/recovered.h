// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * recovered - what earlier runs of the program left unsaved: the recovery copies found at the start, shared by all windows.
 *
 * Emits "changed". A copy that is discarded is only marked, and can be kept after all until the program ends; then it is removed. What is neither
 * opened nor discarded is offered again at the next start.
 */
#ifndef HW_RECOVERED_H
#define HW_RECOVERED_H

#include "svg.h"

#include <gio/gio.h>

#define HW_TYPE_RECOVERED (hw_recovered_get_type ())
G_DECLARE_FINAL_TYPE (HwRecovered, hw_recovered, HW, RECOVERED, GObject)

/* Looks for copies whose process is dead. */
HwRecovered *hw_recovered_new (void);
/* Why they could not be looked for; NULL if they could. Borrowed. */
const char *hw_recovered_get_trouble (HwRecovered *self);
size_t hw_recovered_get_n (HwRecovered *self);
/* Newest first. Borrowed. */
const RecoveryCopy *hw_recovered_get (HwRecovered *self, size_t i);
bool hw_recovered_is_discarded (HwRecovered *self, size_t i);
void hw_recovered_set_discarded (HwRecovered *self, size_t i, bool is_discarded);
/* It was opened, or is no longer there. */
void hw_recovered_remove (HwRecovered *self, size_t i);

#endif
