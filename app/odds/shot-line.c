// SPDX-License-Identifier: GPL-3.0-or-later
/* The line a shot flies along, and its landing pattern seen in the frame of that line. */
#include "odds-private.h"

#include <math.h>

double
normal_below (double z)
{
  return 0.5 * erfc (-z * sqrt (0.5));
}

ShotLine
shot_line (const ShotResult *shot)
{
  const Pattern *pattern = &shot->pattern;
  Vec2 flown = vec2_sub (shot->landing, shot->ball);
  ShotLine line = { .ball = shot->ball, .along = vec2_unit (flown), .landing_m = vec2_length (flown) };

  /* The pattern's long and side axes, scaled by their deviations, in the frame of the line. */
  Vec2 left = vec2_left (line.along), side = vec2_scale (vec2_left (pattern->along), -1);
  Vec2 l = vec2_scale (vec2 (vec2_dot (pattern->along, line.along), vec2_dot (pattern->along, left)), pattern->long_sd_m);
  Vec2 s = vec2_scale (vec2 (vec2_dot (side, line.along), vec2_dot (side, left)), pattern->side_sd_m);
  line.xx = l.x * l.x + s.x * s.x + 2 * pattern->correlation * l.x * s.x;
  line.yy = l.y * l.y + s.y * s.y + 2 * pattern->correlation * l.y * s.y;
  line.xy = l.x * l.y + s.x * s.y + pattern->correlation * (l.x * s.y + l.y * s.x);
  return line;
}

double
shot_line_beyond (const ShotLine *line, double distance_m)
{
  double short_m = distance_m - line->landing_m;
  if (!(line->xx > 0))
    return short_m < 0 ? 1 : 0;
  return normal_below (-short_m / sqrt (line->xx));
}
