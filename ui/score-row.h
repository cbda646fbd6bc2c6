// SPDX-License-Identifier: GPL-3.0-or-later
/* score-row - a score, a bar as long as it is likely, and the chance in per cent. */
#ifndef HW_SCORE_ROW_H
#define HW_SCORE_ROW_H

#include <gtk/gtk.h>
#include <stdbool.h>

#define HW_TYPE_SCORE_ROW (hw_score_row_get_type ())
G_DECLARE_FINAL_TYPE (HwScoreRow, hw_score_row, HW, SCORE_ROW, GtkListBoxRow)

GtkWidget *hw_score_row_new (void);
/* `name` says the score; the bar is `share` 0..1 of the row's longest. */
void hw_score_row_show (HwScoreRow *self, const char *name, double chance, double share);
/* What golfers call a score on a hole of this par (0: not known): "4 · par", "8 or more". Free with g_free. */
char *hw_score_words (int score, int par, bool is_least);

#endif
