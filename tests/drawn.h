// SPDX-License-Identifier: GPL-3.0-or-later
/* drawn - parts of holes, and holes, that tests and benchmarks draw; the caller owns them. */
#ifndef HOLEWRIGHT_DRAWN_H
#define HOLEWRIGHT_DRAWN_H

#include "hole.h"

static inline const Part *
rectangle (Kind kind, Box box)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, box, 0, 0);
  return part_seal (part);
}

static inline const Part *
place (Kind kind, Vec2 at)
{
  Part *part = part_new (kind);
  part->at = at;
  return part_seal (part);
}

static inline const Part *
tree (double x, double y, double radius_m, double height_m)
{
  Part *part = part_new (KIND_TREE);
  part->at = vec2 (x, y);
  part->radius_m = radius_m;
  part->height_m = height_m;
  return part_seal (part);
}

static inline const Part *
spot (double x, double y, double height_m)
{
  Part *part = part_new (KIND_SPOT_HEIGHT);
  part->at = vec2 (x, y);
  part->height_m = height_m;
  return part_seal (part);
}

/* A hole of these parts, whose references it takes over, on such ground. */
static inline Hole *
hole_over (Kind ground, const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = ground;
  Hole *hole = hole_new (&info, parts, n_parts, NULL);
  hole_info_clear (&info);
  return hole;
}

/* Parts one after another, for a hole whose parts depend on the test. */
typedef struct
{
  const Part *parts[16];
  size_t n;
  Kind ground;
} Parts;

static inline void
add_box (Parts *parts, Kind kind, double x0, double y0, double x1, double y1)
{
  parts->parts[parts->n++] = rectangle (kind, (Box){ x0, y0, x1, y1 });
}

static inline void
add_hole (Parts *parts, double x, double y)
{
  parts->parts[parts->n++] = place (KIND_HOLE_LOCATION, vec2 (x, y));
}

static inline Hole *
hole_of (const Parts *parts)
{
  return hole_over (parts->ground, parts->parts, parts->n);
}

#endif
