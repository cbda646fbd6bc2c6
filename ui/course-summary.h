// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * course-summary - what the golfer is expected to score on each hole of the course and in all, and where strokes are lost. Worked out when asked, hole by hole; each hole on the day
 * of its plan, with the bag in use.
 */
#ifndef HW_COURSE_SUMMARY_H
#define HW_COURSE_SUMMARY_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_COURSE_SUMMARY (hw_course_summary_get_type ())
G_DECLARE_FINAL_TYPE (HwCourseSummary, hw_course_summary, HW, COURSE_SUMMARY, GtkWidget)

void hw_course_summary_set_document (HwCourseSummary *self, HwDocument *document);

#endif
