// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of units share among themselves: small steps over text. */
#ifndef HOLEWRIGHT_NUMBER_PRIVATE_H
#define HOLEWRIGHT_NUMBER_PRIVATE_H

#include "units.h"

/* `text` past its spaces and tabs. */
static inline const char *
skip_blanks (const char *text)
{
  while (*text == ' ' || *text == '\t' || *text == '\n' || *text == '\r')
    text++;
  return text;
}

static inline bool
is_digit (char c)
{
  return c >= '0' && c <= '9';
}

/* A row of words that mean the same thing. */
typedef struct
{
  const char *word;
  double factor;
} UnitWord;

/*
 * The row whose word `text` begins with, whole and in any case of letters, and the text behind it in `*rest`; NULL when there
 * is none. The table ends with a NULL word; a longer word stands before its beginnings.
 */
const UnitWord *match_unit_word (const UnitWord *table, const char *text, const char **rest);

#endif
