// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-file - cards as the bytes of a PDF, SVG or PNG, the same bytes for the same card under SOURCE_DATE_EPOCH.
 */
#include "card-private.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <string.h>

#define POINTS_PER_MM (72 / MM_PER_INCH)
/* Resolution of pictures. */
#define PNG_DOTS_PER_INCH 300.0

static cairo_status_t
append_bytes (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

static bool
set_cairo_error (cairo_status_t status, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return true;
  g_set_error (error, RENDER_ERROR, RENDER_ERROR_WRITE,
               "the card could not be drawn (%s); try a smaller page or another format", cairo_status_to_string (status));
  return false;
}

/* The bytes, or NULL with `error` when drawing failed. Destroys context and surface. */
static GBytes *
finish (cairo_t *cr, cairo_surface_t *surface, GByteArray *bytes, GError **error)
{
  cairo_status_t status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (set_cairo_error (status, error))
    return g_byte_array_free_to_bytes (bytes);
  g_byte_array_unref (bytes);
  return NULL;
}

/* Date of the PDF: SOURCE_DATE_EPOCH where it is set (reproducible-builds.org specification), else now. */
static bool
set_date (cairo_surface_t *surface, GError **error)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds = g_get_real_time () / G_USEC_PER_SEC;
  if (epoch != NULL && !g_ascii_string_to_signed (epoch, 10, 0, G_MAXINT32 * (gint64)60, &seconds, NULL))
    {
      g_set_error (error, RENDER_ERROR, RENDER_ERROR_FORMAT,
                   "SOURCE_DATE_EPOCH is '%s', not a number of seconds since 1970; unset it or give one", epoch);
      return false;
    }
  g_autoptr (GDateTime) date = g_date_time_new_from_unix_utc (seconds);
  g_autofree char *text = g_date_time_format (date, "%Y-%m-%dT%H:%M:%SZ");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, text);
  return true;
}

/* "2 Orchard, Fenwhistle" */
static char *
title_of (const Card *card)
{
  const HoleInfo *info = hole_info (card->hole);
  g_autoptr (GString) title = g_string_new ("Hole");
  if (info->number > 0)
    g_string_append_printf (title, " %d", info->number);
  if (info->title != NULL)
    g_string_append_printf (title, " %s", info->title);
  if (card->course != NULL && card->course->name != NULL)
    g_string_append_printf (title, ", %s", card->course->name);
  return g_strdup (title->str);
}

GBytes *
card_book_bytes (const Card *const *cards, size_t n_cards, GError **error)
{
  g_return_val_if_fail (n_cards > 0, NULL);
  GByteArray *bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_pdf_surface_create_for_stream (append_bytes, bytes, cards[0]->width_mm * POINTS_PER_MM,
                                                                  cards[0]->height_mm * POINTS_PER_MM);
  g_autofree char *title = title_of (cards[0]);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "holewright " HOLEWRIGHT_VERSION);
  bool is_dated = set_date (surface, error);
  cairo_t *cr = cairo_create (surface);
  for (size_t i = 0; is_dated && i < n_cards; i++)
    {
      cairo_pdf_surface_set_size (surface, cards[i]->width_mm * POINTS_PER_MM, cards[i]->height_mm * POINTS_PER_MM);
      card_draw (cards[i], cr, POINTS_PER_MM);
      cairo_show_page (cr);
    }
  GBytes *result = finish (cr, surface, bytes, is_dated ? error : NULL);
  if (!is_dated)
    g_clear_pointer (&result, g_bytes_unref);
  return result;
}

/* Names one of cairo's surfaces by the order in which the document first speaks of it. */
static gboolean
number_surface (const GMatchInfo *match, GString *result, gpointer numbers)
{
  g_autofree char *name = g_match_info_fetch (match, 0);
  gpointer number = g_hash_table_lookup (numbers, name);
  if (number == NULL)
    {
      number = GUINT_TO_POINTER (g_hash_table_size (numbers) + 1);
      g_hash_table_insert (numbers, g_strdup (name), number);
    }
  g_string_append_printf (result, "surface%u", GPOINTER_TO_UINT (number));
  return FALSE;
}

/* cairo numbers its surfaces over the life of the process; the same card must give the same bytes. Takes over the bytes. */
static GBytes *
with_stable_names (GBytes *bytes, GError **error)
{
  g_autoptr (GRegex) regex = g_regex_new ("surface[0-9]+", 0, 0, NULL);
  g_autoptr (GHashTable) numbers = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  char *text = g_regex_replace_eval (regex, data, (gssize)size, 0, 0, number_surface, numbers, error);
  g_bytes_unref (bytes);
  return text != NULL ? g_bytes_new_take (text, strlen (text)) : NULL;
}

static GBytes *
svg_bytes (const Card *card, GError **error)
{
  GByteArray *bytes = g_byte_array_new ();
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (append_bytes, bytes, card->width_mm * POINTS_PER_MM,
                                                                  card->height_mm * POINTS_PER_MM);
  cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_PT);
  cairo_t *cr = cairo_create (surface);
  card_draw (card, cr, POINTS_PER_MM);
  GBytes *result = finish (cr, surface, bytes, error);
  return result != NULL ? with_stable_names (result, error) : NULL;
}

static GBytes *
png_bytes (const Card *card, GError **error)
{
  double px_per_mm = PNG_DOTS_PER_INCH / MM_PER_INCH;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)round (card->width_mm * px_per_mm),
                                                         (int)round (card->height_mm * px_per_mm));
  cairo_t *cr = cairo_create (surface);
  card_draw (card, cr, px_per_mm);
  GByteArray *bytes = g_byte_array_new ();
  cairo_status_t status = cairo_surface_write_to_png_stream (surface, append_bytes, bytes);
  g_autoptr (GBytes) result = finish (cr, surface, bytes, error);
  return result != NULL && set_cairo_error (status, error) ? g_steal_pointer (&result) : NULL;
}

GBytes *
card_bytes (const Card *card, const char *format, GError **error)
{
  if (strcmp (format, "pdf") == 0)
    return card_book_bytes (&card, 1, error);
  if (strcmp (format, "svg") == 0)
    return svg_bytes (card, error);
  if (strcmp (format, "png") == 0)
    return png_bytes (card, error);
  g_set_error (error, RENDER_ERROR, RENDER_ERROR_FORMAT, "a card cannot be written as '%s'; choose pdf, svg or png", format);
  return NULL;
}

const char *
card_format_of (const char *path, GError **error)
{
  static const char *const formats[] = { "pdf", "svg", "png" };
  const char *dot = strrchr (path, '.');
  for (size_t i = 0; dot != NULL && i < G_N_ELEMENTS (formats); i++)
    if (g_ascii_strcasecmp (dot + 1, formats[i]) == 0)
      return formats[i];
  g_set_error (error, RENDER_ERROR, RENDER_ERROR_FORMAT,
               "%s: the ending does not say what to write; end the name in .pdf, .svg or .png", path);
  return NULL;
}
