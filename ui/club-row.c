// SPDX-License-Identifier: GPL-3.0-or-later
/* club-row - its texts change in place, because they follow the wind while it is turned. */
#include "club-row.h"

#include "inscribe.h"

#include <glib/gi18n.h>

/* Changes smaller than this are none, in the unit shown. */
#define LEAST_SHOWN 0.5

struct _HwClubRow
{
  GtkListBoxRow parent_instance;
  GtkInscription *club, *carry, *change, *run, *side;
};

G_DEFINE_FINAL_TYPE (HwClubRow, hw_club_row, GTK_TYPE_LIST_BOX_ROW)

/* "+6", "−12"; nothing for what rounds to nothing. */
static void
print_change (char *text, size_t size, double length_m, LengthUnit units)
{
  char number[UNITS_TEXT_SIZE];
  units_print_whole (fabs (length_m), units, number, sizeof number);
  bool is_some = fabs (unit_from_metres (units, length_m)) >= LEAST_SHOWN;
  g_snprintf (text, size, is_some ? (length_m < 0 ? "−%s" : "+%s") : "", number);
}

/* "4 R"; nothing for what rounds to nothing. */
static void
print_side (char *text, size_t size, double side_m, LengthUnit units)
{
  char number[UNITS_TEXT_SIZE];
  units_print_whole (fabs (side_m), units, number, sizeof number);
  bool is_some = fabs (unit_from_metres (units, side_m)) >= LEAST_SHOWN;
  g_snprintf (text, size, is_some ? (side_m < 0 ? _ ("%s L") : _ ("%s R")) : "", number);
}

void
hw_club_row_show (HwClubRow *self, const ClubDay *day, LengthUnit units)
{
  char carry[UNITS_TEXT_SIZE] = "", run[UNITS_TEXT_SIZE] = "", change[UNITS_TEXT_SIZE + 8] = "", side[UNITS_TEXT_SIZE + 8] = "";
  const ClubToday *today = &day->today;
  bool flies = isfinite (today->carry_m);
  if (flies)
    {
      units_print_whole (today->carry_m, units, carry, sizeof carry);
      units_print_whole (today->run_m, units, run, sizeof run);
      print_change (change, sizeof change, isfinite (day->carry_change_m) ? day->carry_change_m : 0, units);
      print_side (side, sizeof side, today->side_m, units);
    }
  bool changed = hw_inscribe (self->club, today->club->name);
  changed |= hw_inscribe (self->carry, flies ? carry : "–");
  changed |= hw_inscribe (self->change, change);
  changed |= hw_inscribe (self->run, run);
  changed |= hw_inscribe (self->side, side);
  if (!changed)
    return;
  g_autofree char *spoken = flies ? g_strdup_printf (_ ("%s: carry %s, change %s, run %s, side %s"), today->club->name, carry,
                                                     *change != '\0' ? change : "0", run, *side != '\0' ? side : "0")
                                  : g_strdup_printf (_ ("%s: does not fly on this day"), today->club->name);
  hw_speak_later (GTK_WIDGET (self), spoken);
}

GtkWidget *
hw_club_row_new (void)
{
  return g_object_new (HW_TYPE_CLUB_ROW, NULL);
}

static void
hw_club_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_CLUB_ROW);
  G_OBJECT_CLASS (hw_club_row_parent_class)->dispose (object);
}

static void
hw_club_row_class_init (HwClubRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_club_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/club-row.ui");
  gtk_widget_class_bind_template_child (widget_class, HwClubRow, club);
  gtk_widget_class_bind_template_child (widget_class, HwClubRow, carry);
  gtk_widget_class_bind_template_child (widget_class, HwClubRow, change);
  gtk_widget_class_bind_template_child (widget_class, HwClubRow, run);
  gtk_widget_class_bind_template_child (widget_class, HwClubRow, side);
}

static void
hw_club_row_init (HwClubRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
