// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * labels - finds each label a place near the point it speaks of, clear of the others.
 *
 * Places round the anchor are tried in one fixed order, nearest to the preferred one first, and the first free one is taken. So the
 * same labels always land in the same places, and a small movement of the anchors moves the boxes with them. A label that brings its place from
 * the picture before keeps it while it is free, so that none goes to and fro while something is dragged past it.
 */
#include "render.h"

#include <stdlib.h>

/* Tried distances beyond the preferred one, in label heights, and directions off the preferred one, in steps of a turn. */
#define N_RINGS 7
#define N_DIRECTIONS 24
#define N_PLACES (N_RINGS * N_DIRECTIONS)
static const double ring_heights[N_RINGS] = { 0, 0.5, 1, 1.75, 2.75, 4, 6 };
/* What a label height farther off costs, measured in turns of direction: 1.5 heights are as bad as a quarter turn. */
#define TURNS_PER_HEIGHT (0.25 / 1.5)
/* Rounding of a box that was slid to the edge. */
#define ROUNDING_PX 1e-9
/* Labels keep this share of a label's height apart. */
#define SPARE_SHARE 0.12
/* A place that moved round its anchor by no more than this many label heights since the picture before is still the same place. */
#define STEP_HEIGHTS 0.25

typedef struct
{
  double turn_rad, heights, cost;
  Vec2 turn; /* its cosine and sine, which all labels ask for */
} Place;

static int
place_compare (const void *a, const void *b)
{
  const Place *p = a, *q = b;
  if (p->cost != q->cost)
    return p->cost < q->cost ? -1 : 1;
  if (p->heights != q->heights)
    return p->heights < q->heights ? -1 : 1;
  return (p->turn_rad > q->turn_rad) - (p->turn_rad < q->turn_rad);
}

/* All places in the order in which they are tried. */
static void
list_places (Place *places)
{
  for (int ring = 0; ring < N_RINGS; ring++)
    for (int k = 0; k < N_DIRECTIONS; k++)
      {
        double turn = k <= N_DIRECTIONS / 2 ? (double)k / N_DIRECTIONS : (double)k / N_DIRECTIONS - 1;
        places[ring * N_DIRECTIONS + k]
            = (Place){ 2 * PI * turn, ring_heights[ring], fabs (turn) + TURNS_PER_HEIGHT * ring_heights[ring],
                       vec2 (cos (2 * PI * turn), sin (2 * PI * turn)) };
      }
  qsort (places, N_PLACES, sizeof *places, place_compare);
}

/* Distance from the centre of a box to its edge along the unit vector `u`. */
static double
box_reach (double width, double height, Vec2 u)
{
  double x = fabs (u.x) > 1e-9 ? width / 2 / fabs (u.x) : INFINITY;
  double y = fabs (u.y) > 1e-9 ? height / 2 / fabs (u.y) : INFINITY;
  return fmin (x, y);
}

static Box
box_about (Vec2 centre, double width, double height)
{
  return (Box){ centre.x - width / 2, centre.y - height / 2, centre.x + width / 2, centre.y + height / 2 };
}

/* The label's box at a place: turned from the preferred direction, with the same gap between anchor and box plus the ring's. */
static Box
box_at (const Label *label, const Place *place)
{
  Vec2 preferred = label->preferred_px, u = vec2_unit (preferred);
  double distance = vec2_length (preferred);
  if (place->heights == 0 && place->turn_rad == 0)
    return box_about (vec2_add (label->anchor_px, preferred), label->width_px, label->height_px);
  if (!(distance > 0))
    {
      u = vec2 (0, -1);
      distance = box_reach (label->width_px, label->height_px, u);
    }
  double gap = distance - box_reach (label->width_px, label->height_px, u);
  Vec2 turned = vec2 (place->turn.x * u.x - place->turn.y * u.y, place->turn.y * u.x + place->turn.x * u.y);
  double out = box_reach (label->width_px, label->height_px, turned) + gap + place->heights * label->height_px;
  return box_about (vec2_add (label->anchor_px, vec2_scale (turned, out)), label->width_px, label->height_px);
}

static bool
boxes_clash (Box a, Box b)
{
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}

static bool
covers (Box box, Vec2 point)
{
  return point.x > box.x0 && point.x < box.x1 && point.y > box.y0 && point.y < box.y1;
}

/*
 * Slides a box that looks over the edge of the drawing back inside, so that a label follows its anchor along the edge. False when it would
 * have to slide farther than a label height, or onto its own anchor, or has no room at all.
 */
static bool
slide_within (Box *box, const Label *label, Box within)
{
  Box from = *box;
  double dx = fmax (within.x0 - from.x0, 0) - fmax (from.x1 - within.x1, 0);
  double dy = fmax (within.y0 - from.y0, 0) - fmax (from.y1 - within.y1, 0);
  Box to = { from.x0 + dx, from.y0 + dy, from.x1 + dx, from.y1 + dy };

  if (hypot (dx, dy) > label->height_px || (covers (to, label->anchor_px) && !covers (from, label->anchor_px)))
    return false;
  *box = to;
  return to.x0 >= within.x0 - ROUNDING_PX && to.x1 <= within.x1 + ROUNDING_PX && to.y0 >= within.y0 - ROUNDING_PX
         && to.y1 <= within.y1 + ROUNDING_PX;
}

static bool
is_free (Box box, double spare, const Label *placed, size_t n_placed, const Box *avoid, size_t n_avoid)
{
  Box wide = box_grown (box, spare);
  for (size_t i = 0; i < n_placed; i++)
    if (placed[i].is_placed && boxes_clash (wide, placed[i].box_px))
      return false;
  for (size_t i = 0; i < n_avoid; i++)
    if (boxes_clash (box, avoid[i]))
      return false;
  return true;
}

static bool
label_is_usable (const Label *label)
{
  return isfinite (label->anchor_px.x) && isfinite (label->anchor_px.y) && isfinite (label->preferred_px.x)
         && isfinite (label->preferred_px.y) && label->width_px > 0 && label->height_px > 0 && isfinite (label->width_px)
         && isfinite (label->height_px);
}

/* Stands there if nothing is in the way. */
static bool
take_box (Label *labels, size_t i, Box box, const Box *avoid, size_t n_avoid, Box within_px)
{
  Label *label = &labels[i];
  if (!slide_within (&box, label, within_px) || !is_free (box, SPARE_SHARE * label->height_px, labels, i, avoid, n_avoid))
    return false;
  label->box_px = box;
  label->stood_px = vec2_sub (box_centre (box), label->anchor_px);
  label->is_placed = true;
  return true;
}

/* Where it stood before: at the same place round its anchor if that has not turned away meanwhile, else just there. */
static bool
stay (Label *labels, size_t i, const Place *places, const Box *avoid, size_t n_avoid, Box within_px)
{
  Label *label = &labels[i];
  if (label->place == 0 || label->place > N_PLACES)
    return false;
  Vec2 stood = vec2_add (label->anchor_px, label->stood_px);
  Box here = box_about (stood, label->width_px, label->height_px), turned = box_at (label, &places[label->place - 1]);
  bool is_near = vec2_distance (box_centre (turned), stood) <= STEP_HEIGHTS * label->height_px;
  return (is_near && take_box (labels, i, turned, avoid, n_avoid, within_px))
         || take_box (labels, i, here, avoid, n_avoid, within_px);
}

/* Where it stood before if it can, else the best free place. */
static void
find_place (Label *labels, size_t i, const Place *places, const Box *avoid, size_t n_avoid, Box within_px)
{
  Label *label = &labels[i];
  double most_heights = label->most_heights > 0 ? label->most_heights : INFINITY;
  if (stay (labels, i, places, avoid, n_avoid, within_px))
    return;
  label->place = 0;
  for (unsigned k = 0; k < N_PLACES && label->place == 0; k++)
    if (places[k].heights <= most_heights && take_box (labels, i, box_at (label, &places[k]), avoid, n_avoid, within_px))
      label->place = k + 1;
}

void
place_labels (Label *labels, size_t n_labels, const Box *avoid, size_t n_avoid, Box within_px)
{
  Place places[N_PLACES];
  list_places (places);
  for (size_t i = 0; i < n_labels; i++)
    {
      Label *label = &labels[i];
      label->is_placed = false;
      label->box_px = box_empty ();
      if (!label_is_usable (label))
        {
          label->place = 0;
          continue;
        }
      find_place (labels, i, places, avoid, n_avoid, within_px);
    }
}
