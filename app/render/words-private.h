// SPDX-License-Identifier: GPL-3.0-or-later
/* words-private - kept words as the pen of text uses them. */
#ifndef HOLEWRIGHT_WORDS_PRIVATE_H
#define HOLEWRIGHT_WORDS_PRIVATE_H

#include "render.h"
#include "text-private.h"

typedef struct _Word Word;

/* The letters of a text, or with `halo_px` above 0 the halo round them. Never NULL; valid until the next is looked for. */
Word *words_find (RenderWords *words, const char *text, TextStyle style, double halo_px);
double word_width (const Word *word);
/* Draws in the current source with the left end at x on the baseline; false, and nothing drawn, if `cr` is no upright image. */
bool words_draw (RenderWords *words, cairo_t *cr, Word *word, double x, double baseline);

/* Device px in a user unit of an image that is neither turned nor shifted within its surface; 0 for anything else. */
double words_scale (cairo_t *cr);
/* Would this place, device px, fit the arithmetic of cairo? */
bool words_is_near (double x_px, double y_px);
/* Where the labels are kept with them: stamps-private.h. */
struct _Stamps **words_stamps (RenderWords *words);

#endif
