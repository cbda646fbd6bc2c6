// SPDX-License-Identifier: GPL-3.0-or-later
/* carry-row - its labels change in place, and only where the text changes, because they follow the pointer at every frame. */
#include "carry-row.h"

#include "inscribe.h"

#include <glib/gi18n.h>

/* Longest name of an area that is shown in full. */
#define LABEL_SIZE 96

struct _HwCarryRow
{
  GtkListBoxRow parent_instance;
  GtkDrawingArea *swatch;
  GtkInscription *name, *reach, *carry, *chance;
  Kind kind;
  Stakes stakes;
};

G_DEFINE_FINAL_TYPE (HwCarryRow, hw_carry_row, GTK_TYPE_LIST_BOX_ROW)

static void
draw_swatch (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer user_data)
{
  HwCarryRow *self = user_data;
  render_swatch (cr, self->kind, self->stakes, 0.5, 0.5, width - 1, height - 1, 1);
}

/* What the shot does about it: flies over it, or stays short of it; whichever is likelier. */
static void
print_chance (char *text, size_t size, const ShotResult *shot, const CarryRow *row)
{
  if (row->side != SIDE_ON)
    {
      g_strlcpy (text, "", size);
      return;
    }
  double chance;
  Pass pass = carry_row_pass (shot, row, &chance);
  const char *formats[]
      = { [PASS_OVER] = _ ("over %.0f %%"), [PASS_SHORT] = _ ("short %.0f %%"), [PASS_INTO] = _ ("into %.0f %%") };
  g_snprintf (text, size, formats[pass], 100 * fmin (chance, MOST_CHANCE_SHOWN));
}

/* New text; a file's own names may be long and need not be well-formed where they were cut. */
static char *
print_name (const Part *part)
{
  char buffer[LABEL_SIZE];
  return g_utf8_make_valid (part_label (part, buffer, sizeof buffer), -1);
}

/* What a screen reader says; new text. */
static char *
print_spoken (Side side, const char *name, const char *reach, const char *carry, const char *chance)
{
  if (side == SIDE_LEFT)
    return g_strdup_printf (_ ("%s, left: %s off the line"), name, reach);
  if (side == SIDE_RIGHT)
    return g_strdup_printf (_ ("%s, right: %s off the line"), name, reach);
  return g_strdup_printf (_ ("%s: reach %s, carry %s, %s"), name, reach, carry, chance);
}

void
hw_carry_row_show (HwCarryRow *self, const Hole *hole, const ShotResult *shot, const CarryRow *row, LengthUnit units)
{
  const Part *part = hole_part (hole, row->part);
  char reach[UNITS_TEXT_SIZE + 8], carry[UNITS_TEXT_SIZE], chance[48];
  g_autofree char *name = print_name (part);
  print_chance (chance, sizeof chance, shot, row);
  if (row->side == SIDE_ON)
    {
      units_print_whole (row->reach_m, units, reach, sizeof reach);
      units_print_whole (row->carry_m, units, carry, sizeof carry);
    }
  else
    {
      char gap[UNITS_TEXT_SIZE];
      units_print_whole (row->gap_m, units, gap, sizeof gap);
      g_snprintf (reach, sizeof reach, row->side == SIDE_LEFT ? _ ("%s L") : _ ("%s R"), gap);
      g_strlcpy (carry, "", sizeof carry);
    }
  bool changed = hw_inscribe (self->name, name);
  if (changed)
    gtk_widget_set_tooltip_text (GTK_WIDGET (self), name); // in full, where the column cuts it off
  changed |= hw_inscribe (self->reach, reach);
  changed |= hw_inscribe (self->carry, carry);
  changed |= hw_inscribe (self->chance, chance);
  Stakes stakes = hole_stakes (hole, row->part);
  if (self->kind != part->kind || self->stakes != stakes)
    {
      self->kind = part->kind;
      self->stakes = stakes;
      gtk_widget_queue_draw (GTK_WIDGET (self->swatch));
    }
  if (!changed)
    return;
  g_autofree char *spoken = print_spoken (row->side, name, reach, carry, chance);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

GtkWidget *
hw_carry_row_new (void)
{
  return g_object_new (HW_TYPE_CARRY_ROW, NULL);
}

static void
hw_carry_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_CARRY_ROW);
  G_OBJECT_CLASS (hw_carry_row_parent_class)->dispose (object);
}

static void
hw_carry_row_class_init (HwCarryRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_carry_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/carry-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, swatch);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, name);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, reach);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, carry);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, chance);
}

static void
hw_carry_row_init (HwCarryRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (self->swatch, draw_swatch, self, NULL);
}
