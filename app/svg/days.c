// SPDX-License-Identifier: GPL-3.0-or-later
/* The days kept with a hole: hw:day elements in the metadata of the root, each a name and the facts of a day. */
#include "write-private.h"

#include <string.h>

#define METADATA "metadata"
#define DAY "day"

static bool
is_metadata (const xmlNode *element)
{
  return element != NULL && document_is_element (element, SVG_NAMESPACE) && strcmp ((const char *)element->name, METADATA) == 0;
}

static bool
is_day (const xmlNode *element)
{
  return document_is_element (element, SVG_HOLE_NAMESPACE) && strcmp ((const char *)element->name, DAY) == 0
         && is_metadata (element->parent) && element->parent->parent == xmlDocGetRootElement (element->doc);
}

void
read_day (Reader *reader, unsigned node, const xmlNode *element)
{
  if (!is_day (element))
    return;
  const char *name = document_attribute (element, "name", NULL);
  if (name == NULL || *name == '\0')
    {
      reader_note (reader, FINDING_WARNING, node, g_strdup ("a day has no name and is ignored"), "give it a name");
      return;
    }
  NamedDay read;
  day_init (&read.day);
  for (size_t i = 0; i < N_DAY_FACTS; i++)
    reader_take_fact (reader, node, &day_facts[i], &read, document_attribute (element, day_facts[i].attribute, NULL));
  hole_info_add_day (&reader->info, name, &read.day);
  day_clear (&read.day);
}

/* ---- writing ---- */

/* The root's metadata; made at its end when there is none. */
static xmlNode *
find_metadata (Editor *editor)
{
  for (xmlNode *child = editor->root->children; child; child = child->next)
    if (is_metadata (child))
      return child;
  xmlNode *metadata = xml_new_element (editor, METADATA);
  xml_put_last (editor->root, metadata);
  return metadata;
}

static void
take_out_days (Editor *editor)
{
  for (xmlNode *child = editor->root->children; child; child = child->next)
    if (is_metadata (child))
      for (xmlNode *day = child->children, *next; day; day = next)
        {
          next = day->next;
          if (is_day (day))
            {
              xml_take_out (day);
              xmlFreeNode (day);
            }
        }
}

static void
put_day (Editor *editor, xmlNode *metadata, const NamedDay *named)
{
  NamedDay defaults;
  day_init (&defaults.day);
  xmlNode *element = xml_new_element (editor, DAY);
  xml_set (element, "name", named->name);
  for (size_t i = 0; i < N_DAY_FACTS; i++)
    {
      g_autofree char *text = fact_print (&day_facts[i], named, &defaults);
      if (text != NULL)
        xml_set (element, day_facts[i].attribute, text);
    }
  xml_put_last (metadata, element);
  xml_into_namespace (editor, element);
}

void
write_days (Editor *editor, const HoleInfo *old, const HoleInfo *info)
{
  bool is_same = old->n_days == info->n_days;
  for (size_t i = 0; is_same && i < info->n_days; i++)
    is_same = strcmp (old->days[i].name, info->days[i].name) == 0 && day_equal (&old->days[i].day, &info->days[i].day);
  if (is_same)
    return;
  take_out_days (editor);
  xmlNode *metadata = info->n_days > 0 ? find_metadata (editor) : NULL;
  for (size_t i = 0; i < info->n_days; i++)
    put_day (editor, metadata, &info->days[i]);
}
