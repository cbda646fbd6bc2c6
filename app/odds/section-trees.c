// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The trees of a section: those of the shot's fan, as its table tells of them, and what the line runs into further on.
 */
#include "section-private.h"

#include <math.h>

/* Places looked at over one tree for where the ball passes it lowest. */
#define TREE_LOOKS 24
/* Common practice: a ball this high over a top, as high as a tree itself, is clear of it and no more need be said; one this little over or under brushes
   it; one no deeper in it than this share of its height goes through its top. */
#define FAR_BELOW_M 12.0
#define BRUSH_M 0.5
#define TOP_SHARE 0.35

TreePass
section_tree_pass (const SectionTree *tree)
{
  if (isnan (tree->clearance_m))
    return TREE_BESIDE;
  if (tree->clearance_m > BRUSH_M)
    return tree->clearance_m > FAR_BELOW_M ? TREE_FAR_BELOW : TREE_CLEARED;
  if (tree->clearance_m > -BRUSH_M)
    return TREE_BRUSHED;
  return -tree->clearance_m < TOP_SHARE * (tree->top_m - tree->base_m) ? TREE_THROUGH_TOP : TREE_INTO;
}

/* Where the line passes through a single tree. */
static bool
crosses_tree (const ShotLine *line, const Part *tree, Interval *chord)
{
  double at_m = vec2_dot (line->along, vec2_sub (tree->at, line->ball)),
         left_m = vec2_cross (line->along, vec2_sub (tree->at, line->ball));
  if (tree->kind != KIND_TREE || !(fabs (left_m) < tree->radius_m))
    return false;
  double half_m = sqrt (tree->radius_m * tree->radius_m - left_m * left_m);
  *chord = (Interval){ at_m - half_m, at_m + half_m };
  return true;
}

/* Does the line cross this part between these places? */
static bool
is_on_line (const Hole *hole, const ShotLine *line, const CarryTable *carries, const TreeRow *row)
{
  Interval chord;
  if (crosses_tree (line, hole_part (hole, row->part), &chord))
    return true;
  for (size_t i = 0; i < carries->n_rows; i++)
    {
      const CarryRow *carry = &carries->rows[i];
      if (carry->part == row->part && carry->side == SIDE_ON && carry->reach_m < row->far_m && carry->carry_m > row->near_m)
        return true;
    }
  return false;
}

/* Where between both ends of the row the mean ball passes lowest over it; NAN when it passes beside. */
static double
tightest (const Hole *hole, const Track *track, const Section *section, const TreeRow *row)
{
  bool is_tree = hole_part (hole, row->part)->kind == KIND_TREE;
  double tight_m = NAN, least_m = INFINITY;
  for (int i = 0; i <= TREE_LOOKS && !isnan (row->clearance_m); i++)
    {
      double at_m = row->near_m + (row->far_m - row->near_m) * i / TREE_LOOKS, side_m, height_m;
      track_at (track, at_m, &side_m, &height_m);
      double over_m = height_m - (is_tree ? 0 : section_ground (section, at_m));
      if (over_m < least_m)
        {
          least_m = over_m;
          tight_m = at_m;
        }
    }
  return tight_m;
}

static SectionTree
tree_of (const Hole *hole, const Track *track, const Section *section, const TreeRow *row, bool is_on)
{
  const Terrain *terrain = hole_terrain (hole);
  const Part *part = hole_part (hole, row->part);
  SectionTree tree = { .part = row->part,
                       .is_on = is_on || !isnan (row->clearance_m),
                       .near_m = row->near_m,
                       .far_m = row->far_m,
                       .tight_m = tightest (hole, track, section, row),
                       .clearance_m = row->clearance_m,
                       .chance = row->chance };
  double at_m = isnan (tree.tight_m) ? 0.5 * (row->near_m + row->far_m) : tree.tight_m;
  tree.base_m = part->kind == KIND_TREE ? terrain_height (terrain, part->at) - terrain_height (terrain, track->line.ball)
                                        : section_ground (section, at_m);
  tree.top_m = tree.base_m + (isfinite (part->height_m) ? part->height_m : TREES_HEIGHT_M);
  return tree;
}

static bool
has_tree (const GArray *trees, size_t part)
{
  for (guint i = 0; i < trees->len; i++)
    if (g_array_index (trees, SectionTree, i).part == part)
      return true;
  return false;
}

/* Does one of the first `n_rows` trees, those of the fan, tell of this crossing? */
static bool
is_spoken_of (const GArray *trees, guint n_rows, const CarryRow *row)
{
  for (guint i = 0; i < n_rows; i++)
    {
      const SectionTree *tree = &g_array_index (trees, SectionTree, i);
      if (tree->part == row->part && tree->near_m < row->carry_m && tree->far_m > row->reach_m)
        return true;
    }
  return false;
}

/* Adds what the line crosses beyond the fan. */
static void
add_tree_on_line (const Hole *hole, const Track *track, const Section *section, size_t part, Interval crossing, GArray *trees)
{
  double to_m = section->ground[section->n_ground - 1].at_m;
  TreeRow row = { part, fmax (0, crossing.enter_m), fmin (to_m, crossing.leave_m), NAN, 1 };
  if (row.far_m > row.near_m)
    {
      SectionTree tree = tree_of (hole, track, section, &row, true);
      g_array_append_val (trees, tree);
    }
}

static int
compare_trees (const void *a, const void *b)
{
  const SectionTree *x = a, *y = b;
  if (x->near_m != y->near_m)
    return x->near_m < y->near_m ? -1 : 1;
  return x->part < y->part ? -1 : x->part > y->part;
}

void
section_look_at_trees (const Hole *hole, const Track *track, const CarryTable *carries, const TreeTable *table,
                       Section *section)
{
  GArray *trees = g_array_new (FALSE, FALSE, sizeof (SectionTree));
  for (size_t i = 0; i < table->n_rows; i++)
    {
      SectionTree tree
          = tree_of (hole, track, section, &table->rows[i], is_on_line (hole, &track->line, carries, &table->rows[i]));
      g_array_append_val (trees, tree);
    }
  guint n_rows = trees->len;
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      Interval chord;
      if (crosses_tree (&track->line, hole_part (hole, i), &chord) && !has_tree (trees, i))
        add_tree_on_line (hole, track, section, i, chord, trees);
    }
  for (size_t i = 0; i < carries->n_rows; i++)
    {
      const CarryRow *row = &carries->rows[i];
      if (row->side == SIDE_ON && hole_part (hole, row->part)->kind == KIND_TREES && !is_spoken_of (trees, n_rows, row))
        add_tree_on_line (hole, track, section, row->part, (Interval){ row->reach_m, row->carry_m }, trees);
    }
  g_array_sort (trees, compare_trees);
  section->n_trees = trees->len;
  section->trees = (SectionTree *)(void *)g_array_free (trees, FALSE);
}
