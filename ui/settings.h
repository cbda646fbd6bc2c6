// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * settings - what the golfer prefers, kept in a key file in the user's config folder.
 *
 * Emits "changed" after every change; a change is written at once. A file that cannot be read or written costs nothing but the memory
 * of the preference: the reason is logged, the program goes on with its defaults.
 */
#ifndef HW_SETTINGS_H
#define HW_SETTINGS_H

#include "bag.h"
#include "render.h"
#include "units.h"

#include <glib-object.h>

#define HW_TYPE_SETTINGS (hw_settings_get_type ())
G_DECLARE_FINAL_TYPE (HwSettings, hw_settings, HW, SETTINGS, GObject)

typedef enum
{
  HW_STYLE_FOLLOW, /* as the desktop does */
  HW_STYLE_LIGHT,
  HW_STYLE_DARK,
  HW_N_STYLES
} HwStyle;

/* Reads the key file at `path`; NULL: holewright/settings.ini in the user's config folder. */
HwSettings *hw_settings_new (const char *path);

LengthUnit hw_settings_get_units (HwSettings *self);
void hw_settings_set_units (HwSettings *self, LengthUnit units);
Level hw_settings_get_level (HwSettings *self);
void hw_settings_set_level (HwSettings *self, Level level);
/* The bag file, or NULL: the one beside the hole, else the example's. Borrowed. */
const char *hw_settings_get_bag (HwSettings *self);
void hw_settings_set_bag (HwSettings *self, const char *path);
HwStyle hw_settings_get_style (HwSettings *self);
void hw_settings_set_style (HwSettings *self, HwStyle style);
/* Which rows of overlay_table are shown. */
unsigned hw_settings_get_overlays (HwSettings *self);
void hw_settings_set_overlays (HwSettings *self, unsigned mask);
CardPage hw_settings_get_card_page (HwSettings *self);
void hw_settings_set_card_page (HwSettings *self, CardPage page);
/* Which rows of card_block_table are printed. */
unsigned hw_settings_get_card_blocks (HwSettings *self);
void hw_settings_set_card_blocks (HwSettings *self, unsigned mask);
/* What was opened lately, newest first; NULL-terminated, borrowed. */
const char *const *hw_settings_get_recent (HwSettings *self);
void hw_settings_add_recent (HwSettings *self, const char *path);

#endif
