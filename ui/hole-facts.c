// SPDX-License-Identifier: GPL-3.0-or-later
/* hole-facts - fills the form from a hole and reads it back; a bearing that is none is said under it. */
#include "hole-facts.h"

#include "units.h"

#include <glib/gi18n.h>

#define FULL_TURN_DEG 360.0
/* Decimals that a bearing is shown with. */
#define BEARING_DECIMALS 2

struct _HwHoleFacts
{
  GtkWidget parent_instance;
  Hole *hole;
  char *title, *desc; /* as read last */
  GtkWidget *grid, *name_caption, *number_caption, *par_caption, *stroke_index_caption, *bearing_caption, *notes_caption;
  GtkEntry *name, *bearing;
  GtkSpinButton *number, *par, *stroke_index;
  GtkTextView *notes;
  GtkLabel *reason;
};

G_DEFINE_FINAL_TYPE (HwHoleFacts, hw_hole_facts, GTK_TYPE_WIDGET)

static guint edited_signal;

static bool
read_bearing (HwHoleFacts *self, double *bearing_deg)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->bearing))));
  char shown[UNITS_TEXT_SIZE];
  units_print_decimals (hole_info (self->hole)->up_bearing_deg, BEARING_DECIMALS, shown, sizeof shown);
  double angle_rad;
  gtk_widget_set_visible (GTK_WIDGET (self->reason), FALSE);
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
      return false;
    }
  double degrees = fmod (units_degrees (angle_rad), FULL_TURN_DEG);
  *bearing_deg = degrees < 0 ? degrees + FULL_TURN_DEG : degrees;
  return true;
}

/* What is typed, NULL for nothing. Takes `text`. */
static char *
text_or_null (char *text)
{
  if (text[0] != '\0')
    return text;
  g_free (text);
  return NULL;
}

bool
hw_hole_facts_read (HwHoleFacts *self, HoleInfo *info)
{
  double bearing_deg;
  if (self->hole == NULL)
    return false;
  if (!read_bearing (self, &bearing_deg))
    {
      gtk_widget_grab_focus (GTK_WIDGET (self->bearing));
      return false;
    }
  /* Takes what is typed and not yet entered. */
  gtk_spin_button_update (self->number);
  gtk_spin_button_update (self->par);
  gtk_spin_button_update (self->stroke_index);
  GtkTextIter start, end;
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->notes);
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  g_free (self->title);
  g_free (self->desc);
  self->title = text_or_null (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  self->desc = text_or_null (gtk_text_buffer_get_text (buffer, &start, &end, FALSE));
  *info = *hole_info (self->hole);
  info->title = self->title;
  info->desc = self->desc;
  info->number = gtk_spin_button_get_value_as_int (self->number);
  info->par = gtk_spin_button_get_value_as_int (self->par);
  info->stroke_index = gtk_spin_button_get_value_as_int (self->stroke_index);
  info->up_bearing_deg = bearing_deg;
  return true;
}

void
hw_hole_facts_set_hole (HwHoleFacts *self, Hole *hole)
{
  Hole *before = self->hole;
  self->hole = hole != NULL ? hole_ref (hole) : NULL;
  g_clear_pointer (&before, hole_unref);
  gtk_widget_set_sensitive (GTK_WIDGET (self), hole != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->reason), FALSE);
  HoleInfo none;
  hole_info_init (&none);
  const HoleInfo *info = hole != NULL ? hole_info (hole) : &none;
  char bearing[UNITS_TEXT_SIZE];
  gtk_editable_set_text (GTK_EDITABLE (self->name), info->title != NULL ? info->title : "");
  gtk_spin_button_set_value (self->number, info->number);
  gtk_spin_button_set_value (self->par, info->par);
  gtk_spin_button_set_value (self->stroke_index, info->stroke_index);
  units_print_decimals (info->up_bearing_deg, BEARING_DECIMALS, bearing, sizeof bearing);
  gtk_editable_set_text (GTK_EDITABLE (self->bearing), bearing);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->notes), info->desc != NULL ? info->desc : "", -1);
}

void
hw_hole_facts_set_brief (HwHoleFacts *self, GtkSizeGroup *captions)
{
  GtkWidget *widgets[]
      = { self->name_caption,      self->number_caption,      self->par_caption,      self->stroke_index_caption,
          GTK_WIDGET (self->name), GTK_WIDGET (self->number), GTK_WIDGET (self->par), GTK_WIDGET (self->stroke_index) };
  for (size_t i = 0; i < G_N_ELEMENTS (widgets); i++)
    gtk_widget_set_visible (widgets[i], FALSE);
  gtk_size_group_add_widget (captions, self->bearing_caption);
  gtk_size_group_add_widget (captions, self->notes_caption);
  gtk_entry_set_activates_default (self->bearing, FALSE);
  /* Undo is the course's. */
  gtk_editable_set_enable_undo (GTK_EDITABLE (self->bearing), FALSE);
}

static void
emit_edited (HwHoleFacts *self)
{
  if (self->hole != NULL)
    g_signal_emit (self, edited_signal, 0);
}

static void
watch_leaving (HwHoleFacts *self, GtkWidget *field)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (emit_edited), self);
  gtk_widget_add_controller (field, focus);
}

static void
hw_hole_facts_dispose (GObject *object)
{
  HwHoleFacts *self = HW_HOLE_FACTS (object);
  g_clear_pointer (&self->hole, hole_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_HOLE_FACTS);
  G_OBJECT_CLASS (hw_hole_facts_parent_class)->dispose (object);
}

static void
hw_hole_facts_finalize (GObject *object)
{
  HwHoleFacts *self = HW_HOLE_FACTS (object);
  g_free (self->title);
  g_free (self->desc);
  G_OBJECT_CLASS (hw_hole_facts_parent_class)->finalize (object);
}

static void
hw_hole_facts_class_init (HwHoleFactsClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_hole_facts_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_hole_facts_finalize;
  edited_signal = g_signal_new ("edited", HW_TYPE_HOLE_FACTS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/hole-facts.ui");
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, grid);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, name_caption);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, number_caption);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, par_caption);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, stroke_index_caption);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, bearing_caption);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, notes_caption);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, name);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, number);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, par);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, stroke_index);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, bearing);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, notes);
  gtk_widget_class_bind_template_child (widget_class, HwHoleFacts, reason);
}

static void
hw_hole_facts_init (HwHoleFacts *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  watch_leaving (self, GTK_WIDGET (self->bearing));
  watch_leaving (self, GTK_WIDGET (self->notes));
  g_signal_connect_swapped (self->bearing, "activate", G_CALLBACK (emit_edited), self);
}
