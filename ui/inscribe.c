// SPDX-License-Identifier: GPL-3.0-or-later
/* inscribe - where the window runs from right to left a mark turns the paragraph, and the words keep their own direction within it. */
#include "inscribe.h"

/* Right-to-left mark, then first-strong isolate ... pop directional isolate (Unicode Standard Annex 9). */
#define FROM_THE_RIGHT "\u200f\u2068%s\u2069"

bool
hw_inscribe (GtkInscription *inscription, const char *text)
{
  g_autofree char *turned = NULL;
  if (text[0] != '\0' && gtk_widget_get_direction (GTK_WIDGET (inscription)) == GTK_TEXT_DIR_RTL)
    text = turned = g_strdup_printf (FROM_THE_RIGHT, text);
  if (g_strcmp0 (gtk_inscription_get_text (inscription), text) == 0)
    return false;
  gtk_inscription_set_text (inscription, text);
  return true;
}

void
hw_inscription_hold (GtkInscription *inscription, const char *const *texts, size_t n_texts)
{
  guint longest = 0;
  for (size_t i = 0; i < n_texts; i++)
    longest = MAX (longest, (guint)g_utf8_strlen (texts[i], -1));
  gtk_inscription_set_min_chars (inscription, MAX (longest, gtk_inscription_get_min_chars (inscription)));
  gtk_inscription_set_nat_chars (inscription, MAX (longest, gtk_inscription_get_nat_chars (inscription)));
}

/* ---- what is spoken ---- */

#define SPOKEN_KEY "hw-spoken"
/* What changes in every frame of a drag is told a few times in a second: nobody would hear more of it. */
#define SPOKEN_AFTER_MS 250

static gboolean
speak (gpointer data)
{
  g_autofree char *text = g_object_steal_data (data, SPOKEN_KEY);
  gtk_accessible_update_property (GTK_ACCESSIBLE (data), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  return G_SOURCE_REMOVE;
}

void
hw_speak_later (GtkWidget *widget, const char *text)
{
  if (g_object_get_data (G_OBJECT (widget), SPOKEN_KEY) == NULL)
    g_timeout_add_full (G_PRIORITY_LOW, SPOKEN_AFTER_MS, speak, g_object_ref (widget), g_object_unref);
  g_object_set_data_full (G_OBJECT (widget), SPOKEN_KEY, g_strdup (text), g_free);
}
