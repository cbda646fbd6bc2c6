// SPDX-License-Identifier: GPL-3.0-or-later
/* sheet - one hole file that is open: its history, its place on disk and what the disk held when last looked at. */
#ifndef HW_SHEET_H
#define HW_SHEET_H

#include "keeper.h"

#include "hole.h"

typedef struct
{
  char *path; /* absolute; NULL until first saved */
  History *history;
  GBytes *on_disk; /* bytes last read from or written to `path`; NULL: none yet */
  bool
      is_apart; /* the file no longer holds what `history` calls saved: it went away, or the golfer keeps this over what another wrote */
  GBytes *refused;    /* what another wrote there and the golfer does not want to see; NULL: nothing */
  size_t shot;        /* the shot in hand */
  HwKeeping *keeping; /* its recovery copy; NULL as long as there was nothing to keep */
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
typedef enum
{
  HW_DISK_SAME,    /* or it cannot be told */
  HW_DISK_CHANGED, /* by another, and the golfer was not asked yet */
  HW_DISK_GONE     /* there is no file any more */
} HwDisk;
/* Looks at the file, and counts the work as unsaved when it went away. */
HwDisk hw_sheet_look_at_disk (HwSheet *sheet);
/* Takes what the file holds now as one step that can be undone. */
bool hw_sheet_load_again (HwSheet *sheet, const char *label, GError **error);
/* Stays with what is here; it counts as unsaved until it is saved. */
void hw_sheet_keep_mine (HwSheet *sheet);

#endif
