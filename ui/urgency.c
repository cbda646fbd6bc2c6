// SPDX-License-Identifier: GPL-3.0-or-later
/* urgency - niceness (sched(7)), and how long a thread's turn lasts (sched_setattr(2)): since Linux 6.12 one of short turns is let in when it wakes. */
#define _GNU_SOURCE
#include "urgency.h"

#include <stdint.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

/* Of the processor, a thread this nice gets a thirtieth of what the window's gets when both want it. */
#define NICE 19
/* Turns, ns; those of other programs are as long as the system thinks best. A thread that wakes is let in where the turns are longer than its own. */
#define SHORT_TURN_NS 500000
#define LONG_TURN_NS 20000000
#define FRAME_TURN_NS 10000000

/* What the kernel calls struct sched_attr, in its first version; the C library has no name for it yet. */
typedef struct
{
  uint32_t size, policy;
  uint64_t flags;
  int32_t nice;
  uint32_t priority;
  uint64_t runtime_ns, deadline_ns, period_ns;
} ThreadTurns;

/* An older kernel takes no notice of it, and one that refuses leaves all as it is. */
static void
set_turn (uint64_t turn_ns)
{
#ifdef SYS_sched_setattr
  ThreadTurns turns = { .size = sizeof turns };
  if (syscall (SYS_sched_getattr, 0, &turns, sizeof turns, 0) != 0)
    return;
  turns.runtime_ns = turn_ns;
  syscall (SYS_sched_setattr, 0, &turns, 0);
#endif
}

void
hw_urgency_be_prompt (void)
{
  set_turn (SHORT_TURN_NS);
}

void
hw_urgency_be_steady (void)
{
  set_turn (FRAME_TURN_NS);
}

/* On Linux each thread has a niceness of its own. It stays with the thread, which GLib gives to other work when this is done. */
void
hw_urgency_give_way (void)
{
  set_turn (LONG_TURN_NS);
  setpriority (PRIO_PROCESS, (id_t)gettid (), NICE);
}
