// SPDX-License-Identifier: GPL-3.0-or-later
/* Holes and bags to plan with, for the tests of plans. */
#ifndef HOLEWRIGHT_PLAN_HOLES_H
#define HOLEWRIGHT_PLAN_HOLES_H

#include "drawn.h"
#include "plan.h"
#include "suite.h"

#include <string.h>

static inline const Part *
named (Kind kind, const char *name, Box box)
{
  Part *part = part_new (kind);
  part->name = g_strdup (name);
  path_add_rectangle (&part->path, box, 0, 0);
  return part_seal (part);
}

/* A hole up the sheet with a green about (0, length), and these parts under it; takes over their references. */
static inline Hole *
hole_with (Kind ground, double length_m, const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = ground;
  info.view_box = (Box){ -60, -10, 60, length_m + 25 };
  const Part *all[16];
  size_t n = 0;
  for (; n < n_parts; n++)
    all[n] = parts[n];
  all[n++] = rectangle (KIND_GREEN, (Box){ -12, length_m - 14, 12, length_m + 14 });
  all[n++] = place (KIND_HOLE_LOCATION, vec2 (0, length_m));
  all[n++] = place (KIND_TEE_MARKER, vec2 (0, 0));
  Hole *hole = hole_new (&info, all, n, NULL);
  hole_info_clear (&info);
  return hole;
}

static inline Bag *
bag_read (const char *header, const char *rows)
{
  g_autofree char *text = g_strconcat (header, "\n", rows, NULL);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  GError *error = NULL;
  Bag *bag = bag_read_bytes (bytes, "bag", LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  return bag;
}

#define FIGURES "club,carry_m,carry_sd_m,side_sd_m,loft_deg"
#define FEW_CLUBS "driver,200,10,14,11\n5 iron,150,7,8,25\n8 iron,125,6,6,37\nwedge,90,5,5,50\n"

static inline PlanSolution *
solved (const Hole *hole, const Bag *bag, double cell_m)
{
  GError *error = NULL;
  PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = cell_m }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  return solution;
}

/* A pond right of the fairway from where the 5 iron lands to where the driver does. */
static inline Hole *
pond_hole (void)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -22, 60, 16, 320 }),
                          named (KIND_PENALTY_AREA, "pond, margin", (Box){ 14, 150, 60, 260 }),
                          named (KIND_WATER, "pond", (Box){ 18, 155, 60, 255 }) };
  return hole_with (KIND_ROUGH, 330, parts, G_N_ELEMENTS (parts));
}

#endif
