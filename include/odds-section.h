// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-section - a shot seen from its side: the ground and what lies and stands along its line, and the balls over it.
 */
#ifndef HOLEWRIGHT_ODDS_SECTION_H
#define HOLEWRIGHT_ODDS_SECTION_H

#include "odds.h"

/* Metres along the shot line from the ball, and height above the ball's place. */
typedef struct
{
  double at_m, height_m;
} SectionPoint;

/* What lies on top along a piece of the line. */
typedef struct
{
  double from_m, to_m;
  int part; /* index in the hole; -1: the ground that no area covers */
  Kind kind;
} SectionStretch;

/* A tree or an area of trees, in the shot's fan or on its line further on. */
typedef struct
{
  size_t part;                /* index in the hole */
  bool is_on;                 /* the line, or the mean ball's track, crosses it; else it stands beside */
  double near_m, far_m;       /* as in its TreeRow; further on, where the line crosses it */
  double base_m, top_m;       /* of a tree; of an area where the ball passes it lowest: the ground under it, and its top */
  double tight_m;             /* where the mean ball passes it lowest; NAN when its track passes beside */
  double clearance_m, chance; /* as in its TreeRow; NAN and 1 further on */
} SectionTree;

/* What the mean ball does about a tree. */
typedef enum
{
  TREE_BESIDE,    /* its track does not cross it */
  TREE_FAR_BELOW, /* it flies so high over it that it is no concern */
  TREE_CLEARED,
  TREE_BRUSHED, /* at the height of the top */
  TREE_THROUGH_TOP,
  TREE_INTO
} TreePass;
TreePass section_tree_pass (const SectionTree *tree);

/* A normal distribution along the line. */
typedef struct
{
  double mean_m, sd_m;
} SectionSpread;

/* Pieces of a drawn track, and deviations of the balls that fly the nearest and the farthest one: nine in ten come down between them. */
#define SECTION_TRACK_STEPS 32
#define SECTION_SPREAD_SDS 1.6448536269514722

typedef struct
{
  SectionPoint *ground; /* by at_m, at least two; where no height is known level */
  size_t n_ground;
  SectionStretch *stretches; /* one after the other from the first to the last point of the ground */
  size_t n_stretches;
  SectionTree *trees; /* by near_m */
  size_t n_trees;
  SectionPoint track[SECTION_TRACK_STEPS + 1];                                      /* of the mean ball, to its landing */
  SectionPoint nearest[SECTION_TRACK_STEPS + 1], farthest[SECTION_TRACK_STEPS + 1]; /* of the spread */
  SectionPoint apex;
  SectionSpread landing, rest; /* where balls come down, and where they stay */
  double aim_m;                /* ball to aim */
  /* The hole in use as a drawing along the shot shows it: dropped onto the line to the aim, and how far it lies left of it. NAN when there is none. */
  double hole_m, hole_left_m;
  Kind lands_on, rests_on; /* under the mean ball */
  /* The first trouble ahead of where the mean ball stops that carry_row_is_telling of: row of the carry table, -1 for none, and how far ahead. */
  int ahead;
  double ahead_m;
} Section;

/*
 * The shot along its line, from one edge of the drawing to the other: `carries` and `trees` are its tables, `trees` NULL: no trees are looked for.
 *
 * Ground and areas are those under the straight line from the ball to the landing point, heights are those of the ball wherever it bends aside to. The
 * tracks of the spread are the mean ball's stretched as tree_table_new does, and lifted or lowered in proportion to come down on the ground there. Ground is
 * looked at every SECTION_STEP_M. Free with section_free.
 */
#define SECTION_STEP_M 3.0
Section *section_new (const Hole *hole, const char *hole_name, const ShotResult *shot, const CarryTable *carries,
                      const TreeTable *trees);
void section_free (Section *section);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Section, section_free)
/* Height of the section's ground at a place on the line, beyond its ends as there. */
double section_ground (const Section *section, double at_m);

#endif
