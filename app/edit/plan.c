// SPDX-License-Identifier: GPL-3.0-or-later
/* plan - the edits a golfer makes to a plan: its shots, their aims, balls and clubs. */
#include "edit-private.h"

/* A ball this near an aim, a landing point or a rest point was put there to follow it; nearer than this there is nothing left to play. Common practice. */
#define SAME_PLACE_M 1.0
/* Swings are rounded to one of so many parts of a full one: a tenth of a metre on 100. */
#define SWING_STEPS 1000.0

/* Adds a shot from `ball` to the hole to a plan not yet sealed; false with `error` when there is no hole, or nothing left to play. */
static bool
add_shot_to_hole (const Hole *hole, Part *plan, Vec2 ball, GError **error)
{
  Vec2 target;
  if (!hole_target (hole, plan->hole_name, &target))
    return refuse (error, EDIT_ERROR_EMPTY, "there is nothing to aim at; draw a green or a hole location first");
  if (vec2_distance (ball, target) < SAME_PLACE_M)
    return refuse (error, EDIT_ERROR_EMPTY, "the last shot ends at the hole; nothing is left to play");
  Shot shot = { .from = grid_point (ball), .aim = grid_point (target), .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  part_add_shot (plan, &shot);
  return true;
}

/* The tee that a plan is played from; false with `error` when there is none. */
static bool
plan_tee (const Hole *hole, const char *name, Vec2 *ball, GError **error)
{
  int tee = hole_tee (hole, name);
  if (tee < 0)
    return refuse (error, EDIT_ERROR_EMPTY, "there is no tee to play from; place a tee marker first");
  *ball = part_position (hole_part (hole, (size_t)tee));
  return true;
}

Hole *
edit_start_plan (const Hole *hole, GError **error)
{
  Vec2 ball;
  if (!plan_tee (hole, NULL, &ball, error))
    return NULL;
  Part *plan = part_new (KIND_PLAN);
  if (add_shot_to_hole (hole, plan, ball, error))
    return hole_inserting_part (hole, hole_n_parts (hole), part_seal (plan));
  part_unref (plan);
  return NULL;
}

/* Flies shot `i`; false when it cannot be flown, or without a bag. */
static bool
fly (KnownShots *known, const Hole *hole, const Part *plan, size_t i, const Bag *bag, ShotResult *result)
{
  return bag != NULL && known_shots_fly (known, hole, plan, i, bag, result, NULL);
}

/* Does the ball lie where the shot before it came to rest, or where it landed? */
static bool
lies_after (Vec2 ball, const ShotResult *before)
{
  return vec2_distance (ball, before->rest) < SAME_PLACE_M || vec2_distance (ball, before->landing) < SAME_PLACE_M;
}

/* Moves the balls after shot `first` that lay where the shot before them went, as long as one follows the other, to where it goes now. */
static void
follow_from (KnownShots *known, const Hole *hole, const Part *old, Part *changed, size_t first, const Bag *bag)
{
  for (size_t i = first; i + 1 < old->n_shots; i++)
    {
      ShotResult before, after;
      if (!fly (known, hole, old, i, bag, &before) || !lies_after (old->shots[i + 1].from, &before)
          || !fly (known, hole, changed, i, bag, &after))
        return;
      changed->shots[i + 1].from = grid_point (after.rest);
    }
}

Hole *
edit_move_aim (const Hole *hole, size_t plan, size_t shot, Vec2 aim, const Bag *bag)
{
  return edit_drag_aim (hole, plan, shot, aim, bag, NULL);
}

Hole *
edit_drag_aim (const Hole *hole, size_t plan, size_t shot, Vec2 aim, const Bag *bag, KnownShots *known)
{
  const Part *old = hole_part (hole, plan);
  Part *changed = part_copy (old);
  changed->shots[shot].aim = grid_point (aim);
  ShotResult before;
  bool has_next = shot + 1 < old->n_shots,
       follows = has_next && fly (known, hole, old, shot, bag, &before) && lies_after (old->shots[shot + 1].from, &before);
  if (has_next && !follows && vec2_distance (old->shots[shot + 1].from, old->shots[shot].aim) < SAME_PLACE_M)
    {
      changed->shots[shot + 1].from = grid_point (aim);
      shot++;
    }
  follow_from (known, hole, old, changed, shot, bag);
  return replace_part (hole, plan, part_seal (changed));
}

Hole *
edit_move_ball (const Hole *hole, size_t plan, size_t shot, Vec2 ball)
{
  Part *changed = part_copy (hole_part (hole, plan));
  changed->shots[shot].from = grid_point (ball);
  return replace_part (hole, plan, part_seal (changed));
}

/* Puts the changed plan in the place of the old one, with the balls after `shot` where they come to lie. Takes `changed`, which is not sealed. */
static Hole *
with_plan (KnownShots *known, const Hole *hole, size_t plan, Part *changed, size_t shot, const Bag *bag)
{
  follow_from (known, hole, hole_part (hole, plan), changed, shot, bag);
  return replace_part (hole, plan, part_seal (changed));
}

Hole *
edit_choose_club (const Hole *hole, size_t plan, size_t shot, const char *club, const Bag *bag)
{
  Part *changed = part_copy (hole_part (hole, plan));
  g_free (changed->shots[shot].club);
  changed->shots[shot].club = g_strdup (club);
  changed->shots[shot].swing = 1;
  return with_plan (NULL, hole, plan, changed, shot, bag);
}

Hole *
edit_set_shape (const Hole *hole, size_t plan, size_t shot, ShotShape shape, double curve_m, const Bag *bag, GError **error)
{
  if (isinf (curve_m) || fabs (curve_m) > EDIT_MOST_CURVE_M)
    return refuse (error, EDIT_ERROR_NUMBER, "no ball curves that far; give at most 200 m (219 yd)");
  const Part *old = hole_part (hole, plan);
  Part *changed = part_copy (old);
  changed->shots[shot].shape = shape;
  changed->shots[shot].curve_m = grid_length (curve_m);
  ShotResult result;
  if (fly (NULL, hole, old, shot, bag, &result) && !odds_plan_shot (hole, changed, shot, bag, &result, error))
    {
      part_unref (changed);
      return NULL;
    }
  return with_plan (NULL, hole, plan, changed, shot, bag);
}

Hole *
edit_set_swing (const Hole *hole, size_t plan, size_t shot, double swing, const Bag *bag, GError **error)
{
  if (!(swing >= EDIT_LEAST_SWING && swing <= 1))
    return refuse (error, EDIT_ERROR_NUMBER, "a swing is a share of a full one; give 1 to 100 %");
  Part *changed = part_copy (hole_part (hole, plan));
  changed->shots[shot].swing = round (swing * SWING_STEPS) / SWING_STEPS;
  return with_plan (NULL, hole, plan, changed, shot, bag);
}

Hole *
edit_fit_swing (const Hole *hole, size_t plan, size_t shot, const Bag *bag, GError **error)
{
  ShotResult result;
  if (bag == NULL)
    return refuse (error, EDIT_ERROR_EMPTY, "there is no bag to fly the shot with; choose a bag first");
  if (!odds_plan_shot (hole, hole_part (hole, plan), shot, bag, &result, error))
    return NULL;
  double swing = odds_fit_swing (result.club, result.plays_m);
  return edit_set_swing (hole, plan, shot, fmax (swing, EDIT_LEAST_SWING), bag, error);
}

Hole *
edit_set_day (const Hole *hole, size_t plan, const Day *day, const Bag *bag, GError **error)
{
  return edit_drag_day (hole, plan, day, bag, NULL, error);
}

Hole *
edit_drag_day (const Hole *hole, size_t plan, const Day *day, const Bag *bag, KnownShots *known, GError **error)
{
  /* A day that no shot could be flown on would make the plan unreadable. */
  Conditions conditions;
  if (!conditions_of_day (hole, day, &conditions, error))
    return NULL;
  Part *changed = part_copy (hole_part (hole, plan));
  day_clear (&changed->day);
  day_copy (day, &changed->day);
  return with_plan (known, hole, plan, changed, 0, bag);
}

/* Where the next shot of a plan is played from: where the last one comes to rest, the tee for the first. */
static bool
next_ball (const Hole *hole, const Part *plan, const Bag *bag, Vec2 *ball, GError **error)
{
  if (plan->n_shots == 0)
    return plan_tee (hole, plan->tee, ball, error);
  if (bag == NULL)
    return refuse (error, EDIT_ERROR_EMPTY, "there is no bag to fly the last shot with; choose a bag first");
  ShotResult result;
  if (!odds_plan_shot (hole, plan, plan->n_shots - 1, bag, &result, error))
    return false;
  *ball = result.rest;
  return true;
}

Hole *
edit_add_shot (const Hole *hole, size_t plan, const Bag *bag, GError **error)
{
  const Part *old = hole_part (hole, plan);
  Vec2 ball;
  if (!next_ball (hole, old, bag, &ball, error))
    return NULL;
  Part *changed = part_copy (old);
  if (add_shot_to_hole (hole, changed, ball, error))
    return replace_part (hole, plan, part_seal (changed));
  part_unref (changed);
  return NULL;
}

Hole *
edit_remove_shot (const Hole *hole, size_t plan, size_t shot, GError **error)
{
  const Part *old = hole_part (hole, plan);
  if (old->n_shots < 2)
    return refuse (error, EDIT_ERROR_EMPTY, "a plan has at least one shot; delete the plan instead");
  Part *changed = part_copy (old);
  Vec2 ball = changed->shots[shot].from;
  g_free (changed->shots[shot].club);
  for (size_t i = shot; i + 1 < changed->n_shots; i++)
    changed->shots[i] = changed->shots[i + 1];
  changed->n_shots--;
  if (shot < changed->n_shots)
    changed->shots[shot].from = ball;
  return replace_part (hole, plan, part_seal (changed));
}

Hole *
edit_take_shots (const Hole *hole, size_t plan, const ShotResult *shots, size_t n_shots, GError **error)
{
  if (n_shots == 0)
    return refuse (error, EDIT_ERROR_EMPTY, "a plan has at least one shot; there is none to take");
  Part *changed = part_copy (hole_part (hole, plan));
  for (size_t i = 0; i < changed->n_shots; i++)
    g_free (changed->shots[i].club);
  changed->n_shots = 0;
  for (size_t i = 0; i < n_shots; i++)
    {
      Shot shot = { .from = grid_point (shots[i].ball),
                    .aim = grid_point (shots[i].aim),
                    .club = shots[i].club->name,
                    .shape = SHOT_STRAIGHT,
                    .curve_m = NAN,
                    .swing = round (shots[i].swing * SWING_STEPS) / SWING_STEPS };
      part_add_shot (changed, &shot);
    }
  return replace_part (hole, plan, part_seal (changed));
}
