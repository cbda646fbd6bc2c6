// SPDX-License-Identifier: GPL-3.0-or-later
/* The immutable hole: facts, parts in document order, and an index of its areas shared by every edit that leaves them alone. */
#include "faces-private.h"

#include <string.h>

/* ---- facts ---- */

void
hole_info_init (HoleInfo *info)
{
  *info = (HoleInfo){ .up_bearing_deg = NAN,
                      .latitude_deg = NAN,
                      .longitude_deg = NAN,
                      .altitude_m = NAN,
                      .ground = KIND_ROUGH,
                      .view_box = box_empty () };
}

void
hole_info_clear (HoleInfo *info)
{
  g_clear_pointer (&info->title, g_free);
  g_clear_pointer (&info->desc, g_free);
  g_clear_pointer (&info->datum, g_free);
  for (size_t i = 0; i < info->n_days; i++)
    {
      g_free (info->days[i].name);
      day_clear (&info->days[i].day);
    }
  g_clear_pointer (&info->days, g_free);
  info->n_days = 0;
}

void
hole_info_add_day (HoleInfo *info, const char *name, const Day *day)
{
  info->days = g_renew (NamedDay, info->days, info->n_days + 1);
  NamedDay *added = &info->days[info->n_days++];
  added->name = g_strdup (name);
  day_copy (day, &added->day);
}

static void
hole_info_copy (const HoleInfo *from, HoleInfo *to)
{
  *to = *from;
  to->title = g_strdup (from->title);
  to->desc = g_strdup (from->desc);
  to->datum = g_strdup (from->datum);
  to->days = NULL;
  to->n_days = 0;
  for (size_t i = 0; i < from->n_days; i++)
    hole_info_add_day (to, from->days[i].name, &from->days[i].day);
}

static bool
number_equal (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static bool
days_equal (const HoleInfo *a, const HoleInfo *b)
{
  if (a->n_days != b->n_days)
    return false;
  for (size_t i = 0; i < a->n_days; i++)
    if (strcmp (a->days[i].name, b->days[i].name) != 0 || !day_equal (&a->days[i].day, &b->days[i].day))
      return false;
  return true;
}

bool
hole_info_equal (const HoleInfo *a, const HoleInfo *b)
{
  return g_strcmp0 (a->title, b->title) == 0 && g_strcmp0 (a->desc, b->desc) == 0 && g_strcmp0 (a->datum, b->datum) == 0
         && a->number == b->number && a->par == b->par && a->stroke_index == b->stroke_index
         && number_equal (a->up_bearing_deg, b->up_bearing_deg) && number_equal (a->latitude_deg, b->latitude_deg)
         && number_equal (a->longitude_deg, b->longitude_deg) && number_equal (a->altitude_m, b->altitude_m)
         && a->ground == b->ground && a->view_box.x0 == b->view_box.x0 && a->view_box.y0 == b->view_box.y0
         && a->view_box.x1 == b->view_box.x1 && a->view_box.y1 == b->view_box.y1 && days_equal (a, b);
}

/* ---- layers: the areas of known kinds and the index over them ---- */

struct _HoleLayers
{
  gatomicrefcount refs;
  const Part **areas; /* in document order */
  size_t n_areas;
  gsize index_made; /* for g_once_init_enter */
  AreaIndex *index;
  GMutex faces_lock; /* of what follows */
  Faces *faces, *earlier;
  GError *faces_error;
};

static bool
part_is_layer (const Part *part)
{
  return kind_info (part->kind)->shape == SHAPE_AREA && part->kind != KIND_NONE;
}

/* The faces that an edit can go on from: the layers' own, else those that they would have gone on from. NULL: none. */
static Faces *
layers_latest_faces (HoleLayers *layers)
{
  g_mutex_lock (&layers->faces_lock);
  Faces *latest = layers->faces != NULL ? layers->faces : layers->earlier;
  latest = latest != NULL ? faces_ref (latest) : NULL;
  g_mutex_unlock (&layers->faces_lock);
  return latest;
}

static HoleLayers *
layers_new (const Hole *hole, const Hole *earlier)
{
  HoleLayers *layers = g_new0 (HoleLayers, 1);
  g_atomic_ref_count_init (&layers->refs);
  g_mutex_init (&layers->faces_lock);
  layers->earlier = earlier != NULL ? layers_latest_faces (earlier->layers) : NULL;
  layers->n_areas = hole->n_areas;
  layers->areas = g_new (const Part *, hole->n_areas + 1);
  for (size_t i = 0; i < hole->n_areas; i++)
    layers->areas[i] = part_ref (hole->parts[hole->area_parts[i]]);
  return layers;
}

static void
layers_unref (HoleLayers *layers)
{
  if (!g_atomic_ref_count_dec (&layers->refs))
    return;
  for (size_t i = 0; i < layers->n_areas; i++)
    part_unref (layers->areas[i]);
  g_free (layers->areas);
  area_index_free (layers->index);
  faces_unref (layers->faces);
  faces_unref (layers->earlier);
  g_clear_error (&layers->faces_error);
  g_mutex_clear (&layers->faces_lock);
  g_free (layers);
}

static bool
layers_serve (const HoleLayers *layers, const Hole *hole)
{
  if (layers->n_areas != hole->n_areas)
    return false;
  for (size_t i = 0; i < hole->n_areas; i++)
    if (layers->areas[i] != hole->parts[hole->area_parts[i]])
      return false;
  return true;
}

static const AreaIndex *
layers_make_index (HoleLayers *layers)
{
  if (g_once_init_enter (&layers->index_made))
    {
      g_autofree const Outline **outlines = g_new (const Outline *, layers->n_areas + 1);
      for (size_t i = 0; i < layers->n_areas; i++)
        outlines[i] = layers->areas[i]->outline;
      g_atomic_pointer_set (&layers->index, area_index_new (outlines, layers->n_areas));
      g_once_init_leave (&layers->index_made, 1);
    }
  return layers->index;
}

/* Asked for millions of times. */
static inline const AreaIndex *
layers_index (HoleLayers *layers)
{
  const AreaIndex *index = g_atomic_pointer_get (&layers->index);
  return G_LIKELY (index != NULL) ? index : layers_make_index (layers);
}

static const Faces *
layers_faces (HoleLayers *layers, GError **error)
{
  g_mutex_lock (&layers->faces_lock);
  if (layers->faces == NULL && layers->faces_error == NULL)
    {
      layers->faces = faces_new (layers->areas, layers->n_areas, layers->earlier, &layers->faces_error);
      faces_unref (g_steal_pointer (&layers->earlier));
    }
  if (layers->faces_error != NULL && error != NULL)
    *error = g_error_copy (layers->faces_error);
  g_mutex_unlock (&layers->faces_lock);
  return layers->faces;
}

/* ---- making ---- */

/* Takes over the references in `parts` and the array itself; shares what an earlier state (or NULL) has of the same areas and heights. */
static Hole *
hole_make (const HoleInfo *info, const Part **parts, size_t n_parts, GBytes *source, const Hole *earlier)
{
  Hole *hole = g_atomic_rc_box_new0 (Hole);
  hole_info_copy (info, &hole->info);
  hole->parts = parts;
  hole->n_parts = n_parts;
  hole->source = source ? g_bytes_ref (source) : NULL;
  hole->area_parts = g_new (size_t, n_parts + 1);
  for (size_t i = 0; i < n_parts; i++)
    if (part_is_layer (parts[i]))
      hole->area_parts[hole->n_areas++] = i;
  hole->lies = g_new (Lie, hole->n_areas + 1);
  hole->lies[0] = kind_info (info->ground)->lie;
  for (size_t k = 0; k < hole->n_areas; k++)
    hole->lies[k + 1] = kind_info (parts[hole->area_parts[k]]->kind)->lie;
  if (earlier && layers_serve (earlier->layers, hole))
    {
      g_atomic_ref_count_inc (&earlier->layers->refs);
      hole->layers = earlier->layers;
    }
  else
    hole->layers = layers_new (hole, earlier);
  hole->relief = relief_for (hole, earlier ? earlier->relief : NULL);
  return hole;
}

Hole *
hole_new (const HoleInfo *info, const Part *const *parts, size_t n_parts, GBytes *source)
{
  const Part **own = g_new (const Part *, n_parts + 1);
  for (size_t i = 0; i < n_parts; i++)
    own[i] = parts[i];
  return hole_make (info, own, n_parts, source, NULL);
}

Hole *
hole_ref (Hole *hole)
{
  return g_atomic_rc_box_acquire (hole);
}

static void
hole_finish (gpointer data)
{
  Hole *hole = data;
  hole_info_clear (&hole->info);
  for (size_t i = 0; i < hole->n_parts; i++)
    part_unref (hole->parts[i]);
  g_free (hole->parts);
  g_free (hole->area_parts);
  g_free (hole->lies);
  layers_unref (hole->layers);
  relief_unref (hole->relief);
  if (hole->source)
    g_bytes_unref (hole->source);
}

void
hole_unref (Hole *hole)
{
  if (hole)
    g_atomic_rc_box_release_full (hole, hole_finish);
}

const HoleInfo *
hole_info (const Hole *hole)
{
  return &hole->info;
}

size_t
hole_n_parts (const Hole *hole)
{
  return hole->n_parts;
}

const Part *
hole_part (const Hole *hole, size_t i)
{
  g_assert (i < hole->n_parts);
  return hole->parts[i];
}

GBytes *
hole_source (const Hole *hole)
{
  return hole->source;
}

bool
hole_equal (const Hole *a, const Hole *b)
{
  if (a == b)
    return true;
  if (a->n_parts != b->n_parts || !hole_info_equal (&a->info, &b->info))
    return false;
  for (size_t i = 0; i < a->n_parts; i++)
    if (!part_equal (a->parts[i], b->parts[i]))
      return false;
  return true;
}

/* ---- edits ---- */

/* The hole's parts with `n_drop` of them from index i on replaced by `part`, or by nothing when it is NULL. */
static Hole *
hole_splice (const Hole *hole, size_t i, size_t n_drop, const Part *part)
{
  g_assert (i + n_drop <= hole->n_parts);
  const Part **parts = g_new (const Part *, hole->n_parts + 2);
  size_t n = 0;
  for (size_t k = 0; k < i; k++)
    parts[n++] = part_ref (hole->parts[k]);
  if (part)
    parts[n++] = part;
  for (size_t k = i + n_drop; k < hole->n_parts; k++)
    parts[n++] = part_ref (hole->parts[k]);
  return hole_make (&hole->info, parts, n, hole->source, hole);
}

Hole *
hole_with_part (const Hole *hole, size_t i, const Part *part)
{
  return hole_splice (hole, i, 1, part);
}

Hole *
hole_inserting_part (const Hole *hole, size_t i, const Part *part)
{
  return hole_splice (hole, i, 0, part);
}

Hole *
hole_without_part (const Hole *hole, size_t i)
{
  return hole_splice (hole, i, 1, NULL);
}

Hole *
hole_with_info (const Hole *hole, const HoleInfo *info)
{
  const Part **parts = g_new (const Part *, hole->n_parts + 1);
  for (size_t k = 0; k < hole->n_parts; k++)
    parts[k] = part_ref (hole->parts[k]);
  return hole_make (info, parts, hole->n_parts, hole->source, hole);
}

Hole *
hole_with_parts (const Hole *hole, const Part *const *parts, size_t n_parts)
{
  const Part **own = g_new (const Part *, n_parts + 1);
  for (size_t i = 0; i < n_parts; i++)
    own[i] = parts[i];
  return hole_make (&hole->info, own, n_parts, hole->source, hole);
}

/* ---- what is underfoot ---- */

int
hole_area_at (const Hole *hole, Vec2 point)
{
  int top = area_index_top (layers_index (hole->layers), point);
  return top < 0 ? -1 : (int)hole->area_parts[top];
}

Lie
hole_lie_at (const Hole *hole, Vec2 point)
{
  return hole->lies[area_index_top (layers_index (hole->layers), point) + 1];
}

void
hole_areas_at (const Hole *hole, const double *x_m, const double *y_m, size_t n, int *areas)
{
  area_index_tops (layers_index (hole->layers), x_m, y_m, n, areas);
}

Lie
hole_area_lie (const Hole *hole, int k)
{
  return hole->lies[k + 1];
}

size_t
hole_n_areas (const Hole *hole)
{
  return hole->n_areas;
}

size_t
hole_area_part (const Hole *hole, size_t k)
{
  g_assert (k < hole->n_areas);
  return hole->area_parts[k];
}

const Faces *
hole_faces (const Hole *hole, GError **error)
{
  return layers_faces (hole->layers, error);
}
