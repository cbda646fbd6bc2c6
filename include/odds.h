// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds - one shot: where it lands, what it carries, what is left. Pure functions of an immutable hole.
 *
 * A shot is a ball, an aim, a club, a shape and a swing, on a day. The aim gives the direction; a full swing carries what the club carries on that day,
 * wherever along the line that is. The shape is planned for: the start line is turned so that on the standard day - still air, 20 C, sea level, level
 * ground - the ball lands on the line to the aim, plus the club's usual miss. Wind, air and ground then move it off, and the golfer moves the aim.
 */
#ifndef HOLEWRIGHT_ODDS_H
#define HOLEWRIGHT_ODDS_H

#include "bag.h"
#include "flight.h"
#include "hole.h"
#include "units.h"

#define ODDS_ERROR (odds_error_quark ())
GQuark odds_error_quark (void);
typedef enum
{
  ODDS_ERROR_AIM,     /* the aim is on the ball, or not finite */
  ODDS_ERROR_CLUB,    /* no club, or a swing outside 0..1 */
  ODDS_ERROR_NUMBERS, /* a pattern that is not finite */
  ODDS_ERROR_DAY      /* a day that golf is not played on, or a wind that cannot be turned onto the hole */
} OddsError;

/* ---- the day, as it is on a hole ---- */

typedef struct
{
  Air air;
  Wind wind; /* in the hole frame */
  Firmness firmness;
  double green_speed_ft; /* as a stimpmeter reads it */
} Conditions;

/* Greens slower or faster than these are not putted on (common practice: half and twice of what clubs keep). */
#define LEAST_GREEN_SPEED_FT 3.0
#define MOST_GREEN_SPEED_FT 20.0

/* Still air, 20 C, sea level, turf of medium firmness, greens of 9 ft. */
Conditions conditions_standard (void);
bool conditions_equal (const Conditions *a, const Conditions *b);
/*
 * A day on this hole, NULL: the standard one. What the day does not say is as on the standard day, but that the air is that of the hole's altitude where
 * the day gives neither altitude nor pressure. The hole's up-bearing turns the wind, which is that at WIND_HEIGHT_M over open country. False
 * with one sentence in `error` for numbers that golf is not played in, for a wind without a bearing and for one on a hole without an up-bearing.
 */
bool conditions_of_day (const Hole *hole, const Day *day, Conditions *conditions, GError **error);

/* Where one club's balls land: a bivariate normal. `along` is the unit vector of its long axis; side is positive to the right of it. */
typedef struct
{
  Vec2 mean, along;
  double long_sd_m, side_sd_m, correlation;
} Pattern;

/* Distances in metres from a ball to the green, along the line ball -> hole, and the room across that line at the hole. */
typedef struct
{
  double front_m, hole_m, back_m; /* first entry into the green, the hole, last exit */
  double left_m, right_m;         /* from the hole to the green's edge on each side */
  double depth_m;                 /* back - front */
} GreenNumbers;

typedef struct
{
  Vec2 ball, aim;
  const Club *club; /* borrowed */
  double swing;     /* 0 < swing <= 1 */
  ShotShape shape;
  double curve_m; /* how far it curves at a full swing on the standard day, + right; NAN: as the shape usually does */
  const Conditions *conditions; /* borrowed; NULL: the standard day */
  const LieTable
      *lies; /* borrowed; what the ball's lie does, `bag_lies` of the golfer's bag; NULL: nothing, as from a level fairway */
} ShotInput;

/*
 * The lie changes carry, spreads and spin by the factors of the table; on a slope the whole swing turns with the ground under the ball, at most by
 * MOST_STANCE_RAD, as the table says: uphill the ball starts higher, and with the ball above the feet of a right-hander it starts and curves left.
 * Carry and curve of a club are told for the fairway, so that the lie's factor is of them and `plays_m` is a carry as the bag tells it.
 *
 * Right-handed words: a draw curves left, a fade right. A straight shot curves as the club usually does; a draw or a fade as well when the club usually
 * does that, and else by 4 % of its carry (common practice).
 */
typedef struct
{
  Vec2 ball, aim;
  const Club *club;
  double swing;
  ShotShape shape;
  Conditions conditions;
  Lie lie;          /* of the ball */
  LieEffect effect; /* what it does to this club; see lie_effect_is_none */
  double stance_up_rad,
      stance_right_rad; /* how the ground under the ball rises along the line to the aim, and to the right of it */
  double curve_m;       /* how far it curves on the standard day, + right */
  Vec2 start;           /* unit vector of the start line */
  Vec2 landing;         /* centre of the pattern */
  double aim_m;         /* ball to aim */
  double carry_m;       /* ball to landing */
  double beyond_aim_m;  /* carry - aim distance: negative = "14 short of the aim" */
  double rise_m;        /* how much higher than the ball the landing lies */
  double apex_m;        /* how high the ball rises above where it lay */
  double
      plays_m; /* still, level standard carry from the fairway whose swing lands at the distance of the aim on this day from this lie */
  Pattern pattern;
  Vec2 rest; /* where the ball that lands on the landing point comes to rest */
  double run_m;
  /* The pattern carried through the run: as it changes within one deviation about the mean. The same as the landing pattern where balls stay. */
  Pattern rest_pattern;
  double left_m; /* rest to the hole; NAN without a target */
  bool has_green;
  GreenNumbers left; /* from the rest point, when has_green */
  Flight flight;     /* of the mean ball; its end is the landing to a few millimetres */
  Run run;
} ShotResult;

/* Nobody swings along steeper ground than this (common practice). */
#define MOST_STANCE_RAD (20 * PI / 180)

/*
 * Flies the shot. `hole_name` picks the hole location, NULL the one in use. False with `error` for an aim on the ball and the like, and for a club
 * that no ball leaves as it says.
 */
bool odds_shot (const Hole *hole, const char *hole_name, const ShotInput *input, ShotResult *result, GError **error);
/* The same as far as the landing pattern, for who flies many: how far it plays, its run and what it leaves are not found; they are 0, left_m NAN. */
bool odds_shot_landing (const Hole *hole, const ShotInput *input, ShotResult *result, GError **error);

/* What a ball is played from: on a tee within two club-lengths of a tee marker, else by the area it lies in. */
Lie odds_lie (const Hole *hole, Vec2 ball);

/* A club's full swing from a place and its lie, as the bag's table of lies has it, towards an aim, on a day. NAN where no ball leaves the club so, or none comes down. */
typedef struct
{
  const Club *club;      /* borrowed */
  double carry_m, run_m; /* ball to landing; landing to rest */
  double side_m;         /* landing off the line to the aim, + right */
  double low_m, high_m;  /* two of three carries lie between them */
} ClubToday;

/* Each club of the bag in its order: `clubs` has room for bag_n_clubs. `conditions` NULL: the standard day. */
void odds_clubs_today (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, ClubToday *clubs);
/* One of them; false where no ball leaves it so, or none comes down. */
bool odds_club_today (const Hole *hole, Vec2 ball, Vec2 aim, const Club *club, const LieTable *lies,
                      const Conditions *conditions, ClubToday *today);
/* What a ball meets that comes down or rolls on a lie, level, on such a day. */
Surface odds_surface (Lie lie, const Conditions *conditions);
/* As bag_choose does, by what the clubs carry on this day. */
const Club *odds_choose_club (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions,
                              bool from_tee, double *swing);

/* What the day alone does to a club: the same swing over the same ground on this day and on the standard one. */
typedef struct
{
  ClubToday today, standard;
  double carry_change_m, run_change_m; /* today less standard: negative = shorter */
  double side_change_m;                /* + = further right */
} ClubDay;

/* Each club of the bag in its order: `clubs` has room for bag_n_clubs. Changes are NAN for a club that does not fly on one of the days. */
void odds_clubs_day (const Hole *hole, Vec2 ball, Vec2 aim, const Bag *bag, const Conditions *conditions, ClubDay *clubs);

/* Share of a full swing that lands the club where the shot plays so far (`plays_m` of a shot), never above 1. */
double odds_fit_swing (const Club *club, double plays_m);

/* Numbers of the green in play from `ball`. False without a green, or with the ball on the hole. */
bool odds_green_numbers (const Hole *hole, const char *hole_name, Vec2 ball, GreenNumbers *numbers);

/* ---- the carry table ---- */

typedef enum
{
  SIDE_ON,
  SIDE_LEFT,
  SIDE_RIGHT
} Side;

/* "on", "left", "right". */
const char *side_token (Side side);

/*
 * One area on or beside the shot line, horizontal metres from the ball.
 *
 * On the line: a row each time the line crosses it. Its corridor is what hangs together with that crossing within the corridor.
 *
 * Beside the line: a row for each side on which the area comes inside the pattern's TOUCH_SDS ellipse, unless the line itself crosses
 * it inside that ellipse. The row speaks of the part of the area that the ellipse touches as far as it lies in the pattern's fan, all
 * lines from the ball through that ellipse: trees along the hole begin where they come into the fan, and a bunker beside the tee,
 * which the ball cannot reach from there, is no row.
 */
typedef struct
{
  size_t part; /* index in the hole */
  Side side;
  /* Where the line enters and leaves it; beside the line: the nearest and the farthest point of that part. */
  double reach_m, carry_m;
  /* 0 on the line; beside it the shortest distance of that part from it, where that part runs on to the line further off from the
     line's stretch inside the ellipse. */
  double gap_m;
  /* Least and greatest over the lines within +-1.5 side sd; NAN when none of them meets it. */
  double corridor_reach_m, corridor_carry_m;
  double clear; /* chance that this shot's carry along the line exceeds carry_m */
} CarryRow;

typedef struct
{
  CarryRow *rows; /* on the line by reach, then beside it by reach */
  size_t n_rows;
} CarryTable;

/* Half-width of the corridor at the landing point in side standard deviations, and size of the ellipse that decides what is beside. */
#define CORRIDOR_SDS 1.5
#define TOUCH_SDS 2.5

/*
 * Every area of a known kind that the shot line crosses, from the ball through the landing point to the edge of the drawing, and those
 * beside it that the landing pattern touches. Lines of the corridor run from the ball through points beside the landing point. Exact for
 * the flattened outlines, but that an outline crossing itself very often is taken to fill its part of the corridor. Free with
 * carry_table_free.
 */
CarryTable *carry_table_new (const Hole *hole, const ShotResult *shot);
void carry_table_free (CarryTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CarryTable, carry_table_free)

/*
 * Is row `row` one to tell the golfer of? Trouble, no more than a club and a half beyond the longest ball of the pattern, and not the water
 * inside a penalty area that has a row of its own.
 */
bool carry_row_is_telling (const Hole *hole, const ShotResult *shot, const CarryTable *table, size_t row);

/* What a shot does about trouble on its line: flies over it, stays short of it, or pitches in it. */
typedef enum
{
  PASS_OVER,
  PASS_SHORT,
  PASS_INTO
} Pass;

/* No chance is shown as more certain than this: the model is not. */
#define MOST_CHANCE_SHOWN 0.99

/* "over", "short", "into". */
const char *pass_token (Pass pass);

/* The likeliest of the three for a row on the line, and its chance 0..1 along the line. */
Pass carry_row_pass (const ShotResult *shot, const CarryRow *row, double *chance);

/* Chance that a standard normal is below z. */
double normal_below (double z);

/* ---- odds: how likely each outcome is ---- */

/* The pattern as the mean and the two vectors that spread standard normals. */
Normal pattern_normal (const Pattern *pattern);

/*
 * A part of a shot's balls: the good strikes, and the poor ones that a bag tells of (`mishit_pct`). A poor strike flies, on this day over this ground, as a swing of
 * `mishit_carry_pct` of this one does (MISHIT_CARRY_SHARE where the bag does not say), and scatters MISHIT_SPREAD times as widely both ways as the good ones, without
 * correlation.
 */
#define MOST_STRIKES 2
#define MISHIT_SPREAD 2.0      /* common practice */
#define MISHIT_CARRY_SHARE 0.7 /* common practice */
typedef struct
{
  double share; /* 0..1 of the balls */
  Pattern pattern;
  FlightPoint landing; /* of the mean ball */
} Strike;
/* How many kinds of strikes the shot has, in `strikes`: 1 or 2. 0 with `error` where the poor ones cannot be flown. */
size_t odds_strikes (const Hole *hole, const ShotResult *shot, Strike strikes[MOST_STRIKES], GError **error);

typedef struct
{
  int part; /* index of the area in the hole, or of a single tree that stops balls, its kind KIND_TREES; -1: the ground, where no area lies */
  Kind kind;
  double landing; /* chance 0..1 that the carry ends there */
  double rest;    /* chance 0..1 that the ball is there after its run */
} OddsRow;

typedef struct
{
  OddsRow *rows; /* by rest, then by landing, largest first; areas that no ball reaches are left out, the ground never */
  size_t n_rows;
  /* By kind, the ground among those of its kind. These add up to 1, too. */
  double landing[N_KINDS], rest[N_KINDS];
} OddsTable;

/*
 * The odds of one shot, from any lie. Landing: the integral of the pattern over each face of the hole, without sampling, good to 1e-9 and adding up to 1 as well.
 *
 * Rest: what lands on a face is carried by its own run. Balls where they stay - sand, water, trees - stay; of a face of turf the share that runs on to each other area is found with
 * balls on a grid over the pattern, as fast as the mean one and run as odds_shot runs it; the grid is made finer where neighbours end on different areas. Adds up to 1 to 1e-9,
 * exact where nothing runs, otherwise within REST_ERROR of running every ball.
 *
 * Trees on the way: landing is told as if there were none. At rest the balls that a canopy stops in the air, as tree_table_new has it, are in that area of trees or under that tree;
 * a ball that comes down among trees stays there. Poor strikes fly as the mean ball does, stretched.
 *
 * NULL with `error` for areas that cannot be told apart (hole_faces) and for numbers that are not finite. Free with odds_table_free.
 */
#define REST_ERROR 0.005
/* Where a ball rests that comes down so on this day, however it got there. False with `error` for ground that has no slope and numbers that are not finite. */
bool odds_rest_of (const Hole *hole, const Conditions *conditions, const FlightPoint *landing, Vec2 *rest, GError **error);
OddsTable *odds_table_new (const Hole *hole, const ShotResult *shot, GError **error);
void odds_table_free (OddsTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddsTable, odds_table_free)

/* ---- trees in a ball's way ---- */

/* One tree or one area of trees in the shot's fan. */
typedef struct
{
  size_t part; /* index in the hole */
  double near_m,
      far_m; /* where the line to the landing point passes it; where that passes beside it, how far it reaches in the fan */
  /* Least height of the mean ball's track over its top, negative: into it. NAN when the track passes beside it. */
  double clearance_m;
  double chance; /* 0..1 that the shot gets past it */
} TreeRow;

typedef struct
{
  TreeRow *rows; /* by near_m */
  size_t n_rows;
  double chance; /* 0..1 that the shot gets past all of them */
} TreeTable;

/*
 * Every tree and area of trees that the balls of the pattern, TOUCH_SDS about, fly over or into.
 *
 * The model: a ball comes down somewhere in the landing pattern, and its track is the mean ball's stretched and sheared to come down there. Where it is
 * below the top inside a canopy, the canopy stops it with the area's density, a single tree with the usual one, TREES_DENSITY; what stops it on its
 * way down counts as well, though it would have come to rest there anyway. Canopies reach down to the ground, and stop balls independently of one
 * another. Chances are integrals over the pattern, good to 0.2 %. Free with tree_table_free.
 */
TreeTable *tree_table_new (const Hole *hole, const ShotResult *shot);
/* A canopy that the mean ball clears by less is worth a look (common practice). */
#define TREE_NEAR_M 3.0
/* Is it one to tell the golfer of? It stops more than one ball in a hundred, or the mean ball passes over it nearer than TREE_NEAR_M. */
bool tree_row_is_telling (const TreeRow *row);
void tree_table_free (TreeTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TreeTable, tree_table_free)

/* ---- what to start it at, where to finish ---- */

/* What of a landmark is meant. */
typedef enum
{
  SIGHT_WHOLE,      /* a mark, a tree, the flag, or an area that looks narrow from the ball */
  SIGHT_LEFT_EDGE,  /* of an area, as seen from the ball */
  SIGHT_MIDDLE,     /* of an area, between its edges */
  SIGHT_RIGHT_EDGE, /* of an area, as seen from the ball */
  SIGHT_AIM         /* no landmark is near the line: told from the aim; `part` is SIZE_MAX */
} SightOf;

/* "whole", "left-edge", "middle", "right-edge", "aim". */
const char *sight_token (SightOf of);

/* A landmark near a line from the ball. */
typedef struct
{
  SightOf of;
  size_t part;       /* index in the hole */
  Vec2 at;           /* the landmark's place */
  double distance_m; /* along the line, ball to where it passes the landmark */
  double right_m;    /* the line passes so far to the right of it, negative: left */
} Sight;

typedef struct
{
  Sight start;      /* of the line on which the ball leaves */
  Sight finish;     /* of the line from the ball through the landing point, or where that lies across its fairway or green */
  bool is_straight; /* both lines are one to a golfer's eye: `finish` says nothing new */
} Sights;

/* Landmarks this far off the line or nearer to the ball than this are not sighted by (common practice: two fingers at arm's length; a long putt). */
#define SIGHT_MOST_OFF_RAD (5 * PI / 180)
#define SIGHT_LEAST_M 40.0
/* A line within this of a landmark goes at it: nobody aims finer (common practice). */
#define SIGHT_AT_RAD (0.5 * PI / 180)

/*
 * By what to start a shot and to see it finish: of the landmarks near each line the one least off it, where each step down in the table of kinds
 * (KindInfo.landmark) and the lack of a name count as half a degree more (common practice). Of several trees without names near a line none counts: nobody finds one of them again. Every landmark is taken to be in view. `hole_name` picks the
 * hole location, NULL the one in use.
 */
Sights odds_sights (const Hole *hole, const char *hole_name, const ShotResult *shot);

/* Looks up the golfer's language: takes an English text of the tables, returns the one to be read. */
typedef const char *(*Translate) (const char *text);

/* A part as golfers speak of it: "the pond", "the bunker" where it has no name, "Big Sand" where its name begins with a capital. Free with g_free. */
char *part_words (const Part *part, Translate translate);

/*
 * "4 yd left of the oak (180 yd)", "at the right edge of the bunker (221 yd)", "at the tree 230 yd out": behind "start it" or "finish". `translate` NULL: English. Free with g_free.
 */
char *sight_words (const Hole *hole, const Sight *sight, LengthUnit unit, Translate translate);
/* "Start it at the oak (180 yd), finish 3 yd right of the flag (240 yd)"; of a straight shot only its first half. Free with g_free. */
char *sights_words (const Hole *hole, const Sights *sights, LengthUnit unit, Translate translate);

/* ---- a plan's shots ---- */

/*
 * Flies each shot of plan part `plan` of the hole from its own ball, on the plan's day, with clubs from `bag` (chosen by the aim where the shot names
 * none).
 * New array of hole_part (plan)->n_shots results, free with g_free; NULL with `error` naming the shot.
 */
ShotResult *odds_plan (const Hole *hole, size_t plan, const Bag *bag, GError **error);

/*
 * Flies shot `i` of a plan part, sealed or not, as odds_plan does. The part need not be one of the hole's: an edit asks about a plan that is not on
 * the hole yet. False with `error`, which does not name the shot.
 */
bool odds_plan_shot (const Hole *hole, const Part *plan, size_t i, const Bag *bag, ShotResult *result, GError **error);

/* Where a point is, as golfers say it. Metres; NAN where there is no such thing. */
typedef struct
{
  double from_ball_m; /* from the ball of the shot */
  double to_hole_m;   /* to the hole in use */
  double right_m;     /* off the shot line, + right */
} Whereabouts;

Whereabouts odds_whereabouts (const Hole *hole, const char *hole_name, const ShotResult *shot, Vec2 at);

#endif
