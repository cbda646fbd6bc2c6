// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * desk - what the golfer has in hand in Draw: the tool and the kind it draws, which things are selected, locked or out of sight.
 *
 * Things are parts of the hole by their index. The desk follows the document: after every change, undo included, what was selected, locked or hidden still
 * is, as long as it is there. It emits
 *   "selected"  other things are selected, or another node;
 *   "marked"    other things are locked or hidden;
 *   "took"      another tool or kind is in hand.
 */
#ifndef HW_DESK_H
#define HW_DESK_H

#include "document.h"

#include "edit.h"

#define HW_TYPE_DESK (hw_desk_get_type ())
G_DECLARE_FINAL_TYPE (HwDesk, hw_desk, HW, DESK, GObject)

typedef enum
{
  HW_WAY_SELECT,
  HW_WAY_FREEHAND,
  HW_WAY_POINTS,
  HW_WAY_CIRCLE,
  HW_WAY_PLACE,   /* a point thing, one press each */
  HW_WAY_SCATTER, /* trees along a stroke */
  HW_WAY_CUT,     /* a straight cut through what is selected */
  HW_WAY_ARROW,   /* a slope, dragged downhill */
  HW_N_WAYS
} HwWay;

HwDesk *hw_desk_new (HwDocument *document);
HwDocument *hw_desk_get_document (HwDesk *self);
/* The hole as drawn now, in a drag the dragged one; NULL when nothing is open. Borrowed. */
Hole *hw_desk_get_hole (HwDesk *self);

/* ---- the tool ---- */

HwWay hw_desk_get_way (HwDesk *self);
Kind hw_desk_get_kind (HwDesk *self);
/* Takes a tool; a kind that it cannot draw is changed for one that it can. */
void hw_desk_take_way (HwDesk *self, HwWay way);
/* Takes a kind to draw, and a tool that draws it. */
void hw_desk_take_kind (HwDesk *self, Kind kind);
/* Can this kind be drawn this way? */
bool hw_way_draws (HwWay way, Kind kind);

/* ---- the selection: indices in rising order ---- */

const size_t *hw_desk_get_selection (HwDesk *self, size_t *n);
/* The one thing selected, or -1. */
int hw_desk_get_selected (HwDesk *self);
bool hw_desk_is_selected (HwDesk *self, size_t part);
void hw_desk_select (HwDesk *self, const size_t *parts, size_t n);
void hw_desk_select_one (HwDesk *self, size_t part);
void hw_desk_select_none (HwDesk *self);
/* Adds the thing to the selection or takes it out. */
void hw_desk_toggle (HwDesk *self, size_t part);
/* All that can be touched. */
void hw_desk_select_all (HwDesk *self);
/* The thing after (+1) or before (-1) the one selected, in the order of the stack; false past the last. */
bool hw_desk_select_next (HwDesk *self, int step);
/* The node of the one thing selected that keys work on, or -1. */
int hw_desk_get_node (HwDesk *self);
void hw_desk_set_node (HwDesk *self, int node);

/* ---- locked and hidden: for this window only, never in the file ---- */

bool hw_desk_is_locked (HwDesk *self, size_t part);
bool hw_desk_is_hidden (HwDesk *self, size_t part);
void hw_desk_set_locked (HwDesk *self, size_t part, bool locked);
void hw_desk_set_hidden (HwDesk *self, size_t part, bool hidden);
/* Things the pointer passes over, being locked or hidden. Borrowed, until the next change. */
const size_t *hw_desk_get_untouchable (HwDesk *self, size_t *n);

/* ---- pictures ---- */

/* From now on the selection is drawn apart from the rest, as it moves; ends with hw_desk_let_go. */
void hw_desk_hold (HwDesk *self);
void hw_desk_let_go (HwDesk *self);
bool hw_desk_is_holding (HwDesk *self);
/* What the kept picture shows: all but the hidden and the held. Borrowed. */
Hole *hw_desk_get_still (HwDesk *self);
/*
 * What is painted over the kept picture, new reference: the held things as they are now and, in their order, those above that they reach under. `bounds`
 * receives those of the held things alone. NULL if nothing is held.
 */
Hole *hw_desk_get_held (HwDesk *self, Box *bounds);
/* Does nothing that stays lie over anything held, wherever that may move? */
bool hw_desk_holds_topmost (HwDesk *self);

/* ---- words ---- */

/* "214 from the tee · 149 to the hole · 12 right of the line". Free with g_free. */
char *hw_desk_whereabouts (HwDesk *self, Vec2 at);

/* ---- edits ---- */

/* Makes `hole` a step of undo, taking its reference, or says `error`, which is cleared. */
bool hw_desk_edit (HwDesk *self, Hole *hole, const char *label, unsigned gesture, GError **error);
/* "move green", "move 3 things": what undo calls it. `format` has one %s. Interned. */
const char *hw_desk_label (HwDesk *self, const char *format);

#endif
