// SPDX-License-Identifier: GPL-3.0-or-later
/* Axis-aligned boxes. A box is closed: its sides belong to it. */
#include "geometry.h"

Box
box_empty (void)
{
  return (Box){ INFINITY, INFINITY, -INFINITY, -INFINITY };
}

bool
box_is_empty (Box box)
{
  return !(box.x0 <= box.x1 && box.y0 <= box.y1);
}

Box
box_union (Box a, Box b)
{
  if (box_is_empty (a))
    return b;
  if (box_is_empty (b))
    return a;
  return (Box){ fmin (a.x0, b.x0), fmin (a.y0, b.y0), fmax (a.x1, b.x1), fmax (a.y1, b.y1) };
}

Box
box_grown (Box box, double margin)
{
  if (box_is_empty (box))
    return box;
  return (Box){ box.x0 - margin, box.y0 - margin, box.x1 + margin, box.y1 + margin };
}

bool
box_overlaps (Box a, Box b)
{
  return !box_is_empty (a) && !box_is_empty (b) && a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

Vec2
box_centre (Box box)
{
  return box_is_empty (box) ? vec2 (0, 0) : vec2 (box.x0 / 2 + box.x1 / 2, box.y0 / 2 + box.y1 / 2);
}
