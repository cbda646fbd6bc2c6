// SPDX-License-Identifier: GPL-3.0-or-later
/* swatch - a small picture of a kind for palettes and lists: wash, hatch and edge of an area, the symbol of anything else. */
#ifndef HW_SWATCH_H
#define HW_SWATCH_H

#include "render.h"

#include <gtk/gtk.h>

GtkWidget *hw_swatch_new (void);
void hw_swatch_show (GtkWidget *swatch, Kind kind, Stakes stakes);

#endif
