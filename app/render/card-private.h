// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * card-private - a laid-out card, the facts it shows, and the pen its blocks draw with. Everything is in millimetres on the page, y down
 * from its top left, and the cairo context is scaled to match.
 */
#ifndef HOLEWRIGHT_CARD_PRIVATE_H
#define HOLEWRIGHT_CARD_PRIVATE_H

#include "palette-private.h"
#include "plan-ends.h"
#include "text-private.h"

#include <glib/gi18n.h>

#define MM_PER_INCH 25.4
/* The painter's design unit, 1/96 inch. */
#define CARD_UNIT_MM (MM_PER_INCH / 96)
/* Its marks, hatches and lettering are made for a window; on a card, read close by, they are this much smaller. */
#define CARD_MARK_MM (0.7 * CARD_UNIT_MM)
#define CARD_MOST_BLOCKS 16

/* Where a shot may end, dearest first. */
typedef struct
{
  ShotEnd ends[N_KINDS];
  size_t n;
} CardEnds;

struct _Card
{
  const Hole *hole; /* all borrowed */
  const Course *course;
  const Bag *bag;
  CardOptions options;
  double width_mm, height_mm;

  /* facts */
  int tee;    /* part index, -1 for none */
  Vec2 *line; /* measured line from the tee to the middle of the green */
  size_t n_line;
  ShotResult *shots;
  CarryTable **carries; /* one for each shot, only the rows that the card shows */
  size_t n_shots;
  CardEnds *ends;  /* of each planned shot; NULL: not known */
  bool is_planned; /* the shots are the plan's, else one stroke along the line of play */
  bool has_green;
  Vec2 approach; /* ball from which the green is played */
  GreenNumbers green;

  /* layout */
  Box boxes[CARD_MOST_BLOCKS]; /* of each row of the block table; empty: not on this card */
  RenderView view;             /* of the diagram, within its box */
  int scale, green_scale;
  GPtrArray *warnings; /* NULL-terminated */
};

struct _CardPen
{
  cairo_t *cr;
  TextPen *text;
  PaintInk ink;
  Box box; /* the block's own, on the page */
};

/* Muted ink of headings and units: 6.0:1 on white. */
#define CARD_MUTED 0x55616b

/* Sizes of lettering: em in mm. Smaller than the least nobody reads on a course (common practice: 5 point). */
#define CARD_TEXT_MM 2.5
#define CARD_SMALL_MM 2.1
#define CARD_LEAST_MM 1.85
#define CARD_RULE_MM 0.2

static inline TextStyle
card_style (double size_mm, TextWeight weight)
{
  return (TextStyle){ size_mm, weight, false };
}

/* Figures among words, not in a column. */
static inline TextStyle
card_running_style (double size_mm, TextWeight weight)
{
  return (TextStyle){ size_mm, weight, true };
}

/* A word or a format in the language of the card. */
static inline const char *
card_word (const Card *card, const char *text)
{
  return card->options.translate != NULL ? card->options.translate (text) : text;
}

/* ---- facts ---- */

/* Computes what the card shows. What cannot be computed becomes a warning. */
void card_facts_gather (Card *card);
void card_facts_clear (Card *card);
void card_warn (Card *card, const char *format, ...) G_GNUC_PRINTF (2, 3);
/* Where the shot is aimed, in words: "at the gate", "8 left of the hole". Free with g_free. */
char *card_aim_words (const Card *card, size_t shot);
/* "fairway 58 %, rough 22 %, bunker 12 %": what is hoped for, then what costs most, `most` ends in all. NULL when no chances are known. */
char *card_chance_words (const Card *card, size_t shot, size_t most);
void card_gather_chances (Card *card);
/* "wind 7 mph from the north-east · 16 °C · medium"; empty for a plan that says nothing of its day. Free with g_free. */
char *card_day_words (const Card *card);

/* ---- layout ---- */

/* Is the block of this name on the card? */
bool card_has_block (const Card *card, const char *name);
/* Extent of the hole that the diagram must hold. */
Box card_diagram_extent (const Card *card);
/* Sets the diagram's view and scale for its box. False with `error` if the scale asked for, or any, does not fit. */
bool card_fit_diagram (Card *card, Box box, GError **error);
/* Sets the scale of the green detail for its box. */
void card_fit_green (Card *card, Box box);

/* Draws the arcs of equal distance over the diagram; `avoid` receives the boxes (Box) of their numbers. */
void card_draw_arcs (const Card *card, CardPen *pen, GArray *avoid);
/* Draws every shot with its pattern and the carries that its line meets, their labels clear of each other and of the boxes. */
void card_draw_shots (const Card *card, CardPen *pen, const Box *avoid, size_t n_avoid);

/* ---- lettering ---- */

void card_ink (CardPen *pen, unsigned rgb);
/* Heading of a block with a rule under it; returns the height it takes. */
#define CARD_HEADING_MM 5.0
void card_heading (CardPen *pen, const char *left);
/* Right-aligned text on the line of the heading. */
void card_heading_right (CardPen *pen, const char *text, double right);
/* Straight line of the card's rule width. */
void card_rule (CardPen *pen, double x0, double y0, double x1, double y1);

/* ---- blocks ---- */

CardHeight card_measure_title (const Card *card, double width_mm);
void card_draw_title (const Card *card, CardPen *pen);
CardHeight card_measure_diagram (const Card *card, double width_mm);
void card_draw_diagram (const Card *card, CardPen *pen);
CardHeight card_measure_carries (const Card *card, double width_mm);
void card_draw_carries (const Card *card, CardPen *pen);
CardHeight card_measure_plan (const Card *card, double width_mm);
void card_draw_plan (const Card *card, CardPen *pen);
CardHeight card_measure_green (const Card *card, double width_mm);
void card_draw_green (const Card *card, CardPen *pen);
CardHeight card_measure_notes (const Card *card, double width_mm);
void card_draw_notes (const Card *card, CardPen *pen);
CardHeight card_measure_scale (const Card *card, double width_mm);
void card_draw_scale (const Card *card, CardPen *pen);
CardHeight card_measure_day (const Card *card, double width_mm);
void card_draw_day (const Card *card, CardPen *pen);
CardHeight card_measure_caution (const Card *card, double width_mm);
void card_draw_caution (const Card *card, CardPen *pen);

#endif
