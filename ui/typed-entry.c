// SPDX-License-Identifier: GPL-3.0-or-later
/* typed-entry - remembers what it was told to show, so that it knows what was typed. */
#include "typed-entry.h"

/* Room for "1234.5 yd"; it grows where there is more. */
#define WIDTH_CHARS 7

struct _HwTypedEntry
{
  GtkWidget parent_instance;
  GtkWidget *entry;
  char *shown;
  HwTypedTake take;
  gpointer owner;
  guint which;
  bool is_taking;
};

G_DEFINE_FINAL_TYPE (HwTypedEntry, hw_typed_entry, GTK_TYPE_WIDGET)

static const char *
text_in (HwTypedEntry *self)
{
  return gtk_editable_get_text (GTK_EDITABLE (self->entry));
}

static void
mark (HwTypedEntry *self, bool is_wrong)
{
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_STATE_INVALID,
                               is_wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
  if (is_wrong)
    gtk_widget_add_css_class (self->entry, "error");
  else
    gtk_widget_remove_css_class (self->entry, "error");
}

/* Takes what was typed, if it is another text than shown; true when nothing is wrong. */
static bool
take_typed (HwTypedEntry *self)
{
  g_autofree char *text = g_strstrip (g_strdup (text_in (self)));
  if (self->is_taking)
    return true;
  self->is_taking = true;
  bool is_right = g_str_equal (text, self->shown) || self->take (self->owner, self->which, text);
  self->is_taking = false;
  mark (self, !is_right);
  if (is_right)
    hw_typed_entry_revert (self);
  return is_right;
}

static void
on_activate_cb (HwTypedEntry *self)
{
  take_typed (self);
}

static void
on_leave_cb (HwTypedEntry *self)
{
  if (!take_typed (self))
    hw_typed_entry_revert (self);
}

static gboolean
on_key_pressed_cb (HwTypedEntry *self, guint keyval)
{
  bool is_typing = !g_str_equal (text_in (self), self->shown);
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  hw_typed_entry_revert (self);
  self->take (self->owner, self->which, NULL);
  return is_typing ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
}

static bool
has_letters (const char *text)
{
  for (; *text != '\0'; text = g_utf8_next_char (text))
    if (g_unichar_isalpha (g_utf8_get_char (text)))
      return true;
  return false;
}

/* Numbers alone read from left to right everywhere; else the sign of "-14" would stand behind it where the window runs the other way. */
static void
turn (HwTypedEntry *self, const char *text)
{
  bool turns = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL && text[0] != '\0' && !has_letters (text);
  gtk_widget_set_direction (gtk_widget_get_first_child (self->entry), turns ? GTK_TEXT_DIR_LTR : GTK_TEXT_DIR_NONE);
  gtk_entry_set_alignment (GTK_ENTRY (self->entry), turns ? 1 : 0);
}

void
hw_typed_entry_show (HwTypedEntry *self, const char *text, const char *hint)
{
  bool is_typing
      = gtk_widget_has_focus (gtk_widget_get_first_child (self->entry)) && !g_str_equal (text_in (self), self->shown);
  if (g_strcmp0 (gtk_entry_get_placeholder_text (GTK_ENTRY (self->entry)), hint) != 0)
    gtk_entry_set_placeholder_text (GTK_ENTRY (self->entry), hint);
  if (!g_str_equal (self->shown, text))
    {
      g_free (self->shown);
      self->shown = g_strdup (text);
    }
  if (!g_str_equal (text_in (self), text))
    turn (self, text);
  if (!is_typing && !g_str_equal (text_in (self), text))
    gtk_editable_set_text (GTK_EDITABLE (self->entry), text);
}

void
hw_typed_entry_revert (HwTypedEntry *self)
{
  mark (self, false);
  if (!g_str_equal (text_in (self), self->shown))
    gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
}

static void
hw_typed_entry_dispose (GObject *object)
{
  HwTypedEntry *self = HW_TYPED_ENTRY (object);
  self->is_taking = true;
  g_clear_pointer (&self->entry, gtk_widget_unparent);
  G_OBJECT_CLASS (hw_typed_entry_parent_class)->dispose (object);
}

static void
hw_typed_entry_finalize (GObject *object)
{
  g_free (HW_TYPED_ENTRY (object)->shown);
  G_OBJECT_CLASS (hw_typed_entry_parent_class)->finalize (object);
}

static void
hw_typed_entry_class_init (HwTypedEntryClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_typed_entry_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_typed_entry_finalize;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
hw_typed_entry_init (HwTypedEntry *self)
{
  self->shown = g_strdup ("");
  self->entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (self->entry), WIDTH_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (self->entry), WIDTH_CHARS);
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  g_signal_connect_swapped (self->entry, "activate", G_CALLBACK (on_activate_cb), self);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect_object (focus, "leave", G_CALLBACK (on_leave_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->entry, focus);
  GtkEventController *keys = gtk_event_controller_key_new ();
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (on_key_pressed_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (self->entry, keys);
}

GtkWidget *
hw_typed_entry_new (const char *name, HwTypedTake take, gpointer owner, guint which)
{
  HwTypedEntry *self = g_object_new (HW_TYPE_TYPED_ENTRY, NULL);
  self->take = take;
  self->owner = owner;
  self->which = which;
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_tooltip_text (self->entry, name);
  return GTK_WIDGET (self);
}
