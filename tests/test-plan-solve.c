// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of plan: the whole hole solved, beside a slow solver that leaves nothing out. */
#include "drawn.h"
#include "solved.h"
#include "suite.h"

#include <math.h>
#include <string.h>

/* ---- holes and bags to play with ---- */

/* A hole up the sheet with a green about (0, length), and these parts under it; takes over their references. */
static Hole *
hole_with (Kind ground, double length_m, const Part *const *parts, size_t n_parts)
{
  HoleInfo info;
  hole_info_init (&info);
  info.ground = ground;
  info.view_box = (Box){ -40, -5, 40, length_m + 25 };
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

static Bag *
bag_under (const char *columns, const char *rows)
{
  g_autofree char *text = g_strconcat (columns, rows, NULL);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  GError *error = NULL;
  Bag *bag = bag_read_bytes (bytes, "bag", LEVEL_SCRATCH_MEN, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  return bag;
}

#define COLUMNS "club,carry_m,carry_sd_m,side_sd_m,loft_deg"

static Bag *
bag_of (const char *rows)
{
  return bag_under (COLUMNS "\n", rows);
}

#define FEW_CLUBS "5 iron,150,7,8,25\n8 iron,125,6,6,37\nwedge,90,5,5,50\n"

static PlanSolution *
solved (const Hole *hole, const Bag *bag, double cell_m)
{
  GError *error = NULL;
  PlanSolution *solution = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = cell_m }, &error);
  ck_assert_msg (solution != NULL, "%s", error != NULL ? error->message : "");
  return solution;
}

/* ---- the slow solver ---- */

/* Every cell under the pattern, weighed by the normal itself: the means of what it is worth and of what is lost. */
static void
slow_mean (const PlanSolution *solution, size_t state, const SwingAims *aims, int i, double *mean, double *lost)
{
  const SolveGrid *grid = solution->grid;
  const Worth *worth = solution->worth;
  const SwingAim *aim = &aims->aims[i];
  int first = (int)aim->sector, cell = grid->state_cell[state], run = (int)aim->run;
  double x = cell % grid->nx + aim->x_m / grid->cell_m, y = cell / grid->nx + aim->y_m / grid->cell_m;
  /* What means over cells spread, a twelfth of a cell's square, is taken off the variance; and no pattern is narrower than 0.6 of a cell. */
  double area = grid->cell_m * grid->cell_m, add = fmax (-1 / 12.0, 0.36 - aims->least_variance / area);
  double xx = aim->xx / area + add, yy = aim->yy / area + add, xy = aim->xy / area;
  double determinant = xx * yy - xy * xy, total = 0, value = 0, out = 0;
  const float *values[4], *outs[4];
  /* Balls that run too far, or too much to one side, come down shorter and to the other, by weights that grow straight across the pattern. */
  double further = aim->run - run, share = aim->sector - first;
  RunMoves moves = worth_run_moves (grid->cell_m, (double)aim->run, share, determinant / (xx + yy));
  Vec2 way = vec2_lerp (solve_sector_unit (first), solve_sector_unit ((first + 1) % N_SECTORS), share), left = vec2_left (way);
  for (int k = 0; k < 4; k++)
    {
      int sector = (first + k % 2) % N_SECTORS, length = MIN (run + k / 2, N_RUNS - 1);
      worth_look (worth, length, sector, worth_tiles_of (worth, (CellBox){ 0, 0, grid->nx, grid->ny }));
      values[k] = worth_blocks (worth, 0, length, sector, false);
      outs[k] = worth_blocks (worth, 0, length, sector, true);
    }
  for (int row = (int)floor (y - 5 * sqrt (yy)); row <= (int)ceil (y + 5 * sqrt (yy)); row++)
    for (int column = (int)floor (x - 5 * sqrt (xx)); column <= (int)ceil (x + 5 * sqrt (xx)); column++)
      {
        double dx = column - x, dy = row - y, z2 = (yy * dx * dx - 2 * xy * dx * dy + xx * dy * dy) / determinant;
        int at = CLAMP (row, 0, grid->ny - 1) * grid->nx + CLAMP (column, 0, grid->nx - 1);
        double weight = exp (-0.5 * z2);
        total += weight;
        double fall_x = (yy * dx - xy * dy) / determinant, fall_y = (xx * dy - xy * dx) / determinant;
        double shorter = 1 - further + moves.along * (way.x * fall_x + way.y * fall_y);
        double right = 1 - share + moves.left * (left.x * fall_x + left.y * fall_y);
        for (int k = 0; k < 4; k++)
          {
            double part = (k / 2 == 0 ? shorter : 1 - shorter) * (k % 2 == 0 ? right : 1 - right);
            value += weight * part * values[k][at];
            out += weight * part * outs[k][at];
          }
      }
  *mean = value / total;
  *lost = out / total;
}

static double
slow_cost (const PlanSolution *solution, size_t state, size_t swing, int i)
{
  const SwingAims *aims = solution->aims[swing * N_LIES + (size_t)solution->grid->state_lie[state]];
  double value, out;
  slow_mean (solution, state, aims, i, &value, &out);
  if (aims->poor != NULL)
    {
      double poor, poor_out;
      slow_mean (solution, state, aims->poor, i, &poor, &poor_out);
      value += (double)aims->poor_share * (poor - value);
      out += (double)aims->poor_share * (poor_out - out);
    }
  return out > 0.98 ? MOST_STROKES : fmin (MOST_STROKES, (1 + value + out) / (1 - out));
}

/* Every swing and every aim within a right angle of the hole. */
static double
slow_value (const PlanSolution *solution, size_t state)
{
  const SolveGrid *grid = solution->grid;
  int middle = solve_aim (vec2_sub (grid->target, solve_grid_centre (grid, grid->state_cell[state])));
  double best = INFINITY;
  for (size_t swing = 0; swing < solution->fleet->n_swings; swing++)
    {
      const SwingAims *aims = solution->aims[swing * N_LIES + (size_t)grid->state_lie[state]];
      for (int i = -N_AIMS / 4; aims != NULL && i <= N_AIMS / 4; i += 2)
        {
          int aim = (middle + i + N_AIMS) % N_AIMS;
          if (aims->aims[aim].run >= 0)
            best = fmin (best, slow_cost (solution, state, swing, aim));
        }
    }
  return best;
}

/* Value iteration to its fixed point, which does not depend on where it begins; `solution` holds it afterwards. */
static void
solve_slowly (PlanSolution *solution)
{
  const SolveGrid *grid = solution->grid;
  g_autofree double *next = g_memdup2 (solution->value, grid->n_states * sizeof *next);
  double change = 1;
  for (int sweep = 0; sweep < 40 && change > 1e-4; sweep++)
    {
      change = 0;
      worth_update (solution->worth, solution->value, true);
      for (size_t state = 0; state < grid->n_states; state++)
        if (!grid->state_ends[state])
          {
            next[state] = slow_value (solution, state);
            change = fmax (change, fabs (next[state] - solution->value[state]));
          }
      memcpy (solution->value, next, grid->n_states * sizeof *next);
    }
  ck_assert_double_lt (change, 1e-4);
}

/* Largest difference of the two solvers over all states. */
static double
difference_from_slow (const Hole *hole, const Bag *bag, double cell_m)
{
  g_autoptr (PlanSolution) solution = solved (hole, bag, cell_m);
  g_autofree double *fast = g_memdup2 (solution->value, solution->grid->n_states * sizeof *fast);
  double worst = 0;
  solve_slowly (solution);
  for (size_t state = 0; state < solution->grid->n_states; state++)
    worst = fmax (worst, fabs (fast[state] - solution->value[state]));
  return worst;
}

/* What the design asks for at least. */
#define AGREES 3e-3

/* ---- known answers ---- */

START_TEST (the_fast_solver_agrees_with_the_slow_one_among_sand_water_and_a_boundary)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -16, 20, 14, 140 }), rectangle (KIND_PENALTY_AREA, (Box){ 10, 60, 26, 110 }),
          rectangle (KIND_BUNKER, (Box){ -30, 90, -14, 110 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 165, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  ck_assert_double_lt (difference_from_slow (hole, bag, 7), AGREES);
}
END_TEST

typedef struct
{
  const PlanSolution *solution;
  double kept, value;
} Ends;

static void
add_end (void *data, size_t cell, Lie lie, double share, double strokes)
{
  Ends *ends = data;
  if (lie == LIE_OUT_OF_BOUNDS)
    return;
  ends->kept += share;
  ends->value += share * (isnan (strokes) ? ends->solution->value[ends->solution->grid->state_at[lie][cell]] : strokes);
}

START_TEST (the_fast_solver_agrees_with_the_slow_one_on_a_bag_with_poor_strikes)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -16, 20, 14, 140 }), rectangle (KIND_PENALTY_AREA, (Box){ 10, 60, 26, 110 }),
          rectangle (KIND_BUNKER, (Box){ -30, 90, -14, 110 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 165, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_under (COLUMNS ",mishit_pct,mishit_carry_pct\n", "8 iron,125,6,6,37,15,60\n");
  ck_assert_double_lt (difference_from_slow (hole, bag, 12), AGREES);
}
END_TEST

/* Out of bounds is a straight line beside the shot: its share is the normal's beyond it, and Q = (1 + A + P) / (1 - P). */
START_TEST (stroke_and_distance_is_the_closed_form)
{
  const double beyond_m = 12, sd_m = 8; /* the green, which lies on top, ends there */
  const Part *parts[] = { rectangle (KIND_OUT_OF_BOUNDS, (Box){ beyond_m, -40, 200, 300 }) };
  g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 150, parts, 1);
  g_autoptr (Bag) bag = bag_of ("5 iron,150,7,8,25\n");
  g_autoptr (PlanSolution) solution = solved (hole, bag, 2);
  SolveShot shot = { .lie = LIE_TEE, .way = { 0, 1 } };
  Ends ends = { solution, 0, 0 };
  double strokes = solve_shot_exactly (solution, &shot, add_end, &ends), lost = 1 - ends.kept;
  ck_assert_double_eq_tol (lost, normal_below (-beyond_m / sd_m), 3e-3);
  ck_assert_double_eq_tol (strokes, (1 + ends.value + lost) / (1 - lost), 1e-9);
}
END_TEST

/* ---- invariants ---- */

START_TEST (one_club_more_never_costs_strokes)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -16, 20, 14, 280 }), rectangle (KIND_BUNKER, (Box){ -30, 150, -10, 170 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 300, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) few = bag_of (FEW_CLUBS);
  g_autoptr (Bag) more = bag_of ("3 wood,200,9,11,15\n" FEW_CLUBS);
  g_autoptr (PlanSolution) with_few = solved (hole, few, 5), with_more = solved (hole, more, 5);
  for (size_t state = 0; state < with_few->grid->n_states; state++)
    ck_assert_double_le (with_more->value[state], with_few->value[state] + 2e-3);
  ck_assert_double_lt (from_tee (with_more), from_tee (with_few));
}
END_TEST

START_TEST (more_trouble_never_saves_strokes)
{
  static const Kind kinds[] = { KIND_BUNKER, KIND_PENALTY_AREA, KIND_OUT_OF_BOUNDS, KIND_DEEP_ROUGH, KIND_TREES };
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  g_autoptr (Hole) open = hole_with (KIND_FAIRWAY, 250, NULL, 0);
  g_autoptr (PlanSolution) without = solved (open, bag, 5);
  double before = from_tee (without);
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Part *parts[] = { rectangle (kinds[i], (Box){ -15, 115, 20, 150 }) };
      g_autoptr (Hole) hole = hole_with (KIND_FAIRWAY, 250, parts, 1);
      g_autoptr (PlanSolution) with = solved (hole, bag, 5);
      ck_assert_msg (from_tee (with) > before, "%s: %g, without %g", kind_info (kinds[i])->label, from_tee (with), before);
    }
}
END_TEST

START_TEST (a_mirrored_hole_has_the_mirrored_plan)
{
  const Part *parts[]
      = { rectangle (KIND_PENALTY_AREA, (Box){ 8, 80, 40, 160 }), rectangle (KIND_FAIRWAY, (Box){ -30, 20, 8, 180 }) };
  const Part *turned[]
      = { rectangle (KIND_PENALTY_AREA, (Box){ -40, 80, -8, 160 }), rectangle (KIND_FAIRWAY, (Box){ -8, 20, 30, 180 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 230, parts, 2);
  g_autoptr (Hole) mirrored = hole_with (KIND_ROUGH, 230, turned, 2);
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  g_autoptr (PlanSolution) one = solved (hole, bag, 4), other = solved (mirrored, bag, 4);
  for (double x = -38; x <= 38; x += 4) /* the middles of cells */
    for (double y = 0; y <= 180; y += 12)
      {
        double a = plan_strokes_at (one, vec2 (x, y)), b = plan_strokes_at (other, vec2 (-x, y));
        ck_assert_msg (isnan (a) == isnan (b) && (isnan (a) || fabs (a - b) < AGREES), "%g,%g: %g %g", x, y, a, b);
      }
}
END_TEST

START_TEST (a_hole_a_little_changed_is_solved_alike_from_the_old_answer)
{
  const Part *before[] = { rectangle (KIND_BUNKER, (Box){ -20, 110, 0, 130 }) };
  const Part *after[] = { rectangle (KIND_BUNKER, (Box){ -14, 114, 6, 134 }) };
  g_autoptr (Hole) old = hole_with (KIND_ROUGH, 230, before, 1);
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 230, after, 1);
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  g_autoptr (PlanSolution) near = solved (old, bag, 4), afresh = solved (hole, bag, 4);
  g_autoptr (PlanSolution) again = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 4, .near = near }, NULL);
  ck_assert_ptr_nonnull (again);
  for (size_t state = 0; state < afresh->grid->n_states; state++)
    ck_assert_double_eq_tol (again->value[state], afresh->value[state], 2e-3);
}
END_TEST

/* Everything that the solver leaves out made up for: every state, every swing, aims all round, until nothing changes. */
static void
solve_everywhere (PlanSolution *solution)
{
  const double everything = 10;
  g_clear_pointer (&solution->weight, g_free);
  solution->n_active = 0;
  for (size_t state = 0; state < solution->grid->n_states; state++)
    if (!solution->grid->state_ends[state])
      solution->active[solution->n_active++] = state;
  for (int round = 0; round < 2; round++)
    {
      double change = solve_sweep (solution, (SweepPlan){ SWEEP_FIRST, 0, everything, 0 }, NULL);
      for (int i = 0; i < 30 && change > 1e-5; i++)
        change = solve_sweep (solution, (SweepPlan){ SWEEP_LEFT, 4, 0.15, 0 }, NULL);
    }
  worth_update (solution->worth, solution->value, true);
}

START_TEST (small_cells_are_right_where_play_may_come)
{
  const Part *parts[]
      = { rectangle (KIND_FAIRWAY, (Box){ -16, 20, 14, 200 }), rectangle (KIND_PENALTY_AREA, (Box){ 12, 60, 30, 140 }),
          rectangle (KIND_BUNKER, (Box){ -30, 120, -14, 150 }), rectangle (KIND_OUT_OF_BOUNDS, (Box){ -90, -40, -36, 300 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 230, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  g_autoptr (PlanSolution) solution = solved (hole, bag, 2);
  size_t n = solution->n_active;
  g_autofree size_t *active = g_memdup2 (solution->active, n * sizeof *active);
  g_autofree float *weight = g_memdup2 (solution->weight, n * sizeof *weight);
  g_autofree double *before = g_memdup2 (solution->value, solution->grid->n_states * sizeof *before);
  double tee = from_tee (solution);
  ck_assert_uint_gt (n, 100);
  solve_everywhere (solution);
  ck_assert_double_eq_tol (tee, from_tee (solution), 5e-4);
  for (size_t i = 0; i < n; i++)
    if (weight[i] >= 1)
      ck_assert_double_eq_tol (before[active[i]], solution->value[active[i]], AGREES);
}
END_TEST

START_TEST (two_threads_find_what_one_finds)
{
  const Part *parts[]
      = { rectangle (KIND_PENALTY_AREA, (Box){ 8, 80, 40, 160 }), rectangle (KIND_TREES, (Box){ -40, 60, -20, 160 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 200, parts, G_N_ELEMENTS (parts));
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  g_autoptr (PlanSolution) one = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 2, .n_threads = 1 }, NULL);
  g_autoptr (PlanSolution) two = plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 2, .n_threads = 2 }, NULL);
  ck_assert (memcmp (one->value, two->value, one->grid->n_states * sizeof *one->value) == 0);
}
END_TEST

START_TEST (a_lay_up_that_is_the_suggested_shot_is_left_out)
{
  g_autoptr (Bag) bag = bag_of ("driver,220,12,14,10\n" FEW_CLUBS);
  g_autoptr (Hole) par_3 = hole_with (KIND_FAIRWAY, 126, NULL, 0);
  g_autoptr (Hole) par_4 = hole_with (KIND_FAIRWAY, 300, NULL, 0);
  g_autoptr (PlanSolution) one = solved (par_3, bag, 4), two = solved (par_4, bag, 4);
  g_autoptr (GError) error = NULL;
  Plan plan, lay_up;
  ck_assert (plan_make (one, PLAN_SUGGESTED, &plan, NULL));
  ck_assert_str_eq (plan.shots[0].shot.club->name, "8 iron");
  ck_assert (!plan_make (one, PLAN_LAY_UP, &lay_up, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_REACH));
  ck_assert (plan_make (two, PLAN_SUGGESTED, &plan, NULL) && plan_make (two, PLAN_LAY_UP, &lay_up, NULL));
  ck_assert_str_eq (plan.shots[0].shot.club->name, "driver");
  ck_assert_str_ne (lay_up.shots[0].shot.club->name, "driver");
  ck_assert_double_gt (lay_up.strokes, plan.strokes);
}
END_TEST

/* ---- edges ---- */

static void
expect_refusal (const Hole *hole, const Bag *bag, const gint *cancel, PlanError code)
{
  GError *error = NULL;
  ck_assert_ptr_null (plan_solve (hole, bag, &(PlanQuestion){ .cell_m = 8, .cancel = cancel }, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, code));
  ck_assert_uint_gt (strlen (error->message), 10);
  g_error_free (error);
}

START_TEST (what_cannot_be_planned_is_said)
{
  g_autoptr (Bag) bag = bag_of (FEW_CLUBS);
  g_autoptr (Bag) empty = bag_new ("bag", UNIT_METRES, LEVEL_SCRATCH_MEN);
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 200, NULL, 0);
  HoleInfo info;
  hole_info_init (&info);
  const Part *parts[] = { place (KIND_TEE_MARKER, vec2 (0, 0)) };
  g_autoptr (Hole) no_green = hole_new (&info, parts, 1, NULL);
  g_autoptr (Hole) nothing = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  gint is_cancelled = 1;
  expect_refusal (no_green, bag, NULL, PLAN_ERROR_TARGET);
  expect_refusal (nothing, bag, NULL, PLAN_ERROR_TARGET);
  expect_refusal (hole, empty, NULL, PLAN_ERROR_CLUB);
  expect_refusal (hole, bag, &is_cancelled, PLAN_ERROR_CANCELLED);
}
END_TEST

/* Nothing but water or the boundary round the tee and the green: it ends, and every value is finite. */
START_TEST (hopeless_holes_end_too)
{
  static const Kind kinds[] = { KIND_PENALTY_AREA, KIND_WATER, KIND_OUT_OF_BOUNDS, KIND_TREES, KIND_BUNKER };
  g_autoptr (Bag) bag = bag_of ("wedge,60,5,5,50\n");
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (Hole) hole = hole_with (kinds[i], 300, NULL, 0);
      g_autoptr (PlanSolution) solution = solved (hole, bag, 6);
      for (size_t state = 0; state < solution->grid->n_states; state++)
        ck_assert (isfinite (solution->value[state]) && solution->value[state] <= MOST_STROKES + 1e-4);
      ck_assert_int_le (solution->n_sweeps, PLAN_MOST_SWEEPS);
    }
}
END_TEST

/* Trouble that is drawn up to the edges of the sheet: there is no way round it over ground that no one has drawn. */
START_TEST (no_ball_is_played_from_beyond_the_sheet)
{
  static const Kind kinds[] = { KIND_OUT_OF_BOUNDS, KIND_WATER };
  g_autoptr (Bag) bag = bag_of ("wedge,60,5,5,50\n");
  for (size_t i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      const Part *parts[] = { rectangle (kinds[i], (Box){ -40, -5, 40, 325 }), rectangle (KIND_TEE, (Box){ -4, -4, 4, 4 }) };
      g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 300, parts, G_N_ELEMENTS (parts));
      g_autoptr (PlanSolution) solution = solved (hole, bag, 6);
      ck_assert (isnan (plan_strokes_at (solution, vec2 (47, 100))));
      ck_assert (isnan (plan_strokes_at (solution, vec2 (0, -12))));
      g_autoptr (GError) error = NULL;
      Plan plan;
      ck_assert (!plan_make (solution, PLAN_SUGGESTED, &plan, &error));
      ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_REACH));
    }
}
END_TEST

/* Twice as much water as the club carries: whatever a sweep that is cut short says, no one gets over it. */
START_TEST (water_that_no_club_carries_is_said_to_be_the_end)
{
  const Part *parts[] = { rectangle (KIND_WATER, (Box){ -40, 15, 40, 265 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 300, parts, 1);
  g_autoptr (Bag) bag = bag_of ("7 iron,120,7,6,33\n");
  g_autoptr (PlanSolution) solution = solved (hole, bag, 4);
  g_autoptr (GError) error = NULL;
  Plan plan;
  ck_assert (!plan_make (solution, PLAN_SUGGESTED, &plan, &error));
  ck_assert (g_error_matches (error, PLAN_ERROR, PLAN_ERROR_REACH));
}
END_TEST

START_TEST (a_huge_drawing_gets_larger_cells)
{
  const Part *parts[] = { rectangle (KIND_FAIRWAY, (Box){ -30000, -30000, 30000, 30000 }) };
  g_autoptr (Hole) hole = hole_with (KIND_ROUGH, 200, parts, 1);
  SolveGrid *grid = solve_grid_new (hole, vec2 (0, 200), 2, NULL, NULL, 1, NULL);
  ck_assert_uint_le (grid->n_cells, 100000);
  ck_assert_double_gt (grid->cell_m, 2);
  solve_grid_free (grid);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-solve");
  TCase *known = tcase_create ("known answers");
  tcase_set_timeout (known, 0);
  tcase_add_test (known, the_fast_solver_agrees_with_the_slow_one_among_sand_water_and_a_boundary);
  tcase_add_test (known, the_fast_solver_agrees_with_the_slow_one_on_a_bag_with_poor_strikes);
  tcase_add_test (known, stroke_and_distance_is_the_closed_form);
  suite_add_tcase (suite, known);
  TCase *invariants = tcase_create ("invariants");
  tcase_set_timeout (invariants, 0);
  tcase_add_test (invariants, one_club_more_never_costs_strokes);
  tcase_add_test (invariants, more_trouble_never_saves_strokes);
  tcase_add_test (invariants, a_mirrored_hole_has_the_mirrored_plan);
  tcase_add_test (invariants, a_hole_a_little_changed_is_solved_alike_from_the_old_answer);
  suite_add_tcase (suite, invariants);
  TCase *small = tcase_create ("small cells and plans");
  tcase_set_timeout (small, 0);
  tcase_add_test (small, small_cells_are_right_where_play_may_come);
  tcase_add_test (small, two_threads_find_what_one_finds);
  tcase_add_test (small, a_lay_up_that_is_the_suggested_shot_is_left_out);
  suite_add_tcase (suite, small);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 0);
  tcase_add_test (edges, what_cannot_be_planned_is_said);
  tcase_add_test (edges, hopeless_holes_end_too);
  tcase_add_test (edges, no_ball_is_played_from_beyond_the_sheet);
  tcase_add_test (edges, water_that_no_club_carries_is_said_to_be_the_end);
  tcase_add_test (edges, a_huge_drawing_gets_larger_cells);
  suite_add_tcase (suite, edges);
  return suite;
}
