// SPDX-License-Identifier: GPL-3.0-or-later
/* application - opens what it is given, a window each; given nothing, what was open last, and the first time the example course. */
#include "application.h"

#include "appearance.h"
#include "preferences.h"
#include "window.h"

#include <glib/gi18n.h>

#define APPLICATION_ID "org.holewright.Holewright"
/* The example course, below the folder of courses. */
#define EXAMPLE_COURSE "fenwhistle"
#define COURSE_FILE "course.xml"

struct _HwApplication
{
  GtkApplication parent_instance;
  HwSettings *settings;
  HwRecovered *recovered;
  HwSession *session;
  bool has_offered; /* what earlier runs left, in the first window */
  char *example;
};

G_DEFINE_FINAL_TYPE (HwApplication, hw_application, GTK_TYPE_APPLICATION)

/* ---- the example course ---- */

/* The course folder below `base`, or NULL if it is not there. */
static char *
example_below (const char *base)
{
  if (base == NULL)
    return NULL;
  g_autofree char *folder = g_build_filename (base, "courses", EXAMPLE_COURSE, NULL);
  g_autofree char *file = g_build_filename (folder, COURSE_FILE, NULL);
  return g_file_test (file, G_FILE_TEST_IS_REGULAR) ? g_canonicalize_filename (folder, NULL) : NULL;
}

/* In the source tree that the program was built in: a folder above it. Installed programs have no courses above them. */
static char *
example_above (const char *program)
{
  g_autofree char *folder = g_path_get_dirname (program);
  char *found = example_below (folder);
  if (found != NULL || g_strcmp0 (folder, program) == 0)
    return found;
  return example_above (folder);
}

/* In HOLEWRIGHT_DATA_DIR, in the source tree, or where it was installed. */
static char *
find_example (void)
{
  char *found = example_below (g_getenv ("HOLEWRIGHT_DATA_DIR"));
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  if (found == NULL && program != NULL)
    found = example_above (program);
  return found != NULL ? found : example_below (HOLEWRIGHT_DATA_DIR);
}

/* ---- windows ---- */

static HwWindow *
add_window (HwApplication *self)
{
  HwWindow *window = hw_window_new (GTK_APPLICATION (self), self->settings, self->example);
  hw_window_set_recovered (window, self->recovered);
  hw_window_set_session (window, self->session);
  return window;
}

/* Shows a window whose document is open. The first one offers what earlier runs left. */
static void
present_window (HwApplication *self, HwWindow *window)
{
  if (!self->has_offered)
    hw_window_show_recovered (window);
  self->has_offered = true;
  gtk_window_present (GTK_WINDOW (window));
}

static void
open_last_or_example (HwApplication *self, HwWindow *window)
{
  if (hw_window_resume (window))
    return;
  /* What is no longer there is passed over: the golfer has moved it, and knows. */
  const char *const *last = hw_settings_get_recent (self->settings);
  while (*last != NULL && !g_file_test (*last, G_FILE_TEST_EXISTS))
    last++;
  if (*last != NULL)
    hw_window_open (window, *last);
  else
    hw_window_open_example (window);
}

static void
hw_application_activate (GApplication *application)
{
  HwApplication *self = HW_APPLICATION (application);
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));
  if (window == NULL)
    {
      window = GTK_WINDOW (add_window (self));
      open_last_or_example (self, HW_WINDOW (window));
    }
  present_window (self, HW_WINDOW (window));
}

static void
hw_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  HwApplication *self = HW_APPLICATION (application);
  for (int i = 0; i < n_files; i++)
    {
      HwWindow *window = add_window (self);
      g_autofree char *path = g_file_get_path (files[i]);
      g_autofree char *uri = g_file_get_uri (files[i]);
      hw_window_open (window, path != NULL ? path : uri);
      present_window (self, window);
    }
}

/* ---- actions ---- */

static void
on_new_window_cb (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  HwWindow *window = add_window (application);
  hw_window_open_example (window);
  present_window (application, window);
}

static void
on_preferences_cb (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  HwApplication *self = application;
  gtk_window_present (hw_preferences_new (gtk_application_get_active_window (GTK_APPLICATION (self)), self->settings));
}

static void
on_about_cb (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  gtk_show_about_dialog (gtk_application_get_active_window (application), "program-name", "Holewright", "version",
                         HOLEWRIGHT_VERSION, "logo-icon-name", APPLICATION_ID, "license-type", GTK_LICENSE_GPL_3_0, "comments",
                         _ ("Plan every hole before you play it.\n\nMake sure that no one is in reach before you play, and "
                            "call “Fore” when someone is. "
                            "Leave the course when lightning threatens. Distances are as good as the readings behind them; "
                            "the Committee’s Local Rules decide what may be used during a round."),
                         NULL);
}

/* Windows are asked one by one, so that each can ask about unsaved work. */
static void
on_quit_cb (GSimpleAction *action, GVariant *parameter, gpointer application)
{
  g_autoptr (GList) windows = g_list_copy (gtk_application_get_windows (application));
  for (GList *window = windows; window != NULL; window = window->next)
    gtk_window_close (window->data);
}

/* ---- keys ---- */

static void
add_keys (GtkApplication *application)
{
  static const struct
  {
    const char *action;
    const char *keys[3];
  } table[] = {
    { "app.quit", { "<Control>q" } },
    { "app.new-window", { "<Control>n" } },
    { "app.preferences", { "<Control>comma" } },
    { "win.new-hole", { "<Control><Shift>n" } },
    { "win.hole-properties", { "<Alt>Return" } },
    { "win.new-course", { "<Control><Alt>n" } },
    { "win.course", { "F8" } },
    { "win.bag", { "F7" } },
    { "win.open", { "<Control>o" } },
    { "win.open-course", { "<Control><Shift>o" } },
    { "win.save", { "<Control>s" } },
    { "win.save-as", { "<Control><Shift>s" } },
    { "win.close", { "<Control>w" } },
    { "win.undo", { "<Control>z" } },
    { "win.redo", { "<Control><Shift>z", "<Control>y" } },
    { "win.print", { "<Control>p" } },
    { "win.export", { "<Control>e" } },
    { "win.show-panel", { "F9" } },
    { "win.other-part", { "F6" } },
    { "win.step::draw", { "<Alt>1" } },
    { "win.step::plan", { "<Alt>2" } },
    { "win.step::card", { "<Alt>3" } },
    { "win.look::along", { "<Control>1" } },
    { "win.look::up", { "<Control>2" } },
    { "win.section", { "<Control>3" } },
    { "win.look::green", { "<Control>4" } },
    { "win.fit", { "<Control>0" } },
    { "win.zoom-in", { "<Control>plus" } },
    { "win.zoom-out", { "<Control>minus" } },
    { "win.suggest", { "F5" } },
    { "win.use-suggestion", { "<Shift>F5" } },
    { "win.compare", { "<Control>F5" } },
    { "win.add-shot", { "<Control>Return" } },
    { "win.remove-shot", { "<Control>Delete" } },
    { "win.next-shot", { "Page_Down" } },
    { "win.previous-shot", { "Page_Up" } },
    { "win.next-hole", { "<Control>Page_Down" } },
    { "win.previous-hole", { "<Control>Page_Up" } },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (table); i++)
    gtk_application_set_accels_for_action (application, table[i].action, table[i].keys);
}

static void
hw_application_startup (GApplication *application)
{
  static const GActionEntry entries[] = {
    { .name = "new-window", .activate = on_new_window_cb },
    { .name = "preferences", .activate = on_preferences_cb },
    { .name = "about", .activate = on_about_cb },
    { .name = "quit", .activate = on_quit_cb },
  };
  HwApplication *self = HW_APPLICATION (application);
  G_APPLICATION_CLASS (hw_application_parent_class)->startup (application);
  self->settings = hw_settings_new (NULL);
  self->recovered = hw_recovered_new ();
  self->session = hw_session_new ();
  self->example = find_example ();
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  add_keys (GTK_APPLICATION (application));
  hw_appearance_start (gdk_display_get_default (), self->settings);
}

static void
hw_application_finalize (GObject *object)
{
  HwApplication *self = HW_APPLICATION (object);
  g_clear_object (&self->settings);
  g_clear_object (&self->recovered);
  g_clear_object (&self->session);
  g_free (self->example);
  G_OBJECT_CLASS (hw_application_parent_class)->finalize (object);
}

static void
hw_application_class_init (HwApplicationClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_application_finalize;
  G_APPLICATION_CLASS (klass)->startup = hw_application_startup;
  G_APPLICATION_CLASS (klass)->activate = hw_application_activate;
  G_APPLICATION_CLASS (klass)->open = hw_application_open;
}

static void
hw_application_init (HwApplication *self)
{
}

HwApplication *
hw_application_new (void)
{
  return g_object_new (HW_TYPE_APPLICATION, "application-id", APPLICATION_ID, "flags", G_APPLICATION_HANDLES_OPEN,
                       "resource-base-path", "/org/holewright/Holewright", NULL);
}
