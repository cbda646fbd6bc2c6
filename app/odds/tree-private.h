// SPDX-License-Identifier: GPL-3.0-or-later
/* Canopies in the frame of a shot's line, and what a ball's track meets of them. */
#ifndef HOLEWRIGHT_ODDS_TREE_PRIVATE_H
#define HOLEWRIGHT_ODDS_TREE_PRIVATE_H

#include "ground-private.h"
#include "odds-private.h"

/* A stretch of landing offsets in metres to the left of the shot line. */
typedef struct
{
  double low, high;
} Offsets;

/* Disjoint ones. */
#define MOST_STRETCHES 16
typedef struct
{
  Offsets items[MOST_STRETCHES];
  size_t n_items;
} Stretches;

/* The mean ball's track along the shot line: side offset and height over the ball's place, at equal steps of distance. */
#define TRACK_STEPS 160
typedef struct
{
  ShotLine line;
  double step_m;
  double side_m[TRACK_STEPS + 1], height_m[TRACK_STEPS + 1];
} Track;

/* The canopy where a line across the shot line cuts it. */
typedef struct
{
  double at_m;         /* along the shot line */
  double top_m;        /* over the ball's place */
  Interval *stretches; /* left offsets */
  size_t n_stretches;
} Column;

/* A tree, or an area of trees, cut into columns near enough that its edge is straight between them. */
typedef struct
{
  size_t part;
  double density;
  Column *columns; /* nearest first */
  size_t n_columns;
} Canopy;

void track_make (const ShotResult *shot, Track *track);
/* Side offset and height where the track is this far along the line; 0 <= at_m <= landing. */
void track_at (const Track *track, double at_m, double *side_m, double *height_m);

/* How far balls scatter: to the side for each metre of the way, along the shot line, and by what shares of the mean ball's track they fly. */
typedef struct
{
  double far_m, fan_m, fan_slope;
  Interval stretches;
  bool are_low; /* leave out what all of the balls fly high over */
} TreeReach;

/* Cuts a part's canopy as far as balls fly. False when there is nothing of it. No ground is more than `rise_m` above the ball. */
bool canopy_cut (const Track *track, const Ground *ground, size_t part, const TreeReach *reach, double rise_m, Canopy *canopy);
void canopy_clear (Canopy *canopy);
/* Leaves out the columns that the track is high above however it is stretched between these. */
void canopy_prune (Canopy *canopy, const Track *track, Interval stretches);
/* The landing offsets of the balls that fly into it when the track is stretched by `stretch`. */
void canopy_hits (const Canopy *canopy, const Track *track, double stretch, Stretches *hits);
/* Where a ball of this landing offset flies into it: along the shot line, and to the left of it. */
Vec2 canopy_entry (const Canopy *canopy, const Track *track, double stretch, double left_m);

/* ---- which canopies there are ---- */

/* Share of the mean ball's way of a ball that is topped: it does not fly backwards. */
#define LEAST_STRETCH 0.05

/* The canopies in a fan (array of Canopy, cleared by canopy_clear), and a row for each of them (of TreeRow). */
void canopies_find (const Hole *hole, const Track *track, const Ground *ground, const TreeReach *reach, GArray *canopies,
                    GArray *rows);

#endif
