// SPDX-License-Identifier: GPL-3.0-or-later
/* score-row - one line of the chances of a hole's scores. */
#include "score-row.h"

#include "inscribe.h"

#include <glib/gi18n.h>

/* A chance so small is told as being below it. */
#define NEAR_NONE 0.01
#define LEAST_BAR_PX 2.0

struct _HwScoreRow
{
  GtkListBoxRow parent_instance;
  GtkDrawingArea *bar;
  GtkInscription *name, *chance;
  double share;
};

G_DEFINE_FINAL_TYPE (HwScoreRow, hw_score_row, GTK_TYPE_LIST_BOX_ROW)

static void
draw_bar (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwScoreRow *self = user_data;
  double long_px = fmax (LEAST_BAR_PX, self->share * width);
  bool is_rtl = gtk_widget_get_direction (GTK_WIDGET (area)) == GTK_TEXT_DIR_RTL;
  GdkRGBA colour;
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (area)), &colour);
  gdk_cairo_set_source_rgba (cr, &colour);
  cairo_rectangle (cr, is_rtl ? width - long_px : 0, 0, long_px, height);
  cairo_fill (cr);
}

char *
hw_score_words (int score, int par, bool is_least)
{
  static const char *const names[]
      = { N_ ("albatross"), N_ ("eagle"), N_ ("birdie"), N_ ("par"), N_ ("bogey"), N_ ("double bogey") };
  int over = score - par + 3;
  if (is_least)
    return g_strdup_printf (_ ("%d or more"), score);
  if (par <= 0 || score == 1 || over < 0 || over >= (int)G_N_ELEMENTS (names))
    return g_strdup_printf ("%d", score);
  return g_strdup_printf ("%d · %s", score, _ (names[over]));
}

void
hw_score_row_show (HwScoreRow *self, const char *name, double chance, double share)
{
  char text[64];
  if (chance < NEAR_NONE)
    g_strlcpy (text, _ ("under 1 %"), sizeof text);
  else
    g_snprintf (text, sizeof text, _ ("%.0f %%"), 100 * chance);
  hw_inscribe (self->name, name);
  hw_inscribe (self->chance, text);
  self->share = share;
  gtk_widget_queue_draw (GTK_WIDGET (self->bar));
  g_autofree char *spoken = g_strdup_printf (_ ("Score %s: %s"), name, text);
  hw_speak_later (GTK_WIDGET (self), spoken);
}

GtkWidget *
hw_score_row_new (void)
{
  return g_object_new (HW_TYPE_SCORE_ROW, NULL);
}

static void
hw_score_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_SCORE_ROW);
  G_OBJECT_CLASS (hw_score_row_parent_class)->dispose (object);
}

static void
hw_score_row_class_init (HwScoreRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_score_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/score-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwScoreRow, bar);
  gtk_widget_class_bind_template_child (widget_class, HwScoreRow, name);
  gtk_widget_class_bind_template_child (widget_class, HwScoreRow, chance);
}

static void
hw_score_row_init (HwScoreRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_inscription_hold (self->chance, (const char *[]){ _ ("under 1 %") }, 1);
  gtk_drawing_area_set_draw_func (self->bar, draw_bar, self, NULL);
}
