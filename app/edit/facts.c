// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Facts of parts - slopes, heights, stakes, today's hole and the rest: one row for each fact of a kind says its range, how it is read and how it is set.
 */
#include "edit-private.h"

#define BIT(kind) (1u << (kind))
/* Bounds that only keep nonsense out; a document that holds more does not open. */
#define TALLEST_TREE_M 200.0    /* above any tree */
#define DEEPEST_M (-500.0)      /* below any dry land */
#define HIGHEST_M 10000.0       /* above any mountain */
#define STEEPEST_PERCENT 1000.0 /* a cliff */
#define MOST_PAR 9
/* What numbers are rounded to, so that a file says what was typed: finer than anyone measures. */
#define PERCENT_STEP 0.01
#define SHARE_STEP 0.001

typedef struct
{
  EditFact fact;
  unsigned kinds;
  double low, high, step; /* step 0: as it is */
  bool may_be_absent;
  double (*get) (const Part *part);
  void (*set) (Part *part, double value);
  const char *why; /* said when a number is out of the range */
} Row;

/* ---- reading and setting ---- */

static double
get_percent (const Part *part)
{
  return part->percent;
}

static void
set_percent (Part *part, double percent)
{
  part->percent = percent;
}

/* From the line's first point to its last, or back where it rises; NAN when they are one. */
static double
get_downhill (const Part *part)
{
  if (part->path.n_segs < 2)
    return NAN;
  Vec2 along = vec2_sub (path_current (&part->path), part->path.segs[0].to);
  if (part->percent < 0)
    along = vec2_scale (along, -1);
  return along.x == 0 && along.y == 0 ? NAN : atan2 (along.y, along.x);
}

static void
set_downhill (Part *part, double direction_rad)
{
  double by_rad = remainder (direction_rad - get_downhill (part), 2 * PI);
  Vec2 a = part->path.segs[0].to, b = path_current (&part->path), middle = vec2_scale (vec2_add (a, b), 0.5);
  /* Too little to move the ends to other points of the grid. */
  if (!isfinite (by_rad) || fabs (by_rad) * vec2_distance (a, b) / 2 < EDIT_GRID_M)
    return;
  path_transform (&part->path, affine_then (affine_then (affine_translation (-middle.x, -middle.y), affine_rotation (by_rad)),
                                            affine_translation (middle.x, middle.y)));
  grid_path (&part->path);
}

static double
get_height (const Part *part)
{
  return part->height_m;
}

static void
set_height (Part *part, double height_m)
{
  part->height_m = isnan (height_m) && part->kind == KIND_TREES ? TREES_HEIGHT_M : height_m;
}

static double
get_density (const Part *part)
{
  return part->density;
}

static void
set_density (Part *part, double density)
{
  part->density = isnan (density) ? TREES_DENSITY : density;
}

/* An unmarked penalty area counts as red (Rule 17.1a); unmarked water as the area round it. */
static double
get_stakes (const Part *part)
{
  return part->kind == KIND_WATER && !part->stakes_given ? NAN : (double)part->stakes;
}

static void
set_stakes (Part *part, double stakes)
{
  part->stakes = isnan (stakes) ? STAKES_RED : (Stakes)stakes;
  part->stakes_given = !isnan (stakes);
}

static double
get_par (const Part *part)
{
  return part->par > 0 ? part->par : NAN;
}

static void
set_par (Part *part, double par)
{
  part->par = isnan (par) ? 0 : (int)par;
}

static double
get_fixed (const Part *part)
{
  return part->fixed;
}

static void
set_fixed (Part *part, double fixed)
{
  part->fixed = fixed > 0;
}

static double
get_opacity (const Part *part)
{
  return part->opacity;
}

static void
set_opacity (Part *part, double opacity)
{
  part->opacity = opacity;
}

/* ---- the table ---- */

/* Today's hole is the hole's affair, not the part's: its row has no functions. */
static const Row rows[] = {
  { EDIT_FACT_PERCENT, BIT (KIND_SLOPE), 0, STEEPEST_PERCENT, PERCENT_STEP, true, get_percent, set_percent,
    "a slope falls by 0 to 1000 percent; turn it round instead of typing less than nothing" },
  { EDIT_FACT_DOWNHILL, BIT (KIND_SLOPE), -4 * PI, 4 * PI, 0, false, get_downhill, set_downhill,
    "downhill is a direction; type degrees from 0 to 360" },
  { EDIT_FACT_HEIGHT, BIT (KIND_TREE) | BIT (KIND_TREES), 0, TALLEST_TREE_M, EDIT_GRID_M, true, get_height, set_height,
    "trees are up to 200 m high; type such a height" },
  { EDIT_FACT_HEIGHT, BIT (KIND_SPOT_HEIGHT), DEEPEST_M, HIGHEST_M, EDIT_GRID_M, true, get_height, set_height,
    "the ground lies between 500 m below and 10 000 m above; type such a height" },
  { EDIT_FACT_DENSITY, BIT (KIND_TREES), 0, 1, SHARE_STEP, true, get_density, set_density,
    "trees stop from none to all of the balls; type a number from 0 to 100 percent" },
  { EDIT_FACT_STAKES, BIT (KIND_PENALTY_AREA), STAKES_RED, STAKES_YELLOW, 1, false, get_stakes, set_stakes,
    "a penalty area is red or yellow; choose one of them" },
  { EDIT_FACT_STAKES, BIT (KIND_WATER), STAKES_RED, STAKES_YELLOW, 1, true, get_stakes, set_stakes,
    "stakes are red, yellow or those of the area round it; choose one of them" },
  { EDIT_FACT_TODAY, BIT (KIND_HOLE_LOCATION), 1, 1, 1, false, NULL, NULL,
    "one hole location is always in use; choose another one instead" },
  { EDIT_FACT_PAR, BIT (KIND_TEE_MARKER), 1, MOST_PAR, 1, true, get_par, set_par,
    "a par is a whole number from 1 to 9; type one of these" },
  { EDIT_FACT_FIXED, BIT (KIND_MARK), 0, 1, 1, false, get_fixed, set_fixed, "a mark is pinned or not; choose one" },
  { EDIT_FACT_OPACITY, BIT (KIND_UNDERLAY), 0, 1, SHARE_STEP, false, get_opacity, set_opacity,
    "a picture is seen from not at all to fully; type a number from 0 to 100 percent" },
};

static const Row *
row_of (Kind kind, EditFact fact)
{
  for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
    if (rows[r].fact == fact && rows[r].kinds & BIT (kind))
      return &rows[r];
  return NULL;
}

bool
edit_has_fact (Kind kind, EditFact fact)
{
  return row_of (kind, fact) != NULL;
}

bool
edit_may_lack_fact (Kind kind, EditFact fact)
{
  const Row *row = row_of (kind, fact);
  return row && row->may_be_absent;
}

double
edit_get_fact (const Hole *hole, size_t part, EditFact fact)
{
  const Part *of = hole_part (hole, part);
  const Row *row = row_of (of->kind, fact);
  if (!row)
    return NAN;
  if (!row->get)
    return hole_hole_location (hole, NULL) == (int)part;
  return row->get (of);
}

/* ---- today's hole ---- */

static const Part *
plan_for (const Part *plan, const Part *location)
{
  if (!plan->hole_name)
    return part_ref (plan);
  Part *changed = part_copy (plan);
  g_free (changed->hole_name);
  changed->hole_name = g_strdup (location->name);
  return part_seal (changed);
}

static const Part *
location_used (const Part *old, bool is_today)
{
  if (old->today == is_today)
    return part_ref (old);
  Part *changed = part_copy (old);
  changed->today = is_today;
  return part_seal (changed);
}

/* In use, and no other one marked as today's beside it. */
static bool
is_used_alone (const Hole *hole, size_t location)
{
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (i != location && hole_part (hole, i)->today)
      return false;
  return hole_hole_location (hole, NULL) == (int)location;
}

static Hole *
use_location (const Hole *hole, size_t location)
{
  if (is_used_alone (hole, location))
    return hole_ref ((Hole *)hole);
  g_autofree const Part **all = g_new (const Part *, hole_n_parts (hole));
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *old = hole_part (hole, i);
      all[i] = old->kind == KIND_HOLE_LOCATION ? location_used (old, i == location)
               : old->kind == KIND_PLAN        ? plan_for (old, hole_part (hole, location))
                                               : part_ref (old);
    }
  return hole_with_parts (hole, all, hole_n_parts (hole));
}

/* ---- setting ---- */

typedef struct
{
  EditFact fact;
  double value;
} Setting;

static bool
is_same (double a, double b)
{
  return a == b || (isnan (a) && isnan (b));
}

static bool
is_in_range (const Row *row, double value)
{
  if (isnan (value))
    return row->may_be_absent;
  return value >= row->low && value <= row->high && (row->step < 1 || value == floor (value));
}

/* One over a step is whole, so a number comes out as the double nearest to its decimals. */
static double
on_step (const Row *row, double value)
{
  double steps = row->step > 0 ? round (1 / row->step) : 0;
  return steps > 0 && isfinite (value) ? round (value * steps) / steps + 0.0 : value; /* no -0 */
}

static const Part *
part_with_fact (const Part *old, void *data, GError **error)
{
  const Setting *setting = data;
  const Row *row = row_of (old->kind, setting->fact);
  if (!row)
    return refuse (error, EDIT_ERROR_SHAPE, "not all that is selected has this; select less");
  if (!is_in_range (row, setting->value))
    return refuse (error, EDIT_ERROR_NUMBER, row->why);
  double value = on_step (row, setting->value);
  if (is_same (row->get (old), value))
    return part_ref (old);
  Part *changed = part_copy (old);
  row->set (changed, value);
  return part_seal (changed);
}

Hole *
edit_set_fact (const Hole *hole, const size_t *parts, size_t n_parts, EditFact fact, double value, GError **error)
{
  Setting setting = { fact, value };
  if (fact != EDIT_FACT_TODAY || n_parts == 0)
    return replace_parts (hole, parts, n_parts, part_with_fact, &setting, error);
  const Row *row = row_of (hole_part (hole, parts[0])->kind, fact);
  if (!row)
    return refuse (error, EDIT_ERROR_SHAPE, "only a hole location can be today's; select one");
  if (n_parts > 1)
    return refuse (error, EDIT_ERROR_SHAPE, "only one hole location can be today's; select one");
  if (!is_in_range (row, value))
    return refuse (error, EDIT_ERROR_NUMBER, row->why);
  return use_location (hole, parts[0]);
}
