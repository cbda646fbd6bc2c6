// SPDX-License-Identifier: GPL-3.0-or-later
/* window-actions - the commands of the window as a table of actions; buttons, menu and keys all go through them. */
#include "window-private.h"

#include "keys.h"
#include "sentence.h"

#include <glib/gi18n.h>

/* One press of a zoom key or button. */
#define ZOOM_STEP 1.25

static void
on_open_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_choose_file (window, false);
}

static void
on_open_course_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_choose_file (window, true);
}

static void
on_open_recent_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_open (window, g_variant_get_string (parameter, NULL));
}

static void
on_save_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_save (window);
}

static void
on_save_as_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_save_as (window);
}

static void
on_close_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  gtk_window_close (window);
}

static void
on_undo_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_document_undo (HW_WINDOW (window)->document);
}

static void
on_redo_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_document_redo (HW_WINDOW (window)->document);
}

static void
on_add_shot_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  if (!hw_document_add_shot (self->document))
    hw_window_say (self, GTK_MESSAGE_INFO, _ ("The last shot already lands at the hole; there is nothing left to play."));
}

static void
on_fit_swing_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  g_autoptr (GError) error = NULL;
  if (!hw_document_fit_swing (HW_WINDOW (window)->document, &error) && error != NULL)
    {
      g_autofree char *text = hw_sentence (error->message);
      hw_window_say (HW_WINDOW (window), GTK_MESSAGE_INFO, text);
    }
}

static void
on_remove_shot_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_document_remove_shot (HW_WINDOW (window)->document);
}

static void
on_next_shot_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwDocument *document = HW_WINDOW (window)->document;
  hw_document_set_shot (document, hw_document_get_shot (document) + 1);
}

static void
on_previous_shot_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwDocument *document = HW_WINDOW (window)->document;
  if (hw_document_get_shot (document) > 0)
    hw_document_set_shot (document, hw_document_get_shot (document) - 1);
}

static void
on_next_hole_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwDocument *document = HW_WINDOW (window)->document;
  g_signal_emit_by_name (HW_WINDOW (window)->hole_chooser, "chosen", (guint)hw_document_get_hole_index (document) + 1);
}

static void
on_previous_hole_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwDocument *document = HW_WINDOW (window)->document;
  if (hw_document_get_hole_index (document) > 0)
    g_signal_emit_by_name (HW_WINDOW (window)->hole_chooser, "chosen", (guint)hw_document_get_hole_index (document) - 1);
}

static void
on_fit_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_canvas_fit (HW_WINDOW (window)->canvas);
}

static void
on_zoom_in_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_canvas_zoom (HW_WINDOW (window)->canvas, ZOOM_STEP);
}

static void
on_zoom_out_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_canvas_zoom (HW_WINDOW (window)->canvas, 1 / ZOOM_STEP);
}

static void
on_print_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_print (window);
}

static void
on_export_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_export (window);
}

/* ---- actions with a state ---- */

/* Shows one page of a stack and hides the others from a screen reader too, for which a page that is not shown would still be there. */
static void
show_page (GtkStack *stack, const char *name)
{
  gtk_widget_set_visible (gtk_stack_get_child_by_name (stack, name), TRUE);
  gtk_stack_set_visible_child_name (stack, name);
  for (GtkWidget *page = gtk_widget_get_first_child (GTK_WIDGET (stack)); page != NULL;
       page = gtk_widget_get_next_sibling (page))
    gtk_widget_set_visible (page, page == gtk_stack_get_visible_child (stack));
}

static void
on_step_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  const char *step = g_variant_get_string (state, NULL);
  bool is_draw = g_str_equal (step, "draw");
  show_page (self->steps, is_draw ? "plan" : step);
  show_page (self->panels, step);
  hw_canvas_set_drawing (self->canvas, is_draw);
  hw_window_update_section (self);
  gtk_widget_set_visible (self->looks, !is_draw);
  g_simple_action_set_state (action, state);
  hw_window_update_actions (self);
}

static void
on_look_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  hw_canvas_set_look (HW_WINDOW (window)->canvas, hw_look_named (g_variant_get_string (state, NULL)));
  g_simple_action_set_state (action, state);
}

static void
on_show_panel_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  gtk_widget_set_visible (GTK_WIDGET (HW_WINDOW (window)->panels), g_variant_get_boolean (state));
  g_simple_action_set_state (action, state);
}

/* From the drawing or the card to the panel and back: Tab alone would go through everything on the hole first. */
static void
on_other_part_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self)), *panels = GTK_WIDGET (self->panels);
  bool from_panel = focus != NULL && gtk_widget_is_ancestor (focus, panels);
  if (!from_panel && !gtk_widget_get_visible (panels))
    g_action_group_change_action_state (G_ACTION_GROUP (self), "show-panel", g_variant_new_boolean (TRUE));
  gtk_widget_child_focus (from_panel ? GTK_WIDGET (self->steps) : panels, GTK_DIR_TAB_FORWARD);
}

static void
on_show_overlay_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  const char *name = g_action_get_name (G_ACTION (action)) + strlen ("show-");
  unsigned mask = hw_settings_get_overlays (self->settings);
  for (unsigned row = 0; overlay_table[row].name != NULL; row++)
    if (g_str_equal (overlay_table[row].name, name))
      mask = g_variant_get_boolean (state) ? mask | 1u << row : mask & ~(1u << row);
  g_simple_action_set_state (action, state);
  hw_settings_set_overlays (self->settings, mask);
}

static void
add_overlay_actions (HwWindow *self)
{
  unsigned mask = hw_settings_get_overlays (self->settings);
  for (unsigned row = 0; overlay_table[row].name != NULL; row++)
    {
      g_autofree char *name = g_strconcat ("show-", overlay_table[row].name, NULL);
      g_autoptr (GSimpleAction) action = g_simple_action_new_stateful (name, NULL, g_variant_new_boolean ((mask >> row) & 1));
      g_signal_connect (action, "change-state", G_CALLBACK (on_show_overlay_cb), self);
      g_action_map_add_action (G_ACTION_MAP (self), G_ACTION (action));
    }
}

/* Keys without Control come to the window last, so that a field that is typed into keeps them. */
static void
add_plain_keys (HwWindow *self)
{
  static const HwKey keys[] = { { "0|KP_0", "win.fit" },
                                { "plus|KP_Add", "win.zoom-in" },
                                { "minus|KP_Subtract", "win.zoom-out" },
                                { "Escape", "win.cancel-suggestion" } };
  hw_keys_add (GTK_WIDGET (self), keys, G_N_ELEMENTS (keys), GTK_PHASE_BUBBLE);
}

void
hw_window_add_actions (HwWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "open", .activate = on_open_cb },
    { .name = "open-course", .activate = on_open_course_cb },
    { .name = "open-recent", .activate = on_open_recent_cb, .parameter_type = "s" },
    { .name = "save", .activate = on_save_cb },
    { .name = "save-as", .activate = on_save_as_cb },
    { .name = "close", .activate = on_close_cb },
    { .name = "undo", .activate = on_undo_cb },
    { .name = "redo", .activate = on_redo_cb },
    { .name = "add-shot", .activate = on_add_shot_cb },
    { .name = "remove-shot", .activate = on_remove_shot_cb },
    { .name = "fit-swing", .activate = on_fit_swing_cb },
    { .name = "next-shot", .activate = on_next_shot_cb },
    { .name = "previous-shot", .activate = on_previous_shot_cb },
    { .name = "next-hole", .activate = on_next_hole_cb },
    { .name = "previous-hole", .activate = on_previous_hole_cb },
    { .name = "fit", .activate = on_fit_cb },
    { .name = "zoom-in", .activate = on_zoom_in_cb },
    { .name = "zoom-out", .activate = on_zoom_out_cb },
    { .name = "other-part", .activate = on_other_part_cb },
    { .name = "print", .activate = on_print_cb },
    { .name = "export", .activate = on_export_cb },
    { .name = "step", .parameter_type = "s", .state = "'plan'", .change_state = on_step_cb },
    { .name = "look", .parameter_type = "s", .state = "'along'", .change_state = on_look_cb },
    { .name = "show-panel", .state = "true", .change_state = on_show_panel_cb },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  show_page (self->steps, "plan");
  show_page (self->panels, "plan");
  add_overlay_actions (self);
  add_plain_keys (self);
  hw_window_update_actions (self);
}

static void
enable (HwWindow *self, const char *name, bool enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), name)), enabled);
}

static void
name_step_of_undo (GtkWidget *button, const char *format, const char *bare, const char *label)
{
  g_autofree char *text = label != NULL ? g_strdup_printf (format, label) : g_strdup (bare);
  if (g_strcmp0 (gtk_widget_get_tooltip_text (button), text) != 0) // GTK would ask where the pointer is
    gtk_widget_set_tooltip_text (button, text);
}

void
hw_window_update_actions (HwWindow *self)
{
  bool has_hole = hw_document_has_hole (self->document);
  const Part *plan = hw_document_get_plan (self->document);
  const PlanScene *scene = hw_document_get_scene (self->document);
  bool has_canvas = g_strcmp0 (gtk_stack_get_visible_child_name (self->steps), "plan") == 0;
  bool in_plan = has_canvas && !hw_canvas_get_drawing (self->canvas);
  const char *undo = hw_document_undo_label (self->document), *redo = hw_document_redo_label (self->document);
  enable (self, "save", has_hole);
  enable (self, "save-as", has_hole);
  enable (self, "print", has_hole);
  enable (self, "export", has_hole);
  enable (self, "undo", undo != NULL);
  enable (self, "redo", redo != NULL);
  enable (self, "add-shot", in_plan && scene->n_shots > 0);
  enable (self, "fit-swing", in_plan && scene->n_shots > 0);
  enable (self, "remove-shot", in_plan && plan != NULL && plan->n_shots > 1);
  enable (self, "next-shot", in_plan && plan != NULL && hw_document_get_shot (self->document) + 1 < plan->n_shots);
  enable (self, "previous-shot", in_plan && hw_document_get_shot (self->document) > 0);
  enable (self, "next-hole", hw_document_get_hole_index (self->document) + 1 < hw_document_get_n_holes (self->document));
  enable (self, "previous-hole", hw_document_get_hole_index (self->document) > 0);
  enable (self, "fit", has_hole && has_canvas);
  enable (self, "zoom-in", has_hole && has_canvas);
  enable (self, "zoom-out", has_hole && has_canvas);
  enable (self, "look", has_hole && !hw_canvas_get_drawing (self->canvas));
  hw_window_update_draw_actions (self);
  hw_window_update_suggest_actions (self, in_plan);
  hw_window_update_course_actions (self);
  /* "Undo move aim" */
  name_step_of_undo (self->undo_button, _ ("Undo %s"), _ ("Undo"), undo);
  name_step_of_undo (self->redo_button, _ ("Redo %s"), _ ("Redo"), redo);
}

void
hw_window_update_recent (HwWindow *self)
{
  g_menu_remove_all (self->recent_menu);
  for (const char *const *path = hw_settings_get_recent (self->settings); *path != NULL; path++)
    {
      g_autofree char *shown = g_filename_display_basename (*path);
      g_auto (GStrv) pieces = g_strsplit (shown, "_", -1);
      g_autofree char *label = g_strjoinv ("__", pieces);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
      g_menu_item_set_action_and_target (item, "win.open-recent", "s", *path);
      g_menu_append_item (self->recent_menu, item);
    }
}
