// SPDX-License-Identifier: GPL-3.0-or-later
/* sheet - one hole file that is open: its history, its place on disk and what the disk held when last looked at. */
#ifndef HW_SHEET_H
#define HW_SHEET_H

#include "hole.h"

typedef struct
{
  char *path; /* absolute; NULL until first saved */
  History *history;
  GBytes *on_disk; /* bytes last read from or written to `path` */
  size_t shot;     /* the shot in hand */
} HwSheet;

/* Reads the file. `findings` (may be NULL) receives a GPtrArray of Finding: what reading passed over. */
HwSheet *hw_sheet_open (const char *path, GPtrArray **findings, GError **error);
void hw_sheet_free (HwSheet *sheet);
/* A drawing that has no file yet: `path` and `on_disk` are NULL. */
HwSheet *hw_sheet_new (Hole *hole);
/* Saves the current state at `path` and from then on belongs there. On failure nothing changes. */
bool hw_sheet_save (HwSheet *sheet, const char *path, GError **error);
/* Is there work that no file holds? */
bool hw_sheet_is_modified (const HwSheet *sheet);
/* Does the file now hold something else than when it was read or saved here? */
bool hw_sheet_changed_on_disk (const HwSheet *sheet);

#endif
