// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * labels-kept - where the labels of the picture before stood, so that they stay there while they can, and the boxes of one view on another.
 */
#include "overlay-private.h"

struct _RenderLabels
{
  GArray *labels;  /* of RenderLabel */
  GArray *avoided; /* of Box */
  RenderView view; /* on which they were placed */
  bool is_fresh;   /* none is to be kept */
};

RenderLabels *
render_labels_new (void)
{
  RenderLabels *labels = g_new0 (RenderLabels, 1);
  labels->labels = g_array_new (FALSE, FALSE, sizeof (RenderLabel));
  labels->avoided = g_array_new (FALSE, FALSE, sizeof (Box));
  labels->is_fresh = true;
  return labels;
}

void
render_labels_free (RenderLabels *labels)
{
  if (!labels)
    return;
  g_array_unref (labels->labels);
  g_array_unref (labels->avoided);
  g_free (labels);
}

void
render_labels_forget (RenderLabels *labels)
{
  labels->is_fresh = true;
}

const RenderLabel *
render_labels_get (const RenderLabels *labels, size_t *n_labels)
{
  *n_labels = labels->labels->len;
  return (const RenderLabel *)(void *)labels->labels->data;
}

const Box *
render_labels_avoided (const RenderLabels *labels, size_t *n_boxes)
{
  *n_boxes = labels->avoided->len;
  return (const Box *)(void *)labels->avoided->data;
}

static bool
is_same_view (const RenderView *a, const RenderView *b)
{
  return a->centre.x == b->centre.x && a->centre.y == b->centre.y && a->px_per_m == b->px_per_m && a->turn_rad == b->turn_rad
         && a->width_px == b->width_px && a->height_px == b->height_px && a->unit_px == b->unit_px && a->units == b->units;
}

void
labels_recall (RenderLabels *kept, GArray *rows, const RenderView *view)
{
  if (!kept || kept->is_fresh || !is_same_view (&kept->view, view))
    return;
  for (guint i = 0; i < rows->len; i++)
    {
      OverlayLabel *row = &g_array_index (rows, OverlayLabel, i);
      for (guint k = 0; k < kept->labels->len && row->label.place == 0; k++)
        if (g_array_index (kept->labels, RenderLabel, k).key == row->key)
          {
            row->label.place = g_array_index (kept->labels, RenderLabel, k).label.place;
            row->label.stood_px = g_array_index (kept->labels, RenderLabel, k).label.stood_px;
          }
    }
}

void
labels_keep (RenderLabels *kept, const GArray *rows, const GArray *avoid, const RenderView *view)
{
  if (!kept)
    return;
  g_array_set_size (kept->labels, rows->len);
  for (guint i = 0; i < rows->len; i++)
    {
      const OverlayLabel *row = &g_array_index (rows, OverlayLabel, i);
      RenderLabel *label = &g_array_index (kept->labels, RenderLabel, i);
      *label = (RenderLabel){ .key = row->key, .label = row->label };
      g_strlcpy (label->text, row->text, sizeof label->text);
    }
  g_array_set_size (kept->avoided, 0);
  g_array_append_vals (kept->avoided, avoid->data, avoid->len);
  kept->view = *view;
  kept->is_fresh = false;
}

Box
render_box_moved (Box box_px, const RenderView *from, const RenderView *to)
{
  Box moved = box_empty ();
  for (int corner = 0; corner < 4; corner++)
    {
      Vec2 at = vec2 (corner & 1 ? box_px.x1 : box_px.x0, corner & 2 ? box_px.y1 : box_px.y0);
      moved = box_with_point (moved, view_point (to, view_unproject (from, at)));
    }
  return moved;
}
