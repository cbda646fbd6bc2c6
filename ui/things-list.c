// SPDX-License-Identifier: GPL-3.0-or-later
/* things-list - rows are kept and changed in place; Alt with an arrow moves the thing in the stack, a row dragged onto another goes there. */
#include "things-list.h"

#include "desk-commands.h"
#include "swatch.h"

#include <glib/gi18n.h>

struct _HwThingsList
{
  GtkWidget parent_instance;
  HwDesk *desk;
  GtkListBox *list;
  GtkScrolledWindow *scroller;
  guint reveal;  /* idle that brings what is selected into sight */
  GArray *parts; /* size_t: part of each row */
  bool is_showing;
};

G_DEFINE_FINAL_TYPE (HwThingsList, hw_things_list, GTK_TYPE_WIDGET)

/* What a row shows, and its widgets. */
typedef struct
{
  HwThingsList *owner;
  GtkWidget *swatch, *locked, *hidden;
  GtkLabel *name, *kind_label, *distance;
} Row;

static Row *
row_of (GtkListBoxRow *row)
{
  return g_object_get_data (G_OBJECT (row), "row");
}

static size_t
part_of (HwThingsList *self, GtkListBoxRow *row)
{
  return g_array_index (self->parts, size_t, (guint)gtk_list_box_row_get_index (row));
}

/* ---- moving things in the stack ---- */

static void
move_part (HwThingsList *self, size_t from, size_t to)
{
  HwDocument *document = hw_desk_get_document (self->desk);
  g_autoptr (GError) error = NULL;
  hw_desk_select_one (self->desk, from);
  hw_desk_edit (self->desk, edit_reorder (hw_document_get_kept (document), from, to, &error),
                hw_desk_label (self->desk, _ ("reorder %s")), 0, &error);
}

static gboolean
on_key_pressed_cb (HwThingsList *self, guint keyval, guint keycode, GdkModifierType state)
{
  GtkWidget *focus = gtk_widget_get_focus_child (GTK_WIDGET (self->list));
  int step = keyval == GDK_KEY_Up ? -1 : keyval == GDK_KEY_Down ? 1 : 0;
  if (step == 0 || !(state & GDK_ALT_MASK) || !GTK_IS_LIST_BOX_ROW (focus))
    return GDK_EVENT_PROPAGATE;
  int at = gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (focus)), to = at + step;
  if (to < 0 || to >= (int)self->parts->len)
    return GDK_EVENT_STOP;
  move_part (self, g_array_index (self->parts, size_t, (guint)at), g_array_index (self->parts, size_t, (guint)to));
  gtk_widget_grab_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, to)));
  return GDK_EVENT_STOP;
}

static GdkContentProvider *
on_drag_prepare_cb (GtkDragSource *source, double x, double y, GtkListBoxRow *row)
{
  return gdk_content_provider_new_typed (G_TYPE_INT, gtk_list_box_row_get_index (row));
}

static gboolean
on_drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, GtkListBoxRow *row)
{
  HwThingsList *self = row_of (row)->owner;
  int from = g_value_get_int (value), to = gtk_list_box_row_get_index (row);
  if (from == to || from < 0 || from >= (int)self->parts->len)
    return FALSE;
  move_part (self, g_array_index (self->parts, size_t, (guint)from), g_array_index (self->parts, size_t, (guint)to));
  return TRUE;
}

/* ---- rows ---- */

static GtkLabel *
label_new (const char *style, float align, bool expands)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), align);
  gtk_label_set_ellipsize (GTK_LABEL (label), expands ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  gtk_widget_set_hexpand (label, expands);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return GTK_LABEL (label);
}

static GtkWidget *
mark_new (const char *icon, const char *tip)
{
  GtkWidget *mark = gtk_image_new_from_icon_name (icon);
  gtk_widget_set_tooltip_text (mark, tip);
  return mark;
}

static GtkListBoxRow *
row_new (HwThingsList *self)
{
  GtkWidget *widget = gtk_list_box_row_new ();
  Row *row = g_new0 (Row, 1);
  row->owner = self;
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  row->swatch = hw_swatch_new ();
  row->name = label_new (NULL, 0, true);
  row->kind_label = label_new ("caption", 1, false);
  row->distance = label_new ("figures", 1, false);
  gtk_label_set_width_chars (row->distance, 4);
  row->locked = mark_new ("changes-prevent-symbolic", _ ("Locked"));
  row->hidden = mark_new ("view-conceal-symbolic", _ ("Hidden"));
  gtk_box_append (GTK_BOX (box), row->swatch);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->name));
  gtk_box_append (GTK_BOX (box), row->locked);
  gtk_box_append (GTK_BOX (box), row->hidden);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->kind_label));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (row->distance));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (widget), box);
  g_object_set_data_full (G_OBJECT (widget), "row", row, g_free);

  GtkDragSource *source = gtk_drag_source_new ();
  g_signal_connect (source, "prepare", G_CALLBACK (on_drag_prepare_cb), widget);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (source));
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INT, GDK_ACTION_COPY);
  g_signal_connect (target, "drop", G_CALLBACK (on_drop_cb), widget);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (target));
  return GTK_LIST_BOX_ROW (widget);
}

static void
set_text (GtkLabel *label, const char *text)
{
  if (g_strcmp0 (gtk_label_get_text (label), text) != 0)
    gtk_label_set_text (label, text);
}

static void
row_show (HwThingsList *self, GtkListBoxRow *widget, const Hole *hole, size_t i)
{
  Row *row = row_of (widget);
  const Part *part = hole_part (hole, i);
  LengthUnit units = hw_document_get_units (hw_desk_get_document (self->desk));
  char buffer[96], distance[UNITS_TEXT_SIZE] = "";
  int tee = hole_tee (hole, NULL);
  const char *name = part->kind == KIND_NOTE && part->text != NULL ? part->text : part_label (part, buffer, sizeof buffer);
  const char *kind = _ (kind_info (part->kind)->label);
  bool says_kind = !g_str_has_suffix (name, kind_info (part->kind)->label);
  if (tee >= 0)
    units_print_whole (vec2_distance (part_position (part), part_position (hole_part (hole, (size_t)tee))), units, distance,
                       sizeof distance);
  hw_swatch_show (row->swatch, part->kind, hole_stakes (hole, i));
  set_text (row->name, g_str_equal (name, kind_info (part->kind)->label) ? kind : name);
  set_text (row->kind_label, says_kind ? kind : "");
  set_text (row->distance, distance);
  gtk_widget_set_visible (row->locked, hw_desk_is_locked (self->desk, i));
  gtk_widget_set_visible (row->hidden, hw_desk_is_hidden (self->desk, i));
  g_autoptr (GString) spoken = g_string_new (gtk_label_get_text (row->name));
  if (says_kind)
    g_string_append_printf (spoken, ", %s", kind);
  if (tee >= 0)
    g_string_append_printf (spoken, _ (", %s %s from the tee"), distance, unit_suffix (units));
  if (hw_desk_is_locked (self->desk, i))
    g_string_append (spoken, _ (", locked"));
  if (hw_desk_is_hidden (self->desk, i))
    g_string_append (spoken, _ (", hidden"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken->str, -1);
}

/* ---- following the desk ---- */

/* Scrolls as little as shows the first thing selected; the row with the focus is GTK's own business. */
static gboolean
on_reveal_cb (gpointer user_data)
{
  HwThingsList *self = user_data;
  GtkAdjustment *at = gtk_scrolled_window_get_vadjustment (self->scroller);
  self->reveal = 0;
  for (guint i = 0; i < self->parts->len; i++)
    {
      GtkWidget *row = GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, (int)i));
      graphene_rect_t bounds;
      if (!gtk_list_box_row_is_selected (GTK_LIST_BOX_ROW (row)))
        continue;
      if (gtk_widget_compute_bounds (row, GTK_WIDGET (self->list), &bounds))
        gtk_adjustment_clamp_page (at, (double)bounds.origin.y, (double)(bounds.origin.y + bounds.size.height));
      break;
    }
  return G_SOURCE_REMOVE;
}

static void
show_selection (HwThingsList *self)
{
  bool has_changed = false;
  self->is_showing = true;
  for (guint i = 0; i < self->parts->len; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);
      bool selected = hw_desk_is_selected (self->desk, g_array_index (self->parts, size_t, i));
      has_changed |= selected != gtk_list_box_row_is_selected (row);
      if (selected && !gtk_list_box_row_is_selected (row))
        gtk_list_box_select_row (self->list, row);
      else if (!selected && gtk_list_box_row_is_selected (row))
        gtk_list_box_unselect_row (self->list, row);
    }
  self->is_showing = false;
  if (has_changed && self->reveal == 0)
    self->reveal = g_idle_add (on_reveal_cb, self);
}

static void
show_things (HwThingsList *self)
{
  if (hw_document_is_dragging (hw_desk_get_document (self->desk)) || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  const Hole *hole = hw_desk_get_hole (self->desk);
  g_array_set_size (self->parts, 0);
  for (size_t i = hole != NULL ? hole_n_parts (hole) : 0; i-- > 0;)
    if (hole_part (hole, i)->kind != KIND_PLAN)
      g_array_append_val (self->parts, i);
  self->is_showing = true;
  for (guint i = 0; i < self->parts->len; i++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);
      if (row == NULL)
        {
          row = row_new (self);
          gtk_list_box_append (self->list, GTK_WIDGET (row));
        }
      row_show (self, row, hole, g_array_index (self->parts, size_t, i));
    }
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, (int)self->parts->len)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  self->is_showing = false;
  show_selection (self);
}

static void
on_selected_cb (HwThingsList *self)
{
  if (!hw_document_is_dragging (hw_desk_get_document (self->desk)) && gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_things (self);
}

static void
on_rows_selected_cb (HwThingsList *self)
{
  if (self->is_showing)
    return;
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (size_t));
  GList *rows = gtk_list_box_get_selected_rows (self->list);
  for (GList *row = rows; row != NULL; row = row->next)
    {
      size_t part = part_of (self, row->data);
      g_array_append_val (parts, part);
    }
  g_list_free (rows);
  hw_desk_take_way (self->desk, HW_WAY_SELECT);
  self->is_showing = true;
  hw_desk_select (self->desk, (const size_t *)parts->data, parts->len);
  self->is_showing = false;
}

void
hw_things_list_set_desk (HwThingsList *self, HwDesk *desk)
{
  self->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "selected", G_CALLBACK (on_selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "marked", G_CALLBACK (show_things), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (hw_desk_get_document (desk), "results-changed", G_CALLBACK (show_things), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (show_things), NULL);
}

static void
hw_things_list_dispose (GObject *object)
{
  HwThingsList *self = HW_THINGS_LIST (object);
  self->is_showing = true;
  g_clear_handle_id (&self->reveal, g_source_remove);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->parts, g_array_unref);
  G_OBJECT_CLASS (hw_things_list_parent_class)->dispose (object);
}

static void
hw_things_list_class_init (HwThingsListClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_things_list_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
hw_things_list_init (HwThingsList *self)
{
  self->parts = g_array_new (FALSE, FALSE, sizeof (size_t));
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_MULTIPLE);
  gtk_list_box_set_activate_on_single_click (self->list, FALSE);
  gtk_widget_add_css_class (GTK_WIDGET (self->list), "things");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Things on the hole"), -1);
  g_signal_connect_swapped (self->list, "selected-rows-changed", G_CALLBACK (on_rows_selected_cb), self);
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
  hw_desk_command_add_keys (GTK_WIDGET (self->list));
  GtkWidget *scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->list));
  self->scroller = GTK_SCROLLED_WINDOW (scroller);
  gtk_accessible_update_property (GTK_ACCESSIBLE (scroller), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Things on the hole"), -1);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
}
