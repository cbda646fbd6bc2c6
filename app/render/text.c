// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * text - a thin pen over Pango: one layout reused for every word, hinting off so that widths scale exactly.
 */
#include "words-private.h"

#include <pango/pangocairo.h>

#define TEXT_FAMILY "Inter, Sans"
/* Leading of wrapped lines as a share of the size (common practice for a grotesque at small sizes). */
#define TEXT_LEADING 1.35

/* How far a halo's outline may be from the exact one, as a share of the halo. */
#define HALO_TOLERANCE_SHARE 0.25

struct _TextPen
{
  cairo_t *cr;         /* borrowed, may be NULL */
  RenderWords *words;  /* borrowed, may be NULL */
  PangoLayout *layout; /* NULL until something is shaped, and so the next two */
  PangoFontDescription *font;
  PangoAttrList *figures; /* tabular */
  bool is_paper;          /* letters are shown as text; else their outlines are filled */
  bool is_apart;          /* its fonts are its own */
};

/*
 * On paper letters stay text, to be searched and copied. On pixels cairo 1.16 puts each letter on a whole pixel, which spaces small words
 * unevenly; their outlines go where they belong.
 */
static bool
is_paper (cairo_t *cr)
{
  cairo_surface_type_t type = cairo_surface_get_type (cairo_get_group_target (cr));
  return type == CAIRO_SURFACE_TYPE_PDF || type == CAIRO_SURFACE_TYPE_PS || type == CAIRO_SURFACE_TYPE_SVG;
}

/* Draws the laid-out text with its top left at the current point, and clears the path. */
static void
show (TextPen *pen, PangoLayoutLine *line)
{
  if (pen->is_paper && line)
    pango_cairo_show_layout_line (pen->cr, line);
  else if (pen->is_paper)
    pango_cairo_show_layout (pen->cr, pen->layout);
  else
    {
      if (line)
        pango_cairo_layout_line_path (pen->cr, line);
      else
        pango_cairo_layout_path (pen->cr, pen->layout);
      text_ink_path (pen->cr, 0);
    }
  cairo_new_path (pen->cr);
}

TextPen *
text_pen_new_keeping (cairo_t *cr, RenderWords *words)
{
  TextPen *pen = g_new0 (TextPen, 1);
  pen->cr = cr;
  pen->is_paper = cr && is_paper (cr);
  pen->words = words;
  return pen;
}

TextPen *
text_pen_new (cairo_t *cr)
{
  return text_pen_new_keeping (cr, NULL);
}

TextPen *
text_pen_new_apart (void)
{
  TextPen *pen = text_pen_new (NULL);
  pen->is_apart = true;
  return pen;
}

/* A pen whose words are all kept already never comes here. */
static void
start_shaping (TextPen *pen)
{
  PangoFontMap *fonts = pen->is_apart ? pango_cairo_font_map_new () : g_object_ref (pango_cairo_font_map_get_default ());
  PangoContext *context = pango_font_map_create_context (fonts);
  cairo_font_options_t *options = cairo_font_options_create ();

  if (pen->cr)
    pango_cairo_update_context (pen->cr, context);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  pango_cairo_context_set_resolution (context, 96);
  pango_context_set_round_glyph_positions (context, FALSE);
  cairo_font_options_destroy (options);

  pen->layout = pango_layout_new (context);
  g_object_unref (context);
  g_object_unref (fonts);
  pen->font = pango_font_description_new ();
  pango_font_description_set_family_static (pen->font, TEXT_FAMILY);
  pen->figures = pango_attr_list_new ();
  pango_attr_list_insert (pen->figures, pango_attr_font_features_new ("tnum=1"));
}

void
text_pen_free (TextPen *pen)
{
  if (!pen)
    return;
  if (pen->layout)
    {
      pango_font_description_free (pen->font);
      pango_attr_list_unref (pen->figures);
      g_object_unref (pen->layout);
    }
  g_free (pen);
}

static void
set_text (TextPen *pen, const char *text, TextStyle style)
{
  if (!pen->layout)
    start_shaping (pen);
  pango_font_description_set_weight (pen->font, (PangoWeight)style.weight);
  pango_font_description_set_absolute_size (pen->font, style.size_px * PANGO_SCALE);
  pango_layout_set_font_description (pen->layout, pen->font);
  pango_layout_set_attributes (pen->layout, style.is_running ? NULL : pen->figures);
  pango_layout_set_text (pen->layout, text ? text : "", -1);
  pango_layout_set_width (pen->layout, -1);
  pango_layout_set_ellipsize (pen->layout, PANGO_ELLIPSIZE_NONE);
}

static double
layout_width (TextPen *pen)
{
  PangoRectangle logical;
  pango_layout_get_extents (pen->layout, NULL, &logical);
  return (double)logical.width / PANGO_SCALE;
}

static double
layout_baseline (TextPen *pen)
{
  return (double)pango_layout_get_baseline (pen->layout) / PANGO_SCALE;
}

/* Moves to the top left of the laid-out line whose baseline and alignment are given. */
static void
move_to_line (TextPen *pen, double x, double baseline, TextAlign align)
{
  double width = align == TEXT_LEFT ? 0 : layout_width (pen);
  cairo_move_to (pen->cr, x - width * (align == TEXT_CENTRE ? 0.5 : 1.0), baseline - layout_baseline (pen));
}

/* Draws a kept word instead, where there are any and the target takes them. */
static bool
draw_kept (TextPen *pen, const char *text, TextStyle style, double x, double baseline, TextAlign align, double halo_px)
{
  if (!pen->words || !text)
    return false;
  Word *word = words_find (pen->words, text, style, halo_px);
  double left = x - (align == TEXT_LEFT ? 0 : word_width (word) * (align == TEXT_CENTRE ? 0.5 : 1.0));
  cairo_new_path (pen->cr);
  return words_draw (pen->words, pen->cr, word, left, baseline);
}

double
text_width (TextPen *pen, const char *text, TextStyle style)
{
  if (pen->words && text)
    return word_width (words_find (pen->words, text, style, 0));
  set_text (pen, text, style);
  return layout_width (pen);
}

cairo_path_t *
text_outline (TextPen *pen, const char *text, TextStyle style, double *width_px)
{
  /* Without bounds: cairo leaves out the letters that lie outside a surface. */
  cairo_surface_t *nowhere = cairo_recording_surface_create (CAIRO_CONTENT_ALPHA, NULL);
  cairo_t *cr = cairo_create (nowhere);
  set_text (pen, text, style);
  *width_px = layout_width (pen);
  cairo_move_to (cr, 0, -layout_baseline (pen));
  pango_cairo_layout_path (cr, pen->layout);
  cairo_path_t *outline = cairo_copy_path (cr);
  cairo_destroy (cr);
  cairo_surface_destroy (nowhere);
  return outline;
}

void
text_ink_path (cairo_t *cr, double halo_px)
{
  cairo_save (cr);
  if (halo_px > 0)
    {
      cairo_set_line_width (cr, 2 * halo_px);
      /* A halo is soft: round joins, exact curves and fine edges would only cost time. */
      cairo_set_line_join (cr, CAIRO_LINE_JOIN_BEVEL);
      cairo_set_antialias (cr, CAIRO_ANTIALIAS_FAST);
      cairo_set_tolerance (cr, HALO_TOLERANCE_SHARE * halo_px);
      cairo_stroke (cr);
    }
  else
    {
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_WINDING);
      cairo_set_antialias (cr, CAIRO_ANTIALIAS_DEFAULT);
      cairo_fill (cr);
    }
  cairo_restore (cr);
}

void
text_draw (TextPen *pen, const char *text, TextStyle style, double x, double baseline, TextAlign align)
{
  if (draw_kept (pen, text, style, x, baseline, align, 0))
    return;
  set_text (pen, text, style);
  cairo_new_path (pen->cr);
  move_to_line (pen, x, baseline, align);
  show (pen, NULL);
}

void
text_draw_middle (TextPen *pen, const char *text, TextStyle style, double x, double middle, TextAlign align)
{
  text_draw (pen, text, style, x, middle + TEXT_CAP_HEIGHT * style.size_px / 2, align);
}

void
text_halo_middle (TextPen *pen, const char *text, TextStyle style, double x, double middle, TextAlign align, double halo_px)
{
  double baseline = middle + TEXT_CAP_HEIGHT * style.size_px / 2;
  if (draw_kept (pen, text, style, x, baseline, align, halo_px))
    return;
  set_text (pen, text, style);
  cairo_new_path (pen->cr);
  move_to_line (pen, x, baseline, align);
  pango_cairo_layout_path (pen->cr, pen->layout);
  text_ink_path (pen->cr, halo_px);
}

void
text_draw_fitted (TextPen *pen, const char *text, TextStyle style, double x, double baseline, double width_px)
{
  set_text (pen, text, style);
  pango_layout_set_width (pen->layout, (int)(width_px * PANGO_SCALE));
  pango_layout_set_ellipsize (pen->layout, PANGO_ELLIPSIZE_END);
  cairo_new_path (pen->cr);
  cairo_move_to (pen->cr, x, baseline - layout_baseline (pen));
  show (pen, NULL);
}

double
text_wrapped (TextPen *pen, const char *text, TextStyle style, double x, double top, double width_px, bool is_drawn)
{
  set_text (pen, text, style);
  pango_layout_set_width (pen->layout, (int)(width_px * PANGO_SCALE));
  pango_layout_set_wrap (pen->layout, PANGO_WRAP_WORD_CHAR);
  int n_lines = pango_layout_get_line_count (pen->layout);
  double leading = TEXT_LEADING * style.size_px;

  if (is_drawn)
    for (int i = 0; i < n_lines; i++)
      {
        cairo_new_path (pen->cr);
        cairo_move_to (pen->cr, x, top + i * leading + (leading + TEXT_CAP_HEIGHT * style.size_px) / 2);
        show (pen, pango_layout_get_line_readonly (pen->layout, i));
      }
  return n_lines * leading;
}
