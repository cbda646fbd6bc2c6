// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * beside - one thread that takes shares of a frame off the main thread, which meanwhile does others.
 *
 * A worker (worker.h) does what takes longer than a frame and gives way to the window; this does parts of the frame itself, as urgent as the rest of it. Shares are taken in the order
 * they were handed over; what one reads stays as it is until hw_beside_finish has come back. A share that the thread did not come to by then is done by the main thread.
 */
#ifndef HW_BESIDE_H
#define HW_BESIDE_H

#include <glib.h>

typedef struct _HwBeside HwBeside;

/* One share of the work, owned by who hands it over, and finished before that is freed. Zeroed: none. */
typedef struct
{
  GFunc work;
  gpointer data;
  unsigned state; /* beside's own */
} HwShare;

/* The thread starts with the first share; a machine of one processor has none. */
HwBeside *hw_beside_new (void);
/* After all shares that were handed over. */
void hw_beside_free (HwBeside *self);
/* Hands over a share, once what it held before is finished: `work` gets `data`, borrowed until then, and touches no widget. For the main thread, as all here. */
void hw_beside_begin (HwBeside *self, HwShare *share, GFunc work, gpointer data);
/* Comes back when the share is done; at once where there is none. */
void hw_beside_finish (HwBeside *self, HwShare *share);

#endif
