// SPDX-License-Identifier: GPL-3.0-or-later
/* What a part of a hole is called in the middle of a sentence. */
#include "odds.h"

#include <glib/gi18n.h>

char *
part_words (const Part *part, Translate translate)
{
  const char *name = part->name;
  if (name == NULL || *name == '\0')
    return g_strdup_printf (translate (N_ ("the %s")), translate (kind_info (part->kind)->label));
  /* Names that begin with an article or a capital stand alone. */
  if (g_ascii_strncasecmp (name, "the ", 4) == 0 || g_unichar_isupper (g_utf8_get_char_validated (name, -1)))
    return g_strdup (name);
  return g_strdup_printf (translate (N_ ("the %s")), name);
}
