// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan - the whole hole: the best shots in order, the expected score and the chance of each, what other plans cost; of a course, its holes.
 */
#include "plan-private.h"

#include <string.h>

static const Column shot_columns[] = {
  { "shot", COLUMN_COUNT },
  { "club", COLUMN_TEXT },
  { "swing", COLUMN_CHANCE },
  { "aim_x", COLUMN_PLACE, FOR_PROGRAMS },
  { "aim_y", COLUMN_PLACE, FOR_PROGRAMS },
  { "distance", COLUMN_LENGTH },
  { "plays", COLUMN_LENGTH },
  { "left", COLUMN_LENGTH },
  { "fairway", COLUMN_CHANCE },
  { "green", COLUMN_CHANCE },
  { "trouble", COLUMN_CHANCE },
  { "penalty", COLUMN_CHANCE },
  { "expected", COLUMN_STROKES, "strokes" },
  { "next_club", COLUMN_TEXT, "next best club" },
  { "next_costs", COLUMN_STROKES, "costs more" },
  { "straight_costs", COLUMN_STROKES, "straight costs more" },
};

static const Column total_columns[]
    = { { "score", COLUMN_TEXT }, { "chance", COLUMN_CHANCE }, { "expected_score", COLUMN_STROKES, FOR_PROGRAMS } };

static void
add_shot (Table *table, size_t i, const PlanShot *made)
{
  const ShotResult *shot = &made->shot;
  table_add_number (table, (double)i + 1);
  table_add_text (table, shot->club->name);
  table_add_number (table, shot->swing);
  table_add_number (table, shot->aim.x);
  table_add_number (table, shot->aim.y);
  table_add_number (table, shot->aim_m);
  table_add_number (table, shot->plays_m);
  table_add_number (table, shot->left_m);
  table_add_number (table, made->fairway);
  table_add_number (table, made->green);
  table_add_number (table, made->trouble);
  table_add_number (table, made->penalty);
  table_add_number (table, made->strokes);
  table_add_text (table, made->next_club != NULL ? made->next_club->name : NULL);
  table_add_number (table, made->next_costs);
  table_add_number (table, made->straight_costs);
}

static Table *
make_shot_table (const Plan *plan, LengthUnit units)
{
  g_autofree char *title = g_strdup_printf ("Shots in order, in %s; strokes: to hole out, that shot included",
                                            units == UNIT_YARDS ? "yards" : "metres");
  Table *table = table_new ("shots", title, shot_columns, G_N_ELEMENTS (shot_columns));
  for (size_t i = 0; i < plan->n_shots; i++)
    add_shot (table, i, &plan->shots[i]);
  return table;
}

/* Rarer scores are not told, to people not those of 0 %. */
#define LEAST_CHANCE_TOLD 5e-4
#define LEAST_CHANCE_READ 5e-3

/* A row for each score that happens; programs read the expected one in a row of its own, before them. */
static Table *
make_total_table (const Plan *plan, bool is_for_people)
{
  g_autofree char *strokes = print_fixed (plan->strokes, 2);
  g_autofree char *title = g_strdup_printf ("Expected score %s, and the chance of each", strokes);
  Table *table = table_new ("total", title, total_columns, G_N_ELEMENTS (total_columns));
  if (!is_for_people)
    {
      table_add_text (table, "all");
      table_add_number (table, 1);
      table_add_number (table, plan->strokes);
    }
  for (int score = 1; score <= PLAN_MOST_SCORE; score++)
    if (plan->chances[score] >= (is_for_people ? LEAST_CHANCE_READ : LEAST_CHANCE_TOLD))
      {
        g_autofree char *name = g_strdup_printf ("%d%s", score, score == PLAN_MOST_SCORE ? " or more" : "");
        table_add_text (table, name);
        table_add_number (table, plan->chances[score]);
        table_add_number (table, NAN);
      }
  return table;
}

/* ---- one hole ---- */

static void
tell_solve (double share, const PlanSolution *so_far, void *progress)
{
  progress_tell (progress, share);
}

Hole *
plan_read_hole (const Options *options, const char *path, Conditions *conditions, FILE *err, GError **error)
{
  g_autoptr (Hole) hole = input_hole (path, err, error);
  if (hole == NULL || !input_names (options, path, hole, error) || !input_conditions (options, path, hole, conditions, error))
    return NULL;
  return g_steal_pointer (&hole);
}

/* Solved on the day; the solution keeps the hole. */
static PlanSolution *
solve_hole (const Options *options, const char *path, const Bag *bag, FILE *err, GError **error)
{
  Conditions conditions;
  g_autoptr (Hole) hole = plan_read_hole (options, path, &conditions, err, error);
  if (hole == NULL)
    return NULL;
  Progress progress;
  progress_init (&progress, err, "solving the hole");
  PlanQuestion question = { .tee = options->tee,
                            .hole_name = options->hole,
                            .conditions = &conditions,
                            .lies = bag_lies (bag),
                            .progress = tell_solve,
                            .data = &progress };
  PlanSolution *solution = plan_solve (hole, bag, &question, error);
  progress_end (&progress);
  if (solution == NULL)
    g_prefix_error (error, "%s:1: ", path);
  return solution;
}

/* The golfer's own plan, where one is drawn; what keeps it from being valued is said, and the rest goes on. */
static void
look_at_own (PlanTelling *telling, FILE *err)
{
  const Hole *hole = plan_solution_hole (telling->solution);
  g_autoptr (GError) error = NULL;
  int plan = hole_plan (hole);
  if (plan < 0 || hole_part (hole, (size_t)plan)->n_shots == 0)
    return;
  telling->has_own = plan_make_own (telling->solution, hole_part (hole, (size_t)plan), NULL, &telling->own, &error);
  if (!telling->has_own)
    {
      g_autofree char *message = g_strdup_printf ("the plan of the drawing is left out of the comparison: %s", error->message);
      message_print (err, message);
    }
}

enum
{
  MOST_TABLES = 7
};

static void
free_tables (Table *const *tables, size_t n_tables)
{
  for (size_t i = 0; i < n_tables; i++)
    table_free (tables[i]);
}

/* All that is asked for, in `tables`, which the caller frees even where it fails. */
static bool
make_tables (PlanTelling *telling, FILE *err, Table **tables, size_t *n_tables, GError **error)
{
  const Options *options = telling->options;
  Table *reasons = NULL, *sureness = NULL, *wind = NULL;
  tables[(*n_tables)++] = make_shot_table (telling->suggested, options->units);
  if ((reasons = plan_reason_table (telling, error)) == NULL)
    return false;
  tables[(*n_tables)++] = reasons;
  if ((sureness = plan_sureness_table (telling, error)) == NULL)
    return false;
  tables[(*n_tables)++] = sureness;
  tables[(*n_tables)++] = make_total_table (telling->suggested, options->format == FORMAT_TABLE);
  if (!options->is_compared)
    return true;
  look_at_own (telling, err);
  plan_alternative_tables (telling, &tables[*n_tables], &tables[*n_tables + 1]);
  *n_tables += 2;
  if ((wind = plan_wind_table (telling, err, error)) == NULL)
    return false;
  tables[(*n_tables)++] = wind;
  return true;
}

static bool
write_plan (const Options *options, FILE *out, FILE *err, GError **error)
{
  const char *path = options->files[0];
  g_autoptr (Bag) bag = input_bag (options, path, true, err, error);
  if (bag == NULL)
    return false;
  g_autoptr (PlanSolution) solution = solve_hole (options, path, bag, err, error);
  Plan plan;
  if (solution == NULL)
    return false;
  PlanTelling telling = { .options = options, .solution = solution, .suggested = &plan };
  Table *tables[MOST_TABLES];
  size_t n_tables = 0;
  bool is_made = plan_make (solution, PLAN_SUGGESTED, &plan, error) && make_tables (&telling, err, tables, &n_tables, error);
  if (!is_made)
    g_prefix_error (error, "%s:1: ", path);
  bool is_written = is_made && tables_write (tables, n_tables, 0, options, out, error);
  free_tables (tables, n_tables);
  return is_written;
}

int
command_plan (int argc, char **argv, FILE *out, FILE *err)
{
  g_autoptr (GError) error = NULL;
  Options options;
  bool is_done = options_parse (&options, FOR_PLAN, argc, argv, &error);
  if (is_done && options.is_help)
    options_print_help (
        out, argv[0], "FILE|FOLDER",
        "Prints the plan with the fewest expected strokes from the tee: its shots, each played from where the mean ball of the "
        "one\n"
        "before comes to rest, why each of them, how sure the tee club is, the expected score and the chance of each score. "
        "With\n"
        "--compare also a lay-up, the longest club where it does not carry past the hole, and the drawing's own plan - with "
        "the best\n"
        "shots after its first, and with every shot as drawn -, where what they cost more comes from, and at what wind another "
        "tee\n"
        "club is better. Of a course's folder, a line for each hole and one for all. There over par is what the length costs - "
        "the\n"
        "table's strokes for an open hole as long, less par - and what is lost to penalties, sand, trees, rough, and with "
        "shots from\n"
        "tee and fairway (good lies). Near the hole and on the green strokes come from published tables for the level.\n"
        "CSV is one table, shots (of a course, holes) unless --rows names another; JSON holds all. CSV and JSON also tell "
        "where to\n"
        "aim, in metres of the drawing.",
        FOR_PLAN);
  else if (is_done && options.n_files != 1)
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "plan takes one hole file or a course's folder; see 'holewright plan --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = input_is_course (options.files[0]) ? plan_write_course (&options, out, err, &error)
                                                 : write_plan (&options, out, err, &error);
  options_clear (&options);
  return is_done ? STATUS_DONE : message_fail (err, error);
}
