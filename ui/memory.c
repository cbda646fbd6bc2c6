// SPDX-License-Identifier: GPL-3.0-or-later
/* memory - see memory.h. Of the GNU C library; any other does as it does. */
#define _GNU_SOURCE
#include "memory.h"

#include <stdint.h>
#include <stdlib.h>
#include <sys/mman.h>
#include <unistd.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

/* Images as large as the window, of which GTK and cairo take and give back some in every frame. */
#define LARGEST_KEPT_BYTES (32 << 20)
#define MOST_KEPT_BYTES (96 << 20)

void
hw_memory_keep (void)
{
#ifdef __GLIBC__
  mallopt (M_MMAP_THRESHOLD, LARGEST_KEPT_BYTES);
  mallopt (M_TRIM_THRESHOLD, MOST_KEPT_BYTES);
#endif
}

/* What a command that reads a hole takes (measured: 4 to 7 MB). */
#define COMMAND_BYTES (10 << 20)
/* Of a large page on most machines; where they are larger there are none for so little. */
#define LARGE_PAGE_BYTES (2 << 20)

void
hw_memory_map (void)
{
#if defined __GLIBC__ && defined MADV_HUGEPAGE
  /* Touched before the advice, it would be a small one: what malloc keeps before a block stays below. */
  const uintptr_t head = 2 * sizeof (size_t);
  uintptr_t past = ((uintptr_t)sbrk (0) + head) % LARGE_PAGE_BYTES;
  sbrk ((intptr_t)(LARGE_PAGE_BYTES - past)); /* refused: it begins among small ones */
  char *block = malloc (COMMAND_BYTES);
  if (block == NULL)
    return;
  uintptr_t before = -(uintptr_t)block % LARGE_PAGE_BYTES;
  /* Where there are none it is as it was. */
  madvise (block + before, COMMAND_BYTES - before, MADV_HUGEPAGE);
  free (block);
#endif
}
