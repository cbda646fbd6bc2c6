// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-facts - what a card shows, asked of the engines once: the plan's shots and their carries, the line of play, the green as it is approached.
 */
#include "card-private.h"

#include <stdarg.h>
#include <string.h>

void
card_warn (Card *card, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_ptr_array_add (card->warnings, g_strdup_vprintf (format, arguments));
  va_end (arguments);
}

static const Part *
plan_part (const Card *card)
{
  int plan = hole_plan (card->hole);
  return plan >= 0 && hole_part (card->hole, (size_t)plan)->n_shots > 0 ? hole_part (card->hole, (size_t)plan) : NULL;
}

/* Another tee than the plan's was asked for. */
static bool
is_other_tee (const Card *card)
{
  return card->options.tee != NULL && card->tee != hole_tee (card->hole, NULL);
}

static void
fly_plan (Card *card, const Part *plan)
{
  g_autoptr (GError) error = NULL;
  card->shots = odds_plan (card->hole, (size_t)hole_plan (card->hole), card->bag, &error);
  if (card->shots == NULL)
    {
      card_warn (card, "the plan is left out: %s", error->message);
      return;
    }
  card->n_shots = plan->n_shots;
  card->is_planned = true;
}

/* Without a plan's shots: one full swing along the line of play on the plan's day, with the club its first leg asks for. */
static void
fly_line_of_play (Card *card)
{
  g_autoptr (GError) error = NULL;
  ShotInput input = { .swing = 1, .curve_m = NAN, .lies = bag_lies (card->bag) };
  ShotResult shot;
  Conditions conditions;
  int plan = hole_plan (card->hole);
  if (card->n_line < 2)
    return;
  if (!conditions_of_day (card->hole, plan >= 0 ? &hole_part (card->hole, (size_t)plan)->day : NULL, &conditions, &error))
    {
      card_warn (card, "the first shot along the line of play is left out: %s", error->message);
      return;
    }
  input.conditions = &conditions;
  input.ball = card->line[0];
  input.aim = card->line[1];
  input.club = odds_choose_club (card->hole, input.ball, input.aim, card->bag, &conditions, true, &input.swing);
  if (input.club == NULL)
    return; /* an empty bag has no shots to show */
  if (!odds_shot (card->hole, NULL, &input, &shot, &error))
    {
      card_warn (card, "the first shot along the line of play is left out: %s", error->message);
      return;
    }
  card->shots = g_new (ShotResult, 1);
  card->shots[0] = shot;
  card->n_shots = 1;
}

/* ---- carries ---- */

/* More rows of one shot than this are a list that nobody reads on a tee (common practice). */
#define MOST_CARRIES 7

/* Leaves in the table of a shot what the card shows of it. */
static void
keep_card_rows (Card *card, size_t shot)
{
  CarryTable *table = card->carries[shot];
  g_autofree bool *is_kept = g_new0 (bool, table->n_rows + 1);
  size_t n = 0;
  for (size_t i = 0; i < table->n_rows; i++)
    is_kept[i] = carry_row_is_telling (card->hole, &card->shots[shot], table, i);
  for (size_t i = 0; i < table->n_rows; i++)
    if (is_kept[i])
      table->rows[n++] = table->rows[i];
  if (n > MOST_CARRIES)
    card_warn (card, "shot %zu meets %zu pieces of trouble; the card lists the first %d", shot + 1, n, MOST_CARRIES);
  table->n_rows = MIN (n, MOST_CARRIES);
}

/* ---- all facts ---- */

static void
gather_shots (Card *card)
{
  const Part *plan = plan_part (card);
  if (card->bag == NULL)
    {
      card_warn (card, "there is no bag, so the card shows neither shots nor carries; open the bag that the clubs are in");
      return;
    }
  if (plan != NULL && is_other_tee (card))
    card_warn (card, "the plan is made from another tee than %s, so it is left out; plan the hole from this tee",
               card->options.tee);
  else if (plan != NULL)
    fly_plan (card, plan);
  if (card->shots == NULL)
    fly_line_of_play (card);
  card->carries = g_new0 (CarryTable *, card->n_shots + 1);
  for (size_t i = 0; i < card->n_shots; i++)
    {
      card->carries[i] = carry_table_new (card->hole, &card->shots[i]);
      keep_card_rows (card, i);
    }
  if (card->is_planned)
    card_gather_chances (card);
}

/* The ball from which the green is played: that of the plan's last shot if it is aimed at the green, else where it comes to rest. */
static bool
find_approach (const Card *card, Vec2 *ball)
{
  if (card->n_shots > 0)
    {
      const ShotResult *last = &card->shots[card->n_shots - 1];
      Kind kind = hole_kind_at (card->hole, last->aim);
      *ball = kind == KIND_GREEN || kind == KIND_FRINGE ? last->ball : last->rest;
      return true;
    }
  if (card->n_line >= 2)
    *ball = card->line[card->n_line - 2];
  return card->n_line >= 2;
}

void
card_facts_gather (Card *card)
{
  card->tee = hole_tee (card->hole, card->options.tee);
  card->n_line = hole_measured_line (card->hole, card->options.tee, &card->line);
  gather_shots (card);
  card->has_green
      = find_approach (card, &card->approach) && odds_green_numbers (card->hole, NULL, card->approach, &card->green);
  if (card->tee < 0)
    card_warn (card, "the hole has no tee marker, so nothing is measured from the tee; draw one");
  if (!card->has_green)
    card_warn (card, "the hole has no green to measure to; draw one");
}

void
card_facts_clear (Card *card)
{
  for (size_t i = 0; i < card->n_shots; i++)
    carry_table_free (card->carries[i]);
  g_free (card->carries);
  g_free (card->ends);
  g_free (card->shots);
  if (card->n_line > 0)
    g_free (card->line);
}

/* ---- the aim in words ---- */

/* An aim this near a thing is at it. */
#define AT_M 1.5
/* A named mark this little off the line, and not behind the ball, is what the golfer starts the ball at (common practice: half a pace in 20). */
#define TOWARDS_RAD 0.025
/* Trouble farther from the aim than this is not what it is told by. */
#define BESIDE_M 45.0

/* The named mark or tree that the line points at, best first; NULL if none. */
static const Part *
find_mark_on_line (const Card *card, const ShotResult *shot)
{
  const Part *best = NULL;
  double best_rad = TOWARDS_RAD;
  Vec2 along = vec2_unit (vec2_sub (shot->aim, shot->ball));
  for (size_t i = 0; i < hole_n_parts (card->hole); i++)
    {
      const Part *part = hole_part (card->hole, i);
      if ((part->kind != KIND_MARK && part->kind != KIND_TREE) || part->name == NULL)
        continue;
      Vec2 to = vec2_sub (part->at, shot->ball);
      double off_rad = fabs (atan2 (vec2_cross (along, to), vec2_dot (along, to)));
      if (off_rad < best_rad && vec2_dot (along, to) > shot->aim_m / 2)
        {
          best = part;
          best_rad = off_rad;
        }
    }
  return best;
}

/* Ways that an aim lies off a thing, as formats of the distance: of the hole, and of something else that is named too. */
typedef struct
{
  const char *of_hole, *of_thing;
} PlaceFormat;

static const PlaceFormat place_short = { N_ ("%s short of the hole"), N_ ("%s short of the %s") },
                         place_long = { N_ ("%s long of the hole"), N_ ("%s long of the %s") },
                         place_right = { N_ ("%s right of the hole"), N_ ("%s right of the %s") },
                         place_left = { N_ ("%s left of the hole"), N_ ("%s left of the %s") };

/* Where the aim is as seen from the ball, against a thing at `at`, NULL for the hole: "12 left of the sand". */
static char *
place_words (const Card *card, const ShotResult *shot, Vec2 at, const char *thing)
{
  char number[32];
  Vec2 along = vec2_unit (vec2_sub (shot->aim, shot->ball)), off = vec2_sub (at, shot->aim);
  double ahead = vec2_dot (along, off), left = vec2_cross (along, off);
  units_print_whole (vec2_length (off), card->options.units, number, sizeof number);
  const PlaceFormat *format
      = fabs (ahead) > fabs (left) ? (ahead > 0 ? &place_short : &place_long) : (left > 0 ? &place_right : &place_left);
  return thing == NULL ? g_strdup_printf (card_word (card, format->of_hole), number)
                       : g_strdup_printf (card_word (card, format->of_thing), number, thing);
}

/* What a part is called in a sentence: its name up to the first comma, "sand" for "sand, right". */
static const char *
short_label (const Part *part, char *buffer, size_t size)
{
  g_autofree char *label = g_strdup (part_label (part, buffer, size));
  label[strcspn (label, ",")] = '\0';
  g_strlcpy (buffer, label, size);
  return buffer;
}

/* The trouble whose edge is nearest the aim. */
static const Part *
find_trouble_beside (const Card *card, Vec2 aim, Vec2 *edge)
{
  const Part *best = NULL;
  double best_m = BESIDE_M;
  for (size_t i = 0; i < hole_n_parts (card->hole); i++)
    {
      const Part *part = hole_part (card->hole, i);
      const KindInfo *info = kind_info (part->kind);
      Vec2 nearest;
      if (info->shape != SHAPE_AREA || !info->is_trouble || part->outline == NULL || outline_contains (part->outline, aim))
        continue;
      double distance_m = outline_distance (part->outline, aim, &nearest);
      if (distance_m < best_m)
        {
          best = part;
          best_m = distance_m;
          *edge = nearest;
        }
    }
  return best;
}

static bool
is_green_aim (const Card *card, Vec2 aim)
{
  int green = hole_green (card->hole, NULL);
  return green >= 0 && outline_contains (hole_part (card->hole, (size_t)green)->outline, aim);
}

char *
card_aim_words (const Card *card, size_t index)
{
  const ShotResult *shot = &card->shots[index];
  char label[64];
  Vec2 target, middle, edge;
  bool has_target = hole_target (card->hole, NULL, &target);
  if (has_target && vec2_distance (target, shot->aim) < AT_M)
    return g_strdup (card_word (card, N_ ("at the hole")));
  if (hole_green_middle (card->hole, &middle) && vec2_distance (middle, shot->aim) < AT_M)
    return g_strdup (card_word (card, N_ ("middle of the green")));
  if (has_target && is_green_aim (card, shot->aim))
    return place_words (card, shot, target, NULL);
  const Part *mark = find_mark_on_line (card, shot);
  if (mark != NULL)
    return g_strdup_printf (card_word (card, N_ ("at the %s")), short_label (mark, label, sizeof label));
  const Part *trouble = find_trouble_beside (card, shot->aim, &edge);
  if (trouble == NULL)
    return g_strdup (card_word (card, kind_info (hole_kind_at (card->hole, shot->aim))->label));
  return place_words (card, shot, edge, short_label (trouble, label, sizeof label));
}
