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
/* How much drag slows a falling ball, m/s2: a ball of 25 m/s in the model (from memory). */
#define FALLING_DRAG_MPS2 5.0

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

static Hole *
level_hole (Kind ground)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = ground;
  Hole *hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  return hole;
}

/* How the landing moves with the height of the ground there: up from the track itself, down as a ball falls on. */
static void
look_at_descent (const ShotResult *shot, Flown *flown)
{
  FlightPoint end = flight_landing (&shot->flight);
  double speed = vec2_length (end.v_mps), fall = -end.vz_mps;
  flown->descent = speed > 0 ? fmax (0.05, fall / speed) : 1;
  double t = (sqrt (fall * fall + 2 * GRAVITY_MPS2 * RISE_M) - fall) / GRAVITY_MPS2;
  double below_m = speed * t - 0.5 * FALLING_DRAG_MPS2 * t * t;
  double above_m = RISE_M / flown->descent;
  double high_m = fmin (RISE_M, 0.7 * shot->apex_m), early_s = 0, late_s = end.t_s;
  /* The last time at which the ball is that high: past the apex heights only fall. */
  for (size_t i = 1; i < shot->flight.n_points; i++)
    if (shot->flight.points[i].z_m > shot->flight.points[i - 1].z_m)
      early_s = shot->flight.points[i].t_s;
  for (int i = 0; i < 40; i++)
    {
      double middle_s = (early_s + late_s) / 2;
      if (flight_at (&shot->flight, middle_s).z_m > high_m + end.z_m)
        early_s = middle_s;
      else
        late_s = middle_s;
    }
  if (high_m > 0)
    above_m = vec2_distance (flight_at (&shot->flight, late_s).at, end.at) * RISE_M / high_m;
  flown->rise_m1 = -(above_m + below_m) / (2 * RISE_M);
  flown->rise_m2 = (below_m - above_m) / (2 * RISE_M * RISE_M);
}

static bool
fly_shot (const Hole *hole, const ShotInput *swing, const LieEffect *effect, Vec2 unit, Flown *flown)
{
  ShotInput input = *swing;
  ShotResult shot;
  input.ball = vec2 (0, 0);
  input.aim = vec2_scale (unit, swing->club->carry_m);
  input.swing = fmin (1, swing->swing * effect->carry_factor);
  input.lies = NULL;
  if (!odds_shot (hole, NULL, &input, &shot, NULL))
    return false;
  *flown = (Flown){ .along_m = vec2_dot (shot.landing, unit),
                    .right_m = -vec2_cross (unit, shot.landing),
                    .long_sd_m = shot.pattern.long_sd_m * effect->long_factor,
                    .side_sd_m = shot.pattern.side_sd_m * effect->side_factor,
                    .correlation = shot.pattern.correlation,
                    .run_m = fmax (0, vec2_dot (vec2_sub (shot.rest, shot.landing), unit)) };
  look_at_descent (&shot, flown);
  return isfinite (flown->along_m) && isfinite (flown->right_m) && flown->along_m > 0;
}

static bool
fly (const Hole *hole, const Swing *swing, const LieEffect *effect, Vec2 unit, const Conditions *conditions, Flown *flown)
{
  ShotInput input = { .club = swing->club, .swing = swing->swing, .curve_m = NAN, .conditions = conditions };
  return fly_shot (hole, &input, effect, unit, flown);
}

bool
fleet_fly (const ShotInput *swing, const LieTable *lies, Lie lie, Vec2 unit, Flown *flown)
{
  g_autoptr (Hole) fairway = level_hole (KIND_FAIRWAY);
  return fly_shot (fairway, swing, &lies->effects[lie], unit, flown);
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
  const Hole *fairway;
  const LieTable *lies;
  const bool *is_needed;
  const Conditions *conditions;
} Flying;

static void
fly_swing (void *data, size_t i)
{
  const Flying *flights = data;
  const Fleet *fleet = flights->fleet;
  for (int lie = 0; lie < N_LIES; lie++)
    for (int heading = 0; heading < fleet->n_headings; heading++)
      {
        Flown *flown = flown_of (fleet, i, (Lie)lie, heading);
        flown->along_m = NAN;
        if (flights->is_needed[lie])
          fly (flights->fairway, &fleet->swings[i], &flights->lies->effects[lie], heading_unit (fleet, heading),
               flights->conditions, flown);
      }
}

/* Runs on the lies over that on a fairway: of the swing that runs farthest, which is where it counts. */
static void
compare_runs (Fleet *fleet, const LieTable *lies, const Conditions *conditions)
{
  static const struct
  {
    Lie lie;
    Kind kind;
  } grounds[] = { { LIE_FIRST_CUT, KIND_FIRST_CUT },
                  { LIE_ROUGH, KIND_ROUGH },
                  { LIE_DEEP_ROUGH, KIND_DEEP_ROUGH },
                  { LIE_FRINGE, KIND_FRINGE },
                  { LIE_GREEN, KIND_GREEN },
                  { LIE_WASTE, KIND_WASTE },
                  { LIE_PATH, KIND_PATH } };
  size_t farthest = 0;
  double most_m = 0;
  for (size_t i = 0; i < fleet->n_swings; i++)
    if (flown_of (fleet, i, LIE_FAIRWAY, 0)->run_m > most_m)
      {
        farthest = i;
        most_m = flown_of (fleet, i, LIE_FAIRWAY, 0)->run_m;
      }
  for (int lie = 0; lie < N_LIES; lie++)
    fleet->run_share[lie] = solve_lie_stops ((Lie)lie) ? 0 : 1;
  for (size_t i = 0; i < G_N_ELEMENTS (grounds) && most_m > 0; i++)
    {
      g_autoptr (Hole) hole = level_hole (grounds[i].kind);
      Flown flown;
      if (fly (hole, &fleet->swings[farthest], &lies->effects[LIE_FAIRWAY], heading_unit (fleet, 0), conditions, &flown))
        fleet->run_share[grounds[i].lie] = flown.run_m / most_m;
    }
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
  g_autoptr (Hole) fairway = level_hole (KIND_FAIRWAY);
  Flying flights = { fleet, fairway, lies, needed, conditions };
  solve_crew (n_threads, fleet->n_swings, fly_swing, &flights, cancel);
  compare_runs (fleet, lies, conditions);
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
fleet_flown (const Fleet *fleet, size_t swing, Lie lie, Vec2 unit, Flown *flown)
{
  if (fleet->is_tee_only_kept && fleet->swings[swing].club->tee_only && lie != LIE_TEE)
    return false;
  const Flown *first = flown_of (fleet, swing, lie, 0);
  if (fleet->n_headings == 1)
    {
      *flown = *first;
      return !isnan (first->along_m);
    }
  double turn = (atan2 (unit.y, unit.x) - PI / 2) * (fleet->n_headings / (2 * PI)), whole = floor (turn);
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
      to[k] = between (v, turn - whole);
    }
  return true;
}
