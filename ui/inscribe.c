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
/* What changes at every frame of a drag is told when it rests, or now and then if it does not: nobody would hear more of it. */
#define REST_US 250000
#define LONGEST_US 2000000
#define LOOK_MS 125

/* What is still to be told of a widget, and since when. */
typedef struct
{
  char *text;
  gint64 first_us, last_us;
} Spoken;

static void
spoken_free (gpointer data)
{
  Spoken *spoken = data;
  g_free (spoken->text);
  g_free (spoken);
}

static gboolean
speak (gpointer widget)
{
  Spoken *spoken = g_object_get_data (widget, SPOKEN_KEY);
  gint64 now_us = g_get_monotonic_time ();
  if (now_us - spoken->last_us < REST_US && now_us - spoken->first_us < LONGEST_US)
    return G_SOURCE_CONTINUE;
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken->text, -1);
  g_object_set_data (widget, SPOKEN_KEY, NULL);
  return G_SOURCE_REMOVE;
}

void
hw_speak_later (GtkWidget *widget, const char *text)
{
  Spoken *spoken = g_object_get_data (G_OBJECT (widget), SPOKEN_KEY);
  gint64 now_us = g_get_monotonic_time ();
  if (spoken == NULL)
    {
      spoken = g_new0 (Spoken, 1);
      spoken->first_us = now_us;
      g_object_set_data_full (G_OBJECT (widget), SPOKEN_KEY, spoken, spoken_free);
      g_timeout_add_full (G_PRIORITY_LOW, LOOK_MS, speak, g_object_ref (widget), g_object_unref);
    }
  spoken->last_us = now_us;
  g_free (spoken->text);
  spoken->text = g_strdup (text);
}
