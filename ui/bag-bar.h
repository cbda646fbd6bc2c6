// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-bar - one club of the bag as a bar on the distance axis that all rows share, or the ruler over them. */
#ifndef HW_BAG_BAR_H
#define HW_BAG_BAR_H

#include "bag.h"

#include <gtk/gtk.h>

#define HW_TYPE_BAG_BAR (hw_bag_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwBagBar, hw_bag_bar, HW, BAG_BAR, GtkWidget)

GtkWidget *hw_bag_bar_new (void);
/* Shows club `i` of the bag. */
void hw_bag_bar_show (HwBagBar *self, Bag *bag, size_t i, LengthUnit units);
/* Shows the ruler of the bag's axis. */
void hw_bag_bar_show_ruler (HwBagBar *self, Bag *bag, LengthUnit units);

#endif
