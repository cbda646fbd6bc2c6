// SPDX-License-Identifier: GPL-3.0-or-later
/* carry-row - its labels change in place, and only where the text changes, because they follow the pointer at every frame. */
#include "carry-row.h"

#include "inscribe.h"
#include "sketch.h"

#include <glib/gi18n.h>

/* Longest name of an area that is shown in full. */
#define LABEL_SIZE 96
/* Columns of figures that need more characters than this together stand under the name, not beside it. */
#define MOST_BESIDE 24

struct _HwCarryRow
{
  GtkListBoxRow parent_instance;
  HwSketch *swatch;
  GtkBox *texts;
  GtkInscription *name, *reach, *carry, *chance;
  Kind kind;
  Stakes stakes;
};

G_DEFINE_FINAL_TYPE (HwCarryRow, hw_carry_row, GTK_TYPE_LIST_BOX_ROW)

static void
draw_swatch (HwSketch *swatch, cairo_t *cr, int width, int height, gpointer user_data)
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

/* The texts of a row; `spoken` is what a screen reader says. */
typedef struct
{
  char *name, *spoken;
  char reach[UNITS_TEXT_SIZE + 8], carry[UNITS_TEXT_SIZE], chance[48];
} RowTexts;

static void
show_texts (HwCarryRow *self, const Hole *hole, size_t part, RowTexts *texts)
{
  bool changed = hw_inscribe (self->name, texts->name);
  changed |= hw_inscribe (self->reach, texts->reach);
  changed |= hw_inscribe (self->carry, texts->carry);
  changed |= hw_inscribe (self->chance, texts->chance);
  Kind kind = hole_part (hole, part)->kind;
  Stakes stakes = hole_stakes (hole, part);
  if (self->kind != kind || self->stakes != stakes)
    {
      self->kind = kind;
      self->stakes = stakes;
      gtk_widget_queue_draw (GTK_WIDGET (self->swatch));
    }
  if (changed)
    hw_speak_later (GTK_WIDGET (self), texts->spoken);
  g_free (texts->name);
  g_free (texts->spoken);
}

void
hw_carry_row_show (HwCarryRow *self, const Hole *hole, const ShotResult *shot, const CarryRow *row, LengthUnit units)
{
  RowTexts texts = { .name = print_name (hole_part (hole, row->part)) };
  print_chance (texts.chance, sizeof texts.chance, shot, row);
  if (row->side == SIDE_ON)
    {
      units_print_whole (row->reach_m, units, texts.reach, sizeof texts.reach);
      units_print_whole (row->carry_m, units, texts.carry, sizeof texts.carry);
    }
  else
    {
      char gap[UNITS_TEXT_SIZE];
      units_print_whole (row->gap_m, units, gap, sizeof gap);
      g_snprintf (texts.reach, sizeof texts.reach, row->side == SIDE_LEFT ? _ ("%s L") : _ ("%s R"), gap);
    }
  texts.spoken = print_spoken (row->side, texts.name, texts.reach, texts.carry, texts.chance);
  show_texts (self, hole, row->part, &texts);
}

void
hw_carry_row_show_trees (HwCarryRow *self, const Hole *hole, const TreeRow *row, LengthUnit units)
{
  RowTexts texts = { .name = print_name (hole_part (hole, row->part)) };
  char height[UNITS_TEXT_SIZE];
  g_autofree char *passed = NULL;
  units_print_whole (row->near_m, units, texts.reach, sizeof texts.reach);
  g_snprintf (texts.chance, sizeof texts.chance, _ ("past %.0f %%"), 100 * fmin (row->chance, MOST_CHANCE_SHOWN));
  if (isnan (row->clearance_m))
    {
      g_strlcpy (texts.carry, _ ("side"), sizeof texts.carry);
      passed = g_strdup (_ ("beside the ball’s way"));
    }
  else
    {
      units_print_decimals (unit_height_from_metres (units, fabs (row->clearance_m)), 0, height, sizeof height);
      g_snprintf (texts.carry, sizeof texts.carry, row->clearance_m < 0 ? "−%s" : "+%s", height);
      const char *format = row->clearance_m < 0 ? _ ("the ball flies in %s %s below the top") : _ ("cleared by %s %s");
      passed = g_strdup_printf (format, height, unit_height_suffix (units));
    }
  texts.spoken = g_strdup_printf (_ ("%s at %s: %s, %s"), texts.name, texts.reach, passed, texts.chance);
  show_texts (self, hole, row->part, &texts);
}

/* The name in full, where the column cuts it off. Told when it is asked for: to set a tooltip GTK asks the display where the pointer is, at every name. */
static gboolean
on_query_tooltip_cb (HwCarryRow *self, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  gtk_tooltip_set_text (tooltip, gtk_inscription_get_text (self->name));
  return TRUE;
}

GtkWidget *
hw_carry_row_new (void)
{
  return g_object_new (HW_TYPE_CARRY_ROW, NULL);
}

void
hw_carry_row_align (HwCarryRow *self, GtkBox *head, GtkSizeGroup *reach, GtkSizeGroup *carry, GtkSizeGroup *chance)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (head), gtk_orientable_get_orientation (GTK_ORIENTABLE (self->texts)));
  gtk_box_set_spacing (head, gtk_box_get_spacing (self->texts));
  gtk_size_group_add_widget (reach, GTK_WIDGET (self->reach));
  gtk_size_group_add_widget (carry, GTK_WIDGET (self->carry));
  gtk_size_group_add_widget (chance, GTK_WIDGET (self->chance));
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
  g_type_ensure (HW_TYPE_SKETCH);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/carry-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, swatch);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, texts);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, name);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, reach);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, carry);
  gtk_widget_class_bind_template_child (widget_class, HwCarryRow, chance);
}

/* No column but the name's may cut off its text, however long its words are in the golfer's language; nor may they leave the name no room. */
static void
hold_longest (HwCarryRow *self)
{
  static const char longest_number[] = "888";
  g_autofree char *left = g_strdup_printf (_ ("%s L"), longest_number), *right = g_strdup_printf (_ ("%s R"), longest_number);
  g_autofree char *over = g_strdup_printf (_ ("over %.0f %%"), 100 * MOST_CHANCE_SHOWN),
                  *short_of = g_strdup_printf (_ ("short %.0f %%"), 100 * MOST_CHANCE_SHOWN),
                  *into = g_strdup_printf (_ ("into %.0f %%"), 100 * MOST_CHANCE_SHOWN),
                  *past = g_strdup_printf (_ ("past %.0f %%"), 100 * MOST_CHANCE_SHOWN);
  hw_inscription_hold (self->reach, (const char *[]){ left, right }, 2);
  hw_inscription_hold (self->carry, (const char *[]){ longest_number, _ ("side") }, 2);
  hw_inscription_hold (self->chance, (const char *[]){ over, short_of, into, past }, 4);
  guint n_figures = gtk_inscription_get_min_chars (self->reach) + gtk_inscription_get_min_chars (self->carry)
                    + gtk_inscription_get_min_chars (self->chance);
  if (n_figures <= MOST_BESIDE)
    return;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->texts), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (self->texts, 0);
}

static void
hw_carry_row_init (HwCarryRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hold_longest (self);
  hw_sketch_set_draw (self->swatch, draw_swatch, self);
  gtk_widget_set_has_tooltip (GTK_WIDGET (self), TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (on_query_tooltip_cb), NULL);
}
