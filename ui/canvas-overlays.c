// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * canvas-overlays - the plan's overlays on the canvas, painted beside the main thread.
 *
 * They are begun as soon as the frame begins, while the main thread lays the window out and paints the section, and are waited for when the canvas is asked for its
 * picture. Until the frame is over nothing but the frame runs, so what is borrowed from document, solver and planner stays.
 */
#include "canvas-private.h"

/* What others ask for while the overlays are painted is none of theirs. */
static void
forget_unasked (PlanScene *scene, unsigned needs)
{
  if (!(needs & SCENE_NEEDS_TREES))
    scene->trees = NULL;
  if (!(needs & SCENE_NEEDS_ROOM))
    scene->room = NULL;
  if (!(needs & SCENE_NEEDS_PLACES))
    {
      scene->places = NULL;
      scene->n_places = 0;
    }
}

/* What the plan's overlays show, and of which of them; false where there is nothing. */
static bool
find_overlays (HwCanvas *self, PlanScene *scene, unsigned *mask)
{
  if (self->is_drawing || hw_document_get_scene (self->document)->n_shots == 0)
    return false;
  *mask = hw_settings_get_overlays (hw_document_get_settings (self->document));
  hw_document_need (self->document, overlay_needs (*mask));
  *scene = *hw_document_get_scene (self->document);
  forget_unasked (scene, overlay_needs (*mask));
  scene->aims = hw_solver_get_shown_aims (self->solver);
  scene->green = self->look == HW_LOOK_GREEN && hw_canvas_find_green (self, &self->green) ? &self->green : NULL;
  hw_planner_fill (self->planner, scene, *mask);
  return true;
}

/* Beside the main thread. */
static void
paint_overlays (gpointer canvas, gpointer unused)
{
  HwCanvas *self = canvas;
  cairo_t *cr = hw_layer_open (&self->overlays);
  render_live_overlays (cr, &self->painting, &self->painting_view, self->painting_mask);
  hw_layer_close (&self->overlays, cr);
}

/* Has the overlays of this scene painted, on `ground` where that is not NULL; hw_beside_finish waits for them. */
static void
begin_overlays (HwCanvas *self, const PlanScene *scene, unsigned mask, cairo_surface_t *ground)
{
  int width_px = (int)ceil (self->view.width_px), height_px = (int)ceil (self->view.height_px);
  hw_beside_finish (self->beside, &self->overlays_share);
  hw_layer_turn (&self->overlays, GTK_WIDGET (self), width_px, height_px, ground);
  self->painting = *scene;
  if (scene->green != NULL)
    {
      self->painting_green = *scene->green;
      self->painting.green = &self->painting_green;
    }
  self->painting.words = self->overlays.words;
  self->painting_view = self->view;
  self->painting_mask = mask;
  self->n_paints++;
  hw_written_fill (&self->written, &self->drawing, &self->view, hole_info (scene->hole)->up_bearing_deg, &self->painting);
  hw_beside_begin (self->beside, &self->overlays_share, paint_overlays, self);
}

/* Can the overlays be drawn on the kept picture of the hole: where that stands still and cairo draws it? */
static bool
is_on_drawing (HwCanvas *self)
{
  return hw_is_drawn_by_cairo (GTK_WIDGET (self)) && hw_same_view (&self->drawing.view, &self->view);
}

/* The picture of the hole with what stays on it; while something is dragged no frame waits for that. */
static cairo_surface_t *
ground_of (HwCanvas *self, const PlanScene *scene, unsigned mask)
{
  GtkWidget *later = hw_document_is_dragging (self->document) ? GTK_WIDGET (self) : NULL;
  return hw_still_on (&self->still, &self->drawing, scene, mask, hw_document_get_bag (self->document), later);
}

/* Not while the picture of the hole is still to be made. */
void
hw_canvas_paint_ahead (HwCanvas *self)
{
  Hole *hole = self->document != NULL ? hw_canvas_still_hole (self) : NULL;
  PlanScene scene;
  unsigned mask;
  bool is_due = self->is_due && hole != NULL && gtk_widget_get_mapped (GTK_WIDGET (self));
  self->is_due = false;
  if (!is_due || !is_on_drawing (self) || hw_canvas_needs_picture (self, hole) || !find_overlays (self, &scene, &mask))
    return;
  begin_overlays (self, &scene, mask, ground_of (self, &scene, mask));
  self->is_painting = true;
}

/* The numbers are those of the shot in hand. */
static bool
is_same_green (const PlanGreen *a, const PlanGreen *b)
{
  return a == NULL || b == NULL ? a == b : a->approach == b->approach;
}

/* Is what is painted ahead what this scene shows? Of one frame and one document, so the results of the shot in hand are the same. */
static bool
is_painted (HwCanvas *self, const PlanScene *scene, unsigned mask)
{
  const PlanScene *painting = &self->painting;
  return self->is_painting && mask == self->painting_mask && hw_same_view (&self->view, &self->painting_view)
         && scene->shots == painting->shots && scene->current == painting->current && scene->trees == painting->trees
         && scene->aims == painting->aims && scene->room == painting->room && scene->places == painting->places
         && scene->map == painting->map && scene->n_tracks == painting->n_tracks
         && is_same_green (scene->green, painting->green);
}

bool
hw_canvas_snapshot_plan (HwCanvas *self, GtkSnapshot *snapshot)
{
  GtkWidget *widget = GTK_WIDGET (self);
  PlanScene scene;
  unsigned mask;
  if (!find_overlays (self, &scene, &mask))
    return false;
  bool is_on = is_on_drawing (self), is_ahead = is_on && is_painted (self, &scene, mask);
  cairo_surface_t *ground = is_on && !is_ahead ? ground_of (self, &scene, mask) : NULL;
  if (!is_on)
    {
      hw_drawing_snapshot (&self->drawing, snapshot, &self->view);
      hw_still_snapshot (&self->still, widget, snapshot, &scene, &self->view, mask);
    }
  if (!is_ahead)
    begin_overlays (self, &scene, mask, ground);
  self->is_painting = false;
  hw_beside_finish (self->beside, &self->overlays_share);
  hw_layer_show (&self->overlays, widget, snapshot);
  return true;
}

void
hw_canvas_end_painting (HwCanvas *self)
{
  self->is_painting = false;
  if (self->beside != NULL)
    hw_beside_finish (self->beside, &self->overlays_share);
}
