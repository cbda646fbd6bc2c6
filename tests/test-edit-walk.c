// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * Random edits: walks of 1 000 steps over a course's hole and a sketched one, every state sound, undone to the very hole and its very bytes, done again to
 * the very states. HW_EDIT_WALKS sets how many walks; the full run is 1 000.
 */
#include "edit.h"
#include "suite.h"
#include "svg.h"

#include <stdlib.h>

#define N_STEPS 1000
#define N_STARTS 3
#define N_WALKS 2
/* Bytes are compared at every so many steps. */
#define MILESTONE 100
/* Nothing drawn here goes farther than some turns and moves can bring it. */
#define FAR_M 1e6
/* A walk does not let the hole grow without end. */
#define MOST_PARTS 160
#define MOST_AREAS 400

typedef struct
{
  GRand *random;
  const Hole *hole;
  const Bag *bag;
  unsigned *n_done; /* how often each row of the table of edits changed the hole */
  size_t selected[4], n_selected;
} Walker;

/* ---- what may be drawn ---- */

static double
between (Walker *walker, double low, double high)
{
  return g_rand_double_range (walker->random, low, high);
}

static size_t
below (Walker *walker, size_t n)
{
  return (size_t)g_rand_int_range (walker->random, 0, (gint32)n);
}

static Vec2
somewhere (Walker *walker)
{
  double x = between (walker, -60, 60), y = between (walker, -20, 400);
  return vec2 (x, y);
}

static int
compare_sizes (const void *a, const void *b)
{
  size_t p = *(const size_t *)a, q = *(const size_t *)b;
  return p < q ? -1 : p > q;
}

/* One to four parts, sorted, without repeats; none of an empty hole. */
static void
select_some (Walker *walker)
{
  size_t n = hole_n_parts (walker->hole), wanted = n > 0 ? 1 + below (walker, G_N_ELEMENTS (walker->selected)) : 0, kept = 0;
  for (size_t k = 0; k < wanted; k++)
    walker->selected[k] = below (walker, n);
  qsort (walker->selected, wanted, sizeof walker->selected[0], compare_sizes);
  for (size_t k = 0; k < wanted; k++)
    if (kept == 0 || walker->selected[kept - 1] != walker->selected[k])
      walker->selected[kept++] = walker->selected[k];
  walker->n_selected = kept;
}

/* An area and up to three that its bounds overlap; what was selected stays when there is no area. */
static void
select_areas (Walker *walker)
{
  size_t n = hole_n_parts (walker->hole), areas[MOST_AREAS], n_areas = 0;
  for (size_t i = 0; i < n && n_areas < MOST_AREAS; i++)
    if (hole_part (walker->hole, i)->outline)
      areas[n_areas++] = i;
  if (n_areas == 0)
    return;
  size_t first = areas[below (walker, n_areas)];
  walker->n_selected = 0;
  for (size_t k = 0; k < n_areas && walker->n_selected < G_N_ELEMENTS (walker->selected); k++)
    if (areas[k] == first
        || (areas[k] > first
            && box_overlaps (hole_part (walker->hole, first)->bounds, hole_part (walker->hole, areas[k])->bounds)))
      walker->selected[walker->n_selected++] = areas[k];
}

/* ---- the edits; each may be refused ---- */

#define SELECTION walker->hole, walker->selected, walker->n_selected

static Hole *
walk_path (Walker *walker, GError **error)
{
  Path path = { 0 };
  Vec2 middle = somewhere (walker);
  size_t n = 2 + below (walker, 8);
  for (size_t i = 0; i < n; i++)
    {
      Vec2 to = vec2_add (middle, vec2_scale (somewhere (walker), 0.1));
      if (i == 0)
        path_move_to (&path, to);
      else if (i % 2)
        path_line_to (&path, to);
      else
        path_cubic_to (&path, vec2_add (to, vec2 (3, 0)), vec2_add (to, vec2 (0, 5)), to);
    }
  Hole *made = edit_add_path (walker->hole, (Kind)below (walker, N_KINDS), &path, NULL, error);
  path_clear (&path);
  return made;
}

static Hole *
walk_circle (Walker *walker, GError **error)
{
  Vec2 middle = somewhere (walker);
  return edit_add_circle (walker->hole, below (walker, 2) ? KIND_BUNKER : KIND_TREE, middle, between (walker, 0, 12), NULL,
                          error);
}

static Hole *
walk_point (Walker *walker, GError **error)
{
  return edit_add_point (walker->hole, (Kind)below (walker, N_KINDS), somewhere (walker), NULL, error);
}

static Hole *
walk_note (Walker *walker, GError **error)
{
  return edit_add_note (walker->hole, somewhere (walker), "mind the \"gap\" & <stream>", NULL, error);
}

static Hole *
walk_trees (Walker *walker, GError **error)
{
  const Vec2 stroke[2] = { { 0, 0 }, { between (walker, 1, 12), 3 } };
  return edit_scatter_trees (walker->hole, stroke, 2, 4, 2, 3, walker->random, NULL, NULL, error);
}

static Hole *
walk_move (Walker *walker, GError **error)
{
  double x = between (walker, -20, 20), y = between (walker, -20, 20);
  return edit_transform (SELECTION, affine_translation (x, y), error);
}

static Hole *
walk_turn (Walker *walker, GError **error)
{
  return edit_transform (SELECTION, affine_rotation (between (walker, -0.1, 0.1)), error);
}

static Hole *
walk_scale (Walker *walker, GError **error)
{
  double sx = between (walker, -1.2, 1.2), sy = between (walker, 0.8, 1.2);
  return edit_transform (SELECTION, affine_scaling (sx, sy), error);
}

static Hole *
walk_duplicate (Walker *walker, GError **error)
{
  g_autofree size_t *copies = NULL;
  return hole_n_parts (walker->hole) > MOST_PARTS ? edit_delete (SELECTION, error)
                                                  : edit_duplicate (SELECTION, vec2 (1, 2), &copies, error);
}

static Hole *
walk_delete (Walker *walker, GError **error)
{
  return edit_delete (SELECTION, error);
}

static Hole *
walk_kind (Walker *walker, GError **error)
{
  return edit_set_kind (SELECTION, (Kind)below (walker, N_KINDS), error);
}

static Hole *
walk_name (Walker *walker, GError **error)
{
  static const char *const names[] = { "", "pond", "white", "front", " a\tb ", "\xc3\xa9\xff" };
  return edit_rename (walker->hole, walker->selected[0], names[below (walker, G_N_ELEMENTS (names))], error);
}

static Hole *
walk_order (Walker *walker, GError **error)
{
  return edit_reorder (walker->hole, walker->selected[0], below (walker, hole_n_parts (walker->hole)), error);
}

static Hole *
walk_raise (Walker *walker, GError **error)
{
  static const int steps[] = { -2, -1, 1, 2 };
  return edit_raise (walker->hole, walker->selected[0], steps[below (walker, 4)], NULL, error);
}

/* A node of the selected part; false when it has none. */
static bool
any_node (Walker *walker, size_t *node)
{
  if (below (walker, 2))
    select_areas (walker);
  const Part *part = hole_part (walker->hole, walker->selected[0]);
  PartShape shape = kind_info (part->kind)->shape;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return false;
  PathNode *nodes = NULL;
  size_t n = path_nodes (&part->path, &nodes);
  free (nodes);
  *node = n > 0 ? below (walker, n) : 0;
  return n > 0;
}

static Hole *
walk_node (Walker *walker, GError **error)
{
  size_t node;
  if (!any_node (walker, &node))
    return NULL;
  Vec2 to = vec2_add (part_position (hole_part (walker->hole, walker->selected[0])), vec2_scale (somewhere (walker), 0.2));
  return edit_move_node (walker->hole, walker->selected[0], node, (NodeGrip)below (walker, 3), to, error);
}

static Hole *
walk_node_kind (Walker *walker, GError **error)
{
  size_t node;
  if (!any_node (walker, &node))
    return NULL;
  if (below (walker, 3) == 0)
    return edit_delete_node (walker->hole, walker->selected[0], node, error);
  return edit_smooth_node (walker->hole, walker->selected[0], node, below (walker, 2), error);
}

static Hole *
walk_new_node (Walker *walker, GError **error)
{
  return edit_add_node (walker->hole, walker->selected[0], somewhere (walker), NULL, error);
}

static Hole *
walk_together (Walker *walker, GError **error)
{
  static Hole *(*const edits[]) (const Hole *, const size_t *, size_t, GError **)
      = { edit_unite, edit_subtract, edit_join, edit_align };
  select_areas (walker);
  return edits[below (walker, G_N_ELEMENTS (edits))](SELECTION, error);
}

static Hole *
walk_offset (Walker *walker, GError **error)
{
  select_areas (walker);
  return edit_offset (SELECTION, between (walker, -2, 1.5), error);
}

static Hole *
walk_cut (Walker *walker, GError **error)
{
  select_areas (walker);
  Box bounds = hole_part (walker->hole, walker->selected[0])->bounds;
  Vec2 a = vec2 (bounds.x0 - 1, between (walker, bounds.y0 - 1, bounds.y1)),
       b = vec2 (bounds.x1 + 1, between (walker, bounds.y0 - 1, bounds.y1));
  return below (walker, 3) ? edit_cut (SELECTION, a, b, error) : edit_split (walker->hole, walker->selected[0], NULL, error);
}

static Hole *
walk_place (Walker *walker, GError **error)
{
  double along_m = between (walker, -20, 400), right_m = between (walker, -50, 50);
  return edit_place (walker->hole, walker->selected[0], along_m, right_m, error);
}

static Hole *
walk_mend (Walker *walker, GError **error)
{
  return edit_mend (walker->hole, (Mend)below (walker, MEND_GROW_SHEET + 1), walker->selected[0], error);
}

/* A fact that the first part selected has, now and then out of its range or taken off. */
static Hole *
walk_fact (Walker *walker, GError **error)
{
  EditFact fact = (EditFact)below (walker, N_EDIT_FACTS);
  for (size_t i = 0; i < N_EDIT_FACTS && !edit_has_fact (hole_part (walker->hole, walker->selected[0])->kind, fact); i++)
    fact = (EditFact)((fact + 1) % N_EDIT_FACTS);
  static const double values[] = { 0, 1, 0.35, 4, -2.5, NAN, 60, 5000 };
  return edit_set_fact (walker->hole, walker->selected, 1, fact, values[below (walker, G_N_ELEMENTS (values))], error);
}

/* Something about the plan in use; a first one when there is none. */
static Hole *
walk_plan (Walker *walker, GError **error)
{
  static const char *const clubs[] = { "driver", "7 iron", NULL };
  int found = hole_plan (walker->hole);
  if (found < 0)
    return edit_start_plan (walker->hole, error);
  size_t plan = (size_t)found, n_shots = hole_part (walker->hole, plan)->n_shots;
  size_t edit = n_shots > 0 ? below (walker, 5) : 0, shot = n_shots > 0 ? below (walker, n_shots) : 0;
  switch (edit)
    {
    case 0:
      return edit_add_shot (walker->hole, plan, walker->bag, error);
    case 1:
      return edit_remove_shot (walker->hole, plan, shot, error);
    case 2:
      return edit_move_ball (walker->hole, plan, shot, somewhere (walker));
    case 3:
      return edit_choose_club (walker->hole, plan, shot, clubs[below (walker, G_N_ELEMENTS (clubs))], walker->bag);
    default:
      return edit_move_aim (walker->hole, plan, shot, somewhere (walker), walker->bag);
    }
}

static Hole *(*const edits[]) (Walker *, GError **) = {
  walk_path,      walk_circle,   walk_point, walk_note,  walk_trees, walk_move,  walk_turn,   walk_scale,
  walk_duplicate, walk_delete,   walk_kind,  walk_name,  walk_order, walk_raise, walk_node,   walk_node_kind,
  walk_new_node,  walk_together, walk_cut,   walk_place, walk_mend,  walk_plan,  walk_offset, walk_fact,
};

/* ---- what must hold ---- */

static bool
is_near (Vec2 point)
{
  return fabs (point.x) <= FAR_M && fabs (point.y) <= FAR_M;
}

/* As ck_assert, which writes to its runner each time it holds: this is asked of every point of every drawing on the way. */
#define require(condition)                                                                                                     \
  do                                                                                                                           \
    if (!(condition))                                                                                                          \
      ck_abort_msg ("%s does not hold", #condition);                                                                           \
  while (0)

static void
expect_sound (const Hole *hole)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal), nodes = g_hash_table_new (NULL, NULL);
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *part = hole_part (hole, i);
      require (!part->id || g_hash_table_add (ids, part->id));
      require (part->node == 0 || g_hash_table_add (nodes, GUINT_TO_POINTER (part->node)));
      require (box_is_empty (part->bounds)
               || (is_near (vec2 (part->bounds.x0, part->bounds.y0)) && is_near (vec2 (part->bounds.x1, part->bounds.y1))));
      for (size_t k = 0; k < part->n_shots; k++)
        require (is_near (part->shots[k].from) && is_near (part->shots[k].aim));
      require (is_near (part->at) && part->radius_m >= 0 && part->radius_m <= FAR_M);
      for (size_t k = 0; k < part->path.n_segs; k++)
        {
          const PathSeg *seg = &part->path.segs[k];
          require (is_near (seg->to) && (seg->kind != SEG_CUBIC || (is_near (seg->c1) && is_near (seg->c2))));
        }
      require ((part->outline != NULL) == (kind_info (part->kind)->shape == SHAPE_AREA));
      require (affine_is_finite (part->placement));
    }
}

static GBytes *
bytes_of (const Hole *hole)
{
  GError *error = NULL;
  GBytes *bytes = svg_write_bytes (hole, &error);
  ck_assert_msg (bytes != NULL, "%s", error ? error->message : "no message");
  return bytes;
}

/* A document of the hole reads as the same parts in the same order. */
static void
expect_readable (GBytes *bytes, const Hole *hole)
{
  GError *error = NULL;
  g_autoptr (Hole) read = svg_read_bytes (bytes, "walk.svg", NULL, &error);
  ck_assert_msg (read != NULL, "%s", error ? error->message : "no message");
  ck_assert_uint_eq (hole_n_parts (read), hole_n_parts (hole));
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    {
      const Part *a = hole_part (hole, i), *b = hole_part (read, i);
      ck_assert_int_eq (a->kind, b->kind);
      ck_assert_str_eq (a->name ? a->name : "", b->name ? b->name : "");
    }
}

/* One edit that went through, or the hole again after some that were refused. */
static Hole *
step (Walker *walker)
{
  select_some (walker);
  size_t edit = below (walker, walker->n_selected > 0 ? G_N_ELEMENTS (edits) : 5); /* without parts only those that draw */
  GError *error = NULL;
  Hole *made = edits[edit](walker, &error);
  bool is_refusal
      = error == NULL || error->domain == EDIT_ERROR || error->domain == ODDS_ERROR || error->domain == FLIGHT_ERROR;
  ck_assert_msg (made != NULL || is_refusal, "edit %zu: %s", edit, error != NULL ? error->message : "no reason");
  ck_assert (made == NULL || error == NULL);
  walker->n_done[edit] += made != NULL && made != walker->hole;
  g_clear_error (&error);
  return made ? made : hole_ref ((Hole *)walker->hole);
}

/* Steps between two looks at the faces, places looked at on a drawing, and how near an edge a place may be told otherwise by a face: rounding. */
#define FACES_EVERY 500
#define N_PLACES 60
#define NEAR_EDGE_M 1e-6

/* Whatever was drawn, its faces lie apart, show what is on top, and all chances add up to 1. */
static void
expect_faces (const Hole *hole, guint32 seed)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_autoptr (GError) error = NULL;
  const Faces *faces = hole_faces (hole, &error);
  ck_assert_msg (faces != NULL, "%s", error != NULL ? error->message : "no reason");
  Box box = hole_extent (hole);
  size_t n = hole_n_areas (hole);
  g_autofree double *chances = g_new (double, n + 1);
  for (int i = 0; i < N_PLACES; i++)
    {
      Vec2 at = vec2 (g_rand_double_range (random, box.x0, box.x1), g_rand_double_range (random, box.y0, box.y1));
      int found = -1, top = hole_area_at (hole, at);
      for (size_t k = 0; k < n; k++)
        if (outline_winding (faces_outline (faces, k), at) != 0)
          {
            ck_assert_int_eq (found, -1);
            found = (int)hole_area_part (hole, k);
          }
      if (found != top)
        {
          const Part *part = hole_part (hole, (size_t)MAX (found, top));
          ck_assert_double_le (outline_distance (part->outline, at, NULL), NEAR_EDGE_M);
        }
      double sum = 0, sd_m = pow (10, g_rand_double_range (random, -2, 3));
      Normal normal = { .mean = at, .a = { sd_m, 0.3 * sd_m }, .b = { 0, 0.5 * sd_m } };
      ck_assert (faces_chances (faces, &normal, chances));
      for (size_t k = 0; k <= n; k++)
        sum += chances[k];
      ck_assert_double_eq_tol (sum, 1, 1e-9);
    }
}

static void
walk (Hole *start, const Bag *bag, guint32 seed, unsigned *n_done)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  g_autoptr (History) history = history_new (start);
  g_autoptr (GPtrArray) states = g_ptr_array_new (),
                        milestones = g_ptr_array_new_with_free_func ((GDestroyNotify)g_bytes_unref);
  for (int i = 0; i < N_STEPS; i++)
    {
      Walker walker = { .random = random, .hole = history_current (history), .bag = bag, .n_done = n_done };
      g_ptr_array_add (states, history_current (history));
      if (i % MILESTONE == 0)
        g_ptr_array_add (milestones, bytes_of (walker.hole));
      g_autoptr (Hole) made = step (&walker);
      expect_sound (made);
      if (i % FACES_EVERY == FACES_EVERY - 1)
        expect_faces (made, seed);
      history_push (history, made, "step");
    }
  g_ptr_array_add (states, history_current (history));
  g_autoptr (GBytes) last = bytes_of (history_current (history));
  expect_readable (last, history_current (history));
  for (int i = N_STEPS; i-- > 0;)
    {
      ck_assert (history_undo (history));
      ck_assert_ptr_eq (history_current (history), states->pdata[i]);
      if (i % MILESTONE == 0)
        {
          g_autoptr (GBytes) bytes = bytes_of (history_current (history));
          ck_assert (g_bytes_equal (bytes, milestones->pdata[i / MILESTONE]));
        }
    }
  ck_assert_ptr_eq (history_current (history), start);
  ck_assert (!history_is_modified (history) && !history_undo (history));
  for (int i = 0; i < N_STEPS; i++)
    {
      ck_assert (history_redo (history));
      ck_assert_ptr_eq (history_current (history), states->pdata[i + 1]);
    }
  ck_assert (!history_redo (history));
  g_autoptr (GBytes) again = bytes_of (history_current (history));
  ck_assert (g_bytes_equal (again, last));
}

/* So many rounds make up the walks that are asked for, N_WALKS from each start in a round. */
static int
count_rounds (void)
{
  const char *wanted = g_getenv ("HW_EDIT_WALKS");
  guint64 n = wanted != NULL ? g_ascii_strtoull (wanted, NULL, 10) : 1;
  return (int)CLAMP ((n + N_STARTS * N_WALKS - 1) / (N_STARTS * N_WALKS), 1, 100000);
}

/* Each edit of the table must have gone through in one of the walks of the first round. */
static void
walk_often (Hole *start, guint32 seed, int round)
{
  unsigned n_done[G_N_ELEMENTS (edits)] = { 0 };
  g_autofree char *path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "bag.csv", NULL);
  g_autoptr (Bag) bag = bag_read_file (path, LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (bag);
  for (guint32 i = 0; i < N_WALKS; i++)
    walk (start, bag, seed + (guint32)round * N_WALKS + i, n_done);
  for (size_t i = 0; i < G_N_ELEMENTS (edits) && round == 0; i++)
    ck_assert_msg (n_done[i] > 0, "edit %zu of the table was refused every time", i);
}

START_TEST (a_thousand_edits_of_a_document_are_undone_to_its_very_bytes)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_COURSES"), "fenwhistle", "02-orchard.svg", NULL);
  g_autoptr (GBytes) source = svg_read_contents (path, NULL);
  g_autoptr (Hole) hole = svg_read_bytes (source, path, NULL, NULL);
  ck_assert_ptr_nonnull (hole);
  walk_often (hole, 1000, _i);
  g_autoptr (GBytes) bytes = bytes_of (hole);
  ck_assert (g_bytes_equal (bytes, source));
}
END_TEST

START_TEST (a_thousand_edits_of_a_sketch_are_undone_to_the_sketch)
{
  HoleSketch sketch;
  hole_sketch_init (&sketch);
  sketch.bend = BEND_LEFT;
  g_autoptr (Hole) hole = edit_sketch_hole (&sketch, NULL);
  walk_often (hole, 2000, _i);
}
END_TEST

START_TEST (a_thousand_edits_of_an_empty_sheet_are_undone_to_nothing)
{
  g_autoptr (Hole) hole = edit_empty_hole (150, 450);
  walk_often (hole, 3000, _i);
  ck_assert_uint_eq (hole_n_parts (hole), 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("edit-walk");
  TCase *walks = tcase_create ("walks");
  tcase_set_timeout (walks, 0); /* Meson keeps the time */
  int n_rounds = count_rounds ();
  tcase_add_loop_test (walks, a_thousand_edits_of_a_document_are_undone_to_its_very_bytes, 0, n_rounds);
  tcase_add_loop_test (walks, a_thousand_edits_of_a_sketch_are_undone_to_the_sketch, 0, n_rounds);
  tcase_add_loop_test (walks, a_thousand_edits_of_an_empty_sheet_are_undone_to_nothing, 0, n_rounds);
  suite_add_tcase (suite, walks);
  return suite;
}
