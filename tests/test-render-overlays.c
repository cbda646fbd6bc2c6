// SPDX-License-Identifier: GPL-3.0-or-later
/* render, overlays of a plan, ruler and clubs as pixels: their bounds, their switches, what they say and where. */
#include "pixels.h"
#include "render-green.h"
#include "suite.h"

#define WIDE 1000
#define HIGH 500
/* Accent of shot, aim and pattern. */
#define ACCENT 0xff8a2f6bu
/* Radius in standard deviations that holds half, and nine in ten, of a circular normal (Rayleigh distribution). */
#define HALF_SDS 1.17741
#define NINE_IN_TEN_SDS 2.14597

static const char bag_text[]
    = "club,carry_m,carry_sd_m,side_sd_m\ndriver,200,12,15\n3 wood,180,9,12\n7 iron,130,6,8\nsand wedge,75,5,5\n";

/* A hole of 330 m: a strip of water across it, sand to the right, a green with its hole; and one shot of a plan. */
typedef struct
{
  Hole *hole;
  Bag *bag;
  ShotResult shots[2];
  CarryTable *carries;
  TreeTable *trees;
  StrokesTable *strokes;
  AimMap *aims;
  Room room;
  OddsPlace places[8];
  PlanMap map;
  Plan plans[3];
  PlanTrack tracks[3];
  PlanGreen green;
  PlanScene scene;
  RenderView view;
} Stage;

static const Part *
box_part (Kind kind, Box box)
{
  Part *part = part_new (kind);
  path_add_rectangle (&part->path, box, 0, 0);
  return part_seal (part);
}

static ShotResult
fly (Stage *stage, Vec2 ball, Vec2 aim, const char *club)
{
  ShotResult shot;
  ShotInput input = { .ball = ball, .aim = aim, .club = bag_find (stage->bag, club), .swing = 1 };
  ck_assert (odds_shot (stage->hole, NULL, &input, &shot, NULL));
  return shot;
}

/* Rings round the hole, a stroke dearer every 60 m, nothing to the right of 100 m: what an engine would hand over. */
#define MAP_CELL_M 1.0
#define MAP_RING_M 60.0

static void
make_map (PlanMap *map)
{
  static const PlanMapPlace places[] = { { { -60, 180 }, 20, 2 }, { { -60, 60 }, 20, 4 } };
  *map = (PlanMap){ .grid = { { -119.5, -29.5 }, MAP_CELL_M, 240, 400 }, .n_bands = 7, .first = 2, .step = 0.5 };
  map->bands = g_new (guint8, 240 * 400);
  for (int row = 0; row < 400; row++)
    for (int column = 0; column < 240; column++)
      {
        Vec2 at = vec2_add (map->grid.origin, vec2 (column * MAP_CELL_M, row * MAP_CELL_M));
        map->bands[row * 240 + column]
            = at.x > 100 ? PLAN_MAP_NONE : (guint8)fmin (vec2_distance (at, vec2 (0, 330)) / MAP_RING_M, 6);
      }
  map->places = g_memdup2 (places, sizeof places);
  map->n_places = G_N_ELEMENTS (places);
}

/* Three plans beside one another, one shot each. */
static void
make_tracks (Stage *stage)
{
  static const Vec2 aims[] = { { 0, 190 }, { -25, 170 }, { 20, 200 } };
  static const char *const clubs[] = { "3 wood", "7 iron", "driver" }, *const names[] = { "suggested", "lay-up", "all-out" };
  for (size_t i = 0; i < G_N_ELEMENTS (aims); i++)
    {
      stage->plans[i].n_shots = 1;
      stage->plans[i].shots[0].shot = fly (stage, vec2 (0, 0), aims[i], clubs[i]);
      stage->tracks[i] = (PlanTrack){ &stage->plans[i], names[i] };
    }
}

/* The scene of the plan's first shot, seen along it. */
static void
set_up (Stage *stage, Vec2 aim, const char *club)
{
  Part *pin = part_new (KIND_HOLE_LOCATION);
  HoleInfo info;
  g_autoptr (GBytes) bytes = g_bytes_new_static (bag_text, strlen (bag_text));

  pin->at = vec2 (0, 330);
  Part *oak = part_new (KIND_TREE);
  oak->at = vec2 (3, 60);
  oak->radius_m = 5;
  oak->height_m = 60;
  const Part *parts[] = { box_part (KIND_PENALTY_AREA, (Box){ -100, 210, 100, 235 }),
                          box_part (KIND_WATER, (Box){ -100, 214, 100, 231 }),
                          box_part (KIND_BUNKER, (Box){ 15, 165, 30, 190 }),
                          box_part (KIND_GREEN, (Box){ -12, 315, 12, 345 }),
                          part_seal (pin),
                          part_seal (oak) };
  memset (stage, 0, sizeof *stage);
  hole_info_init (&info);
  info.view_box = (Box){ -120, -30, 120, 370 };
  stage->hole = hole_new (&info, parts, G_N_ELEMENTS (parts), NULL);
  hole_info_clear (&info);
  stage->bag = bag_read_bytes (bytes, "bag.csv", LEVEL_SCRATCH_MEN, NULL);
  ck_assert_ptr_nonnull (stage->bag);
  stage->shots[0] = fly (stage, vec2 (0, 0), aim, club);
  stage->shots[1] = fly (stage, stage->shots[0].landing, vec2 (0, 330), "7 iron");
  stage->carries = carry_table_new (stage->hole, &stage->shots[0]);
  stage->trees = tree_table_new (stage->hole, &stage->shots[0]);
  stage->strokes = strokes_table_new (LEVEL_SCRATCH_MEN);
  PlanInput from_tee = { .hole = stage->hole, .table = stage->strokes };
  stage->aims = aim_map_new (&from_tee, stage->shots[0].club, NULL);
  ck_assert_ptr_nonnull (stage->aims);
  g_autoptr (OddsTable) odds = odds_table_new (stage->hole, &stage->shots[0], NULL);
  ck_assert (odds != NULL && odds_room (stage->hole, &stage->shots[0], &stage->room, NULL));
  make_map (&stage->map);
  make_tracks (stage);
  stage->scene = (PlanScene){ .hole = stage->hole,
                              .shots = stage->shots,
                              .n_shots = 2,
                              .carries = stage->carries,
                              .trees = stage->trees,
                              .aims = stage->aims,
                              .room = &stage->room,
                              .places = stage->places,
                              .map = &stage->map,
                              .tracks = stage->tracks,
                              .n_tracks = 3 };
  stage->scene.n_places = odds_places (stage->hole, &stage->shots[0], odds, stage->places, G_N_ELEMENTS (stage->places));
  stage->view = (RenderView){ .width_px = WIDE, .height_px = HIGH, .unit_px = 1, .px_per_m = 1, .units = UNIT_METRES };
  view_along_shot (&stage->view, stage->shots[0].ball, stage->shots[0].aim, 360, 70, 30);
}

static void
tear_down (Stage *stage)
{
  carry_table_free (stage->carries);
  tree_table_free (stage->trees);
  aim_map_unref (stage->aims);
  g_free (stage->map.bands);
  g_free (stage->map.places);
  strokes_table_free (stage->strokes);
  bag_unref (stage->bag);
  hole_unref (stage->hole);
}

/* The accent, but for rounding. */
static bool
is_accent (unsigned value)
{
  return value >> 24 > 0xfa && is_near (value, ACCENT, 4);
}

/* Bounds of the overlays, painted to no purpose. */
static Box
bounds_of (const Stage *stage, unsigned mask)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  Box bounds = render_overlays (cr, &stage->scene, &stage->view, mask);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return bounds;
}

/* Overlays alone, on nothing, on a surface larger than the drawing. */
static cairo_surface_t *
overlays_of (const Stage *stage, unsigned mask)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE + 50, HIGH + 50);
  cairo_t *cr = cairo_create (surface);
  render_overlays (cr, &stage->scene, &stage->view, mask);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  ck_assert (!cairo_has_current_point (cr));
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static unsigned
bit_of (const char *name)
{
  for (int i = 0; overlay_table[i].name; i++)
    if (strcmp (overlay_table[i].name, name) == 0)
      return 1u << i;
  ck_abort_msg ("no overlay is called %s", name);
  return 0;
}

/* The first three keep everything inside the drawing; the others have the hole outside it. */
#define N_INSIDE 3
static const Vec2 aims[] = { { 0, 200 }, { 30, 190 }, { 2, 330 }, { -60, 100 }, { 150, 20 } };

/* ---- bounds and switches ---- */

/* None, all, each alone, each two together: labels of two overlays may push each other about, and a third changes nothing about that. */
static GArray *
masks_to_try (void)
{
  GArray *masks = g_array_new (FALSE, FALSE, sizeof (unsigned));
  unsigned all = 0, none = 0;
  g_array_append_val (masks, none);
  for (int i = 0; overlay_table[i].name; i++)
    for (int k = 0; k <= i; k++)
      {
        unsigned mask = 1u << i | 1u << k;
        all |= mask;
        g_array_append_val (masks, mask);
      }
  g_array_append_val (masks, all);
  return masks;
}

START_TEST (bounds_hold_the_ink_and_little_more)
{
  Stage stage;
  g_autoptr (GArray) masks = masks_to_try ();
  set_up (&stage, aims[_i], "driver");
  for (guint i = 0; i < masks->len; i++)
    {
      unsigned mask = g_array_index (masks, unsigned, i);
      Box bounds = bounds_of (&stage, mask);
      cairo_surface_t *surface = overlays_of (&stage, mask);
      Box ink = ink_box (surface);
      cairo_surface_destroy (surface);
      if (box_is_empty (ink))
        continue;
      ck_assert (bounds.x0 <= ink.x0 && bounds.y0 <= ink.y0 && bounds.x1 >= ink.x1 && bounds.y1 >= ink.y1);
      if (_i >= N_INSIDE)
        continue;
      /* A line's bounds know its width but not its ends; letters have side bearings. */
      ck_assert (bounds.x0 >= ink.x0 - 6 && bounds.y0 >= ink.y0 - 6 && bounds.x1 <= ink.x1 + 6 && bounds.y1 <= ink.y1 + 6);
    }
  tear_down (&stage);
}
END_TEST

START_TEST (nothing_is_drawn_outside_the_drawing)
{
  Stage stage;
  set_up (&stage, aims[_i], "driver");
  view_zoom (&stage.view, 5, vec2 (700, 250));
  cairo_surface_t *surface = overlays_of (&stage, overlay_default_mask ());
  Box ink = ink_box (surface);
  ck_assert (ink.x0 >= 0 && ink.y0 >= 0 && ink.x1 <= WIDE && ink.y1 <= HIGH);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

/* The overlays over grey, so fine as `scale` says, through a recording if told. */
static cairo_surface_t *
kept_overlays_of (const Stage *stage, RenderWords *words, int scale, bool is_recorded)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, scale * WIDE, scale * HIGH);
  cairo_surface_set_device_scale (surface, scale, scale);
  cairo_surface_t *record = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  PlanScene scene = stage->scene;
  scene.words = words;
  cairo_t *cr = cairo_create (surface);
  cairo_set_source_rgb (cr, 0.5, 0.5, 0.5);
  cairo_paint (cr);
  cairo_t *recorder = cairo_create (record);
  render_overlays (is_recorded ? recorder : cr, &scene, &stage->view, overlay_default_mask ());
  cairo_destroy (recorder);
  cairo_set_source_surface (cr, record, 0, 0);
  cairo_paint (cr);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  cairo_surface_destroy (record);
  return surface;
}

/* Farthest apart that two pictures of the same size are in any byte, and how many bytes differ by more than a rounding error. */
static int
farthest_apart (cairo_surface_t *a, cairo_surface_t *b, size_t *n_apart)
{
  const unsigned char *p = cairo_image_surface_get_data (a), *q = cairo_image_surface_get_data (b);
  size_t n_bytes = (size_t)cairo_image_surface_get_stride (a) * (size_t)cairo_image_surface_get_height (a);
  int farthest = 0;
  *n_apart = 0;
  for (size_t i = 0; i < n_bytes; i++)
    {
      farthest = MAX (farthest, abs (p[i] - q[i]));
      *n_apart += abs (p[i] - q[i]) > 2;
    }
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  return farthest;
}

/* A word is moved by an eighth of a pixel at most, across and down, which changes the edge of a letter by a quarter of full black. */
#define MOST_APART 64

START_TEST (kept_words_give_the_same_picture)
{
  RenderWords *words = render_words_new ();
  size_t n_apart;
  for (size_t i = 0; i < G_N_ELEMENTS (aims); i++)
    for (int scale = 1; scale <= 2; scale++)
      {
        Stage stage;
        set_up (&stage, aims[i], "driver");
        cairo_surface_t *kept = kept_overlays_of (&stage, words, scale, false);
        ck_assert_int_le (farthest_apart (kept, kept_overlays_of (&stage, NULL, scale, false), &n_apart), MOST_APART);
        ck_assert_uint_gt (n_apart, 0); /* they were kept words indeed */
        cairo_surface_t *again = kept_overlays_of (&stage, words, scale, false);
        ck_assert_int_eq (farthest_apart (again, kept_overlays_of (&stage, words, scale, false), &n_apart), 0);
        tear_down (&stage);
      }
  render_words_free (words);
}
END_TEST

START_TEST (what_stays_and_what_is_live_make_the_whole_picture)
{
  size_t n_inked = 0;
  for (size_t i = 0; i < G_N_ELEMENTS (aims); i++)
    {
      Stage stage;
      size_t n_apart;
      set_up (&stage, aims[i], "driver");
      cairo_surface_t *parts = overlays_of (&stage, 0);
      cairo_t *cr = cairo_create (parts);
      n_inked += !box_is_empty (render_still_overlays (cr, &stage.scene, &stage.view, ~0u));
      render_live_overlays (cr, &stage.scene, &stage.view, ~0u);
      cairo_destroy (cr);
      cairo_surface_flush (parts);
      ck_assert_int_eq (farthest_apart (parts, overlays_of (&stage, ~0u), &n_apart), 0);
      tear_down (&stage);
    }
  ck_assert_uint_gt (n_inked, 0); /* not every aim has the map in view */
}
END_TEST

START_TEST (a_recording_gets_its_letters_as_ever)
{
  Stage stage;
  size_t n_apart;
  set_up (&stage, aims[1], "driver");
  RenderWords *words = render_words_new ();
  cairo_surface_t *kept = kept_overlays_of (&stage, words, 1, true);
  ck_assert_int_eq (farthest_apart (kept, kept_overlays_of (&stage, NULL, 1, true), &n_apart), 0);
  render_words_free (words);
  tear_down (&stage);
}
END_TEST

START_TEST (words_are_kept_however_many_there_are)
{
  Stage stage;
  size_t n_apart;
  RenderWords *words = render_words_new ();
  for (int i = 0; i < 150; i++)
    {
      set_up (&stage, vec2 (i - 75, 90 + 2 * i), "driver");
      cairo_surface_destroy (kept_overlays_of (&stage, words, 1, false));
      tear_down (&stage);
    }
  set_up (&stage, aims[0], "driver");
  cairo_surface_t *kept = kept_overlays_of (&stage, words, 1, false);
  ck_assert_int_le (farthest_apart (kept, kept_overlays_of (&stage, NULL, 1, false), &n_apart), MOST_APART);
  tear_down (&stage);
  render_words_free (words);
}
END_TEST

START_TEST (an_aim_that_costs_more_is_darker_on_the_map_of_aims)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("aims"));
  const AimMap *map = stage.aims;
  /* Off the numbers and the mark: the first and the last band along one row, by what the map says they cost. */
  double low = INFINITY, high = -INFINITY;
  unsigned light = 0, dark = 0;
  for (size_t t = 1; t + 1 < map->n_turns; t++)
    {
      double direction = map->first_rad + (double)t * map->turn_step_rad, swing = map->first_swing + 0.3 * map->swing_step;
      Vec2 aim = vec2_scale (vec2 (cos (direction), sin (direction)), swing * map->carry_m), at = view_point (&stage.view, aim);
      if (!(at.x > 1 && at.x < WIDE - 1 && at.y > 1 && at.y < HIGH - 1))
        continue;
      double strokes = aim_map_strokes (map, aim);
      if (strokes < low)
        low = strokes, light = pixel (surface, (int)at.x, (int)at.y);
      if (strokes > high)
        high = strokes, dark = pixel (surface, (int)at.x, (int)at.y);
    }
  ck_assert_double_gt (high, low + 0.15);
  ck_assert_uint_ne (light, 0);
  /* Premultiplied alike: green tells lightness best. */
  ck_assert_uint_gt ((light >> 8) & 0xff, ((dark >> 8) & 0xff) + 20);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (the_picture_of_a_map_of_aims_is_a_png)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  g_autoptr (GBytes) bytes = render_aims_png (&stage.scene, UNIT_YARDS, 300, NULL);
  ck_assert_ptr_nonnull (bytes);
  ck_assert_uint_gt (g_bytes_get_size (bytes), 1000);
  ck_assert (memcmp (g_bytes_get_data (bytes, NULL), "\x89PNG", 4) == 0);
  tear_down (&stage);
}
END_TEST

/* As if the green were looked at by itself: else its overlay draws nothing. */
static void
view_green (Stage *stage)
{
  ck_assert (odds_green_play (stage->hole, NULL, &stage->shots[0], NULL, 0, &stage->green.play));
  stage->scene.green = &stage->green;
}

START_TEST (every_overlay_has_its_own_switch)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  stage.shots[0].start = vec2_unit (vec2 (-20, 200)); /* it curves */
  view_green (&stage);
  cairo_surface_t *none = overlays_of (&stage, 0);
  ck_assert (box_is_empty (ink_box (none)));
  ck_assert (box_is_empty (bounds_of (&stage, 0)));
  cairo_surface_destroy (none);
  for (int i = 0; overlay_table[i].name; i++)
    {
      cairo_surface_t *surface = overlays_of (&stage, 1u << i);
      ck_assert_msg (!box_is_empty (ink_box (surface)), "%s draws nothing", overlay_table[i].name);
      ck_assert (overlay_table[i].label != NULL && *overlay_table[i].label != '\0');
      ck_assert (((overlay_default_mask () >> i) & 1) == (unsigned)overlay_table[i].is_default);
      cairo_surface_destroy (surface);
    }
  tear_down (&stage);
}
END_TEST

START_TEST (the_map_of_strokes_is_darker_where_it_is_dearer_and_leaves_out_where_no_ball_is_played_from)
{
  Stage stage;
  set_up (&stage, aims[0], "driver");
  view_fit (&stage.view, (Box){ -120, -30, 120, 370 }, 0);
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("strokes"));
  unsigned lighter = 0xff;
  for (int ring = 0; ring < 6; ring++)
    {
      Vec2 at = view_point (&stage.view, vec2 (-30, 330 - 60 * ring - 20));
      unsigned value = pixel (surface, (int)at.x, (int)at.y);
      unsigned green = value >> 8 & 0xff;
      ck_assert_uint_gt (value >> 24, 0x60);
      ck_assert_msg (green < lighter, "ring %d is not darker: %x", ring, value);
      lighter = green;
    }
  Vec2 beyond = view_point (&stage.view, vec2 (110, 200));
  ck_assert_uint_eq (pixel (surface, (int)beyond.x, (int)beyond.y), 0);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

/* Runs of ink along a line, and the gaps between them. */
static int
gaps_in_swatch (size_t track)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, 60, 12);
  cairo_t *cr = cairo_create (surface);
  render_track_swatch (cr, track, 60, 12, 1);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  int n_gaps = 0;
  for (int x = 4; x < 56; x++)
    n_gaps += pixel (surface, x - 1, 6) >> 24 > 0x80 && pixel (surface, x, 6) >> 24 <= 0x80;
  cairo_surface_destroy (surface);
  return n_gaps;
}

START_TEST (compared_plans_are_told_apart_without_colour)
{
  ck_assert_int_eq (gaps_in_swatch (0), 0);
  ck_assert_int_gt (gaps_in_swatch (1), 2);
  ck_assert_int_gt (gaps_in_swatch (2), gaps_in_swatch (1));
  Stage stage;
  set_up (&stage, aims[0], "driver");
  cairo_surface_t *three = overlays_of (&stage, bit_of ("plans"));
  stage.scene.n_tracks = 1;
  cairo_surface_t *one = overlays_of (&stage, bit_of ("plans"));
  size_t n_apart;
  ck_assert_int_gt (farthest_apart (three, one, &n_apart), 0);
  ck_assert_uint_gt (n_apart, 1000);
  stage.scene.n_tracks = 0;
  ck_assert (box_is_empty (bounds_of (&stage, bit_of ("plans"))));
  tear_down (&stage);
}
END_TEST

START_TEST (the_map_of_strokes_stays_while_its_numbers_are_placed_with_the_others)
{
  Stage stage;
  set_up (&stage, aims[0], "driver");
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, HIGH);
  cairo_t *cr = cairo_create (surface);
  Box still = render_still_overlays (cr, &stage.scene, &stage.view, bit_of ("strokes"));
  Box live = render_live_overlays (cr, &stage.scene, &stage.view, bit_of ("strokes"));
  ck_assert (!box_is_empty (live));
  ck_assert_double_gt (still.x1 - still.x0, live.x1 - live.x0);
  stage.scene.map = NULL;
  ck_assert (box_is_empty (bounds_of (&stage, bit_of ("strokes"))));
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (the_same_scene_gives_the_same_picture)
{
  Stage stage;
  set_up (&stage, vec2 (10, 200), "driver");
  cairo_surface_t *a = overlays_of (&stage, overlay_default_mask ()), *b = overlays_of (&stage, overlay_default_mask ());
  ck_assert_mem_eq (cairo_image_surface_get_data (a), cairo_image_surface_get_data (b),
                    (size_t)cairo_image_surface_get_stride (a) * (HIGH + 50));
  cairo_surface_destroy (a);
  cairo_surface_destroy (b);
  tear_down (&stage);
}
END_TEST

/* ---- what they show ---- */

START_TEST (contours_hold_half_the_balls_and_nine_in_ten)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("pattern"));
  Box ink = ink_box (surface);
  double scale = stage.view.px_per_m;
  /* The outer contour, half its line of 1.2 px outside; a pixel of antialiasing. */
  double half_long = NINE_IN_TEN_SDS * 12 * scale + 0.6, half_side = NINE_IN_TEN_SDS * 15 * scale + 0.6;
  ck_assert_double_eq_tol ((ink.x1 - ink.x0) / 2, half_long, 1);
  ck_assert_double_eq_tol ((ink.y1 - ink.y0) / 2, half_side, 1);
  /* The inner one crosses the shot line at +-1.177 sd. */
  Vec2 landing = view_point (&stage.view, stage.shots[0].landing);
  int x = (int)floor (landing.x + HALF_SDS * 12 * scale), y = (int)floor (landing.y);
  bool is_crossed = false;
  for (int dx = -1; dx <= 1; dx++)
    is_crossed |= is_accent (pixel (surface, x + dx, y));
  ck_assert (is_crossed);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (long_going_right_tilts_the_pattern_to_the_right)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  stage.shots[0].pattern.correlation = 0.8;
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("pattern"));
  Vec2 landing = view_point (&stage.view, stage.shots[0].landing);
  int d = (int)(1.3 * 12 * stage.view.px_per_m);
  /* Along the shot is +x, its right +y. */
  ck_assert_uint_gt (pixel (surface, (int)landing.x + d, (int)landing.y + d) >> 24, 0);
  ck_assert_uint_eq (pixel (surface, (int)landing.x + d, (int)landing.y - d) >> 24, 0);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (the_shot_runs_to_its_landing_and_the_handle_is_at_the_aim)
{
  Stage stage;
  /* A 3 wood of 180 m aimed 220 m out: it lands short of the aim. */
  set_up (&stage, vec2 (0, 220), "3 wood");
  stage.scene.n_shots = 1;
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("shot"));
  Vec2 landing = view_point (&stage.view, stage.shots[0].landing), aim = view_point (&stage.view, vec2 (0, 220));
  int y = (int)floor (aim.y);
  ck_assert (is_accent (pixel (surface, (int)(landing.x / 2), y)));
  /* The ring of the handle, 9 px round the aim, on the diagonal where no cross hair is. */
  int ring = (int)lround (9 * sqrt (0.5));
  ck_assert (is_accent (pixel (surface, (int)floor (aim.x) + ring, y + ring)));
  ck_assert_uint_gt (pixel (surface, (int)aim.x + 3, y + 3) >> 24, 0);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (trouble_on_the_line_is_bracketed_at_reach_and_carry)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("carries"));
  /* The bracket's legs drop from the line at 210 m and 235 m; the water inside has none of its own, at 214 m. */
  int y = (int)view_point (&stage.view, vec2 (0, 0)).y + 10;
  double at[] = { 210, 235, 214 };
  for (int i = 0; i < 3; i++)
    {
      int x = (int)floor (view_point (&stage.view, vec2 (0, at[i])).x);
      unsigned alpha = 0;
      for (int dx = -1; dx <= 1; dx++)
        alpha = MAX (alpha, pixel (surface, x + dx, y) >> 24);
      ck_assert_msg (i < 2 ? alpha > 200 : alpha == 0, "at %g m the ink's alpha is %u", at[i], alpha);
    }
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (trouble_beside_the_line_has_a_dimension_line_to_it)
{
  Stage stage;
  /* 180 m with the 3 wood: the bunker 15 m right is within 2.5 x 12 m. */
  set_up (&stage, vec2 (0, 200), "3 wood");
  size_t n_beside = 0;
  for (size_t i = 0; i < stage.carries->n_rows; i++)
    n_beside += stage.carries->rows[i].side == SIDE_RIGHT;
  ck_assert_uint_ge (n_beside, 1);
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("carries"));
  /* 12 m right of the line, somewhere along the bunker, a line stands; 18 m right, none does. */
  int y = (int)view_point (&stage.view, vec2 (12, 0)).y, beyond = (int)view_point (&stage.view, vec2 (18, 0)).y;
  int from = (int)view_point (&stage.view, vec2 (0, 160)).x, to = (int)view_point (&stage.view, vec2 (0, 195)).x, n_on = 0,
      n_beyond = 0;
  for (int x = from; x < to; x++)
    {
      n_on += pixel (surface, x, y) >> 24 > 200;
      n_beyond += pixel (surface, x, beyond) >> 24 > 0;
    }
  ck_assert_int_ge (n_on, 1);
  ck_assert_int_eq (n_beyond, 0);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (brackets_of_the_room_end_where_it_ends)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  stage.room = (Room){ .left_m = 34, .right_m = 22, .short_m = 15, .long_m = ROOM_MOST_M };
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("room"));
  Vec2 landing = view_point (&stage.view, stage.shots[0].landing);
  double scale = stage.view.px_per_m;
  /* 7 px off the contour of nine in ten on the ball's side and on the right; along the shot is +x, its right +y. */
  int x = (int)lround (landing.x - NINE_IN_TEN_SDS * 12 * scale - 7),
      y = (int)lround (landing.y + NINE_IN_TEN_SDS * 15 * scale + 7);
  int left = (int)lround (landing.y - 34 * scale), right = (int)lround (landing.y + 22 * scale),
      shorter = (int)lround (landing.x - 15 * scale), longer = (int)lround (landing.x + ROOM_MOST_M * scale);
  ck_assert (is_accent (pixel (surface, x, left + 4)) || is_accent (pixel (surface, x - 1, left + 4)));
  ck_assert (is_accent (pixel (surface, x + 5, left)) || is_accent (pixel (surface, x + 5, left - 1)));
  ck_assert (is_accent (pixel (surface, x + 5, right)) || is_accent (pixel (surface, x + 5, right - 1)));
  ck_assert (is_accent (pixel (surface, shorter, y - 5)) || is_accent (pixel (surface, shorter - 1, y - 5)));
  /* Nothing is known to end it long: no tick. */
  ck_assert (is_accent (pixel (surface, longer - 3, y)) || is_accent (pixel (surface, longer - 3, y - 1)));
  ck_assert (!is_accent (pixel (surface, longer, y - 5)) && !is_accent (pixel (surface, longer - 1, y - 5)));
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (where_there_is_no_room_a_label_says_so_and_no_bracket_is_drawn)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  stage.room = (Room){ .left_m = NAN, .right_m = NAN, .short_m = NAN, .long_m = NAN, .trouble = 0.3 };
  Box with = bounds_of (&stage, bit_of ("room"));
  ck_assert (with.x1 - with.x0 < 140 && with.y1 - with.y0 < 60);
  stage.scene.room = NULL;
  ck_assert (box_is_empty (bounds_of (&stage, bit_of ("room"))));
  tear_down (&stage);
}
END_TEST

START_TEST (odds_are_written_at_the_places_found_for_them)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  ck_assert_uint_ge (stage.scene.n_places, 2);
  cairo_surface_t *surface = overlays_of (&stage, bit_of ("odds"));
  for (size_t i = 0; i < stage.scene.n_places; i++)
    {
      Vec2 at = view_point (&stage.view, stage.places[i].at);
      ck_assert_uint_gt (pixel (surface, (int)(at.x + 2.4), (int)at.y) >> 24, 0);
    }
  cairo_surface_destroy (surface);
  stage.scene.n_places = 0;
  ck_assert (box_is_empty (bounds_of (&stage, bit_of ("odds"))));
  tear_down (&stage);
}
END_TEST

START_TEST (a_grey_scene_is_grey)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  stage.scene.ink = PAINT_GREY;
  cairo_surface_t *surface = overlays_of (&stage, overlay_default_mask ());
  for (int y = 0; y < HIGH; y++)
    for (int x = 0; x < WIDE; x++)
      {
        unsigned p = pixel (surface, x, y);
        ck_assert_msg (abs ((int)(p >> 16 & 0xff) - (int)(p & 0xff)) <= 1, "%08x is not grey", p);
      }
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

/* ---- edges ---- */

START_TEST (scenes_with_little_in_them_draw_without_harm)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  PlanScene full = stage.scene;

  stage.scene.carries = NULL;
  cairo_surface_destroy (overlays_of (&stage, overlay_default_mask ()));
  stage.scene = full;
  stage.scene.n_shots = 0;
  ck_assert (box_is_empty (bounds_of (&stage, overlay_default_mask ())));
  stage.scene = full;
  stage.scene.current = 7;
  ck_assert (box_is_empty (bounds_of (&stage, overlay_default_mask ())));
  stage.scene = full;
  stage.shots[0].left_m = NAN;
  stage.shots[0].pattern.long_sd_m = 0;
  cairo_surface_destroy (overlays_of (&stage, overlay_default_mask ()));
  tear_down (&stage);
}
END_TEST

START_TEST (any_zoom_draws_overlays_without_harm)
{
  static const double scales[] = { 0, 1e-12, 0.01, 0.2, 200, 1e6, 1e12, INFINITY, NAN };
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  for (size_t i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      stage.view.px_per_m = scales[i];
      cairo_surface_destroy (overlays_of (&stage, overlay_default_mask ()));
      RenderAxis axis = axis_of_view (&stage.view, vec2 (0, 0));
      cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, 200);
      cairo_t *cr = cairo_create (surface);
      render_ruler (cr, &axis, &stage.scene, 26);
      render_clubs (cr, &axis, &stage.scene, stage.bag, NULL, 150);
      render_scale_bar (cr, &stage.view, 10, 10);
      cairo_destroy (cr);
      cairo_surface_destroy (surface);
    }
  tear_down (&stage);
}
END_TEST

/* ---- ruler and clubs ---- */

typedef void (*StripPainter) (cairo_t *cr, const RenderAxis *axis, const Stage *stage);

static void
paint_ruler (cairo_t *cr, const RenderAxis *axis, const Stage *stage)
{
  render_ruler (cr, axis, &stage->scene, 100);
}

static void
paint_clubs (cairo_t *cr, const RenderAxis *axis, const Stage *stage)
{
  render_clubs (cr, axis, &stage->scene, stage->bag, stage->shots[0].club, 100);
}

static const StripPainter strips[] = { paint_ruler, paint_clubs };

static cairo_surface_t *
strip_of (const Stage *stage, int strip, bool is_dark)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, WIDE, 120);
  cairo_t *cr = cairo_create (surface);
  RenderAxis axis = axis_of_view (&stage->view, stage->shots[0].ball);
  axis.is_dark = is_dark;
  strips[strip](cr, &axis, stage);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

START_TEST (trouble_drops_through_ruler_and_clubs_in_its_own_column)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  for (int strip = 0; strip < 2; strip++)
    {
      cairo_surface_t *surface = strip_of (&stage, strip, false);
      /* Low in the strip no tick, bar or number stands. */
      int y = 97, before = (int)view_point (&stage.view, vec2 (0, 208)).x,
          inside = (int)view_point (&stage.view, vec2 (0, 212)).x;
      int beyond = (int)view_point (&stage.view, vec2 (0, 237)).x;
      ck_assert_uint_ne (pixel (surface, before, y), pixel (surface, inside, y));
      ck_assert_uint_eq (pixel (surface, before, y), pixel (surface, beyond, y));
      cairo_surface_destroy (surface);
    }
  tear_down (&stage);
}
END_TEST

START_TEST (names_can_be_read_on_the_columns)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  cairo_surface_t *surface = strip_of (&stage, 1, false);
  /* Water in a penalty area, the darkest column; the chosen club's name is written in the accent. 4.5:1 is level AA of WCAG 2.1. */
  double column = luminance (pixel (surface, (int)view_point (&stage.view, vec2 (0, 222)).x, 97));
  ck_assert_double_ge ((column + 0.05) / (luminance (ACCENT) + 0.05), 4.5);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

START_TEST (strips_keep_to_their_height_and_know_the_dark)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  for (int strip = 0; strip < 2; strip++)
    {
      cairo_surface_t *light = strip_of (&stage, strip, false), *dark = strip_of (&stage, strip, true);
      Box ink = ink_box (light);
      ck_assert (ink.x0 == 0 && ink.y0 == 0 && ink.x1 == WIDE && ink.y1 == 100);
      ck_assert_uint_gt (pixel (light, 3, 60) & 0xff, 0xc0);
      ck_assert_uint_lt (pixel (dark, 3, 60) & 0xff, 0x60);
      cairo_surface_destroy (light);
      cairo_surface_destroy (dark);
    }
  tear_down (&stage);
}
END_TEST

START_TEST (the_chosen_club_wears_the_accent)
{
  Stage stage;
  set_up (&stage, vec2 (0, 200), "driver");
  cairo_surface_t *surface = strip_of (&stage, 1, false);
  RenderAxis axis = axis_of_view (&stage.view, stage.shots[0].ball);
  int x = (int)view_point (&stage.view, vec2 (0, 194)).x, n_accent = 0;
  for (int y = 0; y < 100; y++)
    if (is_accent (pixel (surface, x, y)))
      {
        n_accent++;
        ck_assert_str_eq (bag_club (stage.bag, (size_t)render_clubs_pick (&axis, stage.bag, NULL, 100, vec2 (x, y)))->name,
                          "driver");
      }
  ck_assert_int_ge (n_accent, 10);
  cairo_surface_destroy (surface);
  tear_down (&stage);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-overlays");
  TCase *bounds = tcase_create ("bounds"), *content = tcase_create ("content"), *strip = tcase_create ("strips");
  tcase_add_loop_test (bounds, bounds_hold_the_ink_and_little_more, 0, G_N_ELEMENTS (aims));
  tcase_add_loop_test (bounds, nothing_is_drawn_outside_the_drawing, 0, G_N_ELEMENTS (aims));
  tcase_add_test (bounds, kept_words_give_the_same_picture);
  tcase_add_test (bounds, what_stays_and_what_is_live_make_the_whole_picture);
  tcase_add_test (bounds, a_recording_gets_its_letters_as_ever);
  tcase_add_test (bounds, words_are_kept_however_many_there_are);
  tcase_add_test (bounds, every_overlay_has_its_own_switch);
  tcase_add_test (bounds, an_aim_that_costs_more_is_darker_on_the_map_of_aims);
  tcase_add_test (bounds, the_picture_of_a_map_of_aims_is_a_png);
  tcase_add_test (bounds, the_map_of_strokes_is_darker_where_it_is_dearer_and_leaves_out_where_no_ball_is_played_from);
  tcase_add_test (bounds, compared_plans_are_told_apart_without_colour);
  tcase_add_test (bounds, the_map_of_strokes_stays_while_its_numbers_are_placed_with_the_others);
  tcase_add_test (bounds, the_same_scene_gives_the_same_picture);
  tcase_add_test (content, contours_hold_half_the_balls_and_nine_in_ten);
  tcase_add_test (content, long_going_right_tilts_the_pattern_to_the_right);
  tcase_add_test (content, the_shot_runs_to_its_landing_and_the_handle_is_at_the_aim);
  tcase_add_test (content, trouble_on_the_line_is_bracketed_at_reach_and_carry);
  tcase_add_test (content, trouble_beside_the_line_has_a_dimension_line_to_it);
  tcase_add_test (content, brackets_of_the_room_end_where_it_ends);
  tcase_add_test (content, where_there_is_no_room_a_label_says_so_and_no_bracket_is_drawn);
  tcase_add_test (content, odds_are_written_at_the_places_found_for_them);
  tcase_add_test (content, a_grey_scene_is_grey);
  tcase_add_test (content, scenes_with_little_in_them_draw_without_harm);
  tcase_add_test (content, any_zoom_draws_overlays_without_harm);
  tcase_add_test (strip, trouble_drops_through_ruler_and_clubs_in_its_own_column);
  tcase_add_test (strip, names_can_be_read_on_the_columns);
  tcase_add_test (strip, strips_keep_to_their_height_and_know_the_dark);
  tcase_add_test (strip, the_chosen_club_wears_the_accent);
  suite_add_tcase (suite, bounds);
  suite_add_tcase (suite, content);
  suite_add_tcase (suite, strip);
  return suite;
}
