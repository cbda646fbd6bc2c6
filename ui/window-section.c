// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * window-section - when the section stands under the drawing, and how high: while the drawing lies along the shot, so that both share an axis, where
 * the golfer wants it, and where the window leaves the drawing room beside it.
 */
#include "window-private.h"

/* Of the window's height, within these; a window lower than the last has no room for it, px. */
#define SECTION_SHARE 0.2
#define LEAST_SECTION_PX 104
#define MOST_SECTION_PX 210
#define LEAST_WINDOW_PX 620
/* Heights change by steps, so that a window that is drawn larger is not laid out twice at every size. */
#define STEP_PX 8

static int
height_for (int window_px)
{
  int height_px = (int)(SECTION_SHARE * window_px) / STEP_PX * STEP_PX;
  return window_px < LEAST_WINDOW_PX ? 0 : CLAMP (height_px, LEAST_SECTION_PX, MOST_SECTION_PX);
}

static bool
is_wanted (HwWindow *self)
{
  g_autoptr (GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (self), "section");
  return state != NULL && g_variant_get_boolean (state);
}

void
hw_window_update_section (HwWindow *self)
{
  if (self->document == NULL)
    return;
  bool has_room = self->section_px > 0 && self->width != HW_WIDTH_PHONE;
  bool along = hw_document_get_scene (self->document)->n_shots > 0 && hw_canvas_is_along (self->canvas)
               && !hw_canvas_get_drawing (self->canvas);
  bool is_shown = along && has_room && is_wanted (self);
  hw_section_set_height (self->section, self->section_px);
  hw_section_set_view (self->section, hw_canvas_get_view (self->canvas));
  gtk_widget_set_visible (self->section_button, self->width != HW_WIDTH_PHONE && !hw_canvas_get_drawing (self->canvas));
  /* Without a shared axis it goes at once, as the ruler does. */
  gtk_widget_set_visible (GTK_WIDGET (self->section_revealer), along && has_room);
  if (gtk_revealer_get_reveal_child (self->section_revealer) != is_shown)
    gtk_revealer_set_reveal_child (self->section_revealer, is_shown);
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "section");
  if (action != NULL)
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), along && has_room);
}

static gboolean
on_height_idle_cb (gpointer user_data)
{
  hw_window_update_section (user_data);
  return G_SOURCE_REMOVE;
}

void
hw_window_follow_height (HwWindow *self, int height_px)
{
  int section_px = height_for (height_px);
  if (section_px == self->section_px)
    return;
  self->section_px = section_px;
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_height_idle_cb, g_object_ref (self), g_object_unref);
}

static void
on_section_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  g_simple_action_set_state (action, state);
  hw_window_update_section (window);
}

void
hw_window_add_section (HwWindow *self)
{
  static const GActionEntry entries[] = { { .name = "section", .state = "true", .change_state = on_section_cb } };
  int width_px, height_px;
  gtk_window_get_default_size (GTK_WINDOW (self), &width_px, &height_px);
  self->section_px = height_for (height_px);
  hw_section_set_document (self->section, self->document);
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  hw_window_update_section (self);
}
