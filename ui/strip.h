// SPDX-License-Identifier: GPL-3.0-or-later
/* strip - the ruler and the clubs under the drawing, on the drawing's own distance axis. A click on a club's bar plays the shot with it. */
#ifndef HW_STRIP_H
#define HW_STRIP_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_STRIP (hw_strip_get_type ())
G_DECLARE_FINAL_TYPE (HwStrip, hw_strip, HW, STRIP, GtkWidget)

void hw_strip_set_document (HwStrip *self, HwDocument *document);
/* The axis of the view above. */
void hw_strip_set_view (HwStrip *self, const RenderView *view);

/* In a window as narrow as a phone the names need more rows. */
void hw_strip_set_phone (HwStrip *self, bool is_phone);

#endif
