// SPDX-License-Identifier: GPL-3.0-or-later
/* render, the painted hole as pixels. No golden picture: each test asks one thing. */
#include "pixels.h"
#include "suite.h"

#include <cairo-svg.h>

/* Half the side of a tested square. */
#define HALF_M 60.0

/* ---- the hole ---- */

START_TEST (an_empty_hole_is_ground)
{
  g_autoptr (Hole) hole = hole_of (NULL, NULL, NULL);
  RenderView view = plain_view ();
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  ck_assert_int_eq (count_near (surface, opaque (render_kind_wash (KIND_ROUGH)), 1), WIDTH * HEIGHT);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (washes_and_edges_are_those_of_the_survey_sheet)
{
  /* The program's own palette. */
  ck_assert_uint_eq (opaque (render_kind_wash (KIND_ROUGH)), 0xffdfe3ccu);
  ck_assert_uint_eq (opaque (render_kind_wash (KIND_FAIRWAY)), 0xffb9cf96u);
  ck_assert_uint_eq (opaque (render_kind_wash (KIND_GREEN)), 0xff9cc79bu);
  ck_assert_uint_eq (opaque (render_kind_wash (KIND_BUNKER)), 0xffefe2bdu);
  ck_assert_uint_eq (opaque (render_kind_wash (KIND_WATER)), 0xffbcd7e3u);
  ck_assert_uint_eq (opaque (render_kind_edge (KIND_TREES)), 0xff48693fu);
  ck_assert_uint_eq (opaque (render_kind_edge (KIND_OUT_OF_BOUNDS)), 0xff2b2b2bu);
}
END_TEST

START_TEST (every_kind_of_area_shows_its_wash)
{
  Kind kind = (Kind)_i;
  if (kind_info (kind)->shape != SHAPE_AREA || kind == KIND_NONE)
    return;
  g_autoptr (Hole) hole = hole_of (square (kind, HALF_M), NULL, NULL);
  RenderView view = plain_view ();
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  int n = count_near (surface, opaque (render_kind_wash (kind)), 1);
  /* Hatch and its antialiasing leave a quarter bare even where they are densest. */
  ck_assert_msg (n > 0.25 * 4 * HALF_M * HALF_M, "%s has %d px of its wash", kind_info (kind)->label, n);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (trouble_stands_out_from_its_neighbours)
{
  Kind kind = (Kind)_i;
  if (kind_info (kind)->shape != SHAPE_AREA || !kind_info (kind)->is_trouble)
    return;
  g_autoptr (Hole) hole = hole_of (square (kind, HALF_M / 6), NULL, NULL);
  RenderView view = plain_view ();
  /* Large enough that the edge is wider than its antialiasing. */
  view.px_per_m = 10;
  view.unit_px = 6;
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  double ground = luminance (pixel (surface, 5, HEIGHT / 2 + 3)), darkest = 1;
  /* Across the left edge, 100 px from the middle, and nothing of the hatch inside. */
  for (int y = HEIGHT / 2 - 40; y < HEIGHT / 2 + 40; y++)
    for (int x = 100 - 14; x <= 100; x++)
      darkest = fmin (darkest, luminance (pixel (surface, x, y)));
  ck_assert_msg ((ground + 0.05) / (darkest + 0.05) >= 3, "%s stands out %.2f : 1", kind_info (kind)->label,
                 (ground + 0.05) / (darkest + 0.05));
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (what_can_hurt_is_hatched)
{
  static const Kind hatched[] = { KIND_DEEP_ROUGH, KIND_BUNKER, KIND_WASTE,         KIND_PENALTY_AREA,
                                  KIND_WATER,      KIND_TREES,  KIND_OUT_OF_BOUNDS, KIND_BUILDING };
  static const Kind plain[] = { KIND_TEE, KIND_FAIRWAY, KIND_FIRST_CUT, KIND_ROUGH, KIND_FRINGE, KIND_GREEN, KIND_PATH };
  for (size_t i = 0; i < G_N_ELEMENTS (hatched) + G_N_ELEMENTS (plain); i++)
    {
      bool is_hatched = i < G_N_ELEMENTS (hatched);
      Kind kind = is_hatched ? hatched[i] : plain[i - G_N_ELEMENTS (hatched)];
      /* Larger than the drawing: no edge shows. */
      g_autoptr (Hole) hole = hole_of (square (kind, 10 * HALF_M), NULL, NULL);
      RenderView view = plain_view ();
      cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
      int n_marks = WIDTH * HEIGHT - count_near (surface, opaque (render_kind_wash (kind)), 1);
      ck_assert_msg (is_hatched ? n_marks > WIDTH * HEIGHT / 100 : n_marks == 0, "%s has %d px of hatch",
                     kind_info (kind)->label, n_marks);
      cairo_surface_destroy (surface);
    }
}
END_TEST

START_TEST (hatch_moves_with_the_hole)
{
  Kind kind = (Kind)_i;
  if (kind_info (kind)->shape != SHAPE_AREA)
    return;
  g_autoptr (Hole) hole = hole_of (square (kind, 10 * HALF_M), NULL, NULL);
  RenderView view = plain_view (), panned = view;
  view_pan (&panned, vec2 (7, -5));
  cairo_surface_t *before = picture_of (hole, &view, PAINT_COLOUR), *after = picture_of (hole, &panned, PAINT_COLOUR);
  for (int y = 5; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH - 7; x++)
      ck_assert_uint_eq (pixel (before, x, y), pixel (after, x + 7, y - 5));
  cairo_surface_destroy (before);
  cairo_surface_destroy (after);
}
END_TEST

START_TEST (a_later_area_lies_on_top)
{
  g_autoptr (Hole) hole = hole_of (square (KIND_FAIRWAY, HALF_M), square (KIND_GREEN, HALF_M / 2), NULL);
  g_autoptr (Hole) buried = hole_of (square (KIND_GREEN, HALF_M / 2), square (KIND_FAIRWAY, HALF_M), NULL);
  RenderView view = plain_view ();
  cairo_surface_t *a = picture_of (hole, &view, PAINT_COLOUR), *b = picture_of (buried, &view, PAINT_COLOUR);
  ck_assert_uint_eq (pixel (a, WIDTH / 2, HEIGHT / 2), opaque (render_kind_wash (KIND_GREEN)));
  ck_assert_uint_eq (pixel (b, WIDTH / 2, HEIGHT / 2), opaque (render_kind_wash (KIND_FAIRWAY)));
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
}
END_TEST

START_TEST (the_fill_rule_decides_what_is_inside)
{
  for (int even_odd = 0; even_odd < 2; even_odd++)
    {
      Part *ring = part_new (KIND_FAIRWAY);
      path_add_rectangle (&ring->path, (Box){ -50, -50, 50, 50 }, 0, 0);
      path_add_rectangle (&ring->path, (Box){ -20, -20, 20, 20 }, 0, 0);
      ring->even_odd = even_odd;
      g_autoptr (Hole) hole = hole_of (part_seal (ring), NULL, NULL);
      RenderView view = plain_view ();
      cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
      ck_assert_uint_eq (pixel (surface, WIDTH / 2, HEIGHT / 2),
                         opaque (render_kind_wash (even_odd ? KIND_ROUGH : KIND_FAIRWAY)));
      cairo_surface_destroy (surface);
    }
}
END_TEST

START_TEST (nothing_is_drawn_outside_the_view_and_the_context_comes_back)
{
  g_autoptr (Hole) hole = hole_of (square (KIND_TREES, 500), point (KIND_HOLE_LOCATION, vec2 (90, 70)), NULL);
  RenderView view = plain_view ();
  view.width_px = 200;
  view.height_px = 150;
  cairo_surface_t *surface = canvas (WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 1, 0, 1);
  cairo_set_line_width (cr, 17);
  render_hole (cr, hole, &view, PAINT_COLOUR);
  ck_assert_double_eq (cairo_get_line_width (cr), 17);
  ck_assert (!cairo_has_current_point (cr));
  Box ink = ink_box (surface);
  ck_assert (ink.x0 == 0 && ink.y0 == 0 && ink.x1 == 200 && ink.y1 == 150);
  cairo_paint (cr);
  ck_assert_int_eq (count_near (surface, 0xffff00ff, 0), WIDTH * HEIGHT);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (what_a_clip_shows_is_as_in_the_whole_picture)
{
  const Part *far_off = part_seal (new_square (KIND_TREES, HALF_M)), *lake = square (KIND_WATER, HALF_M / 2);
  g_autoptr (Hole) hole = hole_of (far_off, lake, point (KIND_TREE, vec2 (HALF_M, HALF_M)));
  RenderView view = plain_view ();
  cairo_surface_t *whole = picture_of (hole, &view, PAINT_COLOUR), *part = canvas (WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (part);
  /* Across the edges of all three. */
  cairo_rectangle (cr, 210, 60, 70, 100);
  cairo_clip (cr);
  render_hole (cr, hole, &view, PAINT_COLOUR);
  cairo_destroy (cr);
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      {
        bool is_in = x >= 210 && x < 280 && y >= 60 && y < 160;
        ck_assert_uint_eq (pixel (part, x, y), is_in ? pixel (whole, x, y) : 0);
      }
  cairo_surface_destroy (whole);
  cairo_surface_destroy (part);
}
END_TEST

START_TEST (a_higher_layer_lies_over_a_lower_one_wherever_the_document_has_it)
{
  ck_assert_uint_lt (render_layer (KIND_GREEN), render_layer (KIND_TREE));
  ck_assert_uint_lt (render_layer (KIND_TREE), render_layer (KIND_TEE_MARKER));
  ck_assert_uint_eq (render_layer (KIND_GREEN), render_layer (KIND_WATER));
  /* A tree that the document has before the green on which it stands is painted over it. */
  g_autoptr (Hole) before = hole_of (point (KIND_TREE, vec2 (0, 0)), square (KIND_GREEN, HALF_M), NULL);
  g_autoptr (Hole) after = hole_of (square (KIND_GREEN, HALF_M), point (KIND_TREE, vec2 (0, 0)), NULL);
  RenderView view = plain_view ();
  cairo_surface_t *a = picture_of (before, &view, PAINT_COLOUR), *b = picture_of (after, &view, PAINT_COLOUR);
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      ck_assert_uint_eq (pixel (a, x, y), pixel (b, x, y));
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
}
END_TEST

START_TEST (beyond_the_drawing_the_land_is_cut)
{
  const Part *parts[] = { square (KIND_WATER, 500) };
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ -50, -50, 50, 50 };
  g_autoptr (Hole) hole = hole_new (&info, parts, 1, NULL);
  hole_info_clear (&info);
  RenderView view = plain_view ();
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  unsigned beyond = pixel (surface, WIDTH / 2 - 60, HEIGHT / 2);
  ck_assert_uint_eq (beyond, pixel (surface, WIDTH / 2 + 90, HEIGHT / 2 + 70));
  ck_assert (!is_near (beyond, opaque (render_kind_wash (KIND_WATER)), 8));
  ck_assert_int_gt (count_near (surface, opaque (render_kind_wash (KIND_WATER)), 1), 5000);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (the_stakes_colour_the_edge_of_a_penalty_area)
{
  Part *yellow = new_square (KIND_PENALTY_AREA, HALF_M);
  yellow->stakes = STAKES_YELLOW;
  yellow->stakes_given = true;
  g_autoptr (Hole) hole = hole_of (square (KIND_PENALTY_AREA, HALF_M), NULL, NULL);
  g_autoptr (Hole) other = hole_of (part_seal (yellow), NULL, NULL);
  g_autoptr (Hole) lone = hole_of (square (KIND_WATER, HALF_M), NULL, NULL);
  g_autoptr (Hole) inner = hole_of (square (KIND_PENALTY_AREA, HALF_M), square (KIND_WATER, HALF_M - 20), NULL);
  RenderView view = plain_view ();
  view.unit_px = 2;
  /* The Rules' red and yellow as this program inks them. */
  unsigned red = 0xffc62f2fu, gold = 0xffe0b400u;
  cairo_surface_t *pictures[] = { picture_of (hole, &view, PAINT_COLOUR), picture_of (other, &view, PAINT_COLOUR),
                                  picture_of (lone, &view, PAINT_COLOUR), picture_of (inner, &view, PAINT_COLOUR) };
  ck_assert_int_gt (count_near (pictures[0], red, 2), 100);
  ck_assert_int_eq (count_near (pictures[0], gold, 2), 0);
  ck_assert_int_gt (count_near (pictures[1], gold, 2), 100);
  ck_assert_int_eq (count_near (pictures[1], red, 2), 0);
  ck_assert_int_gt (count_near (pictures[2], red, 2), 100);
  /* Water inside a penalty area has a plain edge: no more red than the penalty area's own. */
  ck_assert_int_eq (count_near (pictures[3], red, 2), count_near (pictures[0], red, 2));
  for (int i = 0; i < 4; i++)
    cairo_surface_destroy (pictures[i]);
}
END_TEST

START_TEST (red_and_yellow_stakes_differ_without_colour)
{
  Part *yellow = new_square (KIND_PENALTY_AREA, HALF_M);
  yellow->stakes = STAKES_YELLOW;
  g_autoptr (Hole) hole = hole_of (square (KIND_PENALTY_AREA, HALF_M), NULL, NULL);
  g_autoptr (Hole) other = hole_of (part_seal (yellow), NULL, NULL);
  RenderView view = plain_view ();
  view.unit_px = 2;
  cairo_surface_t *a = picture_of (hole, &view, PAINT_GREY), *b = picture_of (other, &view, PAINT_GREY);
  int n_off = 0;
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      n_off += !is_near (pixel (a, x, y), pixel (b, x, y), 40);
  ck_assert_int_gt (n_off, 300);
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
}
END_TEST

START_TEST (grey_keeps_the_luminance_and_drops_the_hue)
{
  Kind kind = (Kind)_i;
  if (kind_info (kind)->shape != SHAPE_AREA)
    return;
  g_autoptr (Hole) hole
      = hole_of (square (kind, HALF_M), point (KIND_TREE, vec2 (0, 0)), point (KIND_TEE_MARKER, vec2 (20, 0)));
  RenderView view = plain_view ();
  cairo_surface_t *colour = picture_of (hole, &view, PAINT_COLOUR), *grey = picture_of (hole, &view, PAINT_GREY);
  double light_of_colour = 0, light_of_grey = 0;
  for (int y = 0; y < HEIGHT; y++)
    for (int x = 0; x < WIDTH; x++)
      {
        unsigned p = pixel (grey, x, y);
        ck_assert_msg ((p >> 16 & 0xff) == (p & 0xff) && (p >> 8 & 0xff) == (p & 0xff), "%06x is not grey", p);
        light_of_colour += luminance (pixel (colour, x, y));
        light_of_grey += luminance (p);
      }
  ck_assert_double_eq_tol (light_of_grey / light_of_colour, 1, 0.01);
  cairo_surface_destroy (colour);
  cairo_surface_destroy (grey);
}
END_TEST

START_TEST (the_flag_stands_at_the_hole_in_use)
{
  Part *other = new_point (KIND_HOLE_LOCATION, vec2 (-60, 0)), *today = new_point (KIND_HOLE_LOCATION, vec2 (60, 0));
  today->today = true;
  g_autoptr (Hole) hole = hole_of (part_seal (other), part_seal (today), NULL);
  RenderView view = plain_view ();
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  unsigned ink = opaque (render_kind_wash (KIND_HOLE_LOCATION));
  ck_assert_uint_eq (pixel (surface, WIDTH / 2 + 60, HEIGHT / 2), ink);
  ck_assert_uint_eq (pixel (surface, WIDTH / 2 + 64, HEIGHT / 2 - 16), ink);
  ck_assert (pixel (surface, WIDTH / 2 - 56, HEIGHT / 2 - 16) != ink);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (out_of_bounds_is_posted_in_white)
{
  g_autoptr (Hole) hole = hole_of (square (KIND_OUT_OF_BOUNDS, HALF_M), NULL, NULL);
  RenderView view = plain_view ();
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  int n_white = count_near (surface, 0xffffffffu, 0);
  /* 480 m of boundary, a post every 100 m: four or five posts of some 27 white pixels. */
  ck_assert_int_ge (n_white, 4 * 20);
  ck_assert_int_le (n_white, 5 * 40);
  cairo_surface_destroy (surface);
}
END_TEST

START_TEST (any_zoom_draws_without_harm)
{
  static const double scales[] = { 0, 1e-12, 0.001, 0.2, 200, 1e5, 1e9, INFINITY, NAN, -1 };
  Part *far = new_square (KIND_OUT_OF_BOUNDS, 1e6);
  g_autoptr (Hole) hole = hole_of (part_seal (far), square (KIND_TREES, 100), point (KIND_TREE, vec2 (1, 1)));
  for (size_t i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      RenderView view = plain_view ();
      view.px_per_m = scales[i];
      cairo_surface_destroy (picture_of (hole, &view, PAINT_COLOUR));
    }
}
END_TEST

START_TEST (paper_gets_lines_and_no_bitmaps)
{
  g_autoptr (Hole) hole
      = hole_of (square (KIND_WATER, HALF_M), square (KIND_BUNKER, HALF_M / 2), point (KIND_TREE, vec2 (80, 0)));
  g_autoptr (GString) text = g_string_new (NULL);
  RenderView view = plain_view ();
  cairo_surface_t *surface = cairo_svg_surface_create_for_stream (append_text, text, WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  render_hole (cr, hole, &view, PAINT_COLOUR);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  ck_assert_uint_gt (text->len, 5000);
  ck_assert_ptr_nonnull (strstr (text->str, "<path"));
  ck_assert_ptr_null (strstr (text->str, "<image"));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-drawing");
  TCase *hole = tcase_create ("hole");
  tcase_add_test (hole, an_empty_hole_is_ground);
  tcase_add_test (hole, washes_and_edges_are_those_of_the_survey_sheet);
  tcase_add_loop_test (hole, every_kind_of_area_shows_its_wash, 0, N_KINDS);
  tcase_add_loop_test (hole, trouble_stands_out_from_its_neighbours, 0, N_KINDS);
  tcase_add_test (hole, what_can_hurt_is_hatched);
  tcase_add_loop_test (hole, hatch_moves_with_the_hole, 0, N_KINDS);
  tcase_add_test (hole, a_later_area_lies_on_top);
  tcase_add_test (hole, the_fill_rule_decides_what_is_inside);
  tcase_add_test (hole, nothing_is_drawn_outside_the_view_and_the_context_comes_back);
  tcase_add_test (hole, what_a_clip_shows_is_as_in_the_whole_picture);
  tcase_add_test (hole, a_higher_layer_lies_over_a_lower_one_wherever_the_document_has_it);
  tcase_add_test (hole, beyond_the_drawing_the_land_is_cut);
  tcase_add_test (hole, the_stakes_colour_the_edge_of_a_penalty_area);
  tcase_add_test (hole, red_and_yellow_stakes_differ_without_colour);
  tcase_add_loop_test (hole, grey_keeps_the_luminance_and_drops_the_hue, 0, N_KINDS);
  tcase_add_test (hole, the_flag_stands_at_the_hole_in_use);
  tcase_add_test (hole, out_of_bounds_is_posted_in_white);
  tcase_add_test (hole, any_zoom_draws_without_harm);
  tcase_add_test (hole, paper_gets_lines_and_no_bitmaps);
  suite_add_tcase (suite, hole);
  return suite;
}
