// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The card as another program prints it: a PDF is turned into pixels by pdftocairo, and distances are read back from the pixels with their
 * size in millimetres. Within 0.05 mm over 150 mm a ruler on the paper tells no difference.
 */
#include "example.h"
#include "render.h"

#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>

#define DOTS_PER_INCH 600
#define MM_PER_DOT (25.4 / DOTS_PER_INCH)
#define TOLERANCE_MM 0.05

/* ---- a page as darkness ---- */

typedef struct
{
  cairo_surface_t *surface;
  int width, height;
} Page;

/* 0 for white paper, 1 for black. */
static double
darkness (const Page *page, int x, int y)
{
  const unsigned char *row
      = cairo_image_surface_get_data (page->surface) + (ptrdiff_t)y * cairo_image_surface_get_stride (page->surface);
  return 1 - row[4 * x + 1] / 255.0;
}

static void
write_pdf (const char *path, const char *hole_text, const CardOptions *options)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) text = g_bytes_new (hole_text, strlen (hole_text));
  g_autoptr (Hole) hole = svg_read_bytes (text, "hole.svg", NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error != NULL ? error->message : "");
  g_autoptr (Card) card = card_new (&(CardContent){ hole, NULL, NULL }, options, &error);
  ck_assert_msg (card != NULL, "%s", error != NULL ? error->message : "");
  g_autoptr (GBytes) bytes = card_bytes (card, "pdf", &error);
  ck_assert_msg (bytes != NULL, "%s", error != NULL ? error->message : "");
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  ck_assert (g_file_set_contents (path, data, (gssize)size, NULL));
}

/* Runs a command whose success the test needs; returns its output, to be freed with g_free. */
static char *
run (const char *const *argv)
{
  g_autoptr (GError) error = NULL;
  char *out = NULL;
  int status;
  ck_assert_msg (g_spawn_sync (NULL, (char **)(void *)argv, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &out, NULL, &status, &error),
                 "%s", error != NULL ? error->message : "");
  ck_assert_msg (g_spawn_check_wait_status (status, NULL), "%s failed", argv[0]);
  return out;
}

static Page
print_card (const char *hole_text, const CardOptions *options)
{
  g_autofree char *folder = g_dir_make_tmp ("holewright-paper-XXXXXX", NULL);
  g_autofree char *pdf = g_build_filename (folder, "card.pdf", NULL), *stem = g_build_filename (folder, "card", NULL);
  g_autofree char *png = g_strconcat (stem, ".png", NULL), *resolution = g_strdup_printf ("%d", DOTS_PER_INCH);
  write_pdf (pdf, hole_text, options);
  g_free (run ((const char *const[]){ "pdftocairo", "-png", "-gray", "-singlefile", "-r", resolution, pdf, stem, NULL }));
  cairo_surface_t *read = cairo_image_surface_create_from_png (png);
  ck_assert_int_eq (cairo_surface_status (read), CAIRO_STATUS_SUCCESS);
  Page page = { NULL, cairo_image_surface_get_width (read), cairo_image_surface_get_height (read) };
  page.surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, page.width, page.height);
  cairo_t *cr = cairo_create (page.surface);
  cairo_set_source_surface (cr, read, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (read);
  cairo_surface_flush (page.surface);
  g_unlink (pdf);
  g_unlink (png);
  g_rmdir (folder);
  return page;
}

static unsigned
blocks_called (const char *first, const char *second)
{
  unsigned mask = 0;
  for (int i = 0; card_block_table[i].name != NULL; i++)
    if (strcmp (card_block_table[i].name, first) == 0 || strcmp (card_block_table[i].name, second) == 0)
      mask |= 1u << i;
  return mask;
}

/* ---- ground to paper ---- */

/* Four strips of fairway: two lie 375 m apart up the hole, two 200 m across it, each symmetric about its middle. Nothing else is drawn. */
static const char strips[]
    = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1' viewBox='-130 -405 260 420'>"
      "<g hw:kind='fairway'><rect x='-20' y='-380' width='40' height='10'/><rect x='-20' y='-5' width='40' height='10'/>"
      "<rect x='-105' y='-220' width='10' height='40'/><rect x='95' y='-220' width='10' height='40'/></g></svg>";

/* Middles of the two dark stretches along a line of dots; false unless there are just two. */
static bool
find_two_middles (const double *dark, int n, double *first, double *second)
{
  double middles[2];
  int found = 0;
  for (int i = 0; i < n; i++)
    {
      double sum = 0, moment = 0;
      for (; i < n && dark[i] > 0.02; i++)
        {
          sum += dark[i];
          moment += dark[i] * (i + 0.5);
        }
      if (sum == 0)
        continue;
      if (found == 2)
        return false;
      middles[found++] = moment / sum;
    }
  *first = middles[0];
  *second = middles[1];
  return found == 2;
}

START_TEST (places_375_m_apart_are_150_mm_apart_at_1_to_2500)
{
  CardOptions options;
  card_options_init (&options);
  options.page = CARD_HALF_LETTER;
  options.scale = 2500;
  options.blocks = blocks_called ("diagram", "scale");
  Page page = print_card (strips, &options);
  g_autofree double *dark = g_new (double, MAX (page.width, page.height));
  int n_columns = 0, n_rows = 0, foot = page.height - (int)(20 / MM_PER_DOT); /* above the scale bar */
  double first, second;
  for (int x = 0; x < page.width; x += 16)
    {
      for (int y = 0; y < foot; y++)
        dark[y] = darkness (&page, x, y);
      if (!find_two_middles (dark, foot, &first, &second))
        continue;
      ck_assert_double_eq_tol ((second - first) * MM_PER_DOT, 150, TOLERANCE_MM);
      n_columns++;
    }
  for (int y = 0; y < foot; y += 16)
    {
      for (int x = 0; x < page.width; x++)
        dark[x] = darkness (&page, x, y);
      if (!find_two_middles (dark, page.width, &first, &second))
        continue;
      ck_assert_double_eq_tol ((second - first) * MM_PER_DOT, 80, TOLERANCE_MM);
      n_rows++;
    }
  /* The strips are 16 mm long, some twenty lines of dots each. */
  ck_assert_int_ge (n_columns, 20);
  ck_assert_int_ge (n_rows, 20);
  cairo_surface_destroy (page.surface);
}
END_TEST

/* ---- scale bar and check line ---- */

/* The length in mm of the dark horizontal lines in the foot of the page that lie between `least` and `most`, tick to tick; how many there are. */
static int
find_bars (const Page *page, double least_mm, double most_mm, double *length_mm)
{
  int found = 0;
  for (int y = page->height - (int)(25 / MM_PER_DOT); y < page->height; y++)
    for (int x = 0, start; x < page->width; x++)
      {
        for (start = x; x < page->width && darkness (page, x, y) > 0.5; x++)
          ;
        double run_mm = (x - start) * MM_PER_DOT;
        if (run_mm < least_mm || run_mm > most_mm)
          continue;
        /* Half a millimetre above the line only the ticks are dark: their middles are the ends. */
        int above = y - (int)(0.5 / MM_PER_DOT), margin = (int)(1 / MM_PER_DOT);
        double ends[2];
        for (int end = 0; end < 2; end++)
          {
            int at = end == 0 ? start : x;
            double sum = 0, moment = 0;
            for (int i = MAX (at - margin, 0); i < MIN (at + margin, page->width); i++)
              {
                sum += darkness (page, i, above);
                moment += darkness (page, i, above) * (i + 0.5);
              }
            ck_assert_double_gt (sum, 0);
            ends[end] = moment / sum;
          }
        *length_mm = (ends[1] - ends[0]) * MM_PER_DOT;
        found++;
      }
  return found;
}

START_TEST (the_check_line_is_50_mm_long)
{
  CardOptions options;
  for (CardPage paper = 0; paper < N_CARD_PAGES; paper++)
    {
      card_options_init (&options);
      options.page = paper;
      options.scale = 5000;
      options.blocks = blocks_called ("diagram", "scale");
      Page page = print_card (strips, &options);
      double length_mm = NAN;
      ck_assert_int_ge (find_bars (&page, 48, 52, &length_mm), 1);
      ck_assert_double_eq_tol (length_mm, 50, TOLERANCE_MM);
      cairo_surface_destroy (page.surface);
    }
}
END_TEST

/* 100 yd = 91.44 m is 18.288 mm at 1:5000; 100 m is 25 mm at 1:4000 and 13.333 mm at 1:7500. */
START_TEST (the_scale_bar_is_as_long_as_it_says)
{
  static const struct
  {
    int scale;
    LengthUnit units;
    double length_mm;
  } known[] = { { 5000, UNIT_YARDS, 18.288 }, { 4000, UNIT_METRES, 25 }, { 7500, UNIT_METRES, 100.0 / 7.5 } };
  for (size_t i = 0; i < G_N_ELEMENTS (known); i++)
    {
      CardOptions options;
      card_options_init (&options);
      options.scale = known[i].scale;
      options.units = known[i].units;
      options.blocks = blocks_called ("diagram", "scale");
      Page page = print_card (strips, &options);
      double length_mm = NAN;
      ck_assert_int_ge (find_bars (&page, known[i].length_mm - 1, known[i].length_mm + 1, &length_mm), 1);
      ck_assert_double_eq_tol (length_mm, known[i].length_mm, TOLERANCE_MM);
      cairo_surface_destroy (page.surface);
    }
}
END_TEST

/* ---- the page ---- */

/* Rules of Golf, Clarification 4.3a/1: 4 1/4 x 7 in; 72 points make an inch. */
START_TEST (the_pocket_page_is_306_by_504_points)
{
  g_autofree char *folder = g_dir_make_tmp ("holewright-paper-XXXXXX", NULL);
  g_autofree char *pdf = g_build_filename (folder, "card.pdf", NULL);
  CardOptions options;
  card_options_init (&options);
  write_pdf (pdf, strips, &options);
  g_autofree char *said = run ((const char *const[]){ "pdfinfo", pdf, NULL });
  ck_assert_msg (strstr (said, "306 x 504 pts") != NULL, "%s", said);
  g_unlink (pdf);
  g_rmdir (folder);
}
END_TEST

/* Pocket cards are narrow, and a name that is cut off may be another's. */
START_TEST (no_name_is_cut_off_on_the_cards_of_the_example)
{
  g_autofree char *folder = g_dir_make_tmp ("holewright-paper-XXXXXX", NULL),
                  *pdf = g_build_filename (folder, "card.pdf", NULL);
  g_autoptr (Bag) bag = example_bag ();
  CardOptions options;
  card_options_init (&options);
  for (size_t i = 0; i < N_EXAMPLES; i++)
    {
      g_autoptr (Hole) hole = example_hole (i);
      g_autoptr (GError) error = NULL;
      g_autoptr (Card) card = card_new (&(CardContent){ .hole = hole, .bag = bag }, &options, &error);
      ck_assert_msg (card != NULL, "%s", error != NULL ? error->message : "");
      g_autoptr (GBytes) bytes = card_bytes (card, "pdf", &error);
      ck_assert_msg (bytes != NULL, "%s", error != NULL ? error->message : "");
      ck_assert (g_file_set_contents (pdf, g_bytes_get_data (bytes, NULL), (gssize)g_bytes_get_size (bytes), NULL));
      g_autofree char *words = run ((const char *const[]){ "pdftotext", "-enc", "UTF-8", pdf, "-", NULL });
      ck_assert_msg (strstr (words, "Plan") != NULL && strstr (words, "…") == NULL, "%s: %s", example_names[i], words);
    }
  g_remove (pdf);
  g_remove (folder);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("paper");
  TCase *tcase = tcase_create ("paper");
  tcase_set_timeout (tcase, 120);
  tcase_add_test (tcase, places_375_m_apart_are_150_mm_apart_at_1_to_2500);
  tcase_add_test (tcase, the_check_line_is_50_mm_long);
  tcase_add_test (tcase, the_scale_bar_is_as_long_as_it_says);
  tcase_add_test (tcase, the_pocket_page_is_306_by_504_points);
  tcase_add_test (tcase, no_name_is_cut_off_on_the_cards_of_the_example);
  suite_add_tcase (suite, tcase);
  return suite;
}
