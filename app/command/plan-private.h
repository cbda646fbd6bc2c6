// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-private - the tables of the command plan, and its progress. Tables are freed with table_free. */
#ifndef HOLEWRIGHT_PLAN_COMMAND_PRIVATE_H
#define HOLEWRIGHT_PLAN_COMMAND_PRIVATE_H

#include "command-private.h"
#include "plan-compare.h"
#include "plan-reasons.h"

/* ---- progress: one line on a terminal that is written over ---- */

typedef struct
{
  FILE *err;        /* NULL: nobody looks */
  const char *what; /* "solving" */
} Progress;

/* Tells only where `err` is a terminal. */
void progress_init (Progress *progress, FILE *err, const char *what);
void progress_tell (Progress *progress, double share);
/* Wipes the line. */
void progress_end (Progress *progress);

/* ---- tables ---- */

/* What is solved and compared. */
typedef struct
{
  const Options *options;
  const PlanSolution *solution;
  const Plan *suggested;
  bool has_own;
  PlanOwn own; /* where the hole has a plan drawn that the bag can play */
} PlanTelling;

/* Reads a hole, and the day that it is planned for. */
Hole *plan_read_hole (const Options *options, const char *path, Conditions *conditions, FILE *err, GError **error);
/* Plans all holes of the folder that the options name. */
bool plan_write_course (const Options *options, FILE *out, FILE *err, GError **error);

/* "reasons": why each shot. For people a sentence, else its figures as well. */
Table *plan_reason_table (const PlanTelling *telling, GError **error);
/* "sureness": how sure the tee club is. */
Table *plan_sureness_table (const PlanTelling *telling, GError **error);
/* "alternatives" and "difference": other plans, and where what they cost more comes from. */
void plan_alternative_tables (const PlanTelling *telling, Table **alternatives, Table **difference);
/* "wind": at what wind another tee club; without rows where nobody asks for them, for they take long. */
Table *plan_wind_table (const PlanTelling *telling, FILE *err, GError **error);

#endif
