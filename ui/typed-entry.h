// SPDX-License-Identifier: GPL-3.0-or-later
/* typed-entry - an entry that shows a value: what is typed takes effect on Enter or when it is left, Escape brings back what was there. */
#ifndef HW_TYPED_ENTRY_H
#define HW_TYPED_ENTRY_H

#include <gtk/gtk.h>
#include <stdbool.h>

/* Takes what was typed into entry number `which`; false when it cannot be used, of which the owner has said why. NULL: it was given up. */
typedef bool (*HwTypedTake) (gpointer owner, guint which, const char *text);

#define HW_TYPE_TYPED_ENTRY (hw_typed_entry_get_type ())
G_DECLARE_FINAL_TYPE (HwTypedEntry, hw_typed_entry, HW, TYPED_ENTRY, GtkWidget)

/* `name` is what a screen reader calls it, and its tooltip; `owner`, its parent, outlives it. */
GtkWidget *hw_typed_entry_new (const char *name, HwTypedTake take, gpointer owner, guint which);
/* Shows a value, unless another is being typed; `hint` stands in an empty entry and may be NULL. */
void hw_typed_entry_show (HwTypedEntry *self, const char *text, const char *hint);
/* The value shown becomes what is in the entry, whatever was typed. */
void hw_typed_entry_revert (HwTypedEntry *self);

#endif
