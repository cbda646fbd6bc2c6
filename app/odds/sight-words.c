// SPDX-License-Identifier: GPL-3.0-or-later
/* "Start it at ..., finish at ...": a line told by its landmarks, in words that can be translated. */
#include "odds-private.h"

#include <glib/gi18n.h>

#include <math.h>

/* Less than this of a unit off is told as nothing. */
#define LEAST_OFF 0.5

static const char *
as_written (const char *text)
{
  return text;
}

/* "the right edge of the bunker". Free with g_free. */
static char *
landmark_words (const Hole *hole, const Sight *sight, Translate translate)
{
  if (sight->of == SIGHT_AIM)
    return g_strdup (translate (N_ ("the aim")));
  const Part *part = hole_part (hole, sight->part);
  if (part->kind == KIND_HOLE_LOCATION)
    return g_strdup (translate (N_ ("the flag")));
  g_autofree char *whole = part_words (part, translate);
  switch (sight->of)
    {
    case SIGHT_LEFT_EDGE:
      return g_strdup_printf (translate (N_ ("the left edge of %s")), whole);
    case SIGHT_MIDDLE:
      return g_strdup_printf (translate (N_ ("the middle of %s")), whole);
    case SIGHT_RIGHT_EDGE:
      return g_strdup_printf (translate (N_ ("the right edge of %s")), whole);
    case SIGHT_WHOLE:
    case SIGHT_AIM:
      break;
    }
  return g_steal_pointer (&whole);
}

char *
sight_words (const Hole *hole, const Sight *sight, LengthUnit unit, Translate translate)
{
  char off[UNITS_TEXT_SIZE], away[UNITS_TEXT_SIZE];
  if (translate == NULL)
    translate = as_written;
  g_autofree char *landmark = landmark_words (hole, sight, translate);
  units_print_length (sight->distance_m, unit, away, sizeof away);
  units_print_length (fabs (sight->right_m), unit, off, sizeof off);
  /* Near by, half a degree is less than can be told. */
  bool is_at = fabs (sight->right_m) <= fmax (tan (SIGHT_AT_RAD) * sight->distance_m, LEAST_OFF * unit_to_metres (unit, 1));
  if (sight->of != SIGHT_AIM && hole_part (hole, sight->part)->kind == KIND_TREE
      && hole_part (hole, sight->part)->name == NULL) // known by its distance alone
    {
      if (is_at)
        return g_strdup_printf (translate (N_ ("at the tree %s out")), away);
      return g_strdup_printf (
          translate (sight->right_m < 0 ? N_ ("%s left of the tree %s out") : N_ ("%s right of the tree %s out")), off, away);
    }
  if (is_at)
    return g_strdup_printf (translate (N_ ("at %s (%s)")), landmark, away);
  return g_strdup_printf (translate (sight->right_m < 0 ? N_ ("%s left of %s (%s)") : N_ ("%s right of %s (%s)")), off,
                          landmark, away);
}

char *
sights_words (const Hole *hole, const Sights *sights, LengthUnit unit, Translate translate)
{
  if (translate == NULL)
    translate = as_written;
  g_autofree char *start = sight_words (hole, &sights->start, unit, translate);
  if (sights->is_straight)
    return g_strdup_printf (translate (N_ ("Start it %s")), start);
  g_autofree char *finish = sight_words (hole, &sights->finish, unit, translate);
  return g_strdup_printf (translate (N_ ("Start it %s, finish %s")), start, finish);
}
