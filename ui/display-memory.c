// SPDX-License-Identifier: GPL-3.0-or-later
/* display-memory - cairo has one pool of it for a display: what is taken, touched and given back is what later frames are given. */
#include "display-memory.h"

#include "drawing.h"
#include "urgency.h"

#include <cairo-xlib.h>
#include <gdk/x11/gdkx.h>
#include <string.h>

/* A window that is being resized has many sizes. */
#define REST_MS 150
/* Frames that may be on their way at once: the one the server reads, the one in the making, and one more when the server is late. */
#define N_BLOCKS 3

struct _HwDisplayMemory
{
  GtkWidget *window;
  guint rest;    /* source that waits until the window keeps its size */
  int n_touched; /* pixels of the frames that all is ready for */
};

static void
touch (GTask *task, gpointer source, gpointer blocks, GCancellable *cancellable)
{
  hw_urgency_give_way ();
  for (cairo_surface_t **block = blocks; *block != NULL; block++)
    if (cairo_surface_status (*block) == CAIRO_STATUS_SUCCESS)
      memset (cairo_image_surface_get_data (*block), 0,
              (size_t)cairo_image_surface_get_stride (*block) * (size_t)cairo_image_surface_get_height (*block));
  g_task_return_boolean (task, true);
}

/* Held all at once, so that each is another. */
static cairo_surface_t **
take_blocks (Display *display, int width, int height)
{
  cairo_surface_t **blocks = g_new0 (cairo_surface_t *, N_BLOCKS + 1);
  cairo_surface_t *root = cairo_xlib_surface_create (display, DefaultRootWindow (display),
                                                     DefaultVisual (display, DefaultScreen (display)), 1, 1);
  for (int i = 0; i < N_BLOCKS; i++)
    blocks[i] = cairo_surface_create_similar_image (root, CAIRO_FORMAT_ARGB32, width, height);
  cairo_surface_destroy (root);
  return blocks;
}

/* In the main thread, to which the display belongs. */
static void
on_touched_cb (GObject *source, GAsyncResult *result, gpointer blocks)
{
  for (cairo_surface_t **block = blocks; *block != NULL; block++)
    cairo_surface_destroy (*block);
  g_free (blocks);
}

/* Of one frame. */
static int
pixels_of (GtkWidget *window)
{
  int scale = gtk_widget_get_scale_factor (window);
  return gtk_widget_get_width (window) * gtk_widget_get_height (window) * scale * scale;
}

static gboolean
on_rested_cb (gpointer memory)
{
  HwDisplayMemory *self = memory;
  GdkDisplay *display = gtk_widget_get_display (self->window);
  self->rest = 0;
  self->n_touched = pixels_of (self->window);
  if (!GDK_IS_X11_DISPLAY (display) || !hw_is_drawn_by_cairo (self->window))
    return G_SOURCE_REMOVE;
  int scale = gtk_widget_get_scale_factor (self->window);
  cairo_surface_t **blocks = take_blocks (gdk_x11_display_get_xdisplay (display), gtk_widget_get_width (self->window) * scale,
                                          gtk_widget_get_height (self->window) * scale);
  g_autoptr (GTask) task = g_task_new (NULL, NULL, on_touched_cb, blocks);
  g_task_set_task_data (task, blocks, NULL);
  g_task_run_in_thread (task, touch);
  return G_SOURCE_REMOVE;
}

HwDisplayMemory *
hw_display_memory_new (GtkWidget *window)
{
  HwDisplayMemory *self = g_new0 (HwDisplayMemory, 1);
  self->window = window;
  return self;
}

void
hw_display_memory_free (HwDisplayMemory *self)
{
  g_clear_handle_id (&self->rest, g_source_remove);
  g_free (self);
}

void
hw_display_memory_follow (HwDisplayMemory *self)
{
  if (pixels_of (self->window) <= self->n_touched)
    return;
  g_clear_handle_id (&self->rest, g_source_remove);
  self->rest = g_timeout_add (REST_MS, on_rested_cb, self);
}
