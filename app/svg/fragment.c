// SPDX-License-Identifier: GPL-3.0-or-later
/* Fragments: some parts of a hole as a document of their own, and any document as parts, with what it says about its size and its colours. */
#include "findings-private.h"
#include "read-private.h"
#include "style-private.h"

#include <string.h>

/* White round the parts of a fragment, so that a viewer does not cut their lines. */
#define MARGIN_M 1.0

/* ---- writing ---- */

static int
compare_index (const void *a, const void *b)
{
  size_t i = *(const size_t *)a, k = *(const size_t *)b;
  return i < k ? -1 : i > k;
}

/* The part as a new one, that is, of no document. */
static Part *
copy_without_element (const Part *part)
{
  Part *copy = part_copy (part);
  copy->node = copy->line = 0;
  for (size_t i = 0; i < copy->n_shots; i++)
    copy->shots[i].node = 0;
  return copy;
}

static Hole *
hole_of_parts (const Hole *hole, const size_t *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  g_autofree const Part **copies = g_new0 (const Part *, n_parts);
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  for (size_t i = 0; i < n_parts; i++)
    {
      Part *copy = copy_without_element (hole_part (hole, parts[i]));
      if (copy->id && !g_hash_table_add (ids, copy->id))
        g_clear_pointer (&copy->id, g_free);
      copies[i] = part_seal (copy);
      info.view_box = box_union (info.view_box, copies[i]->bounds);
    }
  info.view_box = box_is_empty (info.view_box) ? (Box){ 0, 0, MARGIN_M, MARGIN_M } : box_grown (info.view_box, MARGIN_M);
  Hole *fragment = hole_new (&info, copies, n_parts, NULL);
  hole_info_clear (&info);
  return fragment;
}

GBytes *
svg_write_fragment (const Hole *hole, const size_t *parts, size_t n_parts, GError **error)
{
  if (n_parts == 0)
    {
      g_set_error (error, SVG_ERROR, SVG_ERROR_WRITE, "nothing is selected; select what is to be copied");
      return NULL;
    }
  g_autofree size_t *sorted = g_memdup2 (parts, n_parts * sizeof *parts);
  qsort (sorted, n_parts, sizeof *sorted, compare_index);
  g_autoptr (Hole) fragment = hole_of_parts (hole, sorted, n_parts);
  return svg_write_bytes (fragment, error);
}

/* ---- what the elements of a drawing look like ---- */

/* How the element of one part is painted. */
typedef struct
{
  char *colour;
  bool is_stroke, is_hidden, is_even_odd;
} Paint;

/* The walk goes through the elements in the order of the reader, so that the same ordinal means the same element. */
typedef struct
{
  StyleSheet *sheet;
  const bool *is_part; /* by ordinal */
  Paint *paints;       /* by ordinal, for parts */
  unsigned ordinal;
  bool has_facts;
  size_t n_left_out;
} Walk;

static bool
has_facts (const xmlNode *element)
{
  if (document_is_element (element, SVG_HOLE_NAMESPACE))
    return true;
  for (const xmlAttr *attribute = element->properties; attribute; attribute = attribute->next)
    if (attribute->ns && strcmp ((const char *)attribute->ns->href, SVG_HOLE_NAMESPACE) == 0)
      return true;
  return false;
}

static bool
is_group (const xmlNode *element)
{
  const char *name = (const char *)element->name;
  return strcmp (name, "g") == 0 || strcmp (name, "a") == 0 || element->parent->type != XML_ELEMENT_NODE;
}

static bool
is_drawn (const xmlNode *element)
{
  const char *name = (const char *)element->name;
  return shape_row (name) || strcmp (name, "text") == 0 || strcmp (name, "image") == 0;
}

static void
walk_element (Walk *walk, const xmlNode *element, const Style *parent, bool is_seen)
{
  unsigned node = ++walk->ordinal;
  bool is_svg = document_is_element (element, SVG_NAMESPACE);
  Style own;
  walk->has_facts = walk->has_facts || has_facts (element);
  style_enter (walk->sheet, parent, element, &own);
  if (walk->is_part[node])
    {
      Paint *paint = &walk->paints[node];
      paint->colour = style_colour (&own, &paint->is_stroke);
      paint->is_hidden = style_is_hidden (&own);
      paint->is_even_odd = style_is_even_odd (&own);
    }
  else if (is_seen && is_svg && is_drawn (element) && !style_is_hidden (&own))
    walk->n_left_out++;
  is_seen = is_seen && is_svg && is_group (element);
  for (const xmlNode *child = element->children; child; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      walk_element (walk, child, &own, is_seen);
}

/* ---- what a document says about its size ---- */

/* One side: its length in user units, and how long a user unit is on paper. */
static void
read_side (const xmlNode *root, const char *attribute, double view_size, double *size, double *unit_mm)
{
  const Box none = box_empty ();
  const char *text = document_attribute (root, attribute, NULL);
  double px = NAN;
  bool is_physical = false;
  if (!text || !length_read (text, &none, AXIS_X, &px, &is_physical) || !(px > 0))
    px = NAN;
  *size = view_size > 0 ? view_size : px;
  /* CSS 2.1, section 4.3.2: 96 px to the inch. */
  *unit_mm = is_physical ? px * (25.4 / 96) / *size : NAN;
}

static void
read_sheet (const xmlNode *root, Box view, SvgFragment *fragment)
{
  double view_width = box_is_empty (view) ? 0 : view.x1 - view.x0, view_height = box_is_empty (view) ? 0 : view.y1 - view.y0;
  double across_mm, down_mm;
  read_side (root, "width", view_width, &fragment->sheet_width, &across_mm);
  read_side (root, "height", view_height, &fragment->sheet_height, &down_mm);
  /* SVG 1.1, section 7.8: by default the drawing is made as large as fits both ways. */
  fragment->unit_mm = fmin (across_mm, down_mm);
}

/* ---- colours ---- */

static int
compare_colours (const void *a, const void *b)
{
  const SvgColour *one = a, *other = b;
  if (one->n_parts != other->n_parts)
    return one->n_parts > other->n_parts ? -1 : 1;
  return one->parts[0] < other->parts[0] ? -1 : 1;
}

/* Takes over the paints' colours. */
static void
sort_colours (SvgFragment *fragment, Paint *const *paints)
{
  g_autoptr (GArray) colours = g_array_new (FALSE, FALSE, sizeof (SvgColour));
  g_autoptr (GHashTable) places = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (size_t i = 0; i < fragment->n_parts; i++)
    {
      g_autofree char *key = g_strconcat (paints[i]->is_stroke ? "stroke " : "fill ", paints[i]->colour, NULL);
      gpointer place = g_hash_table_lookup (places, key);
      if (!place)
        {
          SvgColour fresh = { g_steal_pointer (&paints[i]->colour), paints[i]->is_stroke, NULL, 0 };
          g_array_append_val (colours, fresh);
          place = GUINT_TO_POINTER (colours->len);
          g_hash_table_insert (places, g_steal_pointer (&key), place);
        }
      SvgColour *colour = &g_array_index (colours, SvgColour, GPOINTER_TO_UINT (place) - 1);
      if ((colour->n_parts & (colour->n_parts - 1)) == 0) /* full at every power of two */
        colour->parts = g_renew (size_t, colour->parts, colour->n_parts > 0 ? 2 * colour->n_parts : 1);
      colour->parts[colour->n_parts++] = i;
    }
  g_array_sort (colours, compare_colours);
  fragment->n_colours = colours->len;
  fragment->colours = (SvgColour *)(void *)g_array_free (g_steal_pointer (&colours), FALSE);
}

/* ---- reading ---- */

/* A generated id such as "path4136" or "rect12-3" tells a golfer nothing. */
static bool
is_generated_id (const char *id)
{
  size_t letters = strspn (id, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ");
  g_autofree char *word = g_strndup (id, letters);
  return (shape_row (word) || letters <= 1) && strspn (id + letters, "0123456789-_") == strlen (id + letters);
}

static const Part *
take_part (const Part *part, const Paint *paint, bool is_foreign)
{
  Part *copy = copy_without_element (part);
  if (is_foreign)
    {
      copy->even_odd = paint->is_even_odd;
      if (copy->id && is_generated_id (copy->id))
        g_clear_pointer (&copy->id, g_free);
    }
  return part_seal (copy);
}

static void
take_parts (SvgFragment *fragment, const Hole *read, Paint *paints)
{
  size_t n = hole_n_parts (read);
  g_autofree Paint **taken = g_new0 (Paint *, n + 1);
  fragment->parts = g_new0 (const Part *, n + 1);
  fragment->extent = box_empty ();
  for (size_t i = 0; i < n; i++)
    {
      const Part *part = hole_part (read, i);
      Paint *paint = &paints[part->node];
      if (fragment->is_foreign && paint->is_hidden)
        continue;
      taken[fragment->n_parts] = paint;
      fragment->parts[fragment->n_parts++] = take_part (part, paint, fragment->is_foreign);
      fragment->extent = box_union (fragment->extent, part->bounds);
    }
  sort_colours (fragment, taken);
}

static void
note_left_out (const Walk *walk, GPtrArray *findings)
{
  if (walk->n_left_out > 0)
    findings_add (
        findings, FINDING_NOTE, 0,
        g_strdup_printf ("%zu of the things drawn are left out, because only closed shapes can be taken", walk->n_left_out),
        "close open lines, and turn texts into paths, if they matter");
}

static SvgFragment *
read_fragment (const Document *document, const Hole *read, GPtrArray *findings)
{
  const xmlNode *root = xmlDocGetRootElement (document->tree);
  g_autofree bool *is_part = g_new0 (bool, document->n_elements + 1);
  g_autofree Paint *paints = g_new0 (Paint, document->n_elements + 1);
  g_autoptr (StyleSheet) sheet = style_sheet_new (root);
  Walk walk = { .sheet = sheet, .is_part = is_part, .paints = paints };
  const Style nothing = { { NULL } };
  for (size_t i = 0; i < hole_n_parts (read); i++)
    is_part[hole_part (read, i)->node] = true;
  walk_element (&walk, root, &nothing, true);
  SvgFragment *fragment = g_new0 (SvgFragment, 1);
  fragment->is_foreign = !walk.has_facts;
  read_sheet (root, hole_info (read)->view_box, fragment);
  take_parts (fragment, read, paints);
  for (size_t i = 0; i <= document->n_elements; i++)
    g_free (paints[i].colour);
  if (fragment->is_foreign)
    note_left_out (&walk, findings);
  return fragment;
}

SvgFragment *
svg_read_fragment (GBytes *bytes, const char *name, GPtrArray **findings, GError **error)
{
  g_autoptr (Document) document = document_parse (bytes, name, error);
  g_autoptr (GPtrArray) found = NULL;
  g_autoptr (Hole) read = document ? read_document (document, bytes, &found, error) : NULL;
  if (!read)
    return NULL;
  g_autoptr (SvgFragment) fragment = read_fragment (document, read, found);
  if (fragment->n_parts == 0)
    {
      document_fault (name, 0, SVG_ERROR_FORMAT, error, "there is no closed shape in it; copy something that is drawn");
      return NULL;
    }
  if (findings)
    *findings = g_steal_pointer (&found);
  return g_steal_pointer (&fragment);
}

void
svg_fragment_free (SvgFragment *fragment)
{
  if (!fragment)
    return;
  for (size_t i = 0; i < fragment->n_parts; i++)
    part_unref (fragment->parts[i]);
  for (size_t i = 0; i < fragment->n_colours; i++)
    {
      g_free (fragment->colours[i].colour);
      g_free (fragment->colours[i].parts);
    }
  g_free (fragment->parts);
  g_free (fragment->colours);
  g_free (fragment);
}
