// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bag - the clubs of a bag with their spreads filled in and the gaps between them; or a bag fitted to recorded shots, each figure with its
 * standard error. CSV of either reads back as a bag.
 */
#include "command-private.h"

/* ---- the bag ---- */

static const Column bag_columns[] = {
  { "club", COLUMN_TEXT },       { "carry", COLUMN_LENGTH },       { "carry_sd", COLUMN_LENGTH },
  { "side_sd", COLUMN_LENGTH },  { "correlation", COLUMN_NUMBER }, { "side_bias", COLUMN_LENGTH },
  { "loft_deg", COLUMN_NUMBER }, { "apex", COLUMN_LENGTH },        { "curve", COLUMN_LENGTH },
  { "surfaces", COLUMN_TEXT },   { "mishit_pct", COLUMN_NUMBER },  { "mishit_carry_pct", COLUMN_NUMBER },
  { "low", COLUMN_LENGTH },      { "high", COLUMN_LENGTH },        { "spread_filled_from", COLUMN_TEXT },
  { "gap", COLUMN_LENGTH },      { "gap_kind", COLUMN_TEXT },
};

/* What of it people look for. */
static const Column bag_words[] = {
  { "club", COLUMN_TEXT },   { "carry", COLUMN_LENGTH }, { "low", COLUMN_LENGTH },
  { "high", COLUMN_LENGTH }, { "long_sd", COLUMN_FINE }, { "side_sd", COLUMN_FINE },
  { "bias", COLUMN_FINE },   { "gap", COLUMN_FINE },     { "remarks", COLUMN_TEXT },
};

/* Two of three shots carry between these. */
static void
add_two_of_three (Table *table, const Club *club)
{
  double low_m, high_m;
  club_two_of_three (club, &low_m, &high_m);
  table_add_number (table, low_m);
  table_add_number (table, high_m);
}

static void
add_club (Table *table, const Bag *bag, size_t i)
{
  const Club *club = bag_club (bag, i);
  BagGap gap;
  bool has_gap = bag_gap (bag, i, &gap);
  const double first[] = { club->carry_m,     club->carry_sd_m, club->side_sd_m, club->correlation,
                           club->side_bias_m, club->loft_deg,   club->apex_m,    club->curve_m };
  table_add_text (table, club->name);
  for (size_t k = 0; k < G_N_ELEMENTS (first); k++)
    table_add_number (table, first[k]);
  table_add_text (table, club->tee_only ? "tee" : NULL);
  table_add_number (table, 100 * club->mishit_chance);
  table_add_number (table, 100 * club->mishit_carry_share);
  add_two_of_three (table, club);
  table_add_text (table, club->spread_from_level ? level_token (bag_level (bag)) : NULL);
  table_add_number (table, has_gap ? gap.gap_m : NAN);
  table_add_text (table, has_gap ? gap_token (gap.kind) : NULL);
}

static void
add_remark (GString *remarks, const char *remark)
{
  g_string_append_printf (remarks, "%s%s", remarks->len > 0 ? ", " : "", remark);
}

static void
add_club_words (Table *table, const Bag *bag, size_t i)
{
  const Club *club = bag_club (bag, i);
  BagGap gap;
  bool has_gap = bag_gap (bag, i, &gap);
  g_autoptr (GString) remarks = g_string_new (NULL);
  if (club->tee_only)
    add_remark (remarks, "off the tee only");
  if (club->spread_from_level)
    add_remark (remarks, "spread of the level");
  if (has_gap && gap.kind != GAP_EVEN)
    add_remark (remarks, gap.kind == GAP_WIDE ? "wide gap below" : "narrow gap below");
  table_add_text (table, club->name);
  table_add_number (table, club->carry_m);
  add_two_of_three (table, club);
  table_add_number (table, club->carry_sd_m);
  table_add_number (table, club->side_sd_m);
  table_add_number (table, club->side_bias_m);
  table_add_number (table, has_gap ? gap.gap_m : NAN);
  table_add_text (table, remarks->str);
}

static const char *
unit_word (LengthUnit unit)
{
  return unit == UNIT_YARDS ? "yards" : "metres";
}

/* ---- what lies do to them ---- */

/* As a file of lies, which it reads back as. */
static const Column lie_columns[] = {
  { "lie", COLUMN_TEXT },
  { "carry_pct", COLUMN_NUMBER },
  { "long_spread_pct", COLUMN_NUMBER },
  { "side_spread_pct", COLUMN_NUMBER },
  { "spin_pct", COLUMN_NUMBER },
  { "least_loft_deg", COLUMN_NUMBER },
  { "lacking_loft_pct", COLUMN_NUMBER },
  { "stance_pct", COLUMN_NUMBER },
};

/* More decimals than a file of lies is written with only show what conversion left. */
#define LIE_SCALE 1e9

static Table *
make_lie_table (const LieTable *lies)
{
  Table *table
      = table_new ("lies", "What a lie does to a full swing, as from the fairway", lie_columns, G_N_ELEMENTS (lie_columns));
  for (int lie = 0; lie < N_LIES; lie++)
    {
      const LieEffect *effect = &lies->effects[lie];
      const double cells[] = { 100 * effect->carry_factor,
                               100 * effect->long_factor,
                               100 * effect->side_factor,
                               100 * effect->spin_factor,
                               units_degrees (effect->least_loft_rad),
                               100 * effect->lacking_loss * units_radians (1),
                               100 * effect->stance_share };
      if (lie_token ((Lie)lie) == NULL)
        continue;
      table_add_text (table, lie_token ((Lie)lie));
      for (size_t c = 0; c < G_N_ELEMENTS (cells); c++)
        table_add_number (table, round (LIE_SCALE * cells[c]) / LIE_SCALE);
    }
  return table;
}

static bool
write_bag (const Options *options, FILE *out, FILE *err, GError **error)
{
  g_autoptr (Bag) read = bag_read_file (options->files[0], options->level, error);
  if (read == NULL)
    return false;
  input_bag_warnings (read, err);
  g_autoptr (Bag) bag = input_lies (options, read, error);
  if (bag == NULL)
    return false;
  bool is_for_people = options->format == FORMAT_TABLE;
  g_autofree char *title
      = g_strdup_printf ("Bag of %zu clubs, in %s; two of three shots carry from low to high; gaps are to the next club",
                         bag_n_clubs (bag), unit_word (options->units));
  g_autoptr (Table) table = is_for_people ? table_new ("clubs", title, bag_words, G_N_ELEMENTS (bag_words))
                                          : table_new ("clubs", title, bag_columns, G_N_ELEMENTS (bag_columns));
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    is_for_people ? add_club_words (table, bag, i) : add_club (table, bag, i);
  g_autoptr (Table) lies = make_lie_table (bag_lies (bag));
  Table *tables[] = { table, lies };
  /* People ask for the lies by name. */
  return tables_write (tables, is_for_people && options->rows == NULL ? 1 : 2, 0, options, out, error);
}

/* ---- a bag fitted to shots ---- */

static const Column fit_columns[] = {
  { "club", COLUMN_TEXT },
  { "carry", COLUMN_LENGTH },
  { "carry_sd", COLUMN_LENGTH },
  { "side_sd", COLUMN_LENGTH },
  { "correlation", COLUMN_NUMBER },
  { "side_bias", COLUMN_LENGTH },
  { "mishit_pct", COLUMN_NUMBER },
  { "mishit_carry_pct", COLUMN_NUMBER },
  { "shots", COLUMN_COUNT },
  { "carry_se", COLUMN_LENGTH },
  { "carry_sd_se", COLUMN_LENGTH },
  { "side_sd_se", COLUMN_LENGTH },
  { "correlation_se", COLUMN_NUMBER },
  { "side_bias_se", COLUMN_LENGTH },
  { "mishit_se_pct", COLUMN_NUMBER },
  { "mishit_carry_se_pct", COLUMN_NUMBER },
  { "remarks", COLUMN_TEXT },
};

static const Column fit_words[] = {
  { "club", COLUMN_TEXT },          { "shots", COLUMN_COUNT },  { "carry", COLUMN_TEXT },       { "long_sd", COLUMN_TEXT },
  { "bias", COLUMN_TEXT },          { "side_sd", COLUMN_TEXT }, { "correlation", COLUMN_TEXT }, { "poor_%", COLUMN_TEXT },
  { "their_carry_%", COLUMN_TEXT }, { "remarks", COLUMN_TEXT },
};

/* What there is to say of how much a fit is worth, or NULL. Free with g_free. */
static char *
fit_remark (const ClubFit *fit)
{
  const char *shots = fit->n_shots == 1 ? "shot" : "shots";
  FitWorth worth = club_fit_worth (fit);
  if (worth == FIT_TELLS_NO_SPREAD)
    return g_strdup_printf ("%zu %s: too few to tell a spread", fit->n_shots, shots);
  if (worth == FIT_TELLS_NO_MISHITS)
    return g_strdup_printf ("%zu %s: too few to tell poor strikes apart", fit->n_shots, shots);
  return NULL;
}

static void
add_fit (Table *table, const ClubFit *fit)
{
  const Figure *const figures[] = { &fit->carry_m, &fit->carry_sd_m, &fit->side_sd_m, &fit->correlation, &fit->side_bias_m };
  const Figure *const shares[] = { &fit->mishit_chance, &fit->mishit_carry_share };
  g_autofree char *remark = fit_remark (fit);
  table_add_text (table, fit->club);
  for (size_t k = 0; k < G_N_ELEMENTS (figures); k++)
    table_add_number (table, figures[k]->value);
  for (size_t k = 0; k < G_N_ELEMENTS (shares); k++)
    table_add_number (table, 100 * shares[k]->value);
  table_add_number (table, (double)fit->n_shots);
  for (size_t k = 0; k < G_N_ELEMENTS (figures); k++)
    table_add_number (table, figures[k]->se);
  for (size_t k = 0; k < G_N_ELEMENTS (shares); k++)
    table_add_number (table, 100 * shares[k]->se);
  table_add_text (table, remark);
}

/* "152.3 ± 1.2": the figure and its standard error, or what there is of the two. */
static void
add_figure_words (Table *table, Figure figure, double scale, int decimals)
{
  if (!isfinite (figure.value))
    {
      table_add_text (table, "-");
      return;
    }
  g_autofree char *value = print_fixed (figure.value * scale, decimals), *error = print_fixed (figure.se * scale, decimals);
  g_autofree char *words = isfinite (figure.se) ? g_strdup_printf ("%s \u00b1 %s", value, error) : g_strdup (value);
  table_add_text (table, words);
}

static void
add_fit_words (Table *table, const ClubFit *fit, LengthUnit unit)
{
  double per_m = unit_from_metres (unit, 1);
  g_autofree char *remark = fit_remark (fit);
  table_add_text (table, fit->club);
  table_add_number (table, (double)fit->n_shots);
  add_figure_words (table, fit->carry_m, per_m, 1);
  add_figure_words (table, fit->carry_sd_m, per_m, 1);
  add_figure_words (table, fit->side_bias_m, per_m, 1);
  add_figure_words (table, fit->side_sd_m, per_m, 1);
  add_figure_words (table, fit->correlation, 1, 2);
  add_figure_words (table, fit->mishit_chance, 100, 0);
  add_figure_words (table, fit->mishit_carry_share, 100, 0);
  table_add_text (table, remark);
}

/* Would the reader take the bag that these figures make? */
static bool
check_fit (const Options *options, const ClubFit *fits, size_t n_fits, GError **error)
{
  g_autoptr (GError) refusal = NULL;
  g_autoptr (Bag) empty = bag_new ("fitted", options->units, options->level);
  g_autoptr (Bag) bag = bag_with_fit (empty, fits, n_fits, &refusal);
  if (bag != NULL)
    return true;
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT,
               "%s:1: these shots make no bag (%s); leave out what was no full swing", options->fit, refusal->message);
  return false;
}

static bool
write_fit (const Options *options, FILE *out, GError **error)
{
  g_autoptr (ShotLog) log = shot_log_read_file (options->fit, error);
  if (log == NULL)
    return false;
  size_t n_fits = shot_log_n_clubs (log);
  g_autofree ClubFit *fits = bag_fit (log);
  if (!check_fit (options, fits, n_fits, error))
    return false;
  bool is_for_people = options->format == FORMAT_TABLE;
  g_autofree char *title
      = g_strdup_printf ("Fitted to the shots, in %s; \u00b1 is the standard error", unit_word (options->units));
  g_autoptr (Table) table = is_for_people ? table_new ("fit", title, fit_words, G_N_ELEMENTS (fit_words))
                                          : table_new ("fit", title, fit_columns, G_N_ELEMENTS (fit_columns));
  for (size_t i = 0; i < n_fits; i++)
    is_for_people ? add_fit_words (table, &fits[i], options->units) : add_fit (table, &fits[i]);
  return tables_write (&table, 1, 0, options, out, error);
}

/* ---- the command ---- */

static const char help[]
    = "Prints the clubs of a bag, their spreads filled in from the level where the file has none, and the gaps between them: "
      "over\n"
      "15 yards they are wide, under 5 narrow. With --fit instead of a bag it prints what recorded shots tell of each club.\n"
      "'--rows lies' shows what the lie of a ball does to a shot, which a file lies.csv beside the bag can change.\n"
      "CSV of either is a bag file: 'holewright bag --fit SHOTS.csv --format csv -o bag.csv'. JSON holds the tables as 'clubs' "
      "and 'lies', or 'fit'.\n"
      "\n"
      "The shots are a CSV file, a shot a line, with these columns in any order; others, such as a total or a note, are passed "
      "over:\n"
      "  club                 its name\n"
      "  carry_yd or carry_m  where the ball first came down, along the line aimed at\n"
      "  side_yd or side_m    where it came down to the right (+) or left (-) of that line\n"
      "Hit them in little wind; leave out what was no full swing, but leave in poor strikes. From 12 shots of a club on, poor "
      "strikes\n"
      "are told apart where the shots show them: carry, spreads and correlation are then of the good ones, and poor % is their "
      "share.\n"
      "Fewer than 5 shots tell no spread, which is left for the level to fill. At most 1000000 shots of 100 clubs.";

int
command_bag (int argc, char **argv, FILE *out, FILE *err)
{
  g_autoptr (GError) error = NULL;
  Options options;
  bool is_done = options_parse (&options, FOR_BAG, argc, argv, &error);
  if (is_done && options.is_help)
    options_print_help (out, argv[0], "FILE|--fit SHOTS", help, FOR_BAG);
  else if (is_done && options.n_files != (options.fit != NULL ? 0 : 1))
    {
      g_set_error_literal (&error, COMMAND_ERROR, COMMAND_ERROR_USAGE,
                           "bag takes either one bag file or --fit SHOTS; see 'holewright bag --help'");
      is_done = false;
    }
  else if (is_done)
    is_done = options.fit != NULL ? write_fit (&options, out, &error) : write_bag (&options, out, err, &error);
  options_clear (&options);
  return is_done ? STATUS_DONE : message_fail (err, error);
}
