// SPDX-License-Identifier: GPL-3.0-or-later
/* tools - what pointer and keys do on the drawing: a row and its functions per tool. */
#ifndef HW_TOOLS_H
#define HW_TOOLS_H

#include "canvas.h"

typedef struct
{
  const char *name;
  const char *cursor; /* while it holds something */
  /* The thing it would take hold of here: for the cursor and the highlight. */
  HwGrip (*find) (HwCanvas *canvas, Vec2 at_px);
  /* Takes hold; false: nothing to take here, the drawing is moved instead. */
  bool (*press) (HwCanvas *canvas, Vec2 at_px);
  void (*drag) (HwCanvas *canvas, Vec2 at_px);
  void (*release) (HwCanvas *canvas);
  /* As if it had never been pressed. */
  void (*cancel) (HwCanvas *canvas);
  /* True if the key was its own. May be NULL. */
  bool (*key) (HwCanvas *canvas, guint keyval, GdkModifierType modifiers);
  /* Draws over everything, such as a ring round `under`, what the pointer could take. May be NULL. */
  void (*draw) (HwCanvas *canvas, GtkSnapshot *snapshot, const HwGrip *under);
  /* The pointer moves with nothing held. May be NULL. */
  void (*hover) (HwCanvas *canvas, Vec2 at_px);
  /* The hole if what was begun ended now, new reference; NULL: nothing that could be kept yet. May be NULL. */
  Hole *(*so_far) (HwCanvas *canvas);
} HwTool;

/* Drags aims and balls of the plan. */
extern const HwTool hw_tool_plan;
/* Moves the drawing; also what every other tool does on empty paper. */
extern const HwTool hw_tool_pan;

/* Direction of an arrow key on the drawing, y down. */
bool hw_tool_arrow (guint keyval, Vec2 *direction_px);

#endif
