// SPDX-License-Identifier: GPL-3.0-or-later
/* The order of elements: the longest run already in order stays, the rest is put between. */
#include "write-private.h"

/* Marks a longest subsequence of the items with elements whose nodes rise (patience sorting). */
static void
mark_staying (OrderItem *items, size_t n_items)
{
  g_autofree size_t *tops = g_new (size_t, n_items + 1), *before = g_new (size_t, n_items + 1);
  size_t n_piles = 0;
  for (size_t i = 0; i < n_items; i++)
    {
      if (!items[i].element)
        continue;
      size_t low = 0, high = n_piles;
      while (low < high)
        {
          size_t middle = (low + high) / 2;
          if (items[tops[middle]].node < items[i].node)
            low = middle + 1;
          else
            high = middle;
        }
      before[i] = low > 0 ? tops[low - 1] : i;
      tops[low] = i;
      if (low == n_piles)
        n_piles++;
    }
  if (n_piles == 0)
    return;
  size_t i = tops[n_piles - 1];
  items[i].stays = true;
  while (before[i] != i)
    {
      i = before[i];
      items[i].stays = true;
    }
}

static bool
is_inside (const xmlNode *node, const xmlNode *ancestor)
{
  while (node && node != ancestor)
    node = node->parent;
  return node != NULL;
}

/* From an element up to the ancestor below `container` that is highest without holding `other`. */
static xmlNode *
climb (xmlNode *element, const xmlNode *container, const xmlNode *other)
{
  while (element->parent != container && !(other && is_inside (other, element->parent)))
    element = element->parent;
  return element;
}

/* Two contexts that give an element below them the same meaning. */
static bool
context_equal (const Context *a, const Context *b)
{
  const Affine *s = &a->to_file, *t = &b->to_file;
  for (size_t i = 0; i < N_PART_FACTS; i++)
    if (g_strcmp0 (a->facts[i], b->facts[i]) != 0)
      return false;
  return a->even_odd == b->even_odd && g_strcmp0 (a->kind, b->kind) == 0 && s->xx == t->xx && s->yx == t->yx && s->xy == t->xy
         && s->yy == t->yy && s->x0 == t->x0 && s->y0 == t->y0;
}

static void
place_one (Editor *editor, xmlNode *container, OrderItem *item, xmlNode *previous, xmlNode *next)
{
  Context before, after;
  bool is_new = !item->element;
  if (is_new)
    item->element = xml_new_element (editor, "path");
  else
    {
      xml_context_of (item->element->parent, &before);
      xml_take_out (item->element);
    }
  if (previous)
    xml_put_after (climb (previous, container, next), item->element);
  else if (next)
    xml_put_before (climb (next, container, NULL), item->element);
  else
    xml_put_last (container, item->element);
  if (is_new)
    return;
  xmlReconciliateNs (editor->tree, item->element);
  xml_context_of (item->element->parent, &after);
  if (!context_equal (&before, &after))
    item->old = NULL; /* everything about it is written anew for where it stands now */
}

void
order_place (Editor *editor, xmlNode *container, OrderItem *items, size_t n_items)
{
  mark_staying (items, n_items);
  g_autofree xmlNode **next_staying = g_new0 (xmlNode *, n_items + 1);
  for (size_t i = n_items; i > 0; i--)
    next_staying[i - 1] = items[i - 1].stays ? items[i - 1].element : next_staying[i];
  for (size_t i = 0; i < n_items; i++)
    if (!items[i].stays)
      place_one (editor, container, &items[i], i > 0 ? items[i - 1].element : NULL, next_staying[i + 1]);
}
