// SPDX-License-Identifier: GPL-3.0-or-later
/* Why each shot of a plan, and how sure its tee club is: sentences for people, figures for programs. */
#include "plan-private.h"

static const Column why_columns[] = { { "shot", COLUMN_COUNT }, { "why", COLUMN_TEXT } };

static const Column reason_columns[] = {
  { "shot", COLUMN_COUNT },
  { "why", COLUMN_TEXT },
  { "aim_right", COLUMN_LENGTH },
  { "mean_left", COLUMN_LENGTH },
  { "risk", COLUMN_TEXT },
  { "risk_chance", COLUMN_CHANCE },
  { "next_club", COLUMN_TEXT },
  { "next_costs", COLUMN_STROKES },
  { "next_danger", COLUMN_TEXT },
  { "next_danger_chance", COLUMN_CHANCE },
  { "straight_costs", COLUMN_STROKES },
  { "straight_danger", COLUMN_TEXT },
  { "straight_danger_chance", COLUMN_CHANCE },
};

static const Column rank_columns[] = {
  { "club", COLUMN_TEXT },          { "expected", COLUMN_STROKES }, { "sd", COLUMN_STROKES },
  { "best_chance", COLUMN_CHANCE }, { "sureness", COLUMN_TEXT },
};

static const Column sure_columns[] = { { "how_sure", COLUMN_TEXT, "How sure the tee club is" } };

static bool
is_for_people (const PlanTelling *telling)
{
  return telling->options->format == FORMAT_TABLE;
}

/* The area by its name, else what the ball lies in. */
static const char *
danger_text (const PlanTelling *telling, const PlanDanger *danger)
{
  if (danger->lie == LIE_NONE)
    return NULL;
  if (danger->part >= 0)
    return hole_part (plan_solution_hole (telling->solution), (size_t)danger->part)->name;
  return danger->lie == LIE_PENALTY ? "penalty-area"
                                    : (danger->lie == LIE_OUT_OF_BOUNDS ? "out-of-bounds" : lie_token (danger->lie));
}

static void
add_danger (const PlanTelling *telling, Table *table, const PlanDanger *danger, double chance)
{
  table_add_text (table, danger_text (telling, danger));
  table_add_number (table, danger->lie != LIE_NONE ? chance : NAN);
}

static void
add_figures (const PlanTelling *telling, Table *table, const PlanReason *reason)
{
  const PlanRival *next = &reason->next, *straight = &reason->straight;
  PlanDanger none = { LIE_NONE, -1, NAN, NAN };
  table_add_number (table, reason->right_m);
  table_add_number (table, reason->left_m);
  add_danger (telling, table, &reason->risk, reason->risk.chance);
  table_add_text (table, next->club != NULL ? next->club->name : NULL);
  table_add_number (table, next->club != NULL ? next->costs : NAN);
  add_danger (telling, table, next->club != NULL ? &next->danger : &none, next->danger.other_chance);
  table_add_number (table, straight->club != NULL ? straight->costs : 0);
  add_danger (telling, table, straight->club != NULL ? &straight->danger : &none, straight->danger.other_chance);
}

Table *
plan_reason_table (const PlanTelling *telling, GError **error)
{
  g_autoptr (Table) table = is_for_people (telling)
                                ? table_new ("reasons", "Why these shots", why_columns, G_N_ELEMENTS (why_columns))
                                : table_new ("reasons", NULL, reason_columns, G_N_ELEMENTS (reason_columns));
  for (size_t i = 0; i < telling->suggested->n_shots; i++)
    {
      const PlanShot *shot = &telling->suggested->shots[i];
      PlanReason reason;
      if (!plan_reason (telling->solution, shot, &reason, error))
        return NULL;
      g_autofree char *words = plan_reason_words (telling->solution, shot, &reason, telling->options->units, NULL);
      table_add_number (table, (double)i + 1);
      table_add_text (table, words);
      if (!is_for_people (telling))
        add_figures (telling, table, &reason);
    }
  return g_steal_pointer (&table);
}

Table *
plan_sureness_table (const PlanTelling *telling, GError **error)
{
  PlanSure sure;
  if (!plan_sureness (telling->solution, &telling->suggested->shots[0], &sure, error))
    return NULL;
  if (is_for_people (telling))
    {
      g_autofree char *words = plan_sureness_words (&sure, NULL);
      Table *sentence = table_new ("sureness", NULL, sure_columns, G_N_ELEMENTS (sure_columns));
      table_add_text (sentence, words);
      return sentence;
    }
  Table *table = table_new ("sureness", NULL, rank_columns, G_N_ELEMENTS (rank_columns));
  for (size_t i = 0; i < sure.n_ranks; i++)
    {
      table_add_text (table, sure.ranks[i].club->name);
      table_add_number (table, sure.ranks[i].strokes);
      table_add_number (table, sure.ranks[i].sd);
      table_add_number (table, sure.ranks[i].chance);
      table_add_text (table, i == 0 ? plan_sureness_token (sure.sureness) : NULL);
    }
  return table;
}
