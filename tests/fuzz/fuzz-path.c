// SPDX-License-Identifier: GPL-3.0-or-later
/* Path data: whatever is read is finite, and printing and reading it again changes nothing by more than a millimetre. */
#include "fuzz.h"
#include "svg.h"

#include <glib.h>
#include <string.h>

enum
{
  MOST_SEGMENTS = 5000
};

/* Longest distance that rounding both coordinates to a millimetre moves a point. */
#define ROUNDING_M 0.00071

static bool
is_small (Vec2 point)
{
  return fabs (point.x) <= SVG_LARGEST_M && fabs (point.y) <= SVG_LARGEST_M;
}

/* Within the limit that a document's coordinates must keep? */
static bool
is_on_earth (const Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      if (!is_small (seg->to) || (seg->kind == SEG_CUBIC && (!is_small (seg->c1) || !is_small (seg->c2))))
        return false;
    }
  return true;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autofree char *text = g_strndup ((const char *)data, size);
  Path path = { 0 };
  size_t offset = 0;
  bool whole = svg_parse_path (text, &path, MOST_SEGMENTS, &offset);
  g_assert_true (whole || offset <= strlen (text));
  if (whole && is_on_earth (&path))
    {
      g_autofree char *printed = svg_print_path (&path);
      Path again = { 0 };
      g_assert_true (svg_parse_path (printed, &again, SIZE_MAX, &offset));
      g_assert_cmpuint (again.n_segs, ==, path.n_segs);
      for (size_t i = 0; i < path.n_segs; i++)
        g_assert_cmpfloat (vec2_distance (path.segs[i].to, again.segs[i].to), <=, ROUNDING_M);
      path_clear (&again);
    }
  path_clear (&path);
  return 0;
}
