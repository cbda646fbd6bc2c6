// SPDX-License-Identifier: GPL-3.0-or-later
/* recovered-bar - fills the list from the copies, and puts it away when nothing is left or the golfer says later. */
#include "recovered-bar.h"

#include <glib/gi18n.h>

struct _HwRecoveredBar
{
  GtkWidget parent_instance;
  HwRecovered *recovered;
  GtkWidget *content;
  GtkButton *later_button;
  GtkListBox *list;
};

G_DEFINE_FINAL_TYPE (HwRecoveredBar, hw_recovered_bar, GTK_TYPE_WIDGET)

static guint open_signal;

/* ---- words ---- */

/* "13:05" today, else with the day, as the golfer's locale writes them. */
static char *
print_time (gint64 time_s)
{
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autoptr (GDateTime) time = g_date_time_new_from_unix_local (time_s);
  if (time == NULL)
    return g_strdup (_ ("at an unknown time"));
  bool is_today = g_date_time_get_year (now) == g_date_time_get_year (time)
                  && g_date_time_get_day_of_year (now) == g_date_time_get_day_of_year (time);
  return g_date_time_format (time, is_today ? _ ("today at %H:%M") : _ ("%e %B %Y at %H:%M"));
}

static char *
print_title (const RecoveryCopy *copy)
{
  g_autofree char *file = copy->original != NULL ? g_filename_display_basename (copy->original) : NULL;
  if (copy->is_bag)
    return file != NULL ? g_strdup_printf (_ ("Bag %s"), file) : g_strdup (_ ("A bag without a name"));
  if (copy->title != NULL && copy->title[0] != '\0')
    return g_strdup (copy->title);
  return file != NULL ? g_steal_pointer (&file) : g_strdup (_ ("A hole without a name"));
}

/* Which file it belongs to, and when it was kept. */
static char *
print_facts (const RecoveryCopy *copy, bool is_discarded)
{
  g_autofree char *time = print_time (copy->time_s);
  g_autofree char *file = copy->original != NULL ? g_filename_display_basename (copy->original) : g_strdup (_ ("never saved"));
  return is_discarded ? g_strdup_printf (_ ("%s, %s; discarded when the program ends"), file, time)
                      : g_strdup_printf ("%s, %s", file, time);
}

/* ---- rows ---- */

static guint
row_of (GtkButton *button)
{
  return GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "row"));
}

static void
on_open_cb (HwRecoveredBar *self, GtkButton *button)
{
  g_signal_emit (self, open_signal, 0, row_of (button));
}

static void
on_discard_cb (HwRecoveredBar *self, GtkButton *button)
{
  guint row = row_of (button);
  hw_recovered_set_discarded (self->recovered, row, !hw_recovered_is_discarded (self->recovered, row));
}

/* `spoken` is "Open %s": what a screen reader says of the button. */
static void
add_button (HwRecoveredBar *self, GtkWidget *box, const char *label, const char *spoken, const char *title, guint row,
            void (*clicked) (HwRecoveredBar *, GtkButton *))
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *name = g_strdup_printf (spoken, title);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data (G_OBJECT (button), "row", GUINT_TO_POINTER (row));
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), self);
  gtk_box_append (GTK_BOX (box), button);
}

static GtkWidget *
words_new (const char *title, const char *facts)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  const char *texts[] = { title, facts }, *classes[] = { "strong", "caption" };
  for (int i = 0; i < 2; i++)
    {
      GtkWidget *label = gtk_label_new (texts[i]);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
      gtk_widget_set_tooltip_text (label, texts[i]);
      gtk_widget_add_css_class (label, classes[i]);
      gtk_box_append (GTK_BOX (words), label);
    }
  gtk_widget_set_hexpand (words, TRUE);
  return words;
}

static void
add_row (HwRecoveredBar *self, guint i)
{
  const RecoveryCopy *copy = hw_recovered_get (self->recovered, i);
  bool is_discarded = hw_recovered_is_discarded (self->recovered, i);
  g_autofree char *title = print_title (copy);
  g_autofree char *facts = print_facts (copy, is_discarded);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_box_append (GTK_BOX (box), words_new (title, facts));
  if (is_discarded)
    add_button (self, box, _ ("Keep"), _ ("Keep %s after all"), title, i, on_discard_cb);
  else
    {
      add_button (self, box, _ ("Open"), _ ("Open %s as it was"), title, i, on_open_cb);
      add_button (self, box, _ ("Discard"), _ ("Discard %s"), title, i, on_discard_cb);
    }
  gtk_list_box_append (self->list, box);
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int)i);
  g_autofree char *spoken = g_strdup_printf ("%s, %s", title, facts);
  gtk_list_box_row_set_activatable (row, FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (row), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
on_changed_cb (HwRecoveredBar *self)
{
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; i < hw_recovered_get_n (self->recovered); i++)
    add_row (self, i);
  if (hw_recovered_get_n (self->recovered) == 0)
    gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

static void
on_later_cb (HwRecoveredBar *self)
{
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
}

/* ---- the widget ---- */

static void
hw_recovered_bar_dispose (GObject *object)
{
  HwRecoveredBar *self = HW_RECOVERED_BAR (object);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_RECOVERED_BAR);
  g_clear_object (&self->recovered);
  G_OBJECT_CLASS (hw_recovered_bar_parent_class)->dispose (object);
}

static void
hw_recovered_bar_class_init (HwRecoveredBarClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_recovered_bar_dispose;
  open_signal
      = g_signal_new ("open", HW_TYPE_RECOVERED_BAR, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/recovered-bar.ui");
  gtk_widget_class_bind_template_child (widget_class, HwRecoveredBar, content);
  gtk_widget_class_bind_template_child (widget_class, HwRecoveredBar, later_button);
  gtk_widget_class_bind_template_child (widget_class, HwRecoveredBar, list);
}

static void
hw_recovered_bar_init (HwRecoveredBar *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect_swapped (self->later_button, "clicked", G_CALLBACK (on_later_cb), self);
}

void
hw_recovered_bar_set_recovered (HwRecoveredBar *self, HwRecovered *recovered)
{
  self->recovered = g_object_ref (recovered);
  g_signal_connect_object (recovered, "changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
  on_changed_cb (self);
}
