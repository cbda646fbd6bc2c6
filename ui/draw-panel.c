// SPDX-License-Identifier: GPL-3.0-or-later
/* draw-panel - puts its parts together; the commands on the selection are a menu here and on the drawing. */
#include "draw-panel.h"

#include "desk-commands.h"
#include "palette.h"
#include "problems.h"
#include "thing-fields.h"
#include "things-list.h"

struct _HwDrawPanel
{
  GtkWidget parent_instance;
  GtkWidget *scroller;
  GtkWidget *box;
  GtkMenuButton *change;
  HwThingFields *fields;
  HwThingsList *things;
  HwProblems *problems;
};

G_DEFINE_FINAL_TYPE (HwDrawPanel, hw_draw_panel, GTK_TYPE_WIDGET)

void
hw_draw_panel_set_desk (HwDrawPanel *self, HwDesk *desk)
{
  hw_thing_fields_set_desk (self->fields, desk);
  hw_things_list_set_desk (self->things, desk);
  hw_problems_set_desk (self->problems, desk);
}

static void
hw_draw_panel_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_DRAW_PANEL);
  G_OBJECT_CLASS (hw_draw_panel_parent_class)->dispose (object);
}

static void
hw_draw_panel_class_init (HwDrawPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_draw_panel_dispose;
  g_type_ensure (HW_TYPE_PALETTE);
  g_type_ensure (HW_TYPE_PROBLEMS);
  g_type_ensure (HW_TYPE_THING_FIELDS);
  g_type_ensure (HW_TYPE_THINGS_LIST);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/draw-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwDrawPanel, scroller);
  gtk_widget_class_bind_template_child (widget_class, HwDrawPanel, box);
  gtk_widget_class_bind_template_child (widget_class, HwDrawPanel, change);
  gtk_widget_class_bind_template_child (widget_class, HwDrawPanel, fields);
  gtk_widget_class_bind_template_child (widget_class, HwDrawPanel, things);
  gtk_widget_class_bind_template_child (widget_class, HwDrawPanel, problems);
}

static void
hw_draw_panel_init (HwDrawPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_autoptr (GMenuModel) menu = hw_desk_command_menu ();
  gtk_menu_button_set_menu_model (self->change, menu);
}
