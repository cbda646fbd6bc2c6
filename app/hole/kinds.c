// SPDX-License-Identifier: GPL-3.0-or-later
/* The table of kinds: what each thing on a hole is called, what shape it has and how a ball lying there is played. */
#include "hole.h"

#include <glib/gi18n.h>

#include <string.h>

/* Radii of new points, and what golfers aim by: common practice. */
static const KindInfo kinds[N_KINDS] = {
  [KIND_NONE] = { NULL, N_ ("shape without a kind"), SHAPE_AREA, LIE_NONE, false, 16, 0, 0 },
  [KIND_TEE] = { "tee", N_ ("tee"), SHAPE_AREA, LIE_TEE, false, 5, 0, 0 },
  [KIND_FAIRWAY] = { "fairway", N_ ("fairway"), SHAPE_AREA, LIE_FAIRWAY, false, 4, 0, 1 },
  [KIND_FIRST_CUT] = { "first-cut", N_ ("first cut"), SHAPE_AREA, LIE_FIRST_CUT, false, 3, 0, 0 },
  [KIND_ROUGH] = { "rough", N_ ("rough"), SHAPE_AREA, LIE_ROUGH, false, 1, 0, 0 },
  [KIND_DEEP_ROUGH] = { "deep-rough", N_ ("deep rough"), SHAPE_AREA, LIE_DEEP_ROUGH, true, 2, 0, 0 },
  [KIND_FRINGE] = { "fringe", N_ ("fringe"), SHAPE_AREA, LIE_FRINGE, false, 6, 0, 0 },
  [KIND_GREEN] = { "green", N_ ("green"), SHAPE_AREA, LIE_GREEN, false, 7, 0, 2 },
  [KIND_BUNKER] = { "bunker", N_ ("bunker"), SHAPE_AREA, LIE_SAND, true, 9, 0, 2 },
  [KIND_WASTE] = { "waste", N_ ("waste area"), SHAPE_AREA, LIE_WASTE, true, 8, 0, 1 },
  [KIND_PENALTY_AREA] = { "penalty-area", N_ ("penalty area"), SHAPE_AREA, LIE_PENALTY, true, 10, 0, 0 },
  [KIND_WATER] = { "water", N_ ("water"), SHAPE_AREA, LIE_PENALTY, true, 11, 0, 1 },
  [KIND_OUT_OF_BOUNDS] = { "out-of-bounds", N_ ("out of bounds"), SHAPE_AREA, LIE_OUT_OF_BOUNDS, true, 14, 0, 0 },
  [KIND_TREES] = { "trees", N_ ("trees"), SHAPE_AREA, LIE_TREES, true, 13, 0, 2 },
  [KIND_PATH] = { "path", N_ ("path"), SHAPE_AREA, LIE_PATH, false, 12, 0, 0 },
  [KIND_BUILDING] = { "building", N_ ("building"), SHAPE_AREA, LIE_BUILDING, true, 15, 0, 3 },
  [KIND_TEE_MARKER] = { "tee-marker", N_ ("tee marker"), SHAPE_POINT, LIE_NONE, false, 23, 1, 0 },
  [KIND_HOLE_LOCATION] = { "hole-location", N_ ("hole location"), SHAPE_POINT, LIE_NONE, false, 24, 0.5, 3 },
  [KIND_TREE] = { "tree", N_ ("tree"), SHAPE_POINT, LIE_NONE, false, 17, 3, 2 },
  [KIND_SPOT_HEIGHT] = { "spot-height", N_ ("spot height"), SHAPE_POINT, LIE_NONE, false, 19, 0.5, 0 },
  [KIND_SLOPE] = { "slope", N_ ("slope"), SHAPE_LINE, LIE_NONE, false, 18, 0, 0 },
  [KIND_MARK] = { "mark", N_ ("mark"), SHAPE_POINT, LIE_NONE, false, 20, 1, 3 },
  [KIND_NOTE] = { "note", N_ ("note"), SHAPE_TEXT, LIE_NONE, false, 21, 0, 0 },
  [KIND_LINE_OF_PLAY] = { "line-of-play", N_ ("line of play"), SHAPE_LINE, LIE_NONE, false, 22, 0, 0 },
  [KIND_UNDERLAY] = { "underlay", N_ ("underlay"), SHAPE_IMAGE, LIE_NONE, false, 0, 0, 0 },
  [KIND_PLAN] = { "plan", N_ ("plan"), SHAPE_PLAN, LIE_NONE, false, 25, 0, 0 },
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
