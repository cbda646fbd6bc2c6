// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * keeper - recovery copies of what is worked on, written on a thread of its own so that no frame waits for a disk.
 *
 * A change is in the copy within 3 s, also when changes go on without a pause. A process that is killed leaves its copies; one that ends
 * properly leaves none.
 */
#ifndef HW_KEEPER_H
#define HW_KEEPER_H

#include "svg.h"

/* A kind of work that is kept: immutable values that are shared, and how a copy of one is written. */
typedef struct
{
  gpointer (*ref) (gpointer work);
  void (*unref) (gpointer work);
  bool (*write) (const char *folder, const char *key, gconstpointer work, const char *original, GBytes *held, GError **error);
} HwKept;

/* A Hole; and a bag as GBytes, what its file would hold. */
extern const HwKept hw_kept_hole, hw_kept_bag;

typedef struct _HwKeeper HwKeeper;
/* One document or bag that is kept. */
typedef struct _HwKeeping HwKeeping;

/* Has the golfer read why no copy can be kept: once, until one could be kept again. */
typedef void (*HwKeeperTell) (const char *text, gpointer user_data);

HwKeeper *hw_keeper_new (HwKeeperTell tell, gpointer user_data);
/* After all it keeps was closed; waits until the copies are gone. */
void hw_keeper_free (HwKeeper *self);

HwKeeping *hw_keeping_new (HwKeeper *keeper, const HwKept *kind);
/* Closed: its copy is removed. */
void hw_keeping_free (HwKeeping *self);
/*
 * From now on a copy is to hold `work`, a value of its kind, which belongs to the file `original` (NULL: never saved) that last held `held` (may be NULL). NULL in the
 * place of work: no copy is needed, and one that is there is removed.
 */
void hw_keeping_set (HwKeeping *self, gpointer work, const char *original, GBytes *held);
/* Writes the copy now and, when that went well, removes that of a dead process under `key`, whose work it holds. */
void hw_keeping_take_over (HwKeeping *self, const char *key);

#endif
