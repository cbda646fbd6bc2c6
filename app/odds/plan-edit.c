// SPDX-License-Identifier: GPL-3.0-or-later
/* plan-edit - the edits a golfer makes to a plan, each a new Hole, and where a point lies as golfers say it. */
#include "odds.h"

/* A ball this near an aim or a landing point was put there to follow it; nearer than this there is nothing left to play. Common practice. */
#define SAME_PLACE_M 1.0

/* Seals the changed plan and puts it in the place of the old one. */
static Hole *
replace_plan (const Hole *hole, size_t plan, Part *changed)
{
  return hole_with_part (hole, plan, part_seal (changed));
}

Hole *
plan_start (const Hole *hole)
{
  Vec2 target;
  int tee = hole_tee (hole, NULL);
  if (tee < 0 || !hole_target (hole, NULL, &target))
    return NULL;
  Vec2 ball = part_position (hole_part (hole, (size_t)tee));
  if (vec2_distance (ball, target) < SAME_PLACE_M)
    return NULL;
  Part *plan = part_new (KIND_PLAN);
  Shot shot = { .from = ball, .aim = target, .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  part_add_shot (plan, &shot);
  return hole_inserting_part (hole, hole_n_parts (hole), part_seal (plan));
}

/* Where shot `i` of the plan lands. */
static bool
shot_landing (const Hole *hole, size_t plan, size_t i, const Bag *bag, ShotResult *result)
{
  if (bag == NULL)
    return false;
  g_autofree ShotResult *shots = odds_plan (hole, plan, bag, NULL);
  if (shots == NULL)
    return false;
  *result = shots[i];
  return true;
}

Hole *
plan_move_aim (const Hole *hole, size_t plan, size_t shot, Vec2 aim, const Bag *bag)
{
  const Part *old = hole_part (hole, plan);
  Part *changed = part_copy (old);
  changed->shots[shot].aim = aim;
  if (shot + 1 == old->n_shots)
    return replace_plan (hole, plan, changed);

  Vec2 next = old->shots[shot + 1].from;
  ShotResult before, after;
  if (shot_landing (hole, plan, shot, bag, &before) && vec2_distance (next, before.landing) < SAME_PLACE_M)
    {
      g_autoptr (Hole) moved = replace_plan (hole, plan, changed);
      if (shot_landing (moved, plan, shot, bag, &after))
        return plan_move_ball (moved, plan, shot + 1, after.landing);
      return hole_ref (moved);
    }
  if (vec2_distance (next, old->shots[shot].aim) < SAME_PLACE_M)
    changed->shots[shot + 1].from = aim;
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

Hole *
plan_add_shot (const Hole *hole, size_t plan, const Bag *bag)
{
  const Part *old = hole_part (hole, plan);
  Vec2 target;
  ShotResult last;
  if (!hole_target (hole, old->hole_name, &target) || !shot_landing (hole, plan, old->n_shots - 1, bag, &last))
    return NULL;
  if (vec2_distance (last.landing, target) < SAME_PLACE_M)
    return NULL;
  Part *changed = part_copy (old);
  Shot shot = { .from = last.landing, .aim = target, .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  part_add_shot (changed, &shot);
  return replace_plan (hole, plan, changed);
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
