// SPDX-License-Identifier: GPL-3.0-or-later
/* "5 wood, 12 yd right of the gate: 0.11 better than the 5 iron": the reasons of a shot, in words that can be translated. */
#include "plan-reasons.h"
#include "words-private.h"

#include <glib/gi18n.h>

#include <math.h>
#include <string.h>

/* A gain below this is none to speak of; trouble met less often than this is out of play (common practice). */
#define LEAST_GAIN 0.01
#define OUT_OF_PLAY 0.025
/* A cause is told when it makes at least this share of the difference, and other chances when they differ by so much (common practice). */
#define LEAST_SHARE 0.25
#define LEAST_DIFFERENCE 0.03
/* A fairway that is found less often is not told of (common practice). */
#define LEAST_FAIRWAY 0.01
/* Less trouble in all is none: it is told as 0 %. */
#define LEAST_RISK 0.005
/* A full swing is not told of. */
#define FULL_SWING 0.995

const char *
words_as_written (const char *text)
{
  return text;
}

const char *
plan_cause_words (PlanCause cause, Translate translate)
{
  static const char *const texts[N_PLAN_CAUSES]
      = { [PLAN_CAUSE_PENALTY] = N_ ("penalties"),  [PLAN_CAUSE_TROUBLE] = N_ ("trouble"),
          [PLAN_CAUSE_ROUGH] = N_ ("rough"),        [PLAN_CAUSE_DISTANCE] = N_ ("distance left"),
          [PLAN_CAUSE_GREEN] = N_ ("on the green"), [PLAN_CAUSE_NEXT_SHOT] = N_ ("the next shot") };
  g_assert ((unsigned)cause < N_PLAN_CAUSES);
  return translate != NULL ? translate (texts[cause]) : texts[cause];
}

/* ---- names ---- */

char *
words_percent (double chance, Translate translate)
{
  char number[UNITS_TEXT_SIZE];
  units_print_decimals (100 * chance, 0, number, sizeof number);
  return g_strdup_printf (translate (N_ ("%s %%")), number);
}

/* Trouble that has no name. */
static const char *
lie_words (Lie lie)
{
  switch (lie)
    {
    case LIE_SAND:
      return N_ ("sand");
    case LIE_WASTE:
      return N_ ("the waste");
    case LIE_TREES:
      return N_ ("the trees");
    case LIE_DEEP_ROUGH:
      return N_ ("the deep rough");
    case LIE_BUILDING:
      return N_ ("the building");
    case LIE_OUT_OF_BOUNDS:
      return N_ ("out of bounds");
    default:
      return N_ ("the water");
    }
}

/* Free with g_free. */
static char *
danger_words (const Hole *hole, const PlanDanger *danger, Translate translate)
{
  const Part *part = danger->part >= 0 ? hole_part (hole, (size_t)danger->part) : NULL;
  const char *name = part != NULL ? part->name : NULL;
  /* A boundary's name is often just that of its kind. */
  if (name == NULL || g_ascii_strcasecmp (name, kind_info (part->kind)->label) == 0)
    return g_strdup (translate (lie_words (danger->lie)));
  return part_words (part, translate);
}

/* ---- the shot ---- */

/* "5 wood", "half a lob wedge" in per cent. Free with g_free. */
char *
words_club (const Club *club, double swing, Translate translate)
{
  if (swing >= FULL_SWING)
    return g_strdup (club->name);
  g_autofree char *share = words_percent (swing, translate);
  return g_strdup_printf (translate (N_ ("%s with %s of a full swing")), club->name, share);
}

static char *
aim_words (const PlanSolution *solution, const PlanReason *reason, LengthUnit unit, Translate translate)
{
  char off[UNITS_TEXT_SIZE];
  const Hole *hole = plan_solution_hole (solution);
  if (reason->sights.finish.of != SIGHT_AIM)
    return sight_words (hole, &reason->sights.finish, unit, translate);
  units_print_length (fabs (reason->right_m), unit, off, sizeof off);
  if (fabs (reason->right_m) <= PLAN_STRAIGHT_M)
    return g_strdup (translate (N_ ("straight at the hole")));
  return g_strdup_printf (
      translate (reason->right_m < 0 ? N_ ("%s left of the line to the hole") : N_ ("%s right of the line to the hole")), off);
}

/* ---- what the others do worse ---- */

static char *
danger_clause (const PlanSolution *solution, const PlanRival *rival, Translate translate)
{
  const PlanDanger *danger = &rival->danger;
  g_autofree char *name = danger_words (plan_solution_hole (solution), danger, translate);
  g_autofree char *chance = words_percent (danger->chance, translate);
  g_autofree char *other = words_percent (danger->other_chance, translate);
  if (danger->chance < OUT_OF_PLAY)
    return g_strdup_printf (translate (N_ ("which brings %s into play (%s)")), name, other);
  return g_strdup_printf (translate (N_ ("which meets %s more often (%s, not %s)")), name, other, chance);
}

/* "which finds the green less often (41 %, not 60 %)"; NULL where the chances are much the same. */
static char *
less_clause (const char *text, double chance, double other, Translate translate)
{
  if (chance - other < LEAST_DIFFERENCE)
    return NULL;
  g_autofree char *mine = words_percent (chance, translate);
  g_autofree char *its = words_percent (other, translate);
  return g_strdup_printf (translate (text), its, mine);
}

static char *
more_left_clause (const PlanReason *reason, const PlanRival *rival, LengthUnit unit, Translate translate)
{
  char more[UNITS_TEXT_SIZE];
  if (rival->left_m - reason->left_m < PLAN_STRAIGHT_M)
    return NULL;
  units_print_length (rival->left_m - reason->left_m, unit, more, sizeof more);
  return g_strdup_printf (translate (N_ ("which leaves %s more")), more);
}

/* The largest cause that can be told of in numbers; NULL: there is none. Free with g_free. */
static char *
cause_clause (const PlanSolution *solution, const PlanShot *shot, const PlanReason *reason, const PlanRival *rival,
              LengthUnit unit, Translate translate)
{
  bool is_told[N_PLAN_CAUSES] = { false };
  for (int n = 0; n < N_PLAN_CAUSES; n++)
    {
      int worst = -1;
      for (int cause = 0; cause < N_PLAN_CAUSES; cause++)
        if (!is_told[cause] && rival->causes.strokes[cause] > LEAST_SHARE * rival->costs
            && (worst < 0 || rival->causes.strokes[cause] > rival->causes.strokes[worst]))
          worst = cause;
      if (worst < 0)
        return NULL;
      is_told[worst] = true;
      char *clause = NULL;
      if ((worst == PLAN_CAUSE_PENALTY || worst == PLAN_CAUSE_TROUBLE) && rival->danger.lie != LIE_NONE)
        clause = danger_clause (solution, rival, translate);
      else if (worst == PLAN_CAUSE_DISTANCE)
        clause = more_left_clause (reason, rival, unit, translate);
      else if (worst == PLAN_CAUSE_GREEN)
        clause = less_clause (N_ ("which finds the green less often (%s, not %s)"), shot->green, rival->green, translate);
      else if (worst == PLAN_CAUSE_ROUGH)
        clause = less_clause (N_ ("which finds the fairway less often (%s, not %s)"), shot->fairway, rival->fairway, translate);
      else if (worst == PLAN_CAUSE_NEXT_SHOT)
        clause = g_strdup (translate (N_ ("which leaves a harder next shot")));
      if (clause != NULL)
        return clause;
    }
  return NULL;
}

/* "0.11 better than the 5 iron, which ..."; `clause` NULL: without one. Free with g_free. */
static char *
rival_words (const PlanRival *rival, const char *against, const char *clause, Translate translate)
{
  g_autofree char *better = g_strdup_printf (translate (N_ ("%.2f better than %s")), rival->costs, against);
  if (clause == NULL)
    return g_steal_pointer (&better);
  return g_strdup_printf (translate (N_ ("%s, %s")), better, clause);
}

static char *
gains_words (const PlanSolution *solution, const PlanShot *shot, const PlanReason *reason, LengthUnit unit, Translate translate)
{
  const PlanRival *next = &reason->next, *straight = &reason->straight;
  g_autofree char *club = next->club != NULL ? g_strdup_printf (translate (N_ ("the %s")), next->club->name) : NULL;
  g_autofree char *over_next = NULL, *over_straight = NULL, *next_clause = NULL, *straight_clause = NULL;
  if (straight->club != NULL && straight->costs >= LEAST_GAIN)
    straight_clause = cause_clause (solution, shot, reason, straight, unit, translate);
  if (club != NULL && next->costs >= LEAST_GAIN)
    next_clause = cause_clause (solution, shot, reason, next, unit, translate);
  if (g_strcmp0 (next_clause, straight_clause) == 0) // said once, of both
    g_clear_pointer (&next_clause, g_free);
  if (club != NULL && next->costs >= LEAST_GAIN)
    over_next = rival_words (next, club, next_clause, translate);
  else if (club != NULL && next->costs > -LEAST_GAIN)
    over_next = g_strdup_printf (translate (N_ ("as good as %s")), club);
  else if (club != NULL)
    over_next = g_strdup_printf (translate (N_ ("%.2f worse than %s")), -next->costs, club);
  if (straight->club != NULL && straight->costs >= LEAST_GAIN)
    over_straight = rival_words (straight, translate (N_ ("straight at the hole")), straight_clause, translate);
  if (over_next != NULL && over_straight != NULL)
    return g_strdup_printf (translate (next_clause != NULL ? N_ ("%s, and %s") : N_ ("%s and %s")), over_next, over_straight);
  return over_next != NULL ? g_steal_pointer (&over_next) : g_steal_pointer (&over_straight);
}

/* ---- what it leaves ---- */

static char *
left_words (const PlanShot *shot, const PlanReason *reason, LengthUnit unit, Translate translate)
{
  char left[UNITS_TEXT_SIZE];
  bool is_at_green = shot->green > shot->fairway;
  units_print_length (isnan (shot->shot.left_m) ? reason->left_m : shot->shot.left_m, unit, left, sizeof left);
  g_autofree char *chance = words_percent (is_at_green ? shot->green : shot->fairway, translate);
  if (is_at_green)
    return g_strdup_printf (translate (N_ ("It finds the green %s of the time.")), chance);
  if (shot->fairway < LEAST_FAIRWAY)
    return g_strdup_printf (translate (N_ ("It leaves %s.")), left);
  return g_strdup_printf (translate (N_ ("It leaves %s, from the fairway %s of the time.")), left, chance);
}

static char *
risk_words (const PlanSolution *solution, const PlanShot *shot, const PlanReason *reason, Translate translate)
{
  if (reason->risk.lie == LIE_NONE)
    return g_strdup (translate (shot->trouble + shot->penalty < LEAST_RISK ? N_ ("No trouble is in play.")
                                                                           : N_ ("Hardly any trouble is in play.")));
  g_autofree char *name = danger_words (plan_solution_hole (solution), &reason->risk, translate);
  g_autofree char *chance = words_percent (reason->risk.chance, translate);
  return g_strdup_printf (translate (N_ ("What can still go wrong: %s (%s).")), name, chance);
}

char *
plan_reason_words (const PlanSolution *solution, const PlanShot *shot, const PlanReason *reason, LengthUnit unit,
                   Translate translate)
{
  if (translate == NULL)
    translate = words_as_written;
  g_autofree char *club = words_club (shot->shot.club, shot->shot.swing, translate);
  g_autofree char *aim = aim_words (solution, reason, unit, translate);
  g_autofree char *gains = gains_words (solution, shot, reason, unit, translate);
  g_autofree char *left = left_words (shot, reason, unit, translate);
  g_autofree char *risk = risk_words (solution, shot, reason, translate);
  g_autofree char *first = gains != NULL ? g_strdup_printf (translate (N_ ("%s, %s: %s.")), club, aim, gains)
                                         : g_strdup_printf (translate (N_ ("%s, %s.")), club, aim);
  return g_strdup_printf ("%s %s %s", first, left, risk);
}
