// SPDX-License-Identifier: GPL-3.0-or-later
/* One ball in the air: how a club sends it off, how it flies on the standard day, and how on this one. */
#ifndef HOLEWRIGHT_ODDS_FLY_PRIVATE_H
#define HOLEWRIGHT_ODDS_FLY_PRIVATE_H

#include "ground-private.h"

/* The ball as it leaves: from the club's launch, turned so that on the standard day it lands where the golfer means it to. */
typedef struct
{
  const Club *club;
  double swing;
  LieEffect effect; /* of the ball's lie on this club */
  double share;     /* of the club's carry that the swing makes from there: swing times the lie's factor */
  Vec2 ball, along; /* unit vector from ball to aim */
  Launch launch;    /* from level ground */
  Vec2 start;       /* unit vector of the start line */
  double curve_m;   /* on the standard day, + right */
  Vec2 meant;       /* where it lands on the standard day: the swing's share of the club's carry and of its usual miss */
  Vec2 modelled;    /* where the model lands it on that day: the same to a few millimetres */
  double meant_m;   /* ball to there */
} Sendoff;

/* Curve of a shot at a full swing, + right. `curve_m` NAN: what the shape asks of this club. */
double usual_curve (const Club *club, ShotShape shape, double curve_m);
/* What the table of lies does to a club at a place; NULL: nothing. */
LieEffect lie_effect_at (const Hole *hole, const LieTable *lies, Vec2 ball, const Club *club);
/* False with `error` for a club that no ball leaves so. `curve_m` at a full swing from the fairway. */
bool sendoff_make (const Club *club, const LieEffect *effect, double swing, Vec2 ball, Vec2 along, double curve_m,
                   Sendoff *sendoff, GError **error);

/* Are these the air, the ground and the stance that carries are told for? Then a ball lands where it is meant to. */
bool is_standard (const Conditions *conditions, const Ground *ground, Vec2 ball);
/* Still, level, standard carry from the fairway that the lie makes of such a distance. */
double sendoff_from_fairway (const Sendoff *sendoff, double distance_m);
/* What flight_solve is asked for the ball on this day and ground, the swing turned with the ground under the ball. */
FlightInput sendoff_input (const Sendoff *sendoff, const Conditions *conditions, const Ground *ground);
/* Flies it; `*landing` is the flight's end, moved by the millimetres that the model is off on the standard day. */
bool sendoff_fly (const Sendoff *sendoff, const Conditions *conditions, const Ground *ground, Flight *flight, Vec2 *landing,
                  GError **error);
/* Still, level, standard carry of the swing that lands `distance_m` away on this day. `flown`: by sendoff_fly, as far as `flown_m`. */
double sendoff_plays (const Sendoff *sendoff, const Conditions *conditions, const Ground *ground, const Flight *flown,
                      double distance_m, double flown_m);

#endif
