// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Strokes to hole out: the published table, the lies between its columns, and what makes it a table of the four levels.
 */
#include "plan.h"
#include "units.h"

#include <math.h>

/* ---- what is published ---- */

enum
{
  COLUMN_TEE,
  COLUMN_FAIRWAY,
  COLUMN_ROUGH,
  COLUMN_SAND,
  COLUMN_RECOVERY,
  N_COLUMNS
};

typedef struct
{
  double yd, strokes[N_COLUMNS];
} TableRow;

/* Broadie 2012, Interfaces 42(2):146-165, Table B.1; NAN where it has no value. */
static const TableRow table_rows[] = {
  { 10, { NAN, 2.18, 2.34, 2.43, 3.45 } },   { 20, { NAN, 2.40, 2.59, 2.53, 3.51 } },
  { 30, { NAN, 2.52, 2.70, 2.66, 3.57 } },   { 40, { NAN, 2.60, 2.78, 2.82, 3.71 } },
  { 50, { NAN, 2.66, 2.87, 2.92, 3.79 } },   { 60, { NAN, 2.70, 2.91, 3.15, 3.83 } },
  { 70, { NAN, 2.72, 2.93, 3.21, 3.84 } },   { 80, { NAN, 2.75, 2.96, 3.24, 3.84 } },
  { 90, { NAN, 2.77, 2.99, 3.24, 3.82 } },   { 100, { 2.92, 2.80, 3.02, 3.23, 3.80 } },
  { 120, { 2.99, 2.85, 3.08, 3.21, 3.78 } }, { 140, { 2.97, 2.91, 3.15, 3.22, 3.80 } },
  { 160, { 2.99, 2.98, 3.23, 3.28, 3.81 } }, { 180, { 3.05, 3.08, 3.31, 3.40, 3.82 } },
  { 200, { 3.12, 3.19, 3.42, 3.55, 3.87 } }, { 220, { 3.17, 3.32, 3.53, 3.70, 3.92 } },
  { 240, { 3.25, 3.45, 3.64, 3.84, 3.97 } }, { 260, { 3.45, 3.58, 3.74, 3.93, 4.03 } },
  { 280, { 3.65, 3.69, 3.83, 4.00, 4.10 } }, { 300, { 3.71, 3.78, 3.90, 4.04, 4.20 } },
  { 320, { 3.79, 3.84, 3.95, 4.12, 4.31 } }, { 340, { 3.86, 3.88, 4.02, 4.26, 4.44 } },
  { 360, { 3.92, 3.95, 4.11, 4.41, 4.56 } }, { 380, { 3.96, 4.03, 4.21, 4.55, 4.66 } },
  { 400, { 3.99, 4.11, 4.30, 4.69, 4.75 } }, { 420, { 4.02, 4.19, 4.40, 4.83, 4.84 } },
  { 440, { 4.08, 4.27, 4.49, 4.97, 4.94 } }, { 460, { 4.17, 4.34, 4.58, 5.11, 5.03 } },
  { 480, { 4.28, 4.42, 4.68, 5.25, 5.13 } }, { 500, { 4.41, 4.50, 4.77, 5.40, 5.22 } },
  { 520, { 4.54, 4.58, 4.87, 5.54, 5.32 } }, { 540, { 4.65, 4.66, 4.96, 5.68, 5.41 } },
  { 560, { 4.74, 4.74, 5.06, 5.82, 5.51 } }, { 580, { 4.79, 4.82, 5.15, 5.96, 5.60 } },
  { 600, { 4.82, 4.89, 5.25, 6.10, 5.70 } },
};
#define N_ROWS G_N_ELEMENTS (table_rows)
#define FIRST_ROW_YD 10.0
#define FIRST_TEE_ROW 9 /* 100 yd */
/* Beyond the last row a column goes on as steeply as over this many rows, 100 yd. */
#define LAST_STRETCH_ROWS 5

/* The same source's putts. */
static const struct
{
  double ft, putts;
} putt_rows[] = { { 1, 1.001 },  { 2, 1.009 },  { 3, 1.053 },  { 4, 1.147 },  { 5, 1.256 },  { 6, 1.357 },
                  { 7, 1.443 },  { 8, 1.515 },  { 10, 1.626 }, { 15, 1.790 }, { 20, 1.878 }, { 30, 1.978 },
                  { 40, 2.055 }, { 50, 2.135 }, { 60, 2.218 }, { 90, 2.379 } };
#define N_PUTT_ROWS G_N_ELEMENTS (putt_rows)

/* Straight between two points, and on beyond them. */
static double
between (double x0, double y0, double x1, double y1, double x)
{
  return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}

/* From 0 ft, where one tap is left; beyond the last row as steep as between the last two. */
static double
tour_putts (double distance_yd)
{
  double ft = 3 * distance_yd;
  if (ft < putt_rows[0].ft)
    return between (0, 1, putt_rows[0].ft, putt_rows[0].putts, ft);
  size_t i = 1;
  while (i + 1 < N_PUTT_ROWS && putt_rows[i].ft < ft)
    i++;
  return between (putt_rows[i - 1].ft, putt_rows[i - 1].putts, putt_rows[i].ft, putt_rows[i].putts, ft);
}

/* The first row that is no nearer, the second at least. */
static const TableRow *
row_beyond (double distance_yd)
{
  const TableRow *row = table_rows + 1;
  for (const TableRow *low = row, *high = &table_rows[N_ROWS - 1]; low < high;)
    {
      const TableRow *middle = low + (high - low) / 2;
      if (middle->yd < distance_yd)
        low = row = middle + 1;
      else
        high = row = middle;
    }
  return row;
}

/*
 * One column, `row` being row_beyond of the distance. Nearer than its first row a ball is as much dearer than a putt of that length as it is there. From a tee nearer than its first row it is as
 * much dearer than from the fairway as there.
 */
static double
tour_column (int column, double distance_yd, const TableRow *row)
{
  size_t first = column == COLUMN_TEE ? FIRST_TEE_ROW : 0;
  const TableRow *start = &table_rows[first], *end = &table_rows[N_ROWS - 1];
  if (distance_yd <= start->yd && column == COLUMN_TEE)
    return tour_column (COLUMN_FAIRWAY, distance_yd, row) + start->strokes[COLUMN_TEE] - start->strokes[COLUMN_FAIRWAY];
  if (distance_yd <= start->yd)
    return start->strokes[column] + tour_putts (distance_yd) - tour_putts (start->yd);
  if (distance_yd >= end->yd)
    {
      const TableRow *before = end - LAST_STRETCH_ROWS;
      return between (before->yd, before->strokes[column], end->yd, end->strokes[column], distance_yd);
    }
  return between (row[-1].yd, row[-1].strokes[column], row->yd, row->strokes[column], distance_yd);
}

/* A ball far off on a green may be chipped: there it is no dearer than one on the fairway. */
static double
tour_green (double distance_yd)
{
  return fmin (tour_putts (distance_yd), tour_column (COLUMN_FAIRWAY, distance_yd, row_beyond (distance_yd)));
}

/* ---- the lies between the columns ---- */

/*
 * A lie stands between two columns, `share` of the way from the one to the other, and may cost a stroke or two before anything is played. Common
 * practice, but for those that the table has: the first cut is nearly fairway; deep rough half way to a recovery; waste
 * is sand that is firm; from a path there is free relief (Rule 16.1), most often into the rough; a building is in the way even after relief. Out
 * of bounds is never played from: two strokes as under Model Local Rule E-5 (from memory) for want of the place to go back to.
 */
static const struct
{
  int from, to;
  double share, penalty;
} lie_rows[N_LIES] = {
  [LIE_NONE] = { COLUMN_ROUGH, COLUMN_ROUGH, 0, 0 },
  [LIE_TEE] = { COLUMN_TEE, COLUMN_TEE, 0, 0 },
  [LIE_FAIRWAY] = { COLUMN_FAIRWAY, COLUMN_FAIRWAY, 0, 0 },
  [LIE_FIRST_CUT] = { COLUMN_FAIRWAY, COLUMN_ROUGH, 0.3, 0 },
  [LIE_ROUGH] = { COLUMN_ROUGH, COLUMN_ROUGH, 0, 0 },
  [LIE_DEEP_ROUGH] = { COLUMN_ROUGH, COLUMN_RECOVERY, 0.5, 0 },
  [LIE_FRINGE] = { COLUMN_FAIRWAY, COLUMN_FAIRWAY, 0, 0 }, /* half way to the green's putts, below */
  [LIE_GREEN] = { COLUMN_FAIRWAY, COLUMN_FAIRWAY, 0, 0 },  /* putts, below */
  [LIE_SAND] = { COLUMN_SAND, COLUMN_SAND, 0, 0 },
  [LIE_WASTE] = { COLUMN_ROUGH, COLUMN_SAND, 0.5, 0 },
  [LIE_PENALTY] = { COLUMN_ROUGH, COLUMN_ROUGH, 0, 1 },
  [LIE_OUT_OF_BOUNDS] = { COLUMN_ROUGH, COLUMN_ROUGH, 0, 2 },
  [LIE_TREES] = { COLUMN_RECOVERY, COLUMN_RECOVERY, 0, 0 },
  [LIE_PATH] = { COLUMN_ROUGH, COLUMN_ROUGH, 0, 0 },
  [LIE_BUILDING] = { COLUMN_ROUGH, COLUMN_RECOVERY, 0.5, 0 },
};

/* What is published of one distance: all lies are made of it. */
typedef struct
{
  double columns[N_COLUMNS];
} Published;

static Published
published_at (double distance_yd)
{
  Published published;
  const TableRow *row = row_beyond (distance_yd);
  for (int column = 0; column < N_COLUMNS; column++)
    published.columns[column] = tour_column (column, distance_yd, row);
  return published;
}

static double
tour_lie (Lie lie, const Published *published)
{
  double from = published->columns[lie_rows[lie].from], to = published->columns[lie_rows[lie].to];
  return from + lie_rows[lie].share * (to - from);
}

/* ---- the levels ---- */

/* Average drive of the professionals of the table's years, 2003 to 2010 (from memory). */
#define TOUR_DRIVE_YD 290.0
/* Distance of the putt that is holed one time in two: professionals (Broadie's published one-putt shares). */
#define TOUR_EVEN_PUTT_FT 8.0
/* The same of golfers: handicaps 0 to 9 (Broadie 2008, as summarised in the press) and one who scores 90 (published one-putt shares), with the
   handicaps that they stand for here. In between and beyond in proportion. */
#define LOW_HANDICAP 4.5
#define LOW_EVEN_PUTT_FT 6.0
#define NINETY_HANDICAP 18.0
#define NINETY_EVEN_PUTT_FT 5.0
/* The shot whose scatter tells how much a lie costs, of those that every level has in the Accuracy Table. */
#define SCATTER_SHOT_YD 150.0
/* Strokes that bogey golfers lose besides have come in full after a few of these lengths, a pitch (common practice). */
#define SHORT_GAME_YD 30.0
/* Eighteen holes of 6530 yd: four of par 3, ten of par 4, four of par 5 (common practice). */
static const double standard_holes_yd[]
    = { 140, 160, 175, 195, 310, 330, 350, 365, 380, 395, 405, 415, 430, 440, 480, 500, 520, 540 };

/*
 * Tee shot: model golfers of the Course Rating System. Handicap: the middle of the manual's range. Yardage rating, in strokes for eighteen holes: length in
 * yards / `yd_per_stroke` + `strokes` (Course Rating System, from memory). A rating tells of the better half of a golfer's rounds. The scratch
 * golfers lose nothing besides their shorter shots, which alone puts eighteen holes 2 to 3 strokes over their rating, where the average of all
 * their rounds lies.
 */
static const struct
{
  double tee_shot_yd, handicap;
  bool loses_besides;
  double yd_per_stroke, strokes;
} level_rows[N_LEVELS] = {
  [LEVEL_SCRATCH_MEN] = { 250, 0, false, 220, 40.9 },
  [LEVEL_SCRATCH_WOMEN] = { 210, 0, false, 180, 40.1 },
  [LEVEL_BOGEY_MEN] = { 200, 20, true, 160, 50.7 },
  [LEVEL_BOGEY_WOMEN] = { 150, 24, true, 120, 51.9 },
};

/* What makes the professionals' table a golfer's. */
typedef struct
{
  double stretch, putt_stretch; /* a distance is to the golfer as this many times it is to a professional */
  double lie_factor;            /* on what a lie costs more than the fairway */
  double besides;               /* strokes lost besides from far away */
} Golfer;

static const Golfer tour = { 1, 1, 1, 0 };

/* Share of the strokes lost besides that is lost from a distance. */
static double
short_game_share (double distance_yd)
{
  return 1 - exp (-distance_yd / SHORT_GAME_YD);
}

/* From one distance, by lie. */
static void
golfer_strokes (const Golfer *golfer, double distance_yd, double strokes[N_LIES])
{
  Published published = published_at (golfer->stretch * distance_yd);
  double putts = tour_green (golfer->putt_stretch * distance_yd), fairway = published.columns[COLUMN_FAIRWAY];
  double besides = golfer->besides * short_game_share (distance_yd);
  for (int lie = 0; lie < N_LIES; lie++)
    {
      double open = fairway + golfer->lie_factor * (tour_lie ((Lie)lie, &published) - fairway) + besides;
      double putted = putts < open ? putts : open;
      strokes[lie] = lie == LIE_GREEN ? putted : lie == LIE_FRINGE ? (putted + open) / 2 : open + lie_rows[lie].penalty;
    }
}

/* The strokes lost besides that make the standard holes come out at the yardage rating. */
static double
strokes_besides (const Golfer *without, Level level)
{
  double length_yd = 0, strokes = 0, shares = 0, by_lie[N_LIES];
  for (size_t i = 0; i < G_N_ELEMENTS (standard_holes_yd); i++)
    {
      length_yd += standard_holes_yd[i];
      golfer_strokes (without, standard_holes_yd[i], by_lie);
      strokes += by_lie[LIE_TEE];
      shares += short_game_share (standard_holes_yd[i]);
    }
  double rating = length_yd / level_rows[level].yd_per_stroke + level_rows[level].strokes;
  return fmax (0, rating - strokes) / shares;
}

/* Standard deviation of the scatter, the geometric mean of the two ways. */
static double
scatter_m (Level level)
{
  double side_m, long_m;
  accuracy_spread (level, SCATTER_SHOT_YD * METRES_PER_YARD, &side_m, &long_m);
  return sqrt (side_m * long_m);
}

static Golfer
golfer_of_level (Level level)
{
  double even_putt_ft
      = between (LOW_HANDICAP, LOW_EVEN_PUTT_FT, NINETY_HANDICAP, NINETY_EVEN_PUTT_FT, level_rows[level].handicap);
  Golfer golfer = { .stretch = TOUR_DRIVE_YD / level_rows[level].tee_shot_yd,
                    .putt_stretch = TOUR_EVEN_PUTT_FT / even_putt_ft,
                    .lie_factor = scatter_m (level) / scatter_m (LEVEL_SCRATCH_MEN) };
  if (level_rows[level].loses_besides)
    golfer.besides = strokes_besides (&golfer, level);
  return golfer;
}

/* ---- the tables ---- */

/* fmax would look for NaN, of which there is none. */
static inline double
most (double a, double b)
{
  return a > b ? a : b;
}

static StrokesTable *
table_of (const Golfer *golfer)
{
  StrokesTable *table = g_new (StrokesTable, 1);
  for (int i = 0; i < STROKES_NODES; i++)
    {
      double strokes[N_LIES];
      golfer_strokes (golfer, i * STROKES_STEP_M / METRES_PER_YARD, strokes);
      for (int lie = 0; lie < N_LIES; lie++)
        table->strokes[lie][i] = most (1, strokes[lie]);
    }
  return table;
}

StrokesTable *
strokes_table_new_tour (void)
{
  return table_of (&tour);
}

StrokesTable *
strokes_table_new (Level level)
{
  g_assert ((unsigned)level < N_LEVELS);
  Golfer golfer = golfer_of_level (level);
  StrokesTable *table = table_of (&golfer);
  double best[N_LIES] = { 0 };
  /* Where the published columns fall, a golfer's goes on level, and is never below what a professional needs from less far. */
  for (int i = 0; i < STROKES_NODES; i++)
    {
      double strokes[N_LIES];
      golfer_strokes (&tour, i * STROKES_STEP_M / METRES_PER_YARD, strokes);
      for (int lie = 0; lie < N_LIES; lie++)
        {
          double *here = &table->strokes[lie][i];
          best[lie] = most (best[lie], most (1, strokes[lie]));
          if (i > 0)
            *here = most (most (*here, here[-1]), best[lie]);
        }
    }
  return table;
}

void
strokes_table_free (StrokesTable *table)
{
  g_free (table);
}

double
strokes_from (const Hole *hole, const StrokesTable *table, Vec2 target, Vec2 ball)
{
  return strokes_to_hole (table, hole_lie_at (hole, ball), vec2_distance (ball, target));
}
