// SPDX-License-Identifier: GPL-3.0-or-later
/* application - the desktop program: a window per hole or course, preferences, About, keys. */
#ifndef HW_APPLICATION_H
#define HW_APPLICATION_H

#include <gtk/gtk.h>

#define HW_TYPE_APPLICATION (hw_application_get_type ())
G_DECLARE_FINAL_TYPE (HwApplication, hw_application, HW, APPLICATION, GtkApplication)

HwApplication *hw_application_new (void);

#endif
