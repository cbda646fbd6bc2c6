// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * canvas - the drawing: sets the view, paints through render, forwards pointer and keys to the tool in hand.
 *
 * Emits "view-changed" when the view moved (the strip follows it) and "pointed" when the pointer moved over the drawing or left it.
 */
#ifndef HW_CANVAS_H
#define HW_CANVAS_H

#include "document.h"

#include <gtk/gtk.h>

#define HW_TYPE_CANVAS (hw_canvas_get_type ())
G_DECLARE_FINAL_TYPE (HwCanvas, hw_canvas, HW, CANVAS, GtkWidget)

typedef enum
{
  HW_LOOK_ALONG, /* the shot in hand runs from left to right */
  HW_LOOK_UP     /* the hole runs up the drawing */
} HwLook;

void hw_canvas_set_document (HwCanvas *self, HwDocument *document);
HwDocument *hw_canvas_get_document (HwCanvas *self);
HwLook hw_canvas_get_look (HwCanvas *self);
void hw_canvas_set_look (HwCanvas *self, HwLook look);
const RenderView *hw_canvas_get_view (HwCanvas *self);
/* The place under the pointer; false when it is not over the drawing. */
bool hw_canvas_get_pointed (HwCanvas *self, Vec2 *at);
/* Shows all that matters for the shot or the hole, and follows it from then on. */
void hw_canvas_fit (HwCanvas *self);
/* Zooms about the middle. */
void hw_canvas_zoom (HwCanvas *self, double factor);

/* ---- for the tools ---- */

/* What the pointer has hold of. */
typedef enum
{
  HW_GRIP_NONE,
  HW_GRIP_AIM,
  HW_GRIP_BALL,
  HW_GRIP_PAPER
} HwGripKind;

typedef struct
{
  HwGripKind kind;
  size_t shot;
  Vec2 offset_px; /* from the thing held to the pointer when it was taken; for paper: where the pointer was last */
} HwGrip;

HwGrip *hw_canvas_get_grip (HwCanvas *self);
void hw_canvas_pan (HwCanvas *self, Vec2 by_px);
/* The drag is over: the view follows the shot where it went. */
void hw_canvas_settle (HwCanvas *self);
/* A number for nudges that make one step of undo: another one after each pause. */
unsigned hw_canvas_nudge_gesture (HwCanvas *self);

#endif
