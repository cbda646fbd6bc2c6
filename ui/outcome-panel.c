// SPDX-License-Identifier: GPL-3.0-or-later
/* outcome-panel - the odds with every change of the results, while it is seen; the rest when the solver has an answer. */
#include "outcome-panel.h"

#include "figure.h"
#include "odds-row.h"
#include "plan-ends.h"
#include "rows.h"

#include <glib/gi18n.h>

/* Of the odds, the dearest ends. */
#define MOST_ROWS 6
/* While something is dragged, odds that take longer are left to the solver's worker and follow a frame or two behind the pointer. */
#define MOST_IN_FRAME_US 1200

struct _HwOutcomePanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  HwSolver *solver;
  bool wants_odds;     /* as the document was told */
  gint64 took_us;      /* to find the odds last, of the processor's time */
  StrokesTable *table; /* prices where a ball may end, for the order of the list */
  Level table_level;

  GtkWidget *content, *choices_box;
  HwFigure *strokes, *cost;
  GtkLabel *number, *trouble;
  GtkListBox *odds_list, *choice_list;
};

G_DEFINE_FINAL_TYPE (HwOutcomePanel, hw_outcome_panel, GTK_TYPE_WIDGET)

static const StrokesTable *
panel_table (HwOutcomePanel *self)
{
  Level level = hw_settings_get_level (hw_document_get_settings (self->document));
  if (self->table == NULL || self->table_level != level)
    {
      g_clear_pointer (&self->table, strokes_table_free);
      self->table = strokes_table_new (level);
      self->table_level = level;
    }
  return self->table;
}

/* `odds` NULL: `error` says why there are none. */
static void
show_odds (HwOutcomePanel *self, const OddsTable *odds, const GError *error, const ShotResult *shot)
{
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), odds == NULL);
  if (odds == NULL)
    gtk_label_set_text (self->trouble, error->message);
  ShotEnd ends[N_KINDS];
  size_t n = odds != NULL ? plan_ends (odds, panel_table (self), shot->left_m, ends) : 0;
  n = MIN (n, MOST_ROWS);
  for (size_t i = 0; i < n; i++)
    hw_odds_row_show (HW_ODDS_ROW (hw_rows_at (self->odds_list, i, hw_odds_row_new)), ends[i].kind, ends[i].chance);
  hw_rows_hide_from (self->odds_list, n);
}

/* What this aim costs over the best of the club's: on the map that still holds, so that it follows the pointer too. */
static void
show_cost (HwOutcomePanel *self, const PlanScene *scene)
{
  const AimMap *aims = hw_solver_get_aims (self->solver);
  double cost = aims != NULL ? aim_map_strokes (aims, scene->shots[scene->current].aim) - aims->best.strokes : NAN;
  g_autofree char *text = NULL;
  if (isnan (cost))
    text = g_strdup ("");
  else if (cost < ENDS_LEAST_COST_STROKES)
    text = g_strdup (_ ("the best aim of this club"));
  else
    text = g_strdup_printf (_ ("this aim costs %.2f over the club’s best"), cost);
  hw_figure_set_text (self->cost, text);
}

/* ---- what the solver knows ---- */

static GtkWidget *
choice_row_new (void)
{
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *club = gtk_label_new (NULL), *over = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (club), 0);
  gtk_label_set_ellipsize (GTK_LABEL (club), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (club, TRUE);
  gtk_widget_add_css_class (over, "figures");
  gtk_widget_add_css_class (over, "strong");
  gtk_box_append (GTK_BOX (box), club);
  gtk_box_append (GTK_BOX (box), over);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  return row;
}

/* "3 wood · leaves 156", "+0.05". */
static void
show_choice (HwOutcomePanel *self, GtkListBoxRow *row, const ClubChoice *choice)
{
  char left[UNITS_TEXT_SIZE], over[32];
  units_print_whole (choice->outcome.left_m, hw_document_get_units (self->document), left, sizeof left);
  g_autofree char *club = g_strdup_printf (_ ("%s · leaves %s"), choice->club->name, left);
  if (choice->over_best == 0)
    g_snprintf (over, sizeof over, "%.2f", choice->best.strokes);
  else
    g_snprintf (over, sizeof over, choice->over_best < 0 ? "−%.2f" : "+%.2f", fabs (choice->over_best));
  GtkWidget *box = gtk_list_box_row_get_child (row);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_first_child (box)), club);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_last_child (box)), over);
  g_autofree char *spoken = g_strdup_printf (_ ("%s: %s strokes"), club, over);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

static const char *
translated (const char *text)
{
  return _ (text);
}

static void
on_answered_cb (HwOutcomePanel *self)
{
  const HwAnswer *answer = hw_solver_get_answer (self->solver);
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (answer == NULL || scene->n_shots == 0)
    return;
  char strokes[32] = "";
  if (answer->has_strokes)
    g_snprintf (strokes, sizeof strokes, "%.2f", answer->strokes.strokes);
  hw_figure_set_text (self->strokes, strokes);
  show_cost (self, scene);
  g_autofree char *words
      = answer->has_approach ? approach_words (&answer->approach, hw_document_get_units (self->document), translated) : NULL;
  gtk_widget_set_visible (GTK_WIDGET (self->number), words != NULL);
  if (words != NULL)
    gtk_label_set_text (self->number, words);
  for (size_t i = 0; i < answer->n_choices; i++)
    show_choice (self, hw_rows_at (self->choice_list, i, choice_row_new), &answer->choices[i]);
  hw_rows_hide_from (self->choice_list, answer->n_choices);
  gtk_widget_set_visible (self->choices_box, answer->n_choices > 0);
}

/* ---- following the document ---- */

static void
find_odds (HwOutcomePanel *self)
{
  const HwFoundOdds *found = hw_document_get_odds (self->document);
  self->took_us = found->took_us;
  hw_solver_leave_odds (self->solver); // what it still has to tell is older
  show_odds (self, found->table, found->error, &found->shot);
}

/* Frames of a drag are not kept waiting for odds that take long. */
static bool
is_slow (HwOutcomePanel *self)
{
  return hw_document_is_dragging (self->document) && self->took_us > MOST_IN_FRAME_US;
}

static void
want_odds (HwOutcomePanel *self, bool wants_odds)
{
  self->wants_odds = wants_odds;
  hw_document_want_odds (self->document, wants_odds);
}

/* Nor does the main thread find them in a drag where they were not begun beside it. */
static void
follow_odds (HwOutcomePanel *self)
{
  if (is_slow (self) || (hw_document_is_dragging (self->document) && !self->wants_odds))
    hw_solver_want_odds (self->solver);
  else
    find_odds (self);
  want_odds (self, !is_slow (self));
}

static void
on_odds_cb (HwOutcomePanel *self)
{
  const HwFoundOdds *found = hw_solver_get_odds (self->solver);
  self->took_us = found->took_us;
  if (hw_document_get_scene (self->document)->n_shots > 0 && gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_odds (self, found->table, found->error, &found->shot);
}

/* What an aim costs is told from the map, the rest when there is an answer. */
static void
on_mapped_cb (HwOutcomePanel *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (scene->n_shots > 0 && gtk_widget_get_mapped (GTK_WIDGET (self)))
    show_cost (self, scene);
}

static void
on_results_changed_cb (HwOutcomePanel *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (scene->n_shots == 0 || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    {
      want_odds (self, false);
      return;
    }
  follow_odds (self);
  show_cost (self, scene);
  if (!hw_document_is_dragging (self->document) && hw_solver_get_answer (self->solver) == NULL)
    hw_figure_set_text (self->strokes, "…");
}

static void
on_map_cb (HwOutcomePanel *self)
{
  if (self->document == NULL)
    return;
  on_results_changed_cb (self);
  on_answered_cb (self);
}

void
hw_outcome_panel_set_document (HwOutcomePanel *self, HwDocument *document, HwSolver *solver)
{
  self->document = g_object_ref (document);
  self->solver = g_object_ref (solver);
  g_signal_connect_object (document, "results-told", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (solver, "answered", G_CALLBACK (on_answered_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (solver, "mapped", G_CALLBACK (on_mapped_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (solver, "odds", G_CALLBACK (on_odds_cb), self, G_CONNECT_SWAPPED);
}

static void
hw_outcome_panel_dispose (GObject *object)
{
  HwOutcomePanel *self = HW_OUTCOME_PANEL (object);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_OUTCOME_PANEL);
  g_clear_object (&self->document);
  g_clear_object (&self->solver);
  g_clear_pointer (&self->table, strokes_table_free);
  G_OBJECT_CLASS (hw_outcome_panel_parent_class)->dispose (object);
}

static void
hw_outcome_panel_class_init (HwOutcomePanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_outcome_panel_dispose;
  g_type_ensure (HW_TYPE_FIGURE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/outcome-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, content);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, choices_box);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, strokes);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, cost);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, number);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, trouble);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, odds_list);
  gtk_widget_class_bind_template_child (widget_class, HwOutcomePanel, choice_list);
}

static void
hw_outcome_panel_init (HwOutcomePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  g_signal_connect (self, "map", G_CALLBACK (on_map_cb), NULL);
}
