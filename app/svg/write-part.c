// SPDX-License-Identifier: GPL-3.0-or-later
/* Parts, shots and the facts of the whole hole into the attributes of their elements. */
#include "units.h"
#include "write-private.h"

#include <string.h>

#define SHOT_WORD "shot"

/* ---- facts ---- */

/* Sets a fact, or takes it out; where a group above gives one, an empty attribute says that this element has none. */
static void
set_fact (Editor *editor, xmlNode *element, const char *name, const char *text, const char *inherited)
{
  bool is_own = document_attribute (element, name, SVG_HOLE_NAMESPACE) != NULL;
  if (!text && inherited && *inherited)
    text = "";
  if (!text || is_own || g_strcmp0 (text, inherited) != 0)
    xml_set_fact (editor, element, name, text);
}

/* A name stands where it was read from: hw:name, else the title that viewers show. */
static void
set_name (Editor *editor, xmlNode *element, const char *name)
{
  bool is_own = document_attribute (element, "name", SVG_HOLE_NAMESPACE) != NULL;
  if (!is_own && xml_has_child (element, "title"))
    xml_set_child_text (element, "title", name);
  else
    xml_set_fact (editor, element, "name", name);
  if (!name)
    xml_set_child_text (element, "title", NULL);
}

static void
write_kind (Editor *editor, xmlNode *element, const Context *parent, const char *word)
{
  set_fact (editor, element, "kind", word, parent->kind);
}

/* The text of a fact the kind has; NULL for one it has not or that is at its default. */
static char *
print_fact (const Fact *fact, const Part *part)
{
  if (!fact_applies (fact, part->kind))
    return NULL;
  Part *defaults = part_new (part->kind);
  char *text = fact_print (fact, part, defaults);
  part_unref (defaults);
  return text;
}

/* Rows of different kinds may share an attribute. */
static bool
has_fact_of (Kind kind, const char *attribute)
{
  for (size_t i = 0; i < N_PART_FACTS; i++)
    if (fact_applies (&part_facts[i], kind) && strcmp (part_facts[i].attribute, attribute) == 0)
      return true;
  return false;
}

static void
write_facts (Editor *editor, xmlNode *element, const Context *parent, const Part *old, const Part *part)
{
  for (size_t i = 0; i < N_PART_FACTS; i++)
    {
      const Fact *fact = &part_facts[i];
      bool applies = fact_applies (fact, part->kind);
      if (!applies && !(old && fact_applies (fact, old->kind)))
        continue;
      g_autofree char *text = print_fact (fact, part), *before = old ? print_fact (fact, old) : NULL;
      if (old && old->kind == part->kind && g_strcmp0 (text, before) == 0)
        continue;
      if (strcmp (fact->attribute, "name") == 0)
        set_name (editor, element, text);
      else if (applies || !has_fact_of (part->kind, fact->attribute))
        set_fact (editor, element, fact->attribute, text, fact->is_inherited && applies ? parent->facts[i] : NULL);
    }
}

/* ---- fill rule ---- */

/* A style without its fill-rule, so that the attribute counts. */
static void
drop_styled_rule (xmlNode *element)
{
  const char *style = document_attribute (element, "style", NULL);
  if (!style || !strstr (style, "fill-rule"))
    return;
  g_auto (GStrv) declarations = g_strsplit (style, ";", -1);
  GString *rest = g_string_new (NULL);
  for (char **declaration = declarations; *declaration; declaration++)
    {
      const char *name = g_strchug (*declaration);
      if (*name && !g_str_has_prefix (name, "fill-rule"))
        g_string_append_printf (rest, "%s%s", rest->len > 0 ? ";" : "", name);
    }
  xml_set (element, "style", rest->len > 0 ? rest->str : NULL);
  g_string_free (rest, TRUE);
}

static void
write_fill_rule (xmlNode *element, const Context *parent, const Part *part)
{
  Context own;
  context_enter (parent, element, &own);
  if (kind_info (part->kind)->shape != SHAPE_AREA || own.even_odd == part->even_odd)
    return;
  drop_styled_rule (element);
  xml_set (element, "fill-rule", part->even_odd ? "evenodd" : "nonzero");
}

/* ---- looks of new elements ---- */

typedef struct
{
  const char *fill, *stroke;
} Look;

/* So that a new element is seen for what it is in any viewer: the washes and edges of the survey sheet. */
static const Look looks[N_KINDS] = {
  [KIND_NONE] = { "none", "#22303c" },
  [KIND_TEE] = { "#a9c48a", "#6c8a50" },
  [KIND_FAIRWAY] = { "#b9cf96", "#8ea86a" },
  [KIND_FIRST_CUT] = { "#cdd9b0", "#8ea86a" },
  [KIND_ROUGH] = { "#dfe3cc", "none" },
  [KIND_DEEP_ROUGH] = { "#c8cfaa", "#9aa57a" },
  [KIND_FRINGE] = { "#b0cfa6", "#4f8a58" },
  [KIND_GREEN] = { "#9cc79b", "#4f8a58" },
  [KIND_BUNKER] = { "#efe2bd", "#b08d3e" },
  [KIND_WASTE] = { "#e8dcc4", "#b08d3e" },
  [KIND_PENALTY_AREA] = { "#d7e0dd", "#c62f2f" },
  [KIND_WATER] = { "#bcd7e3", "#3f7f9c" },
  [KIND_OUT_OF_BOUNDS] = { "#ece7dd", "#2b2b2b" },
  [KIND_TREES] = { "#8fae86", "#48693f" },
  [KIND_PATH] = { "#d8d0c4", "#8d8273" },
  [KIND_BUILDING] = { "#b9aea0", "#8d8273" },
  [KIND_TEE_MARKER] = { "#22303c", "none" },
  [KIND_HOLE_LOCATION] = { "#22303c", "none" },
  [KIND_TREE] = { "#8fae86", "#48693f" },
  [KIND_SPOT_HEIGHT] = { "#22303c", "none" },
  [KIND_SLOPE] = { "none", "#22303c" },
  [KIND_MARK] = { "#22303c", "none" },
  [KIND_NOTE] = { "#22303c", "none" },
  [KIND_LINE_OF_PLAY] = { "none", "#22303c" },
  [KIND_UNDERLAY] = { NULL, NULL },
  [KIND_PLAN] = { "none", "#8a2f6b" },
};

/* Width of the lines of new elements, and height of the letters of new notes, metres. */
#define NEW_STROKE_M "0.5"
#define NEW_LETTERS_M "5"

/* The edge of a penalty area is of its stakes' colour (Rules of Golf, Definitions: Penalty Area). */
static const char *const stakes_strokes[] = { [STAKES_RED] = "#c62f2f", [STAKES_YELLOW] = "#e0b400" };

/* An edge that was drawn in its stakes' colour follows them. */
static void
write_stakes_look (xmlNode *element, const Part *old, const Part *part)
{
  const char *stroke = document_attribute (element, "stroke", NULL);
  if (old && part->kind == KIND_PENALTY_AREA && stroke && strcmp (stroke, stakes_strokes[old->stakes]) == 0)
    xml_set (element, "stroke", stakes_strokes[part->stakes]);
}

static void
write_look (xmlNode *element, const Part *part)
{
  Look look = looks[part->kind];
  if (part->kind == KIND_PENALTY_AREA)
    look.stroke = stakes_strokes[part->stakes];
  xml_set (element, "fill", look.fill);
  xml_set (element, "stroke", look.stroke);
  if (look.stroke && strcmp (look.stroke, "none") != 0)
    xml_set (element, "stroke-width", NEW_STROKE_M);
  if (part->kind == KIND_NOTE)
    xml_set (element, "font-size", NEW_LETTERS_M);
}

/* ---- plans ---- */

static bool
shot_equal (const Shot *a, const Shot *b)
{
  return a->from.x == b->from.x && a->from.y == b->from.y && a->aim.x == b->aim.x && a->aim.y == b->aim.y
         && g_strcmp0 (a->club, b->club) == 0 && a->shape == b->shape && a->swing == b->swing
         && (a->curve_m == b->curve_m || (isnan (a->curve_m) && isnan (b->curve_m)));
}

static bool
write_shot (Editor *editor, const OrderItem *item)
{
  static const Shot defaults = { .shape = SHOT_STRAIGHT, .curve_m = NAN, .swing = 1 };
  const Shot *shot = item->value, *old = item->old;
  if (old && shot_equal (old, shot))
    return true;
  if (!write_shot_line (editor, item->element, old, shot))
    return false;
  Context parent;
  xml_context_of (item->element->parent, &parent);
  if (!old)
    write_kind (editor, item->element, &parent, SHOT_WORD);
  for (size_t i = 0; i < N_SHOT_FACTS; i++)
    {
      g_autofree char *text = fact_print (&shot_facts[i], shot, &defaults);
      g_autofree char *before = old ? fact_print (&shot_facts[i], old, &defaults) : NULL;
      if (!old || g_strcmp0 (text, before) != 0)
        xml_set_fact (editor, item->element, shot_facts[i].attribute, text);
    }
  return true;
}

/* Pairs each shot of the plan with its element; of shots that share one the first keeps it. The rest of the elements is taken out. */
static void
pair_shots (Editor *editor, const Part *read, bool rewrite, const Part *part, OrderItem *items)
{
  g_autoptr (GHashTable) left = g_hash_table_new (NULL, NULL); /* node -> Shot as read, not yet paired */
  for (size_t i = 0; read && i < read->n_shots; i++)
    g_hash_table_insert (left, GUINT_TO_POINTER (read->shots[i].node), &read->shots[i]);
  for (size_t i = 0; i < part->n_shots; i++)
    {
      gpointer was = NULL, node = GUINT_TO_POINTER (part->shots[i].node);
      items[i].value = &part->shots[i];
      if (!g_hash_table_steal_extended (left, node, NULL, &was))
        continue;
      items[i].old = rewrite ? NULL : was;
      items[i].node = part->shots[i].node;
      items[i].element = editor->elements[items[i].node];
    }
  GHashTableIter iter;
  gpointer node;
  g_hash_table_iter_init (&iter, left);
  while (g_hash_table_iter_next (&iter, &node, NULL))
    {
      xmlNode *gone = editor->elements[GPOINTER_TO_UINT (node)];
      xml_take_out (gone);
      xmlFreeNode (gone);
    }
}

/* `read` is the plan as it stands in the document, `old` the same or NULL when everything is to be written. */
static bool
write_shots (Editor *editor, xmlNode *element, const Part *read, const Part *old, const Part *part)
{
  g_autofree OrderItem *items = g_new0 (OrderItem, part->n_shots + 1);
  pair_shots (editor, read, old == NULL, part, items);
  order_place (editor, element, items, part->n_shots);
  for (size_t i = 0; i < part->n_shots; i++)
    if (!write_shot (editor, &items[i]))
      return false;
  return true;
}

/* ---- parts ---- */

bool
write_part (Editor *editor, const OrderItem *item, const Part *read)
{
  const Part *part = item->value, *old = item->old;
  xmlNode *element = item->element;
  if (old && part_equal (old, part))
    return true;
  Context parent;
  xml_context_of (element->parent, &parent);
  if (!write_shape (editor, element, old, part, !read))
    return false;
  if (!old || old->kind != part->kind)
    write_kind (editor, element, &parent, kind_info (part->kind)->token);
  if (!old || g_strcmp0 (old->id, part->id) != 0)
    xml_set (element, "id", part->id);
  write_facts (editor, element, &parent, old, part);
  write_fill_rule (element, &parent, part);
  if (!read)
    write_look (element, part);
  else
    write_stakes_look (element, old, part);
  return part->kind != KIND_PLAN || write_shots (editor, element, read, old, part);
}

/* ---- the whole hole ---- */

static void
write_view_box (Editor *editor, Box box)
{
  if (box_is_empty (box))
    return; /* the document keeps the one it has, for viewers */
  const double numbers[4] = { box.x0, 0 - box.y1, box.x1 - box.x0, box.y1 - box.y0 };
  GString *text = g_string_new (NULL);
  for (int i = 0; i < 4; i++)
    {
      char number[UNITS_TEXT_SIZE];
      g_string_append_printf (text, "%s%s", i > 0 ? " " : "", units_print_decimals (numbers[i], 3, number, sizeof number));
    }
  xml_set (editor->root, "viewBox", text->str);
  g_string_free (text, TRUE);
}

void
write_info (Editor *editor, const HoleInfo *old, const HoleInfo *info)
{
  HoleInfo defaults;
  hole_info_init (&defaults);
  for (size_t i = 0; i < N_INFO_FACTS; i++)
    {
      g_autofree char *text = fact_print (&info_facts[i], info, &defaults),
                      *before = fact_print (&info_facts[i], old, &defaults);
      if (g_strcmp0 (text, before) != 0)
        xml_set_fact (editor, editor->root, info_facts[i].attribute, text);
    }
  const Box *a = &old->view_box, *b = &info->view_box;
  if (a->x0 != b->x0 || a->y0 != b->y0 || a->x1 != b->x1 || a->y1 != b->y1)
    write_view_box (editor, *b);
  if (g_strcmp0 (old->desc, info->desc) != 0)
    xml_set_child_text (editor->root, "desc", info->desc);
  if (g_strcmp0 (old->title, info->title) != 0)
    xml_set_child_text (editor->root, "title", info->title);
  hole_info_clear (&defaults);
}
