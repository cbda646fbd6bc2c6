// SPDX-License-Identifier: GPL-3.0-or-later
/* Path data (SVG 1.1, section 8.3) and point lists, read one segment at a time, stopping at the first mistake. */
#include "grammar-private.h"
#include "number-private.h"
#include "units.h"

typedef struct
{
  const char *p;
  Path *path;
  Vec2 at;      /* where the pen is */
  Vec2 start;   /* of this subpath */
  Vec2 control; /* last control point, if the last command was a curve of `family` */
  char family;  /* 'C' after C and S, 'Q' after Q and T, else 0 */
  bool is_relative;
  bool has_arc; /* an arc of extreme radii may come out as no number */
} Pen;

/* A letter, how many numbers follow it, and what drawing them does. */
typedef struct
{
  char letter;
  const char *arguments; /* one character each: x and y absolute or relative, v a plain value, f an arc flag */
  void (*draw) (Pen *pen, const double *arguments);
} Command;

/* Most arguments of one segment: the arc's. */
#define MOST_ARGUMENTS 7

static void
pen_arrive (Pen *pen, Vec2 at, char family, Vec2 control)
{
  pen->at = at;
  pen->family = family;
  pen->control = control;
}

static void
draw_move (Pen *pen, const double *a)
{
  path_move_to (pen->path, vec2 (a[0], a[1]));
  pen->start = vec2 (a[0], a[1]);
  pen_arrive (pen, pen->start, 0, pen->start);
}

static void
draw_line_to (Pen *pen, Vec2 to)
{
  path_line_to (pen->path, to);
  pen_arrive (pen, to, 0, to);
}

static void
draw_line (Pen *pen, const double *a)
{
  draw_line_to (pen, vec2 (a[0], a[1]));
}

static void
draw_horizontal (Pen *pen, const double *a)
{
  draw_line_to (pen, vec2 (a[0], pen->at.y));
}

static void
draw_vertical (Pen *pen, const double *a)
{
  draw_line_to (pen, vec2 (pen->at.x, a[0]));
}

static void
draw_cubic (Pen *pen, const double *a)
{
  Vec2 c2 = vec2 (a[2], a[3]), to = vec2 (a[4], a[5]);
  path_cubic_to (pen->path, vec2 (a[0], a[1]), c2, to);
  pen_arrive (pen, to, 'C', c2);
}

/* The last control point mirrored in the pen, or the pen itself when the last command was no curve of this family. */
static Vec2
pen_reflected (const Pen *pen, char family)
{
  return pen->family == family ? vec2_sub (vec2_scale (pen->at, 2), pen->control) : pen->at;
}

static void
draw_smooth_cubic (Pen *pen, const double *a)
{
  Vec2 c2 = vec2 (a[0], a[1]), to = vec2 (a[2], a[3]);
  path_cubic_to (pen->path, pen_reflected (pen, 'C'), c2, to);
  pen_arrive (pen, to, 'C', c2);
}

static void
draw_quadratic (Pen *pen, const double *a)
{
  Vec2 c = vec2 (a[0], a[1]), to = vec2 (a[2], a[3]);
  path_quadratic_to (pen->path, c, to);
  pen_arrive (pen, to, 'Q', c);
}

static void
draw_smooth_quadratic (Pen *pen, const double *a)
{
  Vec2 c = pen_reflected (pen, 'Q'), to = vec2 (a[0], a[1]);
  path_quadratic_to (pen->path, c, to);
  pen_arrive (pen, to, 'Q', c);
}

static void
draw_arc (Pen *pen, const double *a)
{
  Vec2 to = vec2 (a[5], a[6]);
  pen->has_arc = true;
  path_arc_to (pen->path, a[0], a[1], units_radians (a[2]), a[3] != 0, a[4] != 0, to);
  pen_arrive (pen, to, 0, to);
}

static void
draw_close (Pen *pen, const double *a)
{
  path_close (pen->path);
  pen_arrive (pen, pen->start, 0, pen->start);
}

static const Command commands[] = {
  { 'M', "xy", draw_move },        { 'L', "xy", draw_line },
  { 'H', "x", draw_horizontal },   { 'V', "y", draw_vertical },
  { 'C', "xyxyxy", draw_cubic },   { 'S', "xyxy", draw_smooth_cubic },
  { 'Q', "xyxy", draw_quadratic }, { 'T', "xy", draw_smooth_quadratic },
  { 'A', "vvvffxy", draw_arc },    { 'Z', "", draw_close },
};

static const Command *
command_of (char letter)
{
  char capital = letter >= 'a' && letter <= 'z' ? (char)(letter - 'a' + 'A') : letter;
  for (size_t i = 0; i < G_N_ELEMENTS (commands); i++)
    if (commands[i].letter == capital)
      return &commands[i];
  return NULL;
}

static bool
take_flag (const char **cursor, double *value)
{
  if (**cursor != '0' && **cursor != '1')
    return false;
  *value = *(*cursor)++ - '0';
  return true;
}

/* The numbers of one segment, made absolute. On a mistake the pen stands at the character that is wrong. */
static bool
take_arguments (Pen *pen, const Command *command, double *a)
{
  for (size_t i = 0; command->arguments[i]; i++)
    {
      char kind = command->arguments[i];
      if (i > 0)
        number_skip_comma (&pen->p);
      if (!(kind == 'f' ? take_flag (&pen->p, &a[i]) : number_scan (&pen->p, &a[i])))
        return false;
      if (pen->is_relative && kind == 'x')
        a[i] += pen->at.x;
      if (pen->is_relative && kind == 'y')
        a[i] += pen->at.y;
    }
  return true;
}

/* Does another set of arguments follow without a letter? */
static bool
repeats (Pen *pen)
{
  number_skip_space (&pen->p);
  char c = *pen->p;
  if (c == ',')
    {
      pen->p++;
      number_skip_space (&pen->p);
      return true;
    }
  return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == '+';
}

/* One command letter with all its repeats. */
static PathVerdict
take_command (Pen *pen, size_t most_segments)
{
  const Command *command = command_of (*pen->p);
  if (!command)
    return PATH_MISTAKE;
  pen->is_relative = *pen->p >= 'a';
  pen->p++;
  number_skip_space (&pen->p);
  do
    {
      double a[MOST_ARGUMENTS];
      if (!take_arguments (pen, command, a))
        return PATH_MISTAKE;
      command->draw (pen, a);
      if (pen->path->n_segs > most_segments)
        return PATH_TOO_LONG;
      if (command->letter == 'M')
        command = command_of ('L'); /* further pairs are lines */
    }
  while (command->letter != 'Z' && repeats (pen));
  return PATH_GOOD;
}

PathVerdict
path_grammar_read (const char *text, Path *path, size_t most_segments, size_t *offset)
{
  Pen pen = { .p = text, .path = path };
  PathVerdict verdict = PATH_GOOD;
  number_skip_space (&pen.p);
  if (*pen.p != '\0' && *pen.p != 'M' && *pen.p != 'm')
    verdict = PATH_MISTAKE;
  while (verdict == PATH_GOOD && *pen.p != '\0')
    {
      verdict = take_command (&pen, most_segments);
      number_skip_space (&pen.p);
    }
  if (verdict == PATH_GOOD && pen.has_arc && !path_is_finite (path))
    verdict = PATH_MISTAKE;
  if (verdict != PATH_GOOD && offset)
    *offset = (size_t)(pen.p - text);
  return verdict;
}

PathVerdict
points_grammar_read (const char *text, Path *path, size_t most_segments, size_t *offset)
{
  const char *p = text;
  PathVerdict verdict = PATH_GOOD;
  number_skip_space (&p);
  for (bool is_first = true; verdict == PATH_GOOD && *p != '\0'; is_first = false)
    {
      Vec2 to;
      if (!number_scan (&p, &to.x))
        verdict = PATH_MISTAKE;
      else
        {
          number_skip_comma (&p);
          if (!number_scan (&p, &to.y))
            verdict = PATH_MISTAKE;
        }
      if (verdict != PATH_GOOD)
        break;
      if (is_first)
        path_move_to (path, to);
      else
        path_line_to (path, to);
      if (path->n_segs > most_segments)
        verdict = PATH_TOO_LONG;
      number_skip_comma (&p);
    }
  if (verdict != PATH_GOOD && offset)
    *offset = (size_t)(p - text);
  return verdict;
}

bool
svg_parse_path (const char *text, Path *path, size_t most_segments, size_t *offset)
{
  return path_grammar_read (text, path, most_segments, offset) == PATH_GOOD;
}
