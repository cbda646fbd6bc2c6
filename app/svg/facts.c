// SPDX-License-Identifier: GPL-3.0-or-later
/* The rows of facts and how each type of them is read and printed. */
#include "facts-private.h"
#include "number-private.h"
#include "svg.h"
#include "units.h"

#include <string.h>

/* Bounds that only keep nonsense out. */
#define HIGHEST_M 10000.0        /* above any mountain */
#define DEEPEST_M (-500.0)       /* below any dry land */
#define TALLEST_TREE_M 200.0     /* above any tree */
#define STEEPEST_PERCENT 1000.0  /* a cliff */
#define STRONGEST_WIND_MPS 120.0 /* above any wind measured near the ground */
#define HIGHEST_PA 120000.0      /* above any pressure at sea level */
#define COLDEST_C (-90.0)
#define HOTTEST_C 60.0
#define FASTEST_GREEN_FT 30.0 /* twice the fastest greens, common practice */
#define LARGEST_CURVE_M 200.0
#define SMALLEST_SWING 0.01
#define MOST_PAR 9
#define MOST_HOLE_NUMBER 999
#define MOST_STROKE_INDEX 99

static const char *const stakes_words[] = { "red", "yellow", NULL };
static const char *const shape_words[] = { "straight", "draw", "fade", NULL };
static const char *const firmness_words[] = { "soft", "medium", "firm", NULL };

#define BIT(kind) (1u << (kind))
#define EVERY_KIND G_MAXUINT32

/* The fields every row begins with. */
#define ROW(word, of, type_of_fact, member)                                                                                    \
  .attribute = (word), .type = (type_of_fact), .field = offsetof (of, member), .given = FACT_ALWAYS

/* A day has the same facts wherever it stands. */
#define DAY_ROWS(of, ...)                                                                                                      \
  { ROW ("wind_mps", of, FACT_NUMBER, day.wind_mps), .low = 0, .high = STRONGEST_WIND_MPS, __VA_ARGS__ },                      \
      { ROW ("wind_from_deg", of, FACT_NUMBER, day.wind_from_deg), .low = -360, .high = 360, __VA_ARGS__ },                    \
      { ROW ("temperature_c", of, FACT_NUMBER, day.temperature_c), .low = COLDEST_C, .high = HOTTEST_C, __VA_ARGS__ },         \
      { ROW ("altitude_m", of, FACT_NUMBER, day.altitude_m), .low = DEEPEST_M, .high = HIGHEST_M, __VA_ARGS__ },               \
      { ROW ("pressure_pa", of, FACT_NUMBER, day.pressure_pa), .low = 0, .high = HIGHEST_PA, __VA_ARGS__ },                    \
      { ROW ("humidity", of, FACT_NUMBER, day.humidity), .low = 0, .high = 1, __VA_ARGS__ },                                   \
      { ROW ("firmness", of, FACT_CHOICE, day.firmness), .words = firmness_words, __VA_ARGS__ },                               \
      { ROW ("green-speed_ft", of, FACT_NUMBER, day.green_speed_ft), .low = 1, .high = FASTEST_GREEN_FT, __VA_ARGS__ }

const Fact part_facts[N_PART_FACTS] = {
  { ROW ("name", Part, FACT_TEXT, name), .kinds = EVERY_KIND },
  { .attribute = "stakes",
    .type = FACT_WORD,
    .field = offsetof (Part, stakes),
    .given = offsetof (Part, stakes_given),
    .words = stakes_words,
    .kinds = BIT (KIND_PENALTY_AREA) | BIT (KIND_WATER),
    .is_inherited = true },
  { ROW ("height_m", Part, FACT_NUMBER, height_m), .low = 0, .high = TALLEST_TREE_M,
    .kinds = BIT (KIND_TREES) | BIT (KIND_TREE), .is_inherited = true },
  { ROW ("height_m", Part, FACT_NUMBER, height_m), .low = DEEPEST_M, .high = HIGHEST_M, .kinds = BIT (KIND_SPOT_HEIGHT),
    .is_inherited = true },
  { ROW ("density", Part, FACT_NUMBER, density), .low = 0, .high = 1, .kinds = BIT (KIND_TREES), .is_inherited = true },
  { ROW ("percent", Part, FACT_NUMBER, percent), .low = -STEEPEST_PERCENT, .high = STEEPEST_PERCENT, .kinds = BIT (KIND_SLOPE),
    .is_inherited = true },
  { ROW ("par", Part, FACT_INTEGER, par), .low = 1, .high = MOST_PAR, .kinds = BIT (KIND_TEE_MARKER) },
  { ROW ("today", Part, FACT_FLAG, today), .kinds = BIT (KIND_HOLE_LOCATION) },
  { ROW ("fixed", Part, FACT_FLAG, fixed), .kinds = BIT (KIND_MARK) },
  { ROW ("opacity", Part, FACT_NUMBER, opacity), .low = 0, .high = 1, .kinds = BIT (KIND_UNDERLAY) },
  { ROW ("tee", Part, FACT_TEXT, tee), .kinds = BIT (KIND_PLAN) },
  { ROW ("hole", Part, FACT_TEXT, hole_name), .kinds = BIT (KIND_PLAN) },
  DAY_ROWS (Part, .kinds = BIT (KIND_PLAN)),
};

const Fact day_facts[N_DAY_FACTS] = { DAY_ROWS (NamedDay, .kinds = 0) };

const Fact shot_facts[N_SHOT_FACTS] = {
  { ROW ("club", Shot, FACT_TEXT, club) },
  { ROW ("shape", Shot, FACT_WORD, shape), .words = shape_words },
  { ROW ("curve_m", Shot, FACT_NUMBER, curve_m), .low = -LARGEST_CURVE_M, .high = LARGEST_CURVE_M },
  { ROW ("swing", Shot, FACT_NUMBER, swing), .low = SMALLEST_SWING, .high = 1 },
};

const Fact info_facts[N_INFO_FACTS] = {
  { ROW ("number", HoleInfo, FACT_INTEGER, number), .low = 1, .high = MOST_HOLE_NUMBER },
  { ROW ("par", HoleInfo, FACT_INTEGER, par), .low = 1, .high = MOST_PAR },
  { ROW ("stroke-index", HoleInfo, FACT_INTEGER, stroke_index), .low = 1, .high = MOST_STROKE_INDEX },
  { ROW ("up-bearing", HoleInfo, FACT_NUMBER, up_bearing_deg), .low = -360, .high = 360 },
  { ROW ("latitude", HoleInfo, FACT_NUMBER, latitude_deg), .low = -90, .high = 90 },
  { ROW ("longitude", HoleInfo, FACT_NUMBER, longitude_deg), .low = -180, .high = 180 },
  { ROW ("altitude_m", HoleInfo, FACT_NUMBER, altitude_m), .low = DEEPEST_M, .high = HIGHEST_M },
  { ROW ("datum", HoleInfo, FACT_TEXT, datum) },
  { ROW ("ground", HoleInfo, FACT_KIND, ground) },
};

bool
fact_applies (const Fact *fact, Kind kind)
{
  return (fact->kinds & BIT (kind)) != 0;
}

/* ---- reading ---- */

static void *
field_of (const Fact *fact, void *base)
{
  return (char *)base + fact->field;
}

static const void *
field_in (const Fact *fact, const void *base)
{
  return (const char *)base + fact->field;
}

static int
word_index (const char *const *words, const char *text)
{
  for (int i = 0; words[i]; i++)
    if (strcmp (words[i], text) == 0)
      return i;
  return -1;
}

static bool
read_number (const Fact *fact, const char *text, double *value)
{
  double read;
  if (!number_read (text, &read) || read < fact->low || read > fact->high)
    return false;
  *value = read;
  return true;
}

static bool
read_flag (const char *text, bool *flag)
{
  if (strcmp (text, "yes") != 0 && strcmp (text, "no") != 0)
    return false;
  *flag = text[0] == 'y';
  return true;
}

static bool
read_area_kind (const char *text, Kind *kind)
{
  Kind read;
  if (!kind_from_token (text, &read) || kind_info (read)->shape != SHAPE_AREA)
    return false;
  *kind = read;
  return true;
}

static bool
read_integer (const Fact *fact, const char *text, int *integer)
{
  double value;
  if (!read_number (fact, text, &value) || value != floor (value))
    return false;
  *integer = (int)value;
  return true;
}

static bool
read_word (const Fact *fact, const char *text, void *field)
{
  int place = word_index (fact->words, text);
  if (place < 0)
    return false;
  unsigned value = (unsigned)place;
  memcpy (field, &value, sizeof value);
  return true;
}

static void
read_text (const char *text, char **field)
{
  g_free (*field);
  *field = g_strdup (text);
}

static bool
read_field (const Fact *fact, const char *text, void *field)
{
  switch (fact->type)
    {
    case FACT_TEXT:
      read_text (text, field);
      return true;
    case FACT_CHOICE:
      if (word_index (fact->words, text) < 0)
        return false;
      read_text (text, field);
      return true;
    case FACT_NUMBER:
      return read_number (fact, text, field);
    case FACT_INTEGER:
      return read_integer (fact, text, field);
    case FACT_FLAG:
      return read_flag (text, field);
    case FACT_WORD:
      return read_word (fact, text, field);
    case FACT_KIND:
      return read_area_kind (text, field);
    }
  return false;
}

bool
fact_read (const Fact *fact, void *base, const char *text)
{
  if (*text == '\0')
    return true;
  if (!read_field (fact, text, field_of (fact, base)))
    return false;
  if (fact->given != FACT_ALWAYS)
    *(bool *)((char *)base + fact->given) = true;
  return true;
}

/* ---- printing ---- */

static char *
print_number (double value)
{
  char buffer[UNITS_TEXT_SIZE];
  return isnan (value) ? NULL : g_strdup (units_print_full (value, buffer, sizeof buffer));
}

static char *
print_field (const Fact *fact, const void *field)
{
  unsigned word;
  switch (fact->type)
    {
    case FACT_TEXT:
    case FACT_CHOICE:
      return g_strdup (*(char *const *)field);
    case FACT_NUMBER:
      return print_number (*(const double *)field);
    case FACT_INTEGER:
      return *(const int *)field == 0 ? NULL : g_strdup_printf ("%d", *(const int *)field);
    case FACT_FLAG:
      return g_strdup (*(const bool *)field ? "yes" : "no");
    case FACT_WORD:
      memcpy (&word, field, sizeof word);
      return g_strdup (fact->words[word]);
    case FACT_KIND:
      return g_strdup (kind_info (*(const Kind *)field)->token);
    }
  return NULL;
}

char *
fact_print (const Fact *fact, const void *base, const void *defaults)
{
  if (fact->given != FACT_ALWAYS)
    return *(const bool *)((const char *)base + fact->given) ? print_field (fact, field_in (fact, base)) : NULL;
  char *text = print_field (fact, field_in (fact, base));
  g_autofree char *usual = print_field (fact, field_in (fact, defaults));
  if (g_strcmp0 (text, usual) == 0)
    g_clear_pointer (&text, g_free);
  return text;
}

char *
fact_values (const Fact *fact)
{
  g_autofree char *words = fact->words ? g_strjoinv (", ", (char **)fact->words) : NULL;
  switch (fact->type)
    {
    case FACT_TEXT:
      return g_strdup ("any text");
    case FACT_NUMBER:
      return g_strdup_printf ("a number from %g to %g", fact->low, fact->high);
    case FACT_INTEGER:
      return g_strdup_printf ("a whole number from %g to %g", fact->low, fact->high);
    case FACT_FLAG:
      return g_strdup ("yes or no");
    case FACT_WORD:
    case FACT_CHOICE:
      return g_strdup_printf ("one of %s", words);
    case FACT_KIND:
      return g_strdup ("the hw:kind of an area");
    }
  return NULL;
}
