// SPDX-License-Identifier: GPL-3.0-or-later
/* ask - a small dialog that asks for one number with its unit, and says at once when what was typed is none. */
#ifndef HW_ASK_H
#define HW_ASK_H

#include "units.h"

#include <gtk/gtk.h>

/* Reads what was typed; false with a sentence in `error` when it cannot be used. */
typedef bool (*HwAskRead) (const char *text, gpointer user_data, double *value, char **error);
typedef void (*HwAskThen) (double value, gpointer user_data);

/* `user_data` is a GObject, referenced as long as the dialog is there. */
void hw_ask (GtkWindow *parent, const char *title, const char *label, const char *hint, HwAskRead read, HwAskThen then,
             gpointer user_data);

/* "12 parsecs" is no length: what to type instead. Free with g_free. */
char *hw_no_length (const char *text);
char *hw_no_angle (const char *text);

#endif
