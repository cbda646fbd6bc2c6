// SPDX-License-Identifier: GPL-3.0-or-later
/* sentence - a capital where the language has any, and a full stop where nothing ends the text. */
#include "sentence.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <stdbool.h>
#include <string.h>

char *
hw_sentence (const char *text)
{
  const char *said = text[0] != '\0' ? _ (text) : text;
  if (said[0] == '\0')
    return g_strdup (said);
  const char *rest = g_utf8_next_char (said);
  bool ends = strchr (".!?", said[strlen (said) - 1]) != NULL;
  GString *sentence = g_string_new (NULL);
  g_string_append_unichar (sentence, g_unichar_toupper (g_utf8_get_char (said)));
  g_string_append (sentence, rest);
  if (!ends)
    g_string_append_c (sentence, '.');
  return g_string_free (sentence, FALSE);
}

/* No unit is longer. */
#define LONGEST_UNIT 3
#define NO_BREAK_SPACE "\u00a0"

char *
hw_unbroken (const char *text)
{
  GString *unbroken = g_string_new (NULL);
  for (const char *c = text; *c != '\0'; c++)
    {
      bool is_unit = *c == ' ' && c > text && g_ascii_isdigit (c[-1]) && strcspn (c + 1, " .,;:)") <= LONGEST_UNIT;
      if (is_unit)
        g_string_append (unbroken, NO_BREAK_SPACE);
      else
        g_string_append_c (unbroken, *c);
    }
  return g_string_free (unbroken, FALSE);
}

const char *
hw_translated (const char *text)
{
  return _ (text);
}
