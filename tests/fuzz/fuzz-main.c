// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A small driver for the fuzz targets: every seed file as it is, then a fixed number of deterministic mutations of it: bytes flipped, cut,
 * doubled, swapped for what breaks readers. usage: fuzz-NAME MUTATIONS SEED-FILE...
 */
#include "fuzz.h"

#include <glib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Texts that have broken readers of numbers, paths, XML and CSV before. */
static const char *const snags[] = {
  "nan",
  "inf",
  "-0",
  "1e309",
  "1e-400",
  "0x1p3",
  "99999999999999999999",
  ".5-.5",
  "1.5.5",
  "--",
  "+-1",
  "<!--",
  "]]>",
  "&a;",
  "&#0;",
  "<!DOCTYPE",
  "\"",
  "\r\n",
  "\xff",
  "\xc0\x80",
  ",,",
  "A1,1,0,0,0,0,0",
  "Z",
  "M",
  "185-195",
  "\xe2\x80\x93",
  "hw:kind",
  "transform=\"matrix(0 0 0 0 0 0)\"",
  "1e6",
  "-1e6",
  "",
};

/* Longest input made and longest run touched at once, in bytes. */
enum
{
  LONGEST = 1 << 20,
  LONGEST_RUN = 64
};

static void
mutate_once (GRand *random, GByteArray *bytes)
{
  guint at = bytes->len ? (guint)g_rand_int_range (random, 0, (gint32)bytes->len) : 0;
  guint wanted = (guint)g_rand_int_range (random, 1, LONGEST_RUN + 1);
  guint run = MIN (bytes->len - at, wanted);
  switch (g_rand_int_range (random, 0, 5))
    {
    case 0: /* flip a byte */
      if (bytes->len)
        bytes->data[at] ^= (guint8)(1 << g_rand_int_range (random, 0, 8));
      break;
    case 1: /* cut a run */
      if (run)
        g_byte_array_remove_range (bytes, at, run);
      break;
    case 2: /* double a run */
      if (run && bytes->len < LONGEST)
        {
          guint8 copy[LONGEST_RUN];
          memcpy (copy, bytes->data + at, run);
          g_byte_array_append (bytes, copy, run);
        }
      break;
    case 3: /* a snag in place of what stands there */
      {
        const char *snag = snags[g_rand_int_range (random, 0, G_N_ELEMENTS (snags))];
        guint length = (guint)strlen (snag);
        if (at + length <= bytes->len)
          memcpy (bytes->data + at, snag, length);
        else
          g_byte_array_append (bytes, (const guint8 *)snag, length);
        break;
      }
    default: /* cut the end off */
      if (g_rand_int_range (random, 0, 8) == 0)
        g_byte_array_set_size (bytes, at);
      break;
    }
}

/* Most changes to one seed. */
#define MOST_CHANGES 6

static guint
run_seed (const char *path, guint n_mutations)
{
  g_autofree char *text = NULL;
  gsize size = 0;
  g_autoptr (GError) error = NULL;
  if (!g_file_get_contents (path, &text, &size, &error))
    g_error ("%s", error->message);
  LLVMFuzzerTestOneInput ((const uint8_t *)text, size);
  g_autoptr (GRand) random = g_rand_new_with_seed ((guint32)size);
  for (guint i = 0; i < n_mutations; i++)
    {
      g_autoptr (GByteArray) bytes = g_byte_array_new ();
      g_byte_array_append (bytes, (const guint8 *)text, (guint)size);
      for (int change = g_rand_int_range (random, 1, MOST_CHANGES + 1); change > 0; change--)
        mutate_once (random, bytes);
      LLVMFuzzerTestOneInput (bytes->data, bytes->len);
    }
  return n_mutations + 1;
}

int
main (int argc, char **argv)
{
  if (argc < 3)
    {
      fprintf (stderr, "usage: %s MUTATIONS SEED-FILE...\n", argv[0]);
      return 2;
    }
  guint n_runs = 0;
  for (int i = 2; i < argc; i++)
    n_runs += run_seed (argv[i], (guint)strtoul (argv[1], NULL, 10));
  printf ("1..1\nok 1 - %u inputs from %d seeds are read or refused\n", n_runs, argc - 2);
  return 0;
}
