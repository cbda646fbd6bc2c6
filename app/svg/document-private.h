// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * document - any XML of the program's own as a tree, with the line of every element, made only after a scan of the bytes has shown that
 * parsing takes bounded time and memory.
 */
#ifndef HOLEWRIGHT_SVG_DOCUMENT_PRIVATE_H
#define HOLEWRIGHT_SVG_DOCUMENT_PRIVATE_H

#include "svg.h"

#include <libxml/tree.h>

/* Bounds on the whole document, so that a tree of any file up to SVG_MOST_BYTES stays within 512 MiB. */
#define DOCUMENT_MOST_NODES 400000
#define DOCUMENT_MOST_ATTRIBUTES 600000
/* Namespace declarations in force at one place: each element's name is looked for among them. */
#define DOCUMENT_MOST_NAMESPACES 200

typedef struct
{
  char *name; /* for messages */
  xmlDoc *tree;
  unsigned *lines; /* lines[i]: where the start tag of element i begins; root = 1, lines[0] is 0 */
  size_t n_elements;
} Document;

Document *document_parse (GBytes *bytes, const char *name, GError **error);
void document_free (Document *document);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Document, document_free)

/* Sets "NAME:LINE: message", or "NAME: message" for line 0. */
void document_fault (const char *name, unsigned line, SvgError code, GError **error, const char *format, ...)
    G_GNUC_PRINTF (5, 6);

/* Is this an element of that namespace? */
bool document_is_element (const xmlNode *node, const char *namespace_uri);
/* Text of the attribute, borrowed; NULL if absent. `namespace_uri` NULL: an attribute without a namespace. */
const char *document_attribute (const xmlNode *element, const char *name, const char *namespace_uri);
/* Text of one attribute, borrowed. */
const char *document_attribute_text (const xmlAttr *attribute);

/*
 * Looks over the bytes without building anything: counts and bounds what a parser would build, refuses document type declarations with an
 * internal subset and encodings in which a markup character could hide. `*lines` is as in Document.
 */
bool scan_document (const char *bytes, size_t size, const char *name, unsigned **lines, size_t *n_elements, GError **error);

#endif
