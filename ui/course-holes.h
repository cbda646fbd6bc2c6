// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * course-holes - the table of a course's holes, typed into in place: number, name, par, stroke index, and lengths from the tees.
 *
 * Up, Down and Return go to the same column of another hole; a hole is dragged by its grip. Emits "selected" when another hole is, and "failed" (text)
 * when something could not be done.
 */
#ifndef HW_COURSE_HOLES_H
#define HW_COURSE_HOLES_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_COURSE_HOLES (hw_course_holes_get_type ())
G_DECLARE_FINAL_TYPE (HwCourseHoles, hw_course_holes, HW, COURSE_HOLES, GtkWidget)

void hw_course_holes_set_document (HwCourseHoles *self, HwDocument *document);
size_t hw_course_holes_get_selected (HwCourseHoles *self);
/* Selects hole `i` and puts the keyboard there, in the column it was in. */
void hw_course_holes_select (HwCourseHoles *self, size_t i);
/* Leaves out the lengths where there is little room. */
void hw_course_holes_set_narrow (HwCourseHoles *self, bool is_narrow);
/* Moves the selected hole by one place, -1 or +1. */
void hw_course_holes_move (HwCourseHoles *self, int step);
/* Keeps what is typed and not yet entered. */
void hw_course_holes_commit (HwCourseHoles *self);

#endif
