// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * import - asks how large a foreign drawing is and what its shapes mean, and shows how they would arrive on the hole. Emits "placed" (GPtrArray of
 * const Part) when the golfer puts it in; closed in any other way it leaves no trace.
 */
#ifndef HW_IMPORT_H
#define HW_IMPORT_H

#include "svg.h"
#include "units.h"

#include <gtk/gtk.h>

#define HW_TYPE_IMPORT (hw_import_get_type ())
G_DECLARE_FINAL_TYPE (HwImport, hw_import, HW, IMPORT, GtkWindow)

/* All borrowed; the hole is referenced. */
typedef struct
{
  Hole *hole;
  LengthUnit units;
  Vec2 middle;               /* where the middle of the drawing comes to lie */
  const GPtrArray *findings; /* of reading it; may be NULL */
} HwImportSource;

/* Takes over the fragment. */
GtkWindow *hw_import_new (GtkWindow *parent, SvgFragment *fragment, const HwImportSource *source);

#endif
