// SPDX-License-Identifier: GPL-3.0-or-later
/* stamps-private - labels kept from one frame to the next as small pictures, each on whole pixels. */
#ifndef HOLEWRIGHT_STAMPS_PRIVATE_H
#define HOLEWRIGHT_STAMPS_PRIVATE_H

#include "words-private.h"

/* What tells one picture from another: its words, how they are set, and how large. `text` is borrowed. */
typedef struct
{
  const char *text;
  unsigned look;
  double unit_px;
} StampKey;

typedef struct _Stamps Stamps;

/* Draws the label that fills `box` on `cr`; what spills over the box by more than STAMP_ROOM_PX is cut off. */
typedef void (*StampDraw) (cairo_t *cr, Box box, gconstpointer data);

/* Room for soft edges round the box, device px. */
#define STAMP_ROOM_PX 3

void stamps_free (Stamps *stamps);
/* On upright images the whole device pixels nearest to the box, so that its edge is as sharp as they are and stays so while it moves; else the box itself. */
Box stamp_box (cairo_t *cr, Box box);
/* Draws the label kept under this key in such a box; has `draw` make it if it is not kept yet. False, and nothing drawn, if `cr` is no upright image. */
bool stamp_draw (RenderWords *words, cairo_t *cr, const StampKey *key, Box box, StampDraw draw, gconstpointer data);

#endif
