// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-desk - a list of bags, each of which made the next by one edit; a bag never changes, so what is unsaved is known by comparing. */
#include "bag-desk.h"

#include "keeper.h"

#include <glib/gi18n.h>

typedef struct
{
  Bag *bag;
  char *label; /* of the edit that made it; NULL for the first */
} Step;

struct _HwBagDesk
{
  GObject parent_instance;
  HwDocument *document;
  char *path;
  GBytes *held;     /* what the file held when it was read or saved; NULL: there is none */
  GPtrArray *steps; /* of Step */
  guint at;         /* the step that counts */
  HwKeeper *keeper;
  HwKeeping *keeping; /* NULL once the desk is left */
};

G_DEFINE_FINAL_TYPE (HwBagDesk, hw_bag_desk, G_TYPE_OBJECT)

static guint changed_signal, trouble_signal;

static void
step_free (gpointer data)
{
  Step *step = data;
  bag_unref (step->bag);
  g_free (step->label);
  g_free (step);
}

static Step *
step_new (Bag *bag, const char *label)
{
  Step *step = g_new0 (Step, 1);
  step->bag = bag;
  step->label = g_strdup (label);
  return step;
}

static Step *
step_at (HwBagDesk *self, guint i)
{
  return i < self->steps->len ? g_ptr_array_index (self->steps, i) : NULL;
}

static Level
desk_level (HwBagDesk *self)
{
  return hw_settings_get_level (hw_document_get_settings (self->document));
}

/* ---- what is on the desk ---- */

Bag *
hw_bag_desk_get_bag (HwBagDesk *self)
{
  Step *step = step_at (self, self->at);
  if (bag_level (step->bag) != desk_level (self))
    {
      Bag *filled = bag_with_level (step->bag, desk_level (self));
      bag_unref (step->bag);
      step->bag = filled;
    }
  return step->bag;
}

LengthUnit
hw_bag_desk_get_units (HwBagDesk *self)
{
  return hw_document_get_units (self->document);
}

HwDocument *
hw_bag_desk_get_document (HwBagDesk *self)
{
  return self->document;
}

int
hw_bag_desk_find (HwBagDesk *self, const char *name)
{
  const Bag *bag = hw_bag_desk_get_bag (self);
  const Club *club = bag_find (bag, name);
  for (size_t i = 0; club != NULL && i < bag_n_clubs (bag); i++)
    if (bag_club (bag, i) == club)
      return (int)i;
  return -1;
}

/* A bag that has no file yet and is just what a new one of the level is: nothing of the golfer's is in it. */
static bool
is_usual (HwBagDesk *self, GBytes *bytes)
{
  if (self->held != NULL)
    return false;
  g_autoptr (Bag) usual = bag_new_usual (_ ("new bag"), hw_bag_desk_get_units (self), desk_level (self));
  g_autoptr (GBytes) as_new = bag_write_bytes (usual);
  return g_bytes_equal (bytes, as_new);
}

/* Has the recovery copy hold what is unsaved; a bag without clubs cannot be read back, and is not missed. */
static void
keep (HwBagDesk *self)
{
  if (self->keeping == NULL)
    return;
  const Bag *bag = step_at (self, self->at)->bag;
  g_autoptr (GBytes) bytes = bag_write_bytes (bag);
  bool is_wanted = bag_n_clubs (bag) > 0 && hw_bag_desk_is_modified (self) && !is_usual (self, bytes);
  hw_keeping_set (self->keeping, is_wanted ? bytes : NULL, self->path, self->held);
}

static void
tell (HwBagDesk *self)
{
  keep (self);
  hw_document_try_bag (self->document, hw_bag_desk_get_bag (self));
  g_signal_emit (self, changed_signal, 0);
}

/* Puts a bag on the desk with nothing to undo. Takes bag and bytes. */
static void
take (HwBagDesk *self, Bag *bag, const char *path, GBytes *held)
{
  g_autofree char *kept = g_strdup (path);
  g_free (self->path);
  self->path = g_steal_pointer (&kept);
  g_clear_pointer (&self->held, g_bytes_unref);
  self->held = held;
  g_ptr_array_set_size (self->steps, 0);
  g_ptr_array_add (self->steps, step_new (bag, NULL));
  self->at = 0;
}

/* ---- files ---- */

const char *
hw_bag_desk_get_path (HwBagDesk *self)
{
  return self->path;
}

char *
hw_bag_desk_get_name (HwBagDesk *self)
{
  return self->path != NULL ? g_filename_display_basename (self->path) : g_strdup (_ ("new bag"));
}

bool
hw_bag_desk_is_modified (HwBagDesk *self)
{
  if (self->held == NULL)
    return bag_n_clubs (step_at (self, self->at)->bag) > 0;
  g_autoptr (GBytes) bytes = bag_write_bytes (step_at (self, self->at)->bag);
  return !g_bytes_equal (bytes, self->held);
}

bool
hw_bag_desk_needs_place (HwBagDesk *self)
{
  return self->path == NULL || hw_document_is_example_bag (self->document, self->path);
}

/* A bag whose messages name the file as the golfer knows it. */
static Bag *
read_bag (HwBagDesk *self, const char *path, GError **error)
{
  g_autoptr (Bag) found = bag_read_file (path, desk_level (self), error);
  if (found == NULL)
    return NULL;
  g_autofree char *name = g_filename_display_basename (path);
  g_autoptr (GBytes) bytes = bag_write_bytes (found);
  return bag_read_bytes (bytes, name, desk_level (self), error);
}

bool
hw_bag_desk_can_hold (const Bag *bag, GError **error)
{
  if (bag_n_clubs (bag) <= HW_BAG_MOST_ROWS)
    return true;
  g_set_error (error, BAG_ERROR, BAG_ERROR_FORMAT, _ ("%zu clubs are no bag to type into, at most %d are; choose another file"),
               bag_n_clubs (bag), HW_BAG_MOST_ROWS);
  return false;
}

bool
hw_bag_desk_open (HwBagDesk *self, const char *path, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path, NULL);
  Bag *bag = read_bag (self, absolute, error);
  if (bag == NULL || !hw_bag_desk_can_hold (bag, error))
    {
      bag_unref (bag);
      return false;
    }
  take (self, bag, absolute, bag_write_bytes (bag));
  hw_document_choose_bag (self->document, absolute);
  tell (self);
  return true;
}

void
hw_bag_desk_start (HwBagDesk *self, Bag *bag)
{
  take (self, bag, NULL, NULL);
  tell (self);
}

/* Puts the recovered bag on what its file holds, or in the place of a file that is gone or is no bag now. Takes the bag. */
static void
take_recovered (HwBagDesk *self, Bag *bag, const RecoveryCopy *copy)
{
  if (copy->original == NULL || !hw_bag_desk_open (self, copy->original, NULL))
    {
      bool is_gone = copy->original != NULL && !g_file_test (copy->original, G_FILE_TEST_EXISTS);
      take (self, bag, is_gone ? copy->original : NULL, NULL);
      return;
    }
  bool is_overtaken = recovery_is_overtaken (copy, self->held);
  hw_bag_desk_push (self, bag, _ ("recover unsaved work"));
  if (is_overtaken)
    {
      /* As if the file had held nothing: what another wrote since is not written over. */
      g_bytes_unref (self->held);
      self->held = g_bytes_new (NULL, 0);
    }
}

bool
hw_bag_desk_recover (HwBagDesk *self, const RecoveryCopy *copy, GError **error)
{
  g_autoptr (Bag) read = bag_read_file (copy->path, desk_level (self), error);
  if (read == NULL)
    return false;
  g_autofree char *name = copy->original != NULL ? g_filename_display_basename (copy->original) : g_strdup (_ ("new bag"));
  g_autoptr (GBytes) bytes = bag_write_bytes (read);
  Bag *bag = bag_read_bytes (bytes, name, desk_level (self), error);
  if (bag == NULL || !hw_bag_desk_can_hold (bag, error))
    {
      bag_unref (bag);
      return false;
    }
  take_recovered (self, bag, copy);
  tell (self);
  hw_keeping_take_over (self->keeping, copy->key);
  return true;
}

/* Does the file still hold what it held? One that is gone is written anew. */
static bool
is_as_it_was (HwBagDesk *self)
{
  g_autoptr (Bag) now = NULL;
  if (!g_file_test (self->path, G_FILE_TEST_EXISTS))
    return true;
  now = bag_read_file (self->path, desk_level (self), NULL);
  if (now == NULL)
    return false;
  g_autoptr (GBytes) bytes = bag_write_bytes (now);
  return g_bytes_equal (bytes, self->held);
}

bool
hw_bag_desk_save (HwBagDesk *self, const char *path, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (path != NULL ? path : self->path, NULL);
  Bag *bag = hw_bag_desk_get_bag (self);
  if (bag_n_clubs (bag) == 0)
    {
      g_set_error_literal (error, BAG_ERROR, BAG_ERROR_FORMAT, _ ("not saved: a bag needs a club; add one first"));
      return false;
    }
  if (self->held != NULL && g_strcmp0 (absolute, self->path) == 0 && !is_as_it_was (self))
    {
      g_autofree char *name = hw_bag_desk_get_name (self);
      g_set_error (
          error, BAG_ERROR, BAG_ERROR_FORMAT,
          _ ("not saved: another program has changed %s since it was opened; save under another name, or open it again"), name);
      return false;
    }
  GBytes *bytes = bag_write_bytes (bag);
  if (!svg_save_bytes (bytes, absolute, error))
    {
      g_bytes_unref (bytes);
      return false;
    }
  g_clear_pointer (&self->held, g_bytes_unref);
  self->held = bytes;
  g_free (self->path);
  self->path = g_steal_pointer (&absolute);
  hw_document_choose_bag (self->document, self->path);
  tell (self);
  return true;
}

/* ---- edits ---- */

void
hw_bag_desk_push (HwBagDesk *self, Bag *bag, const char *label)
{
  if (bag == NULL)
    return;
  g_autoptr (GBytes) before = bag_write_bytes (hw_bag_desk_get_bag (self)), after = bag_write_bytes (bag);
  if (g_bytes_equal (before, after))
    {
      bag_unref (bag);
      return;
    }
  g_ptr_array_set_size (self->steps, (gint)self->at + 1);
  g_ptr_array_add (self->steps, step_new (bag, label));
  self->at++;
  tell (self);
}

void
hw_bag_desk_undo (HwBagDesk *self)
{
  if (self->at == 0)
    return;
  self->at--;
  tell (self);
}

void
hw_bag_desk_redo (HwBagDesk *self)
{
  if (self->at + 1 >= self->steps->len)
    return;
  self->at++;
  tell (self);
}

const char *
hw_bag_desk_undo_label (HwBagDesk *self)
{
  return step_at (self, self->at)->label;
}

const char *
hw_bag_desk_redo_label (HwBagDesk *self)
{
  Step *next = step_at (self, self->at + 1);
  return next != NULL ? next->label : NULL;
}

/* ---- the object ---- */

static void
on_settings_changed_cb (HwBagDesk *self)
{
  tell (self);
}

void
hw_bag_desk_leave (HwBagDesk *self)
{
  g_signal_handlers_disconnect_by_data (hw_document_get_settings (self->document), self);
  g_clear_pointer (&self->keeping, hw_keeping_free);
  hw_document_stop_trying (self->document);
}

static void
hw_bag_desk_finalize (GObject *object)
{
  HwBagDesk *self = HW_BAG_DESK (object);
  g_clear_pointer (&self->keeping, hw_keeping_free);
  hw_keeper_free (self->keeper);
  g_free (self->path);
  g_clear_pointer (&self->held, g_bytes_unref);
  g_ptr_array_unref (self->steps);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_bag_desk_parent_class)->finalize (object);
}

static void
hw_bag_desk_class_init (HwBagDeskClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_bag_desk_finalize;
  changed_signal = g_signal_new ("changed", HW_TYPE_BAG_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  trouble_signal
      = g_signal_new ("trouble", HW_TYPE_BAG_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
on_keeper_trouble (const char *text, gpointer desk)
{
  g_signal_emit (desk, trouble_signal, 0, text);
}

static void
hw_bag_desk_init (HwBagDesk *self)
{
  self->keeper = hw_keeper_new (on_keeper_trouble, self);
  self->keeping = hw_keeping_new (self->keeper, &hw_kept_bag);
  self->steps = g_ptr_array_new_with_free_func (step_free);
}

HwBagDesk *
hw_bag_desk_new (HwDocument *document)
{
  HwBagDesk *self = g_object_new (HW_TYPE_BAG_DESK, NULL);
  self->document = g_object_ref (document);
  const char *path = hw_document_get_bag_path (document);
  Bag *bag = path != NULL ? read_bag (self, path, NULL) : NULL;
  if (bag != NULL)
    take (self, bag, path, bag_write_bytes (bag));
  else
    take (self, bag_new_usual (_ ("new bag"), hw_document_get_units (document), desk_level (self)), NULL, NULL);
  hw_document_try_bag (document, hw_bag_desk_get_bag (self));
  g_signal_connect_object (hw_document_get_settings (document), "changed", G_CALLBACK (on_settings_changed_cb), self,
                           G_CONNECT_SWAPPED);
  return self;
}
