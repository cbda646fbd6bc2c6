// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * overlay - what the overlays of one picture share: the context, the scene, and the labels that are placed together at the end so that none
 * hides another, whichever overlay it came from.
 */
#ifndef HOLEWRIGHT_OVERLAY_PRIVATE_H
#define HOLEWRIGHT_OVERLAY_PRIVATE_H

#include "palette-private.h"
#include "render-labels.h"
#include "text-private.h"

#include <glib/gi18n.h>

typedef enum
{
  PLATE_PAPER,  /* ink on paper */
  PLATE_ACCENT, /* white on the accent */
  PLATE_INK,    /* paper on ink: advice */
  PLATE_NONE,   /* small ink with a paper halo */
  N_PLATES
} Plate;

/* Most important first: the order in which labels are given their places. */
typedef enum
{
  RANK_LEFT,
  RANK_ON_LINE,
  RANK_BESIDE,
  RANK_MARK
} LabelRank;

typedef struct
{
  unsigned key; /* which label it is, the same from picture to picture */
  Label label;
  Plate plate;
  LabelRank rank;
  bool has_leader; /* a thin line to the anchor when the label had to move away */
  char text[LABEL_TEXT_SIZE];
} OverlayLabel;

struct _OverlaySheet
{
  cairo_t *cr;
  const PlanScene *scene;
  const RenderView *view;
  const ShotResult *shot; /* the shot in hand */
  double unit_px;
  PaintInk ink;
  RenderWords *words; /* may be NULL */
  TextPen *text;
  Box ink_box;    /* what was inked so far */
  GArray *labels; /* of OverlayLabel */
  GArray *avoid;  /* of Box: places that labels keep clear of */
  RenderLabels *kept; /* where they stood before, may be NULL */
  unsigned key;       /* of the next label */
};

/* Unit vectors on the drawing: along the shot line, from the ball through the landing point, and to its right. */
Vec2 sheet_along (const OverlaySheet *sheet);
Vec2 sheet_right (const OverlaySheet *sheet);
/* Place on the drawing at this distance along the shot line. */
Vec2 sheet_on_line (const OverlaySheet *sheet, double distance_m);
/* Cuts lo..hi to the part of at + t * step that the drawing shows, with a margin inside its edges; false if nothing of it shows. */
bool sheet_cut (const OverlaySheet *sheet, Vec2 at_px, Vec2 step_px, double *lo, double *hi);
/* The same for a stretch of the shot line. */
bool sheet_visible_stretch (const OverlaySheet *sheet, double *from_m, double *to_m);
void sheet_avoid (OverlaySheet *sheet, Vec2 centre_px, double half_px);
/* Says which of its row's things the next label speaks of, so that it is known again when others come and go; else labels are counted. */
void sheet_label_of (OverlaySheet *sheet, size_t thing);
/* Adds a label whose box's edge stands `gap_px` from the anchor in the direction `towards_px`. */
void sheet_label (OverlaySheet *sheet, LabelRank rank, Plate plate, const char *text, Vec2 anchor_px, Vec2 towards_px,
                  double gap_px, bool has_leader);

/* A word or a format in the scene's language. */
const char *sheet_word (const OverlaySheet *sheet, const char *text);

/* Radius in standard deviations of the contour of a bivariate normal that holds a share p: sqrt (-2 ln (1 - p)) (Rayleigh distribution). */
#define PATTERN_HALF_SDS 1.1774100225154747
#define PATTERN_NINE_IN_TEN_SDS 2.1459660262893472
/* Adds the contour of a pattern at this radius to the path. */
void sheet_trace_contour (OverlaySheet *sheet, const Pattern *pattern, double sds);

/* Says that the path is about to be filled, or stroked up to this wide, so that the picture's bounds hold it. */
void sheet_will_ink (OverlaySheet *sheet, double width);
/* One line, ink or accent over a paper casing that keeps it readable on any wash. Clears the path. */
void sheet_stroke_cased (OverlaySheet *sheet, unsigned rgb, double width, double casing);
/* The same for a long line that is nearly level where the drawing is turned along the shot: its edges are shaded finely. */
void sheet_stroke_long (OverlaySheet *sheet, unsigned rgb, double width, double casing);

/* Does this area go on beyond the drawing? Then where the shot line leaves it is not known. */
bool carry_runs_off (const Hole *hole, const ShotResult *shot, const CarryRow *row);

/*
 * One picture of several scenes, such as the shots of a card: each of `rows` (ended by a NULL name, switched by `mask`) is drawn for every
 * scene, and the labels of all are placed together, clear of the boxes `avoid`.
 * Returns the bounds of what was drawn, cut to the drawing.
 */
Box render_overlay_rows (cairo_t *cr, const PlanScene *scenes, size_t n_scenes, const Overlay *rows, unsigned mask,
                         const RenderView *view, const Box *avoid, size_t n_avoid);

/* Hands their places before to `rows` (of OverlayLabel) where they hold for this view, and keeps how they stand when they are placed. */
void labels_recall (RenderLabels *kept, GArray *rows, const RenderView *view);
void labels_keep (RenderLabels *kept, const GArray *rows, const GArray *avoid, const RenderView *view);

/* The rows of the table. */
void overlay_strokes (OverlaySheet *sheet);
void overlay_strokes_still (OverlaySheet *sheet);
void overlay_aims (OverlaySheet *sheet);
void overlay_aims_still (OverlaySheet *sheet);
void overlay_plans (OverlaySheet *sheet);
void overlay_shot (OverlaySheet *sheet);
void overlay_marks (OverlaySheet *sheet);
void overlay_pattern (OverlaySheet *sheet);
void overlay_carries (OverlaySheet *sheet);
void overlay_left (OverlaySheet *sheet);
void overlay_trees (OverlaySheet *sheet);
void overlay_room (OverlaySheet *sheet);
void overlay_odds (OverlaySheet *sheet);
void overlay_green (OverlaySheet *sheet);
void overlay_track (OverlaySheet *sheet);

#endif
