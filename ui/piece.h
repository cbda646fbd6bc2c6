// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * piece - boxes of much that changes while something is dragged, in a panel that scrolls.
 *
 * A reel shows no more than what is in sight: GTK draws what is scrolled away as well, in every frame, for nothing. A piece is a reel that is painted anew as a whole
 * when anything in it changes: GTK follows no more than thirty changed rectangles, and would paint all of what holds more of them, as many small words do.
 */
#ifndef HW_PIECE_H
#define HW_PIECE_H

#include <gtk/gtk.h>
#include <stdbool.h>

#define HW_TYPE_REEL (hw_reel_get_type ())
G_DECLARE_DERIVABLE_TYPE (HwReel, hw_reel, HW, REEL, GtkBox)

struct _HwReelClass
{
  GtkBoxClass parent_class;
};

#define HW_TYPE_PIECE (hw_piece_get_type ())
G_DECLARE_FINAL_TYPE (HwPiece, hw_piece, HW, PIECE, HwReel)

/*
 * Puts a clear colour on these bounds, under all that is added to a widget's snapshot: another one tells that they changed. It is there in every frame, changed or not,
 * for what has other parts than before GTK takes to be another altogether; `n_told` counts the changes and is the widget's own.
 */
void hw_piece_tell (GtkSnapshot *snapshot, const graphene_rect_t *bounds, bool is_changed, unsigned *n_told);

#endif
