// SPDX-License-Identifier: GPL-3.0-or-later
/* compare-row - one of several plans beside one another: its line on the drawing, its first club, its expected score, what it costs more and why. */
#ifndef HW_COMPARE_ROW_H
#define HW_COMPARE_ROW_H

#include "plan-compare.h"

#include <gtk/gtk.h>

#define HW_TYPE_COMPARE_ROW (hw_compare_row_get_type ())
G_DECLARE_FINAL_TYPE (HwCompareRow, hw_compare_row, HW, COMPARE_ROW, GtkListBoxRow)

/* The look of the golfer's own plan, which the drawing shows as ever. */
#define HW_COMPARE_OWN -1

typedef struct
{
  int track; /* place among the tracks that are drawn, or HW_COMPARE_OWN */
  const char *name;
  const Plan *plan;
  const PlanDifference *difference; /* to the best; NULL: it is the best */
  double as_drawn;                  /* expected score with every shot as it is drawn; NAN: not told */
  int choice;                       /* PlanChoice that the button takes over; below 0: no button */
} HwCompared;

GtkWidget *hw_compare_row_new (void);
void hw_compare_row_show (HwCompareRow *self, const HwCompared *compared, LengthUnit units);

#endif
