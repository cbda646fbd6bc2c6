// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-fields - a field takes effect on Enter or when it is left; what cannot be used is said below and nothing changes. */
#include "thing-fields.h"

#include "sentence.h"
#include "speak.h"
#include "thing-facts.h"
#include "thing-values.h"
#include "typed-entry.h"

#include <glib/gi18n.h>

#define COLUMN_SPACING_PX 7

struct _HwThingFields
{
  GtkWidget parent_instance;
  HwDesk *desk;
  bool is_showing;
  GtkLabel *caption, *reason, *area;
  GtkGrid *grid;
  HwThingFacts *facts;
  HwTypedEntry *entries[HW_N_VALUES];
  GtkLabel *labels[HW_N_VALUES];
  GtkDropDown *kind;
  GArray *kinds; /* Kind of each row of the drop-down */
  PartShape listed_shape;
};

G_DEFINE_FINAL_TYPE (HwThingFields, hw_thing_fields, GTK_TYPE_WIDGET)

/* ---- showing ---- */

static void
show_reason (HwThingFields *self, const char *text)
{
  gtk_label_set_text (self->reason, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), text != NULL);
}

static void
list_kinds (HwThingFields *self, Kind now)
{
  PartShape shape = kind_info (now)->shape;
  if (self->kinds->len == 0 || shape != self->listed_shape)
    {
      g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
      g_array_set_size (self->kinds, 0);
      self->listed_shape = shape;
      for (int kind = 0; kind < N_KINDS; kind++)
        if (kind_info ((Kind)kind)->shape == shape)
          {
            gtk_string_list_append (names, _ (kind_info ((Kind)kind)->label));
            g_array_append_val (self->kinds, kind);
          }
      gtk_drop_down_set_model (self->kind, G_LIST_MODEL (names));
    }
  for (guint i = 0; i < self->kinds->len; i++)
    if (g_array_index (self->kinds, Kind, i) == now && gtk_drop_down_get_selected (self->kind) != i)
      gtk_drop_down_set_selected (self->kind, i);
}

static void
show_area (HwThingFields *self, const PartMeasures *measures, LengthUnit units)
{
  char buffer[UNITS_TEXT_SIZE];
  double unit_m = unit_to_metres (units, 1);
  gtk_widget_set_visible (GTK_WIDGET (self->area), measures->area_m2 > 0);
  if (!(measures->area_m2 > 0))
    return;
  units_print_decimals (measures->area_m2 / (unit_m * unit_m), 0, buffer, sizeof buffer);
  g_autofree char *text = g_strdup_printf (_ ("Covers %s square %s"), buffer, units == UNIT_YARDS ? _ ("yards") : _ ("metres"));
  gtk_label_set_text (self->area, text);
}

static void
show_one (HwThingFields *self, const Hole *hole, size_t i)
{
  LengthUnit units = hw_document_get_units (hw_desk_get_document (self->desk));
  PartMeasures measures = edit_measures (hole, i);
  Kind kind = hole_part (hole, i)->kind;
  char text[HW_VALUE_TEXT_SIZE];
  list_kinds (self, kind);
  for (HwThingValue value = 0; value < HW_N_VALUES; value++)
    {
      bool fits = hw_thing_value_print (hole, i, value, units, text, sizeof text);
      gtk_widget_set_visible (GTK_WIDGET (self->entries[value]), fits);
      gtk_widget_set_visible (GTK_WIDGET (self->labels[value]), fits);
      hw_typed_entry_show (self->entries[value], text, NULL);
      gtk_label_set_text (self->labels[value], hw_thing_value_caption (value, kind));
    }
  show_area (self, &measures, units);
}

static void
show (HwThingFields *self)
{
  const Hole *hole = hw_desk_get_hole (self->desk);
  size_t n;
  hw_desk_get_selection (self->desk, &n);
  int one = hw_desk_get_selected (self->desk);
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0 && hole != NULL);
  if (n == 0 || hole == NULL)
    return;
  self->is_showing = true;
  gtk_widget_set_visible (GTK_WIDGET (self->grid), one >= 0);
  gtk_widget_set_visible (GTK_WIDGET (self->caption), one < 0);
  if (one >= 0)
    show_one (self, hole, (size_t)one);
  else
    {
      g_autofree char *text = g_strdup_printf (_ ("%zu things selected"), n);
      gtk_label_set_text (self->caption, text);
      gtk_widget_set_visible (GTK_WIDGET (self->area), FALSE);
    }
  self->is_showing = false;
}

static void
on_desk_changed_cb (HwThingFields *self)
{
  if (!hw_document_is_dragging (hw_desk_get_document (self->desk)))
    show_reason (self, NULL);
  show (self);
}

/* ---- what is typed ---- */

static bool
take (gpointer owner, guint which, const char *text)
{
  HwThingFields *self = owner;
  HwDocument *document = hw_desk_get_document (self->desk);
  int one = hw_desk_get_selected (self->desk);
  const Hole *hole = hw_document_get_kept (document);
  if (self->is_showing || one < 0 || hole == NULL || hw_document_is_dragging (document))
    return true;
  const char *step = NULL;
  g_autoptr (GError) error = NULL;
  show_reason (self, NULL);
  if (text == NULL)
    return true;
  Hole *edited
      = hw_thing_value_set (hole, (size_t)one, (HwThingValue)which, hw_document_get_units (document), text, &step, &error);
  if (edited == NULL)
    {
      g_autofree char *reason = hw_sentence (error->message);
      show_reason (self, reason);
      return false;
    }
  hw_document_edit (document, edited, hw_desk_label (self->desk, step), 0);
  show (self);
  return true;
}

static void
on_kind_chosen_cb (HwThingFields *self)
{
  guint row = gtk_drop_down_get_selected (self->kind);
  size_t n;
  const size_t *parts = hw_desk_get_selection (self->desk, &n);
  if (self->is_showing || row >= self->kinds->len || n != 1)
    return;
  Kind kind = g_array_index (self->kinds, Kind, row);
  g_autoptr (GError) error = NULL;
  const Hole *hole = hw_document_get_kept (hw_desk_get_document (self->desk));
  if (hole_part (hole, parts[0])->kind == kind)
    return;
  g_autofree char *label = g_strdup_printf (_ ("change to %s"), _ (kind_info (kind)->label));
  if (!hw_desk_edit (self->desk, edit_set_kind (hole, parts, n, kind, &error), label, 0, &error))
    show (self);
}

void
hw_thing_fields_set_desk (HwThingFields *self, HwDesk *desk)
{
  self->desk = g_object_ref (desk);
  hw_thing_facts_set_desk (self->facts, desk);
  g_signal_connect_object (desk, "selected", G_CALLBACK (on_desk_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (hw_document_get_settings (hw_desk_get_document (desk)), "changed", G_CALLBACK (show), self,
                           G_CONNECT_SWAPPED);
  show (self);
}

/* ---- the widget ---- */

/* Its caption stands in the grid; the entry is yet to be placed. */
static GtkWidget *
new_entry (HwThingFields *self, HwThingValue value, int column, int row)
{
  GtkWidget *label = gtk_label_new (hw_thing_value_caption (value, KIND_NONE));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "caption");
  GtkWidget *entry = hw_typed_entry_new (hw_thing_value_name (value), take, self, value);
  gtk_grid_attach (self->grid, label, column, row, 1, 1);
  self->labels[value] = GTK_LABEL (label);
  self->entries[value] = HW_TYPED_ENTRY (entry);
  return entry;
}

static void
add_entry (HwThingFields *self, HwThingValue value, int column, int row)
{
  gtk_grid_attach (self->grid, new_entry (self, value, column, row), column + 1, row, 1, 1);
}

/* They share their row half and half: a name is longer than a number. */
static void
add_name_and_kind (HwThingFields *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, COLUMN_SPACING_PX);
  gtk_box_set_homogeneous (GTK_BOX (box), TRUE);
  gtk_box_append (GTK_BOX (box), new_entry (self, HW_VALUE_NAME, 0, 0));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->kind));
  gtk_grid_attach (self->grid, box, 1, 0, 3, 1);
}

static GtkLabel *
text_new (const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, style);
  gtk_widget_set_visible (label, FALSE);
  return GTK_LABEL (label);
}

static void
hw_thing_fields_dispose (GObject *object)
{
  HwThingFields *self = HW_THING_FIELDS (object);
  self->is_showing = true;
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->kinds, g_array_unref);
  G_OBJECT_CLASS (hw_thing_fields_parent_class)->dispose (object);
}

static void
hw_thing_fields_class_init (HwThingFieldsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_thing_fields_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
hw_thing_fields_init (HwThingFields *self)
{
  GtkBoxLayout *layout = GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self)));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (layout, 6);
  self->kinds = g_array_new (FALSE, FALSE, sizeof (Kind));
  self->caption = text_new ("heading");
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_row_spacing (self->grid, 5);
  gtk_grid_set_column_spacing (self->grid, COLUMN_SPACING_PX);
  self->kind = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  hw_speak_choice (self->kind, _ ("Kind of the thing"));
  g_signal_connect_swapped (self->kind, "notify::selected", G_CALLBACK (on_kind_chosen_cb), self);
  add_name_and_kind (self);
  add_entry (self, HW_VALUE_ALONG, 0, 1);
  add_entry (self, HW_VALUE_RIGHT, 2, 1);
  add_entry (self, HW_VALUE_WIDTH, 0, 2);
  add_entry (self, HW_VALUE_HEIGHT, 2, 2);
  add_entry (self, HW_VALUE_ANGLE, 0, 3);
  self->area = text_new ("caption");
  gtk_grid_attach (self->grid, GTK_WIDGET (self->area), 2, 3, 2, 1);
  self->reason = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "xalign", 0.0, "wrap",
                                          TRUE, "visible", FALSE, NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->reason), "note");
  gtk_widget_set_parent (GTK_WIDGET (self->caption), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->grid), GTK_WIDGET (self));
  self->facts = g_object_new (HW_TYPE_THING_FACTS, NULL);
  gtk_widget_set_parent (GTK_WIDGET (self->facts), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->reason), GTK_WIDGET (self));
}
