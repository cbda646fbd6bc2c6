// SPDX-License-Identifier: GPL-3.0-or-later
/* card-view - the card as it will print, at true scale, on a desk that scrolls. */
#ifndef HW_CARD_VIEW_H
#define HW_CARD_VIEW_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_CARD_VIEW (hw_card_view_get_type ())
G_DECLARE_FINAL_TYPE (HwCardView, hw_card_view, HW, CARD_VIEW, GtkWidget)

void hw_card_view_set_document (HwCardView *self, HwDocument *document);

#endif
