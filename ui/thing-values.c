// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-values - one row for each value: its words, how it is measured, and the edit that makes it so. */
#include "thing-values.h"

#include "ask.h"
#include "sentence.h"

#include <glib/gi18n.h>

/* Decimals shown of lengths and angles. */
#define LENGTH_DECIMALS 1
#define ANGLE_DECIMALS 1

typedef struct
{
  const char *caption, *name, *step;
  bool is_angle;
  double (*get) (const PartMeasures *measures);
  Hole *(*set) (const Hole *hole, size_t part, double value, GError **error);
} Row;

/* ---- measures ---- */

static double
get_along (const PartMeasures *measures)
{
  return measures->along_m;
}

static double
get_right (const PartMeasures *measures)
{
  return measures->right_m;
}

static double
get_width (const PartMeasures *measures)
{
  return measures->width_m;
}

static double
get_height (const PartMeasures *measures)
{
  return measures->height_m;
}

static double
get_angle (const PartMeasures *measures)
{
  return measures->angle_rad;
}

/* ---- edits ---- */

static Hole *
set_along (const Hole *hole, size_t part, double along_m, GError **error)
{
  return edit_place (hole, part, along_m, edit_measures (hole, part).right_m, error);
}

static Hole *
set_right (const Hole *hole, size_t part, double right_m, GError **error)
{
  return edit_place (hole, part, edit_measures (hole, part).along_m, right_m, error);
}

static Hole *
transformed (const Hole *hole, size_t part, Affine t, GError **error)
{
  Vec2 at = part_position (hole_part (hole, part));
  Affine about = affine_then (affine_then (affine_translation (-at.x, -at.y), t), affine_translation (at.x, at.y));
  return edit_transform (hole, &part, 1, about, error);
}

/* A canopy is round and stays so. */
static Hole *
resized (const Hole *hole, size_t part, double now_m, double size_m, bool is_width, GError **error)
{
  if (!(size_m > 0) || !(now_m > 0))
    {
      g_set_error_literal (error, EDIT_ERROR, EDIT_ERROR_NUMBER, _ ("A size has to be more than nothing."));
      return NULL;
    }
  bool is_round = kind_info (hole_part (hole, part)->kind)->shape == SHAPE_POINT;
  double s = size_m / now_m;
  return transformed (hole, part, affine_scaling (is_width || is_round ? s : 1, !is_width || is_round ? s : 1), error);
}

static Hole *
set_width (const Hole *hole, size_t part, double width_m, GError **error)
{
  return resized (hole, part, edit_measures (hole, part).width_m, width_m, true, error);
}

static Hole *
set_height (const Hole *hole, size_t part, double height_m, GError **error)
{
  return resized (hole, part, edit_measures (hole, part).height_m, height_m, false, error);
}

static Hole *
set_angle (const Hole *hole, size_t part, double angle_rad, GError **error)
{
  return transformed (hole, part, affine_rotation (angle_rad - edit_measures (hole, part).angle_rad), error);
}

/* ---- the table ---- */

static const Row rows[HW_N_VALUES] = {
  [HW_VALUE_NAME] = { N_ ("Name"), N_ ("Name"), N_ ("rename %s"), false, NULL, NULL },
  [HW_VALUE_ALONG] = { N_ ("From tee"), N_ ("From the tee along the line"), N_ ("move %s"), false, get_along, set_along },
  [HW_VALUE_RIGHT]
  = { N_ ("Right of line"), N_ ("Right of the line, negative left"), N_ ("move %s"), false, get_right, set_right },
  [HW_VALUE_WIDTH] = { N_ ("Width"), N_ ("Width across the drawing"), N_ ("scale %s"), false, get_width, set_width },
  [HW_VALUE_HEIGHT] = { N_ ("Height"), N_ ("Height up the drawing"), N_ ("scale %s"), false, get_height, set_height },
  [HW_VALUE_ANGLE] = { N_ ("Angle °"), N_ ("Angle of the long axis in degrees"), N_ ("turn %s"), true, get_angle, set_angle },
};

const char *
hw_thing_value_caption (HwThingValue value, Kind kind)
{
  if (value == HW_VALUE_NAME && kind == KIND_NOTE)
    return _ ("Words");
  if (value == HW_VALUE_NAME && kind == KIND_TEE_MARKER)
    return _ ("Colour");
  return _ (rows[value].caption);
}

const char *
hw_thing_value_name (HwThingValue value)
{
  return _ (rows[value].name);
}

bool
hw_thing_value_print (const Hole *hole, size_t part, HwThingValue value, LengthUnit units, char *text, size_t size)
{
  const Part *of = hole_part (hole, part);
  text[0] = '\0';
  if (value == HW_VALUE_NAME)
    {
      const char *words = of->kind == KIND_NOTE ? of->text : of->name;
      g_strlcpy (text, words != NULL ? words : "", size);
      return true;
    }
  /* What has a downhill side has that instead of an axis. */
  if (value == HW_VALUE_ANGLE && edit_has_fact (of->kind, EDIT_FACT_DOWNHILL))
    return false;
  PartMeasures measures = edit_measures (hole, part);
  double measured = rows[value].get (&measures);
  if (rows[value].is_angle)
    units_print_decimals (units_degrees (measured), ANGLE_DECIMALS, text, size);
  else
    units_print_decimals (unit_from_metres (units, measured), LENGTH_DECIMALS, text, size);
  return text[0] != '\0';
}

static Hole *
set_name (const Hole *hole, size_t part, const char *text, const char **step, GError **error)
{
  if (hole_part (hole, part)->kind != KIND_NOTE)
    return edit_rename (hole, part, text, error);
  *step = _ ("reword %s");
  return edit_set_text (hole, part, text, error);
}

Hole *
hw_thing_value_set (const Hole *hole, size_t part, HwThingValue value, LengthUnit units, const char *text, const char **step,
                    GError **error)
{
  const Row *row = &rows[value];
  double number;
  *step = _ (row->step);
  if (value == HW_VALUE_NAME)
    return set_name (hole, part, text, step, error);
  if (row->is_angle ? units_parse_angle (text, &number) : units_parse_sum (text, units, &number))
    return row->set (hole, part, number, error);
  g_autofree char *reason = row->is_angle ? hw_no_angle (text) : hw_no_length (text);
  g_set_error_literal (error, EDIT_ERROR, EDIT_ERROR_NUMBER, reason);
  return NULL;
}
