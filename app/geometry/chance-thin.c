// SPDX-License-Identifier: GPL-3.0-or-later
/* A normal distribution without width: all of it on one line, or on one point. The chance of an area is then that of its stretches of the line. */
#include "chance-private.h"

/*
 * Each edge that crosses the line adds, on its one side, all of the distribution before the crossing: what the integral round an area comes to when the
 * distribution gets narrower and narrower. Of an edge's ends the lower counts as on the line, so that a corner on the line is crossed once or not at all.
 */
void
chance_map_add_thin (const ChanceMap *map, const Normal *normal, double *chances)
{
  Vec2 a = vec2_length (normal->a) >= vec2_length (normal->b) ? normal->a : normal->b;
  double sd_m = hypot (vec2_length (normal->a), vec2_length (normal->b));
  Vec2 along = sd_m >= THIN_M ? vec2_unit (a) : vec2 (1, 0);
  for (size_t c = 0; c < map->n_chains; c++)
    {
      const Chain *chain = &map->chains[c];
      const double *x = map->x + chain->first, *y = map->y + chain->first;
      double sum = 0;
      for (size_t i = 0; i < chain->n_edges; i++)
        {
          Vec2 from = vec2_sub (vec2 (x[i], y[i]), normal->mean), to = vec2_sub (vec2 (x[i + 1], y[i + 1]), normal->mean);
          double v0 = vec2_cross (along, from), v1 = vec2_cross (along, to);
          if ((v0 <= 0) == (v1 <= 0))
            continue;
          double u0 = vec2_dot (along, from), u1 = vec2_dot (along, to), u = u0 + (u1 - u0) * (v0 / (v0 - v1));
          double before = sd_m >= THIN_M ? 0.5 * erfc (-u / sd_m * sqrt (0.5)) : u > 0;
          sum += v1 > v0 ? before : -before;
        }
      chances[chain->left] += sum;
      if (chain->right >= 0)
        chances[chain->right] -= sum;
    }
}
