// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The field of what it costs to land anywhere that a club's patterns reach.
 *
 * First where to look: a grid over all landing places. Then landing: a ball comes down in each cell and is followed to its rest (field-land.c). Then the field is blurred by the round
 * part of the smallest pattern (field-blur.c), so that few nodes read the mean over any of the patterns (mean.c).
 */
#include "field-private.h"

#include <math.h>

/* Deviations that a pattern reaches: what lies beyond weighs 1 in 10 000. */
#define REACH_SDS 3.7
/*
 * Where no pattern is denser than so many deviations from the middle of the good strikes', a cell weighs too little for more than one ball: all aims' values then differ by 0.0004
 * strokes (rms over the example's shots; 0.02 at worst).
 */
#define DENSE_SDS 1.6
/* Cells round about all of that, as reading between cells wants. */
#define MARGIN_CELLS 2
/* Cells a deviation of the smallest pattern, and their least and greatest width. */
#define CELLS_PER_SD 1.5
#define LEAST_STEP_M 0.6
#define MOST_STEP_M 4.0
/* No field has more cells: twenty times what a driver's has, and answered within half a second. */
#define MOST_CELLS 250000
/* Variance that averaging over a cell and reading straight between cells add, in squared cells: 1/12 + 1/6. */
#define CELL_VARIANCE 0.25

/* ---- where to look ---- */

static double
least_sd (const Response *response)
{
  double l2 = response->long_sd_m * response->long_sd_m, s2 = response->side_sd_m * response->side_sd_m;
  double both = response->correlation * response->long_sd_m * response->side_sd_m;
  double middle = 0.5 * (l2 + s2), half = hypot (0.5 * (l2 - s2), both);
  return sqrt (fmax (0, middle - half));
}

static void
widen (Fan *fan, const Pattern *pattern, Vec2 to, double reach_m)
{
  double to_m = length_of (to);
  fan->near_m = fmin (fan->near_m, fmax (0, to_m - reach_m));
  fan->far_m = fmax (fan->far_m, to_m + reach_m);
  fan->margin_m = fmax (fan->margin_m, reach_m + fabs (vec2_cross (pattern->along, to)));
}

/* Of a pattern so many of whose balls land within a deviation of its middle as `share` of the good strikes' do. */
static void
add_reach (Build *build, Box *box, const Pattern *pattern, double share)
{
  const Field *frame = build->field;
  double sd_m = fmax (pattern->long_sd_m, pattern->side_sd_m), reach_m = REACH_SDS * sd_m + MARGIN_CELLS * MOST_STEP_M;
  Vec2 to = vec2_sub (pattern->mean, build->place->input.ball);
  Vec2 at = vec2 (vec2_dot (to, frame->across), vec2_dot (to, frame->along));
  widen (&build->all, pattern, to, reach_m);
  double dense2 = DENSE_SDS * DENSE_SDS + 2 * log (share);
  if (dense2 > 0)
    widen (&build->dense, pattern, to, sqrt (dense2) * sd_m);
  *box = box_union (*box, (Box){ at.x - reach_m, at.y - reach_m, at.x + reach_m, at.y + reach_m });
}

/* The grid's frame, extent and step. */
static void
lay_out (Build *build, double least_swing, double most_swing)
{
  const Place *place = build->place;
  const Response *response = build->response;
  Field *field = build->field;
  Vec2 ball = place->input.ball;
  field->along = vec2 (cos (response->middle_rad), sin (response->middle_rad));
  field->across = vec2_scale (vec2_left (field->along), -1);
  Box box = box_empty ();
  build->all.near_m = build->dense.near_m = INFINITY;
  build->rightmost = vec2 (cos (place->first_rad), sin (place->first_rad));
  build->leftmost = vec2 (cos (place->last_rad), sin (place->last_rad));
  const int n_directions = 8;
  for (int i = 0; i <= n_directions; i++)
    for (int end = 0; end < 2; end++)
      {
        double direction = place->first_rad + (place->last_rad - place->first_rad) * i / n_directions;
        Pattern poor, good = response_pattern (response, ball, direction, end == 0 ? least_swing : most_swing);
        add_reach (build, &box, &good, 1);
        if (poor_pattern (response->club, &good, ball, &poor))
          add_reach (build, &box, &poor, response->club->mishit_chance / (MISHIT_SPREAD * MISHIT_SPREAD));
      }
  double sd_m = least_swing * least_sd (response);
  field->step_m = fmin (MOST_STEP_M, fmax (LEAST_STEP_M, sd_m / CELLS_PER_SD));
  double width_m = box.x1 - box.x0, height_m = box.y1 - box.y0;
  field->step_m = fmax (field->step_m, sqrt (width_m * height_m / MOST_CELLS));
  field->n_across = 2 + (int)ceil (width_m / field->step_m);
  field->n_along = 2 + (int)ceil (height_m / field->step_m);
  double blur2 = sd_m * sd_m - CELL_VARIANCE * field->step_m * field->step_m;
  field->blur_m = sqrt (fmax (0, blur2));
  /* Nodes stand evenly about the line through the ball, so that a mirrored hole has a mirrored field. */
  double first = floor (box.x0 / field->step_m);
  if (fabs (box.x0 + box.x1) < field->step_m)
    {
      field->n_across |= 1;
      first = -(field->n_across - 1) / 2;
    }
  field->origin
      = vec2_add (ball, vec2_add (vec2_scale (field->across, first * field->step_m), vec2_scale (field->along, box.y0)));
}

/* ---- all of it ---- */

bool
field_init (Field *field, const Place *place, const Response *response, double least_swing, double most_swing, GError **error)
{
  *field = (Field){ 0 };
  Build build = { .place = place, .response = response, .field = field };
  lay_out (&build, least_swing, most_swing);
  field->pitch = (field->n_across + LANES - 1) / LANES * LANES;
  size_t n = (size_t)field->pitch * (size_t)field->n_along;
  field->strokes = g_new0 (float, n);
  field->again = g_new0 (float, n);
  if (!field_land (&build, error))
    {
      field_clear (field);
      return false;
    }
  field_blur (field);
  return true;
}

void
field_clear (Field *field)
{
  g_clear_pointer (&field->strokes, g_free);
  g_clear_pointer (&field->again, g_free);
}
