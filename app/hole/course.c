// SPDX-License-Identifier: GPL-3.0-or-later
/* A course: its name, its tees and the files of its holes. */
#include "hole.h"

void
course_free (Course *course)
{
  if (!course)
    return;
  g_free (course->folder);
  g_free (course->name);
  for (size_t i = 0; i < course->n_tees; i++)
    {
      g_free (course->tees[i].name);
      g_free (course->tees[i].colour);
    }
  g_free (course->tees);
  g_strfreev (course->hole_files);
  g_free (course);
}
