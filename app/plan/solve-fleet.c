// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What every swing of a bag does on this day, from every lie, in every direction: each flown a few times over level ground, filled in between.
 */
#include "solve-private.h"

#include <math.h>

/* Clubs up to this carry are played with less than a full swing too (common practice: wedges), as is the shortest of those above. */
#define PARTIAL_M 100.0
/* Shares of a full swing; the shortest club above PARTIAL_M has these as well. */
static const double partial_swings[] = { 0.8, 0.62, 0.48 };
static const double shortest_swings[] = { 0.8, 0.62, 0.48, 0.35, 0.25 };
/* Height over the landing at which the track is looked at to tell how a rise moves the landing. */
#define RISE_M 8.0
/* Tangent of the angle at which a ball comes down, at least. */
#define LEAST_DESCENT 0.05
/* How much drag slows a falling ball, m/s2: a ball of 25 m/s in the model (from memory). */
#define FALLING_DRAG_MPS2 5.0
/* A topped ball still has a way to go. */
#define LEAST_ALONG_M 0.01

/* ---- which swings ---- */

static void
add_swing (Fleet *fleet, const Club *club, double share)
{
  if (fleet->n_swings < MOST_SWINGS)
    fleet->swings[fleet->n_swings++] = (Swing){ club, share };
}

static void
choose_swings (Fleet *fleet, const Bag *bag, bool is_tee_only_allowed)
{
  fleet->swings = g_new (Swing, MOST_SWINGS);
  const Club *shortest = NULL;
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    add_swing (fleet, bag_club (bag, i), 1);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    {
      const Club *club = bag_club (bag, i);
      if (club->tee_only && !is_tee_only_allowed)
        continue;
      if (club->carry_m > PARTIAL_M)
        shortest = club;
      else
        for (size_t k = 0; k < G_N_ELEMENTS (partial_swings); k++)
          add_swing (fleet, club, partial_swings[k]);
    }
  for (size_t k = 0; shortest != NULL && k < G_N_ELEMENTS (shortest_swings); k++)
    add_swing (fleet, shortest, shortest_swings[k]);
}

/* ---- flying ---- */

/* Ground that is a level fairway, but that about the ball it rises so. */
static Hole *
fairway_hole (Vec2 stance)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = KIND_FAIRWAY;
  double rise = vec2_length (stance);
  const Part *arrow = NULL;
  if (rise > 0)
    {
      /* An arrow points down the slope. */
      Part *part = part_new (KIND_SLOPE);
      Vec2 up = vec2_unit (stance);
      path_move_to (&part->path, up);
      path_line_to (&part->path, vec2_scale (up, -1));
      part->percent = 100 * rise;
      arrow = part_seal (part);
    }
  Hole *hole = hole_new (&info, &arrow, arrow != NULL, NULL);
  hole_info_clear (&info);
  return hole;
}

/* Fairways to fly over: level, and with stances that rise and fall along the aim and rise to the right of it. */
typedef struct
{
  Hole *level, *up, *down, *side;
} Grounds;

#define STANCE_RISE 0.07

static void
grounds_init (Grounds *grounds, Vec2 unit)
{
  grounds->level = fairway_hole (vec2 (0, 0));
  grounds->up = fairway_hole (vec2_scale (unit, STANCE_RISE));
  grounds->down = fairway_hole (vec2_scale (unit, -STANCE_RISE));
  grounds->side = fairway_hole (vec2_scale (vec2_left (unit), -STANCE_RISE));
}

static void
grounds_clear (Grounds *grounds)
{
  hole_unref (grounds->level);
  hole_unref (grounds->up);
  hole_unref (grounds->down);
  hole_unref (grounds->side);
}

/* Of a ball that comes down so. */
static double
level_run (const Conditions *conditions, const FlightPoint *landing)
{
  Surface fairway = odds_surface (LIE_FAIRWAY, conditions);
  Run run;
  return run_solve_level (landing, &fairway, &run, NULL)
             ? vec2_dot (vec2_sub (run.rest, landing->at), vec2_unit (landing->v_mps))
             : 0;
}

/* How far a ball falls on over ground that lies RISE_M lower. */
static double
falls_on_m (const FlightPoint *end)
{
  double speed = vec2_length (end->v_mps), fall = -end->vz_mps;
  double t = (sqrt (fall * fall + 2 * GRAVITY_MPS2 * RISE_M) - fall) / GRAVITY_MPS2;
  return speed * t - 0.5 * FALLING_DRAG_MPS2 * t * t;
}

static void
note_rise (double above_m, double below_m, double *m1, double *m2)
{
  *m1 = -(above_m + below_m) / (2 * RISE_M);
  *m2 = (below_m - above_m) / (2 * RISE_M * RISE_M);
}

/* The last time at which the ball is that high over its landing: past the apex heights only fall. */
static FlightPoint
last_at_height (const Flight *flight, double high_m)
{
  FlightPoint end = flight_landing (flight);
  double early_s = 0, late_s = end.t_s;
  for (size_t i = 1; i < flight->n_points; i++)
    if (flight->points[i].z_m > flight->points[i - 1].z_m)
      early_s = flight->points[i].t_s;
  for (int i = 0; i < 40; i++)
    {
      double middle_s = (early_s + late_s) / 2;
      if (flight_at (flight, middle_s).z_m > high_m + end.z_m)
        early_s = middle_s;
      else
        late_s = middle_s;
    }
  return flight_at (flight, late_s);
}

/* How the landing moves with the height of the ground there: up from the track itself, down as a ball falls on. Returns how high over the landing the track was looked at, and
   the ball `there`. */
static double
look_at_descent (const ShotResult *shot, Flown *flown, FlightPoint *there)
{
  FlightPoint end = flight_landing (&shot->flight);
  double speed = vec2_length (end.v_mps), fall = -end.vz_mps, descent = speed > 0 ? fmax (LEAST_DESCENT, fall / speed) : 1;
  double above_m = RISE_M / descent, high_m = fmin (RISE_M, 0.7 * shot->apex_m);
  *there = high_m > 0 ? last_at_height (&shot->flight, high_m) : end;
  if (high_m > 0)
    above_m = vec2_distance (there->at, end.at) * RISE_M / high_m;
  note_rise (above_m, falls_on_m (&end), &flown->rise_m1, &flown->rise_m2);
  return high_m;
}

/* What the odds say of the swing's poor strikes; false where they cannot be flown. */
static bool
look_at_poor (const Hole *fairway, const ShotResult *shot, Vec2 unit, Flown *flown)
{
  Strike strikes[MOST_STRIKES];
  size_t n = odds_strikes (fairway, shot, strikes, NULL);
  if (n < MOST_STRIKES)
    return n > 0;
  const FlightPoint *end = &strikes[1].landing;
  Vec2 land = strikes[1].pattern.mean;
  double speed = vec2_length (end->v_mps), descent = speed > 0 ? fmax (LEAST_DESCENT, -end->vz_mps / speed) : 1;
  flown->poor_share = strikes[1].share;
  flown->poor_reach = vec2_dot (land, unit) / flown->along_m;
  flown->poor_right_m = -vec2_cross (unit, land) - flown->poor_reach * flown->right_m;
  if (!(speed > 0))
    return true;
  flown->poor_run_m = fmax (0, level_run (&shot->conditions, end));
  flown->poor_drift_rad = atan2 (-vec2_cross (unit, end->v_mps), vec2_dot (unit, end->v_mps));
  note_rise (RISE_M / descent, falls_on_m (end), &flown->poor_rise_m1, &flown->poor_rise_m2);
  return true;
}

Flown
flown_poor (const Flown *flown)
{
  Flown poor = *flown;
  poor.along_m = fmax (LEAST_ALONG_M, flown->poor_reach * flown->along_m);
  poor.right_m = flown->poor_reach * flown->right_m + flown->poor_right_m;
  poor.long_sd_m = MISHIT_SPREAD * flown->long_sd_m;
  poor.side_sd_m = MISHIT_SPREAD * flown->side_sd_m;
  poor.correlation = 0;
  poor.run_m = flown->poor_run_m;
  poor.drift_rad = flown->poor_drift_rad;
  poor.rise_m1 = flown->poor_rise_m1;
  poor.rise_m2 = flown->poor_rise_m2;
  poor.run_rise = 0;
  poor.up_along_m = flown->poor_reach * flown->up_along_m;
  poor.up_along_m2 = flown->poor_reach * flown->up_along_m2;
  poor.up_right_m = flown->poor_reach * flown->up_right_m;
  poor.up_run_m = 0;
  poor.side_along_m = flown->poor_reach * flown->side_along_m;
  poor.side_right_m = flown->poor_reach * flown->side_right_m;
  poor.poor_share = 0;
  return poor;
}

/* Off turf of a fairway, with what the lie does. */
static bool
fly_to_landing (const Hole *fairway, const ShotInput *swing, const LieEffect *effect, Vec2 unit, ShotResult *shot)
{
  ShotInput input = *swing;
  LieTable lies = { .effects[LIE_FAIRWAY] = *effect };
  input.ball = vec2 (0, 0);
  input.aim = vec2_scale (unit, swing->club->carry_m);
  input.lies = &lies;
  return odds_shot_landing (fairway, &input, shot, NULL);
}

static bool
fly_level (const Hole *fairway, const ShotInput *swing, const LieEffect *effect, Vec2 unit, Flown *flown)
{
  ShotResult shot;
  if (!fly_to_landing (fairway, swing, effect, unit, &shot))
    return false;
  FlightPoint end = flight_landing (&shot.flight), there;
  double run_m = level_run (&shot.conditions, &end);
  *flown = (Flown){ .along_m = vec2_dot (shot.landing, unit),
                    .right_m = -vec2_cross (unit, shot.landing),
                    .long_sd_m = shot.pattern.long_sd_m,
                    .side_sd_m = shot.pattern.side_sd_m,
                    .correlation = shot.pattern.correlation,
                    .run_m = fmax (0, run_m),
                    .land_mps = vec2_length (end.v_mps),
                    .fall_mps = -end.vz_mps,
                    .spin_radps = end.spin_radps,
                    .drift_rad = atan2 (-vec2_cross (unit, end.v_mps), vec2_dot (unit, end.v_mps)) };
  double high_m = look_at_descent (&shot, flown, &there);
  if (high_m > 0)
    flown->run_rise = (level_run (&shot.conditions, &there) - run_m) / high_m;
  return isfinite (flown->along_m) && isfinite (flown->right_m) && flown->along_m > 0
         && look_at_poor (fairway, &shot, unit, flown);
}

/* Where the ball comes down from a stance, and how its landing moves with the height there. */
static bool
fly_stance (const Hole *fairway, const ShotInput *swing, const LieEffect *effect, Vec2 unit, Flown *flown)
{
  ShotResult shot;
  FlightPoint there;
  if (!fly_to_landing (fairway, swing, effect, unit, &shot))
    return false;
  FlightPoint end = flight_landing (&shot.flight);
  *flown = (Flown){ .along_m = vec2_dot (shot.landing, unit),
                    .right_m = -vec2_cross (unit, shot.landing),
                    .run_m = fmax (0, level_run (&shot.conditions, &end)) };
  look_at_descent (&shot, flown, &there);
  return isfinite (flown->along_m) && isfinite (flown->right_m) && flown->along_m > 0;
}

/* What a stance adds to a shot that flies so from level ground; as good as nothing where no ball leaves it. */
static void
look_at_stances (const Grounds *grounds, const ShotInput *swing, const LieEffect *effect, Vec2 unit, Flown *flown)
{
  Flown up, down, side;
  if (!(effect->stance_share > 0))
    return;
  if (fly_stance (grounds->up, swing, effect, unit, &up) && fly_stance (grounds->down, swing, effect, unit, &down))
    {
      flown->up_along_m = (up.along_m - down.along_m) / (2 * STANCE_RISE);
      flown->up_along_m2 = (up.along_m + down.along_m - 2 * flown->along_m) / (2 * STANCE_RISE * STANCE_RISE);
      flown->up_right_m = (up.right_m - down.right_m) / (2 * STANCE_RISE);
      flown->up_run_m = (up.run_m - down.run_m) / (2 * STANCE_RISE);
      flown->up_rise_m1 = (up.rise_m1 - down.rise_m1) / (2 * STANCE_RISE);
    }
  if (fly_stance (grounds->side, swing, effect, unit, &side))
    {
      flown->side_along_m = (side.along_m - flown->along_m) / STANCE_RISE;
      flown->side_right_m = (side.right_m - flown->right_m) / STANCE_RISE;
    }
}

bool
fleet_fly (const ShotInput *swing, const LieTable *lies, Lie lie, Vec2 unit, Flown *flown)
{
  Grounds grounds;
  grounds_init (&grounds, unit);
  bool is_flown = fly_level (grounds.level, swing, &lies->effects[lie], unit, flown);
  if (is_flown)
    look_at_stances (&grounds, swing, &lies->effects[lie], unit, flown);
  grounds_clear (&grounds);
  return is_flown;
}

static Vec2
heading_unit (const Fleet *fleet, int heading)
{
  double angle = PI / 2 + heading * (2 * PI / fleet->n_headings);
  return vec2 (cos (angle), sin (angle));
}

static Flown *
flown_of (const Fleet *fleet, size_t swing, Lie lie, int heading)
{
  return &fleet->flown[(swing * N_LIES + (size_t)lie) * (size_t)fleet->n_headings + (size_t)heading];
}

typedef struct
{
  const Fleet *fleet;
  const Grounds *grounds; /* of the first heading */
  const LieTable *lies;
  const bool *is_needed;
  const Conditions *conditions;
} Flying;

/* In all directions; what a stance adds is taken from the first of them. */
static void
fly_from (const Flying *flights, size_t i, Lie lie)
{
  const Fleet *fleet = flights->fleet;
  const Swing *swing = &fleet->swings[i];
  const LieEffect *effect = &flights->lies->effects[lie];
  ShotInput input = { .club = swing->club, .swing = swing->swing, .curve_m = NAN, .conditions = flights->conditions };
  Flown first = { 0 };
  for (int heading = 0; heading < fleet->n_headings; heading++)
    {
      Flown *flown = flown_of (fleet, i, lie, heading);
      flown->along_m = NAN;
      if (!flights->is_needed[lie]
          || !fly_level (flights->grounds->level, &input, effect, heading_unit (fleet, heading), flown))
        continue;
      if (heading == 0)
        {
          look_at_stances (flights->grounds, &input, effect, heading_unit (fleet, 0), flown);
          first = *flown;
        }
      flown->up_along_m = first.up_along_m;
      flown->up_along_m2 = first.up_along_m2;
      flown->up_right_m = first.up_right_m;
      flown->up_run_m = first.up_run_m;
      flown->up_rise_m1 = first.up_rise_m1;
      flown->side_along_m = first.side_along_m;
      flown->side_right_m = first.side_right_m;
    }
}

static void
fly_swing (void *data, size_t i)
{
  for (int lie = 0; lie < N_LIES; lie++)
    fly_from (data, i, (Lie)lie);
}

Fleet *
fleet_new (const Bag *bag, const LieTable *lies, const Conditions *conditions, const bool is_needed[N_LIES], int n_threads,
           const gint *cancel)
{
  Fleet *fleet = g_new0 (Fleet, 1);
  bool is_any_for_grass = false;
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    is_any_for_grass |= !bag_club (bag, i)->tee_only;
  fleet->is_tee_only_kept = is_any_for_grass;
  choose_swings (fleet, bag, !is_any_for_grass);
  fleet->n_headings = conditions->wind.to_mps.x != 0 || conditions->wind.to_mps.y != 0 ? MOST_HEADINGS : 1;
  fleet->flown = g_new0 (Flown, fleet->n_swings * N_LIES * (size_t)fleet->n_headings);
  bool needed[N_LIES];
  for (int lie = 0; lie < N_LIES; lie++)
    needed[lie] = is_needed[lie] || lie == LIE_FAIRWAY || lie == LIE_TEE;
  Grounds grounds;
  grounds_init (&grounds, heading_unit (fleet, 0));
  Flying flights = { fleet, &grounds, lies, needed, conditions };
  solve_crew (n_threads, fleet->n_swings, fly_swing, &flights, cancel);
  grounds_clear (&grounds);
  return fleet;
}

void
fleet_free (Fleet *fleet)
{
  if (fleet == NULL)
    return;
  g_free (fleet->swings);
  g_free (fleet->flown);
  g_free (fleet);
}

/* ---- in any direction ---- */

/* A smooth curve through four values in a row, between the middle two (Catmull and Rom 1974). */
static double
between (const double v[4], double t)
{
  return v[1] + 0.5 * t * (v[2] - v[0] + t * (2 * v[0] - 5 * v[1] + 4 * v[2] - v[3] + t * (3 * (v[1] - v[2]) + v[3] - v[0])));
}

bool
fleet_flown_turned (const Fleet *fleet, size_t swing, Lie lie, double turn, Flown *flown)
{
  if (fleet->is_tee_only_kept && fleet->swings[swing].club->tee_only && lie != LIE_TEE)
    return false;
  const Flown *first = flown_of (fleet, swing, lie, 0);
  if (fleet->n_headings == 1)
    {
      *flown = *first;
      return !isnan (first->along_m);
    }
  double headings = turn * fleet->n_headings, whole = floor (headings);
  const Flown *four[4];
  for (int i = 0; i < 4; i++)
    {
      int heading = ((int)whole + i - 1 + 2 * fleet->n_headings) % fleet->n_headings;
      four[i] = flown_of (fleet, swing, lie, heading);
      if (isnan (four[i]->along_m))
        return false;
    }
  double *to = (double *)(void *)flown;
  for (size_t k = 0; k < sizeof *flown / sizeof *to; k++)
    {
      double v[4];
      for (int i = 0; i < 4; i++)
        v[i] = ((const double *)(const void *)four[i])[k];
      to[k] = between (v, headings - whole);
    }
  return true;
}

bool
fleet_flown (const Fleet *fleet, size_t swing, Lie lie, Vec2 unit, Flown *flown)
{
  return fleet_flown_turned (fleet, swing, lie, (atan2 (unit.y, unit.x) - PI / 2) / (2 * PI), flown);
}
