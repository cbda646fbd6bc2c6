// SPDX-License-Identifier: GPL-3.0-or-later
/* Bytes to tree: the scan, then libxml2 in a context of its own that reads nothing but these bytes. */
#include "document-private.h"

#include <libxml/parser.h>
#include <stdarg.h>
#include <string.h>

G_DEFINE_QUARK (svg - error - quark, svg_error)

void
document_fault (const char *name, unsigned line, SvgError code, GError **error, const char *format, ...)
{
  if (!error || *error)
    return;
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  if (line > 0)
    g_set_error (error, SVG_ERROR, code, "%s:%u: %s", name, line, message);
  else
    g_set_error (error, SVG_ERROR, code, "%s: %s", name, message);
}

void
document_free (Document *document)
{
  if (!document)
    return;
  g_free (document->name);
  xmlFreeDoc (document->tree);
  g_free (document->lines);
  g_free (document);
}

/* ---- parsing ---- */

/* The first thing the parser objected to. */
typedef struct
{
  char *message;
  unsigned line;
} Objection;

static void
on_objection (void *data, xmlError *problem)
{
  xmlParserCtxt *parser = data;
  Objection *first = parser->_private;
  bool is_harmless = problem->level < XML_ERR_ERROR && problem->code != XML_WAR_UNDECLARED_ENTITY;
  if (first->message || is_harmless)
    return;
  first->message = g_strstrip (g_strdup (problem->message ? problem->message : "not well-formed XML"));
  first->line = problem->line > 0 ? (unsigned)problem->line : 0;
  xmlStopParser (parser);
}

/*
 * No entity is ever loaded. libxml2's loader for external entities can only be set for the whole process; the handlers of one context can
 * be set for that context, and every load the parser makes of its own accord begins at one of these.
 */
static xmlParserInput *
refuse_entity (void *data, const xmlChar *public_id, const xmlChar *system_id)
{
  return NULL;
}

static void
ignore_external_subset (void *data, const xmlChar *name, const xmlChar *public_id, const xmlChar *system_id)
{
}

static xmlDoc *
parse_tree (GBytes *bytes, const char *name, GError **error)
{
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  xmlParserCtxt *parser = xmlNewParserCtxt ();
  Objection first = { NULL, 0 };
  parser->_private = &first;
  parser->sax->serror = on_objection;
  parser->sax->resolveEntity = refuse_entity;
  parser->sax->externalSubset = ignore_external_subset;
  /* XML_PARSE_HUGE lifts libxml2's bound of 10 MB, which an embedded photo passes; depth, attributes and entities are bounded by the scan. */
  xmlDoc *tree = xmlCtxtReadMemory (parser, data, (int)size, NULL, NULL,
                                    XML_PARSE_NONET | XML_PARSE_HUGE | XML_PARSE_NOERROR | XML_PARSE_NOWARNING);
  if (first.message || !tree)
    {
      document_fault (name, first.line, SVG_ERROR_FORMAT, error,
                      "the file is not well-formed XML (%s); mend it or save it anew",
                      first.message ? first.message : "no element in it");
      xmlFreeDoc (tree);
      tree = NULL;
    }
  g_free (first.message);
  xmlFreeParserCtxt (parser);
  return tree;
}

Document *
document_parse (GBytes *bytes, const char *name, GError **error)
{
  g_autoptr (Document) document = g_new0 (Document, 1);
  document->name = g_strdup (name);
  gsize size;
  const char *data = g_bytes_get_data (bytes, &size);
  if (size > SVG_MOST_BYTES)
    {
      document_fault (name, 0, SVG_ERROR_LIMIT, error, "the document is larger than %u MiB; simplify it", SVG_MOST_BYTES >> 20);
      return NULL;
    }
  if (!scan_document (data ? data : "", size, name, &document->lines, &document->n_elements, error))
    return NULL;
  document->tree = parse_tree (bytes, name, error);
  return document->tree ? g_steal_pointer (&document) : NULL;
}

/* ---- looking at the tree ---- */

bool
document_is_element (const xmlNode *node, const char *namespace_uri)
{
  return node->type == XML_ELEMENT_NODE && node->ns && strcmp ((const char *)node->ns->href, namespace_uri) == 0;
}

const char *
document_attribute_text (const xmlAttr *attribute)
{
  return attribute->children && attribute->children->content ? (const char *)attribute->children->content : "";
}

const char *
document_attribute (const xmlNode *element, const char *name, const char *namespace_uri)
{
  for (const xmlAttr *attribute = element->properties; attribute; attribute = attribute->next)
    if (strcmp ((const char *)attribute->name, name) == 0
        && (namespace_uri ? attribute->ns && strcmp ((const char *)attribute->ns->href, namespace_uri) == 0 : !attribute->ns))
      return document_attribute_text (attribute);
  return NULL;
}
