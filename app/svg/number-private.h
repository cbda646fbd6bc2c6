// SPDX-License-Identifier: GPL-3.0-or-later
/* number - SVG's own grammar of numbers (SVG 1.1, sections 4.2 and 8.3.9), read without the locale. */
#ifndef HOLEWRIGHT_SVG_NUMBER_PRIVATE_H
#define HOLEWRIGHT_SVG_NUMBER_PRIVATE_H

#include <stdbool.h>

/* Largest size of a number as written: far beyond any drawing, small enough that no sum or product of two overflows. */
#define NUMBER_LARGEST 1e12

/*
 * Reads the longest number at `*cursor` (no space before it) and moves `*cursor` past it: optional sign, digits, at most one point, an
 * exponent if digits follow its e. Correctly rounded. False, with `*cursor` unmoved, for anything else and beyond NUMBER_LARGEST.
 */
bool number_scan (const char **cursor, double *value);
/* As number_scan for the whole text, white space around allowed. */
bool number_read (const char *text, double *value);
/* Space, tab, line feed, carriage return. */
bool number_is_space (char c);
void number_skip_space (const char **cursor);
/* Skips white space and at most one comma. */
void number_skip_comma (const char **cursor);

#endif
