// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * document - the results of the hole shown, computed on two threads.
 *
 * Of the shot in hand the odds take the longest, and the shots after it are flown one after the other. So while something is dragged the shot in hand is flown first, and what follows
 * from it alone is begun beside before anything else is known of the new hole.
 */
#include "document-private.h"

#include "edit.h"
#include "sentence.h"
#include "trace.h"

#include <glib/gi18n.h>

/* ---- results ---- */

static void
clear_odds (HwFoundOdds *odds)
{
  g_clear_pointer (&odds->table, odds_table_free);
  g_clear_error (&odds->error);
}

void
hw_document_clear_results (HwDocument *self)
{
  g_clear_pointer (&self->shots, g_free);
  g_clear_pointer (&self->carries, carry_table_free);
  g_clear_pointer (&self->trees, tree_table_free);
  g_clear_pointer (&self->section, section_free);
  g_clear_pointer (&self->clubs, g_free);
  clear_odds (&self->odds);
  g_clear_pointer (&self->trouble, g_free);
  self->is_followed = false;
  self->scene = (PlanScene){ .hole = self->shown, .translate = hw_translated };
}

/* ---- what follows from the shot in hand ---- */

static void
find_odds (const Hole *hole, const ShotResult *shot, HwFoundOdds *odds)
{
  gint64 start_us = hw_trace_busy_us ();
  odds->shot = *shot;
  odds->table = odds_table_new (hole, shot, &odds->error);
  odds->took_us = hw_trace_busy_us () - start_us;
}

static void
find_pieces (HwFollowing *following, unsigned pieces)
{
  const ShotResult *shot = &following->shot;
  if (pieces & HW_FOLLOWS_ODDS)
    find_odds (following->hole, shot, &following->odds);
  if (pieces & HW_FOLLOWS_CARRIES)
    following->carries = carry_table_new (following->hole, shot);
  if (pieces & HW_FOLLOWS_CLUBS)
    odds_clubs_today (following->hole, shot->ball, shot->aim, following->bag, &shot->conditions, following->clubs);
}

static void
find_beside (gpointer following, gpointer unused)
{
  find_pieces (following, ((HwFollowing *)following)->beside);
}

static void
begin_following (HwDocument *self, Hole *hole, const ShotResult *shot, unsigned beside)
{
  self->following = (HwFollowing){ .hole = hole_ref (hole), .bag = bag_ref (self->bag), .shot = *shot, .beside = beside };
  self->following.clubs = g_new0 (ClubToday, bag_n_clubs (self->bag) + 1);
  hw_beside_begin (self->beside, &self->finding, find_beside, &self->following);
}

void
hw_document_drop_ahead (HwDocument *self)
{
  HwFollowing *following = &self->following;
  if (following->hole == NULL)
    return;
  hw_beside_finish (self->beside, &self->finding);
  g_clear_pointer (&following->hole, hole_unref);
  g_clear_pointer (&following->bag, bag_unref);
  g_clear_pointer (&following->clubs, g_free);
  g_clear_pointer (&following->carries, carry_table_free);
  clear_odds (&following->odds);
}

static bool
same_place (Vec2 a, Vec2 b)
{
  return a.x == b.x && a.y == b.y;
}

/* Was it begun of this shot, as it is now? All that is asked about a shot follows from these. */
static bool
is_following (HwDocument *self, const ShotResult *shot)
{
  const HwFollowing *following = &self->following;
  const ShotResult *begun = &following->shot;
  return following->hole != NULL && following->bag == self->bag && begun->club == shot->club && begun->swing == shot->swing
         && begun->curve_m == shot->curve_m && same_place (begun->ball, shot->ball) && same_place (begun->aim, shot->aim)
         && same_place (begun->landing, shot->landing) && same_place (begun->rest, shot->rest)
         && conditions_equal (&begun->conditions, &shot->conditions) && odds_same_ground (following->hole, self->shown);
}

/* Flies the shot in hand and has begun beside what follows from it, unless that was done before. */
static void
fly_shot_in_hand (HwDocument *self, Hole *hole, unsigned beside)
{
  const Part *plan = hole_part (hole, (size_t)hole_plan (hole));
  size_t i = MIN (hw_document_sheet (self)->shot, plan->n_shots - 1);
  ShotResult shot;
  if (!known_shots_fly (self->known, hole, plan, i, self->bag, &shot, NULL))
    return;
  if (self->following.clubs != NULL && is_following (self, &shot))
    return;
  hw_document_drop_ahead (self);
  begin_following (self, hole, &shot, self->wants_odds ? HW_FOLLOWS_ODDS : beside);
}

void
hw_document_fly_ahead (HwDocument *self, Hole *hole)
{
  if (self->bag != NULL && bag_n_clubs (self->bag) > 0 && hole_plan (hole) >= 0)
    fly_shot_in_hand (self, hole, HW_FOLLOWS_CARRIES);
}

/* What follows from the shot in hand, on two threads. Odds may still be being found: they are waited for when somebody asks. */
static void
follow_shot (HwDocument *self)
{
  HwFollowing *following = &self->following;
  find_pieces (following, (HW_FOLLOWS_CARRIES | HW_FOLLOWS_CLUBS) & ~following->beside);
  if (following->beside != HW_FOLLOWS_ODDS)
    hw_beside_finish (self->beside, &self->finding);
  self->clubs = g_steal_pointer (&following->clubs);
  self->carries = g_steal_pointer (&following->carries);
  if (following->beside != HW_FOLLOWS_ODDS)
    hw_document_drop_ahead (self);
}

/* The odds that were begun with the results. */
static void
take_odds (HwDocument *self)
{
  HwFollowing *following = &self->following;
  hw_beside_finish (self->beside, &self->finding);
  self->odds = following->odds;
  following->odds = (HwFoundOdds){ 0 };
  hw_document_drop_ahead (self);
}

/* All of the plan's shots, and what follows from the one in hand. */
static void
compute_shots (HwDocument *self, const Part *plan)
{
  HwSheet *sheet = hw_document_sheet (self);
  g_autoptr (GError) error = NULL;
  fly_shot_in_hand (self, self->shown, HW_FOLLOWS_CLUBS);
  self->shots = known_shots_plan (self->known, self->shown, (size_t)hole_plan (self->shown), self->bag, &error);
  if (self->shots == NULL)
    {
      self->trouble = g_strdup (error->message);
      hw_document_drop_ahead (self);
      return;
    }
  sheet->shot = MIN (sheet->shot, plan->n_shots - 1);
  follow_shot (self);
  self->scene.shots = self->shots;
  self->scene.n_shots = plan->n_shots;
  self->scene.current = sheet->shot;
  self->scene.carries = self->carries;
  self->scene.clubs = self->clubs;
}

void
hw_document_compute (HwDocument *self)
{
  hw_document_clear_results (self);
  const Part *plan = hw_document_get_plan (self);
  if (hw_document_sheet (self) == NULL)
    return;
  if (plan == NULL || plan->n_shots == 0)
    self->trouble = g_strdup (_ ("A plan needs a tee marker and a green or a hole location on the drawing."));
  else if (self->bag == NULL)
    self->trouble = g_strdup (_ ("No bag of clubs is open; choose one with Bag…, or make one there."));
  else if (bag_n_clubs (self->bag) == 0)
    self->trouble = g_strdup (_ ("There is no club in the bag; add one with Bag…."));
  else
    {
      compute_shots (self, plan);
      return;
    }
  hw_document_drop_ahead (self);
}

const HwFoundOdds *
hw_document_get_odds (HwDocument *self)
{
  if (self->scene.n_shots == 0)
    return NULL;
  if (self->following.hole != NULL)
    take_odds (self);
  if (self->odds.table == NULL && self->odds.error == NULL)
    find_odds (self->shown, &self->shots[self->scene.current], &self->odds);
  return &self->odds;
}
