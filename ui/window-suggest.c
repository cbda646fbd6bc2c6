// SPDX-License-Identifier: GPL-3.0-or-later
/* window-suggest - the plan that the program suggests, as actions of the window. */
#include "window-private.h"

#include <glib/gi18n.h>

static void
on_suggest_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_planner_suggest (HW_WINDOW (window)->planner);
}

static void
on_cancel_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_planner_cancel (HW_WINDOW (window)->planner);
}

static void
on_leave_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  hw_planner_leave (HW_WINDOW (window)->planner);
}

/* Compared is what was suggested. */
static void
on_compare_cb (GSimpleAction *action, GVariant *state, gpointer window)
{
  HwWindow *self = window;
  bool is_compared = g_variant_get_boolean (state);
  g_simple_action_set_state (action, state);
  hw_planner_set_compared (self->planner, is_compared);
  if (is_compared && !hw_planner_is_shown (self->planner))
    hw_planner_suggest (self->planner);
}

static void
take (HwWindow *self, PlanChoice choice, const char *label)
{
  const HwSuggestion *suggestion = hw_planner_get_suggestion (self->planner);
  if (suggestion != NULL && suggestion->has_plan[choice])
    hw_document_take_plan (self->document, &suggestion->plans[choice], label);
}

static void
on_use_plan_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  static const char *const labels[N_PLAN_CHOICES]
      = { [PLAN_SUGGESTED] = N_ ("suggested plan"), [PLAN_LAY_UP] = N_ ("lay-up plan"), [PLAN_ALL_OUT] = N_ ("all-out plan") };
  int choice = g_variant_get_int32 (parameter);
  if (choice >= 0 && choice < N_PLAN_CHOICES)
    take (window, (PlanChoice)choice, _ (labels[choice]));
}

static void
on_use_cb (GSimpleAction *action, GVariant *parameter, gpointer window)
{
  take (window, PLAN_SUGGESTED, _ ("suggested plan"));
}

static void
enable (HwWindow *self, const char *name, bool enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (self), name)), enabled);
}

void
hw_window_update_suggest_actions (HwWindow *self, bool in_plan)
{
  double share;
  const Part *plan = hw_document_get_plan (self->document);
  const Bag *bag = hw_document_get_bag (self->document);
  bool has_question = plan != NULL && plan->n_shots > 0 && bag != NULL && bag_n_clubs (bag) > 0;
  bool is_shown = hw_planner_is_shown (self->planner);
  enable (self, "suggest", in_plan && has_question);
  enable (self, "cancel-suggestion", hw_planner_is_busy (self->planner, &share));
  enable (self, "leave-suggestion", is_shown);
  enable (self, "compare", in_plan && has_question);
  enable (self, "use-plan",
          in_plan && hw_planner_get_suggestion (self->planner) != NULL && hw_planner_is_current (self->planner));
  enable (self, "use-suggestion",
          in_plan && hw_planner_get_suggestion (self->planner) != NULL && hw_planner_is_current (self->planner));
}

static void
on_changed_cb (HwWindow *self)
{
  hw_window_update_actions (self);
}

void
hw_window_add_suggest (HwWindow *self)
{
  static const GActionEntry entries[] = {
    { .name = "suggest", .activate = on_suggest_cb },
    { .name = "cancel-suggestion", .activate = on_cancel_cb },
    { .name = "use-suggestion", .activate = on_use_cb },
    { .name = "leave-suggestion", .activate = on_leave_cb },
    { .name = "use-plan", .activate = on_use_plan_cb, .parameter_type = "i" },
    { .name = "compare", .state = "false", .change_state = on_compare_cb },
  };
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect_object (self->planner, "changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
}
