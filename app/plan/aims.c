// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The map of aims of one club, and the best of them.
 */
#include "aims-private.h"
#include "plan-shot.h"

#include <math.h>

/* Steps of the map in deviations of the pattern, and the fewest and most of them. */
#define STEP_SDS 0.4
#define LEAST_STEPS 9
#define MOST_STEPS 121
/* Where the hole is nearer than a wedge's least swing, the map begins this share nearer still. Longer clubs are not swung less (common practice). */
#define NEARER_SHARE 0.5
#define WEDGE_M 110.0
#define NEAREST_SWING 0.1
/* The best aim is looked for between the map's nodes at this many places a step. */
#define FINE_STEPS 8
/* How exactly playing again and again is summed. */
#define AGAIN_TOLERANCE 1e-9
#define MOST_ROUNDS 100

double
aims_again_strokes (const AimValues *const *values, size_t n_values, double from_strokes)
{
  double again = from_strokes;
  for (int round = 0; round < MOST_ROUNDS; round++)
    {
      /* The aim that is best at this price, and what it costs when it is played over and over: a sum of a geometric series. */
      Value best = { INFINITY, 0 };
      double least = INFINITY;
      for (size_t c = 0; c < n_values; c++)
        for (size_t i = 0; i < values[c]->n; i++)
          {
            Value value = values[c]->items[i];
            double strokes = 1 + value.strokes + value.again * again;
            if (strokes < least)
              {
                least = strokes;
                best = value;
              }
          }
      double before = again, missing = 1 - best.again;
      again = missing * PLAN_MOST_STROKES > 1 + best.strokes ? (1 + best.strokes) / missing : PLAN_MOST_STROKES;
      if (!(fabs (again - before) > AGAIN_TOLERANCE))
        break;
    }
  return fmin (again, PLAN_MOST_STROKES);
}

/* ---- the grid ---- */

static size_t
steps_over (double span, double step)
{
  return (size_t)fmin (MOST_STEPS, fmax (LEAST_STEPS, 1 + ceil (span / step)));
}

/* Share of a full swing that the map begins with. */
static double
least_swing (const Place *place, const Club *club)
{
  double hole_m = vec2_distance (place->input.ball, place->target);
  if (club->carry_m > WEDGE_M)
    return AIM_LEAST_SWING;
  return fmin (AIM_LEAST_SWING, fmax (NEAREST_SWING, NEARER_SHARE * hole_m / club->carry_m));
}

static void
lay_out_map (Aims *aims, const Place *place, double first_swing)
{
  const Response *response = &aims->response;
  AimMap *map = aims->map;
  double carry_m = response->full.carry_m, span_rad = place->last_rad - place->first_rad, span = 1 - first_swing;
  map->club = response->club;
  map->ball = place->input.ball;
  map->carry_m = carry_m;
  map->n_turns = steps_over (span_rad, STEP_SDS * response->side_sd_m / carry_m) | 1;
  map->n_swings = steps_over (span, STEP_SDS * response->long_sd_m / carry_m);
  map->first_rad = place->first_rad;
  map->turn_step_rad = span_rad / (double)(map->n_turns - 1);
  map->first_swing = first_swing;
  map->swing_step = span / (double)(map->n_swings - 1);
}

static bool
fill_map (Aims *aims, const Place *place, GError **error)
{
  AimMap *map = aims->map;
  size_t n = map->n_turns * map->n_swings;
  aims->values.items = g_new (Value, n);
  aims->values.n = n;
  for (size_t s = 0; s < map->n_swings; s++)
    {
      if (place_is_cancelled (place, error))
        return false;
      for (size_t t = 0; t < map->n_turns; t++)
        aims->values.items[s * map->n_turns + t]
            = aim_mean (&aims->field, &aims->response, map->ball, map->first_rad + (double)t * map->turn_step_rad,
                        map->first_swing + (double)s * map->swing_step);
    }
  return true;
}

/* ---- the best ---- */

static double
strokes_of (Value value, double again_strokes)
{
  return fmin (PLAN_MOST_STROKES, 1 + value.strokes + value.again * again_strokes);
}

AimStrokes
aims_look (const Aims *aims, double direction_rad, double swing)
{
  const AimMap *map = aims->map;
  Value value = aim_mean (&aims->field, &aims->response, map->ball, direction_rad, swing);
  Vec2 along = vec2 (cos (direction_rad), sin (direction_rad));
  return (AimStrokes){ .aim = vec2_add (map->ball, vec2_scale (along, swing * map->carry_m)),
                       .swing = swing,
                       .landing = response_pattern (&aims->response, map->ball, direction_rad, swing).mean,
                       .strokes = strokes_of (value, map->again_strokes),
                       .again_chance = value.again };
}

/* The best aim about a node of the map, within a step of it. */
static AimStrokes
refine (const Aims *aims, size_t turn, size_t swing)
{
  const AimMap *map = aims->map;
  AimStrokes best = { .strokes = INFINITY };
  int swings = swing + 1 < map->n_swings ? FINE_STEPS / 2 : 0;
  for (int s = -swings; s <= swings; s++)
    for (int t = -FINE_STEPS; t <= FINE_STEPS; t++)
      {
        double at = map->first_swing + ((double)swing + (double)s / (FINE_STEPS / 2)) * map->swing_step;
        double direction = map->first_rad + ((double)turn + (double)t / FINE_STEPS) * map->turn_step_rad;
        if (at < map->first_swing || at > 1 || direction < map->first_rad || turn + (size_t)(t > 0) > map->n_turns - 1)
          continue;
        AimStrokes here = aims_look (aims, direction, at);
        if (here.strokes < best.strokes)
          best = here;
      }
  return best;
}

static AimStrokes
best_of_rows (const Aims *aims, size_t first, size_t last)
{
  const AimMap *map = aims->map;
  size_t best = first * map->n_turns;
  for (size_t i = best; i < last * map->n_turns; i++)
    if (map->strokes[i] < map->strokes[best])
      best = i;
  return refine (aims, best % map->n_turns, best / map->n_turns);
}

void
aims_finish (Aims *aims, const Place *place, double again_strokes)
{
  AimMap *map = aims->map;
  map->again_strokes = again_strokes;
  g_free (map->strokes);
  map->strokes = g_new (double, aims->values.n);
  for (size_t i = 0; i < aims->values.n; i++)
    map->strokes[i] = strokes_of (aims->values.items[i], again_strokes);
  AimStrokes full = best_of_rows (aims, map->n_swings - 1, map->n_swings);
  AimStrokes part = best_of_rows (aims, 0, map->n_swings - 1);
  map->best = part.strokes < full.strokes - AIM_PART_SWING_STROKES ? part : full;
  Vec2 way = vec2_sub (place->target, map->ball);
  map->straight = aims_look (aims, atan2 (way.y, way.x), fmin (1, fmax (map->first_swing, vec2_length (way) / map->carry_m)));
}

/* ---- the best aim's own shot ---- */

/* The field errs alike for aims whose patterns lie nearly on the same ground, about so many steps of the map or a deviation and a half; for less nearly the same swings. */
#define ALIKE_TURNS 4.0
#define ALIKE_SWINGS 1.5

/* Of directions, in steps of the map; whole numbers are nodes. */
static double
turn_at (const AimMap *map, Vec2 aim)
{
  Vec2 way = vec2_sub (aim, map->ball);
  double middle_rad = map->first_rad + 0.5 * (double)(map->n_turns - 1) * map->turn_step_rad;
  return (remainder (atan2 (way.y, way.x) - middle_rad, 2 * PI) + middle_rad - map->first_rad) / map->turn_step_rad;
}

/* The best aim costs so many strokes more than it was found by; aims beside it are taken to as well. */
typedef struct
{
  double strokes, turn, swing;
} Correction;

static double
corrected (const AimMap *map, const Correction *correction, double turn, double swing, double strokes)
{
  double turns = (turn - correction->turn) / ALIKE_TURNS,
         swings = (swing - correction->swing) / (ALIKE_SWINGS * map->swing_step);
  return fmin (PLAN_MOST_STROKES, strokes + correction->strokes * exp (-0.5 * (turns * turns + swings * swings)));
}

static void
correct_map (AimMap *map, double strokes)
{
  const Correction correction = { strokes, turn_at (map, map->best.aim), map->best.swing };
  for (size_t s = 0; s < map->n_swings; s++)
    for (size_t t = 0; t < map->n_turns; t++)
      {
        double *here = &map->strokes[s * map->n_turns + t];
        *here = corrected (map, &correction, (double)t, map->first_swing + (double)s * map->swing_step, *here);
      }
  AimStrokes *straight = &map->straight;
  straight->strokes = corrected (map, &correction, turn_at (map, straight->aim), straight->swing, straight->strokes);
}

bool
aims_pin (Aims *aims, const Place *place, GError **error)
{
  AimMap *map = aims->map;
  ShotInput input = { .ball = map->ball,
                      .aim = map->best.aim,
                      .club = map->club,
                      .swing = map->best.swing,
                      .curve_m = NAN,
                      .conditions = &place->conditions,
                      .lies = place->input.lies };
  ShotResult shot;
  if (!odds_shot (place->input.hole, place->input.hole_name, &input, &shot, error)
      || !shot_strokes_of (place, &shot, map->again_strokes, &aims->outcome, NULL, error))
    return false;
  correct_map (map, aims->outcome.strokes - map->best.strokes);
  map->best.strokes = aims->outcome.strokes;
  return true;
}

/* ---- all of it ---- */

bool
aims_init (Aims *aims, const Place *place, const Club *club, GError **error)
{
  *aims = (Aims){ 0 };
  double first_swing = least_swing (place, club);
  if (!response_init (&aims->response, place, club, first_swing, error))
    return false;
  aims->map = g_atomic_rc_box_new0 (AimMap);
  lay_out_map (aims, place, first_swing);
  if (field_init (&aims->field, place, &aims->response, aims->map->first_swing, 1, error) && fill_map (aims, place, error))
    return true;
  aims_clear (aims);
  return false;
}

void
aims_clear (Aims *aims)
{
  g_clear_pointer (&aims->map, aim_map_unref);
  g_clear_pointer (&aims->values.items, g_free);
  field_clear (&aims->field);
}

static AimMap *
map_of_club (const Place *place, const Club *club, GError **error)
{
  Aims aims;
  if (!aims_init (&aims, place, club, error))
    return NULL;
  AimMap *map = NULL;
  const AimValues *values = &aims.values;
  aims_finish (&aims, place, aims_again_strokes (&values, 1, place->again_strokes));
  if (aims_pin (&aims, place, error))
    map = g_steal_pointer (&aims.map);
  aims_clear (&aims);
  return map;
}

AimMap *
aim_map_new (const PlanInput *input, const Club *club, GError **error)
{
  Place place;
  if (!place_init (&place, input, error))
    return NULL;
  AimMap *map = map_of_club (&place, club, error);
  place_clear (&place);
  return map;
}

AimMap *
plan_shot_aims (const PlanInput *input, const ShotResult *shot, ShotStrokes *strokes, OddsTable **odds, GError **error)
{
  Place place;
  PlanInput from = *input;
  from.ball = shot->ball;
  from.conditions = &shot->conditions;
  if (!place_init (&place, &from, error))
    return NULL;
  AimMap *map = map_of_club (&place, shot->club, error);
  if (map != NULL && !shot_strokes_of (&place, shot, map->again_strokes, strokes, odds, error))
    g_clear_pointer (&map, aim_map_unref);
  place_clear (&place);
  return map;
}

AimMap *
aim_map_ref (AimMap *map)
{
  return g_atomic_rc_box_acquire (map);
}

static void
map_clear (gpointer map)
{
  g_free (((AimMap *)map)->strokes);
}

void
aim_map_unref (AimMap *map)
{
  if (map != NULL)
    g_atomic_rc_box_release_full (map, map_clear);
}

double
aim_map_strokes (const AimMap *map, Vec2 aim)
{
  double turn = turn_at (map, aim),
         swing = (fmin (1, vec2_distance (aim, map->ball) / map->carry_m) - map->first_swing) / map->swing_step;
  const double last_turn = (double)(map->n_turns - 1), last_swing = (double)(map->n_swings - 1), rounding = 1e-9;
  if (!(turn >= -rounding && turn <= last_turn + rounding && swing >= -rounding))
    return NAN;
  double t = fmin (last_turn, fmax (0, turn)), s = fmin (last_swing, fmax (0, swing));
  size_t i = (size_t)fmin (last_turn - 1, t), j = (size_t)fmin (last_swing - 1, s);
  double u = t - (double)i, v = s - (double)j;
  const double *row = map->strokes + j * map->n_turns + i, *next = row + map->n_turns;
  return (1 - v) * ((1 - u) * row[0] + u * row[1]) + v * ((1 - u) * next[0] + u * next[1]);
}
