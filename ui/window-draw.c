// SPDX-License-Identifier: GPL-3.0-or-later
/* window-draw - the commands of Draw as actions of the window: ways, kinds, what can be done to the selection. */
#include "window-private.h"

#include "ask.h"
#include "desk-commands.h"
#include "new-hole.h"
#include "palette.h"

#include <glib/gi18n.h>

/* How near a press for the menu must come to something small, px (common practice). */
#define MENU_REACH_PX 8.0

static GSimpleAction *
action_of (HwWindow *self, const char *name)
{
  return G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), name));
}

/* ---- ways and kinds ---- */

static void
on_way_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  for (int way = 0; hw_way_names[way] != NULL; way++)
    if (g_str_equal (hw_way_names[way], g_variant_get_string (state, NULL)))
      hw_desk_take_way (HW_WINDOW (window)->desk, (HwWay)way);
  gtk_widget_grab_focus (GTK_WIDGET (HW_WINDOW (window)->canvas));
}

static void
on_kind_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  Kind kind;
  if (!kind_from_token (g_variant_get_string (state, NULL), &kind))
    return;
  hw_desk_take_kind (HW_WINDOW (window)->desk, kind);
  /* What was chosen in the panel is drawn at once, by keys too. */
  gtk_widget_grab_focus (GTK_WIDGET (HW_WINDOW (window)->canvas));
}

static void
on_took_cb (HwWindow *self)
{
  HwWay way = hw_desk_get_way (self->desk);
  bool draws = way != HW_WAY_SELECT && way != HW_WAY_CUT;
  g_simple_action_set_state (action_of (self, "draw-way"), g_variant_new_string (hw_way_names[way]));
  g_simple_action_set_state (action_of (self, "draw-kind"),
                             g_variant_new_string (draws ? kind_info (hw_desk_get_kind (self->desk))->token : ""));
  hw_window_update_draw_actions (self);
  hw_window_update_status (self);
}

/* ---- new holes ---- */

static void
start_now (HwWindow *self, const char *path)
{
  Hole *hole = g_steal_pointer (&self->started);
  hw_document_start (self->document, hole);
  gtk_info_bar_set_revealed (self->message_bar, FALSE);
  g_action_group_change_action_state (G_ACTION_GROUP (self), "step", g_variant_new_string ("draw"));
  gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

static void
on_drawn_cb (HwWindow *self, Hole *hole, gboolean in_course)
{
  g_autoptr (GError) error = NULL;
  if (in_course)
    {
      if (!hw_document_add_hole (self->document, hw_document_get_hole_index (self->document) + 1, hole, &error))
        hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
      else
        g_action_group_change_action_state (G_ACTION_GROUP (self), "step", g_variant_new_string ("draw"));
      return;
    }
  g_clear_pointer (&self->started, hole_unref);
  self->started = hole_ref (hole);
  hw_window_ask_then (self, start_now, NULL);
}

void
hw_window_new_hole (HwWindow *self, GtkWindow *over)
{
  const Course *course = hw_document_can_change_course (self->document) ? hw_document_get_course (self->document) : NULL;
  GtkWindow *dialog = hw_new_hole_new (over, hw_document_get_units (self->document), course != NULL ? course->name : NULL,
                                       course != NULL ? (int)course->n_holes + 1 : 1);
  g_signal_connect_object (dialog, "drawn", G_CALLBACK (on_drawn_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

static void
on_new_hole_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_window_new_hole (window, window);
}

/* ---- bringing what is selected into view ---- */

static void
on_look_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = HW_WINDOW (window);
  Hole *hole = hw_desk_get_hole (self->desk);
  size_t n;
  const size_t *parts = hw_desk_get_selection (self->desk, &n);
  Box box = box_empty ();
  for (size_t i = 0; hole != NULL && i < n; i++)
    box = box_union (box, hole_part (hole, parts[i])->bounds);
  hw_canvas_show_box (self->canvas, box);
}

/* ---- commands ---- */

static void
on_command_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  for (const HwDeskCommand *command = hw_desk_command_table; command->name != NULL; command++)
    if (g_str_equal (command->name, g_action_get_name (G_ACTION (action))))
      command->run (HW_WINDOW (window)->desk);
}

static bool
read_length (const char *text, gpointer desk, double *length_m, char **error)
{
  if (units_parse_sum (text, hw_document_get_units (hw_desk_get_document (desk)), length_m))
    return true;
  *error = hw_no_length (text);
  return false;
}

static bool
read_angle (const char *text, gpointer desk, double *angle_rad, char **error)
{
  if (units_parse_angle (text, angle_rad))
    return true;
  *error = hw_no_angle (text);
  return false;
}

static void
grow_then (double distance_m, gpointer desk)
{
  hw_desk_grow (desk, distance_m);
}

static void
turn_then (double angle_rad, gpointer desk)
{
  hw_desk_turn (desk, angle_rad);
}

static void
on_grow_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_ask (window, _ ("Grow or Shrink"), _ ("_By how much, negative to shrink"), _ ("2 yd or -1.5 m"), read_length, grow_then,
          HW_WINDOW (window)->desk);
}

static void
on_turn_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_ask (window, _ ("Turn"), _ ("_Degrees anticlockwise"), _ ("15"), read_angle, turn_then, HW_WINDOW (window)->desk);
}

void
hw_window_update_draw_actions (HwWindow *self)
{
  bool in_draw = hw_canvas_get_drawing (self->canvas) && hw_desk_get_hole (self->desk) != NULL;
  for (const HwDeskCommand *command = hw_desk_command_table; command->name != NULL; command++)
    if (command->name[0] != '\0')
      g_simple_action_set_enabled (action_of (self, command->name), in_draw && command->can (self->desk));
}

static void
on_selected_cb (HwWindow *self)
{
  if (!hw_document_is_dragging (self->document))
    hw_window_update_draw_actions (self);
}

/* ---- the menu on the drawing ---- */

/* One menu for all its openings: GTK 4.8 lays a menu out that was parted from its widget right after it closed, and dies of it. */
static GtkPopover *
new_menu (HwWindow *self)
{
  g_autoptr (GMenuModel) commands = hw_desk_command_menu ();
  GtkWidget *menu = gtk_popover_menu_new_from_model (commands);
  gtk_popover_set_has_arrow (GTK_POPOVER (menu), FALSE);
  gtk_widget_set_parent (menu, GTK_WIDGET (self->canvas));
  /* The focus would stay on the menu, out of reach of the drawing's keys. */
  g_signal_connect_object (menu, "closed", G_CALLBACK (gtk_widget_grab_focus), self->canvas, G_CONNECT_SWAPPED);
  return GTK_POPOVER (menu);
}

static void
show_menu (HwWindow *self, double x, double y)
{
  gtk_popover_set_pointing_to (self->drawing_menu, &(GdkRectangle){ (int)x, (int)y, 1, 1 });
  gtk_popover_popup (self->drawing_menu);
}

/* The menu where the drawing was pressed, on what lies there. */
static void
show_menu_at (HwWindow *self, double x, double y)
{
  if (!hw_canvas_get_drawing (self->canvas) || hw_desk_get_hole (self->desk) == NULL)
    return;
  const RenderView *view = hw_canvas_get_view (self->canvas);
  size_t n;
  const size_t *without = hw_desk_get_untouchable (self->desk, &n);
  int part = edit_pick (hw_desk_get_hole (self->desk), view_unproject (view, vec2 (x, y)), MENU_REACH_PX / view->px_per_m,
                        without, n);
  if (part >= 0 && !hw_desk_is_selected (self->desk, (size_t)part))
    hw_desk_select_one (self->desk, (size_t)part);
  show_menu (self, x, y);
}

/* On release: a menu that takes the pointer before would leave the drawing waiting for the button to come up. */
static void
on_menu_released_cb (GtkGestureClick *gesture, int n_press, double x, double y, HwWindow *self)
{
  show_menu_at (self, x, y);
}

/* A finger that rests: what it began to drag is taken back by claiming the touch. */
static void
on_long_pressed_cb (GtkGesture *gesture, double x, double y, HwWindow *self)
{
  if (!hw_canvas_get_drawing (self->canvas))
    return;
  gtk_gesture_set_state (gesture, GTK_EVENT_SEQUENCE_CLAIMED);
  show_menu_at (self, x, y);
}

/* ---- keys of the ways, on the drawing only ---- */

static void
add_way_keys (HwWindow *self)
{
  static const char *const keys[] = { "s", "f", "p", "c", "m", "t" };
  GtkEventController *controller = gtk_shortcut_controller_new ();
  for (size_t way = 0; way < G_N_ELEMENTS (keys); way++)
    {
      GtkShortcut *shortcut
          = gtk_shortcut_new (gtk_shortcut_trigger_parse_string (keys[way]), gtk_named_action_new ("win.draw-way"));
      gtk_shortcut_set_arguments (shortcut, g_variant_new_string (hw_way_names[way]));
      gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller), shortcut);
    }
  gtk_widget_add_controller (GTK_WIDGET (self->canvas), controller);
}

void
hw_window_add_draw (HwWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "draw-way", .parameter_type = "s", .state = "'select'", .change_state = on_way_cb },
    { .name = "draw-kind", .parameter_type = "s", .state = "''", .change_state = on_kind_cb },
    { .name = "new-hole", .activate = on_new_hole_cb },
    { .name = "draw-look", .activate = on_look_cb },
    { .name = "draw-grow", .activate = on_grow_cb },
    { .name = "draw-turn", .activate = on_turn_cb },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  for (const HwDeskCommand *command = hw_desk_command_table; command->name != NULL; command++)
    if (command->run != NULL)
      g_action_map_add_action_entries (G_ACTION_MAP (self), &(GActionEntry){ .name = command->name, .activate = on_command_cb },
                                       1, self);
  hw_window_add_clipboard (self);
  hw_canvas_set_desk (self->canvas, self->desk);
  hw_draw_panel_set_desk (self->draw_panel, self->desk);
  hw_desk_command_add_keys (GTK_WIDGET (self->canvas));
  add_way_keys (self);
  self->drawing_menu = new_menu (self);
  GtkGesture *menu = gtk_gesture_click_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  g_signal_connect (menu, "released", G_CALLBACK (on_menu_released_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->canvas), GTK_EVENT_CONTROLLER (menu));
  GtkGesture *rest = gtk_gesture_long_press_new ();
  gtk_gesture_single_set_touch_only (GTK_GESTURE_SINGLE (rest), TRUE);
  g_signal_connect (rest, "pressed", G_CALLBACK (on_long_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self->canvas), GTK_EVENT_CONTROLLER (rest));
  g_signal_connect_object (self->desk, "took", G_CALLBACK (on_took_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->desk, "selected", G_CALLBACK (on_selected_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->desk, "marked", G_CALLBACK (on_selected_cb), self, G_CONNECT_SWAPPED);
  hw_window_update_draw_actions (self);
}
