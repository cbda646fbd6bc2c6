// SPDX-License-Identifier: GPL-3.0-or-later
/* tool-draw - what the tools of Draw share: places with snapping, the overlay, the pen that keys move. */
#ifndef HW_TOOL_DRAW_H
#define HW_TOOL_DRAW_H

#include "desk.h"
#include "gesture.h"
#include "tools.h"

/* How near the pointer must come to something small, px (common practice). */
#define HW_REACH_PX 8.0
/* A press that moves less than this is a click, px (common practice). */
#define HW_SLOP_PX 4.0
/* Corner grips stand this far outside what is selected, px, and the knob that turns it above them. */
#define HW_FRAME_ROOM_PX 12.0
#define HW_KNOB_ROOM_PX 22.0
/* More things than this move as one picture, without their outlines: the frame tells where they are. */
#define HW_MOST_MOVING 12

extern const HwTool hw_tool_select;
extern const HwTool hw_tool_freehand;
extern const HwTool hw_tool_scatter;
extern const HwTool hw_tool_points;
extern const HwTool hw_tool_circle;
extern const HwTool hw_tool_place;
extern const HwTool hw_tool_cut;
extern const HwTool hw_tool_arrow_downhill;
/* Not a way: in hand while the pen is turned round. */
extern const HwTool hw_tool_erase;
/* The tool of a way of drawing. */
const HwTool *hw_way_tool (HwWay way);

/* Pixels as metres in the view. */
double hw_tool_metres (HwCanvas *canvas, double length_px);
/* The place under the pointer, snapped unless Control is held; the snap is kept in the gesture. Things in `without` do not attract. */
Vec2 hw_tool_at (HwCanvas *canvas, Vec2 at_px, const size_t *without, size_t n_without);
/* The same for a place already known. */
Vec2 hw_tool_snap (HwCanvas *canvas, Vec2 at, const size_t *without, size_t n_without);
/* More of it was drawn: before long the recovery copy holds it as drawn so far. */
void hw_tool_grew (HwCanvas *canvas);
/* Forgets the gesture. */
void hw_tool_clear (HwCanvas *canvas);
/* Selects what was drawn at `part`, having made it a step "draw bunker"; says why not otherwise. */
void hw_tool_finish (HwCanvas *canvas, Hole *hole, Kind kind, size_t part, GError *error);
/* Step of a nudge: 1 of the unit, with Shift 10, with Alt 0.1. */
double hw_tool_nudge_m (HwCanvas *canvas, GdkModifierType modifiers);
/* Keys of every drawing tool: arrows move a pen, Return puts it down and lifts it, Escape takes back. */
bool hw_tool_pen_key (HwCanvas *canvas, guint keyval, GdkModifierType modifiers);
/* Box of the selection on the drawing, px, with room for its frame; empty if there is none. */
Box hw_tool_frame (HwCanvas *canvas);
/* Corner 0..3 of the frame, and 4: the knob. */
Vec2 hw_tool_frame_grip (Box frame, int corner);
/* Inks the lines of play, which the painter of holes leaves to the plan. */
void hw_draw_lines_of_play (cairo_t *cr, const Hole *hole, const RenderView *view);
/* Overlay of every tool of Draw. */
void hw_tool_draw_overlay (HwCanvas *canvas, GtkSnapshot *snapshot, const HwGrip *under);

#endif
