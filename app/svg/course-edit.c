// SPDX-License-Identifier: GPL-3.0-or-later
/* course.xml edited on disk: read anew, edited as a tree, read back from the new bytes and only then saved; its name and its tees. */
#include "course-private.h"
#include "units.h"
#include "write-private.h"

#include <string.h>

/* ---- beginning and end ---- */

void
course_edit_clear (CourseEdit *edit)
{
  g_free (edit->file);
  g_clear_pointer (&edit->source, g_bytes_unref);
  g_clear_pointer (&edit->document, document_free);
  g_clear_pointer (&edit->written, g_bytes_unref);
  g_clear_pointer (&edit->holes, g_ptr_array_unref);
  g_clear_pointer (&edit->tees, g_ptr_array_unref);
}

static GPtrArray *
collect (const xmlNode *root, const char *name)
{
  GPtrArray *elements = g_ptr_array_new ();
  for (xmlNode *child = root->children; child; child = child->next)
    if (document_is_element (child, SVG_COURSE_NAMESPACE) && strcmp ((const char *)child->name, name) == 0)
      g_ptr_array_add (elements, child);
  return elements;
}

static bool
number_equal (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static bool
tees_equal (const CourseTee *a, size_t n_a, const CourseTee *b, size_t n_b)
{
  if (n_a != n_b)
    return false;
  for (size_t i = 0; i < n_a; i++)
    if (g_strcmp0 (a[i].name, b[i].name) != 0 || g_strcmp0 (a[i].colour, b[i].colour) != 0
        || !number_equal (a[i].rating, b[i].rating) || a[i].slope != b[i].slope)
      return false;
  return true;
}

static bool
course_equal (const Course *a, const Course *b)
{
  return g_strcmp0 (a->name, b->name) == 0 && tees_equal (a->tees, a->n_tees, b->tees, b->n_tees)
         && g_strv_equal ((const char *const *)a->hole_files, (const char *const *)b->hole_files);
}

bool
course_edit_take (CourseEdit *edit, GBytes *source)
{
  edit->source = source;
  edit->document = document_parse (source, edit->file, edit->error);
  if (!edit->document)
    return false;
  edit->root = xmlDocGetRootElement (edit->document->tree);
  edit->holes = collect (edit->root, "hole");
  edit->tees = collect (edit->root, "tee");
  return true;
}

bool
course_edit_begin (CourseEdit *edit, const Course *course, GError **error)
{
  *edit = (CourseEdit){ .file = g_build_filename (course->folder, COURSE_FILE, NULL), .error = error };
  GBytes *source = svg_read_contents (edit->file, error);
  if (!source || !course_edit_take (edit, source))
    return false;
  g_autoptr (Course) now = course_read_document (edit->document, error);
  if (!now)
    return false;
  if (course_equal (now, course))
    return true;
  document_fault (edit->file, 0, SVG_ERROR_WRITE, error,
                  "not changed, because another program has changed the course meanwhile; open it again");
  return false;
}

Course *
course_edit_replace (CourseEdit *edit, GBytes *bytes)
{
  g_autoptr (Document) written = document_parse (bytes, edit->file, edit->error);
  g_autoptr (Course) course = written ? course_read_document (written, edit->error) : NULL;
  if (!course)
    {
      g_prefix_error (edit->error, "not changed, because what would be written does not read back: ");
      return NULL;
    }
  edit->written = g_bytes_ref (bytes);
  return svg_save_bytes (bytes, edit->file, edit->error) ? g_steal_pointer (&course) : NULL;
}

Course *
course_edit_end (CourseEdit *edit)
{
  g_autoptr (GBytes) bytes = write_tree (edit->document->tree, edit->source, edit->file, edit->error);
  if (bytes)
    return course_edit_replace (edit, bytes);
  g_prefix_error (edit->error, "not changed, because what would be written does not read back: ");
  return NULL;
}

bool
course_edit_may_undo (const CourseEdit *edit)
{
  g_autoptr (GBytes) now = svg_read_contents (edit->file, NULL);
  return !edit->written || (now && !g_bytes_equal (now, edit->written));
}

/* ---- elements ---- */

xmlNode *
course_edit_new (CourseEdit *edit, const char *name)
{
  return xmlNewDocNode (edit->document->tree, edit->root->ns, BAD_CAST name, NULL);
}

void
course_edit_insert (CourseEdit *edit, GPtrArray *like, size_t at, xmlNode *element, GPtrArray *next_kind)
{
  if (at > 0)
    xml_put_after (like->pdata[at - 1], element);
  else if (like->len > 0)
    xml_put_before (like->pdata[0], element);
  else if (next_kind && next_kind->len > 0)
    xml_put_before (next_kind->pdata[0], element);
  else
    xml_put_last (edit->root, element);
  g_ptr_array_insert (like, (int)at, element);
}

void
course_edit_remove (GPtrArray *like, size_t i)
{
  xmlNode *element = g_ptr_array_steal_index (like, (guint)i);
  xml_take_out (element);
  xmlFreeNode (element);
}

/* ---- name and tees ---- */

Course *
svg_course_set_name (const Course *course, const char *name, GError **error)
{
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  if (strcmp (name, course->name) == 0)
    return course_read_document (edit.document, error);
  xml_set (edit.root, "name", *name ? name : NULL);
  return course_edit_end (&edit);
}

static void
write_tee (xmlNode *element, const CourseTee *old, const CourseTee *tee)
{
  char number[UNITS_TEXT_SIZE];
  if (!old || g_strcmp0 (old->name, tee->name) != 0)
    xml_set (element, "name", tee->name);
  if (!old || g_strcmp0 (old->colour, tee->colour) != 0)
    xml_set (element, "colour", tee->colour);
  if (!old || !number_equal (old->rating, tee->rating))
    xml_set (element, "rating", isnan (tee->rating) ? NULL : units_print_full (tee->rating, number, sizeof number));
  if (!old || old->slope != tee->slope)
    xml_set (element, "slope", tee->slope == 0 ? NULL : units_print_decimals (tee->slope, 0, number, sizeof number));
}

/* partner[i]: which tee of the course new tee i was, -1 if none: of the same name, else of what is left the first. */
static void
pair_tees (const Course *course, const CourseTee *tees, size_t n_tees, int *partner)
{
  g_autofree bool *is_taken = g_new0 (bool, course->n_tees + 1);
  for (size_t i = 0; i < n_tees; i++)
    {
      partner[i] = -1;
      for (size_t k = 0; k < course->n_tees && partner[i] < 0; k++)
        if (!is_taken[k] && g_strcmp0 (course->tees[k].name, tees[i].name) == 0)
          partner[i] = (int)k;
      if (partner[i] >= 0)
        is_taken[partner[i]] = true;
    }
  size_t next = 0;
  for (size_t i = 0; i < n_tees; i++)
    {
      while (next < course->n_tees && is_taken[next])
        next++;
      if (partner[i] < 0 && next < course->n_tees)
        partner[i] = (int)next++;
    }
}

static bool
stands_before (const xmlNode *a, const xmlNode *b)
{
  for (const xmlNode *node = a->next; node; node = node->next)
    if (node == b)
      return true;
  return false;
}

/* Brings the elements of the tees into the order of the array, moving those that stand too early. */
static void
order_tees (const GPtrArray *elements)
{
  for (guint i = 1; i < elements->len; i++)
    if (!stands_before (elements->pdata[i - 1], elements->pdata[i]))
      {
        xml_take_out (elements->pdata[i]);
        xml_put_after (elements->pdata[i - 1], elements->pdata[i]);
      }
}

Course *
svg_course_set_tees (const Course *course, const CourseTee *tees, size_t n_tees, GError **error)
{
  g_auto (CourseEdit) edit = { 0 };
  if (!course_edit_begin (&edit, course, error))
    return NULL;
  if (tees_equal (course->tees, course->n_tees, tees, n_tees))
    return course_read_document (edit.document, error);
  g_autofree int *partner = g_new (int, n_tees + 1);
  g_autoptr (GPtrArray) old = g_ptr_array_copy (edit.tees, NULL, NULL), wanted = g_ptr_array_new ();
  pair_tees (course, tees, n_tees, partner);
  for (size_t i = 0; i < n_tees; i++)
    {
      xmlNode *element = partner[i] >= 0 ? old->pdata[partner[i]] : course_edit_new (&edit, "tee");
      if (partner[i] < 0)
        course_edit_insert (&edit, edit.tees, edit.tees->len, element, edit.holes);
      write_tee (element, partner[i] >= 0 ? &course->tees[partner[i]] : NULL, &tees[i]);
      g_ptr_array_add (wanted, element);
    }
  for (guint i = edit.tees->len; i > 0; i--)
    if (!g_ptr_array_find (wanted, edit.tees->pdata[i - 1], NULL))
      course_edit_remove (edit.tees, i - 1);
  order_tees (wanted);
  return course_edit_end (&edit);
}
