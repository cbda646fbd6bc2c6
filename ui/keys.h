// SPDX-License-Identifier: GPL-3.0-or-later
/* keys - the keys that a widget has for actions. */
#ifndef HW_KEYS_H
#define HW_KEYS_H

#include <gtk/gtk.h>

/* A trigger as GtkShortcutTrigger writes it, and the action's name with its group. */
typedef struct
{
  const char *trigger, *action;
} HwKey;

/* In GTK_PHASE_CAPTURE they come before those of the widgets inside, in GTK_PHASE_BUBBLE after, so that a field that is typed into keeps its own. */
void hw_keys_add (GtkWidget *widget, const HwKey *keys, size_t n_keys, GtkPropagationPhase phase);

#endif
