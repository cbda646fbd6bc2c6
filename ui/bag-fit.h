// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-fit - the dialog in which recorded shots tell of the clubs: what is fitted, how sure it is, and which clubs take it over. Emits "fitted" (number of clubs). */
#ifndef HW_BAG_FIT_H
#define HW_BAG_FIT_H

#include "bag-desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_BAG_FIT (hw_bag_fit_get_type ())
G_DECLARE_FINAL_TYPE (HwBagFit, hw_bag_fit, HW, BAG_FIT, GtkWindow)

GtkWindow *hw_bag_fit_new (GtkWindow *parent, HwBagDesk *desk);

#endif
