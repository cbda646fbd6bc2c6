// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * wind-rose - the wind on a compass that turns with the drawing: its tail is dragged to where it comes from, further out for a stronger one. Every move
 * is the plan's day; the whole drag is one step of undo, Escape takes it back.
 */
#ifndef HW_WIND_ROSE_H
#define HW_WIND_ROSE_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_WIND_ROSE (hw_wind_rose_get_type ())
G_DECLARE_FINAL_TYPE (HwWindRose, hw_wind_rose, HW, WIND_ROSE, GtkWidget)

void hw_wind_rose_set_document (HwWindRose *self, HwDocument *document);
/* How far the drawing is turned, anticlockwise. */
void hw_wind_rose_set_turn (HwWindRose *self, double turn_rad);

#endif
