// SPDX-License-Identifier: GPL-3.0-or-later
/* transfer - one task for all ways in: a stream read piece by piece, then a thread that knows nothing of widgets. */
#define _GNU_SOURCE
#include "transfer.h"

#include <glib/gi18n.h>
#include <string.h>

/* Read at once: large enough to be quick, small enough to keep the window alive (common practice). */
#define PIECE_BYTES (256 * 1024)

#define FILES "text/uri-list"

/* Files first: who copies a file offers its name as text too. */
const char *const hw_transfer_mime_types[]
    = { FILES,         "image/svg+xml", "image/svg", "text/plain;charset=utf-8", "text/plain;charset=UTF-8",
        "UTF8_STRING", "text/plain",    NULL };

typedef struct
{
  char *mime_type;
  GInputStream *stream;
  GByteArray *read;
} Transfer;

static void
transfer_free (Transfer *transfer)
{
  g_free (transfer->mime_type);
  g_clear_object (&transfer->stream);
  g_byte_array_unref (transfer->read);
  g_free (transfer);
}

void
hw_arrival_free (HwArrival *arrival)
{
  if (arrival == NULL)
    return;
  g_free (arrival->path);
  svg_fragment_free (arrival->fragment);
  g_clear_pointer (&arrival->findings, g_ptr_array_unref);
  g_free (arrival);
}

/* ---- in the thread ---- */

static bool
holds (GBytes *bytes, const char *words)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  return size > 0 && memmem (data, size, words, strlen (words)) != NULL;
}

/* Text as other programs hand it over: a mark of its encoding and blank lines before, a zero after. */
static GBytes *
trimmed (GBytes *bytes)
{
  gsize size, start = 0;
  const guint8 *data = g_bytes_get_data (bytes, &size);
  if (size >= 3 && memcmp (data, "\xEF\xBB\xBF", 3) == 0)
    start = 3;
  while (start < size && g_ascii_isspace (data[start]))
    start++;
  while (size > start && (data[size - 1] == '\0' || g_ascii_isspace (data[size - 1])))
    size--;
  return g_bytes_new_from_bytes (bytes, start, size - start);
}

/* The first file of a list of addresses, if it is on this computer. */
static char *
first_file (GBytes *bytes)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  g_autofree char *text = g_strndup (data, size);
  g_auto (GStrv) addresses = g_uri_list_extract_uris (text);
  return addresses[0] != NULL ? g_filename_from_uri (addresses[0], NULL, NULL) : NULL;
}

static void
take_drawing (HwArrival *arrival, GBytes *bytes, const char *name, GError **error)
{
  arrival->fragment = svg_read_fragment (bytes, name, &arrival->findings, error);
}

/* A file is tried as a drawing; what it is otherwise is for him to say who opens it. A foreign drawing without shapes would open as an empty hole. */
static void
take_file (HwArrival *arrival, GError **error)
{
  g_autofree char *name = g_path_get_basename (arrival->path);
  if (g_file_test (arrival->path, G_FILE_TEST_IS_DIR) || g_str_equal (name, "course.xml"))
    return;
  g_autoptr (GError) trouble = NULL;
  g_autoptr (GBytes) bytes = svg_read_contents (arrival->path, NULL);
  if (bytes == NULL)
    return;
  take_drawing (arrival, bytes, name, &trouble);
  if (trouble != NULL && !holds (bytes, SVG_HOLE_NAMESPACE))
    g_propagate_error (error, g_steal_pointer (&trouble));
}

static void
take_apart (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Transfer *transfer = data;
  GError *error = NULL;
  g_autoptr (HwArrival) arrival = g_new0 (HwArrival, 1);
  g_autoptr (GBytes) bytes = g_byte_array_free_to_bytes (g_steal_pointer (&transfer->read));
  transfer->read = g_byte_array_new ();
  g_autoptr (GBytes) text = trimmed (bytes);
  if (g_str_equal (transfer->mime_type, FILES))
    {
      arrival->path = first_file (bytes);
      if (arrival->path != NULL)
        take_file (arrival, &error);
      else
        error = g_error_new_literal (G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                                     _ ("Only files on this computer can be opened; copy it here first."));
    }
  else if (!holds (text, "<svg") && !holds (text, ":svg"))
    error = g_error_new_literal (G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                                 _ ("That is no drawing; copy shapes in a drawing program, or here, and paste them."));
  else
    take_drawing (arrival, text, _ ("clipboard"), &error);
  if (error != NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, g_steal_pointer (&arrival), (GDestroyNotify)hw_arrival_free);
}

/* ---- piece by piece ---- */

static void read_on (GTask *task);

static void
on_piece_cb (GObject *stream, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (GTask) task = user_data;
  Transfer *transfer = g_task_get_task_data (task);
  GError *error = NULL;
  g_autoptr (GBytes) piece = g_input_stream_read_bytes_finish (G_INPUT_STREAM (stream), result, &error);
  if (piece == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  gsize size;
  const void *data = g_bytes_get_data (piece, &size);
  if (size == 0)
    {
      g_task_run_in_thread (task, take_apart);
      return;
    }
  if (transfer->read->len + size > SVG_MOST_BYTES)
    {
      g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NO_SPACE,
                               _ ("The drawing is larger than %u MiB; copy less of it, or simplify it first."),
                               SVG_MOST_BYTES >> 20);
      return;
    }
  g_byte_array_append (transfer->read, data, (guint)size);
  read_on (g_steal_pointer (&task));
}

/* Takes over the task's reference. */
static void
read_on (GTask *task)
{
  Transfer *transfer = g_task_get_task_data (task);
  g_input_stream_read_bytes_async (transfer->stream, PIECE_BYTES, G_PRIORITY_DEFAULT, g_task_get_cancellable (task),
                                   on_piece_cb, task);
}

/* The other side has said in which form it hands the drawing over. Takes over stream and error. */
static void
on_stream (GTask *task, GInputStream *stream, const char *mime_type, GError *error)
{
  Transfer *transfer = g_task_get_task_data (task);
  if (stream != NULL)
    {
      transfer->stream = stream;
      transfer->mime_type = g_strdup (mime_type);
      read_on (task);
      return;
    }
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED))
    g_task_return_new_error (task, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                             _ ("There is no drawing to paste; copy shapes in a drawing program, or here."));
  else
    g_task_return_error (task, g_error_copy (error));
  g_error_free (error);
  g_object_unref (task);
}

static void
on_clipboard_cb (GObject *clipboard, GAsyncResult *result, gpointer task)
{
  GError *error = NULL;
  const char *mime_type = NULL;
  GInputStream *stream = gdk_clipboard_read_finish (GDK_CLIPBOARD (clipboard), result, &mime_type, &error);
  on_stream (task, stream, mime_type, error);
}

static void
on_drop_cb (GObject *drop, GAsyncResult *result, gpointer task)
{
  GError *error = NULL;
  const char *mime_type = NULL;
  GInputStream *stream = gdk_drop_read_finish (GDK_DROP (drop), result, &mime_type, &error);
  on_stream (task, stream, mime_type, error);
}

static GTask *
task_new (gpointer source, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  GTask *task = g_task_new (source, cancellable, done, user_data);
  Transfer *transfer = g_new0 (Transfer, 1);
  transfer->read = g_byte_array_new ();
  g_task_set_task_data (task, transfer, (GDestroyNotify)transfer_free);
  return task;
}

/*
 * The best form on offer, as a list of one: under X11 GDK asks for one after the other without looking at what is offered, and some programs answer to
 * any. What is offered is not known yet right after another program has copied; then a drawing is asked for.
 */
static void
forms_to_ask_for (GdkContentFormats *offered, const char **forms)
{
  gsize n_offered;
  gdk_content_formats_get_mime_types (offered, &n_offered);
  for (size_t i = 0; hw_transfer_mime_types[i] != NULL; i++)
    if (gdk_content_formats_contain_mime_type (offered, hw_transfer_mime_types[i]))
      {
        forms[0] = hw_transfer_mime_types[i];
        return;
      }
  forms[0] = n_offered == 0 ? "image/svg+xml" : NULL;
}

/* Nothing on offer is of use. */
static void
refuse (GTask *task)
{
  on_stream (task, NULL, NULL, g_error_new_literal (G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED, ""));
}

void
hw_transfer_read_clipboard (GdkClipboard *clipboard, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  GTask *task = task_new (clipboard, cancellable, done, user_data);
  const char *forms[2] = { NULL, NULL };
  forms_to_ask_for (gdk_clipboard_get_formats (clipboard), forms);
  if (forms[0] != NULL)
    gdk_clipboard_read_async (clipboard, forms, G_PRIORITY_DEFAULT, cancellable, on_clipboard_cb, task);
  else
    refuse (task);
}

void
hw_transfer_read_drop (GdkDrop *drop, GCancellable *cancellable, GAsyncReadyCallback done, gpointer user_data)
{
  GTask *task = task_new (drop, cancellable, done, user_data);
  const char *forms[2] = { NULL, NULL };
  forms_to_ask_for (gdk_drop_get_formats (drop), forms);
  if (forms[0] != NULL)
    gdk_drop_read_async (drop, forms, G_PRIORITY_DEFAULT, cancellable, on_drop_cb, task);
  else
    refuse (task);
}

HwArrival *
hw_transfer_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
