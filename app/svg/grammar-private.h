// SPDX-License-Identifier: GPL-3.0-or-later
/* grammar - what the readers of path data, point lists and transforms share within this module. */
#ifndef HOLEWRIGHT_SVG_GRAMMAR_PRIVATE_H
#define HOLEWRIGHT_SVG_GRAMMAR_PRIVATE_H

#include "svg.h"

typedef enum
{
  PATH_GOOD,
  PATH_MISTAKE, /* breaks the grammar */
  PATH_TOO_LONG /* more segments than allowed */
} PathVerdict;

/* Path data as svg_parse_path, telling a mistake from too much. */
PathVerdict path_grammar_read (const char *text, Path *path, size_t most_segments, size_t *offset);
/* The points attribute of polygon and polyline: straight lines between pairs of numbers, not closed. */
PathVerdict points_grammar_read (const char *text, Path *path, size_t most_segments, size_t *offset);
/* Path data and point lists with a fixed number of decimals, zeros at the end dropped. Free with g_free. */
char *path_print (const Path *path, int decimals);
char *points_print (const Path *path, int decimals);

#endif
