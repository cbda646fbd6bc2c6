// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Room for the fields of a solution: tens of MB, written a little here and there, so that the system takes longer to give it in small pages than it takes to fill them.
 */
/* MAP_ANONYMOUS and MADV_HUGEPAGE are not in POSIX. */
#define _DEFAULT_SOURCE
#include "solve-private.h"

#if defined __linux__
#include <sys/mman.h>
#endif

/* A large page of most machines; what is smaller than a few of them is given in small ones. */
#define LARGE_PAGE ((size_t)2 << 20)
#define LEAST_LARGE (2 * LARGE_PAGE)

struct _Pages
{
  void *all;
  size_t size; /* mapped; 0: from the heap */
};

#if defined __linux__ && defined MADV_HUGEPAGE
static bool
map_large (Pages *pages, size_t size, void **from)
{
  size_t mapped = size + LARGE_PAGE;
  void *all = size < LEAST_LARGE
                  ? MAP_FAILED
                  : mmap (NULL, mapped, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS | MAP_NORESERVE, -1, 0);
  if (all == MAP_FAILED)
    return false;
  size_t begin = ((size_t)all + LARGE_PAGE - 1) / LARGE_PAGE * LARGE_PAGE;
  *from = (void *)begin;
  /* Only asked for: small ones do as well. */
  madvise (*from, size, MADV_HUGEPAGE);
  *pages = (Pages){ all, mapped };
  return true;
}

static void
unmap (Pages *pages)
{
  munmap (pages->all, pages->size);
}
#else
static bool
map_large (Pages *pages, size_t size, void **from)
{
  return false;
}

static void
unmap (Pages *pages)
{
}
#endif

Pages *
pages_new (size_t size, void **from)
{
  Pages *pages = g_new0 (Pages, 1);
  if (map_large (pages, size, from))
    return pages;
  *from = pages->all = g_malloc0 (size);
  return pages;
}

void
pages_free (Pages *pages)
{
  if (pages == NULL)
    return;
  if (pages->size > 0)
    unmap (pages);
  else
    g_free (pages->all);
  g_free (pages);
}
