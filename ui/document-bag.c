// SPDX-License-Identifier: GPL-3.0-or-later
/* document-bag - which file of clubs the hole in hand is planned with, which others there are, and a bag that is tried while it is edited. */
#include "document-private.h"


/* The bag that a folder's holes are planned with unless another is chosen. */
#define BAG_FILE "bag.csv"

/* Folder of the hole in hand; NULL for a drawing without a file. */
static char *
document_folder (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL && sheet->path != NULL ? g_path_get_dirname (sheet->path) : NULL;
}

/* The bag file that counts where none is preferred: the one beside the hole, else the example's. NULL if there is none. */
static char *
document_usual_bag (HwDocument *self)
{
  g_autofree char *folder = document_folder (self);
  if (folder != NULL)
    {
      g_autofree char *beside = g_build_filename (folder, BAG_FILE, NULL);
      if (g_file_test (beside, G_FILE_TEST_IS_REGULAR) && g_strcmp0 (beside, self->bag_failed) != 0)
        return g_steal_pointer (&beside);
    }
  return self->example != NULL ? g_build_filename (self->example, BAG_FILE, NULL) : NULL;
}

/* The bag file for the hole in hand. */
static char *
document_find_bag (HwDocument *self)
{
  const char *preferred = hw_settings_get_bag (self->settings);
  if (preferred != NULL && g_strcmp0 (preferred, self->bag_failed) != 0)
    return g_strdup (preferred);
  return document_usual_bag (self);
}

static void
document_say_bag_warnings (HwDocument *self)
{
  for (const char *const *warning = bag_warnings (self->bag); *warning != NULL; warning++)
    hw_document_say (self, *warning);
}

/* Is the bag in hand what its file holds, as far as that can be read? */
static bool
document_has_bag (HwDocument *self, const char *path, Level level)
{
  if (self->bag == NULL || level != self->bag_level || g_strcmp0 (path, self->bag_path) != 0)
    return false;
  g_autoptr (Bag) now = bag_read_file (path, level, NULL);
  if (now == NULL)
    return true;
  g_autoptr (GBytes) held = bag_write_bytes (self->bag), found = bag_write_bytes (now);
  return g_bytes_equal (held, found);
}

void
hw_document_load_bag (HwDocument *self)
{
  g_autofree char *path = document_find_bag (self);
  Level level = hw_settings_get_level (self->settings);
  if (self->is_trying_bag || path == NULL || document_has_bag (self, path, level))
    return;
  g_autoptr (GError) error = NULL;
  Bag *bag = bag_read_file (path, level, &error);
  if (bag == NULL)
    {
      bool tried_before = g_strcmp0 (self->bag_failed, path) == 0;
      hw_document_say (self, error->message);
      if (tried_before)
        return;
      g_free (self->bag_failed);
      self->bag_failed = g_steal_pointer (&path);
      hw_document_load_bag (self);
      return;
    }
  g_clear_pointer (&self->bag, bag_unref);
  g_free (self->bag_path);
  self->bag = bag;
  self->bag_path = g_steal_pointer (&path);
  self->bag_level = level;
  document_say_bag_warnings (self);
}

const char *
hw_document_get_bag_path (HwDocument *self)
{
  return self->bag_path;
}

char *
hw_document_get_bag_folder (HwDocument *self)
{
  return hw_document_is_example (self) ? NULL : document_folder (self);
}

bool
hw_document_is_example_bag (HwDocument *self, const char *path)
{
  g_autofree char *folder = g_path_get_dirname (path);
  return self->example != NULL && g_strcmp0 (folder, self->example) == 0;
}

GPtrArray *
hw_document_list_bags (HwDocument *self)
{
  g_autofree char *folder = document_folder (self);
  GPtrArray *paths = folder != NULL ? bag_list_folder (folder) : g_ptr_array_new_with_free_func (g_free);
  if (self->bag_path != NULL && !g_ptr_array_find_with_equal_func (paths, self->bag_path, g_str_equal, NULL))
    g_ptr_array_add (paths, g_strdup (self->bag_path));
  return paths;
}

void
hw_document_choose_bag (HwDocument *self, const char *path)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);
  g_clear_pointer (&self->bag_failed, g_free);
  g_autofree char *usual = document_usual_bag (self);
  if (self->is_trying_bag)
    {
      g_free (self->bag_path);
      self->bag_path = g_strdup (absolute);
    }
  hw_settings_set_bag (self->settings, g_strcmp0 (absolute, usual) == 0 ? NULL : absolute);
}

void
hw_document_try_bag (HwDocument *self, Bag *bag)
{
  bag_ref (bag);
  g_clear_pointer (&self->bag, bag_unref);
  self->bag = bag;
  self->bag_level = bag_level (bag);
  self->is_trying_bag = true;
  hw_document_compute (self);
  hw_document_emit (self, HW_DOCUMENT_RESULTS_CHANGED);
}

void
hw_document_stop_trying (HwDocument *self)
{
  if (!self->is_trying_bag)
    return;
  self->is_trying_bag = false;
  g_clear_pointer (&self->bag_path, g_free);
  hw_document_load_bag (self);
  hw_document_compute (self);
  hw_document_emit (self, HW_DOCUMENT_RESULTS_CHANGED);
}
