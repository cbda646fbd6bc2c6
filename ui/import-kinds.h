// SPDX-License-Identifier: GPL-3.0-or-later
/* import-kinds - what a foreign shape can become, as a drop-down. */
#ifndef HW_IMPORT_KINDS_H
#define HW_IMPORT_KINDS_H

#include "svg.h"

#include <gtk/gtk.h>

/* A kind (KIND_NONE: put in without one), SVG_LEAVE_OUT, or one of these. */
typedef int HwChoice;
#define HW_CHOICE_OPEN (-1)      /* not said yet */
#define HW_CHOICE_AS_COLOUR (-2) /* as the other shapes of its colour */

/* Calls back with (GtkWidget *, HwChoice, user_data) when the golfer chooses. */
typedef void (*HwChose) (GtkWidget *kinds, HwChoice choice, gpointer user_data);
/* With `for_shape`, its first choice is "as its colour", else "choose". */
GtkWidget *hw_import_kinds_new (bool for_shape, HwChose chose, gpointer user_data);
void hw_import_kinds_show (GtkWidget *kinds, HwChoice choice);

#endif
