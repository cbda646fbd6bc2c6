// SPDX-License-Identifier: GPL-3.0-or-later
/* new-hole - asks for par, length, bend and width of a first drawing, or for an empty sheet. Emits "drawn" with the hole. */
#ifndef HW_NEW_HOLE_H
#define HW_NEW_HOLE_H

#include "hole.h"
#include "units.h"

#include <gtk/gtk.h>

#define HW_TYPE_NEW_HOLE (hw_new_hole_get_type ())
G_DECLARE_FINAL_TYPE (HwNewHole, hw_new_hole, HW, NEW_HOLE, GtkWindow)

/* With `course` the hole may be added to that course: the second argument of "drawn" (Hole *, gboolean) says so. */
GtkWindow *hw_new_hole_new (GtkWindow *parent, LengthUnit units, const char *course, int number);

#endif
