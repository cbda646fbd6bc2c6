// SPDX-License-Identifier: GPL-3.0-or-later
/* day - the day a plan is made for, and the days kept with the hole. */
#include "edit-private.h"

/* A day that no shot could be flown on would make the plan unreadable. */
static bool
is_playable (const Hole *hole, const Day *day, GError **error)
{
  Conditions conditions;
  return conditions_of_day (hole, day, &conditions, error);
}

/* ---- kept days ---- */

/* Place of the day of this name; n_days when there is none. */
static size_t
find_day (const HoleInfo *info, const char *name)
{
  g_autofree char *wanted = g_utf8_casefold (name, -1);
  for (size_t i = 0; i < info->n_days; i++)
    {
      g_autofree char *had = g_utf8_casefold (info->days[i].name, -1);
      if (g_str_equal (wanted, had))
        return i;
    }
  return info->n_days;
}

/* The hole with other days: those of its own but `without`, and in its place, or at the end, `instead` unless that is NULL. */
static Hole *
with_days (const Hole *hole, size_t without, const NamedDay *instead)
{
  const HoleInfo *old = hole_info (hole);
  HoleInfo changed = *old; /* borrowed but for its days */
  changed.days = NULL;
  changed.n_days = 0;
  for (size_t i = 0; i <= old->n_days; i++)
    {
      const NamedDay *kept = i == without ? instead : i < old->n_days ? &old->days[i] : NULL;
      if (kept != NULL)
        hole_info_add_day (&changed, kept->name, &kept->day);
    }
  Hole *made = hole_info_equal (&changed, old) ? hole_ref ((Hole *)hole) : hole_with_info (hole, &changed);
  for (size_t i = 0; i < changed.n_days; i++)
    {
      g_free (changed.days[i].name);
      day_clear (&changed.days[i].day);
    }
  g_free (changed.days);
  return made;
}

Hole *
edit_keep_day (const Hole *hole, const char *name, const Day *day, GError **error)
{
  g_autofree char *clean = clean_text (name);
  if (clean == NULL)
    return refuse (error, EDIT_ERROR_EMPTY, "the day has no name; give it one, such as \"west wind\"");
  if (!is_playable (hole, day, error))
    return NULL;
  NamedDay kept = { clean, *day };
  return with_days (hole, find_day (hole_info (hole), clean), &kept);
}

Hole *
edit_forget_day (const Hole *hole, const char *name, GError **error)
{
  const HoleInfo *info = hole_info (hole);
  g_autofree char *clean = clean_text (name);
  size_t at = clean != NULL ? find_day (info, clean) : info->n_days;
  if (at == info->n_days)
    return refuse (error, EDIT_ERROR_EMPTY, "no day of that name is kept with the hole; choose one that is");
  return with_days (hole, at, NULL);
}
