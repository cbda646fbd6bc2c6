// SPDX-License-Identifier: GPL-3.0-or-later
/* Small edits of a tree: attributes, names, texts, and elements put in or taken out with the white space that belongs to them. */
#include "number-private.h"
#include "units.h"
#include "write-private.h"

#include <string.h>

/* Attributes that are the geometry of one shape or another. */
static const char *const geometry_attributes[]
    = { "d", "points", "x", "y", "width", "height", "rx", "ry", "cx", "cy", "r", "x1", "y1", "x2", "y2" };

void
xml_set (xmlNode *element, const char *name, const char *text)
{
  if (text)
    xmlSetNsProp (element, NULL, BAD_CAST name, BAD_CAST text);
  else
    xmlUnsetNsProp (element, NULL, BAD_CAST name);
}

/* A declaration of a namespace with a prefix, good at this element; NULL if there is none. */
static xmlNs *
find_namespace (xmlNode *element, const char *uri)
{
  for (xmlNode *node = element; node && node->type == XML_ELEMENT_NODE; node = node->parent)
    for (xmlNs *ns = node->nsDef; ns; ns = ns->next)
      if (ns->prefix && ns->href && strcmp ((const char *)ns->href, uri) == 0
          && xmlSearchNs (element->doc, element, ns->prefix) == ns)
        return ns;
  return NULL;
}

/* The same, declared at the root when there is none, under a prefix that means nothing else. */
static xmlNs *
namespace_of (Editor *editor, xmlNode *element, const char *uri, const char *prefix)
{
  xmlNs *ns = find_namespace (element, uri);
  for (int i = 0; !ns; i++)
    {
      g_autofree char *name = i == 0 ? g_strdup (prefix) : g_strdup_printf ("%s%d", prefix, i);
      if (!xmlSearchNs (editor->tree, element, BAD_CAST name) && !xmlSearchNs (editor->tree, editor->root, BAD_CAST name))
        ns = xmlNewNs (editor->root, BAD_CAST uri, BAD_CAST name);
    }
  return ns;
}

void
xml_set_fact (Editor *editor, xmlNode *element, const char *name, const char *text)
{
  if (text)
    xmlSetNsProp (element, namespace_of (editor, element, SVG_HOLE_NAMESPACE, "hw"), BAD_CAST name, BAD_CAST text);
  else
    {
      xmlAttr *attribute = xmlHasNsProp (element, BAD_CAST name, BAD_CAST SVG_HOLE_NAMESPACE);
      if (attribute)
        xmlRemoveProp (attribute);
    }
}

void
xml_set_number (xmlNode *element, const char *name, double value, double old, int decimals)
{
  /* Going to the user space and back leaves rounding far below the last decimal. */
  if (fabs (value - old) < 1e-3 * pow (10, -decimals))
    return;
  char text[UNITS_TEXT_SIZE];
  xml_set (element, name, units_print_decimals (value, decimals, text, sizeof text));
}

void
xml_rename (xmlNode *element, const char *name)
{
  if (strcmp ((const char *)element->name, name) == 0)
    return;
  for (size_t i = 0; i < G_N_ELEMENTS (geometry_attributes); i++)
    xml_set (element, geometry_attributes[i], NULL);
  xmlNodeSetName (element, BAD_CAST name);
}

void
xml_set_link (Editor *editor, xmlNode *element, const char *href)
{
  if (!document_attribute (element, "href", XLINK_NAMESPACE) && document_attribute (element, "href", NULL))
    xml_set (element, "href", href);
  else if (href)
    xmlSetNsProp (element, namespace_of (editor, element, XLINK_NAMESPACE, "xlink"), BAD_CAST "href", BAD_CAST href);
  else
    {
      xmlAttr *attribute = xmlHasNsProp (element, BAD_CAST "href", BAD_CAST XLINK_NAMESPACE);
      if (attribute)
        xmlRemoveProp (attribute);
    }
}

xmlNode *
xml_new_element (Editor *editor, const char *name)
{
  return xmlNewDocNode (editor->tree, editor->root->ns, BAD_CAST name, NULL);
}

void
xml_into_namespace (Editor *editor, xmlNode *element)
{
  xmlSetNs (element, namespace_of (editor, element, SVG_HOLE_NAMESPACE, "hw"));
}

static xmlNode *
find_child (const xmlNode *element, const char *name)
{
  for (xmlNode *child = element->children; child; child = child->next)
    if (document_is_element (child, SVG_NAMESPACE) && strcmp ((const char *)child->name, name) == 0)
      return child;
  return NULL;
}

bool
xml_has_child (const xmlNode *element, const char *child_name)
{
  return find_child (element, child_name) != NULL;
}

/* ---- elements and the white space before them ---- */

static bool
is_white (const xmlNode *node)
{
  return node && node->type == XML_TEXT_NODE && xmlIsBlankNode (node);
}

void
xml_take_out (xmlNode *element)
{
  xmlNode *before = element->prev;
  if (is_white (before) && (is_white (element->next) || !element->next))
    {
      /* Of the two runs of white space the one behind stays; before an end tag it is the one that leads to it. */
      xmlNode *doomed = element->next ? before : NULL;
      if (doomed)
        {
          xmlUnlinkNode (doomed);
          xmlFreeNode (doomed);
        }
    }
  xmlUnlinkNode (element);
}

static xmlNode *
copy_white (const xmlNode *white, xmlDoc *tree)
{
  return xmlNewDocText (tree, white->content);
}

void
xml_put_after (xmlNode *anchor, xmlNode *element)
{
  const xmlNode *white = is_white (anchor->prev) ? anchor->prev : NULL;
  xmlAddNextSibling (anchor, element);
  if (white)
    xmlAddPrevSibling (element, copy_white (white, element->doc));
}

void
xml_put_before (xmlNode *anchor, xmlNode *element)
{
  const xmlNode *white = is_white (anchor->prev) ? anchor->prev : NULL;
  xmlAddPrevSibling (anchor, element);
  if (white)
    xmlAddNextSibling (element, copy_white (white, element->doc));
}

void
xml_put_last (xmlNode *parent, xmlNode *element)
{
  xmlNode *last = xmlGetLastChild (parent);
  GString *indent = g_string_new ("\n");
  for (const xmlNode *node = parent; node->parent && node->parent->type == XML_ELEMENT_NODE; node = node->parent)
    g_string_append (indent, "  ");
  if (is_white (last))
    xmlAddPrevSibling (last, element);
  else
    {
      xmlAddChild (parent, element);
      xmlAddNextSibling (element, xmlNewDocText (element->doc, BAD_CAST indent->str));
    }
  g_string_append (indent, "  ");
  if (!element->prev || element->prev->type != XML_TEXT_NODE)
    xmlAddPrevSibling (element, xmlNewDocText (element->doc, BAD_CAST indent->str));
  g_string_free (indent, TRUE);
}

void
xml_set_child_text (xmlNode *element, const char *child_name, const char *text)
{
  xmlNode *child = find_child (element, child_name);
  if (!text)
    {
      if (child)
        {
          xml_take_out (child);
          xmlFreeNode (child);
        }
      return;
    }
  if (!child)
    {
      child = xmlNewDocNode (element->doc, element->ns, BAD_CAST child_name, NULL);
      xmlNode *first = element->children;
      while (is_white (first))
        first = first->next;
      if (first)
        xml_put_before (first, child);
      else
        xml_put_last (element, child);
    }
  xmlNodeSetContent (child, NULL);
  xmlNodeAddContent (child, BAD_CAST text);
}

void
xml_context_of (const xmlNode *element, Context *context)
{
  Context above;
  if (element->parent && element->parent->type == XML_ELEMENT_NODE)
    {
      xml_context_of (element->parent, &above);
      context_enter (&above, element, context); /* cannot fail: the document was read */
      return;
    }
  context_start (&above);
  context_enter (&above, element, context);
  context->to_file = affine_identity ();
}
