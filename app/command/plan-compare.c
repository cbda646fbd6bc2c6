// SPDX-License-Identifier: GPL-3.0-or-later
/* A plan beside others: a lay-up, the longest club, the golfer's own; where what they cost more comes from; and other winds. */
#include "plan-private.h"

#include <string.h>

static const Column alternative_columns[] = {
  { "plan", COLUMN_TEXT },
  { "club", COLUMN_TEXT },
  { "fairway", COLUMN_CHANCE },
  { "trouble", COLUMN_CHANCE },
  { "penalty", COLUMN_CHANCE },
  { "left", COLUMN_LENGTH },
  { "expected_score", COLUMN_STROKES },
  { "costs", COLUMN_STROKES, "costs more" },
};

static const Column difference_columns[] = {
  { "plan", COLUMN_TEXT },
  { "costs", COLUMN_STROKES, "costs more" },
  { "penalty", COLUMN_STROKES, "penalties" },
  { "trouble", COLUMN_STROKES },
  { "rough", COLUMN_STROKES },
  { "distance", COLUMN_STROKES, "distance left" },
  { "green", COLUMN_STROKES, "on the green" },
  { "next_shot", COLUMN_STROKES, "the next shot" },
  { "later_shots", COLUMN_STROKES, "later shots" },
};

static const Column wind_columns[] = {
  { "axis", COLUMN_TEXT },       { "club", COLUMN_TEXT },      { "wind_mps", COLUMN_NUMBER }, { "more_club", COLUMN_TEXT },
  { "more_mps", COLUMN_NUMBER }, { "less_club", COLUMN_TEXT }, { "less_mps", COLUMN_NUMBER },
};

static const Column wind_words_columns[] = { { "in_other_winds", COLUMN_TEXT, "In other winds" } };

/* ---- other plans ---- */

static void
add_plan (const PlanTelling *telling, const char *name, const Plan *plan, double strokes, Table *alternatives)
{
  const PlanShot *first = &plan->shots[0];
  table_add_text (alternatives, name);
  table_add_text (alternatives, first->shot.club->name);
  table_add_number (alternatives, first->fairway);
  table_add_number (alternatives, first->trouble);
  table_add_number (alternatives, first->penalty);
  table_add_number (alternatives, first->shot.left_m);
  table_add_number (alternatives, strokes);
  table_add_number (alternatives, strokes - telling->suggested->strokes);
}

/* `later`: what the drawn shots after the first give away. */
static void
add_difference (const PlanTelling *telling, const char *name, const Plan *plan, double later, Table *table)
{
  PlanDifference difference;
  if (!plan_difference (telling->solution, telling->suggested, plan, &difference, NULL))
    return;
  table_add_text (table, name);
  table_add_number (table, difference.strokes + later);
  for (int cause = 0; cause < N_PLAN_CAUSES; cause++)
    table_add_number (table, difference.causes.strokes[cause]);
  table_add_number (table, later);
}

void
plan_alternative_tables (const PlanTelling *telling, Table **alternatives, Table **difference)
{
  *alternatives
      = table_new ("alternatives", "Other tee shots, with the best shots after them; differences are taken before rounding",
                   alternative_columns, G_N_ELEMENTS (alternative_columns));
  *difference = table_new ("difference", "Where what they cost more comes from, in strokes", difference_columns,
                           G_N_ELEMENTS (difference_columns));
  for (int choice = 0; choice < N_PLAN_CHOICES; choice++)
    {
      Plan plan;
      const char *name = plan_choice_token ((PlanChoice)choice);
      if (!plan_make (telling->solution, (PlanChoice)choice, &plan, NULL)
          || (choice != PLAN_SUGGESTED && !plan_is_apart (telling->solution, telling->suggested, &plan)))
        continue;
      add_plan (telling, name, &plan, plan.strokes, *alternatives);
      if (choice != PLAN_SUGGESTED)
        add_difference (telling, name, &plan, 0, *difference);
    }
  if (!telling->has_own)
    return;
  const PlanOwn *own = &telling->own;
  bool is_for_people = telling->options->format == FORMAT_TABLE;
  const char *name = is_for_people ? "yours" : "own", *as_drawn = is_for_people ? "every shot as drawn" : "own-as-drawn";
  add_plan (telling, name, &own->plan, own->plan.strokes, *alternatives);
  add_plan (telling, as_drawn, &own->plan, own->as_drawn, *alternatives);
  add_difference (telling, name, &own->plan, 0, *difference);
  add_difference (telling, as_drawn, &own->plan, own->as_drawn - own->plan.strokes, *difference);
}

/* ---- wind ---- */

/* The hole is solved some twenty times: in larger cells, which change a club's strokes by a hundredth or two. */
#define WIND_CELL_M 8.0

static void
tell_wind (double share, void *progress)
{
  progress_tell (progress, share);
}

static void
add_wind (const PlanTelling *telling, const PlanWind *wind, Table *table)
{
  if (telling->options->format == FORMAT_TABLE)
    {
      g_autofree char *words = plan_wind_words (wind, telling->options->units, NULL);
      table_add_text (table, words);
      return;
    }
  table_add_text (table, wind->axis == PLAN_WIND_ALONG ? "head" : "from-left");
  table_add_text (table, wind->club->name);
  table_add_number (table, wind->now_mps);
  table_add_text (table, wind->more.club != NULL ? wind->more.club->name : NULL);
  table_add_number (table, wind->more.at_mps);
  table_add_text (table, wind->less.club != NULL ? wind->less.club->name : NULL);
  table_add_number (table, wind->less.at_mps);
}

Table *
plan_wind_table (const PlanTelling *telling, FILE *err, GError **error)
{
  g_autoptr (Table) table = telling->options->format == FORMAT_TABLE
                                ? table_new ("wind", NULL, wind_words_columns, G_N_ELEMENTS (wind_words_columns))
                                : table_new ("wind", NULL, wind_columns, G_N_ELEMENTS (wind_columns));
  const char *rows = telling->options->rows;
  bool is_asked = rows == NULL ? telling->options->format != FORMAT_CSV : strcmp (rows, "wind") == 0;
  for (int axis = PLAN_WIND_ALONG; is_asked && axis <= PLAN_WIND_ACROSS; axis++)
    {
      Progress progress;
      PlanWind wind;
      progress_init (&progress, err, axis == PLAN_WIND_ALONG ? "solving in head and tail winds" : "solving in cross winds");
      PlanWindQuestion question = { .cell_m = WIND_CELL_M, .progress = tell_wind, .data = &progress };
      bool is_found = plan_wind (telling->solution, (PlanWindAxis)axis, &question, &wind, error);
      progress_end (&progress);
      if (!is_found)
        return NULL;
      add_wind (telling, &wind, table);
    }
  return g_steal_pointer (&table);
}
