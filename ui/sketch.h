// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * sketch - a drawing area whose picture is kept as pixels.
 *
 * GTK keeps what a drawing area draws as a list of strokes, which the cairo renderer draws again whenever anything near it is painted: for a hatched corner of a panel
 * that is painted in every frame, as often.
 */
#ifndef HW_SKETCH_H
#define HW_SKETCH_H

#include <gtk/gtk.h>

#define HW_TYPE_SKETCH (hw_sketch_get_type ())
G_DECLARE_FINAL_TYPE (HwSketch, hw_sketch, HW, SKETCH, GtkDrawingArea)

#endif
