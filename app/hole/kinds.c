// SPDX-License-Identifier: GPL-3.0-or-later
/* The table of kinds: what each thing on a hole is called, what shape it has and how a ball lying there is played. */
#include "hole.h"

#include <string.h>

static const KindInfo kinds[N_KINDS] = {
  [KIND_NONE] = { NULL, "shape without a kind", SHAPE_AREA, LIE_NONE, false },
  [KIND_TEE] = { "tee", "tee", SHAPE_AREA, LIE_TEE, false },
  [KIND_FAIRWAY] = { "fairway", "fairway", SHAPE_AREA, LIE_FAIRWAY, false },
  [KIND_FIRST_CUT] = { "first-cut", "first cut", SHAPE_AREA, LIE_FIRST_CUT, false },
  [KIND_ROUGH] = { "rough", "rough", SHAPE_AREA, LIE_ROUGH, false },
  [KIND_DEEP_ROUGH] = { "deep-rough", "deep rough", SHAPE_AREA, LIE_DEEP_ROUGH, true },
  [KIND_FRINGE] = { "fringe", "fringe", SHAPE_AREA, LIE_FRINGE, false },
  [KIND_GREEN] = { "green", "green", SHAPE_AREA, LIE_GREEN, false },
  [KIND_BUNKER] = { "bunker", "bunker", SHAPE_AREA, LIE_SAND, true },
  [KIND_WASTE] = { "waste", "waste area", SHAPE_AREA, LIE_WASTE, true },
  [KIND_PENALTY_AREA] = { "penalty-area", "penalty area", SHAPE_AREA, LIE_PENALTY, true },
  [KIND_WATER] = { "water", "water", SHAPE_AREA, LIE_PENALTY, true },
  [KIND_OUT_OF_BOUNDS] = { "out-of-bounds", "out of bounds", SHAPE_AREA, LIE_OUT_OF_BOUNDS, true },
  [KIND_TREES] = { "trees", "trees", SHAPE_AREA, LIE_TREES, true },
  [KIND_PATH] = { "path", "path", SHAPE_AREA, LIE_PATH, false },
  [KIND_BUILDING] = { "building", "building", SHAPE_AREA, LIE_BUILDING, true },
  [KIND_TEE_MARKER] = { "tee-marker", "tee marker", SHAPE_POINT, LIE_NONE, false },
  [KIND_HOLE_LOCATION] = { "hole-location", "hole location", SHAPE_POINT, LIE_NONE, false },
  [KIND_TREE] = { "tree", "tree", SHAPE_POINT, LIE_NONE, false },
  [KIND_SPOT_HEIGHT] = { "spot-height", "spot height", SHAPE_POINT, LIE_NONE, false },
  [KIND_SLOPE] = { "slope", "slope", SHAPE_LINE, LIE_NONE, false },
  [KIND_MARK] = { "mark", "mark", SHAPE_POINT, LIE_NONE, false },
  [KIND_NOTE] = { "note", "note", SHAPE_TEXT, LIE_NONE, false },
  [KIND_LINE_OF_PLAY] = { "line-of-play", "line of play", SHAPE_LINE, LIE_NONE, false },
  [KIND_UNDERLAY] = { "underlay", "underlay", SHAPE_IMAGE, LIE_NONE, false },
  [KIND_PLAN] = { "plan", "plan", SHAPE_PLAN, LIE_NONE, false },
};

const KindInfo *
kind_info (Kind kind)
{
  g_assert (kind >= 0 && kind < N_KINDS);
  return &kinds[kind];
}

bool
kind_from_token (const char *token, Kind *kind)
{
  for (int i = KIND_NONE + 1; i < N_KINDS; i++)
    if (strcmp (kinds[i].token, token) == 0)
      {
        *kind = (Kind)i;
        return true;
      }
  return false;
}
