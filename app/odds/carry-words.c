// SPDX-License-Identifier: GPL-3.0-or-later
/* What of a carry table a golfer wants to hear: which rows, and whether the shot flies over the trouble or stays short of it. */
#include "odds-private.h"

/* Further than this beyond the longest ball of the pattern, trouble is no concern of the shot (common practice: a club and a half). */
#define BEYOND_M 20.0
/* A row that lies within another, to this, is the same trouble: the water of a penalty area. */
#define WITHIN_M 0.05

static bool
is_within_penalty_area (const Hole *hole, const CarryTable *table, const CarryRow *water)
{
  for (size_t i = 0; i < table->n_rows; i++)
    {
      const CarryRow *outer = &table->rows[i];
      if (hole_part (hole, outer->part)->kind == KIND_PENALTY_AREA && outer->side == water->side
          && outer->reach_m <= water->reach_m + WITHIN_M && outer->carry_m >= water->carry_m - WITHIN_M)
        return true;
    }
  return false;
}

bool
carry_row_is_telling (const Hole *hole, const ShotResult *shot, const CarryTable *table, size_t row)
{
  const CarryRow *carry = &table->rows[row];
  Kind kind = hole_part (hole, carry->part)->kind;
  if (!kind_info (kind)->is_trouble || carry->reach_m > shot->carry_m + TOUCH_SDS * shot->pattern.long_sd_m + BEYOND_M)
    return false;
  return kind != KIND_WATER || !is_within_penalty_area (hole, table, carry);
}

const char *
pass_token (Pass pass)
{
  static const char *const tokens[] = { [PASS_OVER] = "over", [PASS_SHORT] = "short", [PASS_INTO] = "into" };
  return tokens[pass];
}

Pass
carry_row_pass (const ShotResult *shot, const CarryRow *row, double *chance)
{
  ShotLine line = shot_line (shot);
  double is_short = 1 - shot_line_beyond (&line, row->reach_m);
  double is_into = fmax (0, 1 - is_short - row->clear);
  Pass pass = row->clear >= is_short ? PASS_OVER : PASS_SHORT;
  *chance = fmax (row->clear, is_short);
  if (is_into > *chance)
    {
      *chance = is_into;
      pass = PASS_INTO;
    }
  return pass;
}
