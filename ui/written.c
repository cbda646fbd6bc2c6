// SPDX-License-Identifier: GPL-3.0-or-later
/* written - asks drawing and margin for their boxes when the view or the drawing is another one. */
#include "written.h"

void
hw_written_clear (HwWritten *written)
{
  g_clear_pointer (&written->labels, render_labels_free);
  g_clear_pointer (&written->taken, g_array_unref);
}

void
hw_written_forget (HwWritten *written)
{
  if (written->labels != NULL)
    render_labels_forget (written->labels);
}

void
hw_written_fill (HwWritten *written, HwDrawing *drawing, const RenderView *view, double bearing_deg, PlanScene *scene)
{
  bool same_bearing = written->bearing_deg == bearing_deg || (isnan (written->bearing_deg) && isnan (bearing_deg));
  if (written->labels == NULL)
    written->labels = render_labels_new ();
  if (written->taken == NULL || drawing->words == NULL || !same_bearing || !hw_same_view (&written->view, view))
    {
      g_clear_pointer (&written->taken, g_array_unref);
      written->taken = g_array_new (FALSE, FALSE, sizeof (Box));
      written->view = *view;
      written->bearing_deg = bearing_deg;
      hw_drawing_add_words (drawing, view, written->taken);
      hw_margin_add_boxes (view, bearing_deg, written->taken);
    }
  scene->taken = (const Box *)(void *)written->taken->data;
  scene->n_taken = written->taken->len;
  scene->labels = written->labels;
}
