// SPDX-License-Identifier: GPL-3.0-or-later
/* Styles from their three sources, the weakest first: presentation attributes, style sheets, style attributes. */
#include "style-private.h"
#include "number-private.h"
#include "read-private.h"

#include <string.h>

static const char *const property_names[N_PROPERTIES] = {
  [PROPERTY_FILL] = "fill",
  [PROPERTY_STROKE] = "stroke",
  [PROPERTY_COLOR] = "color",
  [PROPERTY_FILL_OPACITY] = "fill-opacity",
  [PROPERTY_FILL_RULE] = "fill-rule",
  [PROPERTY_DISPLAY] = "display",
  [PROPERTY_VISIBILITY] = "visibility",
};

/* What the rules with one selector say; order[i] grows with the place in the sheet, so that of equal selectors the later wins. */
typedef struct
{
  const char *values[N_PROPERTIES];
  unsigned order[N_PROPERTIES];
} Rule;

struct _StyleSheet
{
  GHashTable *rules; /* selector -> Rule */
  GStringChunk *texts;
  unsigned n_declarations;
};

/* ---- declarations: "name: value; name: value" ---- */

static int
find_property (const char *name, size_t length)
{
  for (int i = 0; i < N_PROPERTIES; i++)
    if (strlen (property_names[i]) == length && g_ascii_strncasecmp (property_names[i], name, length) == 0)
      return i;
  return -1;
}

/* Keeps a value without white space at its ends and without "!important". */
static const char *
keep_value (StyleSheet *sheet, const char *value, size_t length)
{
  const char *mark = memchr (value, '!', length);
  if (mark)
    length = (size_t)(mark - value);
  g_autofree char *text = g_strstrip (g_strndup (value, length));
  return g_string_chunk_insert_const (sheet->texts, text);
}

static void
take_declarations (StyleSheet *sheet, const char *text, const char *end, Rule *rule)
{
  while (text < end)
    {
      const char *stop = memchr (text, ';', (size_t)(end - text));
      stop = stop ? stop : end;
      while (text < stop && number_is_space (*text))
        text++;
      const char *colon = memchr (text, ':', (size_t)(stop - text));
      size_t length = colon ? (size_t)(colon - text) : 0;
      while (length > 0 && number_is_space (text[length - 1]))
        length--;
      int property = length > 0 ? find_property (text, length) : -1;
      if (property >= 0)
        {
          rule->values[property] = keep_value (sheet, colon + 1, (size_t)(stop - colon - 1));
          rule->order[property] = ++sheet->n_declarations;
        }
      text = stop + 1;
    }
}

/* ---- sheets ---- */

static bool
is_simple_selector (const char *selector)
{
  static const char letters[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-";
  if (strcmp (selector, "*") == 0)
    return true;
  const char *p = selector + strspn (selector, letters);
  if (*p == '.' || (*p == '#' && p == selector))
    {
      size_t length = strspn (p + 1, letters);
      return length > 0 && p[1 + length] == '\0';
    }
  return *p == '\0' && p > selector;
}

static void
take_rule (StyleSheet *sheet, const char *selectors, size_t length, const char *body, const char *end)
{
  g_autofree char *list = g_strndup (selectors, length);
  g_auto (GStrv) each = g_strsplit (list, ",", -1);
  for (char **selector = each; *selector; selector++)
    {
      g_strstrip (*selector);
      if (!is_simple_selector (*selector))
        continue;
      Rule *rule = g_hash_table_lookup (sheet->rules, *selector);
      if (!rule)
        {
          rule = g_new0 (Rule, 1);
          g_hash_table_insert (sheet->rules, g_strdup (*selector), rule);
        }
      take_declarations (sheet, body, end, rule);
    }
}

static void
blank_comments (char *text)
{
  for (char *open = strstr (text, "/*"); open; open = strstr (open, "/*"))
    {
      char *close = strstr (open + 2, "*/");
      size_t length = close ? (size_t)(close + 2 - open) : strlen (open);
      memset (open, ' ', length);
    }
}

/* Past the block that opens at `p`, blocks within it included. */
static const char *
skip_block (const char *p)
{
  int depth = 0;
  for (; *p; p++)
    {
      depth += *p == '{' ? 1 : *p == '}' ? -1 : 0;
      if (*p == '}' && depth <= 0)
        return p + 1;
    }
  return p;
}

/* Rules one after the other; at-rules, with or without a block, are passed over. */
static void
take_sheet (StyleSheet *sheet, char *text)
{
  blank_comments (text);
  const char *p = text;
  while (*p)
    {
      number_skip_space (&p);
      size_t head = strcspn (p, "{;");
      const char *open = p + head;
      if (*open == ';' || *open == '\0')
        p = open + (*open == ';');
      else
        {
          const char *after = skip_block (open);
          if (*p != '@')
            take_rule (sheet, p, head, open + 1, open + 1 + strcspn (open + 1, "{}"));
          p = after;
        }
    }
}

static void
collect_sheets (StyleSheet *sheet, const xmlNode *element)
{
  if (document_is_element (element, SVG_NAMESPACE) && strcmp ((const char *)element->name, "style") == 0)
    {
      xmlChar *content = xmlNodeGetContent (element);
      if (content)
        take_sheet (sheet, (char *)content);
      xmlFree (content);
    }
  for (const xmlNode *child = element->children; child; child = child->next)
    if (child->type == XML_ELEMENT_NODE)
      collect_sheets (sheet, child);
}

StyleSheet *
style_sheet_new (const xmlNode *root)
{
  StyleSheet *sheet = g_new0 (StyleSheet, 1);
  sheet->rules = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  sheet->texts = g_string_chunk_new (1024);
  collect_sheets (sheet, root);
  return sheet;
}

void
style_sheet_free (StyleSheet *sheet)
{
  if (!sheet)
    return;
  g_hash_table_unref (sheet->rules);
  g_string_chunk_free (sheet->texts);
  g_free (sheet);
}

/* ---- one element ---- */

static void
apply (Style *own, const Style *parent, const char *const *values)
{
  for (int i = 0; i < N_PROPERTIES; i++)
    if (values[i])
      own->values[i] = strcmp (values[i], "inherit") == 0 ? parent->values[i] : values[i];
}

static void
apply_rule (StyleSheet *sheet, Style *own, const Style *parent, const char *selector)
{
  const Rule *rule = g_hash_table_lookup (sheet->rules, selector);
  if (rule)
    apply (own, parent, rule->values);
}

/* Of all the rules for the element's classes the last in the sheet counts, property by property. `prefix` is the element's name or nothing. */
static void
apply_classes (StyleSheet *sheet, Style *own, const Style *parent, const char *prefix, char **classes)
{
  Rule all = { 0 };
  for (char **one = classes; *one; one++)
    {
      g_autofree char *selector = g_strdup_printf ("%s.%s", prefix, *one);
      const Rule *rule = g_hash_table_lookup (sheet->rules, selector);
      for (int i = 0; rule && i < N_PROPERTIES; i++)
        if (rule->order[i] > all.order[i])
          {
            all.order[i] = rule->order[i];
            all.values[i] = rule->values[i];
          }
    }
  apply (own, parent, all.values);
}

static void
apply_sheet (StyleSheet *sheet, Style *own, const Style *parent, const xmlNode *element)
{
  if (g_hash_table_size (sheet->rules) == 0)
    return;
  const char *name = (const char *)element->name, *class_text = document_attribute (element, "class", NULL);
  const char *id = document_attribute (element, "id", NULL);
  apply_rule (sheet, own, parent, "*");
  apply_rule (sheet, own, parent, name);
  if (class_text)
    {
      g_auto (GStrv) classes = g_strsplit_set (class_text, " \t\r\n", -1);
      apply_classes (sheet, own, parent, "", classes);
      apply_classes (sheet, own, parent, name, classes);
    }
  if (id)
    {
      g_autofree char *selector = g_strconcat ("#", id, NULL);
      apply_rule (sheet, own, parent, selector);
    }
}

void
style_enter (StyleSheet *sheet, const Style *parent, const xmlNode *element, Style *own)
{
  Rule written = { 0 };
  *own = *parent;
  for (int i = 0; i < N_PROPERTIES; i++)
    {
      const char *text = document_attribute (element, property_names[i], NULL);
      if (text)
        written.values[i] = keep_value (sheet, text, strlen (text));
    }
  apply (own, parent, written.values);
  apply_sheet (sheet, own, parent, element);
  const char *style = document_attribute (element, "style", NULL);
  if (style)
    {
      Rule local = { 0 };
      take_declarations (sheet, style, style + strlen (style), &local);
      apply (own, parent, local.values);
    }
  /* Within what is not displayed nothing can be displayed again. */
  if (g_strcmp0 (parent->values[PROPERTY_DISPLAY], "none") == 0)
    own->values[PROPERTY_DISPLAY] = parent->values[PROPERTY_DISPLAY];
}

bool
style_is_hidden (const Style *style)
{
  const char *visibility = style->values[PROPERTY_VISIBILITY];
  return g_strcmp0 (style->values[PROPERTY_DISPLAY], "none") == 0 || g_strcmp0 (visibility, "hidden") == 0
         || g_strcmp0 (visibility, "collapse") == 0;
}

bool
style_is_even_odd (const Style *style)
{
  return g_strcmp0 (style->values[PROPERTY_FILL_RULE], "evenodd") == 0;
}
