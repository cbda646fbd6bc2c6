// SPDX-License-Identifier: GPL-3.0-or-later
/* summary-job - what the course summary's worker does: the holes solved side by side, each told as soon as it is. */
#ifndef HW_SUMMARY_JOB_H
#define HW_SUMMARY_JOB_H

#include "document.h"
#include "worker.h"

#include "plan-losses.h"

/* One hole, as it is told. */
typedef struct
{
  size_t i;    /* of the course */
  char *error; /* why it has no plan, one sentence; NULL: it has one */
  char *club;  /* from the tee */
  double strokes;
  int par; /* 0: not given */
  PlanLosses losses;
} HwHoleSummary;

typedef struct
{
  GPtrArray *holes; /* Hole; NULL for one that cannot be read */
  Bag *bag;
} HwSummaryJob;

/* Every hole of the course as it is now; NULL without a course or a bag with a club in it. */
HwSummaryJob *hw_summary_job_new (HwDocument *document);
void hw_summary_job_free (gpointer job);
/* For HwWork; its drafts are HwHoleSummary. */
void hw_summary_job_work (gpointer job, HwRun *run);
void hw_hole_summary_free (gpointer summary);

#endif
