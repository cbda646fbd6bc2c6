// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-window - the golfer's clubs in a table to type into, each as a bar on one distance axis; the plan follows what is typed at once. */
#ifndef HW_BAG_WINDOW_H
#define HW_BAG_WINDOW_H

#include "document.h"
#include "svg.h"

#include <gtk/gtk.h>

#define HW_TYPE_BAG_WINDOW (hw_bag_window_get_type ())
G_DECLARE_FINAL_TYPE (HwBagWindow, hw_bag_window, HW, BAG_WINDOW, GtkWindow)

GtkWindow *hw_bag_window_new (GtkWindow *parent, HwDocument *document);
/* Lays a bag on the desk that an earlier run left unsaved. False with `error`, and nothing has changed. */
bool hw_bag_window_recover (HwBagWindow *self, const RecoveryCopy *copy, GError **error);

#endif
