// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * place - keeps one thread off the processor that another is at. The system often wakes a thread where the one is that woke it, which then waits for it while another processor idles: it
 * does so where processors share no cache, as on many virtual machines. On Linux; elsewhere nothing happens.
 */
#ifndef HW_PLACE_H
#define HW_PLACE_H

#include <glib.h>

/* Zeroed: of no thread yet. */
typedef struct
{
  int thread;   /* its number in the system, set once; 0: not yet known */
  int kept_off; /* for who keeps it off: the processor it was kept off last, and one more; 0: none */
} HwPlace;

/* The calling thread is the one that is kept off. */
void hw_place_take (HwPlace *place);
/* It may be anywhere again: for a caller that is about to wait for it, and leaves its own processor free. */
void hw_place_let_go (HwPlace *place);
/* Keeps that thread, which sleeps or is about to, off the processor of the caller. Costs next to nothing where the caller is where it was. */
void hw_place_keep_off (HwPlace *place);

#endif
