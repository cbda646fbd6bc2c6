// SPDX-License-Identifier: GPL-3.0-or-later
/* keys - see keys.h. */
#include "keys.h"

void
hw_keys_add (GtkWidget *widget, const HwKey *keys, size_t n_keys, GtkPropagationPhase phase)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();
  gtk_event_controller_set_propagation_phase (controller, phase);
  for (size_t i = 0; i < n_keys; i++)
    gtk_shortcut_controller_add_shortcut (
        GTK_SHORTCUT_CONTROLLER (controller),
        gtk_shortcut_new (gtk_shortcut_trigger_parse_string (keys[i].trigger), gtk_named_action_new (keys[i].action)));
  gtk_widget_add_controller (widget, controller);
}
