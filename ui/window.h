// SPDX-License-Identifier: GPL-3.0-or-later
/* window - one document in one window: header bar, drawing, panel of the step, status line, messages. */
#ifndef HW_WINDOW_H
#define HW_WINDOW_H

#include "recovered.h"
#include "session.h"
#include "settings.h"

#include <gtk/gtk.h>

#define HW_TYPE_WINDOW (hw_window_get_type ())
G_DECLARE_FINAL_TYPE (HwWindow, hw_window, HW, WINDOW, GtkApplicationWindow)

/* `example` is the folder of the example course or NULL. */
HwWindow *hw_window_new (GtkApplication *application, HwSettings *settings, const char *example);
/* What earlier runs left unsaved, once; it is shown when asked for. */
void hw_window_set_recovered (HwWindow *self, HwRecovered *recovered);
void hw_window_show_recovered (HwWindow *self);
/* How the program was left, once: the size from now on, and where a hole is opened what was shown of it; changes are kept. */
void hw_window_set_session (HwWindow *self, HwSession *session);
/* Back in the step and on the hole where the golfer left. False when that hole is not known or no longer there. */
bool hw_window_resume (HwWindow *self);
/* Is anything open here? */
bool hw_window_is_empty (HwWindow *self);
/* Opens a file or folder; what cannot be opened is said in the message bar. Unsaved work is asked about first. */
void hw_window_open (HwWindow *self, const char *path);
/* Opens the example course and says so. */
void hw_window_open_example (HwWindow *self);

#endif
