// SPDX-License-Identifier: GPL-3.0-or-later
/* What the files of the section share. */
#ifndef HOLEWRIGHT_ODDS_SECTION_PRIVATE_H
#define HOLEWRIGHT_ODDS_SECTION_PRIVATE_H

#include "odds-section.h"
#include "tree-private.h"

/* Fills in the section's trees; its ground is known. */
void section_look_at_trees (const Hole *hole, const Track *track, const CarryTable *carries, const TreeTable *table,
                            Section *section);

#endif
