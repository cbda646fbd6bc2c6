// SPDX-License-Identifier: GPL-3.0-or-later
/* palette - the ways to draw and the kinds to draw with, each kind beside the wash and hatch it paints with; buttons of win.draw-way and win.draw-kind. */
#ifndef HW_PALETTE_H
#define HW_PALETTE_H

#include <gtk/gtk.h>

#define HW_TYPE_PALETTE (hw_palette_get_type ())
G_DECLARE_FINAL_TYPE (HwPalette, hw_palette, HW, PALETTE, GtkWidget)

/* Words of the ways for win.draw-way, in the order of HwWay. */
extern const char *const hw_way_names[];

#endif
