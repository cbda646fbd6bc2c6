// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * section-words - heights ruled across the sky, how many times they are drawn, and the numbers of the flight: apex, what it clears, carry and rest.
 */
#include "section-private.h"

#include <glib/gi18n.h>

/* Design units of 1/96 inch. */
#define WORD_SIZE 11.0
#define WORD_HEIGHT 14.0
#define SMALL_SIZE 10.0
#define WORD_GAP 5.0
#define CORNER_X 8.0
#define CORNER_Y 10.0
#define RULE_STEP 26.0
#define RULE_TEXT_X 8.0
#define RULE_TOP 32.0 /* no rule stands higher: there the words are */
#define HALO 3.0
/* A landing that lies no higher or lower than this is level. */
#define LEVEL_M 0.5
#define MOST_WORDS 24

typedef struct
{
  char text[96];
  TextWeight weight;
  bool is_accent;
} Word;

typedef struct
{
  Label labels[MOST_WORDS];
  Word words[MOST_WORDS];
  size_t n_words;
} Words;

/* "31 ft", "9 m": heights are read in feet beside yards. */
static void
print_height (const SectionSheet *sheet, double height_m, char *text, size_t size)
{
  char number[UNITS_TEXT_SIZE];
  units_print_decimals (unit_height_from_metres (sheet->axis->units, height_m), 0, number, sizeof number);
  g_snprintf (text, size, "%s %s", number, unit_height_suffix (sheet->axis->units));
}

/* A word beside a point, on its `towards` side. */
static void
add_word (Words *words, const SectionSheet *sheet, Vec2 at, Vec2 towards, bool is_accent, const char *text)
{
  if (words->n_words == MOST_WORDS || !(at.x >= 0) || !(at.x <= sheet->axis->width_px))
    return;
  Word *word = &words->words[words->n_words];
  Label *label = &words->labels[words->n_words++];
  *word = (Word){ .weight = is_accent ? TEXT_SEMIBOLD : TEXT_MEDIUM, .is_accent = is_accent };
  g_strlcpy (word->text, text, sizeof word->text);
  text_end_whole (word->text);
  double unit = sheet->unit_px,
         width = text_width (sheet->text, word->text, (TextStyle){ WORD_SIZE * unit, word->weight, true });
  double height = WORD_HEIGHT * unit, gap = WORD_GAP * unit;
  *label = (Label){ .anchor_px = at, .width_px = width, .height_px = height };
  label->preferred_px = vec2 (towards.x * (width / 2 + gap), towards.y * (height / 2 + gap));
}

/* The middle of the box moved so that the word begins on a whole pixel: while it moves it is drawn from one kept picture. */
static Vec2
on_whole_px (Box box)
{
  Vec2 middle = box_centre (box);
  return vec2 (middle.x + round (box.x0) - box.x0, round (middle.y));
}

static void
draw_words (const Words *words, const SectionSheet *sheet)
{
  for (size_t i = 0; i < words->n_words; i++)
    {
      const Word *word = &words->words[i];
      Vec2 middle = on_whole_px (words->labels[i].box_px);
      TextStyle style = { WORD_SIZE * sheet->unit_px, word->weight, true };
      if (!words->labels[i].is_placed)
        continue;
      palette_use (sheet->cr, sheet->colours->panel, 0.85, sheet->scene->ink);
      text_halo_middle (sheet->text, word->text, style, middle.x, middle.y, TEXT_CENTRE, HALO * sheet->unit_px);
      palette_use (sheet->cr, word->is_accent ? sheet->colours->accent : sheet->colours->ink, 1, sheet->scene->ink);
      text_draw_middle (sheet->text, word->text, style, middle.x, middle.y, TEXT_CENTRE);
    }
}

/* ---- what is said ---- */

static void
add_apex (Words *words, const SectionSheet *sheet)
{
  char height[UNITS_TEXT_SIZE + 4], text[96];
  print_height (sheet, sheet->section->apex.height_m, height, sizeof height);
  g_snprintf (text, sizeof text, scene_word (sheet->scene, N_ ("%s high")), height);
  add_word (words, sheet, section_place (sheet, sheet->section->apex), vec2 (0, -1), true, text);
}

static void
add_clearance (Words *words, const SectionSheet *sheet, const SectionTree *tree)
{
  static const char *const texts[] = { [TREE_CLEARED] = N_ ("clears by %s"),
                                       [TREE_BRUSHED] = N_ ("brushes the top"),
                                       [TREE_THROUGH_TOP] = N_ ("through the top"),
                                       [TREE_INTO] = N_ ("into the trees") };
  TreePass pass = section_tree_pass (tree);
  char height[UNITS_TEXT_SIZE + 4], text[96];
  if (pass == TREE_BESIDE || pass == TREE_FAR_BELOW)
    return;
  print_height (sheet, tree->clearance_m, height, sizeof height);
  g_snprintf (text, sizeof text, scene_word (sheet->scene, texts[pass]), height);
  /* Over what it clears, under the ball; beside what it hits. */
  Vec2 top = section_place (sheet, (SectionPoint){ tree->tight_m, tree->top_m });
  add_word (words, sheet, top, pass == TREE_CLEARED ? vec2 (0, -1) : vec2 (1, 0), false, text);
}

static void
add_ends (Words *words, const SectionSheet *sheet)
{
  const Section *section = sheet->section;
  double y = CORNER_Y * sheet->unit_px;
  char number[UNITS_TEXT_SIZE], height[UNITS_TEXT_SIZE + 4], text[96];
  units_print_whole (section->landing.mean_m, sheet->axis->units, number, sizeof number);
  print_height (sheet, fabs (sheet->shot->rise_m), height, sizeof height);
  if (fabs (sheet->shot->rise_m) < LEVEL_M)
    g_snprintf (text, sizeof text, scene_word (sheet->scene, N_ ("carry %s")), number);
  else
    g_snprintf (text, sizeof text,
                scene_word (sheet->scene, sheet->shot->rise_m > 0 ? N_ ("carry %s, %s up") : N_ ("carry %s, %s down")), number,
                height);
  add_word (words, sheet, vec2 (axis_x (sheet->axis, section->landing.mean_m), y), vec2 (-1, 0), true, text);
  units_print_whole (section->rest.mean_m, sheet->axis->units, number, sizeof number);
  g_snprintf (text, sizeof text, scene_word (sheet->scene, N_ ("rest %s")), number);
  double x = fmax (axis_x (sheet->axis, section->rest.mean_m), axis_x (sheet->axis, section->landing.mean_m));
  add_word (words, sheet, vec2 (x, y), vec2 (1, 0), true, text);
}

/* Boxes along the flight, for words to keep clear of. */
static size_t
flight_boxes (const SectionSheet *sheet, Box *boxes)
{
  const SectionPoint *track = sheet->section->track;
  for (int i = 0; i < SECTION_TRACK_STEPS; i++)
    boxes[i] = box_grown (
        box_with_point (box_with_point (box_empty (), section_place (sheet, track[i])), section_place (sheet, track[i + 1])),
        sheet->unit_px);
  return SECTION_TRACK_STEPS;
}

static double
draw_factor (const SectionSheet *sheet)
{
  char number[UNITS_TEXT_SIZE], text[96];
  TextStyle style = { SMALL_SIZE * sheet->unit_px, TEXT_MEDIUM, true };
  units_print_decimals (sheet->factor, 2, number, sizeof number);
  if (sheet->factor == 1)
    g_strlcpy (text, scene_word (sheet->scene, N_ ("heights to scale")), sizeof text);
  else
    g_snprintf (text, sizeof text, scene_word (sheet->scene, N_ ("heights × %s")), number);
  text_end_whole (text);
  palette_use (sheet->cr, sheet->colours->quiet_ink, 1, sheet->scene->ink);
  text_draw_middle (sheet->text, text, style, CORNER_X * sheet->unit_px, CORNER_Y * sheet->unit_px, TEXT_LEFT);
  return CORNER_X * sheet->unit_px + text_width (sheet->text, text, style);
}

void
section_paint_words (const SectionSheet *sheet)
{
  Words words = { .n_words = 0 };
  Box avoid[SECTION_TRACK_STEPS + 1];
  double unit = sheet->unit_px;
  size_t n_avoid = flight_boxes (sheet, avoid);
  avoid[n_avoid++] = (Box){ 0, 0, draw_factor (sheet) + CORNER_X * unit, 2 * CORNER_Y * unit };
  add_ends (&words, sheet);
  add_apex (&words, sheet);
  for (size_t i = 0; i < sheet->section->n_trees; i++)
    add_clearance (&words, sheet, &sheet->section->trees[i]);
  place_labels (words.labels, words.n_words, avoid, n_avoid,
                (Box){ 2 * unit, 0, sheet->axis->width_px - 2 * unit, sheet->low_px });
  draw_words (&words, sheet);
}

/* ---- heights ---- */

/* Whole units between rules: the least of 5, 10, 20, 50, ... that leaves them room. */
static double
rule_step (double px_per_unit, double unit_px)
{
  static const double leads[] = { 1, 2, 5 };
  for (double power = 1;; power *= 10)
    for (int i = 0; i < 3; i++)
      if (leads[i] * power * px_per_unit >= RULE_STEP * unit_px)
        return leads[i] * power;
}

void
section_paint_heights (const SectionSheet *sheet)
{
  cairo_t *cr = sheet->cr;
  double unit = sheet->unit_px, units_per_m = unit_height_from_metres (sheet->axis->units, 1);
  double px_per_unit = sheet->factor * sheet->axis->px_per_m / units_per_m, step = rule_step (px_per_unit, unit);
  double ball = section_y (sheet, 0);
  TextStyle style = { SMALL_SIZE * unit, TEXT_REGULAR };
  char number[UNITS_TEXT_SIZE];
  for (double k = ceil ((ball - sheet->foot_px) / px_per_unit / step);; k++)
    {
      double y = ball - k * step * px_per_unit;
      if (y < RULE_TOP * unit)
        return;
      palette_use (cr, sheet->colours->hair, k == 0 ? 0.3 : 0.1, sheet->scene->ink);
      cairo_rectangle (cr, 0, round (y), sheet->axis->width_px, unit);
      cairo_fill (cr);
      units_print_decimals (k * step, 0, number, sizeof number);
      palette_use (cr, sheet->colours->quiet_ink, 1, sheet->scene->ink);
      if (k != 0)
        text_draw_middle (sheet->text, number, style, RULE_TEXT_X * unit, y - 5 * unit, TEXT_LEFT);
    }
}
