// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-fit-row - the figures stand under each other where there is room, and wrap where there is none: each is a small box of its own. */
#include "bag-fit-row.h"

#include "bag-columns.h"

#include <glib/gi18n.h>

#define LENGTH_DECIMALS 1
#define SHARE_DECIMALS 0
#define CORRELATION_DECIMALS 2
/* Least width of a figure, in letters: "-12.3 ± 4.5". */
#define FIGURE_CHARS 11

struct _HwBagFitRow
{
  GtkListBoxRow parent_instance;
  GtkCheckButton *tick;
  GtkFlowBox *figures;
};

G_DEFINE_FINAL_TYPE (HwBagFitRow, hw_bag_fit_row, GTK_TYPE_LIST_BOX_ROW)

static guint ticked_signal;

bool
hw_bag_fit_row_is_ticked (HwBagFitRow *self)
{
  return gtk_check_button_get_active (self->tick);
}

void
hw_bag_fit_row_tick (HwBagFitRow *self, bool is_ticked)
{
  gtk_check_button_set_active (self->tick, is_ticked);
}

static GtkWidget *
label_new (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, style);
  return label;
}

static void
add_figure (HwBagFitRow *self, const char *caption, Figure figure, double scale, int decimals)
{
  g_autofree char *words = hw_bag_figure_words (figure.value, figure.se, scale, decimals);
  g_autofree char *spoken = g_strdup_printf ("%s %s", caption, words);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *number = label_new (words, "figures");
  gtk_label_set_width_chars (GTK_LABEL (number), FIGURE_CHARS);
  gtk_box_append (GTK_BOX (box), label_new (caption, "caption"));
  gtk_box_append (GTK_BOX (box), number);
  gtk_flow_box_append (self->figures, box);
  GtkWidget *cell = gtk_widget_get_parent (box);
  gtk_widget_set_focusable (cell, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (cell), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static void
add_figures (HwBagFitRow *self, const ClubFit *fit, LengthUnit units)
{
  double per_m = unit_from_metres (units, 1);
  add_figure (self, _ ("carry"), fit->carry_m, per_m, LENGTH_DECIMALS);
  add_figure (self, _ ("± long"), fit->carry_sd_m, per_m, LENGTH_DECIMALS);
  add_figure (self, _ ("± side"), fit->side_sd_m, per_m, LENGTH_DECIMALS);
  add_figure (self, _ ("bias"), fit->side_bias_m, per_m, LENGTH_DECIMALS);
  add_figure (self, _ ("correlation"), fit->correlation, 1, CORRELATION_DECIMALS);
  add_figure (self, _ ("poor strikes, %"), fit->mishit_chance, 100, SHARE_DECIMALS);
  add_figure (self, _ ("their carry, %"), fit->mishit_carry_share, 100, SHARE_DECIMALS);
}

/* "24 shots", and what they are too few for. Free with g_free. */
static char *
shots_words (const ClubFit *fit)
{
  g_autofree char *shots = g_strdup_printf (g_dngettext (NULL, "%zu shot", "%zu shots", fit->n_shots), fit->n_shots);
  switch (club_fit_worth (fit))
    {
    case FIT_TELLS_NO_SPREAD:
      return g_strdup_printf (_ ("%s: too few to tell the spread"), shots);
    case FIT_TELLS_NO_MISHITS:
      return g_strdup_printf (_ ("%s: too few to tell poor strikes apart"), shots);
    case FIT_TELLS_ALL:
      break;
    }
  return g_steal_pointer (&shots);
}

/* Free with g_free. */
static char *
present_words (const Club *present, LengthUnit units)
{
  char carry[UNITS_TEXT_SIZE];
  if (present == NULL)
    return g_strdup (_ ("new in the bag"));
  units_print_length (present->carry_m, units, carry, sizeof carry);
  return g_strdup_printf (_ ("in the bag: %s"), carry);
}

static void
on_toggled_cb (HwBagFitRow *self)
{
  g_signal_emit (self, ticked_signal, 0);
}

static void
hw_bag_fit_row_class_init (HwBagFitRowClass *klass)
{
  ticked_signal = g_signal_new ("ticked", HW_TYPE_BAG_FIT_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_bag_fit_row_init (HwBagFitRow *self)
{
  self->tick = GTK_CHECK_BUTTON (gtk_check_button_new ());
  self->figures = GTK_FLOW_BOX (gtk_flow_box_new ());
  gtk_flow_box_set_selection_mode (self->figures, GTK_SELECTION_NONE);
  gtk_flow_box_set_max_children_per_line (self->figures, 7);
  gtk_flow_box_set_column_spacing (self->figures, 8);
  gtk_widget_set_margin_start (GTK_WIDGET (self->figures), 24);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->figures), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Figures"), -1);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (self), FALSE);
  gtk_widget_set_focusable (GTK_WIDGET (self), FALSE);
  g_signal_connect_swapped (self->tick, "toggled", G_CALLBACK (on_toggled_cb), self);
}

GtkWidget *
hw_bag_fit_row_new (const ClubFit *fit, const Club *present, LengthUnit units)
{
  HwBagFitRow *self = g_object_new (HW_TYPE_BAG_FIT_ROW, NULL);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2), *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 10);
  g_autofree char *shots = shots_words (fit), *now = present_words (present, units);
  g_autofree char *spoken = g_strdup_printf ("%s, %s, %s", fit->club, shots, now);
  gtk_check_button_set_label (self->tick, fit->club);
  gtk_check_button_set_active (self->tick, club_fit_worth (fit) != FIT_TELLS_NO_SPREAD);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->tick), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  GtkWidget *counted = label_new (shots, "caption"), *kept = label_new (now, "caption");
  gtk_label_set_wrap (GTK_LABEL (counted), TRUE);
  gtk_label_set_wrap (GTK_LABEL (kept), TRUE);
  gtk_widget_set_hexpand (counted, TRUE);
  gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->tick));
  gtk_box_append (GTK_BOX (head), counted);
  gtk_box_append (GTK_BOX (head), kept);
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (self->figures));
  add_figures (self, fit, units);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  return GTK_WIDGET (self);
}
