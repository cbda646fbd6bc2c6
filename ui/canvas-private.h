// SPDX-License-Identifier: GPL-3.0-or-later
/* canvas-private - the canvas's fields, shared by canvas.c (drawing), canvas-view.c (where the hole lies), canvas-overlays.c and canvas-input.c (pointer and keys). */
#ifndef HW_CANVAS_PRIVATE_H
#define HW_CANVAS_PRIVATE_H

#include "canvas.h"
#include "drawing.h"
#include "held.h"
#include "layer.h"
#include "render-green.h"
#include "still.h"
#include "tools.h"
#include "written.h"

struct _HwCanvas
{
  GtkWidget parent_instance;
  HwDocument *document;
  HwDrawing drawing;
  HwHeld held;
  HwMargin margin;
  HwLayer overlays;
  HwSolver *solver;
  HwStill still;
  guint rest; /* timer of what was found while something is dragged; 0: nothing is to be shown by itself */
  HwWritten written;
  PlanGreen green; /* as it is now */
  /* The overlays of the frame at work, painted beside the main thread; borrowed results of that frame. */
  PlanScene painting;
  PlanGreen painting_green;
  RenderView painting_view;
  unsigned painting_mask, n_paints; /* so many so far */
  bool is_painting, is_due;         /* begun and not yet shown; the results are others since the last frame */
  HwBeside *beside;                 /* the document's */
  HwShare overlays_share;

  /* canvas-view */
  RenderView view;
  HwLook look;
  bool is_fitted; /* follows the shot or the hole until the golfer zooms or moves the drawing */
  guint tick;
  RenderView turn_from, turn_to;
  gint64 turn_start_us; /* 0: no turn going on */
  double zoom_left;     /* logarithm of the zoom still to come */
  Vec2 zoom_about_px;
  gint64 zoom_time_us;

  /* canvas-input */
  const HwTool *tool, *holding;
  HwGrip grip, under;
  GtkGesture *drag_gesture;
  Vec2 press_px;
  bool is_space_down, is_pinching, is_pointed;
  Vec2 pointer_px;
  double pinch_scale; /* since the fingers came down */
  Vec2 pinch_place;   /* of the hole, between them */
  unsigned nudge_gesture;
  gint64 nudge_time_us;

  /* canvas-draw */
  HwDesk *desk;
  HwPlanner *planner;
  unsigned planned_stamp; /* of what it shows on the drawing, as last told */
  bool is_drawing, needs_fit;
  HwLook plan_look; /* the way of looking to come back to */
  HwGesture gesture;
  int press_count;
  gint64 press_time_us;

  /* trace */
  bool is_tracing;
  gint64 frame_start_us, frame_busy_us, edit_us, edit_busy_us;
  GdkFrameClock *clock;
};

/* Adds the controllers. */
void hw_canvas_init_input (HwCanvas *self);
void hw_canvas_view_changed (HwCanvas *self);
/* Puts the view where it should be; with `animated`, by turning there. */
void hw_canvas_reframe (HwCanvas *self, bool animated);
/* Is the view on its way, so that a moved picture of the hole does for now? */
bool hw_canvas_is_moving (HwCanvas *self);
void hw_canvas_zoom_about (HwCanvas *self, double factor, Vec2 about_px);
void hw_canvas_stop_motion (HwCanvas *self);
/* Keeps the size of the view that of the widget. */
void hw_canvas_resize (HwCanvas *self, int width, int height);
/* The hole whose kept picture is shown. */
Hole *hw_canvas_still_hole (HwCanvas *self);
/* Is the kept picture of the hole to be painted anew before anything is shown? */
bool hw_canvas_needs_picture (HwCanvas *self, Hole *hole);
/* canvas-overlays. When a frame begins: has the overlays painted where the results are others, while the main thread goes on. */
void hw_canvas_paint_ahead (HwCanvas *self);
/* The overlays, painted ahead or now, over the kept picture of the hole or drawn on it; false where there are none, and nothing was added. */
bool hw_canvas_snapshot_plan (HwCanvas *self, GtkSnapshot *snapshot);
/* When a frame is over: results may go from here on. */
void hw_canvas_end_painting (HwCanvas *self);
/* canvas-green: what is known of playing to the green, borrowed; false where there is none. */
bool hw_canvas_find_green (HwCanvas *self, PlanGreen *green);
/* The same in words; NULL where there is none. Free with g_free. */
char *hw_canvas_green_words (HwCanvas *self);
/* Counts presses in quick succession. */
void hw_canvas_count_press (HwCanvas *self, Vec2 at_px);
/* Tells a screen reader what the drawing shows: the shot in hand, or in Draw what is selected. */
void hw_canvas_describe (HwCanvas *self);
void hw_canvas_describe_selection (HwCanvas *self);
/* Lets go of what is held, as if it had never been taken. */
void hw_canvas_cancel_drag (HwCanvas *self);

#endif
