// SPDX-License-Identifier: GPL-3.0-or-later
/* new-course - asks for a name, a folder, tees and a number of holes, and makes the course. Emits "made" (folder). */
#ifndef HW_NEW_COURSE_H
#define HW_NEW_COURSE_H

#include <gtk/gtk.h>

#define HW_TYPE_NEW_COURSE (hw_new_course_get_type ())
G_DECLARE_FINAL_TYPE (HwNewCourse, hw_new_course, HW, NEW_COURSE, GtkWindow)

GtkWindow *hw_new_course_new (GtkWindow *parent);

#endif
