// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Writing: nothing foreign is lost, only touched elements change, and what was written reads back the same. Documents are compared in
 * their canonical form (W3C Canonical XML 1.0).
 */
#include "suite.h"
#include "svg.h"

#include <libxml/c14n.h>
#include <libxml/parser.h>
#include <string.h>

#define SVG_ATTRIBUTES                                                                                                         \
  "xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" xmlns:hw=\"urn:holewright:hole:1\""
#define DOCUMENT(content) "<svg " SVG_ATTRIBUTES " hw:version=\"1\">" content "</svg>"

/* ---- helpers ---- */

static Hole *
read_bytes (GBytes *bytes)
{
  g_autoptr (GError) error = NULL;
  Hole *hole = svg_read_bytes (bytes, "test.svg", NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
  return hole;
}

static Hole *
read_text (const char *text)
{
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  return read_bytes (bytes);
}

static Hole *
read_weir (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", "weir.svg", NULL);
  g_autoptr (GBytes) bytes = svg_read_contents (path, NULL);
  ck_assert_ptr_nonnull (bytes);
  return read_bytes (bytes);
}

static GBytes *
write_hole (const Hole *hole)
{
  g_autoptr (GError) error = NULL;
  GBytes *bytes = svg_write_bytes (hole, &error);
  ck_assert_msg (bytes != NULL, "%s", error ? error->message : "");
  return bytes;
}

static Hole *
written_and_read (const Hole *hole)
{
  g_autoptr (GBytes) bytes = write_hole (hole);
  return read_bytes (bytes);
}

/* The hole with one part changed; takes over the hole. */
static Hole *
with_part (Hole *hole, size_t i, Part *part)
{
  Hole *changed = hole_with_part (hole, i, part_seal (part));
  hole_unref (hole);
  return changed;
}

static size_t
place_of (const Hole *hole, const char *name)
{
  int i = hole_find (hole, name);
  ck_assert_msg (i >= 0, "%s is not there", name);
  return (size_t)i;
}

static char *
canonical (xmlDoc *tree)
{
  xmlChar *text = NULL;
  int size = xmlC14NDocDumpMemory (tree, NULL, XML_C14N_1_0, NULL, 1, &text);
  ck_assert_int_gt (size, 0);
  char *copy = g_strndup ((const char *)text, (gsize)size);
  xmlFree (text);
  return copy;
}

static xmlDoc *
parse (GBytes *bytes)
{
  gsize size;
  const char *text = g_bytes_get_data (bytes, &size);
  return xmlReadMemory (text, (int)size, NULL, NULL, XML_PARSE_NONET);
}

static xmlNode *
element_by_id (xmlNode *node, const char *id)
{
  for (; node; node = node->next)
    {
      xmlChar *own = node->type == XML_ELEMENT_NODE ? xmlGetNoNsProp (node, BAD_CAST "id") : NULL;
      bool found = own && strcmp ((const char *)own, id) == 0;
      xmlFree (own);
      if (found)
        return node;
      xmlNode *below = node->type == XML_ELEMENT_NODE ? element_by_id (node->children, id) : NULL;
      if (below)
        return below;
    }
  return NULL;
}

/* Takes attributes ("x2 y2 hw:club") off the element of this id. */
static void
strip (xmlDoc *tree, const char *id, const char *attributes)
{
  xmlNode *element = element_by_id (xmlDocGetRootElement (tree), id);
  ck_assert_msg (element != NULL, "%s", id);
  g_auto (GStrv) names = g_strsplit (attributes, " ", -1);
  for (char **name = names; *name; name++)
    {
      bool ours = g_str_has_prefix (*name, "hw:");
      xmlAttr *attribute = ours ? xmlHasNsProp (element, BAD_CAST (*name + 3), BAD_CAST SVG_HOLE_NAMESPACE)
                                : xmlHasNsProp (element, BAD_CAST * name, NULL);
      if (attribute)
        xmlRemoveProp (attribute);
    }
}

/* But for these attributes of this element, the hole's document is canonically the one it was read from. */
static void
only_touches (const Hole *hole, const char *id, const char *attributes)
{
  g_autoptr (GBytes) bytes = write_hole (hole);
  xmlDoc *before = parse (hole_source (hole)), *after = parse (bytes);
  strip (before, id, attributes);
  strip (after, id, attributes);
  g_autofree char *was = canonical (before), *is = canonical (after);
  ck_assert_str_eq (was, is);
  ck_assert (!g_bytes_equal (bytes, hole_source (hole)));
  xmlFreeDoc (before);
  xmlFreeDoc (after);
}

static char *
attribute_of (const Hole *hole, const char *id, const char *name)
{
  g_autoptr (GBytes) bytes = write_hole (hole);
  xmlDoc *tree = parse (bytes);
  xmlNode *element = element_by_id (xmlDocGetRootElement (tree), id);
  ck_assert_ptr_nonnull (element);
  xmlChar *text = xmlGetProp (element, BAD_CAST name);
  char *copy = g_strdup ((const char *)text);
  xmlFree (text);
  xmlFreeDoc (tree);
  return copy;
}

static void
has_attribute (const Hole *hole, const char *id, const char *name, const char *expected)
{
  g_autofree char *text = attribute_of (hole, id, name);
  ck_assert_msg (g_strcmp0 (text, expected) == 0, "%s of %s is %s", name, id, text ? text : "absent");
}

/* ---- untouched ---- */

START_TEST (an_untouched_document_is_written_byte_for_byte)
{
  g_autoptr (Hole) hole = read_weir ();
  g_autoptr (GBytes) bytes = write_hole (hole);
  ck_assert (g_bytes_equal (bytes, hole_source (hole)));
}
END_TEST

START_TEST (a_change_and_its_reverse_give_back_the_bytes)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = place_of (hole, "oak");
  Part *part = part_copy (hole_part (hole, i));
  part->at = vec2 (1, 2);
  g_autoptr (Hole) there = with_part (hole_ref (hole), i, part);
  part = part_copy (hole_part (there, i));
  part->at = hole_part (hole, i)->at;
  g_autoptr (Hole) back = with_part (hole_ref (there), i, part);
  g_autoptr (GBytes) bytes = write_hole (back);
  ck_assert (g_bytes_equal (bytes, hole_source (hole)));
}
END_TEST

/* ---- only what was touched ---- */

START_TEST (a_dragged_aim_changes_two_attributes_of_one_line)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = (size_t)hole_plan (hole);
  Part *plan = part_copy (hole_part (hole, i));
  plan->shots[0].aim = vec2 (-8.25, 205.125);
  hole = with_part (hole, i, plan);
  only_touches (hole, "drive", "x2 y2");
  has_attribute (hole, "drive", "x2", "-8.25");
  has_attribute (hole, "drive", "y2", "-205.125");
  has_attribute (hole, "drive", "x1", "0");
}
END_TEST

START_TEST (an_aim_moved_across_changes_only_x)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = (size_t)hole_plan (hole);
  Part *plan = part_copy (hole_part (hole, i));
  plan->shots[0].aim.x = 3;
  hole = with_part (hole, i, plan);
  only_touches (hole, "drive", "x2");
}
END_TEST

START_TEST (another_club_changes_one_attribute)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = (size_t)hole_plan (hole);
  Part *plan = part_copy (hole_part (hole, i));
  g_free (plan->shots[1].club);
  plan->shots[1].club = g_strdup ("7 \"iron\" <&>");
  hole = with_part (hole, i, plan);
  only_touches (hole, "approach", "hw:club");
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert_str_eq (hole_part (back, i)->shots[1].club, "7 \"iron\" <&>");
}
END_TEST

START_TEST (a_moved_circle_changes_its_centre_and_keeps_its_radius)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = place_of (hole, "white");
  Part *part = part_copy (hole_part (hole, i));
  part->at = vec2 (1.5, -2);
  hole = with_part (hole, i, part);
  only_touches (hole, "white", "cx cy");
  has_attribute (hole, "white", "cy", "2");
}
END_TEST

START_TEST (facts_change_without_the_geometry)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = place_of (hole, "copse");
  Part *part = part_copy (hole_part (hole, i));
  part->height_m = 9.5;
  part->density = TREES_DENSITY; /* the default: the attribute goes */
  hole = with_part (hole, i, part);
  only_touches (hole, "copse", "hw:height_m hw:density");
  has_attribute (hole, "copse", "height_m", "9.5");
  has_attribute (hole, "copse", "density", NULL);
}
END_TEST

START_TEST (facts_of_the_hole_change_the_root_alone)
{
  g_autoptr (Hole) hole = read_weir ();
  HoleInfo info = *hole_info (hole);
  info.par = 5;
  info.latitude_deg = 57.25;
  g_autoptr (Hole) changed = hole_with_info (hole, &info);
  g_autoptr (GBytes) bytes = write_hole (changed);
  g_autoptr (Hole) back = read_bytes (bytes);
  ck_assert (hole_info_equal (hole_info (back), &info));
  info.title = (char *)"Another & <name>";
  g_autoptr (Hole) renamed = hole_with_info (changed, &info);
  g_autoptr (Hole) again = written_and_read (renamed);
  ck_assert_str_eq (hole_info (again)->title, "Another & <name>");
  ck_assert_str_eq (hole_info (again)->desc, hole_info (hole)->desc);
}
END_TEST

START_TEST (a_name_is_written_where_it_was_read)
{
  g_autoptr (Hole) hole = read_weir ();
  const char *const ids[] = { "right-bunker", "pond", "left-bunker" }; /* title, hw:name, neither */
  for (size_t k = 0; k < G_N_ELEMENTS (ids); k++)
    {
      size_t i = place_of (hole, ids[k]);
      Part *part = part_copy (hole_part (hole, i));
      g_free (part->name);
      part->name = g_strdup_printf ("Number %zu", k);
      hole = with_part (hole, i, part);
    }
  has_attribute (hole, "right-bunker", "name", NULL);
  has_attribute (hole, "pond", "name", "Number 1");
  has_attribute (hole, "left-bunker", "name", "Number 2");
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert_str_eq (hole_part (back, place_of (back, "right-bunker"))->name, "Number 0");
}
END_TEST

/* ---- geometry in other frames ---- */

START_TEST (a_changed_area_becomes_a_path_in_its_own_frame)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = place_of (hole, "left-bunker");
  Part *part = part_copy (hole_part (hole, i));
  path_clear (&part->path);
  path_move_to (&part->path, vec2 (-10, 350));
  path_line_to (&part->path, vec2 (-5, 350));
  path_line_to (&part->path, vec2 (-5, 355.5));
  path_close (&part->path);
  hole = with_part (hole, i, part);
  has_attribute (hole, "left-bunker", "d", "M-15,2 L-10,2 L-10,-3.5 Z"); /* the group stands at (5,-352) */
  has_attribute (hole, "left-bunker", "r", NULL);
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert (hole_equal (hole, back));
}
END_TEST

START_TEST (places_keep_a_millimetre_under_any_transform)
{
  static const char *const transforms[]
      = { "rotate(37)", "scale(1000)", "scale(0.001)", "skewX(60) scale(3 0.2)", "matrix(0.2 3 -5 0.1 700 -900)" };
  for (size_t k = 0; k < G_N_ELEMENTS (transforms); k++)
    {
      g_autofree char *text = g_strdup_printf (
          "<svg " SVG_ATTRIBUTES "><g transform='%s'><circle id='c' hw:kind='mark' transform='rotate(11)'/></g></svg>",
          transforms[k]);
      g_autoptr (Hole) hole = read_text (text);
      Part *part = part_copy (hole_part (hole, 0));
      part->at = vec2 (123.4564, -321.9876);
      part->radius_m = 2.5;
      hole = with_part (hole, 0, part);
      g_autoptr (Hole) back = written_and_read (hole);
      ck_assert_double_lt (vec2_distance (hole_part (back, 0)->at, part->at), 0.001);
      ck_assert_double_eq_tol (hole_part (back, 0)->radius_m, 2.5, 0.001);
    }
}
END_TEST

START_TEST (a_squeezed_frame_is_refused_and_not_guessed)
{
  g_autoptr (Hole) hole = read_text (DOCUMENT ("<circle id='c' hw:kind='mark' transform='scale(0)'/>"));
  Part *part = part_copy (hole_part (hole, 0));
  part->at = vec2 (1, 1);
  hole = with_part (hole, 0, part);
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_write_bytes (hole, &error));
  ck_assert (g_error_matches (error, SVG_ERROR, SVG_ERROR_WRITE));
}
END_TEST

START_TEST (an_underlay_is_placed_by_its_transform)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = place_of (hole, "photo");
  Part *part = part_copy (hole_part (hole, i));
  part->placement = affine_then (part->placement, affine_translation (3, 4));
  hole = with_part (hole, i, part);
  only_touches (hole, "photo", "transform");
  g_autoptr (Hole) back = written_and_read (hole);
  Vec2 moved = affine_apply (hole_part (back, i)->placement, vec2 (400, 300));
  ck_assert_double_lt (vec2_distance (moved, affine_apply (part->placement, vec2 (400, 300))), 1e-9);
}
END_TEST

START_TEST (a_note_moves_with_its_spans_and_changes_its_words)
{
  g_autoptr (Hole) hole = read_text (DOCUMENT ("<text id='n' hw:kind='note' x='1' y='2'><tspan x='1' y='2'>a</tspan></text>"));
  Part *part = part_copy (hole_part (hole, 0));
  part->at = vec2 (11, -22);
  hole = with_part (hole, 0, part);
  g_autoptr (GBytes) bytes = write_hole (hole);
  ck_assert_ptr_nonnull (
      g_strstr_len (g_bytes_get_data (bytes, NULL), (gssize)g_bytes_get_size (bytes), "<tspan x=\"11\" y=\"22\">a</tspan>"));
  part = part_copy (hole_part (hole, 0));
  g_free (part->text);
  part->text = g_strdup ("b & c");
  hole = with_part (hole, 0, part);
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert_str_eq (hole_part (back, 0)->text, "b & c");
}
END_TEST

/* ---- coming, going, moving ---- */

START_TEST (a_new_part_stands_where_it_belongs)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = place_of (hole, "right-bunker");
  Part *part = part_new (KIND_BUNKER);
  part->id = g_strdup ("fresh");
  path_add_ellipse (&part->path, vec2 (10, 300), 4, 5);
  g_autoptr (Hole) changed = hole_inserting_part (hole, i, part_seal (part));
  g_autoptr (Hole) back = written_and_read (changed);
  ck_assert_uint_eq (hole_n_parts (back), hole_n_parts (hole) + 1);
  ck_assert_uint_eq (place_of (back, "fresh"), i);
  ck_assert_int_eq (hole_part (back, i)->kind, KIND_BUNKER);
  ck_assert_double_eq_tol (hole_part (back, i)->bounds.x0, 6, 0.001);
}
END_TEST

START_TEST (a_removed_part_takes_only_its_element_along)
{
  g_autoptr (Hole) hole = read_weir ();
  g_autoptr (Hole) changed = hole_without_part (hole, place_of (hole, "oak"));
  g_autoptr (GBytes) bytes = write_hole (changed);
  xmlDoc *before = parse (hole_source (hole)), *after = parse (bytes);
  xmlNode *oak = element_by_id (xmlDocGetRootElement (before), "oak"), *white = oak->prev;
  xmlUnlinkNode (oak);
  xmlFreeNode (oak);
  xmlUnlinkNode (white);
  xmlFreeNode (white);
  g_autofree char *was = canonical (before), *is = canonical (after);
  ck_assert_str_eq (was, is);
  xmlFreeDoc (before);
  xmlFreeDoc (after);
}
END_TEST

START_TEST (a_part_moved_out_of_its_group_keeps_its_meaning)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t from = place_of (hole, "stream"); /* its kind, stakes and fill rule come from its group */
  Part *part = part_copy (hole_part (hole, from));
  g_autoptr (Hole) without = hole_without_part (hole, from);
  g_autoptr (Hole) moved = hole_inserting_part (without, 0, part_seal (part));
  g_autoptr (Hole) back = written_and_read (moved);
  ck_assert_uint_eq (place_of (back, "stream"), 0);
  ck_assert (part_equal (hole_part (back, 0), part));
  ck_assert (hole_equal (moved, back));
}
END_TEST

START_TEST (shots_come_go_and_change_places)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t i = (size_t)hole_plan (hole);
  Part *plan = part_copy (hole_part (hole, i));
  Shot first = plan->shots[0];
  plan->shots[0] = plan->shots[1];
  plan->shots[1] = first;
  Shot extra = { 0, vec2 (6, 356), vec2 (7, 360), (char *)"putter", SHOT_STRAIGHT, NAN, 1 };
  part_add_shot (plan, &extra);
  hole = with_part (hole, i, plan);
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert (part_equal (hole_part (back, i), plan));
  Part *fewer = part_copy (hole_part (back, i));
  g_free (fewer->shots[--fewer->n_shots].club);
  g_autoptr (Hole) less = with_part (hole_ref (back), i, fewer);
  g_autoptr (Hole) again = written_and_read (less);
  ck_assert (hole_equal (less, again));
}
END_TEST

START_TEST (a_shape_can_be_given_a_kind_and_lose_it)
{
  g_autoptr (Hole) hole = read_text ("<svg xmlns='http://www.w3.org/2000/svg'><rect id='r' width='3' height='4'/></svg>");
  Part *part = part_copy (hole_part (hole, 0));
  part->kind = KIND_GREEN;
  hole = with_part (hole, 0, part);
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert_int_eq (hole_part (back, 0)->kind, KIND_GREEN);
  has_attribute (hole, "r", "width", "3"); /* the geometry was not touched */
  g_autoptr (Hole) weir = read_weir ();
  size_t i = place_of (weir, "stream");
  part = part_copy (hole_part (weir, i));
  part->kind = KIND_NONE;
  part->stakes_given = false;
  part->stakes = STAKES_RED;
  weir = with_part (weir, i, part);
  g_autoptr (Hole) none = written_and_read (weir);
  ck_assert_int_eq (hole_part (none, i)->kind, KIND_NONE);
}
END_TEST

START_TEST (a_prefix_that_means_something_else_is_respected)
{
  g_autoptr (Hole) hole = read_text (
      "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:other' hw:par='9'><rect width='3' height='4'/></svg>");
  ck_assert_int_eq (hole_info (hole)->par, 0);
  Part *part = part_copy (hole_part (hole, 0));
  part->kind = KIND_GREEN;
  hole = with_part (hole, 0, part);
  g_autoptr (Hole) back = written_and_read (hole);
  ck_assert (hole_equal (hole, back));
}
END_TEST

START_TEST (a_hole_without_a_document_gets_one)
{
  g_autoptr (Hole) weir = read_weir ();
  Hole *fresh = hole_new (hole_info (weir), NULL, 0, NULL);
  for (size_t i = 0; i < hole_n_parts (weir); i++)
    {
      Hole *more = hole_inserting_part (fresh, i, part_seal (part_copy (hole_part (weir, i))));
      hole_unref (fresh);
      fresh = more;
    }
  g_autoptr (Hole) back = written_and_read (fresh);
  ck_assert_uint_eq (hole_n_parts (back), hole_n_parts (fresh));
  ck_assert (hole_info_equal (hole_info (back), hole_info (weir)));
  for (size_t i = 0; i < hole_n_parts (back); i++)
    ck_assert_int_eq (hole_part (back, i)->kind, hole_part (weir, i)->kind);
  hole_unref (fresh);
}
END_TEST

START_TEST (other_viewers_see_the_colour_of_the_stakes)
{
  g_autoptr (Hole) hole = read_text ("<svg xmlns='http://www.w3.org/2000/svg'/>");
  Part *area = part_new (KIND_PENALTY_AREA);
  area->id = g_strdup ("pond");
  area->stakes = STAKES_YELLOW;
  area->stakes_given = true;
  path_add_rectangle (&area->path, (Box){ 0, 0, 9, 9 }, 0, 0);
  g_autoptr (Hole) drawn = hole_inserting_part (hole, 0, part_seal (area));
  has_attribute (drawn, "pond", "stroke", "#e0b400");
  g_autoptr (Hole) back = written_and_read (drawn);
  Part *red = part_copy (hole_part (back, 0));
  red->stakes = STAKES_RED;
  g_autoptr (Hole) restaked = with_part (hole_ref (back), 0, red);
  has_attribute (restaked, "pond", "stroke", "#c62f2f");
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg write");
  TCase *edits = tcase_create ("edits");
  suite_add_tcase (suite, edits);
  tcase_add_test (edits, an_untouched_document_is_written_byte_for_byte);
  tcase_add_test (edits, a_change_and_its_reverse_give_back_the_bytes);
  tcase_add_test (edits, a_dragged_aim_changes_two_attributes_of_one_line);
  tcase_add_test (edits, an_aim_moved_across_changes_only_x);
  tcase_add_test (edits, another_club_changes_one_attribute);
  tcase_add_test (edits, a_moved_circle_changes_its_centre_and_keeps_its_radius);
  tcase_add_test (edits, facts_change_without_the_geometry);
  tcase_add_test (edits, facts_of_the_hole_change_the_root_alone);
  tcase_add_test (edits, a_name_is_written_where_it_was_read);
  tcase_add_test (edits, a_changed_area_becomes_a_path_in_its_own_frame);
  tcase_add_test (edits, places_keep_a_millimetre_under_any_transform);
  tcase_add_test (edits, a_squeezed_frame_is_refused_and_not_guessed);
  tcase_add_test (edits, an_underlay_is_placed_by_its_transform);
  tcase_add_test (edits, a_note_moves_with_its_spans_and_changes_its_words);
  tcase_add_test (edits, a_new_part_stands_where_it_belongs);
  tcase_add_test (edits, a_removed_part_takes_only_its_element_along);
  tcase_add_test (edits, a_part_moved_out_of_its_group_keeps_its_meaning);
  tcase_add_test (edits, shots_come_go_and_change_places);
  tcase_add_test (edits, a_shape_can_be_given_a_kind_and_lose_it);
  tcase_add_test (edits, a_prefix_that_means_something_else_is_respected);
  tcase_add_test (edits, a_hole_without_a_document_gets_one);
  tcase_add_test (edits, other_viewers_see_the_colour_of_the_stakes);
  return suite;
}
