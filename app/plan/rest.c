// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What a ball at rest costs: the table's strokes, or the cheapest drop.
 */
#include "plan-private.h"

#include <math.h>
#include <string.h>

/* The way on through a penalty area is looked at as finely as plan_drops does the way into it, and so many steps of it. */
#define FAR_STEP_M 0.5
#define MOST_FAR_STEPS 400

Kept *
kept_new (void)
{
  Kept *kept = g_new (Kept, 1);
  g_mutex_init (&kept->lock);
  kept->spread = kept->least = 0;
  kept->drops = NULL;
  return kept;
}

void
kept_free (Kept *kept)
{
  g_mutex_clear (&kept->lock);
  g_free (GSIZE_TO_POINTER (kept->spread));
  g_free (GSIZE_TO_POINTER (kept->least));
  g_free (kept->drops);
  g_free (kept);
}

/* Playing again, and the stroke that it costs. */
static const Value again = { DROP_PENALTY_STROKES, 1 };

/* ---- drops ---- */

static double *
make_least (const StrokesTable *table)
{
  double *least = g_new (double, STROKES_NODES);
  for (int i = 0; i < STROKES_NODES; i++)
    least[i] = table->strokes[0][i];
  for (int lie = 1; lie < N_LIES; lie++)
    for (int i = 0; i < STROKES_NODES; i++)
      least[i] = table->strokes[lie][i] < least[i] ? table->strokes[lie][i] : least[i];
  for (int i = STROKES_NODES - 2; i >= 0; i--)
    least[i] = least[i + 1] < least[i] ? least[i + 1] : least[i];
  return least;
}

const double *
place_least (const Place *place)
{
  gsize *kept = &place->kept->least;
  if (g_once_init_enter (kept))
    g_once_init_leave (kept, GPOINTER_TO_SIZE (make_least (place->input.table)));
  return GSIZE_TO_POINTER (*kept);
}

/* Also how far from the ball the way into the area was crossed. */
static Value
find_drop (const Place *place, Vec2 at, double *crossing_m)
{
  Drop drops[N_DROP_RULES];
  size_t n = drops_from (place->input.hole, place->input.table, place_least (place), place->target, place->input.ball,
                         place->lie, at, place->again_strokes, drops);
  *crossing_m = n > 0 ? vec2_distance (place->input.ball, drops[0].crossing) : INFINITY;
  return n == 0 || drops[0].rule == DROP_AGAIN ? again : (Value){ drops[0].strokes, 0 };
}

static bool
is_wet (const Place *place, Vec2 along, double distance_m)
{
  return hole_lie_at (place->input.hole, vec2_add (place->input.ball, vec2_scale (along, distance_m))) == LIE_PENALTY;
}

/* How far from the ball the way through the area ends that a ball is in at a distance. */
static double
far_end (const Place *place, Vec2 along, double distance_m)
{
  double far_m = distance_m;
  for (int i = 0; i < MOST_FAR_STEPS; i++, far_m += FAR_STEP_M)
    if (!is_wet (place, along, far_m + FAR_STEP_M))
      break;
  return far_m;
}

/* A drop known for a direction and a distance from the ball. */
static bool
find_kept (Kept *kept, size_t direction, double distance_m, Value *value)
{
  bool is_found = false;
  g_mutex_lock (&kept->lock);
  const KeptDrop *same = kept->drops != NULL ? kept->drops[direction] : NULL;
  for (int k = 0; k < N_KEPT_WATERS && same != NULL && !is_found; k++)
    if (distance_m >= same[k].from_m && distance_m <= same[k].to_m)
      {
        *value = same[k].value;
        is_found = true;
      }
  g_mutex_unlock (&kept->lock);
  return is_found;
}

static void
make_room (Kept *kept)
{
  kept->drops = g_malloc_n (N_KEPT_DROPS, sizeof *kept->drops);
  for (int i = 0; i < N_KEPT_DROPS; i++)
    for (int k = 0; k < N_KEPT_WATERS; k++)
      kept->drops[i][k] = (KeptDrop){ INFINITY, -INFINITY, { 0, 0 } };
}

static void
keep (Kept *kept, size_t direction, KeptDrop drop)
{
  g_mutex_lock (&kept->lock);
  if (kept->drops == NULL)
    make_room (kept);
  KeptDrop *same = kept->drops[direction];
  memmove (same + 1, same, (N_KEPT_WATERS - 1) * sizeof *same);
  *same = drop;
  g_mutex_unlock (&kept->lock);
}

/*
 * Relief from a penalty area, asked for once for all balls that went in on nearly the same way at the same place: in the middle of the directions that are taken as one, and from the far
 * end of the area, so that it does not matter which of the balls was asked about first. Beside the tip of an area, where whole steps on the middle are dry, each is asked about by itself.
 */
static Value
value_of_drop (const Place *place, Vec2 at)
{
  Vec2 ball = place->input.ball, way = vec2_sub (at, ball);
  double distance_m = length_of (way), crossing_m, turn = floor (atan2 (way.y, way.x) / KEPT_DROP_RAD);
  size_t direction = (size_t)(((long)turn % N_KEPT_DROPS + N_KEPT_DROPS) % N_KEPT_DROPS);
  double middle_rad = (turn + 0.5) * KEPT_DROP_RAD;
  Value value;
  if (find_kept (place->kept, direction, distance_m, &value))
    return value;
  Vec2 along = vec2 (cos (middle_rad), sin (middle_rad));
  double from_m = FAR_STEP_M * floor (distance_m / FAR_STEP_M);
  if (!is_wet (place, along, from_m))
    from_m += FAR_STEP_M;
  if (!is_wet (place, along, from_m))
    return find_drop (place, at, &crossing_m);
  double far_m = far_end (place, along, from_m);
  value = find_drop (place, vec2_add (ball, vec2_scale (along, far_m)), &crossing_m);
  if (isfinite (crossing_m))
    keep (place->kept, direction, (KeptDrop){ fmin (crossing_m, distance_m), fmax (far_m, distance_m), value });
  return value;
}

Value
value_at_rest (const Place *place, Vec2 at, Lie lie)
{
  if (lie == LIE_OUT_OF_BOUNDS)
    return again;
  if (lie == LIE_PENALTY)
    return value_of_drop (place, at);
  Value found = { strokes_to_hole (place->input.table, lie, length_of (vec2_sub (at, place->target))), 0 };
  if (lie != LIE_TREES)
    return found;
  double lost = place->input.lost_chance;
  return (Value){ (1 - lost) * found.strokes + lost * again.strokes, lost * again.again };
}
