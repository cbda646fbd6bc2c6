// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * From a parsed tree to a Hole: one walk in document order. Every element is counted, whatever it is, because a part is known to the
 * writer by the ordinal of its element.
 */
#include "number-private.h"
#include "read-private.h"

#include <stdarg.h>
#include <string.h>

/* Where in the document the walk is. */
typedef enum
{
  IN_HOLE,
  IN_PLAN,  /* within a g of kind plan: only shots count */
  IN_UNSEEN /* within definitions, foreign elements, shapes: nothing counts */
} Place;

static bool read_children (Reader *reader, const xmlNode *element, const Context *context, Place place);

/* ---- messages ---- */

bool
reader_refuse (Reader *reader, unsigned node, SvgError code, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  g_autofree char *message = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  document_fault (reader->document->name, reader->document->lines[node], code, reader->error, "%s", message);
  return false;
}

void
reader_note (Reader *reader, FindingSeverity severity, unsigned node, char *what, const char *mend)
{
  findings_add (reader->findings, severity, reader->document->lines[node], what, mend);
}

/* ---- elements ---- */

static bool
read_plan (Reader *reader, unsigned node, const xmlNode *element, const Context *context)
{
  Context below = *context;
  below.kind = NULL;
  reader->plan = reader_begin_part (reader, node, element, context, KIND_PLAN);
  bool good = read_children (reader, element, &below, IN_PLAN);
  if (good)
    reader_add_part (reader, reader->plan);
  else
    part_unref (reader->plan);
  reader->plan = NULL;
  return good;
}

static bool
read_group (Reader *reader, unsigned node, const xmlNode *element, const Context *context, Place place)
{
  bool is_plan = place == IN_HOLE && context->kind && strcmp (context->kind, kind_info (KIND_PLAN)->token) == 0;
  return is_plan ? read_plan (reader, node, element, context) : read_children (reader, element, context, place);
}

/* Elements that draw something this program does not read as part of a hole. */
static void
note_unread (Reader *reader, unsigned node, const char *name)
{
  static const char *const names[] = { "use", "svg", "switch", "foreignObject" };
  for (size_t i = 0; i < G_N_ELEMENTS (names); i++)
    if (strcmp (name, names[i]) == 0)
      reader_note (reader, FINDING_NOTE, node,
                   g_strdup_printf ("what a %s element draws is not read as part of the hole", name),
                   "draw the shape itself if it matters");
}

/* Ids tell parts apart, so no two SVG elements may share one. */
static bool
check_id (Reader *reader, unsigned node, const xmlNode *element)
{
  const char *id = document_attribute (element, "id", NULL);
  if (!id || *id == '\0')
    return true;
  gpointer first = g_hash_table_lookup (reader->ids, id);
  if (first)
    return reader_refuse (reader, node, SVG_ERROR_FORMAT,
                          "the id \"%.40s\" is used already on line %u; give each element its own", id,
                          reader->document->lines[GPOINTER_TO_UINT (first)]);
  g_hash_table_insert (reader->ids, (gpointer)id, GUINT_TO_POINTER (node));
  return true;
}

static bool
read_element (Reader *reader, const xmlNode *element, const Context *parent, Place place)
{
  unsigned node = ++reader->ordinal;
  if (!document_is_element (element, SVG_NAMESPACE))
    {
      read_day (reader, node, element);
      return read_children (reader, element, parent, IN_UNSEEN);
    }
  if (!check_id (reader, node, element))
    return false;
  const char *name = (const char *)element->name;
  if (place == IN_UNSEEN)
    return read_children (reader, element, parent, IN_UNSEEN);
  const ShapeRow *row = shape_row (name);
  bool is_group = !row && (strcmp (name, "g") == 0 || strcmp (name, "a") == 0);
  bool is_text = !row && strcmp (name, "text") == 0, is_image = !row && strcmp (name, "image") == 0;
  if (!row && !is_group && !is_text && !is_image)
    {
      note_unread (reader, node, name);
      return read_children (reader, element, parent, IN_UNSEEN);
    }
  Context context;
  if (!context_enter (parent, element, &context))
    return reader_refuse (reader, node, SVG_ERROR_FORMAT, "the transform of a %s cannot be read; correct it", name);
  if (is_group)
    return read_group (reader, node, element, &context, place);
  bool good = row       ? read_shape (reader, node, element, &context, row)
              : is_text ? read_text (reader, node, element, &context)
                        : read_image (reader, node, element, &context);
  return good && read_children (reader, element, &context, IN_UNSEEN);
}

static bool
read_children (Reader *reader, const xmlNode *element, const Context *context, Place place)
{
  for (const xmlNode *child = element->children; child; child = child->next)
    if (child->type == XML_ELEMENT_NODE && !read_element (reader, child, context, place))
      return false;
  return true;
}

/* ---- the root ---- */

static bool
check_version (Reader *reader, const xmlNode *root)
{
  static const char family[] = "urn:holewright:hole:";
  double version = SVG_HOLE_VERSION;
  const char *text = document_attribute (root, "version", SVG_HOLE_NAMESPACE);
  for (const xmlNs *ns = root->nsDef; ns; ns = ns->next)
    if (ns->href && g_str_has_prefix ((const char *)ns->href, family)
        && strcmp ((const char *)ns->href, SVG_HOLE_NAMESPACE) != 0)
      return reader_refuse (reader, 1, SVG_ERROR_VERSION, "the document was made by a newer program (%.60s); update this one",
                            (const char *)ns->href);
  if (text && *text && (!number_read (text, &version) || version < 1))
    return reader_refuse (reader, 1, SVG_ERROR_FORMAT, "hw:version is \"%.40s\"; write %d", text, SVG_HOLE_VERSION);
  if (version > SVG_HOLE_VERSION)
    return reader_refuse (reader, 1, SVG_ERROR_VERSION,
                          "the document has version %g and this program reads up to %d; update the program", version,
                          SVG_HOLE_VERSION);
  return true;
}

/* Without a view box percentages are of the width and height that viewers show (SVG 1.1, section 7.10). */
static void
read_viewport (Reader *reader, const xmlNode *root)
{
  const char *width_text = document_attribute (root, "width", NULL), *height_text = document_attribute (root, "height", NULL);
  const Box none = box_empty ();
  double width, height;
  if (width_text && height_text && length_read (width_text, &none, AXIS_X, &width, NULL)
      && length_read (height_text, &none, AXIS_Y, &height, NULL) && width > 0 && height > 0)
    reader->view_box = (Box){ 0, 0, width, height };
}

static bool
read_view_box (Reader *reader, const xmlNode *root)
{
  const char *text = document_attribute (root, "viewBox", NULL);
  if (!text)
    {
      read_viewport (reader, root);
      return true;
    }
  double v[4];
  const char *p = text;
  number_skip_space (&p);
  bool good = true;
  for (int i = 0; i < 4 && good; i++)
    {
      if (i > 0)
        number_skip_comma (&p);
      good = number_scan (&p, &v[i]) && fabs (v[i]) <= SVG_LARGEST_M;
    }
  number_skip_space (&p);
  if (!good || *p != '\0' || !(v[2] > 0 && v[3] > 0))
    return reader_refuse (reader, 1, SVG_ERROR_FORMAT,
                          "viewBox=\"%.60s\" is no box; write its left, top, width and height in metres", text);
  reader->view_box = (Box){ v[0], v[1], v[0] + v[2], v[1] + v[3] };
  reader->info.view_box = (Box){ v[0], 0 - (v[1] + v[3]), v[0] + v[2], 0 - v[1] };
  return true;
}

static bool
read_root (Reader *reader, const xmlNode *root)
{
  reader->ordinal = 1;
  const char *name = (const char *)root->name;
  if (strcmp (name, "svg") != 0)
    return reader_refuse (reader, 1, SVG_ERROR_FORMAT, "the root element is %.40s, not svg; choose a hole drawn as SVG", name);
  if (!document_is_element (root, SVG_NAMESPACE))
    return reader_refuse (reader, 1, SVG_ERROR_FORMAT, "the root element is not in SVG's namespace; add xmlns=\"%s\" to it",
                          SVG_NAMESPACE);
  if (!check_version (reader, root) || !read_view_box (reader, root) || !check_id (reader, 1, root))
    return false;
  for (size_t i = 0; i < N_INFO_FACTS; i++)
    reader_take_fact (reader, 1, &info_facts[i], &reader->info,
                      document_attribute (root, info_facts[i].attribute, SVG_HOLE_NAMESPACE));
  reader->info.title = read_child_text (root, "title");
  reader->info.desc = read_child_text (root, "desc");
  Context context, start;
  context_start (&start);
  if (!context_enter (&start, root, &context))
    return reader_refuse (reader, 1, SVG_ERROR_FORMAT, "the transform of the root cannot be read; take it out");
  context.to_file = affine_identity (); /* SVG 1.1 knows no transform on the root */
  return read_children (reader, root, &context, IN_HOLE);
}

Hole *
read_document (const Document *document, GBytes *source, GPtrArray **findings, GError **error)
{
  Reader reader = { .document = document, .view_box = box_empty (), .error = error };
  GError *own_error = NULL;
  reader.error = &own_error;
  reader.parts = g_ptr_array_new ();
  reader.findings = findings_new ();
  reader.ids = g_hash_table_new (g_str_hash, g_str_equal);
  hole_info_init (&reader.info);
  Hole *hole = NULL;
  if (read_root (&reader, xmlDocGetRootElement (document->tree)))
    hole = hole_new (&reader.info, (const Part *const *)reader.parts->pdata, reader.parts->len, source);
  else
    {
      g_propagate_error (error, own_error);
      g_ptr_array_foreach (reader.parts, (GFunc)(void (*) (void))part_unref, NULL);
    }
  g_ptr_array_unref (reader.parts);
  g_hash_table_unref (reader.ids);
  hole_info_clear (&reader.info);
  if (hole && findings)
    *findings = g_steal_pointer (&reader.findings);
  g_clear_pointer (&reader.findings, g_ptr_array_unref);
  return hole;
}

Hole *
svg_read_bytes (GBytes *bytes, const char *name, GPtrArray **findings, GError **error)
{
  g_autoptr (Document) document = document_parse (bytes, name, error);
  return document ? read_document (document, bytes, findings, error) : NULL;
}

Hole *
svg_read_file (const char *path, GPtrArray **findings, GError **error)
{
  g_autoptr (GBytes) bytes = svg_read_contents (path, error);
  return bytes ? svg_read_bytes (bytes, path, findings, error) : NULL;
}
