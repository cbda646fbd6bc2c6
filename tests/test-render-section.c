// SPDX-License-Identifier: GPL-3.0-or-later
/* render, the section as pixels: where ground, flight, trees and trouble stand, and how high heights are drawn. */
#include "pixels.h"
#include "suite.h"

#define WIDE 800
#define HIGH 160
#define ACCENT 0xff8a2f6bu
/* The ball stands here, and 2 px make a metre. */
#define ZERO_PX 60
#define PX_PER_M 2
/* From the foot of the picture to the foot of the soil, and from there to the lowest ground: the painter's own room. */
#define FOOT_PX 28
#define SOIL_PX 14

static const Club iron
    = { .name = (char *)"7 iron", .carry_m = 140, .carry_sd_m = 6, .side_sd_m = 8, .loft_deg = 32, .apex_m = NAN };

/* The iron up the sheet over water and a tree, to a green with its hole. */
typedef struct
{
  Hole *hole;
  ShotResult shot;
  CarryTable *carries;
  TreeTable *trees;
  Section *section;
  PlanScene scene;
  RenderAxis axis;
} Stage;

static const Part *
across (Kind kind, double y0, double y1)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, (Box){ -80, y0, 80, y1 }, 0, 0);
  return part_seal (part);
}

static void
set_up (Stage *stage, double slope)
{
  static const double places[][2] = { { -120, -60 }, { 120, -60 }, { -120, 400 }, { 120, 400 }, { 0, 100 } };
  const Part *parts[16];
  size_t n = 0;
  HoleInfo info;
  Part *tree = new_point (KIND_TREE, vec2 (0, 60));
  tree->radius_m = 5;
  tree->height_m = 10;
  memset (stage, 0, sizeof *stage);
  parts[n++] = across (KIND_FAIRWAY, 100, 240);
  parts[n++] = across (KIND_PENALTY_AREA, 180, 220);
  parts[n++] = across (KIND_GREEN, 250, 280);
  parts[n++] = point (KIND_HOLE_LOCATION, vec2 (0, 265));
  parts[n++] = part_seal (tree);
  for (size_t i = 0; i < G_N_ELEMENTS (places) && slope != 0; i++)
    {
      Part *spot = new_point (KIND_SPOT_HEIGHT, vec2 (places[i][0], places[i][1]));
      spot->height_m = slope * places[i][1];
      parts[n++] = part_seal (spot);
    }
  hole_info_init (&info);
  info.view_box = (Box){ -120, -60, 120, 400 };
  stage->hole = hole_new (&info, parts, n, NULL);
  hole_info_clear (&info);
  ShotInput input = { .aim = { 0, 150 }, .club = &iron, .swing = 1 };
  ck_assert (odds_shot (stage->hole, NULL, &input, &stage->shot, NULL));
  stage->carries = carry_table_new (stage->hole, &stage->shot);
  stage->trees = tree_table_new (stage->hole, &stage->shot);
  stage->section = section_new (stage->hole, NULL, &stage->shot, stage->carries, stage->trees);
  stage->scene = (PlanScene){ .hole = stage->hole, .shots = &stage->shot, .n_shots = 1, .carries = stage->carries };
  stage->axis = (RenderAxis){ .zero_px = ZERO_PX, .px_per_m = PX_PER_M, .width_px = WIDE, .unit_px = 1, .units = UNIT_METRES };
}

static void
tear_down (Stage *stage)
{
  section_free (stage->section);
  tree_table_free (stage->trees);
  carry_table_free (stage->carries);
  hole_unref (stage->hole);
}

static cairo_surface_t *
section_of (const Stage *stage)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, HIGH + 20);
  cairo_t *cr = cairo_create (surface);
  render_section (cr, &stage->axis, &stage->scene, stage->section, HIGH);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  ck_assert (!cairo_has_current_point (cr));
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static int
x_of (double at_m)
{
  return (int)lround (ZERO_PX + at_m * PX_PER_M);
}

/* Topmost pixel of this colour in a column; -1 for none. */
static int
topmost (cairo_surface_t *surface, int x, unsigned rgb, int by)
{
  for (int y = 0; y < HIGH; y++)
    if (is_near (pixel (surface, x, y), rgb, by))
      return y;
  return -1;
}

/* ---- where things stand ---- */

START_TEST (ground_lies_as_a_ribbon_in_its_own_washes)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *surface = section_of (&stage);
  int y = HIGH - FOOT_PX - SOIL_PX + 6;
  ck_assert_uint_eq (pixel (surface, x_of (110), y), opaque (render_kind_wash (KIND_FAIRWAY)));
  ck_assert_uint_eq (pixel (surface, x_of (232), y), opaque (render_kind_wash (KIND_FAIRWAY)));
  ck_assert_uint_eq (pixel (surface, x_of (270), y), opaque (render_kind_wash (KIND_GREEN)));
  ck_assert_uint_eq (pixel (surface, x_of (300), y), opaque (render_kind_wash (KIND_ROUGH)));
  /* Hatched, so most of it but not all. */
  int n_wash = 0;
  for (int x = x_of (185); x < x_of (215); x++)
    n_wash += pixel (surface, x, y) == opaque (render_kind_wash (KIND_PENALTY_AREA));
  ck_assert_int_gt (n_wash, 20);
  ck_assert_int_lt (n_wash, 60);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (the_flight_stands_as_high_as_its_factor_says)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *surface = section_of (&stage);
  double factor = render_section_factor (&stage.axis, stage.section, HIGH);
  for (int at_m = 30; at_m <= 130; at_m += 20)
    {
      double height_m = flight_at_distance (&stage.shot.flight, vec2 (0, 1), at_m).z_m;
      double expected = HIGH - FOOT_PX - SOIL_PX - height_m * factor * PX_PER_M;
      int y = topmost (surface, x_of (at_m), ACCENT, 12);
      ck_assert_int_ge (y, 0);
      ck_assert_double_eq_tol (y, expected, 3.5);
    }
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (a_tree_stands_at_its_place_and_height)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *surface = section_of (&stage);
  double factor = render_section_factor (&stage.axis, stage.section, HIGH);
  unsigned wash = opaque (render_kind_wash (KIND_TREE));
  int top = topmost (surface, x_of (60), wash, 2);
  ck_assert_double_eq_tol (top, HIGH - FOOT_PX - SOIL_PX - 10 * factor * PX_PER_M, 3);
  ck_assert_int_eq (topmost (surface, x_of (60) - 14, wash, 2), -1);
  ck_assert_int_eq (topmost (surface, x_of (60) + 14, wash, 2), -1);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (trouble_drops_through_sky_and_foot_in_its_own_column)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *surface = section_of (&stage);
  int before = x_of (178), inside = x_of (200), beyond = x_of (222);
  /* In the sky below the words, and at the foot below the soil. */
  for (int i = 0; i < 2; i++)
    {
      int y = i == 0 ? 30 : HIGH - 2;
      ck_assert_uint_ne (pixel (surface, before, y), pixel (surface, inside, y));
      ck_assert_uint_eq (pixel (surface, before, y), pixel (surface, beyond, y));
    }
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (landing_is_a_hump_over_its_mean_and_rest_another_behind_it)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *surface = section_of (&stage);
  unsigned paper = pixel (surface, x_of (110), HIGH - 6);
  int landing = x_of (stage.section->landing.mean_m), sd = (int)lround (PX_PER_M * stage.section->landing.sd_m);
  ck_assert_uint_ne (pixel (surface, landing + 5, HIGH - 6), paper);
  ck_assert_uint_ne (pixel (surface, landing - sd, HIGH - 6), paper);
  ck_assert_uint_eq (pixel (surface, landing - 4 * sd, HIGH - 6), paper);
  int rest = x_of (stage.section->rest.mean_m), peak = topmost (surface, landing - 3, ACCENT, 40);
  ck_assert_int_gt (rest, landing);
  ck_assert_int_ge (peak, 0);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

/* ---- how high heights are drawn ---- */

START_TEST (all_that_is_in_view_fits_at_any_zoom_and_slope)
{
  for (int slope = -12; slope <= 12; slope += 6)
    {
      Stage stage;
      set_up (&stage, slope / 100.0);
      for (double px_per_m = 0.25; px_per_m < 60; px_per_m *= 1.7)
        {
          stage.axis.px_per_m = px_per_m;
          double factor = render_section_factor (&stage.axis, stage.section, HIGH), span_m = 0;
          double from_m = -ZERO_PX / px_per_m, to_m = (WIDE - ZERO_PX) / px_per_m, low_m = INFINITY;
          for (double at_m = from_m; at_m <= to_m; at_m += (to_m - from_m) / 200)
            low_m = fmin (low_m, section_ground (stage.section, at_m));
          for (int i = 0; i <= SECTION_TRACK_STEPS; i++)
            if (stage.section->track[i].at_m >= from_m && stage.section->track[i].at_m <= to_m)
              span_m = fmax (span_m, stage.section->track[i].height_m - low_m);
          ck_assert_double_gt (factor, 0);
          ck_assert_double_le (factor, 5);
          ck_assert_double_le (span_m * factor * px_per_m, HIGH - FOOT_PX - SOIL_PX - 20);
        }
      tear_down (&stage);
    }
}
END_TEST

START_TEST (a_higher_panel_draws_heights_no_lower)
{
  Stage stage;
  set_up (&stage, 0.05);
  double before = 0;
  for (int height = 60; height < 400; height += 20)
    {
      double factor = render_section_factor (&stage.axis, stage.section, height);
      ck_assert_double_ge (factor, before);
      before = factor;
    }
  tear_down (&stage);
}
END_TEST

START_TEST (rising_ground_rises_to_the_right)
{
  Stage stage;
  set_up (&stage, 0.06);
  cairo_surface_t *surface = section_of (&stage);
  unsigned fairway = opaque (render_kind_wash (KIND_FAIRWAY));
  int near = topmost (surface, x_of (105), fairway, 2), far = topmost (surface, x_of (170), fairway, 2);
  double factor = render_section_factor (&stage.axis, stage.section, HIGH);
  ck_assert_int_ge (far, 0);
  ck_assert_double_eq_tol (near - far, 65 * 0.06 * factor * PX_PER_M, 2);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

/* ---- ink, style, edges ---- */

START_TEST (a_grey_section_is_grey)
{
  Stage stage;
  set_up (&stage, 0.03);
  stage.scene.ink = PAINT_GREY;
  cairo_surface_t *surface = section_of (&stage);
  for (int y = 0; y < HIGH; y++)
    for (int x = 0; x < WIDE; x++)
      {
        unsigned value = pixel (surface, x, y);
        ck_assert (is_near (value, (value & 0xff) * 0x010101u, 1));
      }
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (it_keeps_to_its_height_and_knows_the_dark)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *light = section_of (&stage);
  stage.axis.is_dark = true;
  cairo_surface_t *dark = section_of (&stage);
  Box ink = ink_box (light);
  ck_assert (ink.x0 == 0 && ink.y0 == 0 && ink.x1 == WIDE && ink.y1 == HIGH);
  ck_assert_uint_gt (pixel (light, WIDE - 3, 40) & 0xff, 0xc0);
  ck_assert_uint_lt (pixel (dark, WIDE - 3, 40) & 0xff, 0x60);
  cairo_surface_destroy (light);
  cairo_surface_destroy (dark);
  tear_down (&stage);
}
END_TEST

START_TEST (kept_words_give_the_same_section_again)
{
  Stage stage;
  set_up (&stage, 0);
  stage.scene.words = render_words_new ();
  cairo_surface_t *one = section_of (&stage), *other = section_of (&stage);
  size_t size = (size_t)cairo_image_surface_get_stride (one) * (HIGH + 20);
  ck_assert (memcmp (cairo_image_surface_get_data (one), cairo_image_surface_get_data (other), size) == 0);
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
  render_words_free (stage.scene.words);
  tear_down (&stage);
}
END_TEST

START_TEST (any_axis_and_height_draws_without_harm)
{
  static const double scales[] = { NAN, INFINITY, 0, -1, 1e-9, 1e-3, 0.2, 200, 1e6, 1e12 };
  static const double heights[] = { NAN, -5, 0, 1, 20, 44, 90 };
  Stage stage;
  set_up (&stage, 0.04);
  for (size_t i = 0; i < G_N_ELEMENTS (scales); i++)
    for (size_t k = 0; k < G_N_ELEMENTS (heights); k++)
      {
        cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, 100);
        cairo_t *cr = cairo_create (surface);
        stage.axis.px_per_m = scales[i];
        render_section (cr, &stage.axis, &stage.scene, stage.section, heights[k]);
        ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
        cairo_destroy (cr);
        cairo_surface_destroy (surface);
      }
  tear_down (&stage);
}
END_TEST

START_TEST (without_a_section_or_a_shot_nothing_is_drawn)
{
  Stage stage;
  set_up (&stage, 0);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  render_section (cr, &stage.axis, &stage.scene, NULL, HIGH);
  render_section (cr, &stage.axis, NULL, stage.section, HIGH);
  stage.scene.n_shots = 0;
  render_section (cr, &stage.axis, &stage.scene, stage.section, HIGH);
  cairo_destroy (cr);
  ck_assert (box_is_empty (ink_box (surface)));
  ck_assert_double_eq (render_section_factor (&stage.axis, NULL, HIGH), 0);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-section");
  TCase *places = tcase_create ("places"), *heights = tcase_create ("heights"), *edges = tcase_create ("ink and edges");
  tcase_add_test (places, ground_lies_as_a_ribbon_in_its_own_washes);
  tcase_add_test (places, the_flight_stands_as_high_as_its_factor_says);
  tcase_add_test (places, a_tree_stands_at_its_place_and_height);
  tcase_add_test (places, trouble_drops_through_sky_and_foot_in_its_own_column);
  tcase_add_test (places, landing_is_a_hump_over_its_mean_and_rest_another_behind_it);
  tcase_add_test (heights, all_that_is_in_view_fits_at_any_zoom_and_slope);
  tcase_add_test (heights, a_higher_panel_draws_heights_no_lower);
  tcase_add_test (heights, rising_ground_rises_to_the_right);
  tcase_add_test (edges, a_grey_section_is_grey);
  tcase_add_test (edges, it_keeps_to_its_height_and_knows_the_dark);
  tcase_add_test (edges, kept_words_give_the_same_section_again);
  tcase_add_test (edges, any_axis_and_height_draws_without_harm);
  tcase_add_test (edges, without_a_section_or_a_shot_nothing_is_drawn);
  suite_add_tcase (suite, places);
  suite_add_tcase (suite, heights);
  suite_add_tcase (suite, edges);
  return suite;
}
