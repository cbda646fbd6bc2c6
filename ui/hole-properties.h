// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-properties - the facts of the hole in hand in a dialog. Emits "changed" (const HoleInfo *) with the facts as they are then. */
#ifndef HW_HOLE_PROPERTIES_H
#define HW_HOLE_PROPERTIES_H

#include "hole.h"

#include <gtk/gtk.h>

#define HW_TYPE_HOLE_PROPERTIES (hw_hole_properties_get_type ())
G_DECLARE_FINAL_TYPE (HwHoleProperties, hw_hole_properties, HW, HOLE_PROPERTIES, GtkWindow)

GtkWindow *hw_hole_properties_new (GtkWindow *parent, Hole *hole);

#endif
