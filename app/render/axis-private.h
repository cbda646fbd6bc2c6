// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * axis - what the ruler and the clubs share: the panel's colours in both styles, and the columns that trouble drops through both.
 */
#ifndef HOLEWRIGHT_AXIS_PRIVATE_H
#define HOLEWRIGHT_AXIS_PRIVATE_H

#include "palette-private.h"
#include "text-private.h"

/* Colours of a panel, 0xRRGGBB. */
typedef struct
{
  unsigned band, panel, ink, quiet_ink, hair, bar, accent, on_accent;
} PanelColours;

const PanelColours *panel_colours (bool is_dark);

double axis_x (const RenderAxis *axis, double distance_m);
/* Tints the stretch of each piece of trouble on the shot line, from y0 to y1. */
void axis_draw_columns (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, double y0_px, double y1_px);
/* The dashed line at the carry of the shot in hand. */
void axis_draw_carry (cairo_t *cr, const RenderAxis *axis, const PlanScene *scene, double y0_px, double y1_px);
/* Whole units between numbers: the least of 1, 2, 5, 10, 20, ... that leaves them room; `*minor` is the tick between. */
double axis_major_step (double px_per_unit, double unit_px, double *minor);
/* Can anything be placed on it? */
bool axis_is_usable (const RenderAxis *axis);
/* The shot in hand, or NULL. */
const ShotResult *axis_shot (const PlanScene *scene);

#endif
