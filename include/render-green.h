// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * render-green - the green by itself, enlarged, with the pattern over it: how the view lies, and what the overlay "green" draws on it.
 *
 * The overlay draws nothing without PlanScene.green: in the view of the whole shot its figures would lie on one another.
 */
#ifndef HOLEWRIGHT_RENDER_GREEN_H
#define HOLEWRIGHT_RENDER_GREEN_H

#include "odds-green.h"
#include "render.h"

/* What is known of playing to the green; borrowed. */
typedef struct PlanGreen
{
  GreenPlay play;
  const Approach *approach; /* from the ball; NULL: not known (yet), or no club gets there */
} PlanGreen;

/*
 * The view of the green of a scene that has one: the shot runs from left to right, or what is left of it where no club gets to the green; large enough to hold
 * the green with the ground about it, and the aim where that is near. Size, unit_px and units of the view are kept.
 */
void view_frame_green (RenderView *view, const PlanScene *scene);

/* A line across the green, square to the way it is played, and its distance from the front in the golfer's unit. */
typedef struct
{
  int depth;
  Vec2 at; /* on the line from the ball to the hole, hole frame */
} GreenDepth;

/* Every 5 from the front to the back: `lines` has room for `most`; returns how many there are. The card's detail and the view of the green show the same. */
#define GREEN_MOST_DEPTHS 64
size_t render_green_depths (const GreenNumbers *numbers, Vec2 from, Vec2 hole, LengthUnit units, GreenDepth *lines,
                            size_t most);

#endif
