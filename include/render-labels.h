// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * render-labels - what is written on the drawing, and how labels of overlays keep clear of it and stay where they are while something is dragged.
 *
 * The drawing itself (names, heights, notes, flag) and what stands in its margin are painted once and kept; overlays are painted anew in every frame. So the
 * boxes of what is kept are asked for once, handed to every picture of overlays as PlanScene.taken, and its labels stand elsewhere.
 */
#ifndef HOLEWRIGHT_RENDER_LABELS_H
#define HOLEWRIGHT_RENDER_LABELS_H

#include "render.h"

/* Adds to `boxes` (of Box, drawing px) what render_hole writes on this view and the flag. Costs as much as shaping the words: once a view, not once a frame. */
void render_hole_words (const Hole *hole, const RenderView *view, GArray *boxes);
/* The box of what render_scale_bar draws at (x, y); empty for a view without a scale. */
Box render_scale_bar_box (const RenderView *view, double x_px, double y_px);
/* The box of what render_north draws. */
Box render_north_box (const RenderView *view, Vec2 centre_px);
/* Where a box of one view stands on another that shows the same picture moved, turned and stretched. */
Box render_box_moved (Box box_px, const RenderView *from, const RenderView *to);

/* Longer words of a label are cut. */
#define LABEL_TEXT_SIZE 96

/* A label of the picture drawn last. */
typedef struct
{
  unsigned key; /* the same from picture to picture for the same label */
  Label label;
  char text[LABEL_TEXT_SIZE];
} RenderLabel;

/*
 * Where the labels of the picture before stood. A label whose old place, seen from the point that it speaks of, is still free keeps it, so that labels move only
 * when they must while an aim is dragged; on another view they are placed afresh. For one thread, and one sequence of pictures.
 */
typedef struct _RenderLabels RenderLabels;
RenderLabels *render_labels_new (void);
void render_labels_free (RenderLabels *labels);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RenderLabels, render_labels_free)
/* The next picture places its labels afresh. */
void render_labels_forget (RenderLabels *labels);
/* The labels of the last picture, the most important first, those without a place included. Borrowed, until the next picture. */
const RenderLabel *render_labels_get (const RenderLabels *labels, size_t *n_labels);
/* All that they kept clear of: what was taken, balls, handles, the flag. Borrowed likewise. */
const Box *render_labels_avoided (const RenderLabels *labels, size_t *n_boxes);

#endif
