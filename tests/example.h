// SPDX-License-Identifier: GPL-3.0-or-later
/* The example course for tests that need real holes: HW_COURSES is where it lies. */
#ifndef HOLEWRIGHT_TESTS_EXAMPLE_H
#define HOLEWRIGHT_TESTS_EXAMPLE_H

#include "bag.h"
#include "suite.h"
#include "svg.h"

#define N_EXAMPLES 9
static const char *const example_names[N_EXAMPLES] = { "01-quarry", "02-orchard", "03-mill-lane", "04-weir-pool", "05-rookery",
                                                       "06-marram", "07-beacon",  "08-hogsback",  "09-boathouse" };

static inline Hole *
example_hole (size_t number)
{
  g_autofree char *path = g_strdup_printf ("%s/fenwhistle/%s.svg", g_getenv ("HW_COURSES"), example_names[number]);
  GError *error = NULL;
  Hole *hole = svg_read_file (path, NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error != NULL ? error->message : "");
  return hole;
}

static inline Bag *
example_bag (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "bag.csv", NULL);
  GError *error = NULL;
  Bag *bag = bag_read_file (path, LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  return bag;
}

#endif
