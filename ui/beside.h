// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * beside - one thread that takes a piece of a frame off the main thread, which meanwhile does another.
 *
 * A worker (worker.h) does what takes longer than a frame and gives way to the window; this does a part of the frame itself, as urgent as the rest of it. One piece at a
 * time; what it reads stays as it is until hw_beside_finish has come back. A piece that no processor was free for by then is done by the main thread.
 */
#ifndef HW_BESIDE_H
#define HW_BESIDE_H

#include <glib.h>

typedef struct _HwBeside HwBeside;

/* The thread starts with the first piece; a machine of one processor has none. */
HwBeside *hw_beside_new (void);
/* After the piece in hand, if there is one. */
void hw_beside_free (HwBeside *self);
/* Hands over a piece, after that in hand: `work` gets `data`, borrowed until the piece is finished, and touches no widget. For the main thread, as all here. */
void hw_beside_begin (HwBeside *self, GFunc work, gpointer data);
/* Comes back when the piece in hand is done; at once where there is none. */
void hw_beside_finish (HwBeside *self);

#endif
