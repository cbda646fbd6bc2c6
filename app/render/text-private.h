// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * text - lettering for drawings and the card: Inter with tabular figures, else the desktop's sans, the same widths on screen and
 * on paper because nothing is hinted.
 */
#ifndef HOLEWRIGHT_TEXT_PRIVATE_H
#define HOLEWRIGHT_TEXT_PRIVATE_H

#include "render.h"

/* Height of capitals and figures as a share of the size: Inter's own metrics, cap height 1490 of 2048 units. */
#define TEXT_CAP_HEIGHT 0.7275

typedef enum
{
  TEXT_REGULAR = 400,
  TEXT_MEDIUM = 500,
  TEXT_SEMIBOLD = 600,
  TEXT_BOLD = 700
} TextWeight;

/* `size_px` is the em in user units of the cairo context. Figures are all as wide as each other unless they run on in a line of words. */
typedef struct
{
  double size_px;
  TextWeight weight;
  bool is_running;
} TextStyle;

typedef enum
{
  TEXT_LEFT, /* x is the left end */
  TEXT_CENTRE,
  TEXT_RIGHT
} TextAlign;

/* Lettering for one cairo context; make one per picture. */
typedef struct _TextPen TextPen;

/* `cr` is borrowed; NULL gives a pen that only measures. */
TextPen *text_pen_new (cairo_t *cr);
/* Only to measure and to shape, with fonts of its own: for any thread, while others shape in theirs. */
TextPen *text_pen_new_apart (void);
/* One that draws single lines from kept words where it can; `words` is borrowed and may be NULL. */
TextPen *text_pen_new_keeping (cairo_t *cr, RenderWords *words);
void text_pen_free (TextPen *pen);

/* Advance width in user units. */
double text_width (TextPen *pen, const char *text, TextStyle style);
/* One line on a baseline, in the current source. */
void text_draw (TextPen *pen, const char *text, TextStyle style, double x, double baseline, TextAlign align);
/* One line whose capitals are centred on `middle`. */
void text_draw_middle (TextPen *pen, const char *text, TextStyle style, double x, double middle, TextAlign align);
/* As text_draw_middle; strokes the outlines first, `halo_px` wide, in the current source. Draw the text itself over it. */
void text_halo_middle (TextPen *pen, const char *text, TextStyle style, double x, double middle, TextAlign align,
                       double halo_px);
/* One line cut with an ellipsis where it is wider than `width_px`. */
void text_draw_fitted (TextPen *pen, const char *text, TextStyle style, double x, double baseline, double width_px);
/* Words wrapped to `width_px` with the top of the first line at `top`; returns the height. With `is_drawn` false only measures. */
double text_wrapped (TextPen *pen, const char *text, TextStyle style, double x, double top, double width_px, bool is_drawn);

/* The outline of a line, its left end and baseline at the origin, and its advance width. Free with cairo_path_destroy. */
cairo_path_t *text_outline (TextPen *pen, const char *text, TextStyle style, double *width_px);
/* Fills the path as letters, or with `halo_px` above 0 strokes it as their halo, in the current source; clears the path. */
void text_ink_path (cairo_t *cr, double halo_px);

/* A word or a format in the language of the scene's golfer. */
static inline const char *
scene_word (const PlanScene *scene, const char *text)
{
  return scene->translate != NULL ? scene->translate (text) : text;
}

/* Drops the letter that a buffer which was too short has cut in two. */
static inline void
text_end_whole (char *text)
{
  const char *end;
  if (!g_utf8_validate (text, -1, &end))
    text[end - text] = '\0';
}

#endif
