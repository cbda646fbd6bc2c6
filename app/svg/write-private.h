// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * write - editing the tree of a document so that it says what a Hole says, touching nothing else.
 *
 *      source --parse--> tree --read--> the hole as read        the hole to write
 *                          |                  \_____ compared, part by part _____/
 *                          |                                  |
 *                          '---- only the elements of parts that differ are edited ----> bytes
 */
#ifndef HOLEWRIGHT_SVG_WRITE_PRIVATE_H
#define HOLEWRIGHT_SVG_WRITE_PRIVATE_H

#include "read-private.h"

typedef struct
{
  const char *name; /* for messages */
  xmlDoc *tree;
  xmlNode *root;
  xmlNode **elements; /* elements[i]: element i of the document as read; [0] is NULL */
  size_t n_elements;
  GError **error;
} Editor;

/* ---- write-xml.c: attributes, names, texts ---- */

/* Sets an attribute without a namespace, or removes it when `text` is NULL. */
void xml_set (xmlNode *element, const char *name, const char *text);
/* The same in the program's namespace, which is declared at the root when it is not yet. */
void xml_set_fact (Editor *editor, xmlNode *element, const char *name, const char *text);
/* Sets a number with so many decimals unless it is `old` already (NAN: not known). */
void xml_set_number (xmlNode *element, const char *name, double value, double old, int decimals);
/* Turns the element into another, dropping the attributes that were its geometry. Nothing if it has the name already. */
void xml_rename (xmlNode *element, const char *name);
/* Sets the text of the title or desc child, made first of the children if there is none; NULL takes it out. */
void xml_set_child_text (xmlNode *element, const char *child_name, const char *text);
bool xml_has_child (const xmlNode *element, const char *child_name);
/* Sets what an image refers to, where it was, else as xlink:href. */
void xml_set_link (Editor *editor, xmlNode *element, const char *href);
/* A new SVG element, not yet in the tree. */
xmlNode *xml_new_element (Editor *editor, const char *name);
/* Moves an element in the tree into the program's namespace. */
void xml_into_namespace (Editor *editor, xmlNode *element);
/* Takes an element out, and the white space that led to it. Does not free it. */
void xml_take_out (xmlNode *element);
/* Puts an element behind or before `anchor` (with its white space), or as last child. */
void xml_put_after (xmlNode *anchor, xmlNode *element);
void xml_put_before (xmlNode *anchor, xmlNode *element);
void xml_put_last (xmlNode *parent, xmlNode *element);
/* The context an element's children get. */
void xml_context_of (const xmlNode *element, Context *context);

/* ---- write-order.c ---- */

/* One thing that stands as one element below a container, in the order wanted. */
typedef struct
{
  const void *value, *old; /* the part or shot to write, and as read (NULL: write it whole) */
  unsigned node;           /* as read, 0 if new */
  xmlNode *element;        /* NULL if new: made by order_place */
  bool stays;
} OrderItem;

/* Puts the elements below `container` in the order of the items, moving as few as possible, making those that are missing. */
void order_place (Editor *editor, xmlNode *container, OrderItem *items, size_t n_items);

/* ---- write-shape.c ---- */

/* Writes the geometry of a part (its plan's shots excepted) where it differs from `old` (NULL: all of it). */
bool write_shape (Editor *editor, xmlNode *element, const Part *old, const Part *part, bool is_new);
/* The same for a shot. */
bool write_shot_line (Editor *editor, xmlNode *element, const Shot *old, const Shot *shot);

/* ---- write-part.c ---- */

/* Writes all that differs from item->old (NULL: all). `read` is the part as its element has it, NULL for a new element. */
bool write_part (Editor *editor, const OrderItem *item, const Part *read);
void write_info (Editor *editor, const HoleInfo *old, const HoleInfo *info);

/* ---- days.c ---- */

/* The days kept with the hole, written anew when they differ. */
void write_days (Editor *editor, const HoleInfo *old, const HoleInfo *info);

/* ---- write.c ---- */

/* The tree as bytes in its own encoding, with an XML declaration if `source` has one. */
GBytes *write_tree (xmlDoc *tree, GBytes *source, const char *name, GError **error);

/* ---- compare.c ---- */

/* What differs by more than the millimetre that writing keeps, in words; NULL if nothing does. Free with g_free. */
char *write_difference (const Hole *hole, const Hole *back);

#endif
