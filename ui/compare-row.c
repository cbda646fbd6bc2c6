// SPDX-License-Identifier: GPL-3.0-or-later
/* compare-row - its texts change in place, because the golfer's own plan follows the pointer. */
#include "compare-row.h"

#include "inscribe.h"
#include "render.h"
#include "sentence.h"

#include <glib/gi18n.h>

/* What costs less is not told apart. */
#define LEAST_COST_STROKES 0.005
#define OWN_WIDTH_PX 2.4

struct _HwCompareRow
{
  GtkListBoxRow parent_instance;
  GtkDrawingArea *line;
  GtkInscription *name, *strokes, *over, *club, *why;
  GtkWidget *use;
  int track;
};

G_DEFINE_FINAL_TYPE (HwCompareRow, hw_compare_row, GTK_TYPE_LIST_BOX_ROW)

static void
draw_line (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwCompareRow *self = user_data;
  /* The tracks' inks are made for paper: in the dark they stand on a piece of it. */
  GdkRGBA paper, accent;
  GtkStyleContext *style = gtk_widget_get_style_context (GTK_WIDGET (area));
  if (gtk_style_context_lookup_color (style, "hw_sheet", &paper))
    {
      gdk_cairo_set_source_rgba (cr, &paper);
      cairo_rectangle (cr, 0, 0, width, height);
      cairo_fill (cr);
    }
  if (self->track != HW_COMPARE_OWN)
    {
      render_track_swatch (cr, (size_t)self->track, width, height, 1);
      return;
    }
  if (gtk_style_context_lookup_color (style, "hw_accent_on_paper", &accent))
    gdk_cairo_set_source_rgba (cr, &accent);
  cairo_set_line_width (cr, OWN_WIDTH_PX);
  cairo_move_to (cr, 2, height / 2.0);
  cairo_line_to (cr, width - 2, height / 2.0);
  cairo_stroke (cr);
}

/* "5 wood · leaves 174"; at the green it is the green that counts. Of a plan that is drawn also what it comes to with every shot so. */
static char *
club_words (const HwCompared *compared, LengthUnit units)
{
  const PlanShot *first = &compared->plan->shots[0];
  GString *words = g_string_new (first->shot.club->name);
  char left[UNITS_TEXT_SIZE];
  if (first->green > first->fairway)
    g_string_append_printf (words, _ (" · green %.0f %%"), 100 * first->green);
  else if (!isnan (first->shot.left_m))
    g_string_append_printf (words, _ (" · leaves %s"), units_print_whole (first->shot.left_m, units, left, sizeof left));
  if (!isnan (compared->as_drawn))
    g_string_append_printf (words, _ (" · as drawn %.2f"), compared->as_drawn);
  return g_string_free (words, FALSE);
}

static char *
why_words (const HwCompared *compared)
{
  if (compared->difference == NULL)
    return g_strdup ("");
  g_autofree char *why = plan_difference_words (compared->difference, hw_translated);
  return hw_unbroken (why);
}

static void
show_use (HwCompareRow *self, const HwCompared *compared)
{
  gtk_widget_set_visible (self->use, compared->choice >= 0);
  if (compared->choice < 0)
    return;
  gtk_actionable_set_action_target (GTK_ACTIONABLE (self->use), "i", compared->choice);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (self->use), "win.use-plan");
  g_autofree char *label = g_strdup_printf (_ ("Use the plan: %s"), compared->name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->use), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_widget_set_tooltip_text (self->use, label);
}

void
hw_compare_row_show (HwCompareRow *self, const HwCompared *compared, LengthUnit units)
{
  char strokes[32], over[32] = "";
  const Plan *plan = compared->plan;
  double costs = compared->difference != NULL ? compared->difference->strokes : 0;
  g_snprintf (strokes, sizeof strokes, "%.2f", plan->strokes);
  if (fabs (costs) >= LEAST_COST_STROKES)
    g_snprintf (over, sizeof over, costs < 0 ? "−%.2f" : "+%.2f", fabs (costs));
  g_autofree char *club = club_words (compared, units), *why = why_words (compared);
  bool changed = hw_inscribe (self->name, compared->name);
  changed |= hw_inscribe (self->strokes, strokes);
  changed |= hw_inscribe (self->over, over);
  changed |= hw_inscribe (self->club, club);
  if (hw_inscribe (self->why, why))
    {
      gtk_widget_set_visible (GTK_WIDGET (self->why), *why != '\0');
      gtk_widget_set_tooltip_text (GTK_WIDGET (self->why), why); // in full, where its lines cut it off
      changed = true;
    }
  if (self->track != compared->track)
    {
      self->track = compared->track;
      gtk_widget_queue_draw (GTK_WIDGET (self->line));
    }
  show_use (self, compared);
  if (!changed)
    return;
  g_autofree char *spoken = g_strdup_printf (_ ("Plan %s: %s, expected score %s. %s"), compared->name, club, strokes, why);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

GtkWidget *
hw_compare_row_new (void)
{
  return g_object_new (HW_TYPE_COMPARE_ROW, NULL);
}

static void
hw_compare_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_COMPARE_ROW);
  G_OBJECT_CLASS (hw_compare_row_parent_class)->dispose (object);
}

static void
hw_compare_row_class_init (HwCompareRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_compare_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/compare-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, line);
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, name);
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, strokes);
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, over);
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, club);
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, why);
  gtk_widget_class_bind_template_child (widget_class, HwCompareRow, use);
}

static void
hw_compare_row_init (HwCompareRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (self->line, draw_line, self, NULL);
}
