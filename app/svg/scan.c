// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * The look over a document before it is parsed. libxml2 takes minutes over a tag with 100 000 attributes and any memory an entity asks for;
 * one pass over the bytes finds such files in milliseconds and says on which line. Where the scan misreads broken markup the parser stops
 * at the same place, so nothing can hide behind the mistake.
 */
#include "document-private.h"

#include <string.h>

typedef struct
{
  const char *name;
  const char *p, *end;
  const char *counted; /* newlines before this are in `line` */
  unsigned line;
  size_t n_nodes, n_attributes, n_namespaces;
  unsigned depth;
  unsigned namespaces[SVG_MOST_DEPTH + 1]; /* declared by the open element of each depth */
  GArray *lines;
  GError **error;
} Scan;

static unsigned
scan_line (Scan *scan)
{
  while (scan->counted < scan->p)
    {
      const char *newline = memchr (scan->counted, '\n', (size_t)(scan->p - scan->counted));
      if (!newline)
        break;
      scan->line++;
      scan->counted = newline + 1;
    }
  scan->counted = scan->p;
  return scan->line;
}

/* Sets the error for where the scan stands; always false. */
#define REFUSE(scan, code, ...) (document_fault ((scan)->name, scan_line (scan), (code), (scan)->error, __VA_ARGS__), false)

static bool
starts_with (const Scan *scan, const char *text)
{
  size_t length = strlen (text);
  return (size_t)(scan->end - scan->p) >= length && memcmp (scan->p, text, length) == 0;
}

/* Moves past the next `text`, or to the end. */
static void
skip_past (Scan *scan, const char *text)
{
  const char *found = g_strstr_len (scan->p, scan->end - scan->p, text);
  scan->p = found ? found + strlen (text) : scan->end;
}

static bool
is_space (char c)
{
  return c == ' ' || c == '\n' || c == '\t' || c == '\r';
}

/* Within a start tag: does a namespace declaration begin here? */
static bool
at_declaration (const Scan *scan)
{
  return is_space (scan->p[-1]) && (starts_with (scan, "xmlns:") || starts_with (scan, "xmlns="));
}

/* Moves past the closing quote of the value that opens here. */
static void
skip_value (Scan *scan)
{
  const char *close = memchr (scan->p + 1, *scan->p, (size_t)(scan->end - scan->p - 1));
  scan->p = close ? close + 1 : scan->end;
}

/* A start tag from its '<' on. Ends after its '>'. */
static bool
scan_start_tag (Scan *scan)
{
  unsigned line = scan_line (scan), n_attributes = 0, n_declarations = 0;
  g_array_append_val (scan->lines, line);
  if (++scan->depth > SVG_MOST_DEPTH)
    return REFUSE (scan, SVG_ERROR_LIMIT, "elements stand more than %d deep in one another; take out groups that serve nothing",
                   SVG_MOST_DEPTH);
  scan->p++;
  while (scan->p < scan->end && *scan->p != '>')
    if (*scan->p == '"' || *scan->p == '\'')
      {
        skip_value (scan);
        n_attributes++;
      }
    else
      {
        n_declarations += *scan->p == 'x' && at_declaration (scan);
        scan->p++;
      }
  if (n_attributes > SVG_MOST_ATTRIBUTES)
    return REFUSE (scan, SVG_ERROR_LIMIT, "a tag has %u attributes, %d at most are read; take out what serves nothing",
                   n_attributes, SVG_MOST_ATTRIBUTES);
  scan->n_attributes += n_attributes;
  if (scan->n_attributes > DOCUMENT_MOST_ATTRIBUTES)
    return REFUSE (scan, SVG_ERROR_LIMIT, "the document has more than %d attributes; split or simplify it",
                   DOCUMENT_MOST_ATTRIBUTES);
  scan->namespaces[scan->depth] = n_declarations;
  scan->n_namespaces += n_declarations;
  if (scan->n_namespaces > DOCUMENT_MOST_NAMESPACES)
    return REFUSE (scan, SVG_ERROR_LIMIT, "more than %d namespaces are declared at one place; take out those not used",
                   DOCUMENT_MOST_NAMESPACES);
  if (scan->p[-1] == '/')
    scan->n_namespaces -= scan->namespaces[scan->depth--];
  return true;
}

static void
scan_end_tag (Scan *scan)
{
  if (scan->depth > 0)
    scan->n_namespaces -= scan->namespaces[scan->depth--];
  skip_past (scan, ">");
}

/* <!DOCTYPE ...>: a name and public and system ids are fine, nothing of them is loaded. */
static bool
scan_doctype (Scan *scan)
{
  while (scan->p < scan->end && *scan->p != '>')
    {
      if (*scan->p == '[')
        return REFUSE (scan, SVG_ERROR_FORMAT,
                       "the document declares entities or other types of its own; save it as plain SVG without them");
      if (*scan->p == '"' || *scan->p == '\'')
        skip_value (scan);
      else
        scan->p++;
    }
  return true;
}

/* Whatever begins with the '<' here. */
static bool
scan_markup (Scan *scan)
{
  if (++scan->n_nodes > DOCUMENT_MOST_NODES)
    return REFUSE (scan, SVG_ERROR_LIMIT, "the document has more than %d elements and comments; split or simplify it",
                   DOCUMENT_MOST_NODES);
  if (starts_with (scan, "<!--"))
    {
      scan->p += strlen ("<!--");
      skip_past (scan, "-->");
    }
  else if (starts_with (scan, "<![CDATA["))
    skip_past (scan, "]]>");
  else if (starts_with (scan, "<?"))
    skip_past (scan, "?>");
  else if (starts_with (scan, "<!"))
    return scan_doctype (scan);
  else if (starts_with (scan, "</"))
    scan_end_tag (scan);
  else
    return scan_start_tag (scan);
  return true;
}

/* ---- encodings ---- */

/* Encodings in which every byte below 128 is the ASCII character. */
static bool
encoding_is_plain (const char *encoding)
{
  static const char *const exact[] = { "utf-8", "utf8", "us-ascii", "ascii" };
  for (size_t i = 0; i < G_N_ELEMENTS (exact); i++)
    if (g_ascii_strcasecmp (encoding, exact[i]) == 0)
      return true;
  return g_ascii_strncasecmp (encoding, "iso-8859-", 9) == 0 || g_ascii_strncasecmp (encoding, "windows-125", 11) == 0;
}

/* The encoding named by the XML declaration, if there is one. */
static bool
check_encoding (Scan *scan)
{
  if (!starts_with (scan, "<?xml") || scan->end - scan->p < 6 || !is_space (scan->p[5]))
    return true;
  const char *close = g_strstr_len (scan->p, scan->end - scan->p, "?>");
  size_t size = (size_t)((close ? close : scan->end) - scan->p);
  const char *word = g_strstr_len (scan->p, (gssize)size, "encoding");
  if (!word)
    return true;
  const char *stop = scan->p + size, *p = word + strlen ("encoding");
  while (p < stop && *p != '"' && *p != '\'')
    p++;
  const char *end = p < stop ? memchr (p + 1, *p, (size_t)(stop - p - 1)) : NULL;
  if (!end)
    return true; /* broken: the parser says so */
  g_autofree char *encoding = g_strndup (p + 1, (gsize)(end - p - 1));
  if (encoding_is_plain (encoding))
    return true;
  return REFUSE (scan, SVG_ERROR_FORMAT, "the encoding %s is not read; save the document as UTF-8", encoding);
}

static bool
check_start (Scan *scan)
{
  static const char utf8_mark[] = "\xef\xbb\xbf", utf16_marks[2][3] = { "\xff\xfe", "\xfe\xff" };
  if (scan->p == scan->end)
    return REFUSE (scan, SVG_ERROR_FORMAT, "the file is empty; choose a hole drawn as SVG");
  if (starts_with (scan, "\x1f\x8b"))
    return REFUSE (scan, SVG_ERROR_FORMAT, "the file is compressed; unpack it with gunzip first");
  if (starts_with (scan, utf16_marks[0]) || starts_with (scan, utf16_marks[1]))
    return REFUSE (scan, SVG_ERROR_FORMAT, "the encoding UTF-16 is not read; save the document as UTF-8");
  const char *zero = memchr (scan->p, '\0', (size_t)(scan->end - scan->p));
  if (zero)
    {
      scan->p = zero;
      return REFUSE (scan, SVG_ERROR_FORMAT, "the file is not text; choose a hole drawn as SVG");
    }
  if (starts_with (scan, utf8_mark))
    scan->p += strlen (utf8_mark);
  if (!check_encoding (scan))
    return false;
  const char *p = scan->p;
  while (p < scan->end && is_space (*p))
    p++;
  if (p == scan->end || *p != '<')
    return REFUSE (scan, SVG_ERROR_FORMAT, "the file does not begin as XML does, with <; choose a hole drawn as SVG");
  return true;
}

bool
scan_document (const char *bytes, size_t size, const char *name, unsigned **lines, size_t *n_elements, GError **error)
{
  Scan scan = { .name = name, .p = bytes, .end = bytes + size, .counted = bytes, .line = 1, .error = error };
  if (!check_start (&scan))
    return false;
  const unsigned none = 0;
  scan.lines = g_array_new (FALSE, FALSE, sizeof (unsigned));
  g_array_append_val (scan.lines, none);
  bool good = true;
  while (good && (scan.p = memchr (scan.p, '<', (size_t)(scan.end - scan.p))) != NULL)
    good = scan_markup (&scan);
  if (good)
    *n_elements = scan.lines->len - 1;
  *lines = (unsigned *)(void *)g_array_free (scan.lines, !good);
  return good;
}
