// SPDX-License-Identifier: GPL-3.0-or-later
/* settings - a key file with one group; switches that are rows of a table are kept by their names, so that new rows start as the table says. */
#include "settings.h"

#include <gio/gio.h>

#define GROUP "holewright"
/* Entries of the recent list: what fits a menu without scrolling (common practice). */
#define MOST_RECENT 8

struct _HwSettings
{
  GObject parent_instance;
  char *path;
  GKeyFile *file;
  char *bag;
  char **recent;
};

G_DEFINE_FINAL_TYPE (HwSettings, hw_settings, G_TYPE_OBJECT)

static guint changed_signal;

static const char *const style_names[HW_N_STYLES] = { "follow", "light", "dark" };

static void
settings_write (HwSettings *self)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *folder = g_path_get_dirname (self->path);
  g_mkdir_with_parents (folder, 0700);
  if (!g_key_file_save_to_file (self->file, self->path, &error))
    g_message ("Preferences were not kept: %s", error->message);
  g_signal_emit (self, changed_signal, 0);
}

static void
settings_set_string (HwSettings *self, const char *key, const char *value)
{
  g_autofree char *old = g_key_file_get_string (self->file, GROUP, key, NULL);
  if (g_strcmp0 (old, value) == 0)
    return;
  if (value != NULL)
    g_key_file_set_string (self->file, GROUP, key, value);
  else
    g_key_file_remove_key (self->file, GROUP, key, NULL);
  settings_write (self);
}

/* Rows off and on are kept as two lists of names; a row in neither list is as `defaults` says. */
static unsigned
settings_get_mask (HwSettings *self, const char *key, const char *(*row_name) (size_t row), unsigned defaults)
{
  g_autofree char *key_on = g_strconcat (key, "-on", NULL);
  g_autofree char *key_off = g_strconcat (key, "-off", NULL);
  g_auto (GStrv) on = g_key_file_get_string_list (self->file, GROUP, key_on, NULL, NULL);
  g_auto (GStrv) off = g_key_file_get_string_list (self->file, GROUP, key_off, NULL, NULL);
  unsigned mask = defaults;
  for (size_t row = 0; row_name (row) != NULL; row++)
    {
      if (on != NULL && g_strv_contains ((const char *const *)on, row_name (row)))
        mask |= 1u << row;
      if (off != NULL && g_strv_contains ((const char *const *)off, row_name (row)))
        mask &= ~(1u << row);
    }
  return mask;
}

static void
settings_set_mask (HwSettings *self, const char *key, const char *(*row_name) (size_t row), unsigned mask)
{
  g_autofree char *key_on = g_strconcat (key, "-on", NULL);
  g_autofree char *key_off = g_strconcat (key, "-off", NULL);
  g_autoptr (GPtrArray) on = g_ptr_array_new ();
  g_autoptr (GPtrArray) off = g_ptr_array_new ();
  for (size_t row = 0; row_name (row) != NULL; row++)
    g_ptr_array_add (mask & (1u << row) ? on : off, (gpointer)row_name (row));
  g_key_file_set_string_list (self->file, GROUP, key_on, (const char *const *)on->pdata, on->len);
  g_key_file_set_string_list (self->file, GROUP, key_off, (const char *const *)off->pdata, off->len);
  settings_write (self);
}

static const char *
overlay_name (size_t row)
{
  return overlay_table[row].name;
}

static const char *
card_block_name (size_t row)
{
  return card_block_table[row].name;
}

static void
hw_settings_finalize (GObject *object)
{
  HwSettings *self = HW_SETTINGS (object);
  g_free (self->path);
  g_key_file_unref (self->file);
  g_free (self->bag);
  g_strfreev (self->recent);
  G_OBJECT_CLASS (hw_settings_parent_class)->finalize (object);
}

static void
hw_settings_class_init (HwSettingsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_settings_finalize;
  changed_signal = g_signal_new ("changed", HW_TYPE_SETTINGS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_settings_init (HwSettings *self)
{
  self->file = g_key_file_new ();
}

HwSettings *
hw_settings_new (const char *path)
{
  HwSettings *self = g_object_new (HW_TYPE_SETTINGS, NULL);
  g_autoptr (GError) error = NULL;
  self->path = path != NULL ? g_strdup (path) : g_build_filename (g_get_user_config_dir (), "holewright", "settings.ini", NULL);
  if (!g_key_file_load_from_file (self->file, self->path, G_KEY_FILE_KEEP_COMMENTS, &error)
      && !g_error_matches (error, G_FILE_ERROR, G_FILE_ERROR_NOENT))
    g_message ("Preferences start from their defaults: %s", error->message);
  self->bag = g_key_file_get_string (self->file, GROUP, "bag", NULL);
  self->recent = g_key_file_get_string_list (self->file, GROUP, "recent", NULL, NULL);
  return self;
}

LengthUnit
hw_settings_get_units (HwSettings *self)
{
  LengthUnit units = UNIT_YARDS;
  g_autofree char *text = g_key_file_get_string (self->file, GROUP, "units", NULL);
  if (text != NULL)
    unit_parse (text, &units);
  return units;
}

void
hw_settings_set_units (HwSettings *self, LengthUnit units)
{
  settings_set_string (self, "units", units == UNIT_METRES ? "metres" : "yards");
}

Level
hw_settings_get_level (HwSettings *self)
{
  Level level = LEVEL_SCRATCH_MEN;
  g_autofree char *text = g_key_file_get_string (self->file, GROUP, "level", NULL);
  if (text != NULL)
    level_from_token (text, &level);
  return level;
}

void
hw_settings_set_level (HwSettings *self, Level level)
{
  settings_set_string (self, "level", level_token (level));
}

const char *
hw_settings_get_bag (HwSettings *self)
{
  return self->bag;
}

void
hw_settings_set_bag (HwSettings *self, const char *path)
{
  char *copy = g_strdup (path);
  g_free (self->bag);
  self->bag = copy;
  settings_set_string (self, "bag", copy);
}

HwStyle
hw_settings_get_style (HwSettings *self)
{
  g_autofree char *text = g_key_file_get_string (self->file, GROUP, "style", NULL);
  for (int style = 0; style < HW_N_STYLES; style++)
    if (g_strcmp0 (text, style_names[style]) == 0)
      return (HwStyle)style;
  return HW_STYLE_FOLLOW;
}

void
hw_settings_set_style (HwSettings *self, HwStyle style)
{
  settings_set_string (self, "style", style_names[style]);
}

unsigned
hw_settings_get_overlays (HwSettings *self)
{
  return settings_get_mask (self, "overlays", overlay_name, overlay_default_mask ());
}

void
hw_settings_set_overlays (HwSettings *self, unsigned mask)
{
  settings_set_mask (self, "overlays", overlay_name, mask);
}

CardPage
hw_settings_get_card_page (HwSettings *self)
{
  CardPage page = CARD_POCKET;
  g_autofree char *text = g_key_file_get_string (self->file, GROUP, "card-page", NULL);
  if (text != NULL)
    card_page_from_token (text, &page);
  return page;
}

void
hw_settings_set_card_page (HwSettings *self, CardPage page)
{
  settings_set_string (self, "card-page", card_page_info (page)->token);
}

unsigned
hw_settings_get_card_blocks (HwSettings *self)
{
  return settings_get_mask (self, "card-blocks", card_block_name, card_all_blocks ());
}

void
hw_settings_set_card_blocks (HwSettings *self, unsigned mask)
{
  settings_set_mask (self, "card-blocks", card_block_name, mask);
}

const char *const *
hw_settings_get_recent (HwSettings *self)
{
  static const char *const none[] = { NULL };
  return self->recent != NULL ? (const char *const *)self->recent : none;
}

void
hw_settings_add_recent (HwSettings *self, const char *path)
{
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_strv_builder_add (builder, path);
  int n = 1;
  for (char **old = self->recent; old != NULL && *old != NULL && n < MOST_RECENT; old++)
    if (g_strcmp0 (*old, path) != 0)
      {
        g_strv_builder_add (builder, *old);
        n++;
      }
  g_strfreev (self->recent);
  self->recent = g_strv_builder_end (builder);
  g_key_file_set_string_list (self->file, GROUP, "recent", (const char *const *)self->recent, (gsize)n);
  settings_write (self);
}
