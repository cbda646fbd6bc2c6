// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * A ball's run followed quickly, for thousands of them: the model of run_solve, but that it rolls in longer pieces, which are halved where the ground changes. All that is
 * asked is the area where it ends.
 */
#include "rest-private.h"

#include "flight-many.h"

#include <math.h>
#include <string.h>

/* As app/flight/run.c has them: what is no rebound, and how often a ball bounces at most. */
#define LEAST_REBOUND_MPS 0.3
#define MOST_BOUNCES 12
/* Pieces of the roll in distance and time. One that ends on other ground is halved down to the shortest. */
#define PIECE_M 0.6
#define PIECE_S 0.4
#define SHORTEST_PIECE 0.125 /* of a whole one */
#define REST_MPS 1e-6

/* One of many balls on its way. */
typedef struct
{
  Vec2 at;
  Impact motion;
  double time_s;
  const Surface *surface; /* of the lie under it; its slope is that of level ground */
  Vec2 slope;
  int area; /* part index under the ball, -1: the ground */
  uint32_t number;
} Ball;

/* Looks at what a ball has come to. */
static void
enter (const SlopePatch *patch, Ball *ball, int area)
{
  const Hole *hole = patch->ground->hole;
  Kind kind = area >= 0 ? hole_part (hole, (size_t)area)->kind : hole_info (hole)->ground;
  ball->area = area;
  ball->surface = &patch->ground->surfaces[kind_info (kind)->lie];
}

static void
move_to (const SlopePatch *patch, Ball *ball, Vec2 at)
{
  int area = hole_area_at (patch->ground->hole, at);
  if (area != ball->area)
    enter (patch, ball, area);
  ball->at = at;
}

/* ---- bounces ---- */

/* The hop after a bounce that left the ball `off_mps` fast off the ground; false when it goes on rolling. */
static bool
hop (const SlopePatch *patch, Ball *ball, double off_mps, bool is_last)
{
  double steep2 = 1 + vec2_dot (ball->slope, ball->slope), hop_s = 2 * off_mps * sqrt (steep2) / GRAVITY_MPS2;
  if (!(off_mps > LEAST_REBOUND_MPS) || is_last || ball->time_s + hop_s > RUN_LONGEST_S)
    return false;
  Vec2 v = ball->motion.v_mps;
  ball->motion.vz_mps -= GRAVITY_MPS2 * hop_s;
  ball->time_s += hop_s;
  move_to (patch, ball, vec2_add (ball->at, vec2_scale (v, hop_s)));
  return true;
}

/* Numbers of many balls, one after the other; room for `n_most` and what the groups of FLIGHT_GROUP need beyond. */
typedef struct
{
  double *room, *x, *y, *vx, *vy, *vz, *spin, *sx, *sy, *bounce, *friction, *crater, *hold, *out;
} Columns;

static Columns
columns_new (size_t n_most)
{
  size_t n = n_most + FLIGHT_GROUP;
  double *room = g_new0 (double, 13 * n);
  return (Columns){ room,         room,         room + n,     room + 2 * n, room + 3 * n,  room + 4 * n,  room + 5 * n,
                    room + 6 * n, room + 7 * n, room + 8 * n, room + 9 * n, room + 10 * n, room + 11 * n, room + 12 * n };
}

static void
bounce_columns (const Columns *columns, Ball *balls, size_t n)
{
  for (size_t i = 0; i < n; i++)
    {
      const Ball *ball = &balls[i];
      columns->vx[i] = ball->motion.v_mps.x;
      columns->vy[i] = ball->motion.v_mps.y;
      columns->vz[i] = ball->motion.vz_mps;
      columns->spin[i] = ball->motion.spin_radps;
      columns->sx[i] = ball->slope.x;
      columns->sy[i] = ball->slope.y;
      columns->bounce[i] = ball->surface->bounce;
      columns->friction[i] = ball->surface->friction;
      columns->crater[i] = ball->surface->crater;
    }
  Impacts impacts = { columns->vx, columns->vy,     columns->vz,       columns->spin,   columns->sx,
                      columns->sy, columns->bounce, columns->friction, columns->crater, columns->out };
  bounce_off_many (&impacts, n);
  for (size_t i = 0; i < n; i++)
    balls[i].motion = (Impact){ { columns->vx[i], columns->vy[i] }, columns->vz[i], columns->spin[i] };
}

/* ---- rolling ---- */

/* Accelerations over the level: what the slope draws and what the turf holds. */
typedef struct
{
  Vec2 draw;
  double hold;
} Pull;

static Vec2
acceleration (const Pull *pull, Vec2 v, double speed)
{
  if (speed > REST_MPS)
    return vec2_sub (pull->draw, vec2_scale (v, pull->hold / speed));
  double draw = vec2_length (pull->draw);
  return draw <= pull->hold ? vec2 (0, 0) : vec2_scale (pull->draw, 1 - pull->hold / draw);
}

/* Where a piece that long in time ends; `*v` the speed there. */
static Vec2
piece_end (const Ball *ball, const Pull *pull, Vec2 a, double piece_s, Vec2 *v)
{
  Vec2 v0 = ball->motion.v_mps;
  double speed2 = vec2_dot (v0, v0), slowing = -vec2_dot (v0, a);
  if (slowing > 0 && speed2 <= slowing * piece_s)
    {
      *v = vec2 (0, 0);
      return vec2_add (ball->at, vec2_scale (v0, 0.5 * speed2 / slowing));
    }
  Vec2 half = vec2_add (v0, vec2_scale (a, 0.5 * piece_s)), middle = acceleration (pull, half, sqrt (vec2_dot (half, half)));
  *v = vec2_add (v0, vec2_scale (middle, piece_s));
  return vec2_add (ball->at, vec2_add (vec2_scale (v0, piece_s), vec2_scale (middle, 0.5 * piece_s * piece_s)));
}

/* One piece of the roll, halved where the ground changes; false when the ball is at rest. */
static bool
roll (const SlopePatch *patch, Ball *ball)
{
  double flat = 1 / (1 + vec2_dot (ball->slope, ball->slope));
  Pull pull = { vec2_scale (ball->slope, -GRAVITY_MPS2 * flat), ball->surface->roll_decel_mps2 * flat };
  Vec2 v0 = ball->motion.v_mps, v, at;
  double speed = sqrt (vec2_dot (v0, v0));
  Vec2 a = acceleration (&pull, v0, speed);
  if (!(speed > REST_MPS) && a.x == 0 && a.y == 0)
    return false;
  double whole_s = speed * PIECE_S > PIECE_M ? PIECE_M / speed : PIECE_S, piece_s = whole_s;
  int area;
  for (;; piece_s /= 2)
    {
      at = piece_end (ball, &pull, a, piece_s, &v);
      area = hole_area_at (patch->ground->hole, at);
      if (piece_s <= SHORTEST_PIECE * whole_s || area == ball->area)
        break;
    }
  if (area != ball->area)
    enter (patch, ball, area);
  ball->at = at;
  ball->motion.v_mps = v;
  ball->time_s += piece_s;
  return true;
}

/* ---- rolling, several balls side by side ---- */

typedef double Lanes __attribute__ ((vector_size (FLIGHT_GROUP * sizeof (double))));
typedef int64_t Masks __attribute__ ((vector_size (FLIGHT_GROUP * sizeof (int64_t))));
/* Compiled once more for machines with wider vectors, and chosen when the program starts. */
#if defined __x86_64__ && defined __gnu_linux__ && defined __GNUC__ && !defined __clang__
#define FOR_EACH_MACHINE __attribute__ ((target_clones ("default", "avx2", "avx512f")))
#else
#define FOR_EACH_MACHINE
#endif
#define INLINE static inline __attribute__ ((always_inline))

INLINE Lanes
all (double value)
{
  return (Lanes){ 0 } + value;
}

INLINE Lanes
either (Masks which, Lanes yes, Lanes no)
{
  return (Lanes)((which & (Masks)yes) | (~which & (Masks)no));
}

INLINE Lanes
length_of (Lanes x, Lanes y)
{
  Lanes a = x * x + y * y;
  for (int i = 0; i < FLIGHT_GROUP; i++)
    a[i] = sqrt (a[i]);
  return a;
}

INLINE Lanes
load (const double *from)
{
  Lanes lanes;
  memcpy (&lanes, from, sizeof lanes);
  return lanes;
}

INLINE void
store (double *to, Lanes lanes)
{
  memcpy (to, &lanes, sizeof lanes);
}

/* `acceleration` of a group, as shares of the speed and of what the slope draws. */
INLINE void
pull_on (Lanes speed, Lanes draw, Lanes hold, Lanes *of_speed, Lanes *of_draw)
{
  Masks moves = speed > REST_MPS;
  *of_speed = either (moves, -hold / speed, all (0));
  *of_draw = either (moves, all (1), either (draw <= hold, all (0), 1 - hold / draw));
}

/* One whole piece of a group from number i on: into `x`, `y`, `vx`, `vy`, and how long it took into `out`, 0 for a ball at rest. */
INLINE void
roll_group (const Columns *columns, size_t i)
{
  Lanes vx = load (columns->vx + i), vy = load (columns->vy + i), sx = load (columns->sx + i), sy = load (columns->sy + i);
  Lanes flat = 1 / (1 + sx * sx + sy * sy), dx = -GRAVITY_MPS2 * flat * sx, dy = -GRAVITY_MPS2 * flat * sy;
  Lanes hold = load (columns->hold + i) * flat, draw = length_of (dx, dy), speed = length_of (vx, vy), of_speed, of_draw;
  pull_on (speed, draw, hold, &of_speed, &of_draw);
  Lanes ax = of_draw * dx + of_speed * vx, ay = of_draw * dy + of_speed * vy;
  Masks rests = (speed <= REST_MPS) & (ax == 0) & (ay == 0);
  Lanes piece = either (speed * PIECE_S > PIECE_M, PIECE_M / speed, all (PIECE_S));
  Lanes slowing = -(vx * ax + vy * ay);
  Masks stops = (slowing > 0) & (speed * speed <= slowing * piece);
  Lanes hx = vx + 0.5 * piece * ax, hy = vy + 0.5 * piece * ay;
  pull_on (length_of (hx, hy), draw, hold, &of_speed, &of_draw);
  Lanes mx = of_draw * dx + of_speed * hx, my = of_draw * dy + of_speed * hy, to_stop = 0.5 * speed * speed / slowing;
  Lanes by_x = either (stops, to_stop * vx, piece * (vx + 0.5 * piece * mx)),
        by_y = either (stops, to_stop * vy, piece * (vy + 0.5 * piece * my));
  store (columns->x + i, load (columns->x + i) + by_x);
  store (columns->y + i, load (columns->y + i) + by_y);
  store (columns->vx + i, either (stops, all (0), vx + piece * mx));
  store (columns->vy + i, either (stops, all (0), vy + piece * my));
  store (columns->out + i, either (rests, all (0), piece));
}

FOR_EACH_MACHINE static void
roll_groups (const Columns *columns, size_t n)
{
  for (size_t i = 0; i < n; i += FLIGHT_GROUP)
    roll_group (columns, i);
}

static void
roll_columns (const Columns *columns, const Ball *balls, size_t n)
{
  for (size_t i = 0; i < n; i++)
    {
      columns->x[i] = balls[i].at.x;
      columns->y[i] = balls[i].at.y;
      columns->vx[i] = balls[i].motion.v_mps.x;
      columns->vy[i] = balls[i].motion.v_mps.y;
      columns->sx[i] = balls[i].slope.x;
      columns->sy[i] = balls[i].slope.y;
      columns->hold[i] = balls[i].surface->roll_decel_mps2;
    }
  roll_groups (columns, n);
}

/* ---- all of them ---- */

/*
 * Before each round of bounces or pieces of the roll: balls that stay where they are leave, the others look at the slope. Returns how many are left. Balls do not wait for each
 * other, so that the machine works at several of them side by side.
 */
static size_t
take_round (const SlopePatch *patch, Ball *balls, size_t n, int *rests)
{
  size_t n_left = 0;
  for (size_t i = 0; i < n; i++)
    {
      if (balls[i].surface->stops || !(balls[i].time_s < RUN_LONGEST_S))
        {
          rests[balls[i].number] = balls[i].area;
          continue;
        }
      balls[n_left] = balls[i];
      balls[n_left].slope = slope_patch_slope (patch, balls[n_left].at);
      n_left++;
    }
  return n_left;
}

/* All bounces; those that go on rolling are gathered in `rolling`. */
static size_t
bounce_all (const SlopePatch *patch, const Columns *columns, Ball *balls, size_t n, Ball *rolling, int *rests)
{
  size_t n_rolling = 0;
  for (int i = 0; n > 0; i++)
    {
      size_t n_left = 0;
      n = take_round (patch, balls, n, rests);
      bounce_columns (columns, balls, n);
      for (size_t k = 0; k < n; k++)
        if (hop (patch, &balls[k], columns->out[k], i + 1 == MOST_BOUNCES))
          balls[n_left++] = balls[k];
        else
          rolling[n_rolling++] = balls[k];
      n = n_left;
    }
  return n_rolling;
}

/* Takes over what one whole piece came to, or goes a part of it where the ground changes. */
static void
take_piece (const SlopePatch *patch, const Columns *columns, size_t k, Ball *ball)
{
  Vec2 at = vec2 (columns->x[k], columns->y[k]);
  if (hole_area_at (patch->ground->hole, at) != ball->area)
    {
      roll (patch, ball);
      return;
    }
  ball->at = at;
  ball->motion.v_mps = vec2 (columns->vx[k], columns->vy[k]);
  ball->time_s += columns->out[k];
}

static void
roll_all (const SlopePatch *patch, const Columns *columns, Ball *balls, size_t n, int *rests)
{
  while (n > 0)
    {
      size_t n_left = 0;
      n = take_round (patch, balls, n, rests);
      roll_columns (columns, balls, n);
      for (size_t k = 0; k < n; k++)
        if (columns->out[k] > 0)
          {
            balls[n_left] = balls[k];
            take_piece (patch, columns, k, &balls[n_left++]);
          }
        else
          rests[balls[k].number] = balls[k].area;
      n = n_left;
    }
}

/* One bounce of one ball, and the hop after it; false when it goes on rolling. */
static bool
bounce (const SlopePatch *patch, Ball *ball, bool is_last)
{
  Surface surface = *ball->surface;
  surface.slope = ball->slope;
  ball->motion = bounce_off (&ball->motion, &surface);
  double off
      = (ball->motion.vz_mps - vec2_dot (ball->motion.v_mps, ball->slope)) / sqrt (1 + vec2_dot (ball->slope, ball->slope));
  return hop (patch, ball, off, is_last);
}

int
rest_run (const SlopePatch *patch, const FlightPoint *landing, int area)
{
  Ball ball = { .at = landing->at, .motion = { landing->v_mps, landing->vz_mps, landing->spin_radps } };
  int rest = area;
  enter (patch, &ball, area);
  bool is_rolling = false;
  for (int i = 0; take_round (patch, &ball, 1, &rest) > 0; i++)
    if (is_rolling && !roll (patch, &ball))
      return ball.area;
    else if (!is_rolling)
      is_rolling = !bounce (patch, &ball, i + 1 == MOST_BOUNCES);
  return rest;
}

void
rest_run_all (const SlopePatch *patch, const FlightPoint *landing, const Vec2 *places, const int *areas, size_t n, int *rests)
{
  g_autofree Ball *balls = g_new (Ball, 2 * n + 1);
  Columns columns = columns_new (n);
  Ball *rolling = balls + n;
  for (size_t i = 0; i < n; i++)
    {
      balls[i] = (Ball){ .at = places[i],
                         .motion = { landing->v_mps, landing->vz_mps, landing->spin_radps },
                         .number = (uint32_t)i };
      enter (patch, &balls[i], areas[i]);
    }
  size_t n_rolling = bounce_all (patch, &columns, balls, n, rolling, rests);
  roll_all (patch, &columns, rolling, n_rolling, rests);
  g_free (columns.room);
}
