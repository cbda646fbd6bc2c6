// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * render - the one painter: hole, overlays, ruler, clubs, card. Screen and paper call the same functions on the same results.
 *
 * Nothing here computes a golf number and nothing here knows GTK. Lengths named _px are drawing units of the cairo context (CSS
 * pixels in the window, points on paper); `unit_px` says how many of them make one design unit of 1/96 inch, so strokes,
 * hatches and text come out the same size everywhere.
 */
#ifndef HOLEWRIGHT_RENDER_H
#define HOLEWRIGHT_RENDER_H

#include "hole.h"
#include "odds-places.h"
#include "odds-room.h"
#include "odds-section.h"
#include "odds.h"
#include "plan-map.h"
#include "plan.h"
#include "units.h"

#include <cairo.h>

/* ---- view: where the hole lies on the drawing ---- */

typedef struct
{
  Vec2 centre;      /* hole-frame point in the middle of the drawing */
  double px_per_m;
  double turn_rad;  /* anticlockwise turn of the hole on the drawing: 0 = up the hole */
  double width_px, height_px;
  double unit_px;   /* 1 on screen, 0.75 in points */
  LengthUnit units; /* of every label */
} RenderView;

/* Hole frame to drawing (y down). */
Affine view_to_drawing (const RenderView *view);
Vec2 view_point (const RenderView *view, Vec2 point_m);
Vec2 view_unproject (const RenderView *view, Vec2 point_px);
/* Fits `box` (hole frame, as turned) with a margin of `margin_px` all round, keeping the turn. */
void view_fit (RenderView *view, Box box, double margin_px);
/* Scales by `factor` about a fixed drawing point, within sensible limits (0.2 to 200 drawing px per metre). */
void view_zoom (RenderView *view, double factor, Vec2 about_px);
void view_pan (RenderView *view, Vec2 by_px);
/* The turn that makes ball -> aim run from left to right. */
double view_turn_along (Vec2 ball, Vec2 aim);
/*
 * The view of the Plan step: the shot runs left to right, its ball `left_px` from the left edge on the middle line, and the axis from the ball
 * to `reach_m` fills the width less `right_px`.
 */
void view_along_shot (RenderView *view, Vec2 ball, Vec2 aim, double reach_m, double left_px, double right_px);

/*
 * The view of the scene's shot in hand: left to right as view_along_shot, far enough to hold the aim, the landing and, when it is near enough, the
 * hole; moved up or down so that these stand in the middle. `width_px`, `height_px`, `unit_px` and `units` of the view are kept.
 */
struct PlanScene;
void view_frame_shot (RenderView *view, const struct PlanScene *scene);
/* The step in the hole frame, `length_m` long, that goes along `direction_px` on the drawing: what an arrow key moves. */
Vec2 view_step (const RenderView *view, Vec2 direction_px, double length_m);
/* Part of the way from one view to another, `part` 0..1: the turn by the shorter way round, the scale by equal ratios. */
RenderView view_between (const RenderView *from, const RenderView *to, double part);

/* ---- the hole ---- */

typedef enum
{
  PAINT_COLOUR,
  PAINT_GREY /* washes and inks as their luminance, for a look at what a mono printer gives */
} PaintInk;

/* Paints paper, ground, areas with hatch and edge, trees, markers, notes. Clip and source are restored. */
void render_hole (cairo_t *cr, const Hole *hole, const RenderView *view, PaintInk ink);
/* The same without paper and ground: what is painted over a kept picture while it moves. */
void render_things (cairo_t *cr, const Hole *hole, const RenderView *view, PaintInk ink);
/* What is painted later lies over what is painted earlier: all of a higher layer, within a layer what the document has later. */
unsigned render_layer (Kind kind);

typedef struct
{
  double red, green, blue;
} Colour;
/* Wash and edge of a kind, for swatches and bars. */
Colour render_kind_wash (Kind kind);
Colour render_kind_edge (Kind kind);
/* Fills the rectangle with the kind's wash, hatch and edge, in the stakes' colour for a penalty area: the swatch of legends and palettes. */
void render_swatch (cairo_t *cr, Kind kind, Stakes stakes, double x_px, double y_px, double width_px, double height_px,
                    double unit_px);

/* ---- overlays of the plan ---- */

/*
 * Words kept from one picture to the next, so that frames which follow each other need not shape and ink them again. Used on upright
 * images, where a word then starts on a quarter of a pixel; paper and recordings get their letters as ever. For the thread that made them.
 */
typedef struct _RenderWords RenderWords;
RenderWords *render_words_new (void);
/* With fonts of their own: for any thread, one at a time, while others write with theirs. Finding the fonts takes a moment more. */
RenderWords *render_words_new_apart (void);
void render_words_free (RenderWords *words);
/* Labels kept from one picture to the next: render-labels.h. The green by itself: render-green.h. */
struct _RenderLabels;
struct PlanGreen;

/* A plan beside others on the drawing; borrowed. */
typedef struct
{
  const Plan *plan;
  const char *name; /* "lay-up 4.31" */
} PlanTrack;

/* Tracks beyond these are not drawn: no more looks can be told apart. */
#define RENDER_MOST_TRACKS 3

/* Results to be painted; everything borrowed. */
typedef struct PlanScene
{
  const Hole *hole;
  const ShotResult *shots; /* in order */
  size_t n_shots;
  size_t current;           /* the shot in hand */
  const CarryTable *carries; /* of the shot in hand; may be NULL */
  const TreeTable *trees;    /* in its way; NULL: not asked for */
  const ClubToday *clubs;   /* of the bag's clubs from that shot's ball, in the bag's order; NULL: as the bag says */
  const AimMap *aims;       /* of the club in hand from that ball; NULL: not known (yet) */
  const Room *room;         /* of that shot, or nearly; NULL: not known (yet) */
  const OddsPlace *places;  /* of its odds, or nearly */
  size_t n_places;
  const PlanMap *map;       /* of the whole hole; NULL: not known (yet) */
  const PlanTrack *tracks;  /* of plans that are compared, each in the look of its place in the row */
  size_t n_tracks;
  PaintInk ink;
  RenderWords *words; /* may be NULL */
  const Box *taken;   /* drawing px: what labels keep clear of, such as the words of the drawing */
  size_t n_taken;
  struct _RenderLabels *labels; /* where they stood on the picture before; NULL: placed afresh */
  const struct PlanGreen *green; /* render-green.h; NULL: the green is not looked at by itself */
  Translate translate;           /* of every word; NULL: as written */
} PlanScene;

/* One picture of overlays in the making: rows ink their lines on it and hand in labels, which are placed together at the end. */
typedef struct _OverlaySheet OverlaySheet;

/* What of a scene costs too much to be found when nobody looks at it. */
typedef enum
{
  SCENE_NEEDS_TREES = 1 << 0,
  SCENE_NEEDS_ROOM = 1 << 1,
  SCENE_NEEDS_PLACES = 1 << 2,
  SCENE_NEEDS_MAP = 1 << 3
} SceneNeed;

typedef struct
{
  const char *name;  /* "carries" */
  const char *label; /* for the switch that shows it */
  bool is_default;
  void (*draw) (OverlaySheet *sheet);
  unsigned needs; /* of SceneNeed */
  void (*draw_still) (OverlaySheet *sheet); /* what of it stays where it is while an aim is dragged, without labels; NULL: nothing */
} Overlay;

/* Drawn in this order; ends with a row whose name is NULL: strokes, plans, aims, pattern, marks, left, carries, trees, room, odds, track, shot. Bit i of a mask switches row i. */
extern const Overlay overlay_table[];
unsigned overlay_default_mask (void);
/* What the rows of a mask need, of SceneNeed. */
unsigned overlay_needs (unsigned mask);
/* The line that track `i` is drawn with, across the rectangle from (0, 0): for legends. */
void render_track_swatch (cairo_t *cr, size_t i, double width_px, double height_px, double unit_px);
/* Returns the bounds in drawing px of what it drew, cut to the drawing; empty for nothing. */
Box render_overlays (cairo_t *cr, const PlanScene *scene, const RenderView *view, unsigned mask);
/* The same picture in two, the first under the second: what stays while an aim is dragged, to be kept, and what is drawn anew in every frame. */
Box render_still_overlays (cairo_t *cr, const PlanScene *scene, const RenderView *view, unsigned mask);
Box render_live_overlays (cairo_t *cr, const PlanScene *scene, const RenderView *view, unsigned mask);

/*
 * The picture of a map of aims as a PNG file: hole, map, pattern and shot of a scene that has them, `width_px` wide, up the hole. NULL with
 * `error` when it cannot be made.
 */
GBytes *render_aims_png (const PlanScene *scene, LengthUnit units, int width_px, GError **error);

/* A label and the point it speaks of; place_labels moves boxes so that none overlaps another or leaves the drawing. */
typedef struct
{
  Vec2 anchor_px;
  double width_px, height_px;
  Vec2 preferred_px; /* offset of the box's centre from the anchor that reads best; its direction is kept where possible */
  double most_heights; /* farther off than this many of its heights beyond the preferred place it is rather left out; 0: as far as is looked */
  unsigned place;      /* the result of an earlier picture, to be kept where that is free; 0: none. Result likewise */
  Vec2 stood_px;       /* with a place: offset of the box's centre from the anchor there. Result likewise */
  Box box_px;        /* result */
  bool is_placed;    /* result: false if there was no room, then it is not drawn */
} Label;

/* Deterministic: same labels and earlier places, same places; earlier ones have precedence. `avoid` are boxes to stay clear of. */
void place_labels (Label *labels, size_t n_labels, const Box *avoid, size_t n_avoid, Box within_px);

/* Scale bar of a round length at (x, y), and the north arrow when the bearing is known. */
void render_scale_bar (cairo_t *cr, const RenderView *view, double x_px, double y_px);
void render_north (cairo_t *cr, const RenderView *view, double up_bearing_deg, Vec2 centre_px);

/* ---- the wind's rose ---- */

/* A compass that lies as the drawing does, and the wind that is dragged about on it by its tail. */
typedef struct
{
  Vec2 centre_px;
  double radius_px, unit_px;
  double north_rad;          /* of north on the drawing, anticlockwise from its right */
  double wind_mps, from_deg; /* NAN or 0: calm, the tail in the middle */
  double most_mps;           /* the wind whose tail stands at the rim; a stronger one stands there too */
  RenderWords *words;        /* may be NULL */
} RenderRose;

/* The compass, and over it the wind. */
void render_rose_disc (cairo_t *cr, const RenderRose *rose);
void render_rose_wind (cairo_t *cr, const RenderRose *rose);
/* Where the wind's tail is. */
Vec2 render_rose_tail (const RenderRose *rose);
/* The wind whose tail is at `at_px`, no stronger than most_mps, its bearing from 0 to below 360. */
void render_rose_pick (const RenderRose *rose, Vec2 at_px, double *wind_mps, double *from_deg);

/* ---- ruler and clubs: one distance axis with the drawing ---- */

/* Distance d metres from the ball stands at x = zero_px + d * px_per_m. */
typedef struct
{
  double zero_px, px_per_m;
  double width_px;
  double unit_px;
  LengthUnit units;
  bool is_dark; /* panel colours of the dark style */
} RenderAxis;

/* Axis of a view that looks along the shot. */
RenderAxis axis_of_view (const RenderView *view, Vec2 ball);
void render_ruler (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, double height_px);
/* Height the clubs need for this bag. */
double render_clubs_height (const Bag *bag, const RenderAxis *axis);
/* One bar per club: mean carry on this day and the range of two shots of three; the scene's trouble drops through as tinted columns. `bag` may be NULL. */
void render_clubs (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, const Bag *bag, const Club *chosen, double height_px);
/* The bars and names alone, on nothing: what stays while an aim is dragged and nothing else changes. render_clubs without a bag is the rest. */
void render_club_bars (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, const Bag *bag, const Club *chosen,
                       double height_px);
/* Index of the club whose bar or name is at this place, or -1. */
int render_clubs_pick (const RenderAxis *axis, const Bag *bag, const ClubToday *clubs, double height_px, Vec2 at_px);

/* ---- a bag to be edited: a row a club, all on one distance axis ---- */

/* Heights of a row in design units of 1/96 inch: with the bar, and what a gap that is named takes below it. */
#define RENDER_BAG_BAR 30.0
#define RENDER_BAG_GAP 17.0

/* An axis on which every club of the bag has room with its spread, from a round distance at or below the shortest. */
RenderAxis render_bag_axis (const Bag *bag, double width_px, double unit_px, LengthUnit units);
/* Height of the row of club `i` in design units. */
double render_bag_row_height (const Bag *bag, size_t i);
/*
 * The row of club `i`: a bar over the carries of two of three shots, only its outline where that spread comes from the level; the carry as a line across it; under it,
 * for a club fitted to recorded shots, the standard error of the carry to both sides. A gap to the next club that is wide or narrow stands below, from carry to
 * carry. `range` beside the bar and `gap` beside the gap are words, NULL for none.
 */
void render_bag_row (cairo_t *cr, const RenderAxis *axis, const Bag *bag, size_t i, const char *range, const char *gap, PaintInk ink);

/* ---- the section: the shot from its side, on the same axis ---- */

/*
 * Ground with what lies on it, trees, the flight with the spread of nine balls in ten, and under it how landing and rest are spread; trouble drops through.
 * Heights are drawn as many times their true scale as the section says in its corner: what is in view always fits, as large as one of a few round factors
 * lets it.
 */
void render_section (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, const Section *section, double height_px);
/* That factor; 0 where nothing can be drawn. */
double render_section_factor (const RenderAxis *axis, const Section *section, double height_px);

/* ---- the card ---- */

typedef enum
{
  CARD_POCKET, /* 4 1/4 x 7 in (107.95 x 177.8 mm): the largest page the Rules allow for green-reading material (Rule 4.3a) */
  CARD_A6,
  CARD_A5,
  CARD_HALF_LETTER,
  N_CARD_PAGES
} CardPage;

typedef struct
{
  const char *token; /* "pocket" */
  const char *label;
  double width_mm, height_mm;
} CardPageInfo;

const CardPageInfo *card_page_info (CardPage page);
bool card_page_from_token (const char *token, CardPage *page);

typedef struct _Card Card;
/* A pen over one block's box; private to the card. */
typedef struct _CardPen CardPen;

/* Where on the page a block stands: a band over the whole width, the wide column, the narrow one, or the foot. */
typedef enum
{
  CARD_TOP,
  CARD_WIDE,
  CARD_NARROW,
  CARD_FOOT
} CardPlace;

/* Height that a block needs, and the most it can put to use; a block with nothing to say needs none and is left out. */
typedef struct
{
  double least_mm, most_mm;
} CardHeight;

/*
 * What the page is made of, in order from its top. Blocks can be switched off: bit i of CardOptions.blocks is row i of this table, which
 * ends with a NULL name. A new block is one row and its two functions.
 */
typedef struct
{
  const char *name;  /* "carries" */
  const char *label; /* "Carry table" */
  CardPlace place;
  CardHeight (*measure) (const Card *card, double width_mm);
  void (*draw) (const Card *card, CardPen *pen);
} CardBlock;
extern const CardBlock card_block_table[];
unsigned card_all_blocks (void);

typedef struct
{
  CardPage page;
  unsigned blocks;
  LengthUnit units;
  int scale;       /* denominator of the diagram's scale; 0: the largest of the round scales that fits */
  const char *tee; /* NULL: the tee in use */
  PaintInk ink;
  Translate translate; /* of every word on the card; NULL: as written */
} CardOptions;

void card_options_init (CardOptions *options);

/* What a card shows; all borrowed and to outlive the card. `course` and `bag` may be NULL (no plan's clubs then, no course name). */
typedef struct
{
  const Hole *hole;
  const Course *course;
  const Bag *bag;
} CardContent;

#define RENDER_ERROR (render_error_quark ())
GQuark render_error_quark (void);
typedef enum
{
  RENDER_ERROR_FIT,   /* does not fit at the scale asked for */
  RENDER_ERROR_FORMAT, /* unknown ending of the output's name */
  RENDER_ERROR_WRITE
} RenderError;

/* Lays a card out. Fails, never shrinks silently: "does not fit at 1:2000; next scale 1:2500". */
Card *card_new (const CardContent *content, const CardOptions *options, GError **error);
void card_free (Card *card);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Card, card_free)
void card_size_mm (const Card *card, double *width_mm, double *height_mm);
/* Denominator of the diagram's scale. */
int card_scale (const Card *card);
/* What does not fit or does not meet the Rules' size and scale: sentences, NULL-terminated, borrowed, possibly empty. */
const char *const *card_warnings (const Card *card);
/* Draws the card with its top left at the origin; `px_per_mm` drawing units make a millimetre. */
void card_draw (const Card *card, cairo_t *cr, double px_per_mm);
/* The card as a file's bytes: format "pdf", "svg" or "png" (PNG at 300 dots per inch). SOURCE_DATE_EPOCH is honoured. */
GBytes *card_bytes (const Card *card, const char *format, GError **error);
/* Several cards as the pages of one PDF. */
GBytes *card_book_bytes (const Card *const *cards, size_t n_cards, GError **error);
/* The format that a file name's ending asks for; NULL with `error` if none of the three. */
const char *card_format_of (const char *path, GError **error);

#endif
