// SPDX-License-Identifier: GPL-3.0-or-later
/* still - what a thread paints from it owns: maps, hole and bag are immutable and counted, shots and scene are copies, and the picture under it is never drawn on. */
#include "still.h"

#include <string.h>

/* It and what it is painted for; `still` is NULL when nobody waits for it any more. */
struct _HwStillJob
{
  HwStill *still;
  HwStillKey key;
  PlanScene scene;
  Hole *hole;
  Bag *bag;
  ShotResult *shots;
  cairo_surface_t *image;
  GtkWidget *widget;
};

/* ---- what is painted ---- */

static HwStillKey
key_new (const PlanScene *scene, const RenderView *view, unsigned mask, int scale, cairo_surface_t *under)
{
  return (HwStillKey){ .aims = scene->aims != NULL ? aim_map_ref ((AimMap *)scene->aims) : NULL,
                       .map = scene->map != NULL ? plan_map_ref ((PlanMap *)scene->map) : NULL,
                       .under = under != NULL ? cairo_surface_reference (under) : NULL,
                       .view = *view,
                       .mask = mask,
                       .scale = scale };
}

static void
key_clear (HwStillKey *key)
{
  g_clear_pointer (&key->aims, aim_map_unref);
  g_clear_pointer (&key->map, plan_map_unref);
  g_clear_pointer (&key->under, cairo_surface_destroy);
}

static bool
has_still (const PlanScene *scene)
{
  return scene->aims != NULL || scene->map != NULL;
}

/* On the same paper: the same picture of the hole, where it stands. */
static bool
is_over (const HwStillKey *key, const RenderView *view, int scale, cairo_surface_t *under)
{
  return key->scale == scale && key->under == under && hw_same_view (&key->view, view);
}

static bool
is_of (const HwStillKey *key, const PlanScene *scene, const RenderView *view, unsigned mask, int scale, cairo_surface_t *under)
{
  return key->aims == scene->aims && key->map == scene->map && key->mask == mask && is_over (key, view, scale, under);
}

/* ---- painting ---- */

/* A copy, taken without cairo, which two threads must not paint from at a time. */
static void
copy_pixels (cairo_surface_t *image, cairo_surface_t *from)
{
  size_t stride = (size_t)cairo_image_surface_get_stride (image), from_stride = (size_t)cairo_image_surface_get_stride (from);
  int height = MIN (cairo_image_surface_get_height (image), cairo_image_surface_get_height (from));
  for (int y = 0; y < height; y++)
    memcpy (cairo_image_surface_get_data (image) + (size_t)y * stride,
            cairo_image_surface_get_data (from) + (size_t)y * from_stride, MIN (stride, from_stride));
  cairo_surface_mark_dirty (image);
}

static cairo_surface_t *
still_image (const HwStillKey *key, const PlanScene *scene, Box *ink)
{
  int width = (int)ceil (key->view.width_px), height = (int)ceil (key->view.height_px);
  cairo_surface_t *image = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * key->scale, height * key->scale);
  if (key->under != NULL)
    copy_pixels (image, key->under);
  cairo_surface_set_device_scale (image, key->scale, key->scale);
  cairo_t *cr = cairo_create (image);
  *ink = render_still_overlays (cr, scene, &key->view, key->mask);
  cairo_destroy (cr);
  cairo_surface_flush (image);
  return image;
}

/* ---- beside ---- */

static void
job_free (gpointer data)
{
  HwStillJob *job = data;
  key_clear (&job->key);
  hole_unref (job->hole);
  g_clear_pointer (&job->bag, bag_unref);
  g_clear_pointer (&job->image, cairo_surface_destroy);
  g_object_unref (job->widget);
  g_free (job->shots);
  g_free (job);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  HwStillJob *job = data;
  Box ink;
  job->scene.words = render_words_new_apart ();
  job->image = still_image (&job->key, &job->scene, &ink);
  render_words_free (job->scene.words);
  g_task_return_boolean (task, TRUE);
}

static void
leave_job (HwStill *still)
{
  if (still->job != NULL)
    still->job->still = NULL;
  still->job = NULL;
}

static void
take_image (HwStill *still, HwStillKey key, cairo_surface_t *image)
{
  leave_job (still);
  g_clear_pointer (&still->node, gsk_render_node_unref);
  g_clear_pointer (&still->image, cairo_surface_destroy);
  key_clear (&still->key);
  still->key = key;
  still->image = image;
}

static void
on_painted_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  HwStillJob *job = g_task_get_task_data (G_TASK (result));
  if (job->still == NULL)
    return;
  take_image (job->still, job->key, g_steal_pointer (&job->image));
  job->key = (HwStillKey){ 0 };
  gtk_widget_queue_draw (job->widget);
}

/* Only what the overlays that stay need is copied. */
static void
begin_job (HwStill *still, HwStillKey key, const PlanScene *scene, Bag *bag, GtkWidget *widget)
{
  HwStillJob *job = g_new0 (HwStillJob, 1);
  leave_job (still);
  still->job = job;
  job->still = still;
  job->key = key;
  job->hole = hole_ref ((Hole *)scene->hole);
  job->bag = bag != NULL ? bag_ref (bag) : NULL;
  job->shots = g_memdup2 (scene->shots, scene->n_shots * sizeof *scene->shots);
  job->scene = (PlanScene){ .hole = job->hole,
                            .shots = job->shots,
                            .n_shots = scene->n_shots,
                            .current = scene->current,
                            .aims = key.aims,
                            .map = key.map,
                            .ink = scene->ink,
                            .translate = scene->translate };
  job->widget = g_object_ref (widget);
  g_autoptr (GTask) task = g_task_new (NULL, NULL, on_painted_cb, NULL);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, work);
}

/* ---- what is shown ---- */

void
hw_still_clear (HwStill *still)
{
  take_image (still, (HwStillKey){ 0 }, NULL);
}

void
hw_still_snapshot (HwStill *still, GtkWidget *widget, GtkSnapshot *snapshot, const PlanScene *scene, const RenderView *view,
                   unsigned mask)
{
  int scale = gtk_widget_get_scale_factor (widget);
  if (!has_still (scene))
    return;
  if (!is_of (&still->key, scene, view, mask, scale, NULL))
    {
      Box ink;
      hw_still_clear (still);
      still->key = key_new (scene, view, mask, scale, NULL);
      cairo_surface_t *image = still_image (&still->key, scene, &ink);
      if (!box_is_empty (ink) && hw_is_drawn_by_cairo (widget))
        still->node = hw_tiled_node (image, (Box){ floor (ink.x0), floor (ink.y0), ceil (ink.x1), ceil (ink.y1) }, false);
      else if (!box_is_empty (ink))
        still->node = hw_image_node (
            widget, image, &GRAPHENE_RECT_INIT (0, 0, (float)ceil (view->width_px), (float)ceil (view->height_px)), false);
      cairo_surface_destroy (image);
    }
  if (still->node != NULL)
    gtk_snapshot_append_node (snapshot, still->node);
}

cairo_surface_t *
hw_still_on (HwStill *still, const HwDrawing *drawing, const PlanScene *scene, unsigned mask, Bag *bag, GtkWidget *later)
{
  const RenderView *view = &drawing->view;
  int scale = drawing->scale;
  if (!has_still (scene))
    return drawing->image; // what is kept may soon be asked for again: another club is in hand
  if (is_of (&still->key, scene, view, mask, scale, drawing->image))
    return still->image;
  if (later == NULL)
    {
      Box ink;
      HwStillKey key = key_new (scene, view, mask, scale, drawing->image);
      take_image (still, key, still_image (&key, scene, &ink));
      return still->image;
    }
  if (still->job == NULL || !is_of (&still->job->key, scene, view, mask, scale, drawing->image))
    begin_job (still, key_new (scene, view, mask, scale, drawing->image), scene, bag, later);
  return still->image != NULL && is_over (&still->key, view, scale, drawing->image) ? still->image : drawing->image;
}
