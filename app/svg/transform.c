// SPDX-License-Identifier: GPL-3.0-or-later
/* Transform lists (SVG 1.1, section 7.6). */
#include "number-private.h"
#include "svg.h"
#include "units.h"

#include <string.h>

/* Most numbers in one transform: matrix. */
#define MOST_NUMBERS 6

typedef struct
{
  const char *name;
  const char *counts; /* how many numbers it may have, one digit each */
  Affine (*make) (const double *a, int n);
} TransformRow;

static Affine
make_matrix (const double *a, int n)
{
  return (Affine){ a[0], a[1], a[2], a[3], a[4], a[5] };
}

static Affine
make_translate (const double *a, int n)
{
  return affine_translation (a[0], n > 1 ? a[1] : 0);
}

static Affine
make_scale (const double *a, int n)
{
  return affine_scaling (a[0], n > 1 ? a[1] : a[0]);
}

static Affine
make_rotate (const double *a, int n)
{
  Affine turn = affine_rotation (units_radians (a[0]));
  if (n == 1)
    return turn;
  return affine_then (affine_then (affine_translation (-a[1], -a[2]), turn), affine_translation (a[1], a[2]));
}

static Affine
make_skew_x (const double *a, int n)
{
  return (Affine){ 1, 0, tan (units_radians (a[0])), 1, 0, 0 };
}

static Affine
make_skew_y (const double *a, int n)
{
  return (Affine){ 1, tan (units_radians (a[0])), 0, 1, 0, 0 };
}

static const TransformRow rows[] = {
  { "matrix", "6", make_matrix },  { "translate", "12", make_translate }, { "scale", "12", make_scale },
  { "rotate", "13", make_rotate }, { "skewX", "1", make_skew_x },         { "skewY", "1", make_skew_y },
};

/* One "name(numbers)". */
static bool
take_transform (const char **cursor, Affine *transform)
{
  size_t length = strspn (*cursor, "abcdefghijklmnopqrstuvwxyzXY");
  const TransformRow *row = NULL;
  for (size_t i = 0; i < sizeof rows / sizeof *rows && !row; i++)
    if (strlen (rows[i].name) == length && strncmp (rows[i].name, *cursor, length) == 0)
      row = &rows[i];
  if (!row)
    return false;
  *cursor += length;
  number_skip_space (cursor);
  if (*(*cursor)++ != '(')
    return false;
  double a[MOST_NUMBERS];
  int n = 0;
  number_skip_space (cursor);
  for (bool more = true; more; n++)
    {
      if (n == MOST_NUMBERS || !number_scan (cursor, &a[n]))
        return false;
      number_skip_space (cursor);
      more = **cursor != ')';
      if (more)
        number_skip_comma (cursor);
    }
  if (!strchr (row->counts, '0' + n))
    return false;
  ++*cursor;
  *transform = row->make (a, n);
  return affine_is_finite (*transform);
}

bool
svg_parse_transform (const char *text, Affine *transform)
{
  Affine all = affine_identity ();
  number_skip_space (&text);
  while (*text)
    {
      Affine one;
      if (!take_transform (&text, &one))
        return false;
      all = affine_then (one, all); /* the last in the list is applied first */
      number_skip_comma (&text);
    }
  if (!affine_is_finite (all))
    return false;
  *transform = all;
  return true;
}
