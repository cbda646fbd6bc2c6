// SPDX-License-Identifier: GPL-3.0-or-later
/* section - the shot in hand from its side, under the drawing and on its distance axis. */
#ifndef HW_SECTION_H
#define HW_SECTION_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_SECTION (hw_section_get_type ())
G_DECLARE_FINAL_TYPE (HwSection, hw_section, HW, SECTION, GtkWidget)

void hw_section_set_document (HwSection *self, HwDocument *document);
/* The axis of the view above. */
void hw_section_set_view (HwSection *self, const RenderView *view);
/* How high it stands, px. */
void hw_section_set_height (HwSection *self, int height_px);

#endif
