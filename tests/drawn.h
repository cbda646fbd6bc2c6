// SPDX-License-Identifier: GPL-3.0-or-later
/* drawn - parts of holes that tests and benchmarks draw; the caller owns them. */
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

#endif
