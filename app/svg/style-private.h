// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * style - how the elements of a drawing are painted: presentation attributes, style sheets with simple selectors, style attributes (SVG 1.1,
 * chapter 6), as far as is needed to tell shapes apart by colour and to leave out what is hidden.
 */
#ifndef HOLEWRIGHT_SVG_STYLE_PRIVATE_H
#define HOLEWRIGHT_SVG_STYLE_PRIVATE_H

#include "document-private.h"

typedef enum
{
  PROPERTY_FILL,
  PROPERTY_STROKE,
  PROPERTY_COLOR,
  PROPERTY_FILL_OPACITY,
  PROPERTY_FILL_RULE,
  PROPERTY_DISPLAY,
  PROPERTY_VISIBILITY,
  N_PROPERTIES
} Property;

/* Values in force at one element, NULL where nothing was said; the strings belong to the sheet. */
typedef struct
{
  const char *values[N_PROPERTIES];
} Style;

typedef struct _StyleSheet StyleSheet;

/* Every style element below `root`; selectors other than *, element, .class, element.class and #id are passed over. */
StyleSheet *style_sheet_new (const xmlNode *root);
void style_sheet_free (StyleSheet *sheet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (StyleSheet, style_sheet_free)

/* The style of `element` below `parent`. */
void style_enter (StyleSheet *sheet, const Style *parent, const xmlNode *element, Style *own);
bool style_is_hidden (const Style *style);
bool style_is_even_odd (const Style *style);
/*
 * What fills a shape: "#rrggbb", or as written where that is no plain colour ("url(#fade)"). A shape that is not filled gives the colour of its
 * line and sets `*is_stroke`; "none" if it has no line either. Free with g_free.
 */
char *style_colour (const Style *style, bool *is_stroke);

#endif
