// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * plan - what a shot costs: strokes to hole out from any place, the Rules' relief, expected strokes of a shot and of every aim it could have.
 *
 * Pure functions of an immutable hole and of tables that never change; any thread may call them. Strokes are counted from the ball to
 * the bottom of the hole. Places and lengths are metres in the hole frame.
 */
#ifndef HOLEWRIGHT_PLAN_H
#define HOLEWRIGHT_PLAN_H

#include "odds.h"

/* ---- strokes to hole out ---- */

/*
 * Strokes to hole out by lie and distance, for one kind of golfer. Immutable once made. The published table is that of professionals (Broadie 2012,
 * Assessing golfer performance on the PGA Tour, Interfaces 42(2):146-165, Table B.1 and its table of putting, as transcribed elsewhere), straight between
 * its rows; beyond its last row it goes on as steeply as in its last 100 yd.
 *
 * No table of amateurs was found in open text. A golfer of a level is taken from the professionals' table so (the numbers and their sources are in
 * app/plan/strokes.c):
 *
 *   - a distance is to them what a longer one is to a professional, by how much further the professional drives; putts likewise, by the
 *     distance at which each holes one of two;
 *   - what a lie costs more than the fairway grows as the golfer's scatter in the published Accuracy Table grows over the scratch man's;
 *   - bogey golfers lose strokes besides, a few tenths, growing over the first pitches' lengths: as many as make eighteen holes come out at the
 *     Course Rating System's yardage rating.
 *
 * The levels' tables never fall with distance, as the published one does in places (its tees, its sand). Good to a tenth of a stroke or two
 * for a golfer of the level, and much better for the difference of two places, which is what aims are chosen by.
 */
#define STROKES_STEP_M 0.3048 /* a foot: rows at whole yards and feet come out exactly */
#define STROKES_NODES 3001    /* 0 to 1000 yd, and as steep beyond */

typedef struct
{
  double strokes[N_LIES][STROKES_NODES]; /* by lie and distance / STROKES_STEP_M */
} StrokesTable;

/* A golfer of the level. Free with strokes_table_free. */
StrokesTable *strokes_table_new (Level level);
/* The published table, all lies of the program mapped onto its columns. */
StrokesTable *strokes_table_new_tour (void);
void strokes_table_free (StrokesTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (StrokesTable, strokes_table_free)

/*
 * Strokes to hole out from a lie at `distance_m` >= 0 from the hole; at least 1. Tee, fairway, rough, sand and trees (recovery) are the table's columns, the
 * green its putts; the first cut, deep rough, fringe, waste, paths and buildings lie between them (app/plan/strokes.c). From a penalty area it is
 * what a drop beside it costs at the same distance, its stroke included; out of bounds a stroke more: plan_drops knows better.
 */
static inline double
strokes_to_hole (const StrokesTable *table, Lie lie, double distance_m)
{
  double place = distance_m * (1 / STROKES_STEP_M);
  size_t i = place < STROKES_NODES - 2 ? (size_t)place : STROKES_NODES - 2;
  const double *row = &table->strokes[lie][i];
  return row[0] + (place - (double)i) * (row[1] - row[0]);
}

/* From a ball at rest on the hole, by the area it lies in; `target` is the hole (hole_target). */
double strokes_from (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 ball);

/* ---- relief under the Rules of Golf ---- */

/* Two club-lengths, of a driver of 45 in (common practice): how far from where it went in a ball may be dropped. */
#define DROP_LATERAL_M 2.286
/* What a drop from a penalty area, a ball lost and a ball out of bounds cost (Rules 17.1d, 18.2b). */
#define DROP_PENALTY_STROKES 1.0

typedef enum
{
  DROP_AGAIN,   /* stroke and distance: played again from where it was (Rules 17.1d(1), 18.2b) */
  DROP_BACK,    /* back on the line from the hole through where it crossed the edge (Rule 17.1d(2)) */
  DROP_LATERAL, /* within two club-lengths of there, not nearer the hole; red stakes only (Rule 17.1d(3)) */
  N_DROP_RULES
} DropRule;

/* "again", "back-on-line", "lateral". */
const char *drop_rule_token (DropRule rule);

typedef struct
{
  DropRule rule;
  Vec2 crossing;  /* where the ball last crossed the edge on its way in; DROP_AGAIN out of bounds: where it went out */
  Vec2 at;        /* where the next ball is played from */
  Lie lie;        /* there */
  double strokes; /* to hole out, the penalty included */
} Drop;

/*
 * The drops that the Rules allow after a ball played from `ball` has come to rest at `rest` in a penalty area or out of bounds, cheapest first; returns
 * their count, 0 for a ball that lies anywhere else. The ball is taken to have gone straight from the one place to the other. Of the
 * places that a rule allows the one is taken from which the fewest strokes are left: lateral among 24 on the rim of the two club-lengths,
 * back on the line one every metre up to 100 m beyond the area. A ball played from the same penalty area, on the whole way from `ball` to `rest`, is
 * played again only. `again_strokes` is what playing again from `ball` costs, without the penalty; NAN: what the table says of it.
 */
size_t plan_drops (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 ball, Vec2 rest, double again_strokes,
                   Drop drops[N_DROP_RULES]);

#endif
