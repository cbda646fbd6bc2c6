// SPDX-License-Identifier: GPL-3.0-or-later
/* document-private - the document's fields, shared by document.c and the files document-*.c. */
#ifndef HW_DOCUMENT_PRIVATE_H
#define HW_DOCUMENT_PRIVATE_H

#include "document.h"

#include "follower.h"
#include "odds-known.h"
#include "svg.h"

typedef enum
{
  HW_DOCUMENT_OPENED,
  HW_DOCUMENT_HOLE_CHANGED,
  HW_DOCUMENT_RESULTS_CHANGED,
  HW_DOCUMENT_RESULTS_TOLD,
  HW_DOCUMENT_COURSE_CHANGED,
  HW_DOCUMENT_FOUND,
  HW_DOCUMENT_MESSAGE,
  HW_DOCUMENT_N_SIGNALS
} HwDocumentSignal;

/* One change of the course and what takes it back. */
typedef enum
{
  COURSE_STEP_NAME,
  COURSE_STEP_TEES,
  COURSE_STEP_MOVE,
  COURSE_STEP_RENAME,
  COURSE_STEP_ADD,
  COURSE_STEP_DELETE,
  COURSE_STEP_FACTS
} CourseStepKind;

typedef struct
{
  CourseStepKind kind;
  const char *label;      /* "delete hole" */
  Course *before;         /* the course as it was; NULL for facts */
  size_t from, to;        /* the hole, and where a move took it */
  CourseRemoved *removed; /* a deleted hole, and what was open of it */
  HwSheet *sheet;
  char *path;               /* facts: the hole's file, NULL for a drawing without one */
  Hole *hole_was, *hole_is; /* facts */
  char *tee_was, *tee_is;   /* a tee that was renamed; else NULL */
  GPtrArray *changed;       /* Hole, with the marker of that tee renamed, */
  GPtrArray *changed_paths; /* and the file of each */
} CourseStep;

/* What follows from the shot in hand alone. */
enum
{
  HW_FOLLOWS_ODDS = 1 << 0,
  HW_FOLLOWS_CARRIES = 1 << 1,
  HW_FOLLOWS_CLUBS = 1 << 2
};

typedef struct
{
  Hole *hole; /* NULL: nothing was begun */
  Bag *bag;
  ShotResult shot;
  unsigned beside; /* what of it the other thread finds */
  HwFoundOdds odds;
  CarryTable *carries;
  ClubToday *clubs;
} HwFollowing;

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
  GPtrArray *course_steps; /* CourseStep, the newest last */

  Bag *bag;
  char *bag_path;
  char *bag_failed; /* preferred bag file that could not be read, so that it is said once */
  Level bag_level;
  bool is_trying_bag; /* the bag is being edited, and its file does not count */

  Hole *dragged;              /* while the pointer holds the aim or the ball */
  const char *dragging_label; /* what the drag will be called */
  bool is_drawing;            /* the drag is one of the drawing: results wait for its end */
  unsigned last_gesture;
  Hole *begun;     /* what is being drawn, as if it ended now: kept, not shown */
  Hole *begun_on;  /* what it was begun on; with another edit `begun` no longer counts */
  gint64 begun_us; /* when the first was drawn that is not yet on the trace; 0: nothing is */
  Hole *traced;    /* what the last line of the trace told of */
  Hole *shown;
  KnownShots *known; /* shots flown a moment ago */
  HwBeside *beside;
  HwFollowing following; /* what is being found of the shot in hand */
  HwShare finding;       /* that, beside the main thread */
  bool wants_odds; /* as soon as the shot in hand is another */
  HwFoundOdds odds; /* of the shot in hand, where they are found */
  ShotResult *shots;
  ClubToday *clubs; /* of the bag, from the ball of the shot in hand */
  CarryTable *carries;
  TreeTable *trees; /* of the shot in hand, once somebody asked */
  Section *section; /* of the shot in hand; NULL until it is asked for */
  HwFollower *follower;
  bool is_followed; /* it was asked about the results as they are */
  PlanScene scene;
  bool is_untold; /* the results are others, which not everyone was told */
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
void hw_document_clear_results (HwDocument *self);
/*
 * Flies the shot in hand of a hole that is to be shown, and begins what follows from it: it is there sooner while the rest of the hole is still being made. The plan's other shots need not be
 * as they will be. Given up when another is shown.
 */
void hw_document_fly_ahead (HwDocument *self, Hole *hole);
void hw_document_drop_ahead (HwDocument *self);
/* Asks the follower about the shot in hand; has the scene hold what it found, and tells everyone. */
void hw_document_follow (HwDocument *self);
void hw_document_take_found (HwDocument *self);
/* Puts `course` (may be NULL) with its hole `i` in hand in the place of what was open. Takes both. */
void hw_document_take (HwDocument *self, Course *course, size_t i, HwSheet *sheet);
/* Index of the hole file in the course, or -1. */
int hw_course_find (const Course *course, const char *path);
/* Tells everyone that another hole is on the table. */
void hw_document_opened (HwDocument *self);
/* Reads the bag that the preferences and the open hole ask for, if it is not the one in hand. */
void hw_document_load_bag (HwDocument *self);

CourseStep *course_step_new (CourseStepKind kind, const char *label, size_t from, size_t to);
void course_step_free (CourseStep *step);
/* Says why the course cannot be changed, if that is so. */
bool hw_document_may_change_course (HwDocument *self, GError **error);
/* Takes `now` for the course; false if it is none. */
bool hw_document_take_course (HwDocument *self, Course *now);
bool hw_document_undo_tees (HwDocument *self, CourseStep *step, GError **error);
/* Keeps the step, whose `before` may be filled in, and takes `now` for the course. Takes both. */
void hw_document_keep_step (HwDocument *self, CourseStep *step, Course *now);
/* Tells everyone that the course, or a hole of it, is another. */
void hw_document_course_changed (HwDocument *self);
/* Gives place `i` to a hole that is open (`sheet`) or not (NULL), and takes it away again; the hole in hand stays in hand. */
void hw_document_insert_place (HwDocument *self, size_t i, HwSheet *sheet);
HwSheet *hw_document_remove_place (HwDocument *self, size_t i);
void hw_document_move_place (HwDocument *self, size_t from, size_t to);
/* Holes that are open under a name that `before` gave their files get the name the course gives them now. */
void hw_document_follow_files (HwDocument *self, const Course *before);
/* Has another hole in hand than `i`, which is to be deleted. */
bool hw_document_leave (HwDocument *self, size_t i, GError **error);
/* Puts `hole` in the place of the closed file `path`, which must still hold `expected`. */
bool hw_document_change_file (const char *path, Hole *expected, Hole *hole, GError **error);
/* Forgets what was read of hole `i` for the chooser. */
void hw_document_forget_peek (HwDocument *self, size_t i);
/* Makes `hole` the next state of hole `i`, which is open. */
void hw_document_push_at (HwDocument *self, size_t i, Hole *hole, const char *label);

#endif
