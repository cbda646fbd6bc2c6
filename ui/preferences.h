// SPDX-License-Identifier: GPL-3.0-or-later
/* preferences - the dialog for units, player level, bag file and style. Changes count at once; there is nothing to confirm. */
#ifndef HW_PREFERENCES_H
#define HW_PREFERENCES_H

#include "settings.h"

#include <gtk/gtk.h>

#define HW_TYPE_PREFERENCES (hw_preferences_get_type ())
G_DECLARE_FINAL_TYPE (HwPreferences, hw_preferences, HW, PREFERENCES, GtkWindow)

GtkWindow *hw_preferences_new (GtkWindow *parent, HwSettings *settings);

#endif
