// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * palette - the table of appearances, one row per kind, and colours as mono print gives them.
 */
#include "palette-private.h"

/* A survey sheet, inked and washed: the edge is a darker tone of its wash, hatch marks what can hurt. */
static const Appearance appearances[N_KINDS] = {
  /* kind               wash      edge      style        width hatch                 hatch ink  rim washed */
  [KIND_NONE] = { 0xfaf7f0, 0x6b7a86, EDGE_LINE, 1.0, HATCH_NONE, 0x6b7a86, 0, false },
  [KIND_TEE] = { 0xa9c48a, 0x6c8a50, EDGE_LINE, 1.2, HATCH_NONE, 0x6c8a50, 0, true },
  [KIND_FAIRWAY] = { 0xb9cf96, 0x8ea86a, EDGE_LINE, 1.1, HATCH_NONE, 0x8ea86a, 0, true },
  [KIND_FIRST_CUT] = { 0xcdd9b0, 0x8ea86a, EDGE_NONE, 0.8, HATCH_NONE, 0x8ea86a, 0, true },
  [KIND_ROUGH] = { 0xdfe3cc, 0x9aa57a, EDGE_NONE, 0.8, HATCH_NONE, 0x9aa57a, 0, true },
  [KIND_DEEP_ROUGH] = { 0xc8cfaa, 0x9aa57a, EDGE_LINE, 0.8, HATCH_UPRIGHT, 0x9aa57a, 0x5a6340, true },
  [KIND_FRINGE] = { 0xb0cfa6, 0x4f8a58, EDGE_NONE, 0.8, HATCH_NONE, 0x4f8a58, 0, true },
  [KIND_GREEN] = { 0x9cc79b, 0x4f8a58, EDGE_LINE, 1.4, HATCH_NONE, 0x4f8a58, 0, true },
  [KIND_BUNKER] = { 0xefe2bd, 0xb08d3e, EDGE_LINE, 1.5, HATCH_STIPPLE, 0xb08d3e, 0x735a22, true },
  [KIND_WASTE] = { 0xe8dcc4, 0xb08d3e, EDGE_LINE, 1.1, HATCH_SPARSE_STIPPLE, 0xb08d3e, 0x735a22, true },
  [KIND_PENALTY_AREA] = { 0xd7e0dd, 0x3f7f9c, EDGE_STAKES, 1.8, HATCH_WIDE_DIAGONAL, 0x8fa7a3, 0, true },
  [KIND_WATER] = { 0xbcd7e3, 0x3f7f9c, EDGE_LINE, 1.1, HATCH_WAVES, 0x3f7f9c, 0, true },
  [KIND_OUT_OF_BOUNDS] = { 0xece7dd, 0x2b2b2b, EDGE_POSTS, 1.6, HATCH_CLOSE_DIAGONAL, 0xa9a69f, 0, true },
  [KIND_TREES] = { 0x8fae86, 0x48693f, EDGE_LINE, 1.2, HATCH_ARCS, 0x48693f, 0, true },
  [KIND_PATH] = { 0xd8d0c4, 0x8d8273, EDGE_LINE, 0.9, HATCH_NONE, 0x8d8273, 0, true },
  [KIND_BUILDING] = { 0xb9aea0, 0x8d8273, EDGE_LINE, 1.2, HATCH_CROSS, 0x8d8273, 0x665d50, true },
  [KIND_TEE_MARKER] = { 0xffffff, 0x22303c, EDGE_LINE, 1.3, HATCH_NONE, 0x22303c, 0, false },
  [KIND_HOLE_LOCATION] = { 0x22303c, 0x22303c, EDGE_LINE, 1.3, HATCH_NONE, 0x22303c, 0, false },
  [KIND_TREE] = { 0x8fae86, 0x48693f, EDGE_LINE, 1.2, HATCH_ARCS, 0x48693f, 0, false },
  [KIND_SPOT_HEIGHT] = { 0xfaf7f0, 0x22303c, EDGE_LINE, 1.0, HATCH_NONE, 0x22303c, 0, false },
  [KIND_SLOPE] = { 0xfaf7f0, 0x22303c, EDGE_LINE, 1.1, HATCH_NONE, 0x22303c, 0, false },
  [KIND_MARK] = { 0xfaf7f0, 0x22303c, EDGE_LINE, 1.1, HATCH_NONE, 0x22303c, 0, false },
  [KIND_NOTE] = { 0xfaf7f0, 0x22303c, EDGE_LINE, 1.0, HATCH_NONE, 0x22303c, 0, false },
  [KIND_LINE_OF_PLAY] = { 0xfaf7f0, 0x22303c, EDGE_LINE, 1.0, HATCH_NONE, 0x22303c, 0, false },
  [KIND_UNDERLAY] = { 0xfaf7f0, 0x6b7a86, EDGE_NONE, 1.0, HATCH_NONE, 0x6b7a86, 0, false },
  [KIND_PLAN] = { 0x8a2f6b, 0x8a2f6b, EDGE_LINE, 2.4, HATCH_NONE, 0x8a2f6b, 0, false },
};

/* Rules of Golf, Rule 17.1a: penalty areas are marked red or yellow. */
static const StakesAppearance stakes_appearances[] = {
  [STAKES_RED] = { 0xc62f2f, 0x5a1717, { 9, 5 } },
  [STAKES_YELLOW] = { 0xe0b400, 0x54430a, { 3, 4 } },
};

const Appearance *
appearance_of (Kind kind)
{
  return &appearances[kind < N_KINDS ? kind : KIND_NONE];
}

const StakesAppearance *
stakes_appearance (Stakes stakes)
{
  return &stakes_appearances[stakes == STAKES_YELLOW ? STAKES_YELLOW : STAKES_RED];
}

Colour
colour_of (unsigned rgb)
{
  return (Colour){ ((rgb >> 16) & 0xff) / 255.0, ((rgb >> 8) & 0xff) / 255.0, (rgb & 0xff) / 255.0 };
}

/* IEC 61966-2-1, the transfer function of sRGB. */
static double
linear_of_srgb (double v)
{
  return v <= 0.04045 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4);
}

static double
srgb_of_linear (double v)
{
  return v <= 0.0031308 ? 12.92 * v : 1.055 * pow (v, 1 / 2.4) - 0.055;
}

double
colour_luminance (Colour colour)
{
  return 0.2126 * linear_of_srgb (colour.red) + 0.7152 * linear_of_srgb (colour.green) + 0.0722 * linear_of_srgb (colour.blue);
}

double
colour_contrast (Colour a, Colour b)
{
  double la = colour_luminance (a) + 0.05, lb = colour_luminance (b) + 0.05;
  return la > lb ? la / lb : lb / la;
}

Colour
colour_in_ink (Colour colour, PaintInk ink)
{
  if (ink != PAINT_GREY)
    return colour;
  double grey = srgb_of_linear (colour_luminance (colour));
  return (Colour){ grey, grey, grey };
}

void
palette_use (cairo_t *cr, unsigned rgb, double alpha, PaintInk ink)
{
  Colour colour = colour_in_ink (colour_of (rgb), ink);
  cairo_set_source_rgba (cr, colour.red, colour.green, colour.blue, alpha);
}

void
palette_use_over (cairo_t *cr, unsigned rgb, double alpha, unsigned under_rgb, PaintInk ink)
{
  Colour over = colour_in_ink (colour_of (rgb), ink), under = colour_in_ink (colour_of (under_rgb), ink);
  cairo_set_source_rgb (cr, under.red + alpha * (over.red - under.red), under.green + alpha * (over.green - under.green),
                        under.blue + alpha * (over.blue - under.blue));
}

Colour
render_kind_wash (Kind kind)
{
  return colour_of (appearance_of (kind)->wash);
}

Colour
render_kind_edge (Kind kind)
{
  return colour_of (appearance_of (kind)->edge);
}
