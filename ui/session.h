// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * session - how the golfer left the program: size of the window, step, hole in hand, and of each hole that was zoomed or moved what was shown
 * of it. Apart from the preferences, since nobody chose it: a key file in the user's folder for state.
 *
 * A change is written two seconds later and when a window closes. A file that cannot be read or written costs no more than the memory of it.
 */
#ifndef HW_SESSION_H
#define HW_SESSION_H

#include "geometry.h"

#include <gio/gio.h>
#include <stdbool.h>

#define HW_TYPE_SESSION (hw_session_get_type ())
G_DECLARE_FINAL_TYPE (HwSession, hw_session, HW, SESSION, GObject)

/* What was shown of a hole, while it did not simply fit the window. */
typedef struct
{
  Vec2 centre;
  double px_per_m;
} HwSessionView;

/* Reads holewright/session.ini in the user's folder for state. */
HwSession *hw_session_new (void);
/* Writes what changed now. */
void hw_session_write (HwSession *self);
/* False when it is not known. */
bool hw_session_get_size (HwSession *self, int *width_px, int *height_px, bool *is_maximized);
void hw_session_set_size (HwSession *self, int width_px, int height_px, bool is_maximized);
/* The state of one of the window's actions, "step", "look" or "section", and "hole": the file in hand. NULL when not known. Free with g_free. */
char *hw_session_get_word (HwSession *self, const char *key);
void hw_session_set_word (HwSession *self, const char *key, const char *word);
/* What was shown of the hole in this file, in this `mode`. */
bool hw_session_get_view (HwSession *self, const char *path, const char *mode, HwSessionView *view);
/* NULL: it fits the window. */
void hw_session_set_view (HwSession *self, const char *path, const char *mode, const HwSessionView *view);

#endif
