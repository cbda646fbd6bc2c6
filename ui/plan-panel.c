// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-panel - follows the document's results; its rows are kept and changed in place while an aim is dragged. */
#include "plan-panel.h"

#include "bag-chooser.h"
#include "carry-row.h"
#include "day-panel.h"
#include "figure.h"
#include "odds-green.h"
#include "outcome-panel.h"
#include "piece.h"
#include "room-panel.h"
#include "rows.h"
#include "sentence.h"
#include "shot-panel.h"
#include "shot-row.h"
#include "suggest-panel.h"

#include <glib/gi18n.h>

/* A landing within this of the aim is said to be on it. */
#define ON_THE_AIM_M 0.5

struct _HwPlanPanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  Bag *listed_bag; /* in use when the bags were listed */
  bool is_showing; /* changes of the widgets come from the document, not from the golfer */
  bool has_no_results;
  unsigned n_told; /* how often the day was told to be another */
  Vec2 blown;    /* the day's wind as it was painted last, m/s, and where it came from, degrees */

  GtkLabel *green_heading;
  GtkWidget *scroller, *results, *green_box, *no_carries, *tree_box;
  GtkLabel *caption, *trouble;
  /* Inscriptions: changing their text does not lay out the window anew. */
  HwFigure *carry_number, *left_number, *club_words, *aim_words, *sights, *green_room, *tree_height, *tree_all, *front,
      *middle, *back;
  GtkBox *carry_table_head, *tree_table_head;
  GtkSizeGroup *reach_column, *carry_column, *chance_column;
  GtkListBox *carry_list, *tree_list, *shot_list;
  GtkFlowBox *switches;
  HwDayPanel *day_panel;
  HwBagChooser *bag_chooser;
  HwShotPanel *shot_panel;
  HwOutcomePanel *outcome_panel;
  HwSuggestPanel *suggest_panel;
  HwRoomPanel *room_panel;
  GtkWidget *
      bag_row; /* as the shot's panel within the results, and there also when there are none: another bag or club may mend that */
};

G_DEFINE_FINAL_TYPE (HwPlanPanel, hw_plan_panel, GTK_TYPE_WIDGET)

static void
set_whole (HwFigure *inscription, double length_m, LengthUnit units)
{
  char text[UNITS_TEXT_SIZE] = "";
  if (!isnan (length_m))
    units_print_whole (length_m, units, text, sizeof text);
  hw_figure_set_text (inscription, text);
}

/* ---- the parts of the panel ---- */

static void
show_caption (HwPlanPanel *self, const PlanScene *scene)
{
  int tee = hole_tee (scene->hole, NULL);
  g_autofree char *text = NULL;
  if (scene->current > 0 || tee < 0)
    text = g_strdup_printf (_ ("Shot %zu of %zu"), scene->current + 1, scene->n_shots);
  else
    {
      char buffer[96];
      const char *label = part_label (hole_part (scene->hole, (size_t)tee), buffer, sizeof buffer);
      text = g_strdup_printf (_ ("Shot %zu of %zu · from the %s tee"), scene->current + 1, scene->n_shots, label);
    }
  if (g_strcmp0 (gtk_label_get_text (self->caption), text) != 0)
    gtk_label_set_text (self->caption, text);
}

/* What the day and the ground make of the shot: where the ball stops, what the aim plays like, how much higher or lower it lands. */
static void
show_aim (HwPlanPanel *self, const ShotResult *shot, LengthUnit units)
{
  char rests[UNITS_TEXT_SIZE], aim[UNITS_TEXT_SIZE], plays[UNITS_TEXT_SIZE], rise[UNITS_TEXT_SIZE];
  units_print_whole (vec2_distance (shot->ball, shot->rest), units, rests, sizeof rests);
  units_print_whole (shot->aim_m, units, aim, sizeof aim);
  units_print_whole (shot->plays_m, units, plays, sizeof plays);
  units_print_decimals (unit_height_from_metres (units, fabs (shot->rise_m)), 0, rise, sizeof rise);
  g_autoptr (GString) words = g_string_new (NULL);
  g_string_append_printf (words, _ ("stops at %s · aim %s plays %s"), rests, aim, plays);
  if (!g_str_equal (rise, "0"))
    g_string_append_printf (words, shot->rise_m > 0 ? _ (" · %s %s up") : _ (" · %s %s down"), rise,
                            unit_height_suffix (units));
  hw_figure_set_text (self->aim_words, words->str);
}

static void
show_hero (HwPlanPanel *self, const ShotResult *shot, LengthUnit units)
{
  set_whole (self->carry_number, shot->carry_m, units);
  set_whole (self->left_number, shot->left_m, units);
  char beyond[UNITS_TEXT_SIZE];
  units_print_whole (fabs (shot->beyond_aim_m), units, beyond, sizeof beyond);
  g_autofree char *words = NULL;
  if (fabs (shot->beyond_aim_m) < ON_THE_AIM_M)
    words = g_strdup_printf (_ ("%s · on the aim"), shot->club->name);
  else if (shot->beyond_aim_m < 0)
    words = g_strdup_printf (_ ("%s · %s short of the aim"), shot->club->name, beyond);
  else
    words = g_strdup_printf (_ ("%s · %s past the aim"), shot->club->name, beyond);
  hw_figure_set_text (self->club_words, words);
  show_aim (self, shot, units);
}

/* By what to start it and where to see it finish. */
static void
show_sights (HwPlanPanel *self, const PlanScene *scene, LengthUnit units)
{
  Sights sights = odds_sights (scene->hole, NULL, &scene->shots[scene->current]);
  g_autofree char *words = sights_words (scene->hole, &sights, units, hw_translated);
  g_autofree char *unbroken = hw_unbroken (words);
  hw_figure_set_text (self->sights, unbroken);
}

static HwCarryRow *
carry_row_at (HwPlanPanel *self, GtkListBox *list, size_t i)
{
  bool is_new = gtk_list_box_get_row_at_index (list, (int)i) == NULL;
  HwCarryRow *row = HW_CARRY_ROW (hw_rows_at (list, i, hw_carry_row_new));
  if (is_new)
    hw_carry_row_align (row, list == self->carry_list ? self->carry_table_head : self->tree_table_head, self->reach_column,
                        self->carry_column, self->chance_column);
  return row;
}

static void
show_carries (HwPlanPanel *self, const PlanScene *scene, LengthUnit units)
{
  size_t n = 0;
  for (size_t i = 0; i < scene->carries->n_rows; i++)
    if (carry_row_is_telling (scene->hole, &scene->shots[scene->current], scene->carries, i))
      hw_carry_row_show (carry_row_at (self, self->carry_list, n++), scene->hole, &scene->shots[scene->current],
                         &scene->carries->rows[i], units);
  hw_rows_hide_from (self->carry_list, n);
  gtk_widget_set_visible (self->no_carries, n == 0);
}

/* From the ball where a club gets there, else from where this shot stops. */
static void
show_green (HwPlanPanel *self, const PlanScene *scene, LengthUnit units)
{
  GreenPlay play;
  const Bag *bag = hw_document_get_bag (self->document);
  bool has_green = odds_green_play (scene->hole, NULL, &scene->shots[scene->current], scene->clubs,
                                    bag != NULL ? bag_n_clubs (bag) : 0, &play);
  gtk_widget_set_visible (self->green_box, has_green);
  if (!has_green)
    return;
  const char *heading = play.is_reached ? _ ("To the green") : _ ("Then to the green");
  if (!g_str_equal (gtk_label_get_text (self->green_heading), heading))
    gtk_label_set_text (self->green_heading, heading);
  set_whole (self->front, play.numbers.front_m, units);
  set_whole (self->middle, play.numbers.hole_m, units);
  set_whole (self->back, play.numbers.back_m, units);
  char depth[UNITS_TEXT_SIZE], left[UNITS_TEXT_SIZE], right[UNITS_TEXT_SIZE];
  units_print_whole (play.numbers.depth_m, units, depth, sizeof depth);
  units_print_whole (play.numbers.left_m, units, left, sizeof left);
  units_print_whole (play.numbers.right_m, units, right, sizeof right);
  g_autofree char *room = g_strdup_printf (_ ("%s deep · room %s L, %s R"), depth, left, right);
  hw_figure_set_text (self->green_room, room);
}

static void
show_shots (HwPlanPanel *self, const PlanScene *scene, const Part *plan, LengthUnit units)
{
  for (size_t i = 0; i < scene->n_shots; i++)
    {
      GtkListBoxRow *row = hw_rows_at (self->shot_list, i, hw_shot_row_new);
      hw_shot_row_show (HW_SHOT_ROW (row), i + 1, &plan->shots[i], &scene->shots[i], units);
      if (i == scene->current && !gtk_list_box_row_is_selected (GTK_LIST_BOX_ROW (row)))
        gtk_list_box_select_row (self->shot_list, GTK_LIST_BOX_ROW (row));
    }
  hw_rows_hide_from (self->shot_list, scene->n_shots);
}

/* Which bags there are, and the one in use. */
static void
list_bags (HwPlanPanel *self)
{
  const char *path = hw_document_get_bag_path (self->document);
  Bag *bag = hw_document_get_bag (self->document);
  g_clear_pointer (&self->listed_bag, bag_unref);
  self->listed_bag = bag != NULL ? bag_ref (bag) : NULL;
  g_autoptr (GPtrArray) paths = hw_document_list_bags (self->document);
  if (path != NULL)
    hw_bag_chooser_show (self->bag_chooser, paths, path, NULL);
}

/* By where they stand along the line. */
static void
show_trees (HwPlanPanel *self, const PlanScene *scene, LengthUnit units)
{
  size_t n = 0;
  const TreeTable *trees = scene->trees;
  for (size_t i = 0; i < trees->n_rows; i++)
    if (tree_row_is_telling (&trees->rows[i]))
      hw_carry_row_show_trees (carry_row_at (self, self->tree_list, n++), scene->hole, &trees->rows[i], units);
  hw_rows_hide_from (self->tree_list, n);
  gtk_widget_set_visible (self->tree_box, n > 0);
  if (n == 0)
    return;
  hw_figure_set_text (self->tree_height, units == UNIT_YARDS ? _ ("ft over") : _ ("m over"));
  g_autofree char *all = g_strdup_printf (_ ("Past all of them: %.0f %%"), 100 * fmin (trees->chance, MOST_CHANCE_SHOWN));
  hw_figure_set_text (self->tree_all, all);
  gtk_widget_set_visible (GTK_WIDGET (self->tree_all), n > 1);
}

/* All of the results, or where there are none the choice of bag and club for the shot in hand. */
static void
show_results (HwPlanPanel *self, bool has_results)
{
  const Part *plan = hw_document_get_plan (self->document);
  bool has_choice = plan != NULL && plan->n_shots > 0 && hw_document_get_bag (self->document) != NULL;
  gtk_widget_set_visible (self->results, has_results || has_choice);
  /* Once and not with every frame of a drag: what of the results is shown is theirs to say. */
  for (GtkWidget *child = gtk_widget_get_first_child (self->results); child != NULL && has_results == self->has_no_results;
       child = gtk_widget_get_next_sibling (child))
    gtk_widget_set_visible (child, has_results || child == self->bag_row || child == GTK_WIDGET (self->shot_panel)
                                       || child == GTK_WIDGET (self->suggest_panel));
  self->has_no_results = !has_results;
}

static void
on_results_changed_cb (HwPlanPanel *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  const char *trouble = hw_document_get_trouble (self->document);
  gtk_widget_set_visible (GTK_WIDGET (self->trouble), trouble != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->caption), scene->n_shots > 0);
  show_results (self, scene->n_shots > 0);
  if (trouble != NULL)
    gtk_label_set_text (self->trouble, trouble);
  if (self->listed_bag != hw_document_get_bag (self->document))
    list_bags (self);
  if (scene->n_shots == 0)
    return;
  LengthUnit units = hw_document_get_units (self->document);
  const Part *plan = hw_document_get_plan (self->document);
  const ShotResult *shot = &scene->shots[scene->current];
  self->is_showing = true;
  show_caption (self, scene);
  show_hero (self, shot, units);
  show_carries (self, scene, units);
  if (gtk_widget_get_mapped (GTK_WIDGET (self))) // they take as long as all the rest: not for a panel that is folded away
    {
      hw_document_need (self->document, SCENE_NEEDS_TREES);
      show_trees (self, scene, units);
      show_sights (self, scene, units);
    }
  show_green (self, scene, units);
  show_shots (self, scene, plan, units);
  self->is_showing = false;
}

/* ---- what the golfer does ---- */

/* What waits until it is seen. */
static void
on_map_cb (HwPlanPanel *self)
{
  if (self->document != NULL)
    on_results_changed_cb (self);
}

static void
on_bag_chosen_cb (HwPlanPanel *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Bag) bag = bag_read_file (path, hw_settings_get_level (hw_document_get_settings (self->document)), &error);
  if (bag != NULL)
    hw_document_choose_bag (self->document, path);
  else
    hw_document_say (self->document, error->message);
  list_bags (self);
}

static void
on_shot_selected_cb (HwPlanPanel *self, GtkListBoxRow *row)
{
  if (!self->is_showing && row != NULL)
    hw_document_set_shot (self->document, (size_t)gtk_list_box_row_get_index (row));
}

static void
add_switches (HwPlanPanel *self)
{
  for (const Overlay *overlay = overlay_table; overlay->name != NULL; overlay++)
    {
      g_autofree char *action = g_strconcat ("win.show-", overlay->name, NULL);
      GtkWidget *toggle = gtk_toggle_button_new_with_label (_ (overlay->label));
      gtk_actionable_set_action_name (GTK_ACTIONABLE (toggle), action);
      gtk_widget_add_css_class (toggle, "pill");
      gtk_flow_box_append (self->switches, toggle);
      GtkWidget *cell = gtk_widget_get_parent (toggle);
      gtk_widget_set_focusable (cell, FALSE);
      gtk_accessible_update_property (GTK_ACCESSIBLE (cell), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (overlay->label), -1);
    }
}

void
hw_plan_panel_set_document (HwPlanPanel *self, HwDocument *document, HwSolver *solver, HwPlanner *planner)
{
  self->document = g_object_ref (document);
  hw_day_panel_set_document (self->day_panel, document);
  hw_shot_panel_set_document (self->shot_panel, document);
  hw_suggest_panel_set_document (self->suggest_panel, document, planner);
  hw_room_panel_set_document (self->room_panel, document);
  g_signal_connect_object (document, "results-told", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  hw_outcome_panel_set_document (self->outcome_panel, document, solver); // last: the odds may still be being found
  g_signal_connect_object (document, "opened", G_CALLBACK (list_bags), self, G_CONNECT_SWAPPED);
}

void
hw_plan_panel_set_turn (HwPlanPanel *self, double turn_rad)
{
  hw_day_panel_set_turn (self->day_panel, turn_rad);
}

/* ---- painting ---- */

/* The day's values stand still while an aim is dragged; what each club does on it may not. */
static void
tell_day (HwPlanPanel *self, GtkSnapshot *snapshot)
{
  const Part *plan = hw_document_get_plan (self->document);
  if (plan == NULL)
    return;
  const Day *day = &plan->day;
  Vec2 blown = isnan (day->wind_mps) ? vec2 (0, 0) : vec2 (day->wind_mps, day->wind_from_deg);
  bool shows_clubs = hw_day_panel_shows_clubs (self->day_panel), is_changed = vec2_distance (blown, self->blown) != 0 || shows_clubs;
  GtkWidget *part = shows_clubs ? GTK_WIDGET (self->day_panel) : hw_day_panel_get_rose (self->day_panel);
  graphene_rect_t bounds;
  self->blown = blown;
  if (!gtk_widget_compute_bounds (part, GTK_WIDGET (self), &bounds))
    return;
  hw_piece_tell (snapshot, &bounds, is_changed, &self->n_told);
}

static void
hw_plan_panel_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwPlanPanel *self = HW_PLAN_PANEL (widget);
  if (self->document != NULL)
    tell_day (self, snapshot);
  GTK_WIDGET_CLASS (hw_plan_panel_parent_class)->snapshot (widget, snapshot);
}

static void
hw_plan_panel_dispose (GObject *object)
{
  HwPlanPanel *self = HW_PLAN_PANEL (object);
  self->is_showing = true;
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_PLAN_PANEL);
  g_clear_object (&self->document);
  g_clear_pointer (&self->listed_bag, bag_unref);
  G_OBJECT_CLASS (hw_plan_panel_parent_class)->dispose (object);
}

static void
hw_plan_panel_class_init (HwPlanPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_plan_panel_dispose;
  widget_class->snapshot = hw_plan_panel_snapshot;
  g_type_ensure (HW_TYPE_FIGURE);
  g_type_ensure (HW_TYPE_REEL);
  g_type_ensure (HW_TYPE_PIECE);
  g_type_ensure (HW_TYPE_DAY_PANEL);
  g_type_ensure (HW_TYPE_BAG_CHOOSER);
  g_type_ensure (HW_TYPE_SHOT_PANEL);
  g_type_ensure (HW_TYPE_OUTCOME_PANEL);
  g_type_ensure (HW_TYPE_SUGGEST_PANEL);
  g_type_ensure (HW_TYPE_ROOM_PANEL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/plan-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, scroller);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, results);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, green_box);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, green_heading);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, no_carries);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, caption);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, trouble);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, day_panel);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, suggest_panel);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, carry_number);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, left_number);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, club_words);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, green_room);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, front);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, middle);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, back);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, carry_table_head);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, tree_table_head);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, reach_column);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, carry_column);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, chance_column);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, carry_list);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, shot_list);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, bag_chooser);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, tree_box);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, tree_list);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, tree_height);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, tree_all);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, aim_words);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, sights);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, shot_panel);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, outcome_panel);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, room_panel);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, bag_row);
  gtk_widget_class_bind_template_child (widget_class, HwPlanPanel, switches);
}

static void
hw_plan_panel_init (HwPlanPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  add_switches (self);
  g_signal_connect_swapped (self->bag_chooser, "chosen", G_CALLBACK (on_bag_chosen_cb), self);
  g_signal_connect (self, "map", G_CALLBACK (on_map_cb), NULL);
  g_signal_connect_swapped (self->shot_list, "row-selected", G_CALLBACK (on_shot_selected_cb), self);
}
