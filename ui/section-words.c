// SPDX-License-Identifier: GPL-3.0-or-later
/* section-words - puts the section's facts into the golfer's words, in the order in which the ball meets them. */
#include "section-words.h"

#include <glib/gi18n.h>

/* Longest name of a thing that is said in full. */
#define LABEL_SIZE 96
/* A landing that lies no higher or lower than this is level, and a run no longer none (common practice). */
#define LEVEL_M 0.5
#define NO_RUN_M 0.5

/* "12 ft" beside yards, "4 m" beside metres. */
static void
print_height (double height_m, LengthUnit units, char *text, size_t size)
{
  char number[UNITS_TEXT_SIZE];
  units_print_decimals (unit_height_from_metres (units, fabs (height_m)), 0, number, sizeof number);
  g_snprintf (text, size, "%s %s", number, unit_height_suffix (units));
}

/* Adds one more of the things that follow on each other. */
static void
append (GString *text, char *piece)
{
  if (text->len > 0)
    g_string_append (text, ", ");
  g_string_append (text, piece);
  g_free (piece);
}

/* New text; a file's own names may be long and need not be well-formed where they were cut. */
static char *
name_of (const Hole *hole, size_t part)
{
  char buffer[LABEL_SIZE];
  return g_utf8_make_valid (part_label (hole_part (hole, part), buffer, sizeof buffer), -1);
}

static void
append_tree (GString *text, const Hole *hole, const SectionTree *tree, LengthUnit units)
{
  g_autofree char *name = name_of (hole, tree->part);
  char height[UNITS_TEXT_SIZE + 4];
  print_height (tree->clearance_m, units, height, sizeof height);
  switch (section_tree_pass (tree))
    {
    case TREE_CLEARED:
      append (text, g_strdup_printf (_ ("clears %s by %s"), name, height));
      break;
    case TREE_BRUSHED:
      append (text, g_strdup_printf (_ ("brushes the top of %s"), name));
      break;
    case TREE_THROUGH_TOP:
      append (text, g_strdup_printf (_ ("goes through the top of %s"), name));
      break;
    case TREE_INTO:
      append (text, g_strdup_printf (_ ("flies into %s"), name));
      break;
    case TREE_BESIDE:
    case TREE_FAR_BELOW:
      break;
    }
}

static void
append_end (GString *text, const Hole *hole, const CarryTable *carries, const Section *section, LengthUnit units)
{
  double run_m = section->rest.mean_m - section->landing.mean_m;
  char length[UNITS_TEXT_SIZE];
  append (text, g_strdup_printf (_ ("lands on %s"), _ (kind_info (section->lands_on)->label)));
  units_print_length (fabs (run_m), units, length, sizeof length);
  if (run_m > NO_RUN_M)
    append (text, g_strdup_printf (_ ("runs %s"), length));
  else if (run_m < -NO_RUN_M)
    append (text, g_strdup_printf (_ ("comes back %s"), length));
  append (text, g_strdup_printf (_ ("stops on %s"), _ (kind_info (section->rests_on)->label)));
  if (section->ahead >= 0)
    {
      g_autofree char *name = name_of (hole, carries->rows[section->ahead].part);
      units_print_length (section->ahead_m, units, length, sizeof length);
      append (text, g_strdup_printf (_ ("%s short of %s"), length, name));
    }
}

char *
hw_section_words (const Hole *hole, const ShotResult *shot, const CarryTable *carries, const Section *section, LengthUnit units)
{
  GString *text = g_string_new (NULL);
  char length[UNITS_TEXT_SIZE], height[UNITS_TEXT_SIZE + 4];
  units_print_length (shot->carry_m, units, length, sizeof length);
  append (text, g_strdup_printf (_ ("Carries %s"), length));
  print_height (shot->rise_m, units, height, sizeof height);
  if (fabs (shot->rise_m) > LEVEL_M)
    append (text, g_strdup_printf (shot->rise_m > 0 ? _ ("%s up") : _ ("%s down"), height));
  print_height (section->apex.height_m, units, height, sizeof height);
  append (text, g_strdup_printf (_ ("%s high"), height));
  for (size_t i = 0; i < section->n_trees; i++)
    append_tree (text, hole, &section->trees[i], units);
  append_end (text, hole, carries, section, units);
  return g_string_free (text, FALSE);
}
