// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * import-list - the colours of a foreign drawing, or its shapes one by one, with a kind to choose for each.
 *
 * Emits "chosen" when a kind was chosen, "marked" when another row is selected.
 */
#ifndef HW_IMPORT_LIST_H
#define HW_IMPORT_LIST_H

#include "import-kinds.h"

#define HW_TYPE_IMPORT_LIST (hw_import_list_get_type ())
G_DECLARE_FINAL_TYPE (HwImportList, hw_import_list, HW, IMPORT_LIST, GtkWidget)

/* Starts with what can be guessed. The fragment is borrowed and outlives the list. */
void hw_import_list_set_fragment (HwImportList *self, const SvgFragment *fragment);
void hw_import_list_set_by_shape (HwImportList *self, bool by_shape);
/* What is chosen for a shape, by itself or by its colour: never HW_CHOICE_AS_COLOUR. */
HwChoice hw_import_list_get_choice (HwImportList *self, size_t part);
/* Leaves out whatever has no kind yet. */
void hw_import_list_leave_out_open (HwImportList *self);
/* Does the row selected stand for this shape? */
bool hw_import_list_is_marked (HwImportList *self, size_t part);

#endif
