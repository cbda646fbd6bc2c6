// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * keeper - recovery copies of what is open in one window, written on a thread of its own so that no frame waits for a disk.
 *
 * A change is in the copy within 3 s, also when changes go on without a pause. A process that is killed leaves its copies; one that ends
 * properly leaves none.
 */
#ifndef HW_KEEPER_H
#define HW_KEEPER_H

#include "hole.h"

typedef struct _HwKeeper HwKeeper;
/* One document that is kept. */
typedef struct _HwKeeping HwKeeping;

/* Has the golfer read why no copy can be kept: once, until one could be kept again. */
typedef void (*HwKeeperTell) (const char *text, gpointer user_data);

HwKeeper *hw_keeper_new (HwKeeperTell tell, gpointer user_data);
/* After all it keeps was closed; waits until the copies are gone. */
void hw_keeper_free (HwKeeper *self);

HwKeeping *hw_keeping_new (HwKeeper *keeper);
/* Closed: its copy is removed. */
void hw_keeping_free (HwKeeping *self);
/*
 * From now on a copy is to hold `hole`, which belongs to the file `original` (NULL: never saved) that last held `held` (may be NULL). NULL in the
 * place of a hole: no copy is needed, and one that is there is removed.
 */
void hw_keeping_set (HwKeeping *self, Hole *hole, const char *original, GBytes *held);
/* Writes the copy now and, when that went well, removes that of a dead process under `key`, whose work it holds. */
void hw_keeping_take_over (HwKeeping *self, const char *key);

#endif
