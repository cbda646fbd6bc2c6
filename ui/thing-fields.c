// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-fields - a field takes effect on Enter or when it is left; what cannot be used is said below and nothing changes. */
#include "thing-fields.h"

#include "ask.h"
#include "speak.h"

#include <glib/gi18n.h>

typedef enum
{
  FIELD_NAME,
  FIELD_ALONG,
  FIELD_RIGHT,
  FIELD_WIDTH,
  FIELD_HEIGHT,
  FIELD_ANGLE,
  N_FIELDS
} Field;

/* Decimals shown of lengths and angles. */
#define LENGTH_DECIMALS 1
#define ANGLE_DECIMALS 1

struct _HwThingFields
{
  GtkWidget parent_instance;
  HwDesk *desk;
  bool is_showing;
  GtkLabel *caption, *reason, *area, *name_label;
  GtkGrid *grid;
  GtkEntry *entries[N_FIELDS];
  GtkWidget *labels[N_FIELDS];
  GtkDropDown *kind;
  GArray *kinds; /* Kind of each row of the drop-down */
  PartShape listed_shape;
};

G_DEFINE_FINAL_TYPE (HwThingFields, hw_thing_fields, GTK_TYPE_WIDGET)

static const char *const field_labels[N_FIELDS]
    = { N_ ("Name"), N_ ("From tee"), N_ ("Right of line"), N_ ("Width"), N_ ("Height"), N_ ("Angle °") };
static const char *const field_names[N_FIELDS] = { N_ ("Name"),
                                                   N_ ("From the tee along the line"),
                                                   N_ ("Right of the line, negative left"),
                                                   N_ ("Width across the drawing"),
                                                   N_ ("Height up the drawing"),
                                                   N_ ("Angle of the long axis in degrees") };

/* ---- showing ---- */

static void
set_text (GtkEntry *entry, const char *text)
{
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (entry)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (entry), text);
}

static void
print_field (const Part *part, const PartMeasures *measures, Field field, LengthUnit units, char *text, size_t size)
{
  const double lengths_m[N_FIELDS] = { [FIELD_ALONG] = measures->along_m,
                                       [FIELD_RIGHT] = measures->right_m,
                                       [FIELD_WIDTH] = measures->width_m,
                                       [FIELD_HEIGHT] = measures->height_m };
  text[0] = '\0';
  if (field == FIELD_NAME)
    g_strlcpy (text, part->kind == KIND_NOTE ? (part->text != NULL ? part->text : "") : (part->name != NULL ? part->name : ""),
               size);
  else if (field == FIELD_ANGLE)
    units_print_decimals (units_degrees (measures->angle_rad), ANGLE_DECIMALS, text, size);
  else
    units_print_decimals (unit_from_metres (units, lengths_m[field]), LENGTH_DECIMALS, text, size);
}

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
  const Part *part = hole_part (hole, i);
  LengthUnit units = hw_document_get_units (hw_desk_get_document (self->desk));
  PartMeasures measures = edit_measures (hole, i);
  bool is_round = kind_info (part->kind)->shape == SHAPE_POINT && part->kind != KIND_TREE;
  bool is_text = kind_info (part->kind)->shape == SHAPE_TEXT;
  char buffer[256];
  list_kinds (self, part->kind);
  for (int field = 0; field < N_FIELDS; field++)
    {
      print_field (part, &measures, (Field)field, units, buffer, sizeof buffer);
      bool fits = field == FIELD_NAME || (buffer[0] != '\0' && !((is_round || is_text) && field >= FIELD_WIDTH));
      gtk_widget_set_visible (GTK_WIDGET (self->entries[field]), fits);
      gtk_widget_set_visible (self->labels[field], fits);
      if (!gtk_widget_has_focus (gtk_widget_get_first_child (GTK_WIDGET (self->entries[field]))))
        set_text (self->entries[field], buffer);
    }
  gtk_label_set_text (self->name_label, part->kind == KIND_NOTE ? _ ("Words") : _ ("Name"));
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

static Hole *
resized (const Hole *hole, size_t part, double sx, double sy, GError **error)
{
  Vec2 at = part_position (hole_part (hole, part));
  Affine t
      = affine_then (affine_then (affine_translation (-at.x, -at.y), affine_scaling (sx, sy)), affine_translation (at.x, at.y));
  return edit_transform (hole, &part, 1, t, error);
}

static Hole *
turned (const Hole *hole, size_t part, double by_rad, GError **error)
{
  Vec2 at = part_position (hole_part (hole, part));
  Affine t = affine_then (affine_then (affine_translation (-at.x, -at.y), affine_rotation (by_rad)),
                          affine_translation (at.x, at.y));
  return edit_transform (hole, &part, 1, t, error);
}

/* The hole with this field of the part set to `value`, metres or radians. */
static Hole *
with_number (const Hole *hole, size_t part, Field field, double value, GError **error)
{
  PartMeasures now = edit_measures (hole, part);
  bool is_tree = hole_part (hole, part)->kind == KIND_TREE;
  switch (field)
    {
    case FIELD_ALONG:
      return edit_place (hole, part, value, now.right_m, error);
    case FIELD_RIGHT:
      return edit_place (hole, part, now.along_m, value, error);
    case FIELD_ANGLE:
      return turned (hole, part, value - now.angle_rad, error);
    case FIELD_WIDTH:
    case FIELD_HEIGHT:
      break;
    default:
      return NULL;
    }
  double size_m = field == FIELD_WIDTH ? now.width_m : now.height_m;
  if (!(value > 0) || !(size_m > 0))
    {
      g_set_error_literal (error, EDIT_ERROR, EDIT_ERROR_NUMBER, _ ("A size has to be more than nothing."));
      return NULL;
    }
  double s = value / size_m;
  return resized (hole, part, field == FIELD_WIDTH || is_tree ? s : 1, field == FIELD_HEIGHT || is_tree ? s : 1, error);
}

static bool
apply_number (HwThingFields *self, const Hole *hole, size_t part, Field field, const char *text)
{
  static const char *const labels[N_FIELDS] = { [FIELD_ALONG] = N_ ("move %s"),
                                                [FIELD_RIGHT] = N_ ("move %s"),
                                                [FIELD_WIDTH] = N_ ("scale %s"),
                                                [FIELD_HEIGHT] = N_ ("scale %s"),
                                                [FIELD_ANGLE] = N_ ("turn %s") };
  double value;
  g_autoptr (GError) error = NULL;
  LengthUnit units = hw_document_get_units (hw_desk_get_document (self->desk));
  bool is_angle = field == FIELD_ANGLE;
  if (is_angle ? !units_parse_angle (text, &value) : !units_parse_sum (text, units, &value))
    {
      g_autofree char *reason = is_angle ? hw_no_angle (text) : hw_no_length (text);
      show_reason (self, reason);
      return false;
    }
  Hole *edited = with_number (hole, part, field, value, &error);
  if (edited == NULL)
    {
      show_reason (self, error->message);
      return false;
    }
  hw_document_edit (hw_desk_get_document (self->desk), edited, hw_desk_label (self->desk, _ (labels[field])), 0);
  return true;
}

static bool
apply_name (HwThingFields *self, const Hole *hole, size_t part, const char *text)
{
  g_autoptr (GError) error = NULL;
  bool is_note = hole_part (hole, part)->kind == KIND_NOTE;
  Hole *edited = is_note ? edit_set_text (hole, part, text, &error) : edit_rename (hole, part, text, &error);
  if (edited == NULL)
    {
      show_reason (self, error->message);
      return false;
    }
  hw_document_edit (hw_desk_get_document (self->desk), edited,
                    hw_desk_label (self->desk, is_note ? _ ("reword %s") : _ ("rename %s")), 0);
  return true;
}

/* Takes what was typed, if it is another text than shown. */
static void
apply (HwThingFields *self, Field field)
{
  int one = hw_desk_get_selected (self->desk);
  const Hole *hole = hw_document_get_kept (hw_desk_get_document (self->desk));
  if (self->is_showing || one < 0 || hole == NULL || hw_document_is_dragging (hw_desk_get_document (self->desk)))
    return;
  char now[256];
  PartMeasures measures = edit_measures (hole, (size_t)one);
  print_field (hole_part (hole, (size_t)one), &measures, field, hw_document_get_units (hw_desk_get_document (self->desk)), now,
               sizeof now);
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entries[field])));
  g_strstrip (text);
  if (g_str_equal (text, now))
    return;
  show_reason (self, NULL);
  bool done
      = field == FIELD_NAME ? apply_name (self, hole, (size_t)one, text) : apply_number (self, hole, (size_t)one, field, text);
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entries[field]), GTK_ACCESSIBLE_STATE_INVALID,
                               done ? GTK_ACCESSIBLE_INVALID_FALSE : GTK_ACCESSIBLE_INVALID_TRUE, -1);
  if (done)
    gtk_widget_remove_css_class (GTK_WIDGET (self->entries[field]), "error");
  else
    gtk_widget_add_css_class (GTK_WIDGET (self->entries[field]), "error");
  if (!done)
    return;
  print_field (hole_part (hw_document_get_kept (hw_desk_get_document (self->desk)), (size_t)one), &(PartMeasures){ 0 },
               FIELD_NAME, UNIT_METRES, now, sizeof now);
  measures = edit_measures (hw_document_get_kept (hw_desk_get_document (self->desk)), (size_t)one);
  print_field (hole_part (hw_document_get_kept (hw_desk_get_document (self->desk)), (size_t)one), &measures, field,
               hw_document_get_units (hw_desk_get_document (self->desk)), now, sizeof now);
  set_text (self->entries[field], now);
}

static Field
field_of (HwThingFields *self, gpointer entry)
{
  int field = 0;
  while (field < N_FIELDS - 1 && (gpointer)self->entries[field] != entry)
    field++;
  return (Field)field;
}

static void
on_activate_cb (HwThingFields *self, GtkEntry *entry)
{
  apply (self, field_of (self, entry));
}

static void
on_focus_leave_cb (HwThingFields *self, GtkEventController *controller)
{
  Field field = field_of (self, gtk_event_controller_get_widget (controller));
  apply (self, field);
  show (self);
}

/* Escape brings back what was there. */
static gboolean
on_key_pressed_cb (HwThingFields *self, guint keyval, guint keycode, GdkModifierType state, GtkEventController *controller)
{
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  Field field = field_of (self, gtk_event_controller_get_widget (controller));
  int one = hw_desk_get_selected (self->desk);
  const Hole *hole = hw_desk_get_hole (self->desk);
  if (one >= 0)
    {
      char now[256];
      PartMeasures measures = edit_measures (hole, (size_t)one);
      print_field (hole_part (hole, (size_t)one), &measures, field, hw_document_get_units (hw_desk_get_document (self->desk)),
                   now, sizeof now);
      set_text (self->entries[field], now);
    }
  gtk_widget_remove_css_class (GTK_WIDGET (self->entries[field]), "error");
  show_reason (self, NULL);
  return GDK_EVENT_STOP;
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
  g_signal_connect_object (desk, "selected", G_CALLBACK (on_desk_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (hw_document_get_settings (hw_desk_get_document (desk)), "changed", G_CALLBACK (show), self,
                           G_CONNECT_SWAPPED);
  show (self);
}

/* ---- the widget ---- */

static void
add_entry (HwThingFields *self, Field field, int column, int row, int width)
{
  GtkWidget *label = gtk_label_new (_ (field_labels[field]));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "caption");
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), 7);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), 7);
  gtk_widget_set_hexpand (entry, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (field_names[field]), -1);
  gtk_widget_set_tooltip_text (entry, _ (field_names[field]));
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (on_activate_cb), self);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect_swapped (focus, "leave", G_CALLBACK (on_focus_leave_cb), self);
  gtk_widget_add_controller (entry, focus);
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (on_key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (entry, keys);
  gtk_grid_attach (self->grid, label, column, row, 1, 1);
  gtk_grid_attach (self->grid, entry, column + 1, row, width, 1);
  self->labels[field] = label;
  self->entries[field] = GTK_ENTRY (entry);
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
  gtk_grid_set_column_spacing (self->grid, 8);
  add_entry (self, FIELD_NAME, 0, 0, 1);
  self->name_label = GTK_LABEL (self->labels[FIELD_NAME]);
  self->kind = GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL));
  hw_speak_choice (self->kind, _ ("Kind of the thing"));
  g_signal_connect_swapped (self->kind, "notify::selected", G_CALLBACK (on_kind_chosen_cb), self);
  gtk_grid_attach (self->grid, GTK_WIDGET (self->kind), 2, 0, 2, 1);
  add_entry (self, FIELD_ALONG, 0, 1, 1);
  add_entry (self, FIELD_RIGHT, 2, 1, 1);
  add_entry (self, FIELD_WIDTH, 0, 2, 1);
  add_entry (self, FIELD_HEIGHT, 2, 2, 1);
  add_entry (self, FIELD_ANGLE, 0, 3, 1);
  self->area = text_new ("caption");
  gtk_grid_attach (self->grid, GTK_WIDGET (self->area), 2, 3, 2, 1);
  self->reason = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "xalign", 0.0, "wrap",
                                          TRUE, "visible", FALSE, NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->reason), "note");
  gtk_widget_set_parent (GTK_WIDGET (self->caption), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->grid), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->reason), GTK_WIDGET (self));
}
