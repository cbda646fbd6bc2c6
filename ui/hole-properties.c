// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-properties - fills the dialog from the hole's facts and makes a hole with the facts as they are then. */
#include "hole-properties.h"

#include "units.h"

#include <glib/gi18n.h>

#define FULL_TURN_DEG 360.0
/* Decimals that a bearing is shown with. */
#define BEARING_DECIMALS 2

struct _HwHoleProperties
{
  GtkWindow parent_instance;
  Hole *hole;
  GtkEntry *name, *bearing;
  GtkSpinButton *number, *par, *stroke_index;
  GtkTextView *notes;
  GtkLabel *reason;
  GtkButton *change_button, *cancel_button;
};

G_DEFINE_FINAL_TYPE (HwHoleProperties, hw_hole_properties, GTK_TYPE_WINDOW)

static guint changed_signal;

static bool
read_bearing (HwHoleProperties *self, double *bearing_deg)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->bearing))));
  char shown[UNITS_TEXT_SIZE];
  units_print_decimals (hole_info (self->hole)->up_bearing_deg, BEARING_DECIMALS, shown, sizeof shown);
  double angle_rad;
  *bearing_deg = NAN;
  if (text[0] == '\0')
    return true;
  *bearing_deg = hole_info (self->hole)->up_bearing_deg;
  if (g_str_equal (text, shown))
    return true;
  if (!units_parse_angle (text, &angle_rad))
    {
      g_autofree char *reason = g_strdup_printf (_ ("“%s” is no bearing; type degrees from north, 0 to 360."), text);
      gtk_label_set_text (self->reason, reason);
      gtk_widget_set_visible (GTK_WIDGET (self->reason), TRUE);
      gtk_widget_grab_focus (GTK_WIDGET (self->bearing));
      return false;
    }
  double degrees = fmod (units_degrees (angle_rad), FULL_TURN_DEG);
  *bearing_deg = degrees < 0 ? degrees + FULL_TURN_DEG : degrees;
  return true;
}

/* What is typed, NULL for nothing. */
static char *
text_or_null (char *text)
{
  if (text[0] != '\0')
    return text;
  g_free (text);
  return NULL;
}

static void
on_change_cb (HwHoleProperties *self)
{
  double bearing_deg;
  if (!read_bearing (self, &bearing_deg))
    return;
  GtkTextIter start, end;
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->notes);
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  g_autofree char *title = text_or_null (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  g_autofree char *desc = text_or_null (gtk_text_buffer_get_text (buffer, &start, &end, FALSE));
  HoleInfo info = *hole_info (self->hole);
  info.title = title;
  info.desc = desc;
  info.number = gtk_spin_button_get_value_as_int (self->number);
  info.par = gtk_spin_button_get_value_as_int (self->par);
  info.stroke_index = gtk_spin_button_get_value_as_int (self->stroke_index);
  info.up_bearing_deg = bearing_deg;
  if (!hole_info_equal (&info, hole_info (self->hole)))
    {
      g_autoptr (Hole) changed = hole_with_info (self->hole, &info);
      g_signal_emit (self, changed_signal, 0, changed);
    }
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
hw_hole_properties_finalize (GObject *object)
{
  hole_unref (HW_HOLE_PROPERTIES (object)->hole);
  G_OBJECT_CLASS (hw_hole_properties_parent_class)->finalize (object);
}

static void
hw_hole_properties_class_init (HwHolePropertiesClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = hw_hole_properties_finalize;
  changed_signal = g_signal_new ("changed", HW_TYPE_HOLE_PROPERTIES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1,
                                 G_TYPE_POINTER);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/hole-properties.ui");
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, name);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, number);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, par);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, stroke_index);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, bearing);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, notes);
  gtk_widget_class_bind_template_child (widget_class, HwHoleProperties, reason);
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
  const HoleInfo *info = hole_info (hole);
  char bearing[UNITS_TEXT_SIZE];
  self->hole = hole_ref (hole);
  gtk_editable_set_text (GTK_EDITABLE (self->name), info->title != NULL ? info->title : "");
  gtk_spin_button_set_value (self->number, info->number);
  gtk_spin_button_set_value (self->par, info->par);
  gtk_spin_button_set_value (self->stroke_index, info->stroke_index);
  units_print_decimals (info->up_bearing_deg, BEARING_DECIMALS, bearing, sizeof bearing);
  gtk_editable_set_text (GTK_EDITABLE (self->bearing), bearing);
  if (info->desc != NULL)
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->notes), info->desc, -1);
  return GTK_WINDOW (self);
}
