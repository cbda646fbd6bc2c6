// SPDX-License-Identifier: GPL-3.0-or-later
/* read - what the reader's files and the writer share: contexts handed down the tree, elements as shapes, the reading of a parsed tree. */
#ifndef HOLEWRIGHT_SVG_READ_PRIVATE_H
#define HOLEWRIGHT_SVG_READ_PRIVATE_H

#include "document-private.h"
#include "facts-private.h"
#include "findings-private.h"

#define SVG_NAMESPACE "http://www.w3.org/2000/svg"
#define XLINK_NAMESPACE "http://www.w3.org/1999/xlink"

/* What an element gets from those above it and from its own attributes. The strings are borrowed from the tree. */
typedef struct
{
  Affine to_file; /* from the element's user space to the root's */
  bool even_odd;
  const char *kind;                /* word of hw:kind, NULL if none */
  const char *facts[N_PART_FACTS]; /* text of the inherited facts, NULL if not given */
} Context;

/* The root's. */
void context_start (Context *context);
/* The context of `element` below `parent`; false when its transform cannot be read. */
bool context_enter (const Context *parent, const xmlNode *element, Context *context);
/* From an element's user space to the hole frame: y up. */
Affine context_to_hole (const Context *context);

/* The geometry of a shape element in its own user space, and what it may stand for. */
typedef struct
{
  Path path; /* of a round shape only after shape_draw */
  bool is_area, is_point, is_line;
  Vec2 centre; /* is_point: a round shape */
  double rx, ry;
} Shape;

/* Draws the path of a round shape; many are only points and need none. */
void shape_draw (Shape *shape);

void shape_clear (Shape *shape);

/* State of one reading. */
typedef struct
{
  const Document *document;
  Box view_box; /* file frame; percentages are of it; empty if not given */
  unsigned ordinal;
  size_t n_segments;      /* written in the document */
  size_t n_area_segments; /* of all areas, round shapes as their curves */
  double n_points;        /* of all areas flattened, estimated */
  GPtrArray *parts;       /* const Part *, owned */
  GPtrArray *findings;    /* Finding *, owned */
  GHashTable *ids;        /* borrowed id -> line */
  Part *plan;             /* being read, else NULL */
  HoleInfo info;
  GError **error;
} Reader;

/* Sets the error at the line of element `node`; always false. */
bool reader_refuse (Reader *reader, unsigned node, SvgError code, const char *format, ...) G_GNUC_PRINTF (4, 5);
/* Notes something that can be lived with; takes over `what`. */
void reader_note (Reader *reader, FindingSeverity severity, unsigned node, char *what, const char *mend);

typedef enum
{
  AXIS_X,
  AXIS_Y,
  AXIS_BOTH
} Axis;

/*
 * A length such as "12", "3mm" or "10%" (of the view box) in user units; `*is_physical` (may be NULL): its unit is one of a ruler. False if it
 * is none, or a percentage of an empty box.
 */
bool length_read (const char *text, const Box *view_box, Axis axis, double *value, bool *is_physical);

/* A length attribute in user units; `absent` if it is not there. Refuses what is no length. */
bool reader_length (Reader *reader, unsigned node, const xmlNode *element, const char *attribute, Axis axis, double absent,
                    double *value);

/* One row of the table of shape elements. */
typedef struct
{
  const char *element;
  bool (*read) (Reader *reader, unsigned node, const xmlNode *element, Shape *shape);
} ShapeRow;

/* The row for elements of this name, NULL if they are no shapes. */
const ShapeRow *shape_row (const char *element_name);
/* Reads the geometry of such an element. An element that draws nothing gives an empty path. */
bool shape_read (Reader *reader, unsigned node, const xmlNode *element, const ShapeRow *row, Shape *shape);

/* ---- read-parts.c ---- */

/* Sets a fact of `base` from its text (NULL: not given); a text that is no value is noted. */
void reader_take_fact (Reader *reader, unsigned node, const Fact *fact, void *base, const char *text);
/* A new part with the facts of its element, and its end: sealed and in the list of parts. */
Part *reader_begin_part (Reader *reader, unsigned node, const xmlNode *element, const Context *context, Kind kind);
void reader_add_part (Reader *reader, Part *part);
/* Elements that may be parts, or shots while a plan is being read. False on an error. */
bool read_shape (Reader *reader, unsigned node, const xmlNode *element, const Context *context, const ShapeRow *row);
bool read_text (Reader *reader, unsigned node, const xmlNode *element, const Context *context);
bool read_image (Reader *reader, unsigned node, const xmlNode *element, const Context *context);

/* ---- days.c ---- */

/* Takes the day that a foreign element may be. */
void read_day (Reader *reader, unsigned node, const xmlNode *element);

/* ---- read.c ---- */

/* The hole in a parsed tree; `source` becomes its source. `findings` as in svg_read_bytes. */
Hole *read_document (const Document *document, GBytes *source, GPtrArray **findings, GError **error);

/* Text of the first SVG child of that name (title, desc), white space at its ends removed; NULL if there is none or it is empty. */
char *read_child_text (const xmlNode *element, const char *child_name);

#endif
