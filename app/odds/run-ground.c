// SPDX-License-Identifier: GPL-3.0-or-later
/* Where balls rest that come down anywhere: the ground made ready for the runs that rest.c follows. */
#include "rest-private.h"

struct _RunGround
{
  Ground ground;
  Conditions conditions;
  SlopePatch patch;
};

RunGround *
run_ground_new (const Hole *hole, const Conditions *conditions, Box box)
{
  RunGround *run_ground = g_new (RunGround, 1);
  run_ground->conditions = *conditions;
  ground_init (&run_ground->ground, hole, &run_ground->conditions);
  slope_patch_init (&run_ground->patch, &run_ground->ground, box);
  return run_ground;
}

void
run_ground_free (RunGround *ground)
{
  if (ground == NULL)
    return;
  slope_patch_clear (&ground->patch);
  g_free (ground);
}

void
run_ground_follow (RunGround *ground, const FlightPoint *landings, size_t n, Vec2 *rests, int *landed_on, int *areas)
{
  g_autofree Vec2 *places = g_new (Vec2, n + 1);
  for (size_t i = 0; i < n; i++)
    places[i] = landings[i].at;
  rest_land_all (&ground->patch, &(Falls){ landings, places, 1, n }, landed_on, areas, rests);
}
