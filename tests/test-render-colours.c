// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * render, to eyes that see colours otherwise: the bands of the map of aims keep their order in grey and for the common kinds of colour blindness, on every ground,
 * and what is written can be read.
 */
#include "pixels.h"
#include "render-labels.h"
#include "suite.h"

/* Text against what it stands on: level AA of WCAG 2.1. */
#define TEXT_CONTRAST 4.5
/* Steps of lightness (CIE 1976 L*, 0..100) that are told apart side by side (common practice; the just noticeable difference is about 1). */
#define LEAST_STEP 3.0

/* ---- how others see ---- */

/*
 * Full loss of one kind of cone, on linear light: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, "A Physiologically-based Model for Simulation of Color
 * Vision Deficiency", IEEE Transactions on Visualization and Computer Graphics 15(6), 2009, severity 1.0; the figures from memory.
 */
typedef struct
{
  const char *name;
  double of[3][3];
} Vision;

static const Vision visions[] = {
  { "usual", { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } },
  { "without red (protanopia)",
    { { 0.152286, 1.052583, -0.204868 }, { 0.114503, 0.786281, 0.099216 }, { -0.003882, -0.048116, 1.051998 } } },
  { "without green (deuteranopia)",
    { { 0.367322, 0.860646, -0.227968 }, { 0.280085, 0.672501, 0.047413 }, { -0.011820, 0.042940, 0.968881 } } },
  { "without blue (tritanopia)",
    { { 1.255528, -0.076749, -0.178779 }, { -0.078411, 0.930809, 0.147602 }, { 0.004733, 0.691367, 0.303900 } } },
};

/* Luminance of an sRGB colour as seen so. */
static double
seen (const Vision *vision, unsigned rgb)
{
  const double linear[3] = { light (rgb >> 16), light (rgb >> 8), light (rgb) };
  static const double weights[3] = { 0.2126, 0.7152, 0.0722 };
  double sum = 0;
  for (int i = 0; i < 3; i++)
    {
      double channel = 0;
      for (int k = 0; k < 3; k++)
        channel += vision->of[i][k] * linear[k];
      sum += weights[i] * CLAMP (channel, 0, 1);
    }
  return sum;
}

/* CIE 1976 lightness of a luminance relative to white: 116 f (Y) - 16. */
static double
lightness (double y)
{
  return 116 * (y > 216.0 / 24389 ? cbrt (y) : (24389.0 / 27 * y + 16) / 116) - 16;
}

static double
contrast (double a, double b)
{
  return (fmax (a, b) + 0.05) / (fmin (a, b) + 0.05);
}

START_TEST (white_and_black_stay_what_they_are_to_everyone)
{
  for (size_t v = 0; v < G_N_ELEMENTS (visions); v++)
    {
      ck_assert_double_eq_tol (seen (&visions[v], 0xffffff), 1, 1e-4);
      ck_assert_double_eq_tol (seen (&visions[v], 0x000000), 0, 1e-9);
    }
  /* Who sees no red sees a red light dark; who sees no green sees it nearly as bright as ever. */
  ck_assert_double_lt (seen (&visions[1], 0xff0000), 0.6 * seen (&visions[0], 0xff0000));
}
END_TEST

/* ---- the map of aims ---- */

#define N_BANDS 6
#define TURNS_A_BAND 10
#define N_TURNS (N_BANDS * TURNS_A_BAND)
#define CARRY_M 240.0
#define FIRST_RAD (PI / 3)
#define LAST_RAD (2 * PI / 3)

/* Costs in the middle of each band of the map, in strokes over the best aim. */
static const double costs[N_BANDS] = { 0.02, 0.07, 0.15, 0.3, 0.6, 1.2 };

/* A fan up the drawing whose bands stand side by side, the dearest on its left. */
static void
make_map (AimMap *map, double *strokes)
{
  *map = (AimMap){ .ball = { 0, -140 },
                   .carry_m = CARRY_M,
                   .first_rad = FIRST_RAD,
                   .turn_step_rad = (LAST_RAD - FIRST_RAD) / (N_TURNS - 1),
                   .first_swing = 0.8,
                   .swing_step = 0.2,
                   .n_turns = N_TURNS,
                   .n_swings = 2,
                   .strokes = strokes,
                   .best = { .aim = { 110, 60 }, .strokes = 4 } };
  for (size_t i = 0; i < 2 * N_TURNS; i++)
    strokes[i] = map->best.strokes + costs[i % N_TURNS / TURNS_A_BAND];
}

/* The map over ground of this kind; `labels` may be NULL. */
static cairo_surface_t *
map_on (Kind ground, PaintInk ink, RenderLabels *labels)
{
  double strokes[2 * N_TURNS];
  AimMap map;
  ShotResult shot = { .ball = { 0, -140 }, .aim = { 0, 100 }, .landing = { 0, 100 } };
  RenderView view = plain_view ();
  make_map (&map, strokes);
  g_autoptr (Hole) hole = hole_of (NULL, NULL, NULL);
  PlanScene scene = { .hole = hole, .shots = &shot, .n_shots = 1, .aims = &map, .ink = ink, .labels = labels };
  cairo_surface_t *surface = canvas (WIDTH, HEIGHT);
  cairo_t *cr = cairo_create (surface);
  Colour wash = render_kind_wash (ground);
  if (ink == PAINT_GREY)
    {
      double y = luminance (opaque (wash)), grey = y <= 0.0031308 ? 12.92 * y : 1.055 * pow (y, 1 / 2.4) - 0.055;
      wash = (Colour){ grey, grey, grey };
    }
  cairo_set_source_rgb (cr, wash.red, wash.green, wash.blue);
  cairo_paint (cr);
  unsigned mask = 0;
  for (int i = 0; overlay_table[i].name != NULL; i++)
    mask |= strcmp (overlay_table[i].name, "aims") == 0 ? 1u << i : 0;
  render_overlays (cr, &scene, &view, mask);
  cairo_destroy (cr);
  return surface;
}

/* The colour of a band, near the ball's end of the fan, clear of numbers and of the mark. */
static unsigned
band_pixel (cairo_surface_t *surface, size_t band)
{
  double turn = FIRST_RAD + (LAST_RAD - FIRST_RAD) * ((double)(band * TURNS_A_BAND) + 4.5) / (N_TURNS - 1);
  double r = 0.82 * CARRY_M;
  return pixel (surface, (int)lround (WIDTH / 2.0 + r * cos (turn)), (int)lround (HEIGHT / 2.0 - (r * sin (turn) - 140)));
}

/* The lightest that is seen on the way from the middle of a band to that of the next. */
static double
lightest_between (cairo_surface_t *surface, size_t band, const Vision *vision)
{
  double lightest = 0, r = 0.82 * CARRY_M;
  for (double part = 0; part <= TURNS_A_BAND; part += 0.02)
    {
      double turn = FIRST_RAD + (LAST_RAD - FIRST_RAD) * ((double)(band * TURNS_A_BAND) + 4.5 + part) / (N_TURNS - 1);
      unsigned rgb
          = pixel (surface, (int)lround (WIDTH / 2.0 + r * cos (turn)), (int)lround (HEIGHT / 2.0 - (r * sin (turn) - 140)));
      lightest = fmax (lightest, lightness (seen (vision, rgb)));
    }
  return lightest;
}

/* Ground that an aim may lie over. */
static const Kind grounds[]
    = { KIND_TEE,   KIND_FAIRWAY, KIND_FIRST_CUT,    KIND_ROUGH, KIND_DEEP_ROUGH, KIND_FRINGE,   KIND_GREEN,        KIND_BUNKER,
        KIND_WASTE, KIND_WATER,   KIND_PENALTY_AREA, KIND_TREES, KIND_PATH,       KIND_BUILDING, KIND_OUT_OF_BOUNDS };

START_TEST (bands_of_the_map_of_aims_keep_their_order_to_every_eye)
{
  const Vision *vision = &visions[_i];
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      cairo_surface_t *surface = map_on (grounds[g], PAINT_COLOUR, NULL);
      for (size_t band = 1; band < N_BANDS; band++)
        {
          double cheap = lightness (seen (vision, band_pixel (surface, band - 1))),
                 dear = lightness (seen (vision, band_pixel (surface, band)));
          ck_assert_msg (cheap - dear >= LEAST_STEP, "%s: on %s band %zu is only %.1f darker than the one before", vision->name,
                         kind_info (grounds[g])->label, band, cheap - dear);
        }
      cairo_surface_destroy (surface);
    }
}
END_TEST

/* Edges of what shows through the bands are dark. */
START_TEST (a_light_line_parts_any_two_bands_to_every_eye_and_in_grey)
{
  const Vision *vision = &visions[_i];
  for (size_t g = 0; g < 2 * G_N_ELEMENTS (grounds); g++)
    {
      Kind ground = grounds[g / 2];
      cairo_surface_t *surface = map_on (ground, g % 2 == 0 ? PAINT_COLOUR : PAINT_GREY, NULL);
      for (size_t band = 0; band + 1 < N_BANDS; band++)
        {
          double cheap = lightness (seen (vision, band_pixel (surface, band))), line = lightest_between (surface, band, vision);
          ck_assert_msg (line - cheap >= LEAST_STEP, "%s: on %s the line after band %zu is only %.1f lighter than it",
                         vision->name, kind_info (ground)->label, band, line - cheap);
        }
      cairo_surface_destroy (surface);
    }
}
END_TEST

START_TEST (bands_of_the_map_of_aims_keep_their_order_in_grey)
{
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      cairo_surface_t *surface = map_on (grounds[g], PAINT_GREY, NULL);
      for (size_t band = 0; band < N_BANDS; band++)
        {
          unsigned rgb = band_pixel (surface, band);
          ck_assert_uint_eq (rgb & 0xff, rgb >> 8 & 0xff);
          ck_assert_uint_eq (rgb & 0xff, rgb >> 16 & 0xff);
          if (band > 0)
            ck_assert_double_ge (lightness (luminance (band_pixel (surface, band - 1))) - lightness (luminance (rgb)),
                                 LEAST_STEP);
        }
      cairo_surface_destroy (surface);
    }
}
END_TEST

/* ---- what is written ---- */

/* Darkest against lightest within the box: the letters and what they stand on, halo or plate. */
static double
contrast_within (cairo_surface_t *surface, Box box, const Vision *vision)
{
  double darkest = 1, lightest = 0;
  for (int y = (int)ceil (box.y0); y < (int)floor (box.y1); y++)
    for (int x = (int)ceil (box.x0); x < (int)floor (box.x1); x++)
      {
        double here = seen (vision, pixel (surface, x, y));
        darkest = fmin (darkest, here);
        lightest = fmax (lightest, here);
      }
  return contrast (darkest, lightest);
}

START_TEST (numbers_of_the_bands_can_be_read_on_every_ground_by_every_eye)
{
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      g_autoptr (RenderLabels) kept = render_labels_new ();
      cairo_surface_t *surface = map_on (grounds[g], PAINT_COLOUR, kept);
      size_t n, n_read = 0;
      const RenderLabel *labels = render_labels_get (kept, &n);
      for (size_t i = 0; i < n; i++)
        {
          if (!labels[i].label.is_placed)
            continue;
          n_read++;
          double stands_out = contrast_within (surface, labels[i].label.box_px, &visions[_i]);
          ck_assert_msg (stands_out >= TEXT_CONTRAST, "%s: \"%s\" on %s stands out %.2f : 1", visions[_i].name, labels[i].text,
                         kind_info (grounds[g])->label, stands_out);
        }
      ck_assert_uint_ge (n_read, 4);
      cairo_surface_destroy (surface);
    }
}
END_TEST

START_TEST (notes_can_be_read_on_every_ground_by_every_eye)
{
  for (size_t g = 0; g < G_N_ELEMENTS (grounds); g++)
    {
      Part *note = new_point (KIND_NOTE, vec2 (0, 0));
      note->text = g_strdup ("mind the step");
      g_autoptr (Hole) hole = hole_of (square (grounds[g], 1000), part_seal (note), NULL);
      RenderView view = plain_view ();
      g_autoptr (GArray) boxes = g_array_new (FALSE, FALSE, sizeof (Box));
      render_hole_words (hole, &view, boxes);
      ck_assert_uint_eq (boxes->len, 1);
      cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
      double stands_out = contrast_within (surface, g_array_index (boxes, Box, 0), &visions[_i]);
      ck_assert_msg (stands_out >= TEXT_CONTRAST, "%s: a note on %s stands out %.2f : 1", visions[_i].name,
                     kind_info (grounds[g])->label, stands_out);
      cairo_surface_destroy (surface);
    }
}
END_TEST

/* ---- edges of trouble ---- */

/* Turf beside which trouble lies. */
static const Kind turfs[] = { KIND_TEE, KIND_FAIRWAY, KIND_FIRST_CUT, KIND_ROUGH, KIND_FRINGE, KIND_GREEN };
/* Contrast of what is no text, level AA of WCAG 2.1. */
#define EDGE_CONTRAST 3.0

/* The best contrast of the edge of a square of `kind` on `turf` against that turf: its darkest line, or its lightest. */
static double
edge_contrast (Kind kind, Kind turf, const Vision *vision)
{
  g_autoptr (Hole) hole = hole_of (square (turf, 1000), square (kind, 10), NULL);
  RenderView view = plain_view ();
  view.px_per_m = 10; /* wider than its antialiasing */
  view.unit_px = 6;
  cairo_surface_t *surface = picture_of (hole, &view, PAINT_COLOUR);
  double ground = seen (vision, opaque (render_kind_wash (turf))), best = 1;
  for (int y = HEIGHT / 2 - 40; y < HEIGHT / 2 + 40; y++)
    for (int x = 100 - 14; x <= 100; x++)
      best = fmax (best, contrast (ground, seen (vision, pixel (surface, x, y))));
  cairo_surface_destroy (surface);
  return best;
}

START_TEST (trouble_stands_out_from_every_turf_to_every_eye)
{
  for (int kind = 0; kind < N_KINDS; kind++)
    for (size_t t = 0; t < G_N_ELEMENTS (turfs); t++)
      {
        const KindInfo *info = kind_info ((Kind)kind);
        if (info->shape != SHAPE_AREA || !info->is_trouble)
          continue;
        double stands_out = edge_contrast ((Kind)kind, turfs[t], &visions[_i]);
        ck_assert_msg (stands_out >= EDGE_CONTRAST, "%s: %s on %s stands out %.2f : 1", visions[_i].name, info->label,
                       kind_info (turfs[t])->label, stands_out);
      }
}
END_TEST

Suite *
suite_make (void)
{
  const int n_visions = (int)G_N_ELEMENTS (visions);
  Suite *suite = suite_create ("render-colours");
  TCase *eyes = tcase_create ("eyes");
  tcase_add_test (eyes, white_and_black_stay_what_they_are_to_everyone);
  suite_add_tcase (suite, eyes);
  TCase *maps = tcase_create ("maps");
  tcase_add_loop_test (maps, bands_of_the_map_of_aims_keep_their_order_to_every_eye, 0, n_visions);
  tcase_add_loop_test (maps, a_light_line_parts_any_two_bands_to_every_eye_and_in_grey, 0, n_visions);
  tcase_add_test (maps, bands_of_the_map_of_aims_keep_their_order_in_grey);
  suite_add_tcase (suite, maps);
  TCase *words = tcase_create ("words");
  tcase_set_timeout (words, 30);
  tcase_add_loop_test (words, numbers_of_the_bands_can_be_read_on_every_ground_by_every_eye, 0, n_visions);
  tcase_add_loop_test (words, notes_can_be_read_on_every_ground_by_every_eye, 0, n_visions);
  suite_add_tcase (suite, words);
  TCase *edges = tcase_create ("edges");
  tcase_set_timeout (edges, 60);
  tcase_add_loop_test (edges, trouble_stands_out_from_every_turf_to_every_eye, 0, n_visions);
  suite_add_tcase (suite, edges);
  return suite;
}
