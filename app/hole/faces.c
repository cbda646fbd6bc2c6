// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What is seen of each area from above: from the area, as its fill rule means it, all that lies on top of it is cut away. Every area is cut by itself, so an
 * edit cuts anew only what its old or its new box meets and shares the rest.
 */
#include "faces-private.h"

G_DEFINE_QUARK (holewright - hole - error, hole_error)

/* What can be seen of one area, shared by the faces of many holes. */
typedef struct
{
  gatomicrefcount refs;
  Outline *outline;
} Face;

struct _Faces
{
  gatomicrefcount refs;
  const Part **areas; /* in document order */
  Face **faces;
  size_t n_areas;
  ChanceMap *chances;
};

static Face *
face_ref (Face *face)
{
  g_atomic_ref_count_inc (&face->refs);
  return face;
}

static void
face_unref (Face *face)
{
  if (face == NULL || !g_atomic_ref_count_dec (&face->refs))
    return;
  outline_free (face->outline);
  g_free (face);
}

Faces *
faces_ref (Faces *faces)
{
  g_atomic_ref_count_inc (&faces->refs);
  return faces;
}

void
faces_unref (Faces *faces)
{
  if (faces == NULL || !g_atomic_ref_count_dec (&faces->refs))
    return;
  for (size_t k = 0; k < faces->n_areas; k++)
    {
      part_unref (faces->areas[k]);
      face_unref (faces->faces[k]);
    }
  chance_map_free (faces->chances);
  g_free (faces->areas);
  g_free (faces->faces);
  g_free (faces);
}

/* ---- what an earlier state has already ---- */

/* Areas at the beginning and at the end of both lists that are the very same parts. */
static void
same_ends (const Faces *earlier, const Part *const *areas, size_t n_areas, size_t *n_first, size_t *n_last)
{
  size_t least = MIN (earlier->n_areas, n_areas);
  for (*n_first = 0; *n_first < least && earlier->areas[*n_first] == areas[*n_first];)
    ++*n_first;
  for (*n_last = 0;
       *n_last < least - *n_first && earlier->areas[earlier->n_areas - 1 - *n_last] == areas[n_areas - 1 - *n_last];)
    ++*n_last;
}

/* Does the box of an area meet that of one of those that changed? */
static bool
meets_change (const Part *area, const Part *const *changed, size_t n_changed)
{
  for (size_t i = 0; i < n_changed; i++)
    if (box_overlaps (area->outline->bounds, changed[i]->outline->bounds))
      return true;
  return false;
}

/* Takes over every face of the earlier state that no change comes near. */
static void
take_over (Faces *faces, const Faces *earlier)
{
  size_t first, last, n = faces->n_areas;
  same_ends (earlier, faces->areas, n, &first, &last);
  const Part *const *then = earlier->areas + first, *const *now = faces->areas + first;
  size_t n_then = earlier->n_areas - first - last, n_now = n - first - last;
  for (size_t k = 0; k < n; k++)
    {
      if (k == first)
        k += n_now;
      if (k == n)
        break;
      if (!meets_change (faces->areas[k], then, n_then) && !meets_change (faces->areas[k], now, n_now))
        faces->faces[k] = face_ref (earlier->faces[k < first ? k : k + earlier->n_areas - n]);
    }
}

/* ---- making ---- */

static bool
cut_all (Faces *faces, GError **error)
{
  g_autofree bool *is_wanted = g_new (bool, faces->n_areas + 1);
  g_autofree Outline **cut = g_new0 (Outline *, faces->n_areas + 1);
  for (size_t k = 0; k < faces->n_areas; k++)
    is_wanted[k] = faces->faces[k] == NULL;
  bool is_cut = faces_cut (faces->areas, faces->n_areas, is_wanted, cut, error);
  for (size_t k = 0; k < faces->n_areas; k++)
    if (is_cut && is_wanted[k])
      {
        faces->faces[k] = g_new (Face, 1);
        g_atomic_ref_count_init (&faces->faces[k]->refs);
        faces->faces[k]->outline = cut[k];
      }
    else
      outline_free (cut[k]);
  return is_cut;
}

Faces *
faces_new (const Part *const *areas, size_t n_areas, const Faces *earlier, GError **error)
{
  Faces *faces = g_new0 (Faces, 1);
  g_atomic_ref_count_init (&faces->refs);
  faces->n_areas = n_areas;
  faces->areas = g_new (const Part *, n_areas + 1);
  faces->faces = g_new0 (Face *, n_areas + 1);
  for (size_t k = 0; k < n_areas; k++)
    faces->areas[k] = part_ref (areas[k]);
  if (earlier != NULL)
    take_over (faces, earlier);
  if (!cut_all (faces, error))
    {
      faces_unref (faces);
      return NULL;
    }
  g_autofree const Outline **outlines = g_new (const Outline *, n_areas + 1);
  for (size_t k = 0; k < n_areas; k++)
    outlines[k] = faces->faces[k]->outline;
  faces->chances = chance_map_new (outlines, NULL, n_areas, n_areas);
  return faces;
}

/* ---- questions ---- */

const Outline *
faces_outline (const Faces *faces, size_t k)
{
  g_assert (k < faces->n_areas);
  return faces->faces[k]->outline;
}

bool
faces_chances (const Faces *faces, const Normal *normal, double *chances)
{
  return chance_map_integrate (faces->chances, normal, chances);
}
