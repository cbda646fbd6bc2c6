// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-fields - what is exact about the thing selected: name, kind, place from the tee and off the line, size, angle; typed with units and sums; and its facts. */
#ifndef HW_THING_FIELDS_H
#define HW_THING_FIELDS_H

#include "desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_THING_FIELDS (hw_thing_fields_get_type ())
G_DECLARE_FINAL_TYPE (HwThingFields, hw_thing_fields, HW, THING_FIELDS, GtkWidget)

void hw_thing_fields_set_desk (HwThingFields *self, HwDesk *desk);

#endif
