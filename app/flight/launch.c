// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * How a ball leaves a club of which only the carry, the loft, the apex or the curve is known.
 *
 * Angle and spin: rigid impact of a ball and an inclined, free clubhead, the ball rolling on the face at release (Cochran and Stobbs 1968, The Search
 * for the Perfect Swing; Penner 2001, Am. J. Phys. 69:563). With the delivered loft L, clubhead mass M, ball mass m, restitution e and the clubhead's
 * speed u:
 *
 *     across the face  u cos L (1 + e) / (1 + m/M)          off the face; this and the next make the ball's speed
 *     along the face   u sin L / (7/2 + m/M)                towards the sole, because the face rubs the ball that way
 *     spin             5/2 of the speed along the face over the ball's radius
 *
 * So the ball starts atan (tan L (1 + m/M) / ((1 + e)(7/2 + m/M))) below L, and its spin ratio depends on the loft alone.
 */
#include "flight-private.h"

#include <math.h>

/* Clubhead of 200 g; restitution between that of an iron and the largest allowed for a driver, 0.83 (common practice). */
#define CLUBHEAD_KG 0.200
#define RESTITUTION 0.78
#define MASS_RATIO (BALL_MASS_KG / CLUBHEAD_KG)
/* Inertia of a solid ball: 2/5 m r^2. */
#define RUB_SHARE ((1 + MASS_RATIO) / ((1 + RESTITUTION) * (3.5 + MASS_RATIO)))
#define SPIN_PER_RUB 2.5

#define DEGREE (PI / 180)

/* Ends of what is tried. A delivered loft beyond these starts a ball along the ground or straight up. */
#define LEAST_DELIVERED_RAD (2 * DEGREE)
#define MOST_DELIVERED_RAD (70 * DEGREE)
#define LEAST_SPEED_MPS 0.5
#define LEAST_CARRY_M 1.0
#define MOST_CARRY_M 400.0

/* What is promised is 1 mm; flights of neighbouring launches agree much better than that. */
#define CARRY_TOLERANCE_M 2e-4
#define APEX_TOLERANCE_M 1e-3
#define CURVE_TOLERANCE_M 2e-4

typedef struct
{
  double from, to;
} Pair;

/* Between two rows in proportion, beyond the ends held. Rows rise. */
static double
looked_up (const Pair *rows, size_t n_rows, double from)
{
  size_t i = 1;
  while (i + 1 < n_rows && from > rows[i].from)
    i++;
  double share = (from - rows[i - 1].from) / (rows[i].from - rows[i - 1].from);
  return rows[i - 1].to + fmin (fmax (share, 0), 1) * (rows[i].to - rows[i - 1].to);
}

/*
 * Degrees of loft stamped on the club and delivered to the ball: a driver is swung upward from a tee, an iron downward with the hands ahead. Common
 * practice; chosen so that the apexes of a bag are all between 20 and 35 yd, as they are seen to be.
 */
static const Pair delivered_degrees[] = { { 0, 3 },     { 8, 10.5 }, { 10.5, 12.7 }, { 15, 15 }, { 20, 18.5 },
                                          { 30, 25.3 }, { 45, 36 },  { 56, 45 },     { 64, 51 }, { 90, 65 } };
/* The loft a club of this carry in metres has, when nothing else is known (common practice). */
static const Pair loft_of_carry[] = { { 40, 60 },  { 70, 56 },  { 95, 50 },  { 112, 45 }, { 125, 40 }, { 137, 35 },
                                      { 150, 30 }, { 163, 26 }, { 176, 22 }, { 190, 18 }, { 205, 15 }, { 220, 10.5 } };

double
flight_usual_loft (double carry_m)
{
  return DEGREE * looked_up (loft_of_carry, G_N_ELEMENTS (loft_of_carry), carry_m);
}

static double
delivered_of (double loft_rad)
{
  return DEGREE * looked_up (delivered_degrees, G_N_ELEMENTS (delivered_degrees), loft_rad / DEGREE);
}

static Launch
launch_off (double delivered_rad, double speed_mps, double tilt_rad)
{
  double rub_rad = atan (RUB_SHARE * tan (delivered_rad));
  double spin = SPIN_PER_RUB * sin (rub_rad) * speed_mps / BALL_RADIUS_M;
  return (Launch){ speed_mps, delivered_rad - rub_rad, fmin (spin, MOST_SPIN_RADPS), tilt_rad };
}

/* What is sought, and the launch that is tried. */
typedef struct
{
  double carry_m, apex_m, curve_m;
  double delivered_rad, speed_mps, tilt_rad;
  Air air;
} Aim;

typedef struct
{
  double carry_m, apex_m, side_m;
} Landed;

static bool
fly (const Aim *aim, Landed *landed)
{
  FlightInput input
      = { .direction = { 0, 1 }, .launch = launch_off (aim->delivered_rad, aim->speed_mps, aim->tilt_rad), .air = aim->air };
  FlightPoint landing;
  if (!flight_fly (&input, NULL, &landing, &landed->apex_m, NULL))
    return false;
  landed->carry_m = vec2_length (landing.at);
  landed->side_m = landing.at.x;
  return true;
}

/* ---- straight ---- */

static double
carry_beyond (void *data, double speed_mps)
{
  Aim *aim = data;
  Landed landed;
  aim->speed_mps = speed_mps;
  return fly (aim, &landed) ? landed.carry_m - aim->carry_m : NAN;
}

/* The speed for the carry at this delivered loft. */
static bool
solve_speed (Aim *aim)
{
  double speed = aim->speed_mps;
  bool is_found = root_find (carry_beyond, aim, LEAST_SPEED_MPS, MOST_BALL_SPEED_MPS, CARRY_TOLERANCE_M, &speed);
  aim->speed_mps = speed;
  return is_found;
}

/* How far the apex is above the one sought, at the sought carry; a loft too little for the carry flies too low. */
static double
apex_beyond (void *data, double delivered_rad)
{
  Aim *aim = data;
  Landed landed;
  aim->delivered_rad = delivered_rad;
  double before = aim->speed_mps;
  if (!solve_speed (aim))
    {
      aim->speed_mps = before;
      return delivered_rad < PI / 8 ? -aim->apex_m : aim->carry_m;
    }
  return fly (aim, &landed) ? landed.apex_m - aim->apex_m : NAN;
}

static bool
solve_straight (Aim *aim, bool has_apex)
{
  if (!has_apex)
    return solve_speed (aim);
  /* Where the lofts that carry this far end, the height may jump across the one sought. */
  double delivered = aim->delivered_rad;
  return root_find (apex_beyond, aim, LEAST_DELIVERED_RAD, MOST_DELIVERED_RAD, APEX_TOLERANCE_M, &delivered)
         && fabs (apex_beyond (aim, delivered)) <= 2 * APEX_TOLERANCE_M;
}

/* ---- curved ---- */

/* Newton's steps, with slopes from neighbouring flights. */
#define MOST_NEWTON_STEPS 25
#define SPEED_NUDGE 1e-3 /* share */
#define TILT_NUDGE_RAD 1e-2
#define LOFT_NUDGE_RAD 1e-3
/* No step turns the axis, or changes the speed or the loft, by more. */
#define LONGEST_TILT_STEP_RAD 0.3
#define MOST_TILT_RAD (75 * DEGREE)

/* What is still off: carry, curve and, when it is sought, apex. */
static bool
missing (const Aim *aim, double off[3])
{
  Landed landed;
  if (!fly (aim, &landed))
    return false;
  off[0] = landed.carry_m - aim->carry_m;
  off[1] = landed.side_m - aim->curve_m;
  off[2] = landed.apex_m - aim->apex_m;
  return true;
}

static Aim
nudged (const Aim *aim, int unknown, double by)
{
  Aim result = *aim;
  if (unknown == 0)
    result.speed_mps *= 1 + by;
  else if (unknown == 1)
    result.tilt_rad += by;
  else
    result.delivered_rad += by;
  return result;
}

/* x of a small system by Cramer's rule; false when it has none. */
static bool
solve_linear (double a[3][3], const double b[3], int n, double x[3])
{
  double m[3][3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
  double right[3] = { 0, 0, 0 };
  for (int i = 0; i < n; i++)
    {
      right[i] = b[i];
      for (int k = 0; k < n; k++)
        m[i][k] = a[i][k];
    }
  double whole = m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
                 + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  for (int k = 0; k < 3; k++)
    {
      const double *p = right, *q = NULL, *r = NULL;
      double column[3][3];
      for (int i = 0; i < 3; i++)
        for (int c = 0; c < 3; c++)
          column[c][i] = c == k ? p[i] : m[i][c];
      p = column[0], q = column[1], r = column[2];
      x[k] = (p[0] * (q[1] * r[2] - q[2] * r[1]) - q[0] * (p[1] * r[2] - p[2] * r[1]) + r[0] * (p[1] * q[2] - p[2] * q[1]))
             / whole;
    }
  return isfinite (x[0]) && isfinite (x[1]) && isfinite (x[2]);
}

/* One step; false when it leads nowhere. */
static bool
newton_step (Aim *aim, int n_unknown, const double off[3])
{
  static const double nudges[3] = { SPEED_NUDGE, TILT_NUDGE_RAD, LOFT_NUDGE_RAD };
  double slopes[3][3], x[3];
  for (int k = 0; k < n_unknown; k++)
    {
      double moved[3];
      Aim tried = nudged (aim, k, nudges[k]);
      if (!missing (&tried, moved))
        return false;
      for (int i = 0; i < n_unknown; i++)
        slopes[i][k] = (moved[i] - off[i]) / nudges[k];
    }
  if (!solve_linear (slopes, off, n_unknown, x))
    return false;
  double longest = fmax (fabs (x[1]), fmax (fabs (x[0]), n_unknown > 2 ? fabs (x[2]) : 0));
  double share = longest > LONGEST_TILT_STEP_RAD ? LONGEST_TILT_STEP_RAD / longest : 1;
  for (int k = 0; k < n_unknown; k++)
    *aim = nudged (aim, k, -share * x[k]);
  return fabs (aim->tilt_rad) <= MOST_TILT_RAD && aim->speed_mps > 0 && aim->speed_mps <= MOST_BALL_SPEED_MPS
         && aim->delivered_rad >= LEAST_DELIVERED_RAD && aim->delivered_rad <= MOST_DELIVERED_RAD;
}

static bool
solve_curved (Aim *aim, bool has_apex)
{
  for (int i = 0; i < MOST_NEWTON_STEPS; i++)
    {
      double off[3];
      if (!missing (aim, off))
        return false;
      if (fabs (off[0]) <= CARRY_TOLERANCE_M && fabs (off[1]) <= CURVE_TOLERANCE_M
          && (!has_apex || fabs (off[2]) <= APEX_TOLERANCE_M))
        return true;
      if (!newton_step (aim, has_apex ? 3 : 2, off))
        return false;
    }
  return false;
}

/* ---- what is asked ---- */

static const char *
wrong_shape (const FlightShape *shape)
{
  if (!(shape->carry_m >= LEAST_CARRY_M && shape->carry_m <= MOST_CARRY_M))
    return "no club carries that; give a carry of 1 to 400 m (437 yd)";
  if (!isnan (shape->apex_m) && !(shape->apex_m > 0 && isfinite (shape->apex_m)))
    return "the height of the flight is not above the ground; give how high the ball rises, or leave it out";
  if (isnan (shape->apex_m) && !isnan (shape->loft_rad) && !(shape->loft_rad > 0 && shape->loft_rad < PI / 2))
    return "a club's loft lies between 0 and 90 degrees; a driver has about 10, a wedge 45 to 64";
  if (!isnan (shape->curve_m) && !(fabs (shape->curve_m) < shape->carry_m))
    return "a ball cannot curve as far as it carries; give less curve";
  return NULL;
}

static Aim
aim_of (const FlightShape *shape)
{
  double loft_rad = isnan (shape->loft_rad) || !isnan (shape->apex_m)
                        ? flight_usual_loft (shape->carry_m)
                        : shape->loft_rad;
  return (Aim){ .carry_m = shape->carry_m,
                .apex_m = isnan (shape->apex_m) ? 0 : shape->apex_m,
                .curve_m = isnan (shape->curve_m) ? 0 : shape->curve_m,
                .delivered_rad = delivered_of (loft_rad),
                .speed_mps = sqrt (GRAVITY_MPS2 * shape->carry_m) + 0.1 * shape->carry_m,
                .air = air_standard () };
}

bool
flight_launch (const FlightShape *shape, Launch *launch, GError **error)
{
  const char *wrong = wrong_shape (shape);
  if (wrong != NULL)
    {
      g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_RANGE, wrong);
      return false;
    }
  Aim aim = aim_of (shape);
  bool has_apex = !isnan (shape->apex_m);
  if (!solve_straight (&aim, has_apex))
    wrong = has_apex ? "no ball carries that far and rises that high; change the carry or the height of the flight"
                     : "no ball carries that far off such a loft; change the carry or the loft";
  else if (aim.curve_m != 0 && !solve_curved (&aim, has_apex))
    wrong = "no ball of this carry curves that much; give less curve";
  if (wrong != NULL)
    {
      g_set_error_literal (error, FLIGHT_ERROR, FLIGHT_ERROR_REACH, wrong);
      return false;
    }
  *launch = launch_off (aim.delivered_rad, aim.speed_mps, aim.tilt_rad);
  return true;
}
