// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bag - the golfer's clubs: what each carries in still air at 20 C, sea level, flat, and how its balls scatter; and what recorded shots tell
 * of them.
 *
 * A Bag is immutable and reference counted. Spreads are standard deviations in metres. Right is positive across the line.
 */
#ifndef HOLEWRIGHT_BAG_H
#define HOLEWRIGHT_BAG_H

#include "flight.h"
#include "hole.h"
#include "units.h"

#include <glib.h>
#include <stdbool.h>
#include <stddef.h>

typedef enum
{
  LEVEL_SCRATCH_MEN,
  LEVEL_SCRATCH_WOMEN,
  LEVEL_BOGEY_MEN,
  LEVEL_BOGEY_WOMEN,
  N_LEVELS
} Level;

/* Whose spread fills a gap in a bag until the golfer says otherwise; the window and the commands agree on it. */
#define LEVEL_DEFAULT LEVEL_SCRATCH_MEN

/* "scratch-men", "bogey-women", ... */
const char *level_token (Level level);
bool level_from_token (const char *token, Level *level);

/*
 * Half the width over sigma of the ellipse that holds two of every three shots of a circular normal: sqrt (2 ln 3).
 * The published table does not say whether its area is an ellipse or a rectangle; the program takes it as an ellipse.
 */
#define TWO_OF_THREE_ELLIPSE 1.4823038073675112

/*
 * Half the width over sigma of the stretch of one line that holds two of every three shots: a standard normal is within it with
 * chance 2/3, Phi^-1 (5/6). A carry written as a range, 185-195, means just that: two of three shots carry between its ends, so its
 * standard deviation along the line is 5 / 0.967.
 */
#define TWO_OF_THREE_LINE 0.967421566101701

/* A carry above this is a slip of the pen (common practice). */
#define BAG_LONGEST_CARRY_M 500.0

/*
 * Spread of a shot of `carry_m` by a golfer of this level, standard deviations in metres, interpolated linearly in the Accuracy
 * Table of the Course Rating System (Course Rating System Manual, section 4.4); beyond its ends the share of the carry is kept.
 */
void accuracy_spread (Level level, double carry_m, double *side_sd_m, double *long_sd_m);

/* How well the figures of a club fitted to recorded shots are known: their standard errors, NAN where there is none. */
typedef struct
{
  size_t n_shots; /* that they were fitted to; 0: they were not, and nothing else of this is looked at */
  double carry_m, carry_sd_m, side_sd_m, correlation, side_bias_m, mishit_chance, mishit_carry_share;
} ClubErrors;

typedef struct
{
  char *name;
  double carry_m;          /* mean */
  double carry_sd_m;       /* along the line */
  double side_sd_m;        /* across it */
  double correlation;      /* -1..1, positive = long goes right */
  double side_bias_m;      /* mean miss, + right */
  double loft_deg, apex_m; /* NAN if not given */
  double curve_m;          /* usual curve at full carry, + right */
  bool tee_only;
  double mishit_chance;      /* 0..1, share of poor strikes */
  double mishit_carry_share; /* their mean carry as a share of the full one; NAN if not given */
  bool carry_sd_from_level, side_sd_from_level; /* that spread was filled in from the accuracy table */
  bool spread_from_level;    /* one of the two, or both */
  ClubErrors errors;
  Launch launch;             /* of a full swing with its usual curve; of a club read from a bag */
  Vec2 lands;                /* the ball of that launch on the standard day: to the right of its start line, and along it */
} Club;

/* A club without a name of which nothing is known: numbers that can be missing are NAN, the others 0. */
void club_init (Club *club);

/* Two of three shots carry between these. */
void club_two_of_three (const Club *club, double *low_m, double *high_m);

typedef struct _Bag Bag;
typedef struct _LieTable LieTable;

#define BAG_ERROR (bag_error_quark ())
GQuark bag_error_quark (void);
typedef enum
{
  BAG_ERROR_READ,  /* the file cannot be read */
  BAG_ERROR_FORMAT /* its content cannot be used; the message begins "FILE:LINE: " */
} BagError;

/* A bag of more clubs than this is used with a warning (Rules of Golf, Rule 4.1b). */
#define BAG_MOST_CLUBS 14

/*
 * Reads a bag file: CSV after RFC 4180, UTF-8, a header row that names the columns. `name` is used in messages.
 * A missing spread is filled from `level`; a spread column wins over the spread of a range. Columns of other names are passed over. Each club's
 * launch is solved from its carry, loft or apex, and curve; a club that no ball flies like is refused.
 * At most 1 MiB. NULL with `error` set: "NAME:LINE: what is wrong; what to do".
 * bag_read_file reads what lies do to the clubs as well, from BAG_LIES_FILE beside the bag where there is one.
 */
#define BAG_LIES_FILE "lies.csv"
Bag *bag_read_bytes (GBytes *bytes, const char *name, Level level, GError **error);
Bag *bag_read_file (const char *path, Level level, GError **error);
Bag *bag_ref (Bag *bag);
void bag_unref (Bag *bag);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Bag, bag_unref)

size_t bag_n_clubs (const Bag *bag);
/* Longest carry first. Borrowed. */
const Club *bag_club (const Bag *bag, size_t i);
/* By name, case ignored; NULL if there is none. */
const Club *bag_find (const Bag *bag, const char *name);
/* Sentences for the golfer, such as too many clubs; NULL-terminated, borrowed, possibly empty. */
const char *const *bag_warnings (const Bag *bag);
/* What lies do to its shots: lies.csv beside the bag's file, else the usual table. Borrowed. */
const LieTable *bag_lies (const Bag *bag);
/* The same bag with another table of lies. */
Bag *bag_with_lies (const Bag *bag, const LieTable *lies);
/* Whose spreads fill its gaps. */
Level bag_level (const Bag *bag);
/* The same bag, its gaps filled from another level. */
Bag *bag_with_level (const Bag *bag, Level level);
/*
 * Club for an aim at `distance_m`: the one whose full carry comes nearest, the longer of two alike, without the clubs for the tee when
 * the ball is not on it; for an aim short of the shortest club's carry that club with `*swing` < 1 to fit, else 1.
 * NULL only for an empty choice.
 */
const Club *bag_choose (const Bag *bag, double distance_m, bool from_tee, double *swing);

/* ---- gaps between neighbouring clubs ---- */

/* A gap over 15 yd leaves distances that no full swing has; under 5 yd two clubs do the work of one (common practice). */
#define BAG_WIDE_GAP_M (15 * METRES_PER_YARD)
#define BAG_NARROW_GAP_M (5 * METRES_PER_YARD)

typedef enum
{
  GAP_EVEN,
  GAP_WIDE,
  GAP_NARROW
} GapKind;

typedef struct
{
  double gap_m; /* by which the club carries further than the next shorter one */
  GapKind kind;
} BagGap;

/* "even", "wide", "narrow". */
const char *gap_token (GapKind kind);
/* The gap between club `i` and the next shorter one; false for the shortest. */
bool bag_gap (const Bag *bag, size_t i, BagGap *gap);

/* ---- writing and editing ---- */

/* The columns of a bag file, in the order of their documentation. */
typedef enum
{
  BAG_COLUMN_CLUB,
  BAG_COLUMN_CARRY,
  BAG_COLUMN_CARRY_SD,
  BAG_COLUMN_SIDE_SD,
  BAG_COLUMN_CORRELATION,
  BAG_COLUMN_SIDE_BIAS,
  BAG_COLUMN_LOFT,
  BAG_COLUMN_APEX,
  BAG_COLUMN_CURVE,
  BAG_COLUMN_SURFACES,
  BAG_COLUMN_MISHIT,
  BAG_COLUMN_MISHIT_CARRY,
  /* Of a club fitted to recorded shots; what cannot be read of them is passed over. */
  BAG_COLUMN_SHOTS,
  BAG_COLUMN_CARRY_SE,
  BAG_COLUMN_CARRY_SD_SE,
  BAG_COLUMN_SIDE_SD_SE,
  BAG_COLUMN_CORRELATION_SE,
  BAG_COLUMN_SIDE_BIAS_SE,
  BAG_COLUMN_MISHIT_SE,
  BAG_COLUMN_MISHIT_CARRY_SE,
  N_BAG_COLUMNS
} BagColumn;

/*
 * A bag remembers the file it was read from. An edit gives a new bag and touches only the cells it changes: other columns, the order of rows and
 * columns, line ends, quotes and the very text of every other cell stay (a range "185-195" stays one). A column that the file lacks is added
 * behind the others, lengths in the unit of the carry. What an edit makes is read again, so whatever the reader refuses is refused here in
 * its words: NULL with `error`.
 */

/* The file of the bag, byte by byte as it was read where nothing was edited. A bag without clubs is a header, which does not read back. */
GBytes *bag_write_bytes (const Bag *bag);
/* A bag without clubs, lengths in `unit`; `name` is used in messages. */
Bag *bag_new (const char *name, LengthUnit unit, Level level);
/*
 * Club `i` by value: only what differs from the present club is written, numbers to 9 decimals. A range moves along with its carry. NAN
 * empties a cell, so that a spread comes from the level again. What is filled `from_level` is not looked at. A figure that changes loses its standard
 * error, unless that changes too.
 */
Bag *bag_with_club (const Bag *bag, size_t i, const Club *club, GError **error);
/* One club more, written behind the shortest of those that carry as far. */
Bag *bag_inserting_club (const Bag *bag, const Club *club, GError **error);
Bag *bag_without_club (const Bag *bag, size_t i);

/* Decimal places in which a length is shown in another unit than the file's. */
#define BAG_TEXT_PLACES 1
/* The unit of a column that holds lengths, "carry_yd": UNIT_YARDS. */
LengthUnit bag_column_unit (const Bag *bag, BagColumn column);
/* What stands in a cell, lengths in `unit`: the very text where the file has that unit; "" for nothing. Free with g_free. */
char *bag_cell (const Bag *bag, size_t i, BagColumn column, LengthUnit unit);
/*
 * A cell as a golfer types it: "185-195", "170 m" or "140+12 yd" for a carry, lengths in `unit` where they name none; "" for nothing. A range typed for the carry
 * takes the place of a spread in a column of its own. A figure typed loses its standard error.
 */
Bag *bag_with_cell (const Bag *bag, size_t i, BagColumn column, const char *typed, LengthUnit unit, GError **error);

/* ---- making a bag ---- */

/*
 * A usual bag of a golfer of this level, carries whole in `unit`: the drive as that of the model golfers of the Course Rating System, less 20 yd of roll (Course
 * Rating System Manual: 250, 210, 200 and 150 yd); what the other clubs carry beside it, and the lofts, are common practice.
 */
Bag *bag_new_usual (const char *name, LengthUnit unit, Level level);
/* A name that no club of the bag has: `wanted`, else "wanted 2", "wanted 3"... Free with g_free. */
char *bag_free_name (const Bag *bag, const char *wanted);
/* Where one club more is of most use: in the middle of the widest gap, whole in `unit`. */
double bag_propose_carry_m (const Bag *bag, LengthUnit unit);
/* Club `i` once more under a name of its own, with all that its row holds, behind it. */
Bag *bag_duplicating_club (const Bag *bag, size_t i, GError **error);
/*
 * Is this a bag file by its header: columns for a club and its carry, and none for the side of a shot, which recorded shots have? Says nothing of
 * the lines below it.
 */
bool bag_is_bag_file (const char *path);
/* The bag files of a folder by name, as absolute paths: a GPtrArray of char *; none where it cannot be read. */
GPtrArray *bag_list_folder (const char *folder);

/* ---- what a lie does to a shot ---- */

/*
 * What becomes of a shot there. The first four are factors on what the club does from the fairway: its carry, the spreads along the line and across it, its
 * spin. A club of less loft than `least_loft_rad` does not get the ball out cleanly: it carries less by `lacking_loss` of its carry for each radian that it lacks,
 * but never less than LEAST_LIE_CARRY of it. The swing turns with the tilt of the ground under the ball by `stance_share` of that tilt: uphill adds loft, downhill takes it
 * off, a ball above a right-hander's feet starts and curves left.
 */
typedef struct
{
  double carry_factor, long_factor, side_factor, spin_factor;
  double least_loft_rad, lacking_loss, stance_share;
} LieEffect;

/* The ball of an unfit club still goes a tenth of its way. */
#define LEAST_LIE_CARRY 0.1

struct _LieTable
{
  LieEffect effects[N_LIES];
};

/* "rough", "sand", ... as the file of lies has them; NULL for a lie that nothing is played from. */
const char *lie_token (Lie lie);
/* The table of a golfer who has none of their own: common practice, the spread from the rough after published approaches (app/bag/lies.c). */
LieTable lie_table_usual (void);
/* Does nothing to any shot on level ground? So it is on the tee and on the fairway. */
bool lie_effect_is_none (const LieEffect *effect);
/* What the lie does to this club: `carry_factor` with what the club lacks of loft taken off. A club without a loft has the usual one for its carry. */
LieEffect lie_effect_on (const LieTable *table, Lie lie, const Club *club);
/*
 * Reads a file of lies: CSV as the bag's, a lie a line. Columns: `lie`, and in per cent of what the club does from the fairway `carry_pct`,
 * `long_spread_pct`, `side_spread_pct`, `spin_pct`; `least_loft_deg`; `lacking_loft_pct`, by how many per cent of its carry a club falls short for each degree that it
 * lacks; `stance_pct`. A lie or figure that is not given is the usual one. False with `error`, `*table` untouched.
 */
bool lie_table_read_bytes (GBytes *bytes, const char *name, LieTable *table, GError **error);
bool lie_table_read_file (const char *path, LieTable *table, GError **error);
/*
 * The table as a file: `before`, the file it was read from, with only the figures that differ changed, to 9 decimals; all lies when it is NULL or cannot
 * be read.
 */
GBytes *lie_table_write_bytes (const LieTable *table, GBytes *before);

/* ---- recorded shots and what they tell of the clubs ---- */

/*
 * A file of recorded shots: CSV as the bag's, a shot a line. Columns: `club`; `carry_yd` or `carry_m`, as flown; `side_yd` or `side_m`, where it
 * came down right (+) or left (-) of the line aimed along. Columns of other names, such as a total or a note, are passed over.
 * The shots are taken as hit in still air; names of clubs are the same whatever their case.
 */
typedef struct _ShotLog ShotLog;

/* Most shots in one file: several golfers' lifetimes (common practice); at most 64 MiB. */
#define SHOT_LOG_MOST_SHOTS 1000000
/* More clubs than this in one file are a column that holds something else (common practice). */
#define SHOT_LOG_MOST_CLUBS 100

/* NULL with `error` set: "NAME:LINE: what is wrong; what to do". */
ShotLog *shot_log_read_bytes (GBytes *bytes, const char *name, GError **error);
ShotLog *shot_log_read_file (const char *path, GError **error);
void shot_log_free (ShotLog *log);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (ShotLog, shot_log_free)

typedef struct
{
  const char *club;
  const double *carry_m, *side_m; /* n_shots of each, as in the file */
  size_t n_shots;
} ClubShots;

size_t shot_log_n_clubs (const ShotLog *log);
/* Clubs as they first appear in the file. Borrowed. */
ClubShots shot_log_club (const ShotLog *log, size_t i);

/* A figure and its standard error; NAN where it cannot be told. */
typedef struct
{
  double value, se;
} Figure;

/* Fewer shots than this tell where a club goes but nothing of how it scatters: the sd of four is wrong by 40 % as often as one time in three. */
#define FIT_LEAST_SHOTS 5
/* Fewer shots than this are never parted into good and poor strikes: the mixture alone has 10 numbers to be found. */
#define FIT_LEAST_MIXED 12

typedef struct
{
  const char *club; /* borrowed from the log */
  size_t n_shots;
  bool has_mishits; /* poor strikes were told apart; all but the last two figures are then of the good ones */
  Figure carry_m, carry_sd_m, side_bias_m, side_sd_m, correlation; /* spreads from FIT_LEAST_SHOTS on */
  Figure mishit_chance, mishit_carry_share;                        /* NAN without poor strikes */
} ClubFit;

/* What a number of shots is too few for. */
typedef enum
{
  FIT_TELLS_ALL,
  FIT_TELLS_NO_MISHITS, /* fewer than FIT_LEAST_MIXED: poor strikes are not told apart */
  FIT_TELLS_NO_SPREAD   /* fewer than FIT_LEAST_SHOTS */
} FitWorth;

FitWorth club_fit_worth (const ClubFit *fit);

/*
 * What the shots of one club tell. One bivariate normal, or that for the good strikes and a second for the poor: shorter, at least as wide both
 * ways, without correlation, found by expectation and maximisation (Dempster, Laird and Rubin 1977, J. R. Statist. Soc. B 39:1-38) and kept where
 * the Bayesian information criterion (Schwarz 1978, Ann. Statist. 6:461-464) prefers it, so that few shots are never parted.
 * Standard errors without poor strikes: sd / sqrt (n), sd / sqrt (2 (n - 1)), (1 - r^2) / sqrt (n - 1) (Stuart and Ord, Kendall's Advanced Theory of
 * Statistics, vol. 1, ch. 10); with them from the observed information, which also counts that a strike's kind is not known for sure (Louis 1982,
 * J. R. Statist. Soc. B 44:226-233). The order of the shots does not matter.
 */
void club_fit (const ClubShots *shots, ClubFit *fit);
/* Every club of the log, longest carry first. `shot_log_n_clubs` of them; free with g_free. */
ClubFit *bag_fit (const ShotLog *log);
/*
 * The bag with the fitted figures written over those of the clubs of the same name, the others added behind them. A figure that cannot be
 * told is not written: what the bag has of it stays, else it comes from the level. The standard errors and the number of shots are written beside them.
 * NULL with `error` where the reader refuses a figure.
 */
Bag *bag_with_fit (const Bag *bag, const ClubFit *fits, size_t n_fits, GError **error);

#endif
