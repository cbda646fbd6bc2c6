// SPDX-License-Identifier: GPL-3.0-or-later
/* A course folder: course.xml names the tees and the files of the holes, in playing order. */
#include "course-private.h"
#include "number-private.h"

#include <string.h>

/* Bounds of the ratings (Rules of Handicapping, World Handicap System: a Slope Rating is 55 to 155). */
#define LEAST_SLOPE 55
#define MOST_SLOPE 155
/* Above any Course Rating of 18 holes; only keeps nonsense out. */
#define MOST_RATING 100.0
/* Holes of one course; only keeps nonsense out. */
#define MOST_HOLES 99

typedef struct
{
  const Document *document;
  unsigned ordinal;
  Course *course;
  GArray *tees;     /* CourseTee */
  GPtrArray *files; /* char * */
  GError **error;
} Reader;

#define REFUSE(reader, ...)                                                                                                    \
  (document_fault ((reader)->document->name, (reader)->document->lines[(reader)->ordinal], SVG_ERROR_FORMAT, (reader)->error,  \
                   __VA_ARGS__),                                                                                               \
   false)

/* An optional number attribute; `absent` if missing or empty. */
static bool
read_number (Reader *reader, const xmlNode *element, const char *attribute, double low, double high, double absent,
             double *value)
{
  const char *text = document_attribute (element, attribute, NULL);
  *value = absent;
  if (!text || *text == '\0')
    return true;
  if (number_read (text, value) && *value >= low && *value <= high)
    return true;
  return REFUSE (reader, "%s=\"%.40s\" of a tee is not a number from %g to %g; correct it", attribute, text, low, high);
}

static bool
read_tee (Reader *reader, const xmlNode *element)
{
  const char *name = document_attribute (element, "name", NULL);
  double rating, slope;
  if (!name || *name == '\0')
    return REFUSE (reader, "a tee has no name; give it name=\"...\"");
  if (!read_number (reader, element, "rating", 1, MOST_RATING, NAN, &rating)
      || !read_number (reader, element, "slope", LEAST_SLOPE, MOST_SLOPE, 0, &slope))
    return false;
  CourseTee tee = { g_strdup (name), g_strdup (document_attribute (element, "colour", NULL)), rating, (int)slope };
  g_array_append_val (reader->tees, tee);
  return true;
}

/* A hole's file stands in the course's folder or below it. */
static bool
is_inside (const char *file)
{
  if (g_path_is_absolute (file))
    return false;
  g_auto (GStrv) steps = g_strsplit (file, "/", -1);
  return !g_strv_contains ((const char *const *)steps, "..");
}

static bool
read_hole (Reader *reader, const xmlNode *element)
{
  const char *file = document_attribute (element, "file", NULL);
  if (!file || *file == '\0')
    return REFUSE (reader, "a hole has no file; give it file=\"...\"");
  if (!is_inside (file))
    return REFUSE (reader, "the hole file %.80s stands outside the course's folder; move it inside", file);
  g_autofree char *path = g_build_filename (reader->course->folder, file, NULL);
  if (reader->files->len == MOST_HOLES)
    return REFUSE (reader, "the course has more than %d holes; split it", MOST_HOLES);
  g_ptr_array_add (reader->files, g_steal_pointer (&path));
  return true;
}

static bool
read_elements (Reader *reader, const xmlNode *parent, bool is_root)
{
  for (const xmlNode *child = parent->children; child; child = child->next)
    {
      if (child->type != XML_ELEMENT_NODE)
        continue;
      reader->ordinal++;
      bool is_ours = is_root && document_is_element (child, SVG_COURSE_NAMESPACE);
      if (is_ours && strcmp ((const char *)child->name, "tee") == 0 && !read_tee (reader, child))
        return false;
      if (is_ours && strcmp ((const char *)child->name, "hole") == 0 && !read_hole (reader, child))
        return false;
      read_elements (reader, child, false);
    }
  return true;
}

static bool
read_root (Reader *reader, const xmlNode *root)
{
  reader->ordinal = 1;
  if (strcmp ((const char *)root->name, "course") != 0 || !document_is_element (root, SVG_COURSE_NAMESPACE))
    return REFUSE (reader, "the root element is %.40s, not a course; write <course xmlns=\"%s\">", (const char *)root->name,
                   SVG_COURSE_NAMESPACE);
  const char *name = document_attribute (root, "name", NULL);
  reader->course->name = name && *name ? g_strdup (name) : g_path_get_basename (reader->course->folder);
  if (!read_elements (reader, root, true))
    return false;
  reader->ordinal = 1;
  return reader->files->len > 0 || REFUSE (reader, "the course has no holes; add <hole file=\"...\"/>");
}

/* Hands the lists over to the course, also on failure, so that freeing it frees them. */
static void
give_lists (Reader *reader)
{
  Course *course = reader->course;
  course->n_tees = reader->tees->len;
  course->tees = (CourseTee *)(void *)g_array_free (reader->tees, FALSE);
  course->n_holes = reader->files->len;
  g_ptr_array_add (reader->files, NULL);
  course->hole_files = (char **)g_ptr_array_free (reader->files, FALSE);
}

Course *
course_read_document (const Document *document, GError **error)
{
  g_autofree char *absolute = g_canonicalize_filename (document->name, NULL);
  g_autoptr (Course) course = g_new0 (Course, 1);
  course->folder = g_path_get_dirname (absolute);
  Reader reader = { document, 0, course, g_array_new (FALSE, FALSE, sizeof (CourseTee)), g_ptr_array_new (), error };
  bool good = read_root (&reader, xmlDocGetRootElement (document->tree));
  give_lists (&reader);
  return good ? g_steal_pointer (&course) : NULL;
}

Course *
svg_read_course (const char *path, GError **error)
{
  bool is_folder = g_file_test (path, G_FILE_TEST_IS_DIR);
  g_autofree char *file = is_folder ? g_build_filename (path, COURSE_FILE, NULL) : g_strdup (path);
  if (is_folder && !g_file_test (file, G_FILE_TEST_EXISTS))
    {
      document_fault (path, 0, SVG_ERROR_READ, error,
                      "the folder holds no course: it has no " COURSE_FILE "; choose a hole's file in it");
      return NULL;
    }
  g_autoptr (GBytes) bytes = svg_read_contents (file, error);
  g_autoptr (Document) document = bytes ? document_parse (bytes, file, error) : NULL;
  return document ? course_read_document (document, error) : NULL;
}
