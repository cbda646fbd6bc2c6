// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * canvas - the drawing: sets the view, paints through render, forwards pointer and keys to the tool in hand.
 *
 * Emits "view-changed" when the view moved (the strip follows it) and "pointed" when the pointer moved over the drawing or left it.
 */
#ifndef HW_CANVAS_H
#define HW_CANVAS_H

#include "desk.h"
#include "document.h"
#include "gesture.h"
#include "planner.h"
#include "solver.h"

#include <gtk/gtk.h>

#define HW_TYPE_CANVAS (hw_canvas_get_type ())
G_DECLARE_FINAL_TYPE (HwCanvas, hw_canvas, HW, CANVAS, GtkWidget)

typedef enum
{
  HW_LOOK_ALONG, /* the shot in hand runs from left to right */
  HW_LOOK_UP,    /* the hole runs up the drawing */
  HW_LOOK_GREEN  /* the green by itself, played to from left to right */
} HwLook;

/* "along", "up", "green": the state of the window's action, and the way back; an unknown one is "along". */
const char *hw_look_name (HwLook look);
HwLook hw_look_named (const char *name);

void hw_canvas_set_document (HwCanvas *self, HwDocument *document);
/* Whose map of aims is shown. */
void hw_canvas_set_solver (HwCanvas *self, HwSolver *solver);
HwDocument *hw_canvas_get_document (HwCanvas *self);
HwLook hw_canvas_get_look (HwCanvas *self);
void hw_canvas_set_look (HwCanvas *self, HwLook look);
/* Does the shot in hand run from left to right, so that ruler and section share its axis? */
bool hw_canvas_is_along (HwCanvas *self);
const RenderView *hw_canvas_get_view (HwCanvas *self);
/* The place under the pointer; false when it is not over the drawing. */
bool hw_canvas_get_pointed (HwCanvas *self, Vec2 *at);
/* Shows all that matters for the shot or the hole, and follows it from then on. */
void hw_canvas_fit (HwCanvas *self);
/* Does the view follow the shot or the hole, not having been zoomed or moved? */
bool hw_canvas_is_fitted (HwCanvas *self);
/* Shows this place in the middle, at this scale, as if the golfer had zoomed and moved there. */
void hw_canvas_show_view (HwCanvas *self, Vec2 centre, double px_per_m);
/* Zooms about the middle. */
void hw_canvas_zoom (HwCanvas *self, double factor);

/* ---- Draw ---- */

/* The desk of the document, once. */
void hw_canvas_set_desk (HwCanvas *self, HwDesk *desk);
/* Where the map of the whole hole comes from. */
void hw_canvas_set_planner (HwCanvas *self, HwPlanner *planner);
HwDesk *hw_canvas_get_desk (HwCanvas *self);
/* In Draw the hole is shown up the drawing with the desk's tool; else with the plan. */
void hw_canvas_set_drawing (HwCanvas *self, bool is_drawing);
bool hw_canvas_get_drawing (HwCanvas *self);
/* Brings the whole of these bounds into view if it is not. */
void hw_canvas_show_box (HwCanvas *self, Box box);
void hw_canvas_show_place (HwCanvas *self, Vec2 at);

/* ---- for the tools ---- */

/* What the pointer has hold of. */
typedef enum
{
  HW_GRIP_NONE,
  HW_GRIP_AIM,
  HW_GRIP_BALL,
  HW_GRIP_PAPER,
  /* in Draw */
  HW_GRIP_THING, /* part `shot` */
  HW_GRIP_NODE,  /* node or handle `which` of part `shot` */
  HW_GRIP_SCALE, /* corner `which` of the frame round the selection */
  HW_GRIP_TURN,  /* the knob that turns it */
  HW_GRIP_NEW    /* something is drawn here */
} HwGripKind;

typedef struct
{
  HwGripKind kind;
  size_t shot;
  Vec2 offset_px; /* from the thing held to the pointer when it was taken; for paper: where the pointer was last */
  size_t node;    /* HW_GRIP_NODE */
  int which;      /* a NodeGrip, or a corner of the frame */
} HwGrip;

HwGrip *hw_canvas_get_grip (HwCanvas *self);
HwGesture *hw_canvas_get_gesture (HwCanvas *self);
/* Keys held with the pointer; how often it was pressed here in quick succession. */
GdkModifierType hw_canvas_get_modifiers (HwCanvas *self);
int hw_canvas_get_press_count (HwCanvas *self);
void hw_canvas_pan (HwCanvas *self, Vec2 by_px);
/* The drag is over: the view follows the shot where it went. */
void hw_canvas_settle (HwCanvas *self);
/* A number for nudges that make one step of undo: another one after each pause. */
unsigned hw_canvas_nudge_gesture (HwCanvas *self);

#endif
