// SPDX-License-Identifier: GPL-3.0-or-later
/* odds-row - its texts change in place, because they follow the pointer at every frame. */
#include "odds-row.h"

#include "inscribe.h"
#include "sketch.h"

#include <glib/gi18n.h>
#include <math.h>

/* Bars of lengths that differ by less of a row look the same, and need not be drawn anew. */
#define FINEST_SHARE (1.0 / 512)

struct _HwOddsRow
{
  GtkListBoxRow parent_instance;
  HwSketch *bar;
  GtkInscription *name, *chance;
  Kind kind;
  double share;
};

G_DEFINE_FINAL_TYPE (HwOddsRow, hw_odds_row, GTK_TYPE_LIST_BOX_ROW)

static void
draw_bar (HwSketch *bar, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwOddsRow *self = user_data;
  double long_px = MAX (2, self->share * (width - 1));
  bool is_rtl = gtk_widget_get_direction (GTK_WIDGET (bar)) == GTK_TEXT_DIR_RTL;
  render_swatch (cr, self->kind, STAKES_RED, is_rtl ? width - 0.5 - long_px : 0.5, 0.5, long_px, height - 1, 1);
}

void
hw_odds_row_show (HwOddsRow *self, Kind kind, double chance)
{
  char text[48];
  const char *name = _ (kind_info (kind)->label);
  if (chance < CHANCE_NEAR_NONE)
    g_strlcpy (text, _ ("under 1 %"), sizeof text);
  else if (chance > CHANCE_NEAR_ALL)
    g_strlcpy (text, _ ("over 99 %"), sizeof text);
  else
    g_snprintf (text, sizeof text, _ ("%.0f %%"), 100 * chance);
  bool changed = hw_inscribe (self->name, name);
  changed |= hw_inscribe (self->chance, text);
  double share = round (chance / FINEST_SHARE) * FINEST_SHARE;
  if (self->kind != kind || self->share != share)
    {
      self->kind = kind;
      self->share = share;
      gtk_widget_queue_draw (GTK_WIDGET (self->bar));
    }
  if (!changed)
    return;
  g_autofree char *spoken = g_strdup_printf (_ ("Ends in %s: %s"), name, text);
  hw_speak_later (GTK_WIDGET (self), spoken);
}

GtkWidget *
hw_odds_row_new (void)
{
  return g_object_new (HW_TYPE_ODDS_ROW, NULL);
}

static void
hw_odds_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_ODDS_ROW);
  G_OBJECT_CLASS (hw_odds_row_parent_class)->dispose (object);
}

static void
hw_odds_row_class_init (HwOddsRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_odds_row_dispose;
  g_type_ensure (HW_TYPE_SKETCH);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/odds-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwOddsRow, bar);
  gtk_widget_class_bind_template_child (widget_class, HwOddsRow, name);
  gtk_widget_class_bind_template_child (widget_class, HwOddsRow, chance);
}

static void
hw_odds_row_init (HwOddsRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_inscription_hold (self->chance, (const char *[]){ _ ("under 1 %"), _ ("over 99 %") }, 2);
  hw_sketch_set_draw (self->bar, draw_bar, self);
}
