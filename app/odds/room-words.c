// SPDX-License-Identifier: GPL-3.0-or-later
/* Room for error in words that can be translated. */
#include "odds-room.h"

#include <glib/gi18n.h>

#include <math.h>

/* Room that was not looked for further than this goes on. */
#define OPEN_SHARE 0.99
/* A shot that curves less is told of as straight (common practice). */
#define STRAIGHT_M 1.0

static const char *
as_written (const char *text)
{
  return text;
}

/* "14", "44+" where it is not known to end. */
static char *
length_words (double room_m, double most_m, LengthUnit unit)
{
  char number[UNITS_TEXT_SIZE];
  units_print_whole (room_m, unit, number, sizeof number);
  return g_strdup_printf (room_m >= OPEN_SHARE * most_m ? "%s+" : "%s", number);
}

/* "the pond"; "trouble" for ground that no area covers. */
static char *
thing_words (const Hole *hole, int part, Translate translate)
{
  return part < 0 ? g_strdup (translate (N_ ("trouble"))) : part_words (hole_part (hole, (size_t)part), translate);
}

char *
room_words (const Room *room, LengthUnit unit, Translate translate)
{
  if (translate == NULL)
    translate = as_written;
  if (isnan (room->left_m))
    return g_strdup_printf (translate (N_ ("none: %.0f %% end in trouble as it is")),
                            100 * fmin (room->trouble, MOST_CHANCE_SHOWN));
  g_autofree char *left = length_words (room->left_m, ROOM_MOST_M, unit),
                  *right = length_words (room->right_m, ROOM_MOST_M, unit),
                  *short_of = length_words (room->short_m, ROOM_MOST_M, unit),
                  *beyond = length_words (room->long_m, ROOM_MOST_M, unit);
  return g_strdup_printf (translate (N_ ("%s left, %s right, %s short, %s long")), left, right, short_of, beyond);
}

char *
room_line_words (const Hole *hole, const Room *room, Translate translate)
{
  if (translate == NULL)
    translate = as_written;
  if (room->start_is_clear && room->finish_is_clear)
    return g_strdup (translate (N_ ("Start and finish line stay out of trouble")));
  g_autofree char *start = thing_words (hole, room->start_part, translate),
                  *finish = thing_words (hole, room->finish_part, translate);
  if (room->start_is_clear)
    return g_strdup_printf (translate (N_ ("Start line stays out of trouble, finish line ends in %s")), finish);
  if (room->finish_is_clear)
    return g_strdup_printf (translate (N_ ("Start line ends in %s, finish line stays out of trouble")), start);
  if (room->start_part == room->finish_part)
    return g_strdup_printf (translate (N_ ("Start and finish line end in %s")), start);
  return g_strdup_printf (translate (N_ ("Start line ends in %s, finish line in %s")), start, finish);
}

/* "12 (the pond)"; nothing in brackets where nothing ends it. */
static char *
side_words (const Hole *hole, double room_m, int part, LengthUnit unit, Translate translate)
{
  g_autofree char *length = length_words (room_m, SHAPE_ROOM_MOST_M, unit);
  if (room_m >= OPEN_SHARE * SHAPE_ROOM_MOST_M)
    return g_steal_pointer (&length);
  g_autofree char *thing = thing_words (hole, part, translate);
  return g_strdup_printf ("%s (%s)", length, thing);
}

char *
shape_room_words (const Hole *hole, const ShotResult *shot, const ShapeRoom *room, LengthUnit unit, Translate translate)
{
  if (translate == NULL)
    translate = as_written;
  if (!room->is_clear)
    {
      g_autofree char *thing = thing_words (hole, room->left_part, translate);
      return g_strdup_printf (translate (N_ ("as planned it meets %s")), thing);
    }
  g_autofree char *left = side_words (hole, room->left_m, room->left_part, unit, translate),
                  *right = side_words (hole, room->right_m, room->right_part, unit, translate);
  if (fabs (shot->curve_m) < STRAIGHT_M)
    return g_strdup_printf (translate (N_ ("out of trouble if it curves %s left or %s right")), left, right);
  bool is_fade = shot->curve_m > 0;
  return g_strdup_printf (translate (N_ ("out of trouble if it curves %s less or %s more")), is_fade ? left : right,
                          is_fade ? right : left);
}
