// SPDX-License-Identifier: GPL-3.0-or-later
/* Pasted drawings: read or refused with one sentence; what is read has a colour for each part, and lies in a hole that saves and reads back. */
#include "fuzz.h"
#include "svg.h"

#include <glib.h>
#include <string.h>

static void
check_colours (const SvgFragment *fragment)
{
  size_t n = 0;
  for (size_t c = 0; c < fragment->n_colours; c++)
    {
      const SvgColour *colour = &fragment->colours[c];
      g_assert_true (colour->n_parts > 0 && colour->colour != NULL);
      for (size_t i = 0; i < colour->n_parts; i++)
        g_assert_true (colour->parts[i] < fragment->n_parts && (i == 0 || colour->parts[i - 1] < colour->parts[i]));
      n += colour->n_parts;
    }
  g_assert_true (n == fragment->n_parts);
}

static void
paste (const SvgFragment *fragment, const Hole *hole)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, hole, NULL, 0.5, vec2 (10, 200), &error);
  if (!placed)
    {
      g_assert_nonnull (error);
      return;
    }
  g_autoptr (Hole) now = hole_with_info (hole, hole_info (hole));
  g_autofree size_t *indices = g_new (size_t, placed->len);
  for (guint i = 0; i < placed->len; i++)
    {
      Hole *more = hole_inserting_part (now, i, part_ref (placed->pdata[i]));
      hole_unref (now);
      now = more;
      indices[i] = i;
    }
  g_autoptr (GBytes) written = svg_write_fragment (now, indices, placed->len, &error);
  g_assert_no_error (error);
  g_autoptr (SvgFragment) back = svg_read_fragment (written, "fuzz.svg", NULL, &error);
  g_assert_no_error (error);
  g_assert_true (back->n_parts == placed->len && !back->is_foreign);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GBytes) bytes = g_bytes_new (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (SvgFragment) fragment = svg_read_fragment (bytes, "fuzz.svg", NULL, &error);
  if (!fragment)
    {
      g_assert_nonnull (error);
      g_assert_true (g_str_has_prefix (error->message, "fuzz.svg"));
      return 0;
    }
  g_assert_no_error (error);
  check_colours (fragment);
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Hole) hole = hole_new (&info, NULL, 0, NULL);
  paste (fragment, hole);
  return 0;
}
