// SPDX-License-Identifier: GPL-3.0-or-later
/* window - puts canvas, strip, panels and header together and words the status line; what its width asks for is in window-width.c. */
#include "window-private.h"

#include "trace.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (HwWindow, hw_window, GTK_TYPE_APPLICATION_WINDOW)

/* ---- messages ---- */

void
hw_window_say (HwWindow *self, GtkMessageType type, const char *text)
{
  gtk_info_bar_set_message_type (self->message_bar, type);
  gtk_widget_set_visible (self->save_elsewhere, FALSE);
  gtk_label_set_text (self->message, text);
  gtk_info_bar_set_revealed (self->message_bar, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->message), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
}

static void
on_message_cb (HwWindow *self, const char *text)
{
  hw_window_say (self, GTK_MESSAGE_WARNING, text);
}

static void
on_message_response_cb (GtkInfoBar *bar, int response)
{
  if (response == GTK_RESPONSE_CLOSE)
    gtk_info_bar_set_revealed (bar, FALSE);
}

/* ---- the status line ---- */

static void
append_place (GString *text, const char *format, double length_m, LengthUnit units)
{
  char length[UNITS_TEXT_SIZE];
  if (isnan (length_m))
    return;
  units_print_whole (length_m, units, length, sizeof length);
  if (text->len > 0)
    g_string_append (text, " · ");
  g_string_append_printf (text, format, length);
}

static void
on_pointed_cb (HwWindow *self)
{
  Vec2 at;
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (hw_canvas_get_drawing (self->canvas))
    {
      g_autofree char *where = hw_canvas_get_pointed (self->canvas, &at) ? hw_desk_whereabouts (self->desk, at) : NULL;
      if (hw_desk_get_way (self->desk) == HW_WAY_CUT) // no button of the panel says so
        hw_figure_set_text (self->status, _ ("Drag a line across to cut along it; Escape leaves it"));
      else
        hw_figure_set_text (self->status, where != NULL ? where : "");
      return;
    }
  if (scene->n_shots == 0 || !hw_canvas_get_pointed (self->canvas, &at))
    {
      hw_figure_set_text (self->status, "");
      return;
    }
  LengthUnit units = hw_document_get_units (self->document);
  Whereabouts where = odds_whereabouts (scene->hole, NULL, &scene->shots[scene->current], at);
  g_autoptr (GString) text = g_string_new (NULL);
  append_place (text, scene->current == 0 ? _ ("%s from the tee") : _ ("%s from the ball"), where.from_ball_m, units);
  append_place (text, _ ("%s to the hole"), where.to_hole_m, units);
  const AimMap *aims = hw_solver_get_aims (self->solver);
  double cost = aims != NULL ? aim_map_strokes (aims, at) - aims->best.strokes : NAN;
  /* Beside the cost there is no room for "of the line". */
  const char *left = isnan (cost) ? _ ("%s left of the line") : _ ("%s left"),
             *right = isnan (cost) ? _ ("%s right of the line") : _ ("%s right");
  append_place (text, where.right_m < 0 ? left : right, fabs (where.right_m), units);
  if (!isnan (cost))
    g_string_append_printf (text, _ (" · aim here +%.2f"), fmax (cost, 0));
  hw_figure_set_text (self->status, text->str);
}

void
hw_window_update_status (HwWindow *self)
{
  on_pointed_cb (self);
}

/* ---- following the document ---- */

static void
update_title (HwWindow *self)
{
  if (!hw_document_has_hole (self->document))
    {
      gtk_window_set_title (GTK_WINDOW (self), _ ("Holewright"));
      return;
    }
  g_autofree char *name = hw_document_get_file_name (self->document);
  g_autofree char *title = g_strdup_printf (
      hw_document_is_modified (self->document) ? _ ("%s (changed) – Holewright") : _ ("%s – Holewright"), name);
  if (g_strcmp0 (title, gtk_window_get_title (GTK_WINDOW (self))) != 0)
    gtk_window_set_title (GTK_WINDOW (self), title);
}

static void
on_document_changed_cb (HwWindow *self)
{
  if (hw_document_is_dragging (self->document))
    return;
  update_title (self);
  hw_window_update_actions (self);
}

static void
on_view_changed_cb (HwWindow *self)
{
  hw_strip_set_view (self->strip, hw_canvas_get_view (self->canvas));
  hw_plan_panel_set_turn (self->plan_panel, hw_canvas_get_view (self->canvas)->turn_rad);
  bool has_shot = hw_document_get_scene (self->document)->n_shots > 0;
  gtk_widget_set_visible (GTK_WIDGET (self->strip), has_shot && hw_canvas_is_along (self->canvas));
  hw_window_update_section (self);
}

static void
on_hole_chosen_cb (HwWindow *self, guint i)
{
  g_autoptr (GError) error = NULL;
  if (!hw_document_open_hole (self->document, i, &error))
    hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
}

/* ---- the window ---- */

static void
close_now (HwWindow *self, const char *path)
{
  self->is_closing = true;
  gtk_window_close (GTK_WINDOW (self));
}

static gboolean
hw_window_close_request (GtkWindow *window)
{
  HwWindow *self = HW_WINDOW (window);
  if (!self->is_closing && hw_document_is_any_modified (self->document))
    {
      hw_window_ask_then (self, close_now, NULL);
      return TRUE;
    }
  return GTK_WINDOW_CLASS (hw_window_parent_class)->close_request (window);
}

static void
on_first_frame_cb (GdkFrameClock *clock, HwWindow *self)
{
  g_clear_signal_handler (&self->first_frame, clock);
  hw_trace_window ();
}

static void
hw_window_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  hw_window_follow_width (HW_WINDOW (widget), width);
  hw_window_follow_height (HW_WINDOW (widget), height);
  GTK_WIDGET_CLASS (hw_window_parent_class)->size_allocate (widget, width, height, baseline);
  hw_display_memory_follow (HW_WINDOW (widget)->memory);
}

static void
hw_window_realize (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (hw_window_parent_class)->realize (widget);
  if (hw_trace_is_on ())
    HW_WINDOW (widget)->first_frame
        = g_signal_connect (gtk_widget_get_frame_clock (widget), "after-paint", G_CALLBACK (on_first_frame_cb), widget);
}

static void
hw_window_dispose (GObject *object)
{
  HwWindow *self = HW_WINDOW (object);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_WINDOW);
  hw_window_stop_transfer (self);
  if (self->document != NULL)
    hw_document_close (self->document);
  g_clear_object (&self->solver);
  g_clear_object (&self->planner);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->started, hole_unref);
  g_clear_object (&self->document);
  g_clear_object (&self->recovered);
  if (self->session != NULL)
    hw_session_write (self->session);
  g_clear_object (&self->session);
  g_clear_object (&self->settings);
  g_clear_pointer (&self->example, g_free);
  g_clear_pointer (&self->memory, hw_display_memory_free);
  G_OBJECT_CLASS (hw_window_parent_class)->dispose (object);
}

static void
hw_window_class_init (HwWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_window_dispose;
  widget_class->size_allocate = hw_window_size_allocate;
  widget_class->realize = hw_window_realize;
  GTK_WINDOW_CLASS (klass)->close_request = hw_window_close_request;
  g_type_ensure (HW_TYPE_FIGURE);
  g_type_ensure (HW_TYPE_CANVAS);
  g_type_ensure (HW_TYPE_STRIP);
  g_type_ensure (HW_TYPE_SECTION);
  g_type_ensure (HW_TYPE_PLAN_PANEL);
  g_type_ensure (HW_TYPE_DRAW_PANEL);
  g_type_ensure (HW_TYPE_CARD_VIEW);
  g_type_ensure (HW_TYPE_CARD_PANEL);
  g_type_ensure (HW_TYPE_HOLE_CHOOSER);
  g_type_ensure (HW_TYPE_RECOVERED_BAR);
  g_type_ensure (HW_TYPE_DISK_BAR);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/window.ui");
  gtk_widget_class_bind_template_child (widget_class, HwWindow, step_switch);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, foot);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, hole_chooser);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, steps);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, panels);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, plan_status);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, undo_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, redo_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, zoom_out_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, zoom_in_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, canvas);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, strip);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, section);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, section_revealer);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, section_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, plan_panel);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, draw_panel);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, looks);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, card_view);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, card_panel);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, status);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, recovered_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, disk_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message_bar);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, message);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, save_elsewhere);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, HwWindow, recent_menu);
}

/* The canvas waits for its overlays: what else of the frame there is to be shown is made meanwhile, last the strip, unless the thread beside has come to that. GTK keeps it, and takes it when its turn comes. */
static void
on_painting_cb (HwWindow *self)
{
  GtkWidget *others[] = { GTK_WIDGET (self->section_revealer), GTK_WIDGET (self->panels), GTK_WIDGET (self->strip) };
  GtkSnapshot *made = gtk_snapshot_new ();
  for (size_t i = 0; i < G_N_ELEMENTS (others); i++)
    gtk_widget_snapshot_child (gtk_widget_get_parent (others[i]), others[i], made);
  g_clear_pointer (&(GskRenderNode *){ gtk_snapshot_free_to_node (made) }, gsk_render_node_unref);
}

static void
hw_window_init (HwWindow *self)
{
  self->memory = hw_display_memory_new (GTK_WIDGET (self));
  gtk_widget_init_template (GTK_WIDGET (self));
  /* A bound child would be taken from the window before the window lets go of its title bar. */
  self->header = GTK_HEADER_BAR (gtk_window_get_titlebar (GTK_WINDOW (self)));
  g_signal_connect (self->message_bar, "response", G_CALLBACK (on_message_response_cb), NULL);
  g_signal_connect_swapped (self->panels, "notify::visible", G_CALLBACK (hw_window_apply_width), self);
  g_signal_connect_swapped (self->panels, "notify::visible-child", G_CALLBACK (hw_window_apply_width), self);
  g_signal_connect_swapped (self->canvas, "view-changed", G_CALLBACK (on_view_changed_cb), self);
  g_signal_connect_swapped (self->canvas, "painting", G_CALLBACK (on_painting_cb), self);
  g_signal_connect_swapped (self->canvas, "pointed", G_CALLBACK (on_pointed_cb), self);
  g_signal_connect_swapped (self->hole_chooser, "chosen", G_CALLBACK (on_hole_chosen_cb), self);
}

HwWindow *
hw_window_new (GtkApplication *application, HwSettings *settings, const char *example)
{
  HwWindow *self = g_object_new (HW_TYPE_WINDOW, "application", application, NULL);
  self->settings = g_object_ref (settings);
  self->example = g_strdup (example);
  self->document = hw_document_new (settings, example);
  self->desk = hw_desk_new (self->document);
  self->solver = hw_solver_new (self->document);
  self->planner = hw_planner_new (self->document);
  hw_canvas_set_document (self->canvas, self->document);
  hw_canvas_set_solver (self->canvas, self->solver);
  hw_canvas_set_planner (self->canvas, self->planner);
  hw_strip_set_document (self->strip, self->document);
  hw_plan_panel_set_document (self->plan_panel, self->document, self->solver, self->planner);
  hw_card_view_set_document (self->card_view, self->document);
  hw_card_panel_set_document (self->card_panel, self->document);
  hw_hole_chooser_set_document (self->hole_chooser, self->document);
  g_signal_connect_object (self->document, "message", G_CALLBACK (on_message_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->document, "opened", G_CALLBACK (on_document_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->document, "hole-changed", G_CALLBACK (on_document_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->document, "results-changed", G_CALLBACK (on_document_changed_cb), self, G_CONNECT_SWAPPED);
  hw_window_add_draw (self);
  hw_window_add_life (self);
  hw_window_add_course (self);
  hw_window_add_bag (self);
  hw_window_add_suggest (self);
  hw_window_add_actions (self);
  hw_window_add_section (self);
  hw_window_update_recent (self);
  hw_window_apply_width (self);
  return self;
}

bool
hw_window_is_empty (HwWindow *self)
{
  return !hw_document_has_hole (self->document);
}
