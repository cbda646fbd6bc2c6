// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * palette - the colours of the survey sheet and how each kind of area looks: one row of a table per kind.
 */
#ifndef HOLEWRIGHT_PALETTE_PRIVATE_H
#define HOLEWRIGHT_PALETTE_PRIVATE_H

#include "render.h"

/* sRGB, 0xRRGGBB. */
#define PALETTE_PAPER 0xfaf7f0
#define PALETTE_INK 0x22303c
#define PALETTE_ACCENT 0x8a2f6b
#define PALETTE_SECOND_ACCENT 0xc46a1b
#define PALETTE_WHITE 0xffffff
#define PALETTE_POST_OUTLINE 0x2b2b2b

typedef enum
{
  HATCH_NONE,
  HATCH_UPRIGHT,        /* short upright strokes */
  HATCH_STIPPLE,        /* dots */
  HATCH_SPARSE_STIPPLE, /* fewer dots */
  HATCH_WAVES,
  HATCH_WIDE_DIAGONAL,
  HATCH_CLOSE_DIAGONAL,
  HATCH_ARCS,  /* tree tops */
  HATCH_CROSS, /* both diagonals */
  N_HATCHES
} Hatch;

typedef enum
{
  EDGE_NONE,
  EDGE_LINE,
  EDGE_STAKES, /* in the stakes' colour with a dark outline */
  EDGE_POSTS   /* long dashes with white posts */
} EdgeStyle;

/* How a kind of area is drawn. Widths in design units of 1/96 inch. */
typedef struct
{
  unsigned wash; /* 0xRRGGBB */
  unsigned edge; /* 0xRRGGBB */
  EdgeStyle edge_style;
  double edge_width;
  Hatch hatch;
  unsigned hatch_ink; /* 0xRRGGBB */
  unsigned rim;       /* 0xRRGGBB: a darker line round an edge that alone would not stand 3:1 against its neighbours; 0: none */
  bool is_washed;     /* else the kind has no area of its own to fill */
} Appearance;

/* The row of `kind`. Point and line kinds have a row too: their wash and edge colour their symbols. */
const Appearance *appearance_of (Kind kind);

/* The Rules' colour of the stakes, its dark outline, and the dash (design units) that tells them apart without colour. */
typedef struct
{
  unsigned colour, outline;
  double dash[2];
} StakesAppearance;

const StakesAppearance *stakes_appearance (Stakes stakes);

Colour colour_of (unsigned rgb);
/* Relative luminance 0..1 of an sRGB colour (WCAG 2.1, definition of relative luminance). */
double colour_luminance (Colour colour);
/* Contrast ratio 1..21 (WCAG 2.1, definition of contrast ratio). */
double colour_contrast (Colour a, Colour b);
/* The colour itself, or the grey of equal luminance. */
Colour colour_in_ink (Colour colour, PaintInk ink);
/* Sets the source of `cr`. */
void palette_use (cairo_t *cr, unsigned rgb, double alpha, PaintInk ink);
/* The same, of the opaque colour that is seen where it lies on `under_rgb`. */
void palette_use_over (cairo_t *cr, unsigned rgb, double alpha, unsigned under_rgb, PaintInk ink);

#endif
