// SPDX-License-Identifier: GPL-3.0-or-later
/* import-view - the hole with a drawing put in, seen whole, and some of its shapes marked. */
#ifndef HW_IMPORT_VIEW_H
#define HW_IMPORT_VIEW_H

#include "render.h"

#include <gtk/gtk.h>

#define HW_TYPE_IMPORT_VIEW (hw_import_view_get_type ())
G_DECLARE_FINAL_TYPE (HwImportView, hw_import_view, HW, IMPORT_VIEW, GtkWidget)

/* Shows `hole` so that all of `frame` is seen. */
void hw_import_view_show (HwImportView *self, Hole *hole, Box frame, LengthUnit units);
/* Lines round what arrives, strong ones round some of it: GPtrArrays of const Part, borrowed no longer than the call. */
void hw_import_view_mark (HwImportView *self, const GPtrArray *arriving, const GPtrArray *marked);

#endif
