// SPDX-License-Identifier: GPL-3.0-or-later
/* display-memory - cairo has one pool of it for a display: what is taken, touched and given back is what later frames are given. */
#include "display-memory.h"

#include "drawing.h"

#include <cairo-xlib.h>
#include <gdk/x11/gdkx.h>
#include <string.h>

/* A window that is being resized has many sizes. */
#define REST_MS 150
/* Frames that may be on their way at once: the one the server reads, the one in the making, and one more when the server is late. */
#define N_PIECES 3
/* Most that is taken for it. Frames of windows that want more take too long for this to be what is waited for. */
#define MOST_BYTES ((size_t)64 << 20)
/* What stays taken of the pool. */
#define STAY_KEY "hw-display-memory"
#define STAY_PX 16

struct _HwDisplayMemory
{
  GtkWidget *window;
  guint rest;    /* source that waits until the window keeps its size */
  int n_touched; /* pixels of the frames that all is ready for */
};

typedef struct
{
  GdkDisplay *display;
  cairo_surface_t *root, *pieces[N_PIECES];
} Pieces;

/* Back in the main thread, to which the display belongs. cairo lets go of a pool of which nothing is taken, so something small stays, in what was touched. */
static gboolean
give_back (gpointer data)
{
  Pieces *pieces = data;
  for (int i = 0; i < N_PIECES; i++)
    {
      cairo_surface_destroy (pieces->pieces[i]);
      if (i == 0)
        g_object_set_data_full (G_OBJECT (pieces->display), STAY_KEY,
                                cairo_surface_create_similar_image (pieces->root, CAIRO_FORMAT_ARGB32, STAY_PX, STAY_PX),
                                (GDestroyNotify)cairo_surface_destroy);
    }
  cairo_surface_destroy (pieces->root);
  g_object_unref (pieces->display);
  g_free (pieces);
  return G_SOURCE_REMOVE;
}

static gpointer
touch (gpointer data)
{
  Pieces *pieces = data;
  for (int i = 0; i < N_PIECES; i++)
    {
      cairo_surface_t *piece = pieces->pieces[i];
      if (cairo_surface_status (piece) == CAIRO_STATUS_SUCCESS)
        memset (cairo_image_surface_get_data (piece), 0,
                (size_t)cairo_image_surface_get_stride (piece) * (size_t)cairo_image_surface_get_height (piece));
    }
  g_idle_add (give_back, pieces);
  return NULL;
}

/* The piece of the pool that a frame is cut from, bytes: smaller frames are cut from all of it. */
static size_t
piece_size (size_t line, int height)
{
  size_t piece = 1;
  while (piece < line * (size_t)height)
    piece *= 2;
  return piece;
}

/* All at once, so that each is another; NULL for so large a frame that it is not worth it. */
static Pieces *
take (GdkDisplay *display, int width, int height)
{
  size_t line = (size_t)cairo_format_stride_for_width (CAIRO_FORMAT_ARGB32, width), size = piece_size (line, height);
  if (N_PIECES * size > MOST_BYTES)
    return NULL;
  Pieces *pieces = g_new0 (Pieces, 1);
  Display *server = gdk_x11_display_get_xdisplay (display);
  pieces->display = g_object_ref (display);
  pieces->root
      = cairo_xlib_surface_create (server, DefaultRootWindow (server), DefaultVisual (server, DefaultScreen (server)), 1, 1);
  for (int i = 0; i < N_PIECES; i++)
    pieces->pieces[i] = cairo_surface_create_similar_image (pieces->root, CAIRO_FORMAT_ARGB32, width, (int)(size / line));
  return pieces;
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
  if (!gtk_widget_get_mapped (self->window))
    return G_SOURCE_REMOVE;
  self->n_touched = pixels_of (self->window);
  if (!GDK_IS_X11_DISPLAY (display) || !hw_is_drawn_by_cairo (self->window))
    return G_SOURCE_REMOVE;
  int scale = gtk_widget_get_scale_factor (self->window);
  Pieces *pieces = take (display, gtk_widget_get_width (self->window) * scale, gtk_widget_get_height (self->window) * scale);
  g_autoptr (GThread) thread = pieces != NULL ? g_thread_try_new ("touching", touch, pieces, NULL) : NULL;
  if (pieces != NULL && thread == NULL)
    give_back (pieces);
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
