// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card - prints the card of a hole, or the cards of all holes of a course as the pages of one PDF.
 */
#include "command-private.h"
#include "svg.h"

#include <string.h>

/* The cards of one run and what they borrow. */
typedef struct
{
  GPtrArray *holes, *cards;
  Bag *bag;
  Course *course;
} Book;

static void
book_clear (Book *book)
{
  g_clear_pointer (&book->cards, g_ptr_array_unref);
  g_clear_pointer (&book->holes, g_ptr_array_unref);
  g_clear_pointer (&book->bag, bag_unref);
  g_clear_pointer (&book->course, course_free);
}

static bool
add_card (Book *book, const Options *options, const char *path, FILE *err, GError **error)
{
  Hole *hole = input_hole (path, err, error);
  if (hole == NULL)
    return false;
  g_ptr_array_add (book->holes, hole);
  if (options->tee != NULL && hole_tee (hole, options->tee) < 0)
    {
      g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT,
                   "%s:1: there is no tee marker '%s'; give --tee one that the hole has", path, options->tee);
      return false;
    }
  CardOptions card_options;
  card_options_init (&card_options);
  card_options.page = options->page;
  card_options.blocks = options->blocks;
  card_options.units = options->units;
  card_options.scale = options->scale;
  card_options.tee = options->tee;
  card_options.ink = options->is_grey ? PAINT_GREY : PAINT_COLOUR;
  CardContent content = { hole, book->course, book->bag };
  Card *card = card_new (&content, &card_options, error);
  if (card == NULL)
    {
      g_prefix_error (error, "%s: ", path);
      return false;
    }
  g_ptr_array_add (book->cards, card);
  for (const char *const *warning = card_warnings (card); *warning != NULL; warning++)
    {
      g_autofree char *message = g_strdup_printf ("%s: %s", path, *warning);
      message_print (err, message);
    }
  return true;
}

/* The course of a hole file, where course.xml stands beside it. */
static Course *
course_beside (const char *path, FILE *err)
{
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *file = g_build_filename (folder, "course.xml", NULL);
  if (!g_file_test (file, G_FILE_TEST_EXISTS))
    return NULL;
  g_autoptr (GError) error = NULL;
  Course *course = svg_read_course (folder, &error);
  if (course == NULL)
    message_print (err, error->message); /* the card is right without the course's name */
  return course;
}

static bool
add_cards (Book *book, const Options *options, const char *path, const char *format, FILE *err, GError **error)
{
  bool is_course = input_is_course (path);
  GError *bag_error = NULL;
  book->bag = input_bag (options, path, false, err, &bag_error);
  if (bag_error != NULL)
    {
      g_propagate_error (error, bag_error);
      return false;
    }
  if (!is_course)
    {
      book->course = course_beside (path, err);
      return add_card (book, options, path, err, error);
    }
  if (strcmp (format, "pdf") != 0)
    {
      g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                   "the cards of a course are several pages, which .%s cannot hold; write a .pdf, or one hole at a time",
                   format);
      return false;
    }
  book->course = svg_read_course (path, error);
  if (book->course == NULL)
    return false;
  for (size_t i = 0; i < book->course->n_holes; i++)
    if (!add_card (book, options, book->course->hole_files[i], err, error))
      return false;
  if (book->cards->len == 0)
    g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT,
                 "%s: the course has no holes; add a <hole file=\"...\"/> to its course.xml", path);
  return book->cards->len > 0;
}

static bool
write_card (const Options *options, FILE *err, GError **error)
{
  const char *format = card_format_of (options->output, error);
  if (format == NULL)
    {
      if (error != NULL && *error != NULL)
        {
          (*error)->domain = COMMAND_ERROR; /* a wrong ending is wrong usage here */
          (*error)->code = COMMAND_ERROR_USAGE;
        }
      return false;
    }
  Book book = { g_ptr_array_new_with_free_func ((GDestroyNotify)hole_unref),
                g_ptr_array_new_with_free_func ((GDestroyNotify)card_free), NULL, NULL };
  g_autoptr (GBytes) bytes = NULL;
  if (add_cards (&book, options, options->files[0], format, err, error))
    bytes = book.cards->len == 1 ? card_bytes (g_ptr_array_index (book.cards, 0), format, error)
                                 : card_book_bytes ((const Card *const *)book.cards->pdata, book.cards->len, error);
  bool is_done = bytes != NULL && svg_save_bytes (bytes, options->output, error);
  book_clear (&book);
  return is_done;
}

static void
print_help (FILE *out, const char *name)
{
  options_print_help (
      out, name, "FILE|FOLDER -o OUT",
      "Prints the hole card: OUT ends in .pdf, .svg or .png (300 dots per inch). The card of a folder is a PDF with a page "
      "for\n"
      "each hole of the course. A card is never shrunk silently: what does not fit is said, with the next scale that does.",
      FOR_CARD);
  fputs ("\nBlocks:\n", out);
  for (const CardBlock *block = card_block_table; block->name != NULL; block++)
    fprintf (out, "  %-10s %s\n", block->name, block->label);
}

int
command_card (int argc, char **argv, FILE *out, FILE *err)
{
  g_autoptr (GError) error = NULL;
  Options options;
  bool is_done = options_parse (&options, FOR_CARD, argc, argv, &error);
  if (is_done && options.is_help)
    print_help (out, argv[0]);
  else if (is_done && (options.n_files != 1 || options.output == NULL))
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "card takes one hole or folder and -o OUT; see 'holewright card --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = write_card (&options, err, &error);
  options_clear (&options);
  return is_done ? STATUS_DONE : message_fail (err, error);
}
