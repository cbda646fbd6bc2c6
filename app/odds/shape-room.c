// SPDX-License-Identifier: GPL-3.0-or-later
/* How much more or less than planned a ball may curve from the same start line. */
#include "fly-private.h"
#include "odds-private.h"
#include "odds-room.h"

#include <math.h>

#define DEGREE (PI / 180)
/* The spin axis is turned by this for a first look at how far that moves the landing. */
#define FIRST_TURN_RAD (2 * DEGREE)
#define MOST_TURN_RAD (70 * DEGREE)
/* Landings this far apart are looked at; where one stays clear and the next does not, between them down to the finer step. */
#define STEP_M 2.0
#define FINE_M 0.05
/* A track is looked at this often on its way over and through trees. */
#define TRACK_EVERY_M 1.0

typedef struct
{
  const Hole *hole;
  const ShotResult *shot;
  Ground ground;
  Sendoff sendoff;
  double planned_rad; /* tilt of the planned launch's spin axis */
  GArray *trees;      /* of Trees: those that may be in the way */
  double tallest_m;   /* of them */
} Search;

/* What became of one ball. */
typedef struct
{
  double right_m; /* landing right of the planned one's line, across it */
  int part;       /* what it met: an area or a tree; -1: nothing */
  bool is_clear;
} Ball;

/* ---- what a ball meets ---- */

/* A tree or an area of trees; `area` as hole_areas_at tells it, of a single tree -1. */
typedef struct
{
  size_t part;
  int area;
} Trees;

/* `top` is the topmost area there: what lies on top of that covers nothing, only of what lies under it the outline has to be asked. */
static bool
covers (const Search *search, const Trees *trees, Vec2 at, int top)
{
  const Part *part = hole_part (search->hole, trees->part);
  if (trees->area < 0)
    return vec2_distance (part->at, at) < part->radius_m;
  return top == trees->area || (top > trees->area && box_contains (part->bounds, at) && outline_contains (part->outline, at));
}

static double
height_of (const Part *part)
{
  return isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M;
}

/* The first tree that the flight goes into, or -1. */
static int
tree_met (const Search *search, const Flight *flight)
{
  FlightPoint landing = flight_landing (flight);
  int n = 1 + (int)(vec2_distance (flight->points[0].at, landing.at) / TRACK_EVERY_M);
  for (int i = 1; i <= n && search->trees->len > 0; i++)
    {
      FlightPoint point = flight_at (flight, landing.t_s * i / n);
      double above_m = point.z_m - ground_height (&search->ground, point.at);
      if (!(above_m < search->tallest_m))
        continue;
      int top;
      hole_areas_at (search->hole, &point.at.x, &point.at.y, 1, &top);
      for (guint k = 0; k < search->trees->len; k++)
        {
          const Trees *trees = &g_array_index (search->trees, Trees, k);
          if (above_m < height_of (hole_part (search->hole, trees->part)) && covers (search, trees, point.at, top))
            return (int)trees->part;
        }
    }
  return -1;
}

static bool
is_trouble (const Search *search, Vec2 at, int *part)
{
  *part = hole_area_at (search->hole, at);
  return kind_info (hole_kind_at (search->hole, at))->is_trouble;
}

/* Flies the ball whose spin axis is turned by so much more to the right. */
static bool
fly_turned (const Search *search, double turn_rad, Ball *ball)
{
  Sendoff turned = search->sendoff;
  Flight flight;
  Run run;
  turned.launch.tilt_rad = search->planned_rad + turn_rad;
  FlightInput input = sendoff_input (&turned, &search->shot->conditions, &search->ground);
  if (!(fabs (turned.launch.tilt_rad) <= MOST_TURN_RAD) || !flight_solve (&input, &flight, NULL))
    return false;
  /* As sendoff_fly moves a landing, also on the standard day. */
  FlightPoint landing = flight_landing (&flight);
  landing.at = vec2_add (turned.meant, vec2_sub (landing.at, turned.modelled));
  if (!run_solve (&landing, ground_surface, &search->ground, &run, NULL))
    return false;
  Vec2 along = vec2_unit (vec2_sub (search->shot->landing, search->shot->ball));
  ball->right_m = -vec2_cross (along, vec2_sub (landing.at, search->shot->ball));
  ball->part = tree_met (search, &flight);
  ball->is_clear
      = ball->part < 0 && !is_trouble (search, landing.at, &ball->part) && !is_trouble (search, run.rest, &ball->part);
  if (ball->is_clear)
    ball->part = -1;
  return true;
}

/* ---- to one side ---- */

/* Between a ball that stays clear and one that does not. */
static void
halve (const Search *search, double clear_rad, double met_rad, Ball *clear, Ball *met)
{
  while (fabs (met->right_m - clear->right_m) > FINE_M && fabs (met_rad - clear_rad) > 1e-9)
    {
      Ball between;
      double middle_rad = 0.5 * (clear_rad + met_rad);
      if (!fly_turned (search, middle_rad, &between))
        return;
      if (between.is_clear)
        clear_rad = middle_rad, *clear = between;
      else
        met_rad = middle_rad, *met = between;
    }
}

/* The room to one side, `sign` +1: the right. */
static void
look_aside (const Search *search, int sign, double *room_m, int *part)
{
  Ball clear = { .part = -1, .is_clear = true }, next;
  double turn_rad = 0, step_rad = sign * FIRST_TURN_RAD;
  *part = -1;
  *room_m = 0;
  while (fabs (clear.right_m) < SHAPE_ROOM_MOST_M && fly_turned (search, turn_rad + step_rad, &next))
    {
      double moved_m = sign * (next.right_m - clear.right_m);
      if (!(moved_m > 0))
        break; /* the axis lies so that more tilt curves it no more */
      if (moved_m > 2 * STEP_M)
        {
          step_rad /= 2;
          continue;
        }
      if (!next.is_clear)
        {
          halve (search, turn_rad, turn_rad + step_rad, &clear, &next);
          *part = next.part;
          break;
        }
      turn_rad += step_rad;
      step_rad *= fmin (2, STEP_M / moved_m);
      clear = next;
    }
  *room_m = fmin (SHAPE_ROOM_MOST_M, fabs (clear.right_m));
}

/* ---- the whole ---- */

/* Trees within reach of any curve. */
static void
find_trees (Search *search)
{
  search->trees = g_array_new (FALSE, FALSE, sizeof (Trees));
  const ShotResult *shot = search->shot;
  Box box = box_empty ();
  for (size_t i = 0; i < shot->flight.n_points; i++)
    box = box_with_point (box, shot->flight.points[i].at);
  box = box_grown (box_with_point (box, shot->landing), 2 * SHAPE_ROOM_MOST_M);
  size_t n_areas = hole_n_areas (search->hole), area = 0;
  for (size_t i = 0; i < hole_n_parts (search->hole); i++)
    {
      const Part *part = hole_part (search->hole, i);
      bool is_area = area < n_areas && hole_area_part (search->hole, area) == i;
      Trees trees = { i, is_area ? (int)area : -1 };
      area += is_area;
      bool is_tree = part->kind == KIND_TREE && part->radius_m > 0 && box_contains (box_grown (box, part->radius_m), part->at);
      if (is_tree || (part->kind == KIND_TREES && box_overlaps (box, part->bounds)))
        {
          g_array_append_val (search->trees, trees);
          search->tallest_m = fmax (search->tallest_m, height_of (part));
        }
    }
}

bool
odds_shape_room (const Hole *hole, const ShotResult *shot, ShapeRoom *room, GError **error)
{
  Search search = { .hole = hole, .shot = shot };
  const LieEffect *effect = &shot->effect;
  double share = shot->swing * effect->carry_factor * effect->spin_factor;
  Vec2 along = vec2_unit (vec2_sub (shot->aim, shot->ball));
  if (!sendoff_make (shot->club, effect, shot->swing, shot->ball, along, shot->curve_m / share, &search.sendoff, error))
    return false;
  search.planned_rad = search.sendoff.launch.tilt_rad;
  find_trees (&search);
  ground_init (&search.ground, hole, &shot->conditions);
  ShapeRoom found = { .left_part = -1, .right_part = -1 };
  Ball planned = { .part = -1 };
  if (fly_turned (&search, 0, &planned) && planned.is_clear)
    {
      found.is_clear = true;
      look_aside (&search, -1, &found.left_m, &found.left_part);
      look_aside (&search, 1, &found.right_m, &found.right_part);
      found.left_rad = atan2 (found.left_m, shot->carry_m);
      found.right_rad = atan2 (found.right_m, shot->carry_m);
    }
  else
    found.left_part = found.right_part = planned.part;
  g_array_unref (search.trees);
  *room = found;
  return true;
}
