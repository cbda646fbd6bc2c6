// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * From a club, a swing and a shape to a ball in the air.
 *
 * The golfer's carry is the truth: on the standard day the ball lands at just that distance, and the model says by how much wind, air, and ground move
 * the landing from there. So nothing that the model gets wrong about a club is seen as long as the day is as the carry was told for.
 */
#include "fly-private.h"
#include "odds-stance.h"

#include <math.h>

#define DEGREE (PI / 180)

/* A draw or a fade of a club without a curve of its own bends by this share of its carry: 8 m on 200 (common practice). */
#define USUAL_CURVE_SHARE 0.04

/* A distance grows with this power of the ball's speed, more or less: a first guess. */
#define DISTANCE_POWER 1.3
/* Newton's steps towards carry and curve. */
#define MOST_STEPS 20
#define LANDING_TOLERANCE_M 1e-3
#define SPEED_NUDGE 1e-3
#define TILT_NUDGE_RAD 1e-2
#define LONGEST_STEP 0.3 /* share of the speed, radians of tilt */
#define MOST_TILT_RAD (75 * DEGREE)

double
usual_curve (const Club *club, ShotShape shape, double curve_m)
{
  double own_m = isnan (club->curve_m) ? 0 : club->curve_m;
  if (!isnan (curve_m))
    return curve_m;
  if (shape == SHOT_STRAIGHT)
    return own_m;
  double sign = shape == SHOT_FADE ? 1 : -1;
  return own_m * sign > 0 ? own_m : sign * USUAL_CURVE_SHARE * club->carry_m;
}

/* ---- the launch ---- */

/* Where a launch lands on the standard day: x to the right of the start line, y along it. */
static bool
land_standard (const Launch *launch, Vec2 *landing, GError **error)
{
  FlightInput input = { .direction = { 0, 1 }, .launch = *launch, .air = air_standard () };
  Flight flight;
  if (!flight_solve (&input, &flight, error))
    return false;
  *landing = flight_landing (&flight).at;
  return true;
}

/* The club's full swing with its own curve. A club that was not read from a bag has its launch solved here. */
static bool
full_launch (const Club *club, Launch *launch, GError **error)
{
  if (club->launch.speed_mps > 0)
    {
      *launch = club->launch;
      return true;
    }
  FlightShape shape = { .carry_m = club->carry_m,
                        .loft_rad = club->loft_deg > 0 ? club->loft_deg * DEGREE : NAN,
                        .apex_m = club->apex_m > 0 ? club->apex_m : NAN,
                        .curve_m = club->curve_m };
  return flight_launch (&shape, launch, error);
}

/* Where it lands, and what is still off: distance and curve. */
static bool
still_off (const Launch *launch, double carry_m, double curve_m, Vec2 *landing, Vec2 *off)
{
  if (!land_standard (launch, landing, NULL))
    return false;
  *off = vec2 (vec2_length (*landing) - carry_m, landing->x - curve_m);
  return true;
}

static Launch
changed (const Launch *launch, double speed_share, double tilt_rad)
{
  Launch result = launch_scaled (launch, 1 + speed_share);
  result.tilt_rad += tilt_rad;
  return result;
}

/* Speed and tilt for a carry and a curve, from a launch that is near, and where it lands. */
static bool
bend_launch (Launch *launch, double carry_m, double curve_m, Vec2 *landing)
{
  for (int i = 0; i < MOST_STEPS; i++)
    {
      Vec2 off, faster, turned, nudged;
      Launch by_speed = changed (launch, SPEED_NUDGE, 0), by_tilt = changed (launch, 0, TILT_NUDGE_RAD);
      if (!still_off (launch, carry_m, curve_m, landing, &off))
        return false;
      if (fabs (off.x) < LANDING_TOLERANCE_M && fabs (off.y) < LANDING_TOLERANCE_M)
        return true;
      if (!still_off (&by_speed, carry_m, curve_m, &nudged, &faster)
          || !still_off (&by_tilt, carry_m, curve_m, &nudged, &turned))
        return false;
      Vec2 a = vec2_scale (vec2_sub (faster, off), 1 / SPEED_NUDGE),
           b = vec2_scale (vec2_sub (turned, off), 1 / TILT_NUDGE_RAD);
      double determinant = vec2_cross (a, b);
      double speed = -vec2_cross (off, b) / determinant, tilt = -vec2_cross (a, off) / determinant;
      double longest = fmax (fabs (speed), fabs (tilt)), share = longest > LONGEST_STEP ? LONGEST_STEP / longest : 1;
      *launch = changed (launch, share * speed, share * tilt);
      if (!isfinite (launch->speed_mps) || !(fabs (launch->tilt_rad) < MOST_TILT_RAD))
        return false;
    }
  return false;
}

/* ---- turned onto the line ---- */

LieEffect
lie_effect_at (const Hole *hole, const LieTable *lies, Vec2 ball, const Club *club)
{
  if (lies == NULL)
    return (LieEffect){ .carry_factor = 1, .long_factor = 1, .side_factor = 1, .spin_factor = 1 };
  return lie_effect_on (lies, odds_lie (hole, ball), club);
}

/* The launch of this share of the club's carry, with the spin that the lie leaves, and where it lands on the standard day. */
static bool
lie_launch (const Club *club, const LieEffect *effect, double share, double curve_m, Launch *launch, Vec2 *landing)
{
  double own_m = isnan (club->curve_m) ? 0 : club->curve_m;
  if (share == 1 && effect->spin_factor == 1 && curve_m == own_m)
    {
      if (club->launch.speed_mps > 0)
        *landing = club->lands;
      return club->launch.speed_mps > 0 || land_standard (launch, landing, NULL);
    }
  launch->spin_radps *= effect->spin_factor;
  if (share != 1)
    *launch = launch_scaled (launch, pow (share, 1 / DISTANCE_POWER));
  return bend_launch (launch, share * club->carry_m, share * effect->spin_factor * curve_m, landing);
}

bool
sendoff_make (const Club *club, const LieEffect *effect, double swing, Vec2 ball, Vec2 along, double curve_m, Sendoff *sendoff,
              GError **error)
{
  double share = swing * effect->carry_factor;
  Sendoff made = { .club = club, .effect = *effect, .swing = swing, .share = share, .ball = ball, .along = along };
  if (!full_launch (club, &made.launch, error))
    {
      g_prefix_error (error, "%s: ", club->name);
      return false;
    }
  Vec2 landing, right = vec2_scale (vec2_left (along), -1);
  if (!lie_launch (club, effect, share, curve_m, &made.launch, &landing))
    {
      g_set_error (error, ODDS_ERROR, ODDS_ERROR_CLUB, "%s: no ball of this carry curves that much; give less curve",
                   club->name);
      return false;
    }
  Vec2 flown = vec2_add (vec2_scale (along, share * club->carry_m), vec2_scale (right, share * club->side_bias_m));
  made.meant = vec2_add (ball, flown);
  made.meant_m = vec2_length (flown);
  made.curve_m = landing.x;
  /* The start line is as far left of the line to the landing as the ball curves to the right of it. */
  Vec2 towards = vec2_unit (flown), unit = vec2_unit (landing);
  made.start = vec2_add (vec2_scale (towards, unit.y), vec2_scale (vec2_left (towards), unit.x));
  made.modelled = vec2_add (ball, vec2_scale (towards, vec2_length (landing)));
  *sendoff = made;
  return true;
}

/* ---- on this day ---- */

bool
is_standard (const Conditions *conditions, const Ground *ground, Vec2 ball)
{
  Air air = air_standard ();
  Vec2 slope;
  return ground->terrain == NULL && !odds_stance_arrow (ground->hole, ball, &slope)
         && conditions->air.density_kgm3 == air.density_kgm3 && conditions->air.viscosity_pas == air.viscosity_pas
         && conditions->wind.to_mps.x == 0 && conditions->wind.to_mps.y == 0;
}

double
sendoff_from_fairway (const Sendoff *sendoff, double distance_m)
{
  return distance_m / sendoff->effect.carry_factor;
}

/* However steeply the ground falls, the ball is not driven into it. */
#define LEAST_START_RAD (1 * DEGREE)

/* A direction in space. */
typedef struct
{
  Vec2 level;
  double up;
} Direction;

/* Turned about the level line across `uphill`, from there towards the sky. */
static Direction
turned_up (Direction from, Vec2 uphill, double cosine, double sine)
{
  double along = vec2_dot (from.level, uphill), across = vec2_cross (uphill, from.level);
  Vec2 level = vec2_add (vec2_scale (uphill, along * cosine - from.up * sine), vec2_scale (vec2_left (uphill), across));
  return (Direction){ level, along * sine + from.up * cosine };
}

/* Turns the swing with the ground under the ball: the ball's first direction and the axis of its spin, as flight makes them from the launch. */
static void
take_stance (const Sendoff *sendoff, const Ground *ground, FlightInput *input)
{
  Vec2 slope = ground_slope (ground, sendoff->ball);
  double tilt_rad = fmin (MOST_STANCE_RAD, sendoff->effect.stance_share * atan (vec2_length (slope)));
  if (!(tilt_rad > 0))
    return;
  Launch *launch = &input->launch;
  Vec2 along = input->direction, right = vec2_scale (vec2_left (along), -1), uphill = vec2_unit (slope);
  double level = cos (launch->angle_rad), steep = sin (launch->angle_rad);
  double c = cos (launch->tilt_rad), s = sin (launch->tilt_rad);
  Direction ball = { vec2_scale (along, level), steep };
  Direction axis = { vec2_add (vec2_scale (right, c), vec2_scale (along, s * steep)), -s * level };
  ball = turned_up (ball, uphill, cos (tilt_rad), sin (tilt_rad));
  axis = turned_up (axis, uphill, cos (tilt_rad), sin (tilt_rad));

  along = vec2_unit (ball.level);
  right = vec2_scale (vec2_left (along), -1);
  level = vec2_length (ball.level);
  steep = ball.up;
  input->direction = along;
  launch->angle_rad = fmax (LEAST_START_RAD, atan2 (steep, level));
  launch->tilt_rad = atan2 (steep * vec2_dot (axis.level, along) - level * axis.up, vec2_dot (axis.level, right));
}

FlightInput
sendoff_input (const Sendoff *sendoff, const Conditions *conditions, const Ground *ground)
{
  FlightInput input = { .from = sendoff->ball,
                        .direction = sendoff->start,
                        .launch = sendoff->launch,
                        .air = conditions->air,
                        .wind = conditions->wind };
  if (ground->terrain != NULL)
    {
      input.ground = ground_height;
      input.ground_data = ground;
      input.ground_rise_m = ground_rise (ground, sendoff->ball);
    }
  take_stance (sendoff, ground, &input);
  return input;
}

bool
sendoff_fly (const Sendoff *sendoff, const Conditions *conditions, const Ground *ground, Flight *flight, Vec2 *landing,
             GError **error)
{
  FlightInput input = sendoff_input (sendoff, conditions, ground);
  if (!flight_solve (&input, flight, error))
    return false;
  *landing = is_standard (conditions, ground, sendoff->ball)
                 ? sendoff->meant
                 : vec2_add (sendoff->meant, vec2_sub (flight_landing (flight).at, sendoff->modelled));
  return true;
}

/* A swing that carries this share of the full one is the hardest that is solved for (common practice: nobody has more in hand). */
#define HARDEST_SHARE 1.15

/*
 * Beyond the hardest swing: in proportion to what that does on this day. Speed alone wins little more against a wind, where the ball climbs instead, so that
 * solving on would tell numbers that grow without sense and then none.
 */
static double
plays_beyond (const Sendoff *sendoff, const FlightInput *today, double factor, double distance_m, double flown_m)
{
  FlightInput input = *today;
  Launch level = launch_scaled (&sendoff->launch, factor);
  Flight flight;
  Vec2 landing;
  input.launch = launch_scaled (&today->launch, factor);
  if (!flight_solve (&input, &flight, NULL) || !land_standard (&level, &landing, NULL))
    return distance_m * sendoff->meant_m / flown_m;
  /* Which may be less than the swing in hand does. */
  double today_m = fmax (flown_m, vec2_distance (flight_landing (&flight).at, sendoff->ball));
  return vec2_length (landing) * fmax (1, distance_m / today_m);
}

double
sendoff_plays (const Sendoff *sendoff, const Conditions *conditions, const Ground *ground, const Flight *flown,
               double distance_m, double flown_m)
{
  if (is_standard (conditions, ground, sendoff->ball))
    return sendoff_from_fairway (sendoff, distance_m);
  FlightInput input = sendoff_input (sendoff, conditions, ground);
  double factor, side_m, hardest = pow (HARDEST_SHARE / sendoff->swing, 1 / DISTANCE_POWER);
  Vec2 landing;
  Launch launch;
  if (flight_reach_from (&input, flight_landing (flown).at, distance_m, &factor, &side_m, NULL) && factor <= hardest
      && (launch = launch_scaled (&sendoff->launch, factor), land_standard (&launch, &landing, NULL)))
    return sendoff_from_fairway (sendoff, vec2_length (landing));
  return sendoff_from_fairway (sendoff, plays_beyond (sendoff, &input, hardest, distance_m, flown_m));
}
