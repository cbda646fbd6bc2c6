// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-facts - the form of a hole's facts: name, number, par, stroke index, bearing and notes. Emits "edited" when a field was left or entered. */
#ifndef HW_HOLE_FACTS_H
#define HW_HOLE_FACTS_H

#include "hole.h"

#include <gtk/gtk.h>

#define HW_TYPE_HOLE_FACTS (hw_hole_facts_get_type ())
G_DECLARE_FINAL_TYPE (HwHoleFacts, hw_hole_facts, HW, HOLE_FACTS, GtkWidget)

/* Fills the form in; NULL empties it. What was typed before is gone. */
void hw_hole_facts_set_hole (HwHoleFacts *self, Hole *hole);
/* Leaves out what stands in the table of holes beside the form; its captions are as wide as the others in the group. */
void hw_hole_facts_set_brief (HwHoleFacts *self, GtkSizeGroup *captions);
/* The facts as they are in the form; strings stay the form's until the next call. False when one cannot be used: the form says which and why. */
bool hw_hole_facts_read (HwHoleFacts *self, HoleInfo *info);

#endif
