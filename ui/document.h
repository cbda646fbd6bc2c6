// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * document - what is open in one window: a hole, or a course of holes, each with its history; the bag; the results of the plan.
 *
 * Panels read it and call it; they do not know each other. It emits
 *   "opened"           another hole or course is on the table, or its file has another name;
 *   "hole-changed"     the hole shown is another value: opened, edited, dragged, undone, saved;
 *   "results-changed"  shots, carries, the shot in hand, bag or units are others;
 *   "results-told"     after "results-changed", for what is written of them; while something is dragged only when the frame that shows them has begun;
 *   "found"            there is more to tell of the shot in hand: hw_document_get_found;
 *   "course-changed"   the course's name, tees, or holes and their facts are others;
 *   "message" (text)   something the golfer should read; the work goes on.
 * A hole without a plan is shown with one of a single shot, from the tee to the hole, which becomes part of the file with its first change.
 */
#ifndef HW_DOCUMENT_H
#define HW_DOCUMENT_H

#include "beside.h"
#include "follower.h"
#include "settings.h"
#include "sheet.h"

#include "odds.h"
#include "render.h"
#include "svg.h"

#define HW_TYPE_DOCUMENT (hw_document_get_type ())
G_DECLARE_FINAL_TYPE (HwDocument, hw_document, HW, DOCUMENT, GObject)

/* `example` is the folder of the example course, NULL if it was not found. */
HwDocument *hw_document_new (HwSettings *settings, const char *example);

/* ---- files ---- */

/* Opens a hole file, a course folder or a course.xml. On failure what was open stays, untouched. */
bool hw_document_open (HwDocument *self, const char *path, GError **error);
/* Another hole of the course; the others keep their changes and their history. */
bool hw_document_open_hole (HwDocument *self, size_t i, GError **error);
bool hw_document_has_hole (HwDocument *self);
/* NULL when a single hole is open. Borrowed. */
const Course *hw_document_get_course (HwDocument *self);
size_t hw_document_get_n_holes (HwDocument *self);
size_t hw_document_get_hole_index (HwDocument *self);
/* Facts of hole `i` of the course for the chooser and its length from the tee in use; NULL if its file cannot be read. Borrowed. */
const HoleInfo *hw_document_peek_info (HwDocument *self, size_t i, double *length_m);
/* File of the hole in hand; NULL when nothing is open. Borrowed. */
const char *hw_document_get_path (HwDocument *self);
/* Is this the program's own example, which is not saved over? */
bool hw_document_is_example (HwDocument *self);
/* Is the hole in hand / any open hole changed since it was opened or saved? */
bool hw_document_is_modified (HwDocument *self);
bool hw_document_is_any_modified (HwDocument *self);
bool hw_document_changed_on_disk (HwDocument *self);
/* Saves the hole in hand under `path`, NULL: where it belongs. */
bool hw_document_save (HwDocument *self, const char *path, GError **error);
/* Saves every changed hole where it belongs; stops at the first that fails, which is then the one in hand. */
bool hw_document_save_all (HwDocument *self, GError **error);

/* ---- work that a dead process left, and files that others change ---- */

/* Does this document hold the file, as the only or as one of its holes? */
bool hw_document_holds (HwDocument *self, const char *path);
/*
 * Opens a recovery copy as a step on what its file holds, so that undo leads back there; a hole of the course that is open is shown in it. A copy
 * that was never saved opens without a file.
 */
bool hw_document_recover (HwDocument *self, const RecoveryCopy *copy, GError **error);
/* How the file of the hole in hand stands to what is open. Emits "hole-changed" when the work has come to count as unsaved, or no longer. */
HwDisk hw_document_look_at_disk (HwDocument *self);
/* Loads the file of the hole in hand again, as a step that can be undone. */
bool hw_document_load_again (HwDocument *self, GError **error);
/* Stays with what is open over what another wrote; saving still asks. */
void hw_document_keep_mine (HwDocument *self);

/* The window goes: everything is taken off the table, and nothing is left that could be recovered. */
void hw_document_close (HwDocument *self);

/* ---- the hole and its results ---- */

HwSettings *hw_document_get_settings (HwDocument *self);
/* Do the two holes hold the same parts, but for their plans? */
bool hw_same_ground (const Hole *a, const Hole *b);
/* Has the golfer read something: emits "message". */
void hw_document_say (HwDocument *self, const char *text);
LengthUnit hw_document_get_units (HwDocument *self);
/* The hole as shown, with its plan. NULL when nothing is open. Borrowed. */
Hole *hw_document_get_hole (HwDocument *self);
/* NULL when no bag could be read. Borrowed. */
Bag *hw_document_get_bag (HwDocument *self);
/* Its file, NULL if there is none; the folder where bags for this hole are kept, NULL where the golfer keeps none; g_free the folder. */
const char *hw_document_get_bag_path (HwDocument *self);
char *hw_document_get_bag_folder (HwDocument *self);
/* Does the file belong to the example, which is not saved over? */
bool hw_document_is_example_bag (HwDocument *self, const char *path);
/* The bag files beside the hole, and the one in hand: a GPtrArray of char *. */
GPtrArray *hw_document_list_bags (HwDocument *self);
/* Plans with this file from now on, here and with every hole that has no other. */
void hw_document_choose_bag (HwDocument *self, const char *path);
/* Plans with a bag that is being edited, whatever its file holds, until that is over. */
void hw_document_try_bag (HwDocument *self, Bag *bag);
void hw_document_stop_trying (HwDocument *self);
/* A thread for pieces of a frame that the main thread waits for; the document's own are over whenever it comes back. */
HwBeside *hw_document_get_beside (HwDocument *self);
/* The plan's results; n_shots is 0 when there are none, and then hw_document_get_trouble says why. Borrowed, until the next change. */
const PlanScene *hw_document_get_scene (HwDocument *self);
const char *hw_document_get_trouble (HwDocument *self);
/* Odds that were found: of the shot as it was then, and how long it took. */
typedef struct
{
  OddsTable *table; /* NULL: `error` says why */
  GError *error;
  ShotResult shot;
  gint64 took_us; /* of the processor's time */
} HwFoundOdds;
/* Those of the shot in hand, found when they are first asked for; NULL when there is none. Borrowed, until the next change. */
const HwFoundOdds *hw_document_get_odds (HwDocument *self);
/* Emits "results-told" if that waits. For who begins a frame. */
void hw_document_tell_results (HwDocument *self);
/* Will they be asked for after the next change too? Then they are found while the carries are. */
void hw_document_want_odds (HwDocument *self, bool wants_odds);
/* Has the scene hold what of SceneNeed is asked for; found at the first question after a change; a map of aims is the solver's to find. */
void hw_document_need (HwDocument *self, unsigned needs);
/*
 * Its odds' places and its room, as soon as they are found after hw_document_need; of a moment ago while something is dragged. NULL: not known (yet). Borrowed, until the
 * next "found" or change.
 */
const HwFound *hw_document_get_found (HwDocument *self);
/* The shot in hand from its side, made when it is first asked for; NULL when there is none. Borrowed, until the next change. */
const Section *hw_document_get_section (HwDocument *self);
/* The plan as written: shots, and which of them is in hand. NULL when the hole has no tee or nothing to aim at. */
const Part *hw_document_get_plan (HwDocument *self);
size_t hw_document_get_shot (HwDocument *self);
void hw_document_set_shot (HwDocument *self, size_t shot);

/* ---- edits, each one step of undo ---- */

void hw_document_choose_club (HwDocument *self, const char *club);
/* How the shot in hand flies, as edit_set_shape, edit_set_swing and edit_fit_swing take it. False with a sentence in `error`. */
bool hw_document_set_shape (HwDocument *self, ShotShape shape, double curve_m, GError **error);
bool hw_document_set_swing (HwDocument *self, double swing, GError **error);
bool hw_document_fit_swing (HwDocument *self, GError **error);
bool hw_document_add_shot (HwDocument *self);
bool hw_document_remove_shot (HwDocument *self);
/* Plays the plan with the shots of another, `label` as undo is to name it; the first is then in hand. False where there is no plan to change. */
bool hw_document_take_plan (HwDocument *self, const Plan *plan, const char *label);
/* Moves of one gesture (a key held down) make one step; 0 is a gesture of its own. */
void hw_document_move_aim (HwDocument *self, Vec2 by_m, unsigned gesture);
void hw_document_move_ball (HwDocument *self, Vec2 by_m, unsigned gesture);
/* The day that the plan is made for. False with a sentence in `error` (may be NULL) when no golf is played on it. */
bool hw_document_set_day (HwDocument *self, const Day *day, unsigned gesture, GError **error);
/* Keeps the plan's day with the hole under a name; forgets one. */
bool hw_document_keep_day (HwDocument *self, const char *name, GError **error);
bool hw_document_forget_day (HwDocument *self, const char *name, GError **error);
bool hw_document_undo (HwDocument *self);
bool hw_document_redo (HwDocument *self);
/* What undo / redo would take back or bring again; NULL if nothing. Borrowed. */
const char *hw_document_undo_label (HwDocument *self);
const char *hw_document_redo_label (HwDocument *self);

/* ---- a drag: the hole follows the pointer and becomes one step when it ends ---- */

void hw_document_drag_aim (HwDocument *self, Vec2 aim);
void hw_document_drag_ball (HwDocument *self, Vec2 ball);
/* A day that no golf is played on leaves what was. */
void hw_document_drag_day (HwDocument *self, const Day *day);
bool hw_document_is_dragging (HwDocument *self);
/* Keeps the dragged hole as one step of undo. */
void hw_document_drag_end (HwDocument *self);
/* As if the drag had never begun. */
void hw_document_drag_cancel (HwDocument *self);

/* ---- edits of the drawing ---- */

/*
 * The hole that edits of the drawing start from: as kept, without the plan that is made up for showing, and as it was before a drag. Indices of parts
 * are those of the hole shown. NULL when nothing is open. Borrowed.
 */
Hole *hw_document_get_kept (HwDocument *self);
/* Pushes `hole` as a step of undo, taking its reference; moves of one `gesture` other than 0 make one step. False for NULL or nothing new. */
bool hw_document_edit (HwDocument *self, Hole *hole, const char *label, unsigned gesture);
/* A number for a gesture that no other has. */
unsigned hw_document_new_gesture (HwDocument *self);
/* Shows `hole`, taking its reference, in the place of the one kept, until the drag ends or is taken back. Results wait for the end. */
void hw_document_drag_hole (HwDocument *self, Hole *hole, const char *label);
/*
 * Something drawn goes on: from now on the recovery copy holds `hole`, taking its reference, which is as if it ended now; nothing of it is shown. NULL:
 * it was taken back. `since_us`: when the first of it was drawn that was not handed over before, on the monotonic clock; 0: now.
 */
void hw_document_keep_begun (HwDocument *self, Hole *hole, gint64 since_us);
/* Is something kept that was begun on the hole as it is now? */
bool hw_document_holds_begun (HwDocument *self);
/* It is over, and what came of it, if anything, follows as an edit. */
void hw_document_forget_begun (HwDocument *self, gint64 since_us);
/* Puts a drawing that has no file yet on the table, taking its reference. */
void hw_document_start (HwDocument *self, Hole *hole);
/* What the window and a dialog call the file of the hole in hand, also when it has none yet. Free with g_free. */
char *hw_document_get_file_name (HwDocument *self);

/*
 * ---- the course: every change is on disk at once, in one whole, and hw_document_undo_course takes it back ----
 *
 * Each returns false with one sentence in `error` and everything as it was. The example course is not changed.
 */

bool hw_document_can_change_course (HwDocument *self);
/* Hole `i` as it is open, else as its file says; NULL with `error` when that cannot be read. Borrowed. */
Hole *hw_document_peek_hole (HwDocument *self, size_t i, GError **error);
bool hw_document_is_hole_modified (HwDocument *self, size_t i);
bool hw_document_name_course (HwDocument *self, const char *name, GError **error);
/* A tee that is renamed, no other with it, takes the tee markers of its name on all holes along. */
bool hw_document_set_tees (HwDocument *self, const CourseTee *tees, size_t n_tees, GError **error);
/* Adds a hole as number `at`, in a new file, and shows it. */
bool hw_document_add_hole (HwDocument *self, size_t at, Hole *hole, GError **error);
/* A hole with unsaved changes is copied with them. */
bool hw_document_duplicate_hole (HwDocument *self, size_t i, GError **error);
bool hw_document_move_hole (HwDocument *self, size_t from, size_t to, GError **error);
bool hw_document_rename_hole (HwDocument *self, size_t i, const char *name, GError **error);
/*
 * Saves what is unsaved of hole `i`, then takes it out of the course. Its file goes to the trash, or `*kept` (g_free) says where it is. Undone, it comes back
 * with its history.
 */
bool hw_document_delete_hole (HwDocument *self, size_t i, char **kept, GError **error);
/* The facts of hole `i`: a step of undo when it is open, else read, changed and saved. Also for a hole without a course. */
bool hw_document_set_facts (HwDocument *self, size_t i, const HoleInfo *info, GError **error);
/* What hw_document_undo_course would take back; NULL if nothing. Borrowed. */
const char *hw_document_course_undo_label (HwDocument *self);
bool hw_document_undo_course (HwDocument *self, GError **error);

/* ---- the card ---- */

/* Lays the card out as the preferences say. */
Card *hw_document_new_card (HwDocument *self, GError **error);

#endif
