// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * written - what is written on the kept drawing and in its margin, so that the labels of overlays stand clear of it, and where these stood in the frame before.
 */
#ifndef HW_WRITTEN_H
#define HW_WRITTEN_H

#include "drawing.h"

typedef struct
{
  RenderLabels *labels;
  GArray *taken; /* of Box, for a view and a bearing; NULL: to be asked for */
  RenderView view;
  double bearing_deg;
} HwWritten;

void hw_written_clear (HwWritten *written);
/* The next frame places all labels afresh. */
void hw_written_forget (HwWritten *written);
/* Has the overlays of `scene` keep clear of the drawing's words, scale bar and north arrow; `scene` borrows from it. Costs next to nothing while the view stays. */
void hw_written_fill (HwWritten *written, HwDrawing *drawing, const RenderView *view, double bearing_deg, PlanScene *scene);

#endif
