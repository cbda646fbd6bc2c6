// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of flight share: the state of a ball in the air, the forces on it, one step of the integrator and the search for the ground.
 */
#ifndef HOLEWRIGHT_FLIGHT_PRIVATE_H
#define HOLEWRIGHT_FLIGHT_PRIVATE_H

#include "flight.h"

#define BALL_RADIUS_M (BALL_DIAMETER_M / 2)

/* Share of its spin that a ball loses on each metre through the air: 0.0004 of the spin in rpm times the speed in mph, in rpm per second (Smits and Smith
   1994, as quoted in a book's excerpt), that is 0.0004 / 0.44704. */
#define SPIN_LOSS_PER_M 8.948e-4

/* Drag and lift of Ferguson 2023, eq. 3.15, and the spin ratios it was fitted to. */
#define OUTDOOR_CD0 0.1304
#define OUTDOOR_CD1 0.9287
#define OUTDOOR_CD2 -0.8259
#define OUTDOOR_CL0 0.0504
#define OUTDOOR_CL1 1.2031
#define OUTDOOR_CL2 -1.1490
#define OUTDOOR_LEAST_SPIN_RATIO 0.02
#define OUTDOOR_MOST_SPIN_RATIO 0.75

/* Below this air speed nothing is divided by it: both forces are nothing then. */
#define STILL_MPS 1e-6

/* Place and how far the ball has turned about its axis, and their rates: velocity and spin. Two vectors of four; nobody asks how far it has turned. */
typedef enum
{
  AT_X,
  AT_Y,
  AT_Z,
  TURNED,
  V_X,
  V_Y,
  V_Z,
  SPIN,
  N_STATES
} StateItem;

typedef struct
{
  double item[N_STATES];
} State;

typedef struct _Medium Medium;
typedef struct _Step Step;
/* Takes the next step, as step_take does, on one kind of machine. */
typedef bool (*StepTake) (const Medium *medium, Step *step, double *next_length_s);

/* All that stays the same during one flight. */
struct _Medium
{
  StepTake take;
  FlightModel model;
  double force_per_m; /* half density times cross-section over mass */
  double reynolds_per_mps;
  double axis[3]; /* of the spin, unit vector */
  Wind wind;
  /* The wind's share at a height h is wind_base + wind_log * log (h^2 + WIND_LEAST_HEIGHT_M^2); wind_log is 0 when it is the same at every height. */
  double wind_base, wind_log;
  GroundHeight ground;
  const void *ground_data;
};

/* Says what is wrong with an input, or prepares its flight: the first state and all that stays the same. */
bool flight_prepare (const FlightInput *input, Medium *medium, State *state, GError **error);
/* The state's rate of change. */
void flight_rates (const Medium *medium, const State *state, State *rates);
/* The two numbers that make the wind of a height over such ground, as in Medium. */
void wind_profile (double roughness_m, double *base, double *by_log);

/* One step that was taken: any moment in it can be asked for. */
struct _Step
{
  double t_s, length_s;
  State from, to;
  State to_rates;
  State dense[4]; /* Hairer's continuous extension of order four */
};

/* Takes the next step from the end of `step` (its `to`, `to_rates` and t_s + length_s); `next_length_s` is tried and then set to the length to try
   next. False when the steps become too short to go on. */
bool step_take (const Medium *medium, Step *step, double *next_length_s);
/* The same for any machine, for one that multiplies and adds in one, and which of them this machine should use. */
bool step_take_anywhere (const Medium *medium, Step *step, double *next_length_s);
bool step_take_fma (const Medium *medium, Step *step, double *next_length_s);
StepTake step_taker (void);
/* A step of no length at launch, from which the first is taken, and the length to try. */
double step_begin (const Medium *medium, const State *state, Step *step);
/* The state at a share of the step, and its place alone. */
State step_at (const Step *step, double share);
static inline double
step_item_at (const Step *step, StateItem item, double share)
{
  double rest = 1 - share;
  double inner = step->dense[2].item[item] + rest * step->dense[3].item[item];
  return step->from.item[item] + share * (step->dense[0].item[item] + rest * (step->dense[1].item[item] + share * inner));
}

/* Height over ground of a state. */
static inline double
ground_clearance (const Medium *medium, const State *state)
{
  const double *at = state->item;
  return medium->ground == NULL ? at[AT_Z] : at[AT_Z] - medium->ground (medium->ground_data, vec2 (at[AT_X], at[AT_Y]));
}
/* The first share of a step at which the ball is on the ground; false when it stays above. `clear_above_m`: no ground is higher. */
bool ground_meets (const Medium *medium, const Step *step, double clear_above_m, double *share);

/* A flight from launch to landing; what it passes is kept in `flight` unless that is NULL. */
bool flight_fly (const FlightInput *input, Flight *flight, FlightPoint *landing, double *apex_m, GError **error);
FlightPoint flight_point (const State *state, double t_s);
/* Says that a ball is not down after FLIGHT_LONGEST_S. False always. */
bool flight_not_down (GError **error);

/* The larger and the smaller of two numbers; without the calls that care for what is none. */
static inline double
larger (double a, double b)
{
  return a > b ? a : b;
}
static inline double
smaller (double a, double b)
{
  return a < b ? a : b;
}

/* A value that rises with x through zero; NAN where there is none. */
typedef double (*RootFunction) (void *data, double x);
/*
 * Where it first is zero on the way from the guess, to `tolerance` in the value; where it jumps across zero, the least x above the jump. `x` is the guess and the answer, between
 * `low` and `high` (low > 0). False when it is not zero between them, or has no value.
 */
bool root_find (RootFunction function, void *data, double low, double high, double tolerance, double *x);
/* The same from a guess beside which a value is known, at `known`: it says how steeply the values rise there. */
bool root_find_beside (RootFunction function, void *data, double low, double high, double tolerance, double known, double value,
                       double *x);

#endif
