// SPDX-License-Identifier: GPL-3.0-or-later
/* card-panel - what the card holds and how large it is, what to mind, and the ways out: print and export. */
#ifndef HW_CARD_PANEL_H
#define HW_CARD_PANEL_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_CARD_PANEL (hw_card_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwCardPanel, hw_card_panel, HW, CARD_PANEL, GtkWidget)

void hw_card_panel_set_document (HwCardPanel *self, HwDocument *document);

#endif
