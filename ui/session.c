// SPDX-License-Identifier: GPL-3.0-or-later
/* session - a key file with one group; views are kept as lines "MODE SCALE X Y PATH", the latest first. */
#include "session.h"

#include <math.h>

#define GROUP "session"
/* From a change to its writing (common practice): a golfer who zooms writes once. */
#define WRITE_AFTER_MS 2000
/* Holes whose view is remembered: more than a golfer has on the table at a time (common practice). */
#define MOST_VIEWS 60
/* Sizes and scales beyond these are no window's and no drawing's (common practice). */
#define LEAST_SIDE_PX 200
#define MOST_SIDE_PX 16000
#define LEAST_PX_PER_M 1e-3
#define MOST_PX_PER_M 1e4
#define FARTHEST_M 1e5

typedef struct
{
  char *path, *mode;
  HwSessionView view;
} Row;

struct _HwSession
{
  GObject parent_instance;
  char *path;
  GKeyFile *file;
  GPtrArray *rows; /* Row, the latest first */
  guint timer;
};

G_DEFINE_FINAL_TYPE (HwSession, hw_session, G_TYPE_OBJECT)

static void
row_free (gpointer data)
{
  Row *row = data;
  g_free (row->path);
  g_free (row->mode);
  g_free (row);
}

/* ---- the file ---- */

static bool
is_view (const HwSessionView *view)
{
  return view->px_per_m >= LEAST_PX_PER_M && view->px_per_m <= MOST_PX_PER_M && fabs (view->centre.x) <= FARTHEST_M
         && fabs (view->centre.y) <= FARTHEST_M;
}

static char *
print_row (const Row *row)
{
  char scale[G_ASCII_DTOSTR_BUF_SIZE], x[G_ASCII_DTOSTR_BUF_SIZE], y[G_ASCII_DTOSTR_BUF_SIZE];
  g_ascii_formatd (scale, sizeof scale, "%.5g", row->view.px_per_m);
  g_ascii_formatd (x, sizeof x, "%.2f", row->view.centre.x);
  g_ascii_formatd (y, sizeof y, "%.2f", row->view.centre.y);
  return g_strdup_printf ("%s %s %s %s %s", row->mode, scale, x, y, row->path);
}

/* NULL for what is no such line. */
static Row *
parse_row (const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", 5);
  if (g_strv_length (words) != 5)
    return NULL;
  HwSessionView view = { .px_per_m = g_ascii_strtod (words[1], NULL),
                         .centre = vec2 (g_ascii_strtod (words[2], NULL), g_ascii_strtod (words[3], NULL)) };
  if (!is_view (&view))
    return NULL;
  Row *row = g_new0 (Row, 1);
  row->mode = g_strdup (words[0]);
  row->path = g_strdup (words[4]);
  row->view = view;
  return row;
}

void
hw_session_write (HwSession *self)
{
  if (self->timer == 0)
    return;
  g_clear_handle_id (&self->timer, g_source_remove);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) lines = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < self->rows->len; i++)
    g_ptr_array_add (lines, print_row (self->rows->pdata[i]));
  g_key_file_set_string_list (self->file, GROUP, "views", (const char *const *)lines->pdata, lines->len);
  g_autofree char *folder = g_path_get_dirname (self->path);
  g_mkdir_with_parents (folder, 0700);
  if (!g_key_file_save_to_file (self->file, self->path, &error))
    g_message ("The session was not kept: %s", error->message);
}

static gboolean
on_due_cb (gpointer session)
{
  hw_session_write (session);
  return G_SOURCE_REMOVE;
}

static void
session_changed (HwSession *self)
{
  if (self->timer == 0)
    self->timer = g_timeout_add (WRITE_AFTER_MS, on_due_cb, self);
}

/* ---- the object ---- */

static void
hw_session_finalize (GObject *object)
{
  HwSession *self = HW_SESSION (object);
  hw_session_write (self);
  g_free (self->path);
  g_key_file_unref (self->file);
  g_ptr_array_unref (self->rows);
  G_OBJECT_CLASS (hw_session_parent_class)->finalize (object);
}

static void
hw_session_class_init (HwSessionClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_session_finalize;
}

static void
hw_session_init (HwSession *self)
{
  g_autoptr (GError) error = NULL;
  self->path = g_build_filename (g_get_user_state_dir (), "holewright", "session.ini", NULL);
  self->file = g_key_file_new ();
  self->rows = g_ptr_array_new_with_free_func (row_free);
  if (!g_key_file_load_from_file (self->file, self->path, G_KEY_FILE_NONE, &error)
      && !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    g_message ("The last session is not known: %s", error->message);
  g_auto (GStrv) lines = g_key_file_get_string_list (self->file, GROUP, "views", NULL, NULL);
  for (char **line = lines; line != NULL && *line != NULL && self->rows->len < MOST_VIEWS; line++)
    {
      Row *row = parse_row (*line);
      if (row != NULL)
        g_ptr_array_add (self->rows, row);
    }
}

HwSession *
hw_session_new (void)
{
  return g_object_new (HW_TYPE_SESSION, NULL);
}

bool
hw_session_get_size (HwSession *self, int *width_px, int *height_px, bool *is_maximized)
{
  int width = g_key_file_get_integer (self->file, GROUP, "width", NULL);
  int height = g_key_file_get_integer (self->file, GROUP, "height", NULL);
  *is_maximized = g_key_file_get_boolean (self->file, GROUP, "maximized", NULL);
  if (width < LEAST_SIDE_PX || width > MOST_SIDE_PX || height < LEAST_SIDE_PX || height > MOST_SIDE_PX)
    return false;
  *width_px = width;
  *height_px = height;
  return true;
}

void
hw_session_set_size (HwSession *self, int width_px, int height_px, bool is_maximized)
{
  g_key_file_set_integer (self->file, GROUP, "width", width_px);
  g_key_file_set_integer (self->file, GROUP, "height", height_px);
  g_key_file_set_boolean (self->file, GROUP, "maximized", is_maximized);
  session_changed (self);
}

char *
hw_session_get_word (HwSession *self, const char *key)
{
  return g_key_file_get_string (self->file, GROUP, key, NULL);
}

void
hw_session_set_word (HwSession *self, const char *key, const char *word)
{
  g_autofree char *old = hw_session_get_word (self, key);
  if (g_strcmp0 (old, word) == 0)
    return;
  g_key_file_set_string (self->file, GROUP, key, word);
  session_changed (self);
}

static int
session_find (HwSession *self, const char *path)
{
  for (guint i = 0; i < self->rows->len; i++)
    if (g_str_equal (((Row *)self->rows->pdata[i])->path, path))
      return (int)i;
  return -1;
}

bool
hw_session_get_view (HwSession *self, const char *path, const char *mode, HwSessionView *view)
{
  int i = session_find (self, path);
  const Row *row = i >= 0 ? g_ptr_array_index (self->rows, i) : NULL;
  if (row == NULL || !g_str_equal (row->mode, mode))
    return false;
  *view = row->view;
  return true;
}

void
hw_session_set_view (HwSession *self, const char *path, const char *mode, const HwSessionView *view)
{
  int i = session_find (self, path);
  if (i >= 0)
    g_ptr_array_remove_index (self->rows, (guint)i);
  if (view != NULL && is_view (view))
    {
      Row *row = g_new0 (Row, 1);
      row->path = g_strdup (path);
      row->mode = g_strdup (mode);
      row->view = *view;
      g_ptr_array_insert (self->rows, 0, row);
    }
  if (self->rows->len > MOST_VIEWS)
    g_ptr_array_set_size (self->rows, MOST_VIEWS);
  if (i >= 0 || view != NULL)
    session_changed (self);
}
