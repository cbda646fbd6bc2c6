// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * disk-bar - says that the file of the hole in hand was changed or taken away by another while it is open, and lets the golfer load it again or
 * keep what is here.
 *
 * The file is watched, and looked at whenever hw_disk_bar_look is called: on some file systems nothing can be watched.
 */
#ifndef HW_DISK_BAR_H
#define HW_DISK_BAR_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_DISK_BAR (hw_disk_bar_get_type ())
G_DECLARE_FINAL_TYPE (HwDiskBar, hw_disk_bar, HW, DISK_BAR, GtkWidget)

/* Once. */
void hw_disk_bar_set_document (HwDiskBar *self, HwDocument *document);
void hw_disk_bar_look (HwDiskBar *self);
/* At phone width the buttons stand under the words. */
void hw_disk_bar_set_phone (HwDiskBar *self, bool is_phone);

#endif
