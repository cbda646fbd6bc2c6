// SPDX-License-Identifier: GPL-3.0-or-later
/* appearance - the program's own colours over the desktop's theme, light or dark as the golfer or the desktop prefers. */
#ifndef HW_APPEARANCE_H
#define HW_APPEARANCE_H

#include "settings.h"

#include <gtk/gtk.h>

/* Loads style.css for the display and follows preference and desktop from then on. */
void hw_appearance_start (GdkDisplay *display, HwSettings *settings);
/* Is this widget drawn in the dark style? */
bool hw_appearance_is_dark (GtkWidget *widget);
/* How many times the usual size the widget's text has, as the desktop or the theme wants it; at least 1. */
double hw_text_scale (GtkWidget *widget);

#endif
