// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-edit - the edits a golfer makes to a plan, each a new Hole, and where a point lies as golfers say it. */
#include "odds-private.h"

/* A ball this near an aim or a landing point was put there to follow it; nearer than this there is nothing left to play. Common practice. */
#define SAME_PLACE_M 1.0

/* Seals the changed plan and puts it in the place of the old one. */
static Hole *
replace_plan (const Hole *hole, size_t plan, Part *changed)
{
  return hole_with_part (hole, plan, part_seal (changed));
}

/* Adds a shot from `ball` to the hole to a plan not yet sealed; false when there is no hole, or nothing left to play. */
static bool
add_shot_to_hole (const Hole *hole, Part *plan, Vec2 ball)
{
  Vec2 target;
  if (!hole_target (hole, plan->hole_name, &target) || vec2_distance (ball, target) < SAME_PLACE_M)
    return false;
  Shot shot = { .from = ball, .aim = target, .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  part_add_shot (plan, &shot);
  return true;
}

Hole *
plan_start (const Hole *hole)
{
  int tee = hole_tee (hole, NULL);
  if (tee < 0)
    return NULL;
  Part *plan = part_new (KIND_PLAN);
  if (add_shot_to_hole (hole, plan, part_position (hole_part (hole, (size_t)tee))))
    return hole_inserting_part (hole, hole_n_parts (hole), part_seal (plan));
  part_unref (plan);
  return NULL;
}

/* Where shot `i` lands; false when it cannot be flown, or without a bag. */
static bool
shot_landing (const Hole *hole, const Part *plan, size_t i, const Bag *bag, Vec2 *landing)
{
  ShotResult result;
  if (bag == NULL || !plan_fly_shot (hole, plan, i, bag, &result, NULL))
    return false;
  *landing = result.landing;
  return true;
}

Hole *
plan_move_aim (const Hole *hole, size_t plan, size_t shot, Vec2 aim, const Bag *bag)
{
  const Part *old = hole_part (hole, plan);
  Part *changed = part_copy (old);
  changed->shots[shot].aim = aim;
  for (size_t i = shot; i + 1 < old->n_shots; i++)
    {
      Vec2 next = old->shots[i + 1].from, before, after;
      bool followed = shot_landing (hole, old, i, bag, &before) && vec2_distance (next, before) < SAME_PLACE_M;
      if (followed && shot_landing (hole, changed, i, bag, &after))
        changed->shots[i + 1].from = after;
      else if (!followed && i == shot && vec2_distance (next, old->shots[i].aim) < SAME_PLACE_M)
        changed->shots[i + 1].from = aim;
      else
        break;
    }
  return replace_plan (hole, plan, changed);
}

Hole *
plan_move_ball (const Hole *hole, size_t plan, size_t shot, Vec2 ball)
{
  Part *changed = part_copy (hole_part (hole, plan));
  changed->shots[shot].from = ball;
  return replace_plan (hole, plan, changed);
}

Hole *
plan_choose_club (const Hole *hole, size_t plan, size_t shot, const char *club)
{
  Part *changed = part_copy (hole_part (hole, plan));
  g_free (changed->shots[shot].club);
  changed->shots[shot].club = g_strdup (club);
  changed->shots[shot].swing = 1;
  return replace_plan (hole, plan, changed);
}

/* Where the next shot of a plan is played from: where the last one lands, the tee for the first. */
static bool
next_ball (const Hole *hole, const Part *plan, const Bag *bag, Vec2 *ball)
{
  if (plan->n_shots > 0)
    return shot_landing (hole, plan, plan->n_shots - 1, bag, ball);
  int tee = hole_tee (hole, plan->tee);
  if (tee >= 0)
    *ball = part_position (hole_part (hole, (size_t)tee));
  return tee >= 0;
}

Hole *
plan_add_shot (const Hole *hole, size_t plan, const Bag *bag)
{
  const Part *old = hole_part (hole, plan);
  Vec2 ball;
  if (!next_ball (hole, old, bag, &ball))
    return NULL;
  Part *changed = part_copy (old);
  if (add_shot_to_hole (hole, changed, ball))
    return replace_plan (hole, plan, changed);
  part_unref (changed);
  return NULL;
}

Hole *
plan_remove_shot (const Hole *hole, size_t plan, size_t shot)
{
  const Part *old = hole_part (hole, plan);
  if (old->n_shots < 2)
    return NULL;
  Part *changed = part_copy (old);
  Vec2 ball = changed->shots[shot].from;
  g_free (changed->shots[shot].club);
  for (size_t i = shot; i + 1 < changed->n_shots; i++)
    changed->shots[i] = changed->shots[i + 1];
  changed->n_shots--;
  if (shot < changed->n_shots)
    changed->shots[shot].from = ball;
  return replace_plan (hole, plan, changed);
}

Whereabouts
odds_whereabouts (const Hole *hole, const char *hole_name, const ShotResult *shot, Vec2 at)
{
  Whereabouts where = { NAN, NAN, NAN };
  Vec2 target;
  if (hole_target (hole, hole_name, &target))
    where.to_hole_m = vec2_distance (at, target);
  if (shot == NULL)
    return where;
  Vec2 along = vec2_unit (vec2_sub (shot->landing, shot->ball));
  where.from_ball_m = vec2_distance (at, shot->ball);
  where.right_m = -vec2_cross (along, vec2_sub (at, shot->ball));
  return where;
}
