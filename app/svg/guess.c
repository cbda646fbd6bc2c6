// SPDX-License-Identifier: GPL-3.0-or-later
/* What the shapes of a foreign drawing may be, and how large: a first answer for the golfer to change, from names, colours and the paper's size. */
#include "svg.h"

#include <stdio.h>
#include <string.h>

/* ---- kinds by name ---- */

/* Words that golfers and surveyors give to layers and shapes, from memory; the first that occurs counts, so longer words stand before their parts. */
static const struct
{
  const char *word;
  Kind kind;
} words[] = {
  { "out-of-bounds", KIND_OUT_OF_BOUNDS },
  { "penalty", KIND_PENALTY_AREA },
  { "first-cut", KIND_FIRST_CUT },
  { "semi-rough", KIND_FIRST_CUT },
  { "deep-rough", KIND_DEEP_ROUGH },
  { "heather", KIND_DEEP_ROUGH },
  { "fairway", KIND_FAIRWAY },
  { "fringe", KIND_FRINGE },
  { "apron", KIND_FRINGE },
  { "bunker", KIND_BUNKER },
  { "sand", KIND_BUNKER },
  { "waste", KIND_WASTE },
  { "green", KIND_GREEN },
  { "water", KIND_WATER },
  { "pond", KIND_WATER },
  { "lake", KIND_WATER },
  { "stream", KIND_WATER },
  { "burn", KIND_WATER },
  { "ditch", KIND_WATER },
  { "river", KIND_WATER },
  { "trees", KIND_TREES },
  { "wood", KIND_TREES },
  { "forest", KIND_TREES },
  { "tree", KIND_TREE },
  { "rough", KIND_ROUGH },
  { "building", KIND_BUILDING },
  { "house", KIND_BUILDING },
  { "path", KIND_PATH },
  { "road", KIND_PATH },
  { "tee", KIND_TEE },
};

/* Does `word` begin where `text` has no letter before it? A plural or a number may follow, another word may not: "teeth" is no tee. */
static bool
holds_word (const char *text, const char *word)
{
  size_t length = strlen (word);
  for (const char *found = strstr (text, word); found; found = strstr (found + 1, word))
    {
      const char *after = found + length;
      after += *after == 's';
      if ((found == text || !g_ascii_isalpha (found[-1])) && !g_ascii_isalpha (*after))
        return true;
    }
  return false;
}

static Kind
kind_by_name (const char *name)
{
  if (!name)
    return KIND_NONE;
  g_autofree char *text = g_ascii_strdown (name, -1);
  g_strdelimit (text, " _.", '-');
  for (size_t i = 0; i < G_N_ELEMENTS (words); i++)
    if (holds_word (text, words[i].word))
      return words[i].kind;
  return KIND_NONE;
}

/* ---- kinds by colour ---- */

/* Hue in degrees, saturation and lightness 0..1 of "#rrggbb" (CSS Color Module Level 3, section 4.2.4); false for anything else. */
static bool
read_hsl (const char *colour, double *hue, double *saturation, double *lightness)
{
  unsigned red, green, blue;
  if (strlen (colour) != 7 || sscanf (colour, "#%2x%2x%2x", &red, &green, &blue) != 3)
    return false;
  double r = red / 255.0, g = green / 255.0, b = blue / 255.0;
  double most = fmax (r, fmax (g, b)), least = fmin (r, fmin (g, b)), range = most - least;
  *lightness = (most + least) / 2;
  *saturation = range > 0 ? range / (1 - fabs (2 * *lightness - 1)) : 0;
  *hue = 0;
  if (range > 0 && most == r)
    *hue = 60 * fmod ((g - b) / range + 6, 6);
  else if (range > 0 && most == g)
    *hue = 60 * ((b - r) / range + 2);
  else if (range > 0)
    *hue = 60 * ((r - g) / range + 4);
  return true;
}

/* What maps of golf holes use a colour for, from memory: blue is water, sand yellow a bunker, dark green wood; greens are told from fairways by their blue. */
static const struct
{
  double hue_from, hue_to; /* degrees */
  double lightness_from, lightness_to;
  Kind kind;
} colour_rows[] = {
  { 170, 260, 0.1, 0.95, KIND_WATER }, { 35, 62, 0.55, 0.97, KIND_BUNKER }, { 70, 170, 0.05, 0.3, KIND_TREES },
  { 115, 170, 0.3, 0.9, KIND_GREEN },  { 70, 115, 0.3, 0.9, KIND_FAIRWAY },
};

/* A colour paler than this is a grey. */
#define LEAST_SATURATION 0.12

static Kind
kind_by_colour (const SvgColour *colour)
{
  double hue, saturation, lightness;
  if (colour->is_stroke || !read_hsl (colour->colour, &hue, &saturation, &lightness) || saturation < LEAST_SATURATION)
    return KIND_NONE;
  for (size_t i = 0; i < G_N_ELEMENTS (colour_rows); i++)
    if (hue >= colour_rows[i].hue_from && hue < colour_rows[i].hue_to && lightness >= colour_rows[i].lightness_from
        && lightness <= colour_rows[i].lightness_to)
      return colour_rows[i].kind;
  return KIND_NONE;
}

Kind
svg_guess_part (const SvgFragment *fragment, size_t part)
{
  Kind kind = kind_by_name (fragment->parts[part]->name);
  return kind != KIND_NONE ? kind : kind_by_name (fragment->parts[part]->id);
}

Kind
svg_guess_colour (const SvgFragment *fragment, size_t colour)
{
  const SvgColour *shown = &fragment->colours[colour];
  Kind common = svg_guess_part (fragment, shown->parts[0]);
  for (size_t i = 1; i < shown->n_parts; i++)
    if (svg_guess_part (fragment, shown->parts[i]) != common)
      common = KIND_NONE;
  return common != KIND_NONE ? common : kind_by_colour (shown);
}

/* ---- scale ---- */

/* The largest of 1, 2, 2.5 and 5 times a power of ten that is no larger than `value`: how plans are scaled (common practice). */
static double
round_below (double value)
{
  static const double steps[] = { 5, 2.5, 2, 1 };
  double power = pow (10, floor (log10 (value) + 1e-9));
  for (size_t i = 0; i < G_N_ELEMENTS (steps); i++)
    if (steps[i] * power <= value * (1 + 1e-9))
      return steps[i] * power;
  return power;
}

double
svg_guess_scale (const SvgFragment *fragment, Box sheet)
{
  double width = fragment->extent.x1 - fragment->extent.x0, height = fragment->extent.y1 - fragment->extent.y0;
  double most = INFINITY;
  if (width > 0)
    most = fmin (most, (sheet.x1 - sheet.x0) / width);
  if (height > 0)
    most = fmin (most, (sheet.y1 - sheet.y0) / height);
  if (!isfinite (most) || !(most > 0))
    return 1;
  double unit_m = fragment->unit_mm / 1000;
  return unit_m > 0 && isfinite (unit_m) ? round_below (most / unit_m) * unit_m : round_below (most);
}
