// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * section - what the painters of a shot seen from its side share: where a distance and a height stand on the drawing.
 *
 *     y 0 +---------------------------+
 *         | words          _.-""-._   |   sky: flight and trees
 *         |            _.-'        `. |
 *         |  o________/^^\__________`_|   ground: a ribbon of what lies on it, soil below
 *   foot  |---------------------------|
 *         |                  .-^-.    |   where balls land and rest
 *  height +---------------------------+
 */
#ifndef HOLEWRIGHT_SECTION_PRIVATE_H
#define HOLEWRIGHT_SECTION_PRIVATE_H

#include "axis-private.h"
#include "hatch-private.h"

typedef struct
{
  cairo_t *cr;
  const RenderAxis *axis;
  const PlanScene *scene;
  const ShotResult *shot;
  const Section *section;
  const PanelColours *colours;
  TextPen *text;
  double unit_px, height_px;
  double from_m, to_m;    /* what of the line is in view */
  double factor;          /* heights are drawn this many times their true scale */
  double low_m;           /* stands at low_px */
  double low_px, foot_px; /* lowest ground in view, foot of the soil */
} SectionSheet;

/* Design units of 1/96 inch. */
#define SECTION_RIBBON 12.0
#define SECTION_BALL 4.5

/* Place of a height on the drawing, and of a point. */
double section_y (const SectionSheet *sheet, double height_m);
Vec2 section_place (const SectionSheet *sheet, SectionPoint point);
/* Adds the surface from one distance to another to the path, `lift_px` above the ground; begins with a move, or with a line when there is a current point. */
void section_trace_ground (const SectionSheet *sheet, double from_m, double to_m, double lift_px);

void section_paint_ground (const SectionSheet *sheet);
/* Ball, aim and hole where they lie. */
void section_paint_marks (const SectionSheet *sheet);
void section_paint_trees (const SectionSheet *sheet);
/* The spread of the flights, which goes behind the ground. */
void section_paint_spread (const SectionSheet *sheet);
void section_paint_flight (const SectionSheet *sheet);
/* How landing and rest are spread, at the foot. */
void section_paint_ends (const SectionSheet *sheet);
/* Heights ruled behind all else, and the words before it. */
void section_paint_heights (const SectionSheet *sheet);
void section_paint_words (const SectionSheet *sheet);

#endif
