// SPDX-License-Identifier: GPL-3.0-or-later
/* problem-words - what a check found, in the golfer's words and language. */
#ifndef HW_PROBLEM_WORDS_H
#define HW_PROBLEM_WORDS_H

#include "svg.h"

/* "The outline of the bunker “pot” crosses itself." Free with g_free. */
char *hw_problem_words (const Hole *hole, const Finding *finding);
/* What to do about it by hand; NULL where nothing needs to be said. */
const char *hw_problem_advice (const Finding *finding);
/* What undo calls a way to mend. */
const char *hw_mend_step (Mend mend);

#endif
