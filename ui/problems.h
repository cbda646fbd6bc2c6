// SPDX-License-Identifier: GPL-3.0-or-later
/* problems - what is suspect about the hole, at the foot of Draw: a count that unfolds into a list, each to be shown and, where possible, mended. */
#ifndef HW_PROBLEMS_H
#define HW_PROBLEMS_H

#include "desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_PROBLEMS (hw_problems_get_type ())
G_DECLARE_FINAL_TYPE (HwProblems, hw_problems, HW, PROBLEMS, GtkWidget)

void hw_problems_set_desk (HwProblems *self, HwDesk *desk);

#endif
