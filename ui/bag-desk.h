// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bag-desk - the bag that is being edited: its file, its steps of undo, and whether anything of it is unsaved. The plan follows every step at once.
 *
 * What is unsaved is in a recovery copy within 3 s of a change, as a hole's is. Emits "changed" when the bag, its file or what can be undone is another, and "trouble" with one
 * sentence when no copy can be kept.
 */
#ifndef HW_BAG_DESK_H
#define HW_BAG_DESK_H

#include "document.h"
#include "svg.h"

/* More clubs than this are a list of something else, and no table to type into (common practice). */
#define HW_BAG_MOST_ROWS 100

#define HW_TYPE_BAG_DESK (hw_bag_desk_get_type ())
G_DECLARE_FINAL_TYPE (HwBagDesk, hw_bag_desk, HW, BAG_DESK, GObject)

/* Can this bag be laid on a desk? Else `error` says why not. */
bool hw_bag_desk_can_hold (const Bag *bag, GError **error);
/* Takes up the bag that the document plans with, which can be held, a usual one of the player's level where there is none; hw_bag_desk_leave gives it back. */
HwBagDesk *hw_bag_desk_new (HwDocument *document);
/* From now on the document plans with what is in the files again. */
void hw_bag_desk_leave (HwBagDesk *self);

/* Gaps filled from the level that the player has chosen. Borrowed, until the next change. */
Bag *hw_bag_desk_get_bag (HwBagDesk *self);
LengthUnit hw_bag_desk_get_units (HwBagDesk *self);
HwDocument *hw_bag_desk_get_document (HwBagDesk *self);
/* Number of the club of this name, or -1. */
int hw_bag_desk_find (HwBagDesk *self, const char *name);

/* ---- files ---- */

/* NULL for a bag that was never saved. Borrowed. */
const char *hw_bag_desk_get_path (HwBagDesk *self);
/* "partner.csv", "new bag". Free with g_free. */
char *hw_bag_desk_get_name (HwBagDesk *self);
bool hw_bag_desk_is_modified (HwBagDesk *self);
/* Must it be asked where to save? A new bag, and that of the example. */
bool hw_bag_desk_needs_place (HwBagDesk *self);
/* Opens a file in the place of what was there, and has the plan use it. False with `error`, and nothing has changed. */
bool hw_bag_desk_open (HwBagDesk *self, const char *path, GError **error);
/*
 * Lays a bag that an earlier run left unsaved on the desk, as a step on what its file holds, and takes over its copy; where the file is gone or cannot be read, without one to undo to. Saving is
 * refused where another program has written the file since. False with `error`, and nothing has changed.
 */
bool hw_bag_desk_recover (HwBagDesk *self, const RecoveryCopy *copy, GError **error);
/* Puts a new bag without a file in the place of what was there, taking it. */
void hw_bag_desk_start (HwBagDesk *self, Bag *bag);
/*
 * Saves under `path`, NULL: where it belongs; the plan then uses that file. Refused, with one sentence in `error`, where another program has changed the file, or
 * nothing is in the bag.
 */
bool hw_bag_desk_save (HwBagDesk *self, const char *path, GError **error);

/* ---- edits ---- */

/* Makes `bag` the next step, taking it, under a name that reads well after "Undo". NULL is no step. */
void hw_bag_desk_push (HwBagDesk *self, Bag *bag, const char *label);
void hw_bag_desk_undo (HwBagDesk *self);
void hw_bag_desk_redo (HwBagDesk *self);
/* NULL: nothing. Borrowed. */
const char *hw_bag_desk_undo_label (HwBagDesk *self);
const char *hw_bag_desk_redo_label (HwBagDesk *self);

#endif
