// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * wind-finder - at what head or tail wind another club is better than the suggested one from the tee, found by a worker once there is a suggestion.
 *
 * It follows a planner: a suggestion that is out of date is no longer asked about, and nothing waits for it. Emits "changed" when anything that it tells is another.
 */
#ifndef HW_WIND_FINDER_H
#define HW_WIND_FINDER_H

#include "planner.h"

#define HW_TYPE_WIND_FINDER (hw_wind_finder_get_type ())
G_DECLARE_FINAL_TYPE (HwWindFinder, hw_wind_finder, HW, WIND_FINDER, GObject)

HwWindFinder *hw_wind_finder_new (HwPlanner *planner);
/* Of the suggestion that is shown, if it is current; NULL while it is not known. Borrowed, until "changed". */
const PlanWind *hw_wind_finder_get (HwWindFinder *self);
/* Is it still being looked for? */
bool hw_wind_finder_is_busy (HwWindFinder *self);

#endif
