// SPDX-License-Identifier: GPL-3.0-or-later
/* Contexts: transforms, fill rules and facts handed down from groups to the shapes in them. */
#include "number-private.h"
#include "read-private.h"

#include <string.h>

void
context_start (Context *context)
{
  *context = (Context){ .to_file = affine_identity () };
}

Affine
context_to_hole (const Context *context)
{
  return affine_then (context->to_file, affine_scaling (1, -1));
}

static void
take_fill_rule (const char *word, size_t length, Context *context)
{
  if (length == strlen ("evenodd") && strncmp (word, "evenodd", length) == 0)
    context->even_odd = true;
  if (length == strlen ("nonzero") && strncmp (word, "nonzero", length) == 0)
    context->even_odd = false;
}

/* The fill-rule of a style attribute, "name: value; name: value". */
static void
take_style (const char *style, Context *context)
{
  while (*style)
    {
      size_t length = strcspn (style, ";");
      number_skip_space (&style);
      length = strcspn (style, ";");
      size_t name = strcspn (style, ": \t\r\n");
      if (name == strlen ("fill-rule") && name < length && strncmp (style, "fill-rule", name) == 0)
        {
          const char *value = style + name;
          number_skip_space (&value);
          value += *value == ':';
          number_skip_space (&value);
          take_fill_rule (value, strcspn (value, "; \t\r\n!"), context);
        }
      style += length + (style[length] == ';');
    }
}

static void
take_fact (const char *name, const char *text, Context *context)
{
  if (strcmp (name, "kind") == 0)
    context->kind = *text ? text : NULL;
  for (size_t i = 0; i < N_PART_FACTS; i++)
    if (part_facts[i].is_inherited && strcmp (name, part_facts[i].attribute) == 0)
      context->facts[i] = text;
}

bool
context_enter (const Context *parent, const xmlNode *element, Context *context)
{
  *context = *parent;
  const char *style = NULL, *transform = NULL;
  for (const xmlAttr *attribute = element->properties; attribute; attribute = attribute->next)
    {
      const char *name = (const char *)attribute->name, *text = document_attribute_text (attribute);
      if (attribute->ns)
        {
          if (strcmp ((const char *)attribute->ns->href, SVG_HOLE_NAMESPACE) == 0)
            take_fact (name, text, context);
        }
      else if (strcmp (name, "transform") == 0)
        transform = text;
      else if (strcmp (name, "style") == 0)
        style = text;
      else if (strcmp (name, "fill-rule") == 0)
        take_fill_rule (text, strlen (text), context);
    }
  if (style)
    take_style (style, context);
  Affine own;
  if (!transform)
    return true;
  if (!svg_parse_transform (transform, &own))
    return false;
  context->to_file = affine_then (own, context->to_file);
  return affine_is_finite (context->to_file);
}
