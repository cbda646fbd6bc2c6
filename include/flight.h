// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * flight - a ball through the air and over the ground: air, wind, launch, trajectory, bounce and run.
 *
 * A point mass under gravity, drag and lift; the spin axis is tilted for draws and fades and the spin decays. The golfer's own carry overrides the
 * model: the ball speed of each club is solved so that its carry comes out in standard still air over level ground.
 *
 * Frame: the hole frame for x and y, metres; z is up, above the hole's datum. Everything is a value; nothing here knows a hole or a club, the
 * ground comes as functions. All functions are pure and may be called from any thread.
 */
#ifndef HOLEWRIGHT_FLIGHT_H
#define HOLEWRIGHT_FLIGHT_H

#include "geometry.h"

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>

#define FLIGHT_ERROR (flight_error_quark ())
GQuark flight_error_quark (void);
typedef enum
{
  FLIGHT_ERROR_RANGE, /* a number outside what the model covers */
  FLIGHT_ERROR_REACH  /* no launch does what was asked: carry, apex or curve out of reach */
} FlightError;

/* The ball: largest mass, smallest diameter (Equipment Rules: 45.93 g, 42.67 mm). */
#define BALL_MASS_KG 0.04593
#define BALL_DIAMETER_M 0.04267
#define GRAVITY_MPS2 9.80665 /* standard gravity, ISO 80000-3 */

/* ---- air ---- */

typedef struct
{
  double density_kgm3;
  double viscosity_pas; /* dynamic */
} Air;

/* The day on which carries are told: 20 C, sea level, dry enough not to matter (50 % humidity). */
#define STANDARD_TEMPERATURE_C 20.0
#define STANDARD_HUMIDITY 0.5
#define STANDARD_PRESSURE_PA 101325.0

/* What golf is played in; outside it a number is a slip of the pen (common practice). */
#define LEAST_TEMPERATURE_C -20.0
#define MOST_TEMPERATURE_C 50.0
#define LEAST_ALTITUDE_M -430.0
#define MOST_ALTITUDE_M 5000.0
#define LEAST_PRESSURE_PA 50000.0
#define MOST_PRESSURE_PA 110000.0
#define MOST_WIND_MPS 30.0

/* Moist air, ideal gas with the Magnus vapour pressure (within 0.06 % of CIPM-2007). Refused outside the limits above; humidity 0..1. */
bool air_make (double temperature_c, double pressure_pa, double humidity, Air *air, GError **error);
Air air_standard (void);
/* Pressure in the International Standard Atmosphere at an altitude (ISO 2533), held within the limits above. */
double air_pressure_at (double altitude_m);

/* ---- wind ---- */

/*
 * `to_mps` is where it blows to and how fast at WIND_HEIGHT_M, where forecasts tell it (WMO Guide to Instruments, from memory). It grows with the
 * logarithm of the height h over the ground beneath the ball, log (sqrt (h^2 + WIND_LEAST_HEIGHT_M^2) / roughness): near the ground, which a ball leaves in a
 * tenth of a second, it is as at WIND_LEAST_HEIGHT_M. A drive is blown on by about 1.06 of the wind told.
 */
typedef struct
{
  Vec2 to_mps;
  double roughness_m; /* 0: the same at every height; at most MOST_ROUGHNESS_M */
} Wind;
#define WIND_HEIGHT_M 10.0
#define WIND_LEAST_HEIGHT_M 2.0
/* Open country with low grass: class 3 of the Davenport classification, Wieringa 1992, J. Wind Eng. Ind. Aerodyn. 41:357 (from memory). */
#define ROUGHNESS_GRASS_M 0.03
#define MOST_ROUGHNESS_M 0.5
/* The wind at a height over ground. */
Vec2 wind_at (const Wind *wind, double height_m);

/* ---- launch ---- */

typedef enum
{
  FLIGHT_OUTDOOR, /* drag and lift fitted to outdoor shots: Ferguson 2023, University of Waterloo thesis, eq. 3.15; the one used */
  FLIGHT_TUNNEL, /* from wind tunnel and launcher: USGA/R&A 2006, Second Report on the Study of Spin Generation, Appendix C; to compare */
  N_FLIGHT_MODELS
} FlightModel;

/* How a ball leaves the club. The tilt turns the spin axis: positive curves to the right (fade of a right-hander). */
typedef struct
{
  double speed_mps, angle_rad; /* angle above the horizon */
  double spin_radps, tilt_rad;
} Launch;

/*
 * Drag and lift coefficients at a spin ratio S = omega r / v and a Reynolds number. Both are held at the ends of the range the model was fitted to;
 * below its least spin ratio lift fades in proportion, so that a ball without spin has none.
 */
void flight_coefficients (FlightModel model, double spin_ratio, double reynolds, double *drag, double *lift);

/* What is known of a club's flight; NAN where nothing is. */
typedef struct
{
  double carry_m;          /* in standard still air, over level ground */
  double loft_rad, apex_m; /* the apex wins */
  double curve_m;          /* where the ball lands right of where it started, at full carry; 0 or NAN: straight */
} FlightShape;

/* No ball leaves a club faster; the fastest swings in long-driving contests come near it (from memory). */
#define MOST_BALL_SPEED_MPS 110.0
/* No ball leaves a club spinning faster (common practice: 16 000 turns a minute). */
#define MOST_SPIN_RADPS 1680.0

/*
 * The launch that carries just that far (from ball to landing, straight) in standard still air: angle and spin from the loft (rigid impact of ball
 * and inclined face, rolling at release) or from the apex, speed and tilt solved so that carry and curve come out to 1 mm. Without loft and apex,
 * loft is taken from the carry (common practice). The loft is the one stamped on the club; how much of it is delivered is in app/flight/launch.c.
 * Refused with a sentence when no launch does it.
 */
bool flight_launch (const FlightShape *shape, Launch *launch, GError **error);
/* The loft of a club of this carry of which nothing else is known (common practice). */
double flight_usual_loft (double carry_m);
/* The same club with its ball speed scaled, spin in proportion: a smaller swing, or a longer hitter. */
Launch launch_scaled (const Launch *launch, double factor);

/* ---- trajectory ---- */

/* Height of the ground in metres at a place; called between the ball and far beyond where it lands. */
typedef double (*GroundHeight) (const void *data, Vec2 at);

typedef struct
{
  Vec2 from;      /* where the ball lies */
  Vec2 direction; /* unit vector of the start line */
  Launch launch;
  Air air;
  Wind wind;
  FlightModel model;
  GroundHeight ground; /* NULL: level at 0 */
  const void *ground_data;
  double
      ground_rise_m; /* no ground anywhere is more than this above the ball: a higher ball need not look. 0: not known, slower */
} FlightInput;

/* Place in the air. */
typedef struct
{
  double t_s;
  Vec2 at;
  double z_m;
  Vec2 v_mps;
  double vz_mps;
  double spin_radps;
} FlightPoint;

#define FLIGHT_MOST_POINTS 96

typedef struct
{
  FlightPoint
      points[FLIGHT_MOST_POINTS]; /* launch, ..., landing; between two of them a cubic by place and velocity is true to 1 cm */
  size_t n_points;                /* at least 2 */
  double apex_m;                  /* above the ball's own place */
} Flight;

/*
 * Flies it: Dormand-Prince 5(4), adaptive; the landing is a root of height over ground, and no ridge is stepped over whose foot is 1 m or more
 * through, however thin its top. On a cliff the landing is in its face. Landing true to 1e-3 m against an integration at 1e-10. False with `error` for
 * numbers that are not finite or outside the model, or a ball that is not down after FLIGHT_LONGEST_S.
 */
#define FLIGHT_LONGEST_S 30.0
bool flight_solve (const FlightInput *input, Flight *flight, GError **error);
/* The landing: its last point. */
static inline FlightPoint
flight_landing (const Flight *flight)
{
  return flight->points[flight->n_points - 1];
}
/* The ball at a time between launch and landing (clamped). */
FlightPoint flight_at (const Flight *flight, double t_s);
/* Where the track comes first to this distance from the ball, measured along a unit direction; the landing when it never does. */
FlightPoint flight_at_distance (const Flight *flight, Vec2 direction, double distance_m);

/*
 * Many shots over level ground at one go, for tables of clubs and winds: landings[i] of inputs[i], grounds ignored. Same accuracy. Several are flown
 * side by side in one vector unit. False, nothing written, when any input is refused.
 */
bool flight_land_many (const FlightInput *inputs, size_t n_inputs, FlightPoint *landings, GError **error);

/*
 * The share by which the launch's ball speed must be scaled so that it lands at `distance_m` from where it lay under the input's day and ground, and
 * how far to the side it lands then (+ right of the start line). Where no swing lands just there, in the lee of a ridge, it is the shortest that
 * lands beyond. Refused when no ball speed up to MOST_BALL_SPEED_MPS reaches it.
 */
bool flight_reach (const FlightInput *input, double distance_m, double *factor, double *side_m, GError **error);
/* The same, where it is known where the launch itself lands. */
bool flight_reach_from (const FlightInput *input, Vec2 landing, double distance_m, double *factor, double *side_m,
                        GError **error);

/* ---- bounce and run ---- */

typedef enum
{
  FIRMNESS_SOFT,
  FIRMNESS_MEDIUM,
  FIRMNESS_FIRM,
  N_FIRMNESSES
} Firmness;
/* "soft", "medium", "firm". */
const char *firmness_token (Firmness firmness);
bool firmness_from_token (const char *token, Firmness *firmness);

/* What the ball meets at a place. `stops` wins over all the others. */
typedef struct
{
  Vec2 slope;             /* gradient of the height: rise per metre to +x and +y */
  double bounce;          /* factor on the published restitution: 1 on a fairway or green turf of medium firmness, 0 = dead */
  double friction;        /* sliding friction at impact; published 0.40 */
  double crater;          /* factor on the published tilt of the dented ground; 1 medium */
  double roll_decel_mps2; /* rolling deceleration on the level */
  bool stops;             /* sand, water, trees: the ball stays where it comes in */
} Surface;
typedef Surface (*SurfaceAt) (const void *data, Vec2 at);

/* Level turf of a fairway. Medium is the published model; soft, firm and the rolling are common practice, see app/flight/run.c. */
Surface surface_turf (Firmness firmness);

/*
 * One impact on ground of this surface: Penner 2002, The run of a golf ball, Can. J. Phys. 80:931 (as reproduced elsewhere), on the plane of the slope.
 * Only spin about the axis across the ball's way counts. No energy is won. `impact` comes down: vz_mps is below what the slope alone would give.
 */
typedef struct
{
  Vec2 v_mps;
  double vz_mps;
  double spin_radps; /* backspin positive, about the axis across v */
} Impact;
Impact bounce_off (const Impact *impact, const Surface *surface);

typedef struct
{
  Vec2 rest;
  double run_m;  /* landing to rest, straight */
  Vec2 path[16]; /* landing, each bounce, start of the roll, rest */
  size_t n_path;
  double time_s;
} Run;

/*
 * Bounces, then rolls until it stops or comes to where it stays. Between bounces the ball flies without air over the plane it bounced from; rolling, it
 * is slowed by the turf and drawn by the slope as a point mass is. At most RUN_LONGEST_S; a ball that still rolls then is where it is. False with
 * `error` for numbers that are not finite.
 */
#define RUN_LONGEST_S 60.0
bool run_solve (const FlightPoint *landing, SurfaceAt surface, const void *data, Run *run, GError **error);
/* The same on ground that is level and everywhere like this, whatever slope that tells of: there the roll is a closed form. */
bool run_solve_level (const FlightPoint *landing, const Surface *ground, Run *run, GError **error);

#endif
