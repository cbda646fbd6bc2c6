// SPDX-License-Identifier: GPL-3.0-or-later
/* Paths as text: absolute commands, the letter repeated for every segment, fixed decimals without trailing zeros. */
#include "grammar-private.h"
#include "units.h"

/* 1 mm in a frame of metres. */
#define MILLIMETRE_DECIMALS 3

static void
print_point (GString *text, Vec2 point, int decimals)
{
  char x[UNITS_TEXT_SIZE], y[UNITS_TEXT_SIZE];
  units_print_decimals (point.x, decimals, x, sizeof x);
  units_print_decimals (point.y, decimals, y, sizeof y);
  g_string_append_printf (text, "%s,%s", x, y);
}

static void
print_segment (GString *text, const PathSeg *seg, int decimals)
{
  static const char letters[] = { [SEG_MOVE] = 'M', [SEG_LINE] = 'L', [SEG_CUBIC] = 'C', [SEG_CLOSE] = 'Z' };
  if (text->len > 0)
    g_string_append_c (text, ' ');
  g_string_append_c (text, letters[seg->kind]);
  if (seg->kind == SEG_CUBIC)
    {
      print_point (text, seg->c1, decimals);
      g_string_append_c (text, ' ');
      print_point (text, seg->c2, decimals);
      g_string_append_c (text, ' ');
    }
  if (seg->kind != SEG_CLOSE)
    print_point (text, seg->to, decimals);
}

char *
path_print (const Path *path, int decimals)
{
  GString *text = g_string_new (NULL);
  for (size_t i = 0; i < path->n_segs; i++)
    print_segment (text, &path->segs[i], decimals);
  return g_string_free (text, FALSE);
}

char *
points_print (const Path *path, int decimals)
{
  GString *text = g_string_new (NULL);
  for (size_t i = 0; i < path->n_segs; i++)
    if (path->segs[i].kind != SEG_CLOSE)
      {
        if (text->len > 0)
          g_string_append_c (text, ' ');
        print_point (text, path->segs[i].to, decimals);
      }
  return g_string_free (text, FALSE);
}

char *
svg_print_path (const Path *path)
{
  return path_print (path, MILLIMETRE_DECIMALS);
}
