// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-chooser - the button that names the hole in hand and opens the list of the course's holes. Emits "chosen" (index). */
#ifndef HW_HOLE_CHOOSER_H
#define HW_HOLE_CHOOSER_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_HOLE_CHOOSER (hw_hole_chooser_get_type ())
G_DECLARE_FINAL_TYPE (HwHoleChooser, hw_hole_chooser, HW, HOLE_CHOOSER, GtkWidget)

void hw_hole_chooser_set_document (HwHoleChooser *self, HwDocument *document);
/* Leaves out par and length where there is little room. */
void hw_hole_chooser_set_narrow (HwHoleChooser *self, bool is_narrow);

#endif
