// SPDX-License-Identifier: GPL-3.0-or-later
/* problem-words - a row for each thing that can be found; what has none is said in the words of the check. */
#include "problem-words.h"

#include "sentence.h"

#include <glib/gi18n.h>

static const struct
{
  const char *words; /* with one %s for the thing, or none */
  const char *advice;
} rows[N_FOUND] = {
  [FOUND_NO_GREEN] = { N_ ("The hole has no green."), N_ ("Draw it.") },
  [FOUND_NO_TEE_MARKER] = { N_ ("The hole has no tee marker."), N_ ("Put one on the tee.") },
  [FOUND_NO_HOLE_LOCATION] = { N_ ("The green has no hole location."), N_ ("Put one on the green.") },
  [FOUND_NO_LINE_OF_PLAY]
  = { N_ ("There is no line of play."), N_ ("Draw it from tee to green; until then the hole is measured straight.") },
  [FOUND_NO_PAR] = { N_ ("The hole has no par."), N_ ("Give it one in the hole’s facts.") },
  [FOUND_NO_KIND] = { N_ ("A shape has no kind."), N_ ("Choose one, or leave it as decoration.") },
  [FOUND_OFF_ITS_AREA] = { N_ ("The %s stands off its area."), N_ ("Move it, or draw the area under it.") },
  [FOUND_LINE_OFF_TEE] = { N_ ("The line of play does not begin at a tee."), NULL },
  [FOUND_LINE_OFF_GREEN] = { N_ ("The line of play misses the green."), NULL },
  [FOUND_NO_SHEET] = { N_ ("The drawing has no sheet."), NULL },
  [FOUND_OFF_SHEET] = { N_ ("The %s lies outside the sheet and is not painted."), N_ ("Move it in, or let the sheet grow.") },
  [FOUND_CROSSING] = { N_ ("The outline of the %s crosses itself."), N_ ("Move the points of the loop apart.") },
  [FOUND_NO_HEIGHT] = { N_ ("A spot height has no height."), N_ ("Type it above.") },
  [FOUND_NO_FALL] = { N_ ("A slope has no fall."), N_ ("Type it above.") },
  [FOUND_SAME_NAME] = { N_ ("Another thing is called like the %s."), N_ ("Give each its own name.") },
  [FOUND_TWO_TODAY] = { N_ ("Two hole locations are today’s."), N_ ("Choose one of them.") },
  [FOUND_NO_SUCH_TEE] = { N_ ("The plan names a tee that is not there."), N_ ("Give a tee marker that name.") },
  [FOUND_NO_SUCH_HOLE] = { N_ ("The plan names a hole location that is not there."), N_ ("Give one that name.") },
  [FOUND_AIM_ON_BALL] = { N_ ("A shot of the plan is aimed at its own ball."), N_ ("Move its aim in Plan.") },
  [FOUND_ODD_PAR]
  = { N_ ("The length from the %s is odd for its par."), N_ ("Check the par, the scale and the line of play.") },
};

/* "bunker “pot”", "bunker". */
static char *
thing_words (const Hole *hole, int i)
{
  if (i < 0 || (size_t)i >= hole_n_parts (hole))
    return g_strdup ("");
  const Part *part = hole_part (hole, (size_t)i);
  const char *kind = kind_info (part->kind)->label;
  char buffer[128];
  const char *name = part_label (part, buffer, sizeof buffer);
  return g_str_equal (name, kind) ? g_strdup (_ (kind)) : g_strdup_printf (_ ("%s “%s”"), _ (kind), name);
}

char *
hw_problem_words (const Hole *hole, const Finding *finding)
{
  const char *words = rows[finding->about].words;
  if (words == NULL)
    return hw_sentence (finding->what);
  g_autofree char *thing = thing_words (hole, finding->part);
  GString *text = g_string_new (_ (words));
  g_string_replace (text, "%s", thing, 1);
  return g_string_free (text, FALSE);
}

const char *
hw_problem_advice (const Finding *finding)
{
  const char *advice = rows[finding->about].advice;
  if (rows[finding->about].words == NULL)
    return finding->mend;
  return advice != NULL ? _ (advice) : NULL;
}

const char *
hw_mend_step (Mend mend)
{
  static const char *const steps[] = {
    [MEND_ADD_HOLE_LOCATION] = N_ ("add a hole location"), [MEND_ADD_TEE_MARKER] = N_ ("add a tee marker"),
    [MEND_MOVE_ONTO_AREA] = N_ ("move it onto its area"),  [MEND_LINE_TO_GREEN] = N_ ("lead the line of play to the green"),
    [MEND_UNCROSS] = N_ ("uncross the outline"),           [MEND_GROW_SHEET] = N_ ("grow the sheet"),
  };
  bool is_known = (size_t)mend < G_N_ELEMENTS (steps) && steps[mend] != NULL;
  return is_known ? _ (steps[mend]) : _ ("mend");
}
