// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-properties - the form of a hole's facts with a button that hands them over. */
#include "hole-properties.h"

#include "hole-facts.h"

struct _HwHoleProperties
{
  GtkWindow parent_instance;
  HwHoleFacts *facts;
  GtkButton *change_button, *cancel_button;
};

G_DEFINE_FINAL_TYPE (HwHoleProperties, hw_hole_properties, GTK_TYPE_WINDOW)

static guint changed_signal;

static void
on_change_cb (HwHoleProperties *self)
{
  HoleInfo info;
  if (!hw_hole_facts_read (self->facts, &info))
    return;
  g_signal_emit (self, changed_signal, 0, &info);
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
hw_hole_properties_class_init (HwHolePropertiesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  g_type_ensure (HW_TYPE_HOLE_FACTS);
  changed_signal = g_signal_new ("changed", HW_TYPE_HOLE_PROPERTIES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_POINTER);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/hole-properties.ui");
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, facts);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, change_button);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, cancel_button);
}

static void
hw_hole_properties_init (HwHoleProperties *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->change_button, "clicked", G_CALLBACK (on_change_cb), self);
  g_signal_connect_swapped (self->cancel_button, "clicked", G_CALLBACK (gtk_window_destroy), self);
}

GtkWindow *
hw_hole_properties_new (GtkWindow *parent, Hole *hole)
{
  HwHoleProperties *self = g_object_new (HW_TYPE_HOLE_PROPERTIES, "transient-for", parent, NULL);
  hw_hole_facts_set_hole (self->facts, hole);
  return GTK_WINDOW (self);
}
