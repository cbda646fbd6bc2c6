// SPDX-License-Identifier: GPL-3.0-or-later
/* A hole as a document: its source untouched, its source edited, or a new document edited. */
#include "units.h"
#include "write-private.h"

#include <libxml/xmlsave.h>
#include <string.h>

/* Pixels a metre for viewers that show a new document, as in the format's example. */
#define VIEWER_PX_PER_M 4

/* ---- from source to editor ---- */

static void
collect_elements (Editor *editor, xmlNode *element, size_t *ordinal)
{
  editor->elements[++*ordinal] = element;
  for (xmlNode *child = element->children; child; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      collect_elements (editor, child, ordinal);
}

/* A document that says nothing but its frame. */
static GBytes *
new_source (const Hole *hole)
{
  const Box *given = &hole_info (hole)->view_box;
  Box box = box_is_empty (*given) ? hole_extent (hole) : *given;
  char x[UNITS_TEXT_SIZE], y[UNITS_TEXT_SIZE], width[UNITS_TEXT_SIZE], height[UNITS_TEXT_SIZE];
  units_print_decimals (box.x0, 3, x, sizeof x);
  units_print_decimals (0 - box.y1, 3, y, sizeof y);
  units_print_decimals (box.x1 - box.x0, 3, width, sizeof width);
  units_print_decimals (box.y1 - box.y0, 3, height, sizeof height);
  char *text = g_strdup_printf ("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                                "<svg xmlns=\"" SVG_NAMESPACE "\" xmlns:hw=\"" SVG_HOLE_NAMESPACE "\" hw:version=\"%d\" "
                                "viewBox=\"%s %s %s %s\" width=\"%d\" height=\"%d\">\n</svg>\n",
                                SVG_HOLE_VERSION, x, y, width, height, (int)((box.x1 - box.x0) * VIEWER_PX_PER_M),
                                (int)((box.y1 - box.y0) * VIEWER_PX_PER_M));
  return g_bytes_new_take (text, strlen (text));
}

/* ---- parts ---- */

/* The parts of the document as read, by the ordinal of their elements. */
static const Part **
parts_by_node (const Hole *read, size_t n_elements)
{
  const Part **by_node = g_new0 (const Part *, n_elements + 1);
  for (size_t i = 0; i < hole_n_parts (read); i++)
    by_node[hole_part (read, i)->node] = hole_part (read, i);
  return by_node;
}

/* Pairs each part with its element; of parts that share one the first keeps it. Elements whose part is gone are taken out. */
static void
pair_parts (Editor *editor, const Hole *hole, const Part *const *by_node, OrderItem *items)
{
  g_autofree bool *is_taken = g_new0 (bool, editor->n_elements + 1);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      unsigned node = part->node;
      items[i].value = part;
      if (node == 0 || node > editor->n_elements || !by_node[node] || is_taken[node])
        continue;
      is_taken[node] = true;
      items[i].old = by_node[node];
      items[i].node = node;
      items[i].element = editor->elements[node];
    }
  for (size_t node = 1; node <= editor->n_elements; node++)
    if (by_node[node] && !is_taken[node])
      {
        xml_take_out (editor->elements[node]);
        xmlFreeNode (editor->elements[node]);
      }
}

static bool
edit_parts (Editor *editor, const Hole *read, const Hole *hole)
{
  size_t n_parts = hole_n_parts (hole);
  g_autofree const Part **by_node = parts_by_node (read, editor->n_elements);
  g_autofree OrderItem *items = g_new0 (OrderItem, n_parts + 1);
  pair_parts (editor, hole, by_node, items);
  order_place (editor, editor->root, items, n_parts);
  for (size_t i = 0; i < n_parts; i++)
    if (!write_part (editor, &items[i], items[i].node > 0 ? by_node[items[i].node] : NULL))
      return false;
  return true;
}

/* ---- from tree to bytes ---- */

static bool
has_declaration (GBytes *source)
{
  gsize size;
  const char *text = g_bytes_get_data (source, &size);
  return g_strstr_len (text, MIN ((gssize)size, 8), "<?xml") != NULL;
}

GBytes *
write_tree (xmlDoc *tree, GBytes *source, const char *name, GError **error)
{
  bool declare = has_declaration (source);
  xmlBuffer *buffer = xmlBufferCreate ();
  const char *encoding = tree->encoding ? (const char *)tree->encoding : "UTF-8";
  xmlSaveCtxt *save = xmlSaveToBuffer (buffer, encoding, XML_SAVE_AS_XML | (declare ? 0 : XML_SAVE_NO_DECL));
  bool good = save && xmlSaveDoc (save, tree) >= 0;
  good = save && xmlSaveClose (save) >= 0 && good;
  GBytes *bytes = good ? g_bytes_new (xmlBufferContent (buffer), (gsize)xmlBufferLength (buffer)) : NULL;
  xmlBufferFree (buffer);
  if (!bytes)
    document_fault (name, 0, SVG_ERROR_WRITE, error, "the document cannot be put into its encoding; save it as UTF-8 first");
  return bytes;
}

static GBytes *
edit_document (Document *document, GBytes *source, const Hole *read, const Hole *hole, GError **error)
{
  Editor editor = { document->name, document->tree, xmlDocGetRootElement (document->tree), NULL, document->n_elements, error };
  editor.elements = g_new0 (xmlNode *, document->n_elements + 1);
  size_t ordinal = 0;
  collect_elements (&editor, editor.root, &ordinal);
  write_info (&editor, hole_info (read), hole_info (hole));
  write_days (&editor, hole_info (read), hole_info (hole));
  bool good = edit_parts (&editor, read, hole);
  if (good && !document_attribute (editor.root, "version", SVG_HOLE_NAMESPACE))
    xml_set_fact (&editor, editor.root, "version", G_STRINGIFY (SVG_HOLE_VERSION));
  g_free (editor.elements);
  return good ? write_tree (document->tree, source, document->name, error) : NULL;
}

GBytes *
svg_write_bytes (const Hole *hole, GError **error)
{
  GBytes *own = hole_source (hole);
  g_autoptr (GBytes) source = own ? g_bytes_ref (own) : new_source (hole);
  g_autoptr (Document) document = document_parse (source, "the document", error);
  g_autoptr (Hole) read = document ? read_document (document, source, NULL, error) : NULL;
  if (!read)
    return NULL;
  if (own && hole_equal (hole, read))
    return g_bytes_ref (source);
  return edit_document (document, source, read, hole, error);
}
