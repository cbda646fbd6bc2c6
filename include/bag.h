// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * bag - the golfer's clubs: what each carries in still air at 20 C, sea level, flat, and how its balls scatter.
 *
 * A Bag is immutable and reference counted. Spreads are standard deviations in metres. Right is positive across the line.
 */
#ifndef HOLEWRIGHT_BAG_H
#define HOLEWRIGHT_BAG_H

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
  bool spread_from_level;    /* a spread was filled in from the accuracy table */
} Club;

typedef struct _Bag Bag;

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
 * A missing spread is filled from `level`; a spread column wins over the spread of a range. Columns of other names are passed over.
 * At most 1 MiB. NULL with `error` set: "NAME:LINE: what is wrong; what to do".
 */
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
/*
 * Club for an aim at `distance_m`: the one whose full carry comes nearest, the longer of two alike, without the clubs for the tee when
 * the ball is not on it; for an aim short of the shortest club's carry that club with `*swing` < 1 to fit, else 1.
 * NULL only for an empty choice.
 */
const Club *bag_choose (const Bag *bag, double distance_m, bool from_tee, double *swing);

#endif
