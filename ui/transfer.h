// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * transfer - a drawing that comes from outside: from the clipboard, from a drop or from a file, as image/svg+xml, as text that is SVG, or as the address
 * of a file. Read in pieces while the window goes on, up to SVG_MOST_BYTES, and taken apart in a thread of its own.
 */
#ifndef HW_TRANSFER_H
#define HW_TRANSFER_H

#include "svg.h"

#include <gtk/gtk.h>

/* What arrived. */
typedef struct
{
  char *path;            /* of the file or folder it is; NULL for the drawing itself */
  SvgFragment *fragment; /* NULL: it cannot be taken as a drawing, being a folder, a course or an empty hole */
  GPtrArray *findings;   /* of reading the fragment */
} HwArrival;

void hw_arrival_free (HwArrival *arrival);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HwArrival, hw_arrival_free)

/* Forms in which a drawing can come, best first; ends with NULL. */
extern const char *const hw_transfer_mime_types[];

void hw_transfer_read_clipboard (GdkClipboard *clipboard, GCancellable *cancellable, GAsyncReadyCallback done,
                                 gpointer user_data);
void hw_transfer_read_drop (GdkDrop *drop, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data);
/*
 * NULL with one sentence for the golfer in `error`, G_IO_ERROR_CANCELLED when it was cancelled.
 * A file that cannot be read arrives by its path alone.
 */
HwArrival *hw_transfer_finish (GAsyncResult *result, GError **error);

#endif
