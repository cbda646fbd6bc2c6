// SPDX-License-Identifier: GPL-3.0-or-later
/* import-view - the kept picture of the canvas at a scale of its own; marks are lines over it. */
#include "import-view.h"

#include "appearance.h"
#include "drawing.h"
#include "tool-draw.h"

/* White round what is shown, and the lines round what arrives and round what is marked of it, px. */
#define MARGIN_PX 14.0
#define ARRIVING_PX 1.2
#define MARK_PX 3.0
/* Marked points are ringed this large at least. */
#define RING_PX 7.0
#define LEAST_SIZE_PX 150

struct _HwImportView
{
  GtkWidget parent_instance;
  HwDrawing drawing;
  HwMargin margin;
  Hole *hole;
  Box frame;
  LengthUnit units;
  GPtrArray *arriving, *marked; /* const Part, referenced */
};

G_DEFINE_FINAL_TYPE (HwImportView, hw_import_view, GTK_TYPE_WIDGET)

static void
trace_path (cairo_t *cr, const Path *path, const RenderView *view)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      Vec2 c1 = view_point (view, seg->c1), c2 = view_point (view, seg->c2), to = view_point (view, seg->to);
      if (seg->kind == SEG_MOVE)
        cairo_move_to (cr, to.x, to.y);
      else if (seg->kind == SEG_LINE)
        cairo_line_to (cr, to.x, to.y);
      else if (seg->kind == SEG_CUBIC)
        cairo_curve_to (cr, c1.x, c1.y, c2.x, c2.y, to.x, to.y);
      else
        cairo_close_path (cr);
    }
}

static void
snapshot_lines (HwImportView *self, GtkSnapshot *snapshot, const RenderView *view, const GPtrArray *parts, double line_px)
{
  /* As a plan is inked: what the golfer decides. */
  Colour ink = render_kind_edge (KIND_PLAN);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)view->width_px, (float)view->height_px));
  for (guint i = 0; i < parts->len; i++)
    {
      const Part *part = parts->pdata[i];
      cairo_new_sub_path (cr);
      if (kind_info (part->kind)->shape != SHAPE_POINT)
        {
          trace_path (cr, &part->path, view);
          continue;
        }
      Vec2 at = view_point (view, part->at);
      cairo_arc (cr, at.x, at.y, fmax (part->radius_m * view->px_per_m, RING_PX), 0, 2 * PI);
    }
  cairo_set_source_rgb (cr, ink.red, ink.green, ink.blue);
  cairo_set_line_width (cr, line_px);
  cairo_stroke (cr);
  cairo_destroy (cr);
}

static void
hw_import_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwImportView *self = HW_IMPORT_VIEW (widget);
  RenderView view = { .px_per_m = 1,
                      .width_px = gtk_widget_get_width (widget),
                      .height_px = gtk_widget_get_height (widget),
                      .unit_px = 1,
                      .units = self->units };
  if (self->hole == NULL || view.width_px <= 2 * MARGIN_PX || view.height_px <= 2 * MARGIN_PX)
    return;
  bool is_dark = hw_appearance_is_dark (widget);
  view_fit (&view, self->frame, MARGIN_PX);
  if (hw_drawing_is_stale (&self->drawing, self->hole, &view, gtk_widget_get_scale_factor (widget), is_dark))
    hw_drawing_paint (&self->drawing, widget, self->hole, &view, is_dark);
  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)view.width_px, (float)view.height_px));
  hw_drawing_snapshot (&self->drawing, snapshot, &view);
  snapshot_lines (self, snapshot, &view, self->arriving, ARRIVING_PX);
  snapshot_lines (self, snapshot, &view, self->marked, MARK_PX);
  hw_margin_snapshot (&self->margin, widget, snapshot, &view, NAN);
  gtk_snapshot_pop (snapshot);
}

static void
hw_import_view_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                        int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = LEAST_SIZE_PX;
  *minimum_baseline = *natural_baseline = -1;
}

void
hw_import_view_show (HwImportView *self, Hole *hole, Box frame, LengthUnit units)
{
  Hole *before = self->hole;
  self->hole = hole_ref (hole);
  g_clear_pointer (&before, hole_unref);
  self->frame = frame;
  self->units = units;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
replace_all (GPtrArray *kept, const GPtrArray *parts)
{
  g_ptr_array_set_size (kept, 0);
  for (guint i = 0; i < parts->len; i++)
    g_ptr_array_add (kept, (gpointer)part_ref (parts->pdata[i]));
}

void
hw_import_view_mark (HwImportView *self, const GPtrArray *arriving, const GPtrArray *marked)
{
  replace_all (self->arriving, arriving);
  replace_all (self->marked, marked);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
release_part (gpointer part)
{
  part_unref (part);
}

static void
hw_import_view_finalize (GObject *object)
{
  HwImportView *self = HW_IMPORT_VIEW (object);
  hw_drawing_clear (&self->drawing);
  hw_margin_clear (&self->margin);
  g_clear_pointer (&self->hole, hole_unref);
  g_ptr_array_unref (self->arriving);
  g_ptr_array_unref (self->marked);
  G_OBJECT_CLASS (hw_import_view_parent_class)->finalize (object);
}

static void
hw_import_view_class_init (HwImportViewClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->finalize = hw_import_view_finalize;
  widget_class->snapshot = hw_import_view_snapshot;
  widget_class->measure = hw_import_view_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "import-view");
}

static void
hw_import_view_init (HwImportView *self)
{
  self->arriving = g_ptr_array_new_with_free_func (release_part);
  self->marked = g_ptr_array_new_with_free_func (release_part);
  self->drawing.more = hw_draw_lines_of_play;
}
