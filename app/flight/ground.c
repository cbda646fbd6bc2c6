// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Where a ball in the air meets the ground: a step of the flight is walked along so closely that no ridge is missed.
 */
#include "flight-private.h"

#include <math.h>

/* Between two places looked at, along the ground. Where the room under the ball is least between them it is looked for, so that a ridge is met whose
   foot is twice this through. */
#define LOOK_EVERY_M 0.5
/* A landing's place along the track. */
#define MEET_TOLERANCE_M 1e-6
/* Halvings of a share of a step down to the last bits. */
#define MOST_HALVINGS 60
/* Thirds taken off the place of least room: half a metre shrinks to a millimetre. */
#define MOST_THIRDS 16

typedef struct
{
  const Medium *medium;
  const Step *step;
  double clear_above_m;
} Search;

/* Height over ground at a share of the step; above all ground the least it can be. Not a number counts as met below: the flight's end says so. */
static double
clearance_at (const Search *search, double share)
{
  const Step *step = search->step;
  double z_m = step_item_at (step, AT_Z, share);
  if (search->medium->ground == NULL)
    return z_m;
  if (z_m > search->clear_above_m)
    return z_m - search->clear_above_m;
  Vec2 at = vec2 (step_item_at (step, AT_X, share), step_item_at (step, AT_Y, share));
  return z_m - search->medium->ground (search->medium->ground_data, at);
}

/* The moment of contact between a share at which the ball is above and one at which it is not: secants where they help, halves otherwise, so that a
   cliff is found as well. */
static double
contact (const Search *search, double above, double room, double below, double sunk)
{
  const double *v = &search->step->to.item[V_X];
  double step_m = search->step->length_s * sqrt (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]);
  for (int i = 0; i < MOST_HALVINGS && (below - above) * step_m > MEET_TOLERANCE_M; i++)
    {
      double secant = above + (below - above) * room / (room - sunk);
      double try = i % 3 == 2 || !(secant > above && secant < below) ? 0.5 * (above + below) : secant;
      double clear = clearance_at (search, try);
      if (fabs (clear) < MEET_TOLERANCE_M && try > above)
        return try;
      if (clear > 0)
        above = try, room = clear;
      else
        below = try, sunk = clear;
    }
  return below;
}

/* The share at which there is least room between two shares; stops as soon as there is none. */
static double
least_room (const Search *search, double low, double high, double *room)
{
  double at = 0.5 * (low + high);
  for (int i = 0; i < MOST_THIRDS; i++)
    {
      double first = low + (high - low) / 3, second = high - (high - low) / 3;
      double at_first = clearance_at (search, first), at_second = clearance_at (search, second);
      bool is_first = at_first <= at_second;
      at = is_first ? first : second;
      *room = is_first ? at_first : at_second;
      if (!(*room > 0))
        break;
      if (is_first)
        high = second;
      else
        low = first;
    }
  return at;
}

/* How many looks a step is worth. */
static int
looks_of (const Medium *medium, const Step *step)
{
  if (medium->ground == NULL)
    return 1;
  double along_m = hypot (step->to.item[AT_X] - step->from.item[AT_X], step->to.item[AT_Y] - step->from.item[AT_Y]);
  double risen_m = fabs (step->to.item[AT_Z] - step->from.item[AT_Z]);
  return 1 + (int)(fmax (along_m, 0.5 * risen_m) / LOOK_EVERY_M);
}

bool
ground_meets (const Medium *medium, const Step *step, double clear_above_m, double *share)
{
  if (fmin (step->from.item[AT_Z], step->to.item[AT_Z]) > clear_above_m)
    return false;
  Search search = { medium, step, clear_above_m };
  int n_looks = looks_of (medium, step);
  /* Two looks beyond the end, so that a ridge at the joint of two steps is seen with a look on either side of it. */
  int n_all = medium->ground == NULL ? n_looks : n_looks + 2;
  double before = 0, earlier = 0, room_before = clearance_at (&search, 0), room_earlier = room_before;
  for (int i = 1; i <= n_all; i++)
    {
      double at = (double)i / n_looks, room = clearance_at (&search, at);
      if (i > 1 && room > room_before && room_before <= room_earlier)
        {
          double dip_room, dip = least_room (&search, earlier, at, &dip_room);
          if (!(dip_room > 0))
            {
              *share = contact (&search, earlier, room_earlier, dip, dip_room);
              return true;
            }
        }
      if (!(room > 0) && i <= n_looks)
        {
          *share = contact (&search, before, room_before, at, room);
          return true;
        }
      earlier = before, room_earlier = room_before;
      before = at, room_before = room;
    }
  return false;
}
