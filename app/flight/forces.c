// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The forces on a ball in the air: drag and lift coefficients of the two models, and the rate of change of its place, velocity and spin.
 */
#include "forces-private.h"

#include <math.h>

/* USGA/R&A 2006, Appendix C, eqs (7) and (8). The constants were recovered by fitting the evaluated table as reproduced elsewhere; it is met to 1e-6. */
#define TUNNEL_LEAST_SPIN_RATIO 1e-9 /* its logarithm is taken */
#define TUNNEL_MOST_SPIN_RATIO 1.8
#define TUNNEL_LEAST_REYNOLDS 0.2e5
#define TUNNEL_MOST_REYNOLDS 2e5

static double
held (double value, double least, double most)
{
  return value < least ? least : value > most ? most : value;
}

static void
tunnel_coefficients (double spin_ratio, double reynolds, double *drag, double *lift)
{
  double q = held (spin_ratio, TUNNEL_LEAST_SPIN_RATIO, TUNNEL_MOST_SPIN_RATIO);
  double log_q = log (q);
  double log_re = log (held (reynolds, TUNNEL_LEAST_REYNOLDS, TUNNEL_MOST_REYNOLDS) / 1e5);
  *drag = 0.06639 - 0.6312 * q * log_q + 0.3963 * q * q;
  *lift = fmax (0, 0.4221 + 0.1134 * log_q + 0.03225 * q * q * sqrt (q) - 0.1208 * log_re * log_re);
}

void
flight_coefficients (FlightModel model, double spin_ratio, double reynolds, double *drag, double *lift)
{
  if (model == FLIGHT_TUNNEL)
    {
      tunnel_coefficients (spin_ratio, reynolds, drag, lift);
      return;
    }
  Pushes pushes = outdoor_pushes (spin_ratio, 1);
  *drag = pushes.slow_by_speed + pushes.slow;
  *lift = pushes.turn_by_speed + pushes.turn;
}

void
flight_rates (const Medium *medium, const State *state, State *rates)
{
  Four at, motion;
  memcpy (&at, &state->item[AT_X], sizeof at);
  memcpy (&motion, &state->item[V_X], sizeof motion);
  Four change = motion_rates (medium, wind_share (medium, at), motion);
  memcpy (&rates->item[AT_X], &motion, sizeof motion);
  memcpy (&rates->item[V_X], &change, sizeof change);
}

/* ---- what an input must be ---- */

static const char *
wrong_launch (const Launch *launch)
{
  if (!(launch->speed_mps > 0 && launch->speed_mps <= MOST_BALL_SPEED_MPS))
    return "the ball's speed off the club is not one a golfer reaches; give more than 0 and at most 110 m/s (246 mph)";
  if (!(launch->angle_rad > 0 && launch->angle_rad < PI / 2))
    return "a ball leaves the club above the level and less than straight up; give a launch angle between 0 and 90 degrees";
  if (!(launch->spin_radps >= 0 && launch->spin_radps <= MOST_SPIN_RADPS))
    return "the spin is not one a club gives; give 0 to 16 000 turns a minute";
  if (!(fabs (launch->tilt_rad) <= PI / 2))
    return "the spin axis cannot be tilted by more than a quarter turn";
  return NULL;
}

static const char *
wrong_day (const FlightInput *input)
{
  const Air *air = &input->air;
  if (!(air->density_kgm3 > 0 && air->density_kgm3 <= 2) || !(air->viscosity_pas > 0 && air->viscosity_pas < 1))
    return "the air is none that golf is played in; check temperature, pressure and humidity";
  if (!(vec2_length (input->wind.to_mps) <= MOST_WIND_MPS))
    return "no golf is played in such a wind; give at most 30 m/s (67 mph)";
  if (!(input->wind.roughness_m >= 0 && input->wind.roughness_m <= MOST_ROUGHNESS_M))
    return "the ground's roughness to the wind is out of range; give 0 to 0.5 m";
  return NULL;
}

static const char *
wrong_input (const FlightInput *input)
{
  double length = vec2_length (input->direction);
  if (!isfinite (input->from.x) || !isfinite (input->from.y))
    return "the ball is at no place of the hole; put it on the drawing";
  if (!(fabs (length - 1) < 1e-6))
    return "the shot has no direction; put the aim away from the ball";
  if ((unsigned)input->model >= N_FLIGHT_MODELS)
    return "there is no such flight model";
  if (!(input->ground_rise_m >= 0))
    return "the ground's rise is no height";
  const char *wrong = wrong_launch (&input->launch);
  return wrong != NULL ? wrong : wrong_day (input);
}

/* Backspin turns about the axis to the right of the start line; the tilt turns it about the ball's first direction, its right end down for a ball that
   curves to the right. */
static void
aim_ball (const FlightInput *input, Medium *medium, State *state)
{
  const Launch *launch = &input->launch;
  Vec2 along = input->direction, right = vec2 (along.y, -along.x);
  double level = cos (launch->angle_rad), steep = sin (launch->angle_rad);
  double c = cos (launch->tilt_rad), s = sin (launch->tilt_rad);
  medium->axis[0] = c * right.x + s * steep * along.x;
  medium->axis[1] = c * right.y + s * steep * along.y;
  medium->axis[2] = -s * level;
  *state = (State){ { input->from.x, input->from.y, 0, 0, launch->speed_mps * level * along.x,
                      launch->speed_mps * level * along.y, launch->speed_mps * steep, launch->spin_radps } };
}

bool
flight_prepare (const FlightInput *input, Medium *medium, State *state, GError **error)
{
  const char *wrong = wrong_input (input);
  double z_m = 0;
  if (wrong == NULL && input->ground != NULL)
    {
      z_m = input->ground (input->ground_data, input->from);
      wrong = isfinite (z_m) ? NULL : "the ground has no height where the ball lies";
    }
  if (wrong != NULL)
    {
      g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE, wrong);
      return false;
    }
  double section_m2 = PI * BALL_RADIUS_M * BALL_RADIUS_M;
  *medium = (Medium){ .take = step_taker (),
                      .model = input->model,
                      .force_per_m = 0.5 * input->air.density_kgm3 * section_m2 / BALL_MASS_KG,
                      .reynolds_per_mps = input->air.density_kgm3 * BALL_DIAMETER_M / input->air.viscosity_pas,
                      .wind = input->wind,
                      .wind_base = 1,
                      .ground = input->ground,
                      .ground_data = input->ground_data };
  if (input->wind.to_mps.x != 0 || input->wind.to_mps.y != 0)
    wind_profile (input->wind.roughness_m, &medium->wind_base, &medium->wind_log);
  aim_ball (input, medium, state);
  state->item[AT_Z] = z_m;
  return true;
}
