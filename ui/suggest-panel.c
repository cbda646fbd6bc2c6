// SPDX-License-Identifier: GPL-3.0-or-later
/* suggest-panel - words what the planner found; nothing of it changes while an aim is dragged. */
#include "suggest-panel.h"

#include "compare-row.h"
#include "rows.h"
#include "score-row.h"
#include "suggest-row.h"
#include "wind-finder.h"

#include <glib/gi18n.h>

/* Scores less likely than this at either end are told with their neighbour. */
#define LEAST_CHANCE 0.01
/* The pointer rests when nothing followed it for so long. */
#define REST_MS 200

struct _HwSuggestPanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  HwPlanner *planner;
  HwWindFinder *winds;
  const HwSuggestion *worded; /* what the lists tell; to be compared only */
  LengthUnit worded_units;
  guint rest;      /* timer of what is put off; 0: nothing is */
  bool has_rested; /* while it is brought up */

  GtkWidget *content, *busy_box, *answer_box;
  GtkProgressBar *progress;
  GtkLabel *trouble, *strokes, *state;
  GtkListBox *compare_list, *shot_list, *score_list;
};

G_DEFINE_FINAL_TYPE (HwSuggestPanel, hw_suggest_panel, GTK_TYPE_WIDGET)

/* ---- what was found ---- */

static const char *
translated (const char *text)
{
  return _ (text);
}

static void
show_shots (HwSuggestPanel *self, const HwSuggestion *suggestion, LengthUnit units)
{
  const Plan *plan = &suggestion->plans[PLAN_SUGGESTED];
  const Hole *hole = hw_document_get_hole (self->document);
  const Part *written = hw_document_get_plan (self->document);
  for (size_t i = 0; i < plan->n_shots; i++)
    {
      g_autofree char *reason = suggestion->has_reason[i] ? plan_reason_words (suggestion->solution, &plan->shots[i],
                                                                               &suggestion->reasons[i], units, translated)
                                                          : NULL;
      hw_suggest_row_show (HW_SUGGEST_ROW (hw_rows_at (self->shot_list, i, hw_suggest_row_new)), i + 1, &plan->shots[i], hole,
                           written != NULL ? written->hole_name : NULL, reason, units);
    }
  hw_rows_hide_from (self->shot_list, plan->n_shots);
}

/* A bar for each score that is worth a thought; what is likelier to be more than the last is told with it. */
static void
show_scores (HwSuggestPanel *self, const Plan *plan)
{
  int par = hole_info (hw_document_get_hole (self->document))->par, low = 1, high = PLAN_MOST_SCORE;
  while (low < high && plan->chances[low] < LEAST_CHANCE)
    low++;
  double beyond = plan->chances[high];
  while (high > low && beyond + plan->chances[high - 1] < LEAST_CHANCE)
    beyond += plan->chances[--high];
  bool is_open = beyond > 0 && high > low;
  double most = 0;
  for (int score = low; score <= high; score++)
    most = fmax (most, plan->chances[score]);
  size_t n = 0;
  for (int score = low; score <= high; score++)
    {
      bool is_least = is_open && score == high;
      double chance = is_least ? beyond : plan->chances[score];
      g_autofree char *name = hw_score_words (score, par, is_least);
      hw_score_row_show (HW_SCORE_ROW (hw_rows_at (self->score_list, n++, hw_score_row_new)), name, chance,
                         most > 0 ? chance / most : 0);
    }
  hw_rows_hide_from (self->score_list, n);
}

/* Of the tee shot: how sure its club is, and at what wind it is another. */
static void
show_more (HwSuggestPanel *self, const HwSuggestion *suggestion, LengthUnit units)
{
  g_autoptr (GString) more = g_string_new (NULL);
  if (suggestion->is_sure_known)
    {
      g_autofree char *words = plan_sureness_words (&suggestion->sure, translated);
      g_string_append (more, words);
    }
  const PlanWind *wind = hw_wind_finder_get (self->winds);
  g_autofree char *wind_words = wind != NULL ? plan_wind_words (wind, units, translated) : NULL;
  if (wind_words != NULL)
    g_string_append_printf (more, "%s%s", more->len > 0 ? "\n" : "", wind_words);
  if (hw_wind_finder_is_busy (self->winds))
    g_string_append_printf (more, "%s%s", more->len > 0 ? "\n" : "", _ ("Other winds are being looked at…"));
  for (size_t i = 0; i < suggestion->plans[PLAN_SUGGESTED].n_shots; i++)
    hw_suggest_row_show_more (HW_SUGGEST_ROW (hw_rows_at (self->shot_list, i, hw_suggest_row_new)), i == 0 ? more->str : "");
}

/* The golfer's own plan among the others, which it follows as it is dragged. */
static void
show_compared (HwSuggestPanel *self, const HwSuggestion *suggestion, LengthUnit units)
{
  bool is_compared = hw_planner_is_compared (self->planner) && !suggestion->is_first;
  gtk_widget_set_visible (GTK_WIDGET (self->compare_list), is_compared);
  if (!is_compared)
    return;
  size_t n = 0;
  int track = 0;
  const HwOwnPlan *own = hw_planner_get_own (self->planner);
  for (int choice = -1; choice < N_PLAN_CHOICES; choice++)
    {
      HwCompared compared = { .choice = choice, .as_drawn = NAN };
      if (choice < 0 ? own == NULL : !suggestion->has_plan[choice])
        continue;
      if (choice < 0)
        {
          compared.track = HW_COMPARE_OWN;
          compared.name = _ ("yours");
          compared.plan = &own->own.plan;
          compared.difference = &own->difference;
          compared.as_drawn = own->own.plan.n_shots > 1 ? own->own.as_drawn : NAN;
        }
      else
        {
          compared.track = track++;
          compared.name = hw_plan_choice_words ((PlanChoice)choice);
          compared.plan = &suggestion->plans[choice];
          compared.difference = choice == PLAN_SUGGESTED ? NULL : &suggestion->differences[choice];
          if (choice == PLAN_SUGGESTED)
            compared.choice = -1; // it has a button below
        }
      hw_compare_row_show (HW_COMPARE_ROW (hw_rows_at (self->compare_list, n++, hw_compare_row_new)), &compared, units);
    }
  hw_rows_hide_from (self->compare_list, n);
}

static const char *
state_words (HwSuggestPanel *self, const HwSuggestion *suggestion, bool is_busy)
{
  if (!hw_planner_is_current (self->planner))
    return is_busy ? _ ("Out of date; it is being worked out again.")
                   : _ ("Out of date: the drawing, the day or the bag is another. Suggest works it out again.");
  return suggestion->is_first ? _ ("A first answer, good but for a tenth of a stroke; it is being refined.") : NULL;
}

static void
show_answer (HwSuggestPanel *self, const HwSuggestion *suggestion, bool is_busy)
{
  const char *state = state_words (self, suggestion, is_busy);
  gtk_widget_set_visible (GTK_WIDGET (self->state), state != NULL);
  if (state != NULL && g_strcmp0 (gtk_label_get_text (self->state), state) != 0)
    gtk_label_set_text (self->state, state);
  LengthUnit units = hw_document_get_units (self->document);
  show_compared (self, suggestion, units);
  if (suggestion == self->worded && units == self->worded_units)
    return;
  self->worded = suggestion;
  self->worded_units = units;
  const Plan *plan = &suggestion->plans[PLAN_SUGGESTED];
  char strokes[32];
  g_snprintf (strokes, sizeof strokes, "%.2f", plan->strokes);
  gtk_label_set_text (self->strokes, strokes);
  show_shots (self, suggestion, units);
  show_more (self, suggestion, units);
  show_scores (self, plan);
}

static void on_changed_cb (HwSuggestPanel *self);

static gboolean
on_rested_cb (gpointer panel)
{
  HwSuggestPanel *self = panel;
  self->rest = 0;
  self->has_rested = true;
  on_changed_cb (self);
  self->has_rested = false;
  return G_SOURCE_REMOVE;
}

/* Other words lay the panel out anew, which takes some frames: while something is dragged they come when the pointer rests. */
static bool
is_put_off (HwSuggestPanel *self, const HwSuggestion *suggestion)
{
  if (suggestion == NULL || suggestion == self->worded || self->has_rested || !hw_document_is_dragging (self->document))
    return false;
  g_clear_handle_id (&self->rest, g_source_remove);
  self->rest = g_timeout_add (REST_MS, on_rested_cb, self);
  return true;
}

static void
on_changed_cb (HwSuggestPanel *self)
{
  double share;
  bool is_busy = hw_planner_is_busy (self->planner, &share);
  const HwSuggestion *suggestion = hw_planner_get_suggestion (self->planner);
  const char *trouble = hw_planner_get_trouble (self->planner);
  if (is_put_off (self, suggestion))
    return;
  gtk_widget_set_visible (self->busy_box, is_busy);
  if (is_busy && gtk_progress_bar_get_fraction (self->progress) != share) // GTK would lay out the window anew
    gtk_progress_bar_set_fraction (self->progress, share);
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), trouble != NULL);
  if (trouble != NULL)
    gtk_label_set_text (self->trouble, trouble);
  gtk_widget_set_visible (self->answer_box, suggestion != NULL);
  if (suggestion != NULL)
    show_answer (self, suggestion, is_busy);
  else
    self->worded = NULL;
}

static void
on_winds_changed_cb (HwSuggestPanel *self)
{
  const HwSuggestion *suggestion = hw_planner_get_suggestion (self->planner);
  if (suggestion != NULL && suggestion == self->worded) // else it will be worded as a whole
    show_more (self, suggestion, self->worded_units);
}

/* Units may be others. What was put off waits for longer, or is due as something was let go. */
static void
on_results_changed_cb (HwSuggestPanel *self)
{
  if (self->rest != 0)
    {
      g_clear_handle_id (&self->rest, g_source_remove);
      on_changed_cb (self);
    }
  else if (self->worded != NULL && hw_document_get_units (self->document) != self->worded_units)
    on_changed_cb (self);
}

void
hw_suggest_panel_set_document (HwSuggestPanel *self, HwDocument *document, HwPlanner *planner)
{
  self->document = g_object_ref (document);
  self->planner = g_object_ref (planner);
  self->winds = hw_wind_finder_new (planner);
  g_signal_connect_object (planner, "changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->winds, "changed", G_CALLBACK (on_winds_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "results-told", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  on_changed_cb (self);
}

static void
hw_suggest_panel_dispose (GObject *object)
{
  HwSuggestPanel *self = HW_SUGGEST_PANEL (object);
  g_clear_handle_id (&self->rest, g_source_remove);
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_SUGGEST_PANEL);
  g_clear_object (&self->document);
  g_clear_object (&self->planner);
  g_clear_object (&self->winds);
  G_OBJECT_CLASS (hw_suggest_panel_parent_class)->dispose (object);
}

static void
hw_suggest_panel_class_init (HwSuggestPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_suggest_panel_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/suggest-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, content);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, busy_box);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, answer_box);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, progress);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, trouble);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, strokes);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, state);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, shot_list);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, compare_list);
  gtk_widget_class_bind_template_child (widget_class, HwSuggestPanel, score_list);
}

static void
hw_suggest_panel_init (HwSuggestPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
