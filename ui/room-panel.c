// SPDX-License-Identifier: GPL-3.0-or-later
/* room-panel - shows what the document has found of the room, while it is seen; its words change in place during a drag. */
#include "room-panel.h"

#include "figure.h"

#include <glib/gi18n.h>

struct _HwRoomPanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkWidget *content;
  HwFigure *room, *lines;
};

G_DEFINE_FINAL_TYPE (HwRoomPanel, hw_room_panel, GTK_TYPE_WIDGET)

static const char *
translated (const char *text)
{
  return _ (text);
}

/* While nothing is known yet of another club or place, what was known of the last one is not left standing. */
static void
on_found_cb (HwRoomPanel *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)) || hw_document_get_scene (self->document)->n_shots == 0)
    return;
  const HwFound *found = hw_document_get_found (self->document);
  bool has_room = found != NULL && found->has_room;
  LengthUnit units = hw_document_get_units (self->document);
  g_autofree char *room = has_room ? room_words (&found->room, units, translated) : g_strdup (found == NULL ? "…" : "");
  g_autofree char *lines = has_room ? room_line_words (found->hole, &found->room, translated) : g_strdup ("");
  hw_figure_set_text (self->room, room);
  hw_figure_set_text (self->lines, lines);
}

static void
on_results_changed_cb (HwRoomPanel *self)
{
  if (self->document == NULL || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  hw_document_need (self->document, SCENE_NEEDS_ROOM);
  on_found_cb (self);
}

void
hw_room_panel_set_document (HwRoomPanel *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-told", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "found", G_CALLBACK (on_found_cb), self, G_CONNECT_SWAPPED);
}

static void
hw_room_panel_dispose (GObject *object)
{
  HwRoomPanel *self = HW_ROOM_PANEL (object);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_ROOM_PANEL);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_room_panel_parent_class)->dispose (object);
}

static void
hw_room_panel_class_init (HwRoomPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_room_panel_dispose;
  g_type_ensure (HW_TYPE_FIGURE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/room-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwRoomPanel, content);
  gtk_widget_class_bind_template_child (widget_class, HwRoomPanel, room);
  gtk_widget_class_bind_template_child (widget_class, HwRoomPanel, lines);
}

static void
hw_room_panel_init (HwRoomPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (self, "map", G_CALLBACK (on_results_changed_cb), NULL);
}
