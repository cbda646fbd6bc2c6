// SPDX-License-Identifier: GPL-3.0-or-later
/* The measured heights of a hole, shared by all its edits that move none of them, and the terrain made of them when it is first asked for. */
#include "hole-private.h"

#include <string.h>

struct _HoleRelief
{
  gatomicrefcount refs;
  SpotHeight *heights;
  size_t n_heights;
  gsize terrain_made; /* for g_once_init_enter */
  Terrain *terrain;
};

/* The spot heights, and the tee in use at 0 where they are told from it. None without spot heights. New array in `*heights`. */
static size_t
collect_heights (const Hole *hole, SpotHeight **heights)
{
  size_t n = 0;
  *heights = NULL;
  for (size_t i = 0; i < hole->n_parts; i++)
    if (hole->parts[i]->kind == KIND_SPOT_HEIGHT && isfinite (hole->parts[i]->height_m))
      {
        if (*heights == NULL)
          *heights = g_new0 (SpotHeight, hole->n_parts + 1);
        (*heights)[n++] = (SpotHeight){ hole->parts[i]->at, hole->parts[i]->height_m };
      }
  int tee = n > 0 && hole->info.datum == NULL ? hole_tee (hole, NULL) : -1;
  if (tee >= 0)
    (*heights)[n++] = (SpotHeight){ hole->parts[tee]->at, 0 };
  return n;
}

HoleRelief *
relief_for (const Hole *hole, HoleRelief *earlier)
{
  g_autofree SpotHeight *heights = NULL;
  size_t n_heights = collect_heights (hole, &heights);
  if (n_heights == 0)
    return NULL;
  if (earlier != NULL && earlier->n_heights == n_heights
      && memcmp (earlier->heights, heights, n_heights * sizeof *heights) == 0)
    {
      g_atomic_ref_count_inc (&earlier->refs);
      return earlier;
    }
  HoleRelief *relief = g_new0 (HoleRelief, 1);
  g_atomic_ref_count_init (&relief->refs);
  relief->heights = g_steal_pointer (&heights);
  relief->n_heights = n_heights;
  return relief;
}

void
relief_unref (HoleRelief *relief)
{
  if (relief == NULL || !g_atomic_ref_count_dec (&relief->refs))
    return;
  g_free (relief->heights);
  terrain_free (relief->terrain);
  g_free (relief);
}

const Terrain *
hole_terrain (const Hole *hole)
{
  HoleRelief *relief = hole->relief;
  if (relief == NULL)
    return NULL;
  if (g_once_init_enter (&relief->terrain_made))
    {
      relief->terrain = terrain_new (relief->heights, relief->n_heights);
      g_once_init_leave (&relief->terrain_made, 1);
    }
  return relief->terrain;
}
