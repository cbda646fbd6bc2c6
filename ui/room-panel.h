// SPDX-License-Identifier: GPL-3.0-or-later
/* room-panel - the room for error of the shot in hand in words: how far each way, and whether its lines stay out of trouble. */
#ifndef HW_ROOM_PANEL_H
#define HW_ROOM_PANEL_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_ROOM_PANEL (hw_room_panel_get_type ())
G_DECLARE_FINAL_TYPE (HwRoomPanel, hw_room_panel, HW, ROOM_PANEL, GtkWidget)

void hw_room_panel_set_document (HwRoomPanel *self, HwDocument *document);

#endif
