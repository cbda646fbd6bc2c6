// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-chooser - a list of the bags beside the hole, to choose the one that the plan uses. */
#ifndef HW_BAG_CHOOSER_H
#define HW_BAG_CHOOSER_H

#include <gtk/gtk.h>

#define HW_TYPE_BAG_CHOOSER (hw_bag_chooser_get_type ())
G_DECLARE_FINAL_TYPE (HwBagChooser, hw_bag_chooser, HW, BAG_CHOOSER, GtkWidget)

/* Lists the files, absolute paths, and shows `path` as chosen; one that is not among them, NULL too, is listed as `name`. Emits "chosen" (path) when another is. */
void hw_bag_chooser_show (HwBagChooser *self, GPtrArray *paths, const char *path, const char *name);

#endif
