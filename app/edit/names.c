// SPDX-License-Identifier: GPL-3.0-or-later
/* Names: what may stand in one, and what the next tee marker or hole location is called. */
#include "edit-private.h"

/* May a character stand in an XML document? (Extensible Markup Language 1.0, production 2; white space aside.) */
static bool
is_written (gunichar c)
{
  return (c >= 0x20 && c <= 0xD7FF) || (c >= 0xE000 && c <= 0xFFFD) || (c >= 0x10000 && c <= 0x10FFFF);
}

char *
clean_text (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text ? text : "", -1);
  GString *clean = g_string_new (NULL);
  for (const char *c = valid; *c; c = g_utf8_next_char (c))
    {
      gunichar character = g_utf8_get_char (c);
      if (is_written (character) && character != ' ' && character != 0x7F)
        g_string_append_unichar (clean, character);
      else if (clean->len > 0 && clean->str[clean->len - 1] != ' ')
        g_string_append_c (clean, ' ');
    }
  if (clean->len > 0 && clean->str[clean->len - 1] == ' ')
    g_string_truncate (clean, clean->len - 1);
  return g_string_free (clean, clean->len == 0);
}

static bool
is_used (Kind kind, const char *name, const Part *const *others, size_t n_others)
{
  for (size_t i = 0; i < n_others; i++)
    if (others[i]->kind == kind && others[i]->name && g_ascii_strcasecmp (others[i]->name, name) == 0)
      return true;
  return false;
}

/* Common practice: tees from the back by colour, hole locations by where they are cut. */
static const char *const tee_names[] = { "white", "yellow", "red", "blue", "black", "green", NULL };
static const char *const hole_names[] = { "front", "middle", "back", NULL };
static const char *const mark_names[] = { "A", "B", "C", "D", "E", "F", "G", "H", NULL };

static const struct
{
  Kind kind;
  const char *const *names;
  const char *stem; /* after those: this and a number */
} name_rows[] = {
  { KIND_TEE_MARKER, tee_names, "tee" },
  { KIND_HOLE_LOCATION, hole_names, "hole" },
  { KIND_MARK, mark_names, "mark" },
};

char *
next_free_name (Kind kind, const Part *const *others, size_t n_others)
{
  for (size_t r = 0; r < G_N_ELEMENTS (name_rows); r++)
    {
      if (name_rows[r].kind != kind)
        continue;
      size_t n = 0;
      for (; name_rows[r].names[n]; n++)
        if (!is_used (kind, name_rows[r].names[n], others, n_others))
          return g_strdup (name_rows[r].names[n]);
      for (;; n++)
        {
          g_autofree char *name = g_strdup_printf ("%s %zu", name_rows[r].stem, n + 1);
          if (!is_used (kind, name, others, n_others))
            return g_steal_pointer (&name);
        }
    }
  return NULL;
}

char *
other_name (const Part *part, const Part *const *others, size_t n_others)
{
  bool is_free = part->name && !is_used (part->kind, part->name, others, n_others);
  return is_free ? NULL : next_free_name (part->kind, others, n_others);
}
