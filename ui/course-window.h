// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * course-window - the course in one place: its holes with their facts, its name and its tees; every change is on disk at once and can be undone.
 *
 * Emits "add-hole" when a hole is wanted, "show-hole" (index) when one is to be seen on the drawing.
 */
#ifndef HW_COURSE_WINDOW_H
#define HW_COURSE_WINDOW_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_COURSE_WINDOW (hw_course_window_get_type ())
G_DECLARE_FINAL_TYPE (HwCourseWindow, hw_course_window, HW, COURSE_WINDOW, GtkWindow)

GtkWindow *hw_course_window_new (GtkWindow *parent, HwDocument *document);

#endif
