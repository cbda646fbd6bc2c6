// SPDX-License-Identifier: GPL-3.0-or-later
/* recovered - the list of copies, and which of them are marked to be removed. */
#include "recovered.h"

struct _HwRecovered
{
  GObject parent_instance;
  char *folder, *trouble;
  GPtrArray *copies;     /* RecoveryCopy */
  GHashTable *discarded; /* set of RecoveryCopy in `copies` */
};

G_DEFINE_FINAL_TYPE (HwRecovered, hw_recovered, G_TYPE_OBJECT)

static guint changed_signal;

static void
hw_recovered_finalize (GObject *object)
{
  HwRecovered *self = HW_RECOVERED (object);
  GHashTableIter iter;
  gpointer copy;
  g_hash_table_iter_init (&iter, self->discarded);
  while (g_hash_table_iter_next (&iter, &copy, NULL))
    {
      g_autoptr (GError) error = NULL;
      if (!recovery_discard (self->folder, ((RecoveryCopy *)copy)->key, &error))
        g_message ("%s", error->message);
    }
  g_hash_table_unref (self->discarded);
  g_ptr_array_unref (self->copies);
  g_free (self->folder);
  g_free (self->trouble);
  G_OBJECT_CLASS (hw_recovered_parent_class)->finalize (object);
}

static void
hw_recovered_class_init (HwRecoveredClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = hw_recovered_finalize;
  changed_signal = g_signal_new ("changed", HW_TYPE_RECOVERED, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_recovered_init (HwRecovered *self)
{
  g_autoptr (GError) error = NULL;
  self->folder = recovery_folder ();
  self->discarded = g_hash_table_new (NULL, NULL);
  self->copies = recovery_list (self->folder, &error);
  if (self->copies == NULL)
    {
      self->copies = g_ptr_array_new ();
      self->trouble = g_strdup (error->message);
    }
}

HwRecovered *
hw_recovered_new (void)
{
  return g_object_new (HW_TYPE_RECOVERED, NULL);
}

const char *
hw_recovered_get_trouble (HwRecovered *self)
{
  return self->trouble;
}

size_t
hw_recovered_get_n (HwRecovered *self)
{
  return self->copies->len;
}

const RecoveryCopy *
hw_recovered_get (HwRecovered *self, size_t i)
{
  return g_ptr_array_index (self->copies, i);
}

bool
hw_recovered_is_discarded (HwRecovered *self, size_t i)
{
  return g_hash_table_contains (self->discarded, g_ptr_array_index (self->copies, i));
}

void
hw_recovered_set_discarded (HwRecovered *self, size_t i, bool is_discarded)
{
  gpointer copy = g_ptr_array_index (self->copies, i);
  if (is_discarded)
    g_hash_table_add (self->discarded, copy);
  else
    g_hash_table_remove (self->discarded, copy);
  g_signal_emit (self, changed_signal, 0);
}

void
hw_recovered_remove (HwRecovered *self, size_t i)
{
  g_hash_table_remove (self->discarded, g_ptr_array_index (self->copies, i));
  g_ptr_array_remove_index (self->copies, (guint)i);
  g_signal_emit (self, changed_signal, 0);
}
