// SPDX-License-Identifier: GPL-3.0-or-later
/* shot-row - one line of the plan. */
#include "shot-row.h"

#include "inscribe.h"

#include <glib/gi18n.h>

struct _HwShotRow
{
  GtkListBoxRow parent_instance;
  GtkLabel *number;
  GtkInscription *club, *carry;
};

G_DEFINE_FINAL_TYPE (HwShotRow, hw_shot_row, GTK_TYPE_LIST_BOX_ROW)

static const char *
shape_words (ShotShape shape)
{
  switch (shape)
    {
    case SHOT_DRAW:
      return _ ("draw");
    case SHOT_FADE:
      return _ ("fade");
    case SHOT_STRAIGHT:
      break;
    }
  return NULL;
}

void
hw_shot_row_show (HwShotRow *self, size_t number, const Shot *written, const ShotResult *result, LengthUnit units)
{
  char figure[16], carry[UNITS_TEXT_SIZE];
  g_snprintf (figure, sizeof figure, "%zu", number);
  units_print_whole (result->carry_m, units, carry, sizeof carry);
  g_autoptr (GString) words = g_string_new (result->club->name);
  const char *shape = shape_words (written->shape);
  if (shape != NULL)
    g_string_append_printf (words, " · %s", shape);
  if (result->swing < 1)
    g_string_append_printf (words, _ (" · %.0f %% swing"), 100 * result->swing);
  gtk_label_set_text (self->number, figure);
  bool changed = hw_inscribe (self->club, words->str);
  changed |= hw_inscribe (self->carry, carry);
  if (!changed)
    return;
  g_autofree char *spoken = g_strdup_printf (_ ("Shot %s: %s, carry %s"), figure, words->str, carry);
  hw_speak_later (GTK_WIDGET (self), spoken);
}

GtkWidget *
hw_shot_row_new (void)
{
  return g_object_new (HW_TYPE_SHOT_ROW, NULL);
}

static void
hw_shot_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_SHOT_ROW);
  G_OBJECT_CLASS (hw_shot_row_parent_class)->dispose (object);
}

static void
hw_shot_row_class_init (HwShotRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_shot_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/shot-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwShotRow, number);
  gtk_widget_class_bind_template_child (widget_class, HwShotRow, club);
  gtk_widget_class_bind_template_child (widget_class, HwShotRow, carry);
}

static void
hw_shot_row_init (HwShotRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
