// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-facts - what is known of the things selected besides their place: slope, height, stakes, today's hole and the rest; of several what they share. */
#ifndef HW_THING_FACTS_H
#define HW_THING_FACTS_H

#include "desk.h"

#include <gtk/gtk.h>

#define HW_TYPE_THING_FACTS (hw_thing_facts_get_type ())
G_DECLARE_FINAL_TYPE (HwThingFacts, hw_thing_facts, HW, THING_FACTS, GtkWidget)

void hw_thing_facts_set_desk (HwThingFacts *self, HwDesk *desk);

#endif
