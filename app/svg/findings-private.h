// SPDX-License-Identifier: GPL-3.0-or-later
/* findings - lists of what is suspect, kept short enough to read. */
#ifndef HOLEWRIGHT_SVG_FINDINGS_PRIVATE_H
#define HOLEWRIGHT_SVG_FINDINGS_PRIVATE_H

#include "svg.h"

/* More than anyone reads; the last of a longer list says that there is more. */
#define MOST_FINDINGS 200

GPtrArray *findings_new (void);
/* Takes over `what`. Returns the finding, about no part and to be mended by hand, to be filled in; NULL when the list is full. */
Finding *findings_add (GPtrArray *findings, FindingSeverity severity, unsigned line, char *what, const char *mend);

/* "short" or "long" when the length does not suit the par (Rules of Handicapping, Appendix F); NULL when it does or nothing is laid down. */
const char *par_fault (const HoleInfo *info, int par, double length_m);

#endif
