// SPDX-License-Identifier: GPL-3.0-or-later
/* suggest-row - words one shot of a suggestion, which an engine made. */
#include "suggest-row.h"

#include "sentence.h"

#include <glib/gi18n.h>

/* Rarer ends than this are not told; nearer to all than this nothing is. */
#define LEAST_CHANCE 0.005
#define MOST_CHANCE 0.99

struct _HwSuggestRow
{
  GtkListBoxRow parent_instance;
  GtkLabel *number, *club, *strokes, *aim, *ends, *more;
  char *spoken; /* without what stands in `more` */
};

G_DEFINE_FINAL_TYPE (HwSuggestRow, hw_suggest_row, GTK_TYPE_LIST_BOX_ROW)

static char *
club_words (const ShotResult *shot, LengthUnit units)
{
  char plays[UNITS_TEXT_SIZE];
  units_print_whole (shot->plays_m, units, plays, sizeof plays);
  if (shot->swing < 1)
    return g_strdup_printf (_ ("%s, %.0f %% swing · plays %s"), shot->club->name, 100 * shot->swing, plays);
  return g_strdup_printf (_ ("%s · plays %s"), shot->club->name, plays);
}

static char *
aim_words (const PlanShot *planned, const Hole *hole, const char *hole_name, LengthUnit units)
{
  Sights sights = odds_sights (hole, hole_name, &planned->shot);
  return sights_words (hole, &sights, units, hw_translated);
}

static void
append_chance (GString *words, const char *what, double chance)
{
  if (chance < LEAST_CHANCE)
    return;
  if (words->len > 0)
    g_string_append (words, " · ");
  if (chance > MOST_CHANCE)
    g_string_append_printf (words, _ ("%s over 99 %%"), what);
  else
    g_string_append_printf (words, "%s %.0f %%", what, 100 * chance);
}

/* "leaves 156 · fairway 76 % · trouble 9 %"; at the green it is the green that counts. */
static char *
end_words (const PlanShot *planned, LengthUnit units)
{
  GString *words = g_string_new (NULL);
  char left[UNITS_TEXT_SIZE];
  if (!isnan (planned->shot.left_m) && planned->green <= planned->fairway)
    {
      units_print_whole (planned->shot.left_m, units, left, sizeof left);
      g_string_append_printf (words, _ ("leaves %s"), left);
    }
  append_chance (words, _ ("fairway"), planned->fairway);
  append_chance (words, _ ("green"), planned->green);
  append_chance (words, _ ("trouble"), planned->trouble);
  append_chance (words, _ ("penalty"), planned->penalty);
  return g_string_free (words, FALSE);
}

static void
speak (HwSuggestRow *self)
{
  g_autofree char *more = g_strdelimit (g_strdup (gtk_label_get_text (self->more)), "\n", ' '); // spoken in one go
  g_autofree char *spoken = g_strdup_printf (*more != '\0' ? "%s. %s" : "%s%s", self->spoken, more);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
set_unbroken (GtkLabel *label, const char *text)
{
  g_autofree char *unbroken = hw_unbroken (text);
  gtk_label_set_text (label, unbroken);
}

void
hw_suggest_row_show_more (HwSuggestRow *self, const char *more)
{
  g_autofree char *unbroken = hw_unbroken (more);
  if (g_str_equal (gtk_label_get_text (self->more), unbroken))
    return;
  gtk_label_set_text (self->more, unbroken);
  gtk_widget_set_visible (GTK_WIDGET (self->more), *more != '\0');
  speak (self);
}

void
hw_suggest_row_show (HwSuggestRow *self, size_t number, const PlanShot *planned, const Hole *hole, const char *hole_name,
                     const char *reason, LengthUnit units)
{
  char figure[16], strokes[32];
  g_snprintf (figure, sizeof figure, "%zu", number);
  g_snprintf (strokes, sizeof strokes, "%.2f", planned->strokes);
  g_autofree char *club = club_words (&planned->shot, units), *ends = end_words (planned, units);
  g_autofree char *aim = reason != NULL ? g_strdup (reason) : aim_words (planned, hole, hole_name, units);
  gtk_label_set_text (self->number, figure);
  gtk_label_set_text (self->club, club);
  gtk_label_set_text (self->strokes, strokes);
  set_unbroken (self->aim, aim);
  set_unbroken (self->ends, ends);
  g_free (self->spoken);
  if (g_str_has_suffix (aim, ".")) /* reasons are sentences already */
    aim[strlen (aim) - 1] = '\0';
  self->spoken
      = g_strdup_printf (_ ("Suggested shot %s: %s. %s. %s. Strokes to hole out: %s"), figure, club, aim, ends, strokes);
  speak (self);
}

GtkWidget *
hw_suggest_row_new (void)
{
  return g_object_new (HW_TYPE_SUGGEST_ROW, NULL);
}

static void
hw_suggest_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_SUGGEST_ROW);
  G_OBJECT_CLASS (hw_suggest_row_parent_class)->dispose (object);
}

static void
hw_suggest_row_finalize (GObject *object)
{
  g_free (HW_SUGGEST_ROW (object)->spoken);
  G_OBJECT_CLASS (hw_suggest_row_parent_class)->finalize (object);
}

static void
hw_suggest_row_class_init (HwSuggestRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_suggest_row_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_suggest_row_finalize;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/suggest-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwSuggestRow, number);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestRow, club);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestRow, strokes);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestRow, aim);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestRow, ends);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestRow, more);
}

static void
hw_suggest_row_init (HwSuggestRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
