// SPDX-License-Identifier: GPL-3.0-or-later
/* document-private - the document's fields, shared by document.c and the files document-*.c. */
#ifndef HW_DOCUMENT_PRIVATE_H
#define HW_DOCUMENT_PRIVATE_H

#include "document.h"

typedef enum
{
  HW_DOCUMENT_OPENED,
  HW_DOCUMENT_HOLE_CHANGED,
  HW_DOCUMENT_RESULTS_CHANGED,
  HW_DOCUMENT_MESSAGE,
  HW_DOCUMENT_N_SIGNALS
} HwDocumentSignal;

struct _HwDocument
{
  GObject parent_instance;
  HwSettings *settings;
  char *example;

  Course *course;
  GPtrArray *sheets; /* HwSheet, one per hole of the course; NULL until its hole was opened */
  GPtrArray *peeks;  /* Hole, as sheets: read for the chooser only */
  size_t current;
  HwKeeper *keeper;

  Bag *bag;
  char *bag_path;
  char *bag_failed; /* preferred bag file that could not be read, so that it is said once */
  Level bag_level;

  Hole *dragged;              /* while the pointer holds the aim or the ball */
  const char *dragging_label; /* what the drag will be called */
  bool is_drawing;            /* the drag is one of the drawing: results wait for its end */
  Hole *shown;
  ShotResult *shots;
  CarryTable *carries;
  PlanScene scene;
  char *trouble;
};

/* The sheet in hand, or NULL. */
HwSheet *hw_document_sheet (HwDocument *self);
void hw_document_emit (HwDocument *self, HwDocumentSignal signal);
/* Brings the recovery copies up to date with what is open. */
void hw_document_keep (HwDocument *self);
/* Takes the hole that counts now, computes it and tells everyone. */
void hw_document_refresh (HwDocument *self);
void hw_document_compute (HwDocument *self);
/* Puts `course` (may be NULL) with its hole `i` in hand in the place of what was open. Takes both. */
void hw_document_take (HwDocument *self, Course *course, size_t i, HwSheet *sheet);
/* Index of the hole file in the course, or -1. */
int hw_course_find (const Course *course, const char *path);
/* Tells everyone that another hole is on the table. */
void hw_document_opened (HwDocument *self);
/* Reads the bag that the preferences and the open hole ask for, if it is not the one in hand. */
void hw_document_load_bag (HwDocument *self);

#endif
