// SPDX-License-Identifier: GPL-3.0-or-later
/* The ground that one shot flies over and runs on: its height, its slope, and what a ball meets at a place. Lives as long as the shot is computed. */
#ifndef HOLEWRIGHT_ODDS_GROUND_PRIVATE_H
#define HOLEWRIGHT_ODDS_GROUND_PRIVATE_H

#include "odds-stance.h"
#include "odds.h"

/* The parts of a hole among which its slope arrows are; none when both are alike. */
typedef struct
{
  size_t first, end;
} ArrowRange;

/* One of them: its line, and the slope that it gives the ground. */
typedef struct
{
  Vec2 from, along;
  double per_length2; /* 1 over the square of its length */
  Vec2 slope;
} Arrow;

/* False when the part is none. */
bool arrow_of (const Part *part, Arrow *arrow);
/* Beyond this box it does not speak. */
Box arrow_reach (const Arrow *arrow);
/* Is its line no farther from the place than this? Then it is the distance. Asked at every bounce and every piece of a roll, so in line. */
static inline bool
arrow_is_nearer (const Arrow *arrow, Vec2 at, double *distance2_m2)
{
  Vec2 from = vec2_sub (at, arrow->from);
  double t = vec2_dot (from, arrow->along) * arrow->per_length2;
  t = t > 0 ? t < 1 ? t : 1 : 0;
  from = vec2_sub (from, vec2_scale (arrow->along, t));
  double found2_m2 = vec2_dot (from, from);
  if (!(found2_m2 <= *distance2_m2))
    return false;
  *distance2_m2 = found2_m2;
  return true;
}
/* The nearest that is no farther than STANCE_ARROW_M, the last of those that are as near; NULL: none. */
static inline const Arrow *
arrow_nearest (const Arrow *arrows, size_t n_arrows, Vec2 at)
{
  double nearest2_m2 = STANCE_ARROW_M * STANCE_ARROW_M;
  const Arrow *found = NULL;
  for (size_t i = 0; i < n_arrows; i++)
    if (arrow_is_nearer (&arrows[i], at, &nearest2_m2))
      found = &arrows[i];
  return found;
}
/* As odds_stance_arrow, among these parts. */
bool arrow_slope (const Hole *hole, ArrowRange range, Vec2 at, Vec2 *slope);

/* So many stand at hand; of a hole with more, each is looked up among its parts. */
#define GROUND_MOST_ARROWS 16

typedef struct
{
  const Hole *hole;
  const Terrain *terrain; /* NULL: level at 0 */
  ArrowRange arrows;
  Arrow near_arrows[GROUND_MOST_ARROWS];
  size_t n_arrows;      /* of the hole: maybe more */
  Box arrows_reach;     /* beyond it none of them speaks */
  double low_m, high_m; /* of the heights that are drawn */
  const Conditions *conditions;
  Surface surfaces[LIE_BUILDING + 1];
} Ground;

void ground_init (Ground *ground, const Hole *hole, const Conditions *conditions);
/* Height and slope of the ground; `ground` is a const Ground *. */
double ground_height (const void *ground, Vec2 at);
/* Rise per metre towards +x and +y: of the heights, and where none lie round the place as an arrow nearby tells it. */
Vec2 ground_slope (const Ground *ground, Vec2 at);
/* What a ball meets that comes down or rolls there. */
Surface ground_surface (const void *ground, Vec2 at);
/* The same where the lie is known. */
Surface ground_surface_of (const Ground *ground, Lie lie, Vec2 at);
/* No ground of the hole is more than this above the place. */
double ground_rise (const Ground *ground, Vec2 above);

#endif
