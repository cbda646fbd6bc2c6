// SPDX-License-Identifier: GPL-3.0-or-later
/* gesture - what a drawing tool has begun and not yet finished; gone without a trace when it is cleared. */
#ifndef HW_GESTURE_H
#define HW_GESTURE_H

#include "edit.h"

#include <glib.h>

typedef enum
{
  HW_SHAPE_NONE,
  HW_SHAPE_BOX,    /* start to at: a box to select with */
  HW_SHAPE_STROKE, /* points */
  HW_SHAPE_NODES,  /* nodes, and a line on to `at` */
  HW_SHAPE_CIRCLE, /* round start, through at */
  HW_SHAPE_DOT,    /* at */
  HW_SHAPE_LINE    /* start to at */
} HwGestureShape;

typedef struct
{
  HwGestureShape shape;
  Hole *base;     /* the hole when it began */
  GArray *points; /* Vec2 */
  GArray *nodes;  /* PathNode */
  /* An eraser's: parts of `base` that it struck out, and those locked or hidden, size_t in rising order. */
  GArray *struck, *spared;
  Vec2 start, at;
  Vec2 start_px;
  bool has_moved; /* further than a shaky click */
  bool keeps;     /* Shift was down at its beginning: adds to the selection */
  bool is_pen;    /* moved by keys */
  Box frame;      /* of the selection when it began to move, px */
  /* Many things move as one picture of them: they are still where they were, and go to `moved` when they are let go. */
  bool is_picture;
  Affine moved;
  Snap snap;
  guint timer;     /* until it is kept again as drawn so far; 0: nothing to keep */
  gint64 since_us; /* when the first of it was drawn that was not kept yet; 0: all was */
} HwGesture;

#endif
