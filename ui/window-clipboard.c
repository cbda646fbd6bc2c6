// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * window-clipboard - cut, copy and paste of what is selected in Draw, and what is dropped on the window: our own things go in at once, shapes of other
 * programs after the golfer has said how large they are and what they mean, hole files and courses are opened.
 */
#include "window-private.h"

#include "desk-commands.h"
#include "import.h"
#include "keys.h"
#include "transfer.h"

#include <glib/gi18n.h>

/* More would bury the list of things and be drawn too slowly to be edited; a detailed hole has 300 (a choice). */
#define MOST_THINGS 2000

/* Where and for what a drawing is awaited. */
typedef struct
{
  HwWindow *window; /* referenced */
  GCancellable *cancellable;
  GdkDrop *drop; /* NULL: pasted */
  Vec2 middle;   /* where a foreign drawing is put */
} Awaited;

static void
awaited_free (Awaited *awaited)
{
  g_object_unref (awaited->window);
  g_object_unref (awaited->cancellable);
  g_clear_object (&awaited->drop);
  g_free (awaited);
}

/* ---- what goes out ---- */

static bool
copy_selection (HwWindow *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = hw_desk_copy (self->desk, &error);
  if (bytes == NULL)
    {
      hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
      return false;
    }
  /* A picture and not text as well: a name or a note pasted into must not fill with markup. */
  g_autoptr (GdkContentProvider) content = gdk_content_provider_new_for_bytes ("image/svg+xml", bytes);
  gdk_clipboard_set_content (gtk_widget_get_clipboard (GTK_WIDGET (self)), content);
  return true;
}

static void
on_copy_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  copy_selection (window);
}

static void
on_cut_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  if (copy_selection (window))
    hw_desk_cut (HW_WINDOW (window)->desk);
}

/* ---- what comes in ---- */

static void
show_draw (HwWindow *self)
{
  if (!hw_canvas_get_drawing (self->canvas))
    g_action_group_change_action_state (G_ACTION_GROUP (self), "step", g_variant_new_string ("draw"));
}

static void
put_in (HwWindow *self, const GPtrArray *parts)
{
  gtk_info_bar_set_revealed (self->message_bar, FALSE);
  show_draw (self);
  if (hw_desk_paste (self->desk, (const Part *const *)parts->pdata, parts->len))
    gtk_widget_grab_focus (GTK_WIDGET (self->canvas));
}

/* Our own things stand where they stood. */
static void
put_in_own (HwWindow *self, const SvgFragment *fragment)
{
  g_autoptr (GError) error = NULL;
  Vec2 middle = box_is_empty (fragment->extent) ? vec2 (0, 0) : box_centre (fragment->extent);
  g_autoptr (GPtrArray) parts = svg_fragment_place (fragment, hw_document_get_kept (self->document), NULL, 1, middle, &error);
  if (parts != NULL)
    put_in (self, parts);
  else
    hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
}

static void
on_placed_cb (HwWindow *self, GPtrArray *parts)
{
  put_in (self, parts);
}

/* Takes over the fragment. */
static void
ask_about_foreign (HwWindow *self, HwArrival *arrival, Vec2 middle)
{
  HwImportSource source = { .hole = hw_document_get_kept (self->document),
                            .units = hw_document_get_units (self->document),
                            .middle = middle,
                            .findings = arrival->findings };
  GtkWindow *dialog = hw_import_new (GTK_WINDOW (self), g_steal_pointer (&arrival->fragment), &source);
  g_signal_connect_object (dialog, "placed", G_CALLBACK (on_placed_cb), self, G_CONNECT_SWAPPED);
  gtk_window_present (dialog);
}

static void
take_arrival (HwWindow *self, HwArrival *arrival, const Awaited *awaited)
{
  bool is_drawing = arrival->fragment != NULL;
  bool is_own = !is_drawing || !arrival->fragment->is_foreign;
  if (arrival->path != NULL && is_own && (awaited->drop != NULL || !is_drawing))
    hw_window_open (self, arrival->path);
  else if (!hw_document_has_hole (self->document))
    hw_window_say (self, GTK_MESSAGE_INFO, _ ("Open a hole first, or draw a new one; then shapes can be put into it."));
  else if (arrival->fragment->n_parts > MOST_THINGS)
    {
      g_autofree char *text
          = g_strdup_printf (_ ("The drawing has %zu shapes, and %d at most can be put in at once; copy fewer of them."),
                             arrival->fragment->n_parts, MOST_THINGS);
      hw_window_say (self, GTK_MESSAGE_ERROR, text);
    }
  else if (is_own)
    put_in_own (self, arrival->fragment);
  else
    ask_about_foreign (self, arrival, awaited->middle);
}

static void
on_arrived_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  Awaited *awaited = user_data;
  HwWindow *self = awaited->window;
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArrival) arrival = hw_transfer_finish (result, &error);
  bool is_latest = self->transfer == awaited->cancellable;
  if (awaited->drop != NULL)
    gdk_drop_finish (awaited->drop, arrival != NULL ? GDK_ACTION_COPY : 0);
  if (is_latest)
    {
      g_clear_object (&self->transfer);
      gtk_widget_set_cursor (GTK_WIDGET (self), NULL);
    }
  if (arrival != NULL && is_latest)
    take_arrival (self, arrival, awaited);
  else if (arrival == NULL && !g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    hw_window_say (self, GTK_MESSAGE_ERROR, error->message);
  awaited_free (awaited);
}

void
hw_window_stop_transfer (HwWindow *self)
{
  if (self->transfer != NULL)
    g_cancellable_cancel (self->transfer);
  g_clear_object (&self->transfer);
}

/* Whatever was still being read is no longer wanted. */
static Awaited *
await (HwWindow *self, GdkDrop *drop, Vec2 middle)
{
  hw_window_stop_transfer (self);
  self->transfer = g_cancellable_new ();
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "progress");
  Awaited *awaited = g_new0 (Awaited, 1);
  awaited->window = g_object_ref (self);
  awaited->cancellable = g_object_ref (self->transfer);
  awaited->drop = drop != NULL ? g_object_ref (drop) : NULL;
  awaited->middle = middle;
  return awaited;
}

static void
on_paste_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  HwWindow *self = window;
  Vec2 middle = hw_canvas_get_view (self->canvas)->centre;
  hw_canvas_get_pointed (self->canvas, &middle);
  Awaited *awaited = await (self, NULL, middle);
  hw_transfer_read_clipboard (gtk_widget_get_clipboard (GTK_WIDGET (self)), awaited->cancellable, on_arrived_cb, awaited);
}

/* ---- drops ---- */

static gboolean
on_drop_cb (GtkDropTargetAsync *target, GdkDrop *drop, double x, double y, HwWindow *self)
{
  const RenderView *view = hw_canvas_get_view (self->canvas);
  Vec2 middle = view->centre;
  double canvas_x, canvas_y;
  if (gtk_widget_get_mapped (GTK_WIDGET (self->canvas))
      && gtk_widget_translate_coordinates (GTK_WIDGET (self), GTK_WIDGET (self->canvas), x, y, &canvas_x, &canvas_y)
      && gtk_widget_contains (GTK_WIDGET (self->canvas), canvas_x, canvas_y))
    middle = view_unproject (view, vec2 (canvas_x, canvas_y));
  Awaited *awaited = await (self, drop, middle);
  hw_transfer_read_drop (drop, awaited->cancellable, on_arrived_cb, awaited);
  return TRUE;
}

static void
accept_drops (HwWindow *self)
{
  size_t n = 0;
  while (hw_transfer_mime_types[n] != NULL)
    n++;
  GdkContentFormats *formats = gdk_content_formats_new ((const char **)hw_transfer_mime_types, (guint)n);
  GtkDropTargetAsync *target = gtk_drop_target_async_new (formats, GDK_ACTION_COPY);
  g_signal_connect (target, "drop", G_CALLBACK (on_drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (target));
}

/* ---- actions ---- */

/* The keys come to the window last, so that a field that is typed into keeps them, and they work wherever else the focus is. */
static void
add_keys (HwWindow *self)
{
  static const HwKey keys[]
      = { { "<Control>x", "win.draw-cut" }, { "<Control>c", "win.draw-copy" }, { "<Control>v", "win.draw-paste" } };
  hw_keys_add (GTK_WIDGET (self), keys, G_N_ELEMENTS (keys), GTK_PHASE_BUBBLE);
}

void
hw_window_add_clipboard (HwWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "draw-cut", .activate = on_cut_cb },
    { .name = "draw-copy", .activate = on_copy_cb },
    { .name = "draw-paste", .activate = on_paste_cb },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  add_keys (self);
  accept_drops (self);
}
