// SPDX-License-Identifier: GPL-3.0-or-later
/* window-session - what the window remembers of how it was left, and how it comes back. */
#include "window-private.h"

/* The way of looking that a view belongs to; in another it would show another part. */
static const char *
mode_of (HwWindow *self)
{
  if (hw_canvas_get_drawing (self->canvas))
    return "draw";
  return hw_look_name (hw_canvas_get_look (self->canvas));
}

static void
restore_view (HwWindow *self)
{
  HwSessionView view;
  const char *path = hw_document_get_path (self->document);
  if (path != NULL && hw_session_get_view (self->session, path, mode_of (self), &view))
    hw_canvas_show_view (self->canvas, view.centre, view.px_per_m);
}

static void
on_view_changed_cb (HwWindow *self)
{
  const char *path = hw_document_get_path (self->document);
  const RenderView *shown = hw_canvas_get_view (self->canvas);
  HwSessionView view = { .centre = shown->centre, .px_per_m = shown->px_per_m };
  if (path != NULL)
    hw_session_set_view (self->session, path, mode_of (self), hw_canvas_is_fitted (self->canvas) ? NULL : &view);
}

static void
on_opened_cb (HwWindow *self)
{
  const char *path = hw_document_get_path (self->document);
  if (path != NULL)
    hw_session_set_word (self->session, "hole", path);
  restore_view (self);
}

static void
on_size_cb (HwWindow *self)
{
  int width_px, height_px;
  gtk_window_get_default_size (GTK_WINDOW (self), &width_px, &height_px);
  hw_session_set_size (self->session, width_px, height_px, gtk_window_is_maximized (GTK_WINDOW (self)));
}

static void
on_state_cb (HwWindow *self, const char *name, GVariant *state)
{
  hw_session_set_word (self->session, name, g_variant_get_string (state, NULL));
}

static void
on_section_state_cb (HwWindow *self, const char *name, GVariant *state)
{
  hw_session_set_word (self->session, name, g_variant_get_boolean (state) ? "on" : "off");
}

void
hw_window_set_session (HwWindow *self, HwSession *session)
{
  int width_px, height_px;
  bool is_maximized;
  self->session = g_object_ref (session);
  if (hw_session_get_size (session, &width_px, &height_px, &is_maximized))
    {
      gtk_window_set_default_size (GTK_WINDOW (self), width_px, height_px);
      hw_window_follow_height (self, height_px);
    }
  g_autofree char *section = hw_session_get_word (session, "section");
  if (g_strcmp0 (section, "off") == 0)
    g_action_group_change_action_state (G_ACTION_GROUP (self), "section", g_variant_new_boolean (FALSE));
  if (is_maximized)
    gtk_window_maximize (GTK_WINDOW (self));
  for (int i = 0; i < 3; i++)
    {
      const char *const changes[] = { "notify::default-width", "notify::default-height", "notify::maximized" };
      g_signal_connect (self, changes[i], G_CALLBACK (on_size_cb), NULL);
    }
  g_signal_connect (self, "action-state-changed::step", G_CALLBACK (on_state_cb), NULL);
  g_signal_connect (self, "action-state-changed::look", G_CALLBACK (on_state_cb), NULL);
  g_signal_connect (self, "action-state-changed::section", G_CALLBACK (on_section_state_cb), NULL);
  g_signal_connect_object (self->document, "opened", G_CALLBACK (on_opened_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->canvas, "view-changed", G_CALLBACK (on_view_changed_cb), self, G_CONNECT_SWAPPED);
}

/* The course that was opened with this hole in it, so that the list of recent files does not fill with its holes; else the hole itself. */
static const char *
opened_with (HwWindow *self, const char *hole)
{
  g_autofree char *folder = g_path_get_dirname (hole);
  for (const char *const *path = hw_settings_get_recent (self->settings); *path != NULL; path++)
    if (g_str_equal (*path, folder))
      return *path;
  return hole;
}

static bool
open_again (HwWindow *self, const char *hole)
{
  if (hole == NULL || !g_file_test (hole, G_FILE_TEST_EXISTS))
    return false;
  g_autofree char *folder = g_path_get_dirname (hole);
  if (g_strcmp0 (folder, self->example) == 0)
    hw_window_open_example (self);
  else
    hw_window_open (self, opened_with (self, hole));
  const Course *course = hw_document_get_course (self->document);
  for (size_t i = 0; course != NULL && i < course->n_holes; i++)
    if (g_str_equal (course->hole_files[i], hole))
      hw_document_open_hole (self->document, i, NULL);
  return true;
}

bool
hw_window_resume (HwWindow *self)
{
  /* Taken first: opening changes them. */
  g_autofree char *hole = hw_session_get_word (self->session, "hole");
  const char *const names[] = { "look", "step" };
  for (int i = 0; i < 2; i++)
    {
      g_autofree char *word = hw_session_get_word (self->session, names[i]);
      if (g_strcmp0 (word, "draw") == 0 || g_strcmp0 (word, "plan") == 0 || g_strcmp0 (word, "card") == 0
          || g_strcmp0 (word, "up") == 0 || g_strcmp0 (word, "along") == 0)
        g_action_group_change_action_state (G_ACTION_GROUP (self), names[i], g_variant_new_string (word));
    }
  bool is_open = open_again (self, hole);
  /* What stands round the drawing follows its view, and cannot change any more once sizes are given out. */
  g_signal_emit_by_name (self->canvas, "view-changed");
  return is_open;
}
