// SPDX-License-Identifier: GPL-3.0-or-later
/* Areas grown and shrunk by a distance: every point as far from the old outline as GEOS finds it, fitted with curves again. */
#include "overlay-private.h"

/* Farthest that anything is grown or shrunk: wider than fairways are, so a slip of the keyboard. Common practice. */
#define FARTHEST_OFFSET_M 100
/* The chords of a round corner stay this near its arc. */
#define ARC_TOLERANCE_M (FLATTEN_TOLERANCE_M / 4)
/* A turn sharper than this is a corner; the chords of an arc turn less down to a radius of 0.15 m. Common practice. */
#define CORNER_RAD (PI / 6)

/* Points along straight edges are at most so far apart, so that no curve bulges between them. By trial. */
#define APART_M 0.5

/* Chords a quarter circle needs: one of angle a is r (1 - cos (a/2)) away from its arc. */
static int
count_quarter_chords (double radius_m)
{
  double chord_rad = 2 * acos (fmax (0, 1 - ARC_TOLERANCE_M / radius_m));
  return (int)fmax (1, ceil (PI / 2 / chord_rad));
}

/* Adds the points of a straight edge after its first. */
static void
add_edge (GArray *stroke, Vec2 from, Vec2 to)
{
  double n_steps = fmax (1, ceil (vec2_distance (from, to) / APART_M));
  for (double k = 1; k <= n_steps; k++)
    {
      Vec2 at = vec2_lerp (from, to, k / n_steps);
      g_array_append_val (stroke, at);
    }
}

/* The ring as a stroke from the middle of its longest edge, where the seam is straight, to there again. */
static GArray *
ring_stroke (const Vec2 *points, size_t n_points)
{
  size_t longest = 0;
  for (size_t i = 1; i < n_points; i++)
    if (vec2_distance (points[i], points[(i + 1) % n_points])
        > vec2_distance (points[longest], points[(longest + 1) % n_points]))
      longest = i;
  GArray *stroke = g_array_new (FALSE, FALSE, sizeof (Vec2));
  Vec2 seam = vec2_lerp (points[longest], points[(longest + 1) % n_points], 0.5), at = seam;
  g_array_append_val (stroke, seam);
  for (size_t i = 1; i <= n_points; i++)
    {
      Vec2 to = points[(longest + i) % n_points];
      add_edge (stroke, at, to);
      at = to;
    }
  add_edge (stroke, at, seam);
  return stroke;
}

/* The ring as curves; one too small to have any is left out. */
static void
fit_ring (Overlay *overlay, const Vec2 *points, size_t n_points, Path *path)
{
  (void)overlay;
  g_autoptr (GArray) stroke = ring_stroke (points, n_points);
  if (path_fit ((const Vec2 *)stroke->data, stroke->len, true, FLATTEN_TOLERANCE_M, CORNER_RAD, path, NULL))
    grid_path (path);
}

/* What the region covers when its edge moves out by the distance, on the grid. NULL when that is beyond GEOS. */
static GEOSGeometry *
moved_edge (const Overlay *overlay, const GEOSGeometry *region, double distance_m)
{
  GEOSGeometry *moved = GEOSBuffer_r (overlay->geos, region, distance_m, count_quarter_chords (fabs (distance_m)));
  GEOSGeometry *on_grid = moved ? GEOSGeom_setPrecision_r (overlay->geos, moved, EDIT_GRID_M, 0) : NULL;
  if (moved)
    GEOSGeom_destroy_r (overlay->geos, moved);
  return on_grid;
}

static const Part *
offset_area (const Part *area, void *data, GError **error)
{
  const double *distance_m = data;
  g_auto (Overlay) overlay = { 0 };
  overlay_init (&overlay);
  GEOSGeometry *region = overlay_region (&overlay, area), *moved = region ? moved_edge (&overlay, region, *distance_m) : NULL;
  const Part *made = moved ? overlay_part (&overlay, area, moved, fit_ring) : NULL;
  bool is_known = moved != NULL;
  if (moved)
    GEOSGeom_destroy_r (overlay.geos, moved);
  if (region)
    GEOSGeom_destroy_r (overlay.geos, region);
  if (made)
    return made;
  return is_known ? refuse (error, EDIT_ERROR_EMPTY, "nothing would be left of an area; shrink by less")
                  : refuse (error, EDIT_ERROR_SHAPE, TOO_TANGLED);
}

Hole *
edit_offset (const Hole *hole, const size_t *parts, size_t n_parts, double distance_m, GError **error)
{
  if (!are_areas (hole, parts, n_parts, 1, error))
    return NULL;
  if (!(fabs (distance_m) <= FARTHEST_OFFSET_M))
    return refuse (error, EDIT_ERROR_NUMBER, "areas grow and shrink by 100 m at most; give a smaller distance");
  distance_m = grid_length (distance_m);
  if (distance_m == 0)
    return hole_ref ((Hole *)hole);
  return replace_parts (hole, parts, n_parts, offset_area, &distance_m, error);
}
