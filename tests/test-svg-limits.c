// SPDX-License-Identifier: GPL-3.0-or-later
/* Files that must not open: each is refused with one sentence that says file, line and what to do. */
#include "suite.h"
#include "svg.h"

#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>

#define SVG_ATTRIBUTES                                                                                                         \
  "xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" xmlns:hw=\"urn:holewright:hole:1\""
#define DOCUMENT(content) "<svg " SVG_ATTRIBUTES ">\n" content "</svg>"

/* The document is refused with this code, and the message has this start and says this. */
static void
refused (GBytes *bytes, SvgError code, const char *where, const char *what)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (Hole) hole = svg_read_bytes (bytes, "bad.svg", &findings, &error);
  ck_assert_ptr_null (hole);
  ck_assert_ptr_null (findings);
  ck_assert_msg (g_error_matches (error, SVG_ERROR, (int)code), "%d: %s", error->code, error->message);
  ck_assert_msg (g_str_has_prefix (error->message, where), "%s", error->message);
  ck_assert_msg (strstr (error->message, what) != NULL, "%s", error->message);
  ck_assert_msg (strstr (error->message, "; ") != NULL, "no remedy: %s", error->message);
  ck_assert_ptr_null (strchr (error->message, '\n'));
}

static void
text_refused (const char *text, SvgError code, const char *where, const char *what)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (text, strlen (text));
  refused (bytes, code, where, what);
}

/* A document of `before`, `n` times `middle`, `after`. */
static GBytes *
repeated (const char *before, const char *middle, size_t n, const char *after)
{
  GString *text = g_string_new (before);
  for (size_t i = 0; i < n; i++)
    g_string_append (text, middle);
  g_string_append (text, after);
  return g_string_free_to_bytes (text);
}

static void
repeated_refused (const char *before, const char *middle, size_t n, const char *after, const char *where, const char *what)
{
  g_autoptr (GBytes) bytes = repeated (before, middle, n, after);
  refused (bytes, SVG_ERROR_LIMIT, where, what);
}

static void
repeated_opens (const char *before, const char *middle, size_t n, const char *after)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = repeated (before, middle, n, after);
  g_autoptr (Hole) hole = svg_read_bytes (bytes, "good.svg", NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
}

/* ---- no document at all ---- */

START_TEST (what_is_no_text_is_named)
{
  static const unsigned char gzip[] = { 0x1f, 0x8b, 8, 0 }, utf16[] = { 0xff, 0xfe, '<', 0, 's', 0 }, binary[] = "<svg\n\0\1\2";
  g_autoptr (GBytes) zipped = g_bytes_new_static (gzip, sizeof gzip);
  g_autoptr (GBytes) wide = g_bytes_new_static (utf16, sizeof utf16);
  g_autoptr (GBytes) raw = g_bytes_new_static (binary, sizeof binary);
  text_refused ("", SVG_ERROR_FORMAT, "bad.svg:1: ", "empty");
  text_refused ("  \n ", SVG_ERROR_FORMAT, "bad.svg:1: ", "does not begin");
  text_refused ("club,carry_yd\n", SVG_ERROR_FORMAT, "bad.svg:1: ", "does not begin");
  refused (zipped, SVG_ERROR_FORMAT, "bad.svg:1: ", "gunzip");
  refused (wide, SVG_ERROR_FORMAT, "bad.svg:1: ", "UTF-16");
  refused (raw, SVG_ERROR_FORMAT, "bad.svg:2: ", "not text");
}
END_TEST

START_TEST (encodings_that_could_hide_markup_are_refused)
{
  text_refused ("<?xml version='1.0' encoding='UTF-7'?><svg/>", SVG_ERROR_FORMAT, "bad.svg:1: ", "UTF-7");
  text_refused ("\xef\xbb\xbf<?xml version='1.0' encoding=\"ISO-2022-JP\"?><svg/>", SVG_ERROR_FORMAT,
                "bad.svg:1: ", "ISO-2022-JP");
}
END_TEST

START_TEST (broken_xml_says_its_line)
{
  text_refused (DOCUMENT ("<g>\n<path d='M0"), SVG_ERROR_FORMAT, "bad.svg:3: ", "well-formed");
  text_refused (DOCUMENT ("<g>\n</h>"), SVG_ERROR_FORMAT, "bad.svg:3: ", "well-formed");
  text_refused (DOCUMENT ("<path d='1' d='2'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "well-formed");
  text_refused (DOCUMENT ("<a:b/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "well-formed");
  text_refused ("<!-- nothing else -->", SVG_ERROR_FORMAT, "bad.svg:", "well-formed");
  text_refused ("<svg/>\n<svg/>", SVG_ERROR_FORMAT, "bad.svg:2: ", "well-formed");
}
END_TEST

/* ---- entities ---- */

START_TEST (documents_that_declare_entities_are_refused)
{
  text_refused ("<?xml version='1.0'?>\n<!DOCTYPE svg [ <!ENTITY a 'aaaa'> ]>\n" DOCUMENT ("&a;"), SVG_ERROR_FORMAT,
                "bad.svg:2: ", "entities");
  text_refused ("<!DOCTYPE svg SYSTEM 'x.dtd'\n [ ]>" DOCUMENT (""), SVG_ERROR_FORMAT, "bad.svg:2: ", "entities");
  text_refused ("<!DOCTYPE svg SYSTEM 'x.dtd' >\n" DOCUMENT ("<title>&a;</title>"), SVG_ERROR_FORMAT,
                "bad.svg:3: ", "'a' not defined");
  text_refused ("<!DOCTYPE svg SYSTEM 'x.dtd' >\n" DOCUMENT ("<path id='&a;'/>"), SVG_ERROR_FORMAT,
                "bad.svg:3: ", "'a' not defined");
}
END_TEST

START_TEST (a_document_type_is_named_but_never_loaded)
{
  g_autofree char *folder = g_dir_make_tmp ("holewright-dtd-XXXXXX", NULL);
  g_autofree char *dtd = g_build_filename (folder, "x.dtd", NULL);
  ck_assert (g_file_set_contents (dtd, "<!ENTITY a 'from outside'><!ATTLIST svg stroke CDATA 'red'>", -1, NULL));
  g_autofree char *plain = g_strdup_printf ("<!DOCTYPE svg SYSTEM '%s'>\n" DOCUMENT (""), dtd);
  g_autofree char *using = g_strdup_printf ("<!DOCTYPE svg SYSTEM '%s'>\n" DOCUMENT ("<title>&a;</title>"), dtd);
  g_autoptr (GBytes) bytes = g_bytes_new_static (plain, strlen (plain));
  g_autoptr (GError) error = NULL;
  g_autoptr (Hole) hole = svg_read_bytes (bytes, "good.svg", NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error ? error->message : "");
  text_refused (using, SVG_ERROR_FORMAT, "bad.svg:3: ", "'a' not defined");
  g_remove (dtd);
  g_rmdir (folder);
}
END_TEST

/* ---- too much ---- */

START_TEST (nesting_a_million_deep_is_refused_where_it_gets_too_deep)
{
  repeated_refused ("<svg " SVG_ATTRIBUTES ">", "<g>\n", 1000000, "", "bad.svg:256: ", "256 deep");
  repeated_opens ("<svg " SVG_ATTRIBUTES ">", "<g></g>", 1000, "</svg>");
}
END_TEST

START_TEST (more_than_500_attributes_on_a_tag_are_refused)
{
  GString *text = g_string_new ("<svg " SVG_ATTRIBUTES ">\n<path");
  for (int i = 0; i < 40000; i++)
    g_string_append_printf (text, " a%d='1'", i);
  g_string_append (text, "/></svg>");
  g_autoptr (GBytes) bytes = g_string_free_to_bytes (text);
  refused (bytes, SVG_ERROR_LIMIT, "bad.svg:2: ", "40000 attributes");
}
END_TEST

START_TEST (more_than_200000_path_segments_are_refused)
{
  repeated_opens ("<svg " SVG_ATTRIBUTES "><path d='M0 0", " 1 1", SVG_MOST_SEGMENTS - 1, "'/></svg>");
  repeated_refused ("<svg " SVG_ATTRIBUTES ">\n<path d='M0 0", " 1 1", SVG_MOST_SEGMENTS, "'/></svg>",
                    "bad.svg:2: ", "200000 path segments");
  /* The sum over all elements counts, and a circle for the curves it becomes. */
  repeated_refused ("<svg " SVG_ATTRIBUTES "><path d='M0 0", " 1 1", SVG_MOST_SEGMENTS - 2, "'/><path d='M0 0 1 1'/></svg>",
                    "bad.svg:1: ", "200000 path segments");
  repeated_refused ("<svg " SVG_ATTRIBUTES "><path d='M0 0", " 1 1", SVG_MOST_SEGMENTS - 2, "'/><circle r='1'/></svg>",
                    "bad.svg:1: ", "200000 path segments");
}
END_TEST

START_TEST (curves_too_large_to_follow_are_refused)
{
  repeated_refused ("<svg " SVG_ATTRIBUTES "><path d='M0 0", "C0 999999 999999 0 0 0", 10000, "'/></svg>",
                    "bad.svg:1: ", "too large");
}
END_TEST

START_TEST (more_nodes_or_attributes_than_memory_should_hold_are_refused)
{
  repeated_refused ("<svg " SVG_ATTRIBUTES ">", "<a/>", 500000, "</svg>", "bad.svg:1: ", "elements and comments");
  repeated_refused ("<svg " SVG_ATTRIBUTES ">", "<!---->", 500000, "</svg>", "bad.svg:1: ", "elements and comments");
  repeated_refused ("<svg " SVG_ATTRIBUTES ">", "<a b='' c='' d='' e=''/>", 200000, "</svg>", "bad.svg:1: ", "attributes");
  repeated_refused ("<svg " SVG_ATTRIBUTES ">", "<g xmlns:a='urn:a'>", 240, "</svg>", "bad.svg:1: ", "namespaces");
}
END_TEST

START_TEST (photos_and_remarks_of_twenty_megabytes_open)
{
  repeated_opens ("<svg " SVG_ATTRIBUTES
                  "><image hw:kind=\"underlay\" width=\"4\" height=\"3\" xlink:href=\"data:image/png;base64,",
                  "iVBORw0KGgoAAAAN", 20 * 1000 * 1000 / 16, "\"/></svg>");
  repeated_opens ("<svg " SVG_ATTRIBUTES "><!--", " a long remark \n", 20 * 1000 * 1000 / 16, "--></svg>");
}
END_TEST

START_TEST (more_than_32_mib_are_refused)
{
  g_autofree char *spaces = g_strnfill (SVG_MOST_BYTES, ' ');
  repeated_refused (DOCUMENT (""), spaces, 1, "", "bad.svg: ", "32 MiB");
}
END_TEST

/* ---- numbers and names ---- */

START_TEST (numbers_that_are_none_are_refused)
{
  text_refused (DOCUMENT ("<circle cx='NaN' r='1'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "cx=\"NaN\"");
  text_refused (DOCUMENT ("<circle cx='inf' r='1'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "cx=\"inf\"");
  text_refused (DOCUMENT ("<rect width='1e999' height='1'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "width");
  text_refused (DOCUMENT ("<rect width='-1' height='1'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "negative");
  text_refused (DOCUMENT ("<rect width='3em' height='1'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "3em");
  text_refused (DOCUMENT ("<path d='M0 0 1 nan'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "character 8");
  text_refused (DOCUMENT ("<polygon points='0 0 1'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "points");
  text_refused (DOCUMENT ("<g transform='spin(2)'/>"), SVG_ERROR_FORMAT, "bad.svg:2: ", "transform");
  text_refused ("<svg " SVG_ATTRIBUTES " viewBox='0 0 0 1'/>", SVG_ERROR_FORMAT, "bad.svg:1: ", "viewBox");
}
END_TEST

START_TEST (places_beyond_a_thousand_kilometres_are_refused)
{
  text_refused (DOCUMENT ("<path d='M0 0 1000001 0 0 1z'/>"), SVG_ERROR_LIMIT, "bad.svg:2: ", "1000 km");
  text_refused (DOCUMENT ("<g transform='scale(1e6)'><circle cx='2' r='1'/></g>"), SVG_ERROR_LIMIT, "bad.svg:2: ", "1000 km");
}
END_TEST

START_TEST (an_id_used_twice_is_refused)
{
  text_refused (DOCUMENT ("<g id='a'/>\n<g id='a'/>"), SVG_ERROR_FORMAT, "bad.svg:3: ", "line 2");
}
END_TEST

START_TEST (other_roots_and_newer_versions_are_refused)
{
  text_refused ("<html/>", SVG_ERROR_FORMAT, "bad.svg:1: ", "html");
  text_refused ("<svg/>", SVG_ERROR_FORMAT, "bad.svg:1: ", "namespace");
  text_refused ("<svg " SVG_ATTRIBUTES " hw:version='2'/>", SVG_ERROR_VERSION, "bad.svg:1: ", "version 2");
  text_refused ("<svg " SVG_ATTRIBUTES " hw:version='new'/>", SVG_ERROR_FORMAT, "bad.svg:1: ", "hw:version");
  text_refused ("<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:2'/>", SVG_ERROR_VERSION,
                "bad.svg:1: ", "newer");
}
END_TEST

/* ---- files ---- */

static void
file_refused (const char *path, SvgError code, const char *what)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_read_file (path, NULL, &error));
  ck_assert (g_error_matches (error, SVG_ERROR, (int)code));
  ck_assert_msg (g_str_has_prefix (error->message, path) && strstr (error->message, what), "%s", error->message);
}

START_TEST (what_is_no_file_is_refused_without_waiting)
{
  g_autofree char *folder = g_dir_make_tmp ("holewright-pipe-XXXXXX", NULL);
  g_autofree char *pipe = g_build_filename (folder, "pipe", NULL);
  ck_assert_int_eq (mkfifo (pipe, 0600), 0);
  file_refused ("/nonexistent.svg", SVG_ERROR_READ, "No such file");
  file_refused (folder, SVG_ERROR_READ, "folder");
  file_refused (pipe, SVG_ERROR_READ, "pipe");
  file_refused ("/dev/zero", SVG_ERROR_READ, "device");
  g_remove (pipe);
  g_rmdir (folder);
}
END_TEST

/* Every beginning of a good document is refused, and none of them crashes or leaks. */
START_TEST (every_truncation_is_refused)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", "weir.svg", NULL);
  g_autoptr (GBytes) whole = svg_read_contents (path, NULL);
  const char *text = g_bytes_get_data (whole, NULL);
  gsize end = (gsize)(g_strrstr_len (text, (gssize)g_bytes_get_size (whole), "</svg>") - text);
  for (gsize size = 0; size < end; size += 13)
    {
      g_autoptr (GBytes) part = g_bytes_new_from_bytes (whole, 0, size);
      g_autoptr (GError) error = NULL;
      ck_assert_ptr_null (svg_read_bytes (part, "bad.svg", NULL, &error));
      ck_assert_ptr_nonnull (error);
    }
}
END_TEST

/* Any byte of a good document may be wrong: it opens or is refused, and never reads beyond. */
START_TEST (a_wrong_byte_anywhere_does_no_harm)
{
  static const char wrong[] = { '<', '>', '"', '&', '0', '-', 'e', ' ', '/', '\xff' };
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", "weir.svg", NULL);
  g_autoptr (GBytes) whole = svg_read_contents (path, NULL);
  gsize size = g_bytes_get_size (whole);
  g_autofree char *text = g_memdup2 (g_bytes_get_data (whole, NULL), size);
  for (gsize i = 0; i < size; i += 3)
    {
      char right = text[i];
      text[i] = wrong[i / 3 % sizeof wrong];
      g_autoptr (GBytes) bytes = g_bytes_new (text, size);
      g_autoptr (GError) error = NULL;
      g_autoptr (Hole) hole = svg_read_bytes (bytes, "bad.svg", NULL, &error);
      ck_assert ((hole == NULL) == (error != NULL));
      text[i] = right;
    }
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg limits");
  TCase *bytes = tcase_create ("bytes"), *limits = tcase_create ("limits"), *files = tcase_create ("files");
  suite_add_tcase (suite, bytes);
  suite_add_tcase (suite, limits);
  suite_add_tcase (suite, files);
  tcase_add_test (bytes, what_is_no_text_is_named);
  tcase_add_test (bytes, encodings_that_could_hide_markup_are_refused);
  tcase_add_test (bytes, broken_xml_says_its_line);
  tcase_add_test (bytes, documents_that_declare_entities_are_refused);
  tcase_add_test (bytes, a_document_type_is_named_but_never_loaded);
  tcase_add_test (limits, nesting_a_million_deep_is_refused_where_it_gets_too_deep);
  tcase_add_test (limits, more_than_500_attributes_on_a_tag_are_refused);
  tcase_add_test (limits, more_than_200000_path_segments_are_refused);
  tcase_add_test (limits, curves_too_large_to_follow_are_refused);
  tcase_add_test (limits, more_nodes_or_attributes_than_memory_should_hold_are_refused);
  tcase_add_test (limits, photos_and_remarks_of_twenty_megabytes_open);
  tcase_add_test (limits, more_than_32_mib_are_refused);
  tcase_add_test (limits, numbers_that_are_none_are_refused);
  tcase_add_test (limits, places_beyond_a_thousand_kilometres_are_refused);
  tcase_add_test (limits, an_id_used_twice_is_refused);
  tcase_add_test (limits, other_roots_and_newer_versions_are_refused);
  tcase_add_test (files, what_is_no_file_is_refused_without_waiting);
  tcase_add_test (files, every_truncation_is_refused);
  tcase_add_test (files, a_wrong_byte_anywhere_does_no_harm);
  return suite;
}
