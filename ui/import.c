// SPDX-License-Identifier: GPL-3.0-or-later
/* import - three fields for one scale, the list of kinds, and the picture that follows both. */
#include "import.h"

#include "ask.h"
#include "import-list.h"
#include "import-view.h"

#include "edit.h"

#include <glib/gi18n.h>
#include <math.h>

/* Below this width, px, the picture stands above the questions; both beside each other need less. */
#define NARROW_PX 680
/* Size at first, px, as far as the window behind allows. */
#define USUAL_WIDTH_PX 880
#define USUAL_HEIGHT_PX 640
#define LEAST_WIDTH_PX 360

typedef enum
{
  FIELD_WIDTH,
  FIELD_LENGTH,
  FIELD_RATIO,
  N_FIELDS
} Field;

struct _HwImport
{
  GtkWindow parent_instance;
  SvgFragment *fragment;
  Hole *hole;
  LengthUnit units;
  Vec2 middle;
  double metres_per_unit;
  bool is_showing; /* fields are filled in by the program */
  bool is_narrow;

  GtkBox *content;
  HwImportView *view;
  HwImportList *list;
  GtkEntry *fields[N_FIELDS];
  GtkWidget *ratio_box, *leave_out_button, *put_in_button, *cancel_button;
  GtkToggleButton *by_shape;
  GtkLabel *note, *reason;
};

G_DEFINE_FINAL_TYPE (HwImport, hw_import, GTK_TYPE_WINDOW)

static guint placed_signal;

/* ---- what would arrive ---- */

static size_t
count_open (HwImport *self)
{
  size_t n = 0;
  for (size_t i = 0; i < self->fragment->n_parts; i++)
    n += hw_import_list_get_choice (self->list, i) == HW_CHOICE_OPEN;
  return n;
}

/* The shapes as parts of the hole; those without an answer have no kind. `marked` (may be NULL) receives the marked ones, borrowed. */
static GPtrArray *
place (HwImport *self, GPtrArray *marked, GError **error)
{
  size_t n = self->fragment->n_parts, n_placed = 0;
  g_autofree Kind *kinds = g_new (Kind, n + 1);
  for (size_t i = 0; i < n; i++)
    {
      HwChoice choice = hw_import_list_get_choice (self->list, i);
      kinds[i] = choice == HW_CHOICE_OPEN ? KIND_NONE : (Kind)choice;
    }
  GPtrArray *parts = svg_fragment_place (self->fragment, self->hole, kinds, self->metres_per_unit, self->middle, error);
  for (size_t i = 0; parts != NULL && marked != NULL && i < n; i++)
    if (kinds[i] != SVG_LEAVE_OUT)
      {
        if (hw_import_list_is_marked (self->list, i))
          g_ptr_array_add (marked, parts->pdata[n_placed]);
        n_placed++;
      }
  return parts;
}

static void
show_reason (HwImport *self, const char *text)
{
  gtk_label_set_text (self->reason, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), text != NULL);
}

/* The hole with what would arrive, the whole of both in sight. */
static void
show_picture (HwImport *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) marked = g_ptr_array_new ();
  g_autoptr (GPtrArray) nothing = g_ptr_array_new ();
  g_autoptr (GPtrArray) parts = place (self, marked, &error);
  Box frame = hole_extent (self->hole);
  for (guint i = 0; parts != NULL && i < parts->len; i++)
    frame = box_union (frame, ((const Part *)parts->pdata[i])->bounds);
  Hole *with = parts != NULL
                   ? edit_paste (self->hole, (const Part *const *)parts->pdata, parts->len, vec2 (0, 0), NULL, NULL, &error)
                   : NULL;
  hw_import_view_show (self->view, with != NULL ? with : self->hole, frame, self->units);
  hw_import_view_mark (self->view, parts != NULL ? parts : nothing, marked);
  g_clear_pointer (&with, hole_unref);
  size_t n_open = count_open (self);
  g_autofree char *open = g_strdup_printf (g_dngettext (NULL, "%zu shape has no kind yet; choose one, or leave it out.",
                                                        "%zu shapes have no kind yet; choose one, or leave them out.", n_open),
                                           n_open);
  show_reason (self, n_open > 0 ? open : error != NULL ? error->message : NULL);
  gtk_widget_set_visible (self->leave_out_button, n_open > 0);
  gtk_widget_set_sensitive (self->put_in_button, n_open == 0 && error == NULL);
}

/* ---- the scale ---- */

static double
extent_of (HwImport *self, Field field)
{
  Box box = self->fragment->extent;
  return field == FIELD_WIDTH ? box.x1 - box.x0 : box.y1 - box.y0;
}

/* Fills in the fields but the one that is typed into. */
static void
show_scale (HwImport *self, int typed)
{
  char text[UNITS_TEXT_SIZE];
  self->is_showing = true;
  for (int field = 0; field < N_FIELDS; field++)
    {
      if (field == typed)
        continue;
      if (field == FIELD_RATIO)
        {
          units_print_decimals (self->metres_per_unit * 1000 / self->fragment->unit_mm, 0, text, sizeof text);
          gtk_editable_set_text (GTK_EDITABLE (self->fields[field]), text);
          continue;
        }
      double length = unit_from_metres (self->units, extent_of (self, (Field)field) * self->metres_per_unit);
      units_print_decimals (length, 1, text, sizeof text);
      g_autofree char *with_unit = g_strdup_printf ("%s %s", text, unit_suffix (self->units));
      gtk_editable_set_text (GTK_EDITABLE (self->fields[field]), with_unit);
    }
  self->is_showing = false;
}

/* "1000", "1:1000" */
static bool
read_ratio (const char *text, double *ratio)
{
  const char *colon = strchr (text, ':');
  double one = 1;
  g_autofree char *before = colon != NULL ? g_strndup (text, (gsize)(colon - text)) : NULL;
  return (before == NULL || (units_parse_number (before, &one) && one == 1))
         && units_parse_number (colon != NULL ? colon + 1 : text, ratio);
}

static void
on_field_changed_cb (GtkEntry *entry, HwImport *self)
{
  if (self->is_showing)
    return;
  Field field = FIELD_WIDTH;
  while (self->fields[field] != entry)
    field++;
  const char *text = gtk_editable_get_text (GTK_EDITABLE (entry));
  double value = NAN, metres_per_unit = NAN;
  if (field == FIELD_RATIO && read_ratio (text, &value))
    metres_per_unit = value * self->fragment->unit_mm / 1000;
  else if (field != FIELD_RATIO && units_parse_sum (text, self->units, &value))
    metres_per_unit = value / extent_of (self, field);
  if (metres_per_unit > 0 && isfinite (metres_per_unit))
    {
      self->metres_per_unit = metres_per_unit;
      show_scale (self, (int)field);
      show_picture (self);
      return;
    }
  g_autofree char *reason
      = field == FIELD_RATIO ? g_strdup_printf (_ ("“%s” is no scale; type 1000 or 1:1000."), text) : hw_no_length (text);
  show_reason (self, reason);
  gtk_widget_set_visible (self->leave_out_button, FALSE);
  gtk_widget_set_sensitive (self->put_in_button, FALSE);
}

/* ---- the answer ---- */

static void
on_put_in_cb (HwImport *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) parts = place (self, NULL, &error);
  if (parts == NULL)
    {
      show_reason (self, error->message);
      return;
    }
  g_object_ref (self);
  gtk_window_destroy (GTK_WINDOW (self));
  g_signal_emit (self, placed_signal, 0, parts);
  g_object_unref (self);
}

static void
on_leave_out_cb (HwImport *self)
{
  hw_import_list_leave_out_open (self->list);
}

static void
on_by_shape_cb (HwImport *self)
{
  hw_import_list_set_by_shape (self->list, gtk_toggle_button_get_active (self->by_shape));
}

/* ---- the window ---- */

static void
apply_width (HwImport *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->content),
                                  self->is_narrow ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
}

static gboolean
on_width_idle_cb (gpointer user_data)
{
  apply_width (user_data);
  return G_SOURCE_REMOVE;
}

static void
hw_import_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwImport *self = HW_IMPORT (widget);
  if ((width < NARROW_PX) != self->is_narrow)
    {
      self->is_narrow = width < NARROW_PX;
      /* Nothing can be turned while sizes are given out. */
      g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_width_idle_cb, g_object_ref (self), g_object_unref);
    }
  GTK_WIDGET_CLASS (hw_import_parent_class)->size_allocate (widget, width, height, baseline);
}

static void
hw_import_finalize (GObject *object)
{
  HwImport *self = HW_IMPORT (object);
  svg_fragment_free (self->fragment);
  hole_unref (self->hole);
  G_OBJECT_CLASS (hw_import_parent_class)->finalize (object);
}

static void
hw_import_class_init (HwImportClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = hw_import_finalize;
  widget_class->size_allocate = hw_import_size_allocate;
  placed_signal
      = g_signal_new ("placed", HW_TYPE_IMPORT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);
  g_type_ensure (HW_TYPE_IMPORT_VIEW);
  g_type_ensure (HW_TYPE_IMPORT_LIST);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/import.ui");
  gtk_widget_class_bind_template_child (widget_class, HwImport, content);
  gtk_widget_class_bind_template_child (widget_class, HwImport, view);
  gtk_widget_class_bind_template_child (widget_class, HwImport, list);
  gtk_widget_class_bind_template_child_full (widget_class, "width", FALSE,
                                             G_STRUCT_OFFSET (HwImport, fields) + FIELD_WIDTH * sizeof (GtkEntry *));
  gtk_widget_class_bind_template_child_full (widget_class, "length", FALSE,
                                             G_STRUCT_OFFSET (HwImport, fields) + FIELD_LENGTH * sizeof (GtkEntry *));
  gtk_widget_class_bind_template_child_full (widget_class, "ratio", FALSE,
                                             G_STRUCT_OFFSET (HwImport, fields) + FIELD_RATIO * sizeof (GtkEntry *));
  gtk_widget_class_bind_template_child (widget_class, HwImport, ratio_box);
  gtk_widget_class_bind_template_child (widget_class, HwImport, by_shape);
  gtk_widget_class_bind_template_child (widget_class, HwImport, note);
  gtk_widget_class_bind_template_child (widget_class, HwImport, reason);
  gtk_widget_class_bind_template_child (widget_class, HwImport, leave_out_button);
  gtk_widget_class_bind_template_child (widget_class, HwImport, put_in_button);
  gtk_widget_class_bind_template_child (widget_class, HwImport, cancel_button);
}

static void
hw_import_init (HwImport *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->put_in_button, "clicked", G_CALLBACK (on_put_in_cb), self);
  g_signal_connect_swapped (self->cancel_button, "clicked", G_CALLBACK (gtk_window_destroy), self);
  g_signal_connect_swapped (self->leave_out_button, "clicked", G_CALLBACK (on_leave_out_cb), self);
  g_signal_connect_swapped (self->by_shape, "toggled", G_CALLBACK (on_by_shape_cb), self);
}

static void
show_findings (HwImport *self, const GPtrArray *findings)
{
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; findings != NULL && i < findings->len; i++)
    {
      const Finding *finding = findings->pdata[i];
      if (finding->severity == FINDING_NOTE)
        {
          g_autofree char *first = g_utf8_strup (finding->what, (gssize)(g_utf8_next_char (finding->what) - finding->what));
          g_string_append_printf (text, "%s%s%s; %s.", text->len > 0 ? "\n" : "", first, g_utf8_next_char (finding->what),
                                  finding->mend);
        }
    }
  gtk_label_set_text (self->note, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->note), text->len > 0);
}

GtkWindow *
hw_import_new (GtkWindow *parent, SvgFragment *fragment, const HwImportSource *source)
{
  HwImport *self = g_object_new (HW_TYPE_IMPORT, "transient-for", parent, NULL);
  self->fragment = fragment;
  self->hole = hole_ref (source->hole);
  self->units = source->units;
  self->middle = source->middle;
  self->metres_per_unit = svg_guess_scale (fragment, hole_extent (self->hole));
  int width = MIN (USUAL_WIDTH_PX, gtk_widget_get_width (GTK_WIDGET (parent)));
  int height = MIN (USUAL_HEIGHT_PX, gtk_widget_get_height (GTK_WIDGET (parent)));
  self->is_narrow = width < NARROW_PX;
  apply_width (self);
  gtk_window_set_default_size (GTK_WINDOW (self), MAX (width, LEAST_WIDTH_PX), height);
  gtk_widget_set_visible (self->ratio_box, isfinite (fragment->unit_mm));
  gtk_widget_set_sensitive (GTK_WIDGET (self->fields[FIELD_WIDTH]), extent_of (self, FIELD_WIDTH) > 0);
  gtk_widget_set_sensitive (GTK_WIDGET (self->fields[FIELD_LENGTH]), extent_of (self, FIELD_LENGTH) > 0);
  show_findings (self, source->findings);
  show_scale (self, -1);
  for (int field = 0; field < N_FIELDS; field++)
    g_signal_connect (self->fields[field], "changed", G_CALLBACK (on_field_changed_cb), self);
  hw_import_list_set_fragment (self->list, fragment);
  g_signal_connect_swapped (self->list, "chosen", G_CALLBACK (show_picture), self);
  g_signal_connect_swapped (self->list, "marked", G_CALLBACK (show_picture), self);
  show_picture (self);
  return GTK_WINDOW (self);
}
