// SPDX-License-Identifier: GPL-3.0-or-later
/* new-hole - the dialog stays open with the reason shown until a hole can be drawn from what it says. */
#include "new-hole.h"

#include "ask.h"
#include "edit.h"
#include "speak.h"

#include <glib/gi18n.h>

/* Par of the first row of the drop-down. */
#define LEAST_PAR 3
/* Usual lengths per par, what the length starts as (common practice). */
static const double usual_m[] = { 150, 350, 480, 620 };
/* An empty sheet is this wide and this much longer than the hole (common practice). */
#define SHEET_WIDTH_M 200.0
#define SHEET_MORE_M 60.0

struct _HwNewHole
{
  GtkWindow parent_instance;
  LengthUnit units;
  GtkEntry *name, *length, *fairway_width, *bend_at;
  GtkSpinButton *number;
  GtkDropDown *par, *bend;
  GtkCheckButton *empty, *in_course;
  GtkLabel *in_course_words;
  GtkLabel *reason;
  GtkButton *draw_button, *cancel_button;
};

G_DEFINE_FINAL_TYPE (HwNewHole, hw_new_hole, GTK_TYPE_WINDOW)

static guint drawn_signal;

static void
show_reason (HwNewHole *self, const char *text)
{
  gtk_label_set_text (self->reason, text);
  gtk_widget_set_visible (GTK_WIDGET (self->reason), TRUE);
}

/* The length typed, `usual` where nothing is. */
static bool
read_length (HwNewHole *self, GtkEntry *entry, double usual, double *length_m)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (entry))));
  *length_m = usual;
  if (text[0] == '\0' || units_parse_sum (text, self->units, length_m))
    return true;
  g_autofree char *reason = hw_no_length (text);
  show_reason (self, reason);
  gtk_widget_grab_focus (GTK_WIDGET (entry));
  return false;
}

static Hole *
named (Hole *hole, const HoleSketch *sketch)
{
  if (hole == NULL)
    return NULL;
  HoleInfo info = *hole_info (hole);
  info.title = sketch->title;
  info.number = sketch->number;
  info.par = sketch->par;
  Hole *with_names = hole_with_info (hole, &info);
  hole_unref (hole);
  return with_names;
}

static void
on_draw_cb (HwNewHole *self)
{
  HoleSketch sketch;
  g_autoptr (GError) error = NULL;
  hole_sketch_init (&sketch);
  guint par = gtk_drop_down_get_selected (self->par);
  g_autofree char *title = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->name))));
  sketch.title = title[0] != '\0' ? title : NULL;
  sketch.number = gtk_spin_button_get_value_as_int (self->number);
  sketch.par = LEAST_PAR + (int)par;
  sketch.bend = (Bend)gtk_drop_down_get_selected (self->bend);
  if (!read_length (self, self->length, usual_m[par], &sketch.length_m)
      || !read_length (self, self->fairway_width, NAN, &sketch.fairway_width_m)
      || !read_length (self, self->bend_at, NAN, &sketch.bend_at_m))
    return;
  bool is_empty = gtk_check_button_get_active (self->empty);
  Hole *hole = NULL;
  if (!is_empty)
    hole = edit_sketch_hole (&sketch, &error);
  else if (sketch.length_m >= 20 && sketch.length_m <= 1000)
    hole = named (edit_empty_hole (SHEET_WIDTH_M, sketch.length_m + SHEET_MORE_M), &sketch);
  if (hole == NULL)
    {
      show_reason (self, error != NULL ? error->message : _ ("A hole is 20 to 1000 metres long."));
      return;
    }
  g_signal_emit (self, drawn_signal, 0, hole, (gboolean)gtk_check_button_get_active (self->in_course));
  hole_unref (hole);
  gtk_window_destroy (GTK_WINDOW (self));
}

static void
show_usual_length (HwNewHole *self)
{
  char text[UNITS_TEXT_SIZE];
  units_print_length (usual_m[gtk_drop_down_get_selected (self->par)], self->units, text, sizeof text);
  gtk_entry_set_placeholder_text (self->length, text);
}

static void
on_bend_cb (HwNewHole *self)
{
  bool sketches = !gtk_check_button_get_active (self->empty);
  gtk_widget_set_sensitive (GTK_WIDGET (self->bend), sketches);
  gtk_widget_set_sensitive (GTK_WIDGET (self->bend_at), sketches && gtk_drop_down_get_selected (self->bend) != BEND_NONE);
  gtk_widget_set_sensitive (GTK_WIDGET (self->fairway_width), sketches);
}

static void
hw_new_hole_class_init (HwNewHoleClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  drawn_signal = g_signal_new ("drawn", HW_TYPE_NEW_HOLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                               G_TYPE_POINTER, G_TYPE_BOOLEAN);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/new-hole.ui");
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, name);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, number);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, par);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, length);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, fairway_width);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, bend);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, bend_at);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, empty);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, in_course);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, in_course_words);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, reason);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, draw_button);
  gtk_widget_class_bind_template_child (widget_class, HwNewHole, cancel_button);
}

static void
hw_new_hole_init (HwNewHole *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_speak_choice (self->par, _ ("Par"));
  hw_speak_choice (self->bend, _ ("Bends"));
  g_signal_connect_swapped (self->draw_button, "clicked", G_CALLBACK (on_draw_cb), self);
  g_signal_connect_swapped (self->cancel_button, "clicked", G_CALLBACK (gtk_window_destroy), self);
  g_signal_connect_swapped (self->par, "notify::selected", G_CALLBACK (show_usual_length), self);
  g_signal_connect_swapped (self->bend, "notify::selected", G_CALLBACK (on_bend_cb), self);
  g_signal_connect_swapped (self->empty, "toggled", G_CALLBACK (on_bend_cb), self);
  on_bend_cb (self);
}

GtkWindow *
hw_new_hole_new (GtkWindow *parent, LengthUnit units, const char *course, int number)
{
  HwNewHole *self = g_object_new (HW_TYPE_NEW_HOLE, "transient-for", parent, NULL);
  self->units = units;
  show_usual_length (self);
  gtk_spin_button_set_value (self->number, number);
  if (course != NULL)
    {
      g_autofree char *label = g_strdup_printf (_ ("_Add it to %s"), course);
      gtk_label_set_label (self->in_course_words, label);
      g_autofree char *spoken = g_strdup_printf (_ ("Add it to %s"), course);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->in_course), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
      gtk_check_button_set_active (self->in_course, TRUE);
      gtk_widget_set_visible (GTK_WIDGET (self->in_course), TRUE);
    }
  return GTK_WINDOW (self);
}
