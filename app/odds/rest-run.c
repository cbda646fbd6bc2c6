// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Balls' runs followed quickly, thousands of them: the model of run_solve, but that they roll in longer pieces, of which a part is gone where the ground changes. All that is
 * asked is the area where they end. Balls do not wait for each other: in each round all that still bounce, or roll, look at the slope, move, and look at what they have come to.
 */
#include "rest-lanes-private.h"
#include "rest-private.h"

#include <math.h>
#include <string.h>

/* As app/flight/run.c has it. */
#define MOST_BOUNCES 12
/* A ball comes onto other ground within such a share of a whole piece behind its edge. */
#define PARTS_OF_PIECE 8

/* Balls on their way. */
typedef struct
{
  const SlopePatch *patch;
  const RestLanes *lanes;
  double *columns[N_BALL_COLUMNS];
  int *areas, *next_areas; /* under each: k of the area, -1 the ground */
  uint32_t *numbers;
  size_t n;
  int *rests;        /* by number, receives the area of each that is at rest */
  Vec2 *rest_places; /* by number as well; NULL: nobody asks */
} Balls;

/* Numbers that so many balls need, those of their areas and their own among them. */
#define NUMBERS_PER_BALL (N_BALL_COLUMNS + 2)
G_STATIC_ASSERT (2 * sizeof (int) <= sizeof (double) && sizeof (uint32_t) <= sizeof (double));

static size_t
room_for (size_t n_most)
{
  return n_most + FLIGHT_GROUP;
}

static void
balls_init (Balls *balls, const SlopePatch *patch, double *room, size_t n_most, int *rests, Vec2 *rest_places)
{
  size_t n = room_for (n_most);
  *balls = (Balls){ .patch = patch, .lanes = rest_lanes (), .rests = rests, .rest_places = rest_places };
  for (int column = 0; column < N_BALL_COLUMNS; column++)
    {
      balls->columns[column] = room + (size_t)column * n;
      memset (balls->columns[column] + n_most, 0, FLIGHT_GROUP * sizeof (double));
    }
  memset (balls->columns[BALL_SLOPE_X], 0, 2 * n * sizeof (double));
  balls->areas = (int *)(void *)(room + N_BALL_COLUMNS * n);
  balls->next_areas = balls->areas + n;
  balls->numbers = (uint32_t *)(void *)(room + (N_BALL_COLUMNS + 1) * n);
}

/* What ball i has come to; false when it stays there. */
static bool
enter (Balls *balls, size_t i, int area)
{
  const Ground *ground = balls->patch->ground;
  const Surface *surface = &ground->surfaces[hole_area_lie (ground->hole, area)];
  balls->areas[i] = area;
  balls->columns[BALL_BOUNCE][i] = surface->bounce;
  balls->columns[BALL_FRICTION][i] = surface->friction;
  balls->columns[BALL_CRATER][i] = surface->crater;
  balls->columns[BALL_HOLD][i] = surface->roll_decel_mps2;
  return !surface->stops;
}

static void
copy_ball (const Balls *from, size_t i, Balls *to, size_t k)
{
  for (int column = 0; column < N_BALL_KEPT; column++)
    to->columns[column][k] = from->columns[column][i];
  to->areas[k] = from->areas[i];
  to->numbers[k] = from->numbers[i];
}

/* The last one takes the place of one that leaves. */
static void
take_out (Balls *balls, size_t i)
{
  balls->n--;
  if (i < balls->n)
    copy_ball (balls, balls->n, balls, i);
}

static void
come_to_rest (Balls *balls, size_t i)
{
  balls->rests[balls->numbers[i]] = balls->areas[i];
  if (balls->rest_places != NULL)
    balls->rest_places[balls->numbers[i]] = vec2 (balls->columns[BALL_X][i], balls->columns[BALL_Y][i]);
  take_out (balls, i);
}

static void
look_at_slopes (Balls *balls)
{
  slope_patch_slopes (balls->patch, balls->columns[BALL_X], balls->columns[BALL_Y], balls->n, balls->columns[BALL_SLOPE_X],
                      balls->columns[BALL_SLOPE_Y]);
}

/* ---- bounces ---- */

/* One impact of each, and the hop after it; balls whose hops are over, or all after the last one, go on as `rolling`. */
static void
bounce (Balls *balls, bool is_last, Balls *rolling)
{
  double *const *columns = balls->columns;
  const Impacts impacts
      = { columns[BALL_VX],      columns[BALL_VY],     columns[BALL_VZ],       columns[BALL_SPIN],   columns[BALL_SLOPE_X],
          columns[BALL_SLOPE_Y], columns[BALL_BOUNCE], columns[BALL_FRICTION], columns[BALL_CRATER], columns[BALL_OFF] };
  look_at_slopes (balls);
  bounce_off_many (&impacts, balls->n);
  if (is_last)
    memset (columns[BALL_OFF], 0, balls->n * sizeof (double));
  balls->lanes->hop (balls->columns, balls->n);
  hole_areas_at (balls->patch->ground->hole, columns[BALL_X], columns[BALL_Y], balls->n, balls->next_areas);
  for (size_t i = balls->n; i-- > 0;)
    {
      bool goes = columns[BALL_OUT][i] > 0;
      if (balls->next_areas[i] != balls->areas[i] && !enter (balls, i, balls->next_areas[i]))
        come_to_rest (balls, i);
      else if (!goes)
        {
          copy_ball (balls, i, rolling, rolling->n++);
          take_out (balls, i);
        }
    }
}

/* ---- the roll ---- */

/* Accelerations over the level: what the slope draws and what the turf holds. */
typedef struct
{
  Vec2 draw;
  double hold;
} Pull;

static Vec2
acceleration (const Pull *pull, Vec2 v)
{
  double speed = sqrt (vec2_dot (v, v));
  if (speed > REST_MPS)
    return vec2_sub (pull->draw, vec2_scale (v, pull->hold / speed));
  double draw = sqrt (vec2_dot (pull->draw, pull->draw));
  return draw <= pull->hold ? vec2 (0, 0) : vec2_scale (pull->draw, 1 - pull->hold / draw);
}

/* Where a piece that long in time ends that begins with the acceleration `a`; `*v` is the speed before it, and receives that after it. */
static Vec2
piece_end (const Pull *pull, Vec2 at, Vec2 a, double piece_s, Vec2 *v)
{
  double speed2 = vec2_dot (*v, *v), slowing = -vec2_dot (*v, a);
  if (slowing > 0 && speed2 <= slowing * piece_s)
    {
      Vec2 end = vec2_add (at, vec2_scale (*v, 0.5 * speed2 / slowing));
      *v = vec2 (0, 0);
      return end;
    }
  Vec2 middle = acceleration (pull, vec2_add (*v, vec2_scale (a, 0.5 * piece_s)));
  Vec2 end = vec2_add (at, vec2_add (vec2_scale (*v, piece_s), vec2_scale (middle, 0.5 * piece_s * piece_s)));
  *v = vec2_add (*v, vec2_scale (middle, piece_s));
  return end;
}

/* The whole piece of ball i ends on other ground: it goes the part of it that ends just there. False when it stays there. */
static bool
roll_onto (Balls *balls, size_t i)
{
  double *const *columns = balls->columns;
  const Hole *hole = balls->patch->ground->hole;
  Vec2 slope = vec2 (columns[BALL_SLOPE_X][i], columns[BALL_SLOPE_Y][i]), from = vec2 (columns[BALL_X][i], columns[BALL_Y][i]),
       v0 = vec2 (columns[BALL_VX][i], columns[BALL_VY][i]);
  double flat = 1 / (1 + vec2_dot (slope, slope)), piece_s = columns[BALL_OUT][i];
  Pull pull = { vec2_scale (slope, -GRAVITY_MPS2 * flat), columns[BALL_HOLD][i] * flat };
  Vec2 a = acceleration (&pull, v0);
  Vec2 v = vec2 (columns[BALL_NEXT_VX][i], columns[BALL_NEXT_VY][i]),
       at = vec2 (columns[BALL_NEXT_X][i], columns[BALL_NEXT_Y][i]);
  int before = balls->areas[i], area = balls->next_areas[i], low = 0, high = PARTS_OF_PIECE;
  while (high - low > 1)
    {
      int middle = (low + high) / 2, there;
      Vec2 v_there = v0, at_there = piece_end (&pull, from, a, piece_s * middle / PARTS_OF_PIECE, &v_there);
      hole_areas_at (hole, &at_there.x, &at_there.y, 1, &there);
      if (there == before)
        {
          low = middle;
          continue;
        }
      high = middle;
      area = there;
      at = at_there;
      v = v_there;
    }
  columns[BALL_NEXT_X][i] = at.x;
  columns[BALL_NEXT_Y][i] = at.y;
  columns[BALL_NEXT_VX][i] = v.x;
  columns[BALL_NEXT_VY][i] = v.y;
  columns[BALL_OUT][i] = piece_s * high / PARTS_OF_PIECE;
  return enter (balls, i, area);
}

static void
swap_columns (Balls *balls, BallColumn a, BallColumn b)
{
  double *swapped = balls->columns[a];
  balls->columns[a] = balls->columns[b];
  balls->columns[b] = swapped;
}

static void
roll (Balls *balls)
{
  double *const *columns = balls->columns;
  look_at_slopes (balls);
  balls->lanes->roll (columns, balls->n);
  hole_areas_at (balls->patch->ground->hole, columns[BALL_NEXT_X], columns[BALL_NEXT_Y], balls->n, balls->next_areas);
  for (size_t i = 0; i < balls->n; i++)
    {
      bool has_stopped = false;
      if (balls->next_areas[i] != balls->areas[i] && columns[BALL_OUT][i] > 0)
        has_stopped = !roll_onto (balls, i);
      columns[BALL_TIME][i] = has_stopped ? RUN_LONGEST_S : columns[BALL_TIME][i] + columns[BALL_OUT][i];
    }
  swap_columns (balls, BALL_X, BALL_NEXT_X);
  swap_columns (balls, BALL_Y, BALL_NEXT_Y);
  swap_columns (balls, BALL_VX, BALL_NEXT_VX);
  swap_columns (balls, BALL_VY, BALL_NEXT_VY);
  for (size_t i = balls->n; i-- > 0;)
    if (!(columns[BALL_OUT][i] > 0) || !(columns[BALL_TIME][i] < RUN_LONGEST_S))
      come_to_rest (balls, i);
}

/* ---- all of them ---- */

static void
let_fall (Balls *balls, const FlightPoint *landing, Vec2 place, int area, size_t number)
{
  size_t i = balls->n++;
  const double motion[] = { [BALL_X] = place.x,
                            [BALL_Y] = place.y,
                            [BALL_VX] = landing->v_mps.x,
                            [BALL_VY] = landing->v_mps.y,
                            [BALL_VZ] = landing->vz_mps,
                            [BALL_SPIN] = landing->spin_radps,
                            [BALL_TIME] = 0 };
  for (size_t column = 0; column < G_N_ELEMENTS (motion); column++)
    balls->columns[column][i] = motion[column];
  balls->numbers[i] = (uint32_t)number;
  if (!enter (balls, i, area))
    come_to_rest (balls, i);
}

/* From where they come down, each on its area, to their rests. */
static void
run_all (SlopePatch *patch, const Falls *falls, const int *lands, int *rests, Vec2 *rest_places)
{
  Balls bouncing, rolling;
  size_t n_room = NUMBERS_PER_BALL * room_for (falls->n);
  if (2 * n_room > patch->n_room)
    {
      g_free (patch->room);
      patch->room = g_new (double, 2 * n_room);
      patch->n_room = 2 * n_room;
    }
  balls_init (&bouncing, patch, patch->room, falls->n, rests, rest_places);
  balls_init (&rolling, patch, patch->room + n_room, falls->n, rests, rest_places);
  for (size_t i = 0; i < falls->n; i++)
    let_fall (&bouncing, &falls->motions[i * falls->step], falls->places[i], lands[i], i);
  for (int i = 0; bouncing.n > 0; i++)
    bounce (&bouncing, i + 1 == MOST_BOUNCES, &rolling);
  while (rolling.n > 0)
    roll (&rolling);
}

/* Followed at a time, so that all that is known of them stays near at hand. */
#define BATCH 256

void
rest_land_all (SlopePatch *patch, const Falls *falls, int *lands, int *rests, Vec2 *rest_places)
{
  double x[BATCH], y[BATCH];
  for (size_t first = 0; first < falls->n; first += BATCH)
    {
      const Falls some
          = { falls->motions + first * falls->step, falls->places + first, falls->step, MIN (BATCH, falls->n - first) };
      for (size_t i = 0; i < some.n; i++)
        {
          x[i] = some.places[i].x;
          y[i] = some.places[i].y;
        }
      hole_areas_at (patch->ground->hole, x, y, some.n, lands + first);
      run_all (patch, &some, lands + first, rests + first, rest_places != NULL ? rest_places + first : NULL);
    }
}
