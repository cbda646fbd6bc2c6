// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A canopy in columns across the shot line, and of a track all of the balls that fly into it: those that pass through a column where the track is below the top.
 */
#include "flight-walk.h"
#include "tree-private.h"

#include <math.h>

/* ---- the track ---- */

void
track_make (const ShotResult *shot, Track *track)
{
  track->line = shot_line (shot);
  const ShotLine *line = &track->line;
  track->step_m = line->landing_m / TRACK_STEPS;
  FlightWalk walk = { .flight = &shot->flight };
  Vec2 before = shot->flight.points[0].at, point;
  double ends_s = flight_landing (&shot->flight).t_s, z0_m = shot->flight.points[0].z_m, before_m = 0, before_z_m = z0_m, z_m;
  int filled = 0;
  const int n_looks = 4 * TRACK_STEPS;
  for (int i = 0; i <= n_looks; i++)
    {
      flight_walk_to (&walk, ends_s * i / n_looks, &point, &z_m);
      double along_m = vec2_dot (line->along, vec2_sub (point, line->ball));
      /* What a wind blows back over its own way is left out; the last look is the landing whatever rounding says. */
      for (; filled <= TRACK_STEPS && (filled * track->step_m <= along_m || i == n_looks); filled++)
        {
          double share
              = along_m > before_m ? fmin (1, fmax (0, (filled * track->step_m - before_m) / (along_m - before_m))) : 1;
          Vec2 at = vec2_sub (vec2_lerp (before, point, share), line->ball);
          track->side_m[filled] = vec2_cross (line->along, at);
          track->height_m[filled] = before_z_m + share * (z_m - before_z_m) - z0_m;
        }
      before = point;
      before_z_m = z_m;
      before_m = along_m;
    }
}

void
track_at (const Track *track, double at_m, double *side_m, double *height_m)
{
  double place = at_m / track->step_m;
  place = place > 0 ? place < TRACK_STEPS ? place : TRACK_STEPS : 0;
  int i = place < TRACK_STEPS - 1 ? (int)place : TRACK_STEPS - 1;
  double share = place - i;
  *side_m = track->side_m[i] + share * (track->side_m[i + 1] - track->side_m[i]);
  *height_m = track->height_m[i] + share * (track->height_m[i + 1] - track->height_m[i]);
}

/* ---- flying into it ---- */

static Offsets
joined (Offsets a, Offsets b)
{
  return (Offsets){ a.low < b.low ? a.low : b.low, a.high > b.high ? a.high : b.high };
}

/* Puts one more stretch in, as one with all that it meets; when there is no room the last one grows over it. */
static void
add_stretch (Stretches *hits, Offsets more)
{
  size_t n = 0;
  for (size_t i = 0; i < hits->n_items; i++)
    {
      Offsets had = hits->items[i];
      if (had.low <= more.high && had.high >= more.low)
        more = joined (had, more);
      else
        hits->items[n++] = had;
    }
  if (n == MOST_STRETCHES)
    {
      n--;
      more = joined (hits->items[n], more);
    }
  hits->items[n++] = more;
  hits->n_items = n;
}

/* Where a column, or a cut between two, stands on the track of one stretch. */
typedef struct
{
  double own_m;  /* along the mean ball's own track */
  double side_m; /* of that track there */
  double top_m;  /* of the canopy there, and the track's room over it */
  double room_m;
  const Interval *stretches;
} Passage;

/* Landing offsets of the balls that pass between two sides there: the shear grows in proportion to how far along the ball is. */
static Offsets
offsets_of (const Passage *passage, size_t k, double landing_m)
{
  double by = landing_m / (passage->own_m > SAME_POINT_M ? passage->own_m : SAME_POINT_M);
  Interval sides = passage->stretches[k];
  return (Offsets){ (sides.enter_m - passage->side_m) * by, (sides.leave_m - passage->side_m) * by };
}

/* All that the canopy covers from one passage to the next, its edges being straight between them. */
static void
add_between (Stretches *hits, const Passage *a, const Passage *b, size_t n_stretches, double landing_m)
{
  for (size_t k = 0; k < n_stretches; k++)
    {
      Offsets x = offsets_of (a, k, landing_m), y = offsets_of (b, k, landing_m);
      add_stretch (hits, joined (x, y));
    }
}

/* The passage at a share of the way from one to the next, whose edges are straight; `sides` has room for its stretches. */
static Passage
passage_between (const Track *track, const Passage *a, const Passage *b, double share, size_t n_stretches, Interval *sides)
{
  double height_m;
  for (size_t k = 0; k < n_stretches; k++)
    {
      Interval x = a->stretches[k], y = b->stretches[k];
      sides[k] = (Interval){ x.enter_m + share * (y.enter_m - x.enter_m), x.leave_m + share * (y.leave_m - x.leave_m) };
    }
  Passage between = { .own_m = a->own_m + share * (b->own_m - a->own_m),
                      .top_m = a->top_m + share * (b->top_m - a->top_m),
                      .stretches = sides };
  track_at (track, between.own_m, &between.side_m, &height_m);
  between.room_m = height_m - between.top_m;
  return between;
}

/* What lies below the top from one passage to the next, which go on from one another. */
static void
add_passages (Stretches *hits, const Track *track, const Passage *before, const Passage *here, size_t n_stretches)
{
  double landing_m = track->line.landing_m;
  Interval sides[MOST_STRETCHES];
  if (before->room_m < 0 && here->room_m < 0)
    add_between (hits, before, here, n_stretches, landing_m);
  else if (before->room_m < 0 || here->room_m < 0)
    {
      double share = before->room_m / (before->room_m - here->room_m);
      Passage through = passage_between (track, before, here, share, n_stretches, sides);
      add_between (hits, &through, here->room_m < 0 ? here : before, n_stretches, landing_m);
    }
}

void
canopy_hits (const Canopy *canopy, const Track *track, double stretch, Stretches *hits)
{
  hits->n_items = 0;
  double landing_m = track->line.landing_m;
  Passage before = { .room_m = NAN };
  size_t n_before = 0;
  for (size_t i = 0; i < canopy->n_columns; i++)
    {
      const Column *column = &canopy->columns[i];
      Passage here = { .own_m = column->at_m / stretch, .top_m = column->top_m, .stretches = column->stretches };
      bool is_joined = i > 0 && n_before == column->n_stretches && n_before <= MOST_STRETCHES;
      double height_m;
      if (here.own_m > landing_m && is_joined)
        {
          /* The ball is down before it comes to this column. */
          Interval sides[MOST_STRETCHES];
          double share = (landing_m - before.own_m) / (here.own_m - before.own_m);
          Passage end = passage_between (track, &before, &here, share, n_before, sides);
          add_passages (hits, track, &before, &end, n_before);
        }
      if (here.own_m > landing_m)
        break;
      track_at (track, here.own_m, &here.side_m, &height_m);
      here.room_m = height_m - column->top_m;
      if (is_joined)
        add_passages (hits, track, &before, &here, n_before);
      else if (here.room_m < 0)
        add_between (hits, &here, &here, column->n_stretches, landing_m);
      before = here;
      n_before = column->n_stretches;
    }
}

/* The ball is at a column as far to the left as its track, sheared, has it there; does it meet the canopy? */
static bool
column_is_met (const Column *column, const Track *track, double stretch, double left_m, double *side_m)
{
  double own_m = column->at_m / stretch, height_m;
  track_at (track, own_m, side_m, &height_m);
  *side_m += left_m * own_m / track->line.landing_m;
  if (height_m >= column->top_m)
    return false;
  for (size_t k = 0; k < column->n_stretches; k++)
    if (*side_m >= column->stretches[k].enter_m && *side_m <= column->stretches[k].leave_m)
      return true;
  return false;
}

Vec2
canopy_entry (const Canopy *canopy, const Track *track, double stretch, double left_m)
{
  double side_m = 0;
  for (size_t i = 0; i < canopy->n_columns; i++)
    if (canopy->columns[i].at_m <= stretch * track->line.landing_m
        && column_is_met (&canopy->columns[i], track, stretch, left_m, &side_m))
      return vec2 (canopy->columns[i].at_m, side_m);
  /* It slips in between two columns. */
  column_is_met (&canopy->columns[0], track, stretch, left_m, &side_m);
  return vec2 (canopy->columns[0].at_m, side_m);
}
