// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * figure - an inscription that speaks for itself, a moment later. GTK's own tells a screen reader of every text it is given; of one that changes at every frame of a drag
 * nobody would hear more than the last.
 */
#ifndef HW_FIGURE_H
#define HW_FIGURE_H

#include <gtk/gtk.h>

/* In a template it takes an inscription's min-chars, nat-chars, min-lines, nat-lines, text-overflow, xalign and yalign. With has-tooltip and no other tooltip it shows its text in
 * full, which its lines may cut off. */
#define HW_TYPE_FIGURE (hw_figure_get_type ())
G_DECLARE_FINAL_TYPE (HwFigure, hw_figure, HW, FIGURE, GtkWidget)

/* Shows the text, and has it spoken when nothing newer comes. */
void hw_figure_set_text (HwFigure *self, const char *text);

#endif
