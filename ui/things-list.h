// SPDX-License-Identifier: GPL-3.0-or-later
/* things-list - everything on the hole, topmost first: name, kind, distance from the tee. Selecting here selects on the drawing, and the other way round. */
#ifndef HW_THINGS_LIST_H
#define HW_THINGS_LIST_H

#include "desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_THINGS_LIST (hw_things_list_get_type ())
G_DECLARE_FINAL_TYPE (HwThingsList, hw_things_list, HW, THINGS_LIST, GtkWidget)

void hw_things_list_set_desk (HwThingsList *self, HwDesk *desk);

#endif
