// SPDX-License-Identifier: GPL-3.0-or-later
/* course - what the reader and the writer of course.xml share. */
#ifndef HOLEWRIGHT_SVG_COURSE_PRIVATE_H
#define HOLEWRIGHT_SVG_COURSE_PRIVATE_H

#include "document-private.h"

#define COURSE_FILE "course.xml"

/* The course in a parsed course.xml, whose path is the document's name. */
Course *course_read_document (const Document *document, GError **error);

/* ---- course-files.c: nothing here ever takes the place of a file that is there ---- */

/* What the file of a hole is called without its ending: "04-the-weir". `place` counts from 0 and serves a hole without a number. */
char *course_hole_stem (const HoleInfo *info, size_t place);
/* The name of a hole file as a person gave it, with its ending; NULL if it cannot be one. */
char *course_check_name (const char *name, GError **error);
/* Makes an empty file, which must not exist; on failure errno says why as well. */
bool course_reserve_file (const char *path, GError **error);
/* Makes STEM.svg, or STEM-2.svg and so on, with these bytes; returns its path. */
char *course_make_file (const char *folder, const char *stem, GBytes *bytes, GError **error);
/* Gives the file a second name, which must be free; on failure errno is EEXIST if it is not. */
bool course_add_name (const char *path, const char *more, GError **error);
/* Moves the file to the trash, else under another name beside it, else leaves it; returns its path unless it is in the trash. */
char *course_put_away (const char *path);

/* ---- course-edit.c: course.xml read anew, edited as a tree, read back and saved ---- */

typedef struct
{
  char *file; /* course.xml */
  GBytes *source;
  Document *document;
  xmlNode *root;
  GPtrArray *holes, *tees; /* borrowed elements, in order */
  GBytes *written;         /* what was to be saved, NULL before */
  GError **error;
} CourseEdit;

void course_edit_clear (CourseEdit *edit);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CourseEdit, course_edit_clear)

/* Reads course.xml as it is now, which must still say what `course` says. */
bool course_edit_begin (CourseEdit *edit, const Course *course, GError **error);
/* Parses `source` in place of course.xml, and takes it over. */
bool course_edit_take (CourseEdit *edit, GBytes *source);
/* The course that the edited tree says, once it is saved; NULL if it would not read back or cannot be saved. */
Course *course_edit_end (CourseEdit *edit);
/* The same with these bytes in place of the edited tree. */
Course *course_edit_replace (CourseEdit *edit, GBytes *bytes);
/* After a failure: does course.xml certainly not name the new files, so that they may go? A save may fail when it is all but done. */
bool course_edit_may_undo (const CourseEdit *edit);
/* A new element, not yet in the tree. */
xmlNode *course_edit_new (CourseEdit *edit, const char *name);
/* Puts an element at place `at` among its like; before `next_kind` (may be NULL) when it is the only one. */
void course_edit_insert (CourseEdit *edit, GPtrArray *like, size_t at, xmlNode *element, GPtrArray *next_kind);
void course_edit_remove (GPtrArray *like, size_t i);

#endif
