// SPDX-License-Identifier: GPL-3.0-or-later
/* course-tees - the table of a course's tees, typed into in place: name, colour, Course Rating, Slope Rating. Emits "failed" (text). */
#ifndef HW_COURSE_TEES_H
#define HW_COURSE_TEES_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_COURSE_TEES (hw_course_tees_get_type ())
G_DECLARE_FINAL_TYPE (HwCourseTees, hw_course_tees, HW, COURSE_TEES, GtkWidget)

void hw_course_tees_set_document (HwCourseTees *self, HwDocument *document);
/* Adds a tee with the next usual name. */
void hw_course_tees_add (HwCourseTees *self);
/* Keeps what is typed and not yet entered. */
void hw_course_tees_commit (HwCourseTees *self);
/* The colour that tees of this name usually have, NULL for another name. */
const char *hw_tee_usual_colour (const char *name);

#endif
