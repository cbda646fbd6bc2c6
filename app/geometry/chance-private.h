// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of a ChanceMap share: its chains of edges, and the sum over one, for each kind of machine.
 */
#ifndef HOLEWRIGHT_CHANCE_PRIVATE_H
#define HOLEWRIGHT_CHANCE_PRIVATE_H

#include "geometry-private.h"

/* Points of a chain are padded to whole vectors of this many edges by repeating the last. */
#define CHAIN_PAD 8
/* Edges in a chain at most: few enough to be left out together, many enough to pay for asking. */
#define MOST_CHAIN_EDGES 32
/* Longest edge, in deviations, that a sum takes as it is. */
#define LONGEST_EDGE_SDS 1.0

/*
 * The integral of Phi(u) phi(v) dv along the edges between n_edges + 1 points in deviations from the mean; n_edges is a multiple of CHAIN_PAD. Good to 1e-10
 * for each deviation of length when no edge is longer than longest_sds.
 */
typedef double (*ChanceSum) (const double *u, const double *v, size_t n_edges, double longest_sds);
double chance_sum (const double *u, const double *v, size_t n_edges, double longest_sds);
double chance_sum_avx2 (const double *u, const double *v, size_t n_edges, double longest_sds);
double chance_sum_avx512 (const double *u, const double *v, size_t n_edges, double longest_sds);

/* Consecutive edges between the same two groups. */
typedef struct
{
  size_t first, n_edges; /* first of its points; n_edges before padding */
  int left, right;       /* groups; -1: none */
  Vec2 centre, half;     /* of its box */
  double longest_m;      /* edge */
} Chain;

struct _ChanceMap
{
  size_t n_groups;
  Chain *chains;
  size_t n_chains;
  double *x, *y; /* of the chains' points */
};

/* What is left of it where the distribution has no extent across one line, or none at all. */
void chance_map_add_thin (const ChanceMap *map, const Normal *normal, double *chances);

#endif
