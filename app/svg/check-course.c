// SPDX-License-Identifier: GPL-3.0-or-later
/* What is suspect about holes as a course: numbers and stroke indices among each other, pars against lengths. */
#include "findings-private.h"
#include "units.h"

#define HOLES_OF_A_ROUND 18
#define HOLES_OF_HALF_A_ROUND 9

/* ---- par and length ---- */

/*
 * Lengths that a par may have: Rules of Handicapping (World Handicap System, 2024), Appendix F, below 610 m of altitude, metres. Men's 3 up to
 * 240, 4 220 to 450, 5 410 to 650, 6 from 610; women's 3 up to 200, 4 180 to 380, 5 340 to 550, 6 from 520. The document does not say
 * for whom its par is, so each row runs from the women's least to the men's most.
 */
typedef struct
{
  int par;
  double least_m, most_m;
} ParRow;

static const ParRow par_rows[] = { { 3, 0, 240 }, { 4, 180, 450 }, { 5, 340, 650 }, { 6, 520, INFINITY } };
#define HIGHEST_COURSE_M 610.0

const char *
par_fault (const HoleInfo *info, int par, double length_m)
{
  if (info->altitude_m >= HIGHEST_COURSE_M)
    return NULL;
  for (size_t row = 0; row < G_N_ELEMENTS (par_rows); row++)
    if (par_rows[row].par == par && (length_m < par_rows[row].least_m || length_m > par_rows[row].most_m))
      return length_m < par_rows[row].least_m ? "short" : "long";
  return NULL;
}

/* ---- the course ---- */

typedef struct
{
  const Hole *const *holes;
  size_t n_holes;
  GPtrArray *findings;
} CourseCheck;

/* A number that tells the holes of a round apart. */
typedef struct
{
  const char *what, *mend;
  int (*of) (const HoleInfo *info); /* 0: none */
  bool restarts;                    /* with each round, or nine, of the course */
} Numbering;

static int
number_of (const HoleInfo *info)
{
  return info->number;
}

static int
stroke_index_of (const HoleInfo *info)
{
  return info->stroke_index;
}

static const Numbering numberings[] = {
  { "number", "give each hole one of its own", number_of, false },
  { "stroke index", "give each hole one of its own, 1 for the hardest", stroke_index_of, true },
};

static int
value_of (const CourseCheck *check, const Numbering *numbering, size_t i)
{
  return check->holes[i] ? numbering->of (hole_info (check->holes[i])) : 0;
}

static void G_GNUC_PRINTF (4, 5) note (CourseCheck *check, int hole, const char *mend, const char *format, ...)
{
  va_list arguments;
  va_start (arguments, format);
  Finding *finding = findings_add (check->findings, FINDING_NOTE, 0, g_strdup_vprintf (format, arguments), mend);
  va_end (arguments);
  if (finding)
    finding->part = hole;
}

/* "3 and 7", "3, 5 and 7": appends one of a list. */
static void
append_to_list (GString *list, int value, bool is_last)
{
  if (list->len > 0)
    g_string_append (list, is_last ? " and " : ", ");
  g_string_append_printf (list, "%d", value);
}

/* The places (from 1) whose value is `value`, as a list; `*n` of them. */
static char *
places_with (const CourseCheck *check, const Numbering *numbering, size_t from, size_t to, int value, size_t *n)
{
  GString *list = g_string_new (NULL);
  size_t last = from;
  for (size_t i = from; i < to; i++)
    if (check->holes[i] && value_of (check, numbering, i) == value)
      last = i;
  *n = 0;
  for (size_t i = from; i < to; i++)
    if (check->holes[i] && value_of (check, numbering, i) == value)
      {
        append_to_list (list, (int)i + 1, i == last);
        ++*n;
      }
  return g_string_free (list, FALSE);
}

static void
check_absent (CourseCheck *check, const Numbering *numbering)
{
  size_t n;
  g_autofree char *places = places_with (check, numbering, 0, check->n_holes, 0, &n);
  if (n == 0)
    return;
  int first = 0;
  while (!check->holes[first] || value_of (check, numbering, (size_t)first) != 0)
    first++;
  if (n == check->n_holes && n > 1)
    note (check, -1, numbering->mend, "no hole has a %s", numbering->what);
  else
    note (check, first, numbering->mend, n == 1 ? "the hole at place %s has no %s" : "the holes at places %s have no %s",
          places, numbering->what);
}

static void
check_twice (CourseCheck *check, const Numbering *numbering, size_t from, size_t to)
{
  for (size_t i = from; i < to; i++)
    {
      int value = value_of (check, numbering, i);
      bool is_first = value > 0;
      for (size_t k = from; k < i; k++)
        is_first = is_first && value_of (check, numbering, k) != value;
      if (!is_first)
        continue;
      size_t n;
      g_autofree char *places = places_with (check, numbering, from, to, value, &n);
      if (n > 1)
        note (check, (int)i, numbering->mend, "the holes at places %s have the same %s, %d", places, numbering->what, value);
    }
}

static bool
is_used (const CourseCheck *check, const Numbering *numbering, size_t from, size_t to, int value)
{
  for (size_t i = from; i < to; i++)
    if (value_of (check, numbering, i) == value)
      return true;
  return false;
}

/*
 * Numbers left out between the least and the greatest. Nine holes of a round may have every other stroke index of it (Rules of Handicapping, Appendix E: odd
 * ones on one nine, even ones on the other), so they count in twos when all are odd or all even.
 */
static void
check_left_out (CourseCheck *check, const Numbering *numbering, size_t from, size_t to)
{
  int least = 0, greatest = 0, odd = 0, n = 0;
  for (size_t i = from; i < to; i++)
    {
      int value = value_of (check, numbering, i);
      if (value == 0)
        return;
      least = n == 0 ? value : MIN (least, value);
      greatest = MAX (greatest, value);
      odd += value % 2;
      n++;
    }
  bool in_twos = numbering->restarts && n == HOLES_OF_HALF_A_ROUND && (odd == 0 || odd == n);
  int step = in_twos ? 2 : 1, missing = 0, last = 0;
  bool is_second_nine = n == HOLES_OF_HALF_A_ROUND && least > HOLES_OF_HALF_A_ROUND && !in_twos;
  int first = !numbering->restarts || is_second_nine ? least : in_twos ? 2 - least % 2 : 1;
  int full = first + step * (n - 1);
  bool is_full = numbering->restarts && (n == HOLES_OF_A_ROUND || n == HOLES_OF_HALF_A_ROUND);
  /* No more than there are holes: a stray 99 is one mistake, not eighty. */
  greatest = is_full ? full : MIN (greatest, full);
  for (int value = first; value <= greatest; value += step)
    if (!is_used (check, numbering, from, to, value))
      {
        missing++;
        last = value;
      }
  if (missing == 0)
    return;
  g_autoptr (GString) list = g_string_new (NULL);
  for (int value = first; value <= greatest; value += step)
    if (!is_used (check, numbering, from, to, value))
      append_to_list (list, value, value == last);
  note (check, -1, numbering->mend, "no hole has the %s %s", numbering->what, list->str);
}

/* How many holes share one set of stroke indices. */
static size_t
holes_of_a_set (size_t n_holes)
{
  if (n_holes <= HOLES_OF_A_ROUND || n_holes % HOLES_OF_A_ROUND == 0)
    return HOLES_OF_A_ROUND;
  return n_holes % HOLES_OF_HALF_A_ROUND == 0 ? HOLES_OF_HALF_A_ROUND : n_holes;
}

static void
check_numbering (CourseCheck *check, const Numbering *numbering)
{
  size_t set = numbering->restarts ? holes_of_a_set (check->n_holes) : MAX (check->n_holes, 1);
  check_absent (check, numbering);
  for (size_t from = 0; from < check->n_holes; from += set)
    {
      size_t to = MIN (from + set, check->n_holes);
      check_twice (check, numbering, from, to);
      check_left_out (check, numbering, from, to);
    }
}

/* One note a hole, from the first of its tees whose length does not suit. */
static void
check_par_of_hole (CourseCheck *check, size_t i)
{
  const Hole *hole = check->holes[i];
  const HoleInfo *info = hole_info (hole);
  for (size_t k = 0; k < hole_n_parts (hole); k++)
    {
      const Part *tee = hole_part (hole, k);
      double length_m;
      if (tee->kind != KIND_TEE_MARKER || !tee->name || !hole_measured_length (hole, tee->name, &length_m))
        continue;
      int par = tee->par > 0 ? tee->par : info->par;
      const char *fault = par_fault (info, par, length_m);
      if (!fault)
        continue;
      note (check, (int)i, "see Appendix F of the Rules of Handicapping (World Handicap System)",
            "the hole at place %zu is %s for a par %d: %.0f m (%.0f yd) from \"%s\"", i + 1, fault, par, length_m,
            length_m / METRES_PER_YARD, tee->name);
      return;
    }
}

GPtrArray *
svg_check_course (const Hole *const *holes, size_t n_holes)
{
  CourseCheck check = { holes, n_holes, findings_new () };
  for (size_t i = 0; i < G_N_ELEMENTS (numberings); i++)
    check_numbering (&check, &numberings[i]);
  for (size_t i = 0; i < n_holes; i++)
    if (holes[i])
      check_par_of_hole (&check, i);
  return check.findings;
}
