// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * painter - what the functions that paint one hole share, and how each of them is called.
 */
#ifndef HOLEWRIGHT_PAINTER_PRIVATE_H
#define HOLEWRIGHT_PAINTER_PRIVATE_H

#include "hatch-private.h"
#include "text-private.h"

/* Room round the drawing, design units of 1/96 inch, within which something outside it may still leave ink inside. */
#define STROKE_ROOM 40.0

typedef struct
{
  cairo_t *cr;
  const Hole *hole;
  const RenderView *view;
  Affine to_drawing;
  Box visible_px; /* the drawing, with room for the widest stroke or symbol */
  Box clip_px;    /* what of it is painted this time: areas elsewhere are passed over */
  double unit_px;
  PaintInk ink;
  HatchPen hatch;
  TextPen *text;
  unsigned omit;          /* HoleOmit */
  bool shows_each_height; /* whoever paints has chosen among the heights and slopes */
} Painter;

/* Things a caller may leave out of the drawing. */
typedef enum
{
  HOLE_WITHOUT_GROUND = 1 << 0, /* neither paper nor ground: areas stand on whatever is there */
  HOLE_WITHOUT_NAMES = 1 << 1,  /* no words: tee names, marks, notes */
  HOLE_WITHOUT_HEIGHTS = 1 << 2 /* neither heights nor slopes */
} HoleOmit;

/* render_hole with some of it left out. */
void render_hole_parts (cairo_t *cr, const Hole *hole, const RenderView *view, PaintInk ink, unsigned omit);

/* A point taken to the drawing by `t`, cut to what cairo can count. */
Vec2 to_cairo (Affine t, Vec2 point);
/* Adds the path, taken to the drawing by `t`, to the context. */
void trace_path (cairo_t *cr, const Path *path, Affine t);

/* Strokes the edge of the area part `i` as its appearance says. */
void paint_edge (Painter *painter, size_t i);
/* Fills and edges an area. */
void paint_area (Painter *painter, size_t i);
/* The image of an underlay, if it can be read. */
void paint_underlay (Painter *painter, size_t i);

/* Is this a height or a slope that is shown: the drawing is large enough to tell them apart, or it stands clear of the others? */
bool shows_height (const Painter *painter, const Part *part);
/* Where it stands: the spot, or the middle of the slope's line. */
Vec2 height_place (const Part *part);
/* Boxes that together cover what is painted of a height or a slope. */
#define HEIGHT_BOXES 6
size_t height_boxes (const Painter *painter, const Part *part, Box boxes[HEIGHT_BOXES]);
/* The circle of a hole location that is not in use. */
Box other_hole_bounds (Vec2 at_px, double unit_px);
/* Bounds of the flag at `at_px`. */
Box flag_bounds (Vec2 at_px, double unit_px);
/* A symbol: a tree, a marker, a flag... */
void paint_symbol (Painter *painter, size_t i);
/* What stands beside a symbol, or a note. */
typedef struct
{
  Label label; /* not placed yet */
  char *text;
  char **lines;
} Name;
/* False where nothing does; else clear it with name_clear. */
bool name_make (Painter *painter, const Part *part, Name *name);
void name_clear (Name *name);
/* At its label's box. */
void draw_name (Painter *painter, const Name *name);
/* The flag of the hole in use; how many there are, 0 or 1. */
size_t flag_on_drawing (const Hole *hole, const RenderView *view, Box *flag);
/* The words beside symbols, and the notes, placed clear of each other. */
void paint_names (Painter *painter);

#endif
