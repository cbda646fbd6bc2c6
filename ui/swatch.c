// SPDX-License-Identifier: GPL-3.0-or-later
/* swatch - a drawing area; symbols come from the painter of holes, which is given a hole with that one thing. */
#include "swatch.h"

#include "appearance.h"
#include "tool-draw.h"

#define WIDTH_PX 17
#define HEIGHT_PX 15
/* Scale of the small hole, large enough for what is only shown from near, and half the size of things on it. */
#define PX_PER_M 4.0
#define HALF_M (6.0 / PX_PER_M)
/* The dark style's dimming of the paper, as on the drawing. */
#define DARK_DIM_SHARE 0.22

typedef struct
{
  Kind kind;
  Stakes stakes;
} Shown;

/* A hole that holds one thing of this kind in the middle of a sheet as large as the swatch. */
static Hole *
hole_of_kind (Kind kind)
{
  Part *part = part_new (kind);
  part->radius_m = kind == KIND_TREE ? HALF_M : part->radius_m;
  if (kind == KIND_NOTE)
    part->text = g_strdup ("Aa");
  if (kind_info (kind)->shape == SHAPE_LINE)
    {
      path_move_to (&part->path, vec2 (-HALF_M, -HALF_M / 2));
      path_line_to (&part->path, vec2 (HALF_M, HALF_M / 2));
    }
  const Part *sealed = part_seal (part);
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, &sealed, 1, NULL);
  hole_info_clear (&info);
  return hole;
}

static void
on_draw_cb (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  const Shown *shown = user_data;
  if (kind_info (shown->kind)->shape == SHAPE_AREA)
    {
      render_swatch (cr, shown->kind, shown->stakes, 0, 0, width, height, 1);
      return;
    }
  RenderView view = { .px_per_m = PX_PER_M, .width_px = width, .height_px = height, .unit_px = 1, .units = UNIT_YARDS };
  if (shown->kind == KIND_NONE || kind_info (shown->kind)->shape == SHAPE_IMAGE || shown->kind == KIND_PLAN)
    return;
  Colour paper = render_kind_wash (KIND_NONE);
  cairo_set_source_rgb (cr, paper.red, paper.green, paper.blue);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_fill (cr);
  g_autoptr (Hole) hole = hole_of_kind (shown->kind);
  render_things (cr, hole, &view, PAINT_COLOUR);
  hw_draw_lines_of_play (cr, hole, &view);
  if (hw_appearance_is_dark (GTK_WIDGET (area)))
    {
      cairo_set_source_rgba (cr, 0, 0, 0, DARK_DIM_SHARE);
      cairo_paint (cr);
    }
}

GtkWidget *
hw_swatch_new (void)
{
  GtkWidget *swatch = gtk_drawing_area_new ();
  Shown *shown = g_new0 (Shown, 1);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (swatch), WIDTH_PX);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (swatch), HEIGHT_PX);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (swatch), on_draw_cb, shown, g_free);
  g_object_set_data (G_OBJECT (swatch), "shown", shown);
  gtk_widget_set_valign (swatch, GTK_ALIGN_CENTER);
  return swatch;
}

void
hw_swatch_show (GtkWidget *swatch, Kind kind, Stakes stakes)
{
  Shown *shown = g_object_get_data (G_OBJECT (swatch), "shown");
  if (shown->kind == kind && shown->stakes == stakes)
    return;
  shown->kind = kind;
  shown->stakes = stakes;
  gtk_widget_queue_draw (swatch);
}
