// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of which heights and slopes a small drawing of a green shows. */
#include "../app/render/heights-private.h"
#include "suite.h"

/* A green of 20 m in radius about (0,0), with heights on it every so many metres. */
#define RADIUS_M 20
/* As on a pocket card: millimetres, 1:1100, design units of 0.7/96 inch. */
#define CARD_MM_PER_M (1000.0 / 1100)
#define CARD_UNIT (0.7 * 25.4 / 96)

static const Part *
spot (double x, double y)
{
  Part *part = part_new (KIND_SPOT_HEIGHT);
  part->at = vec2 (x, y);
  part->height_m = 50 + 0.1 * x;
  return part_seal (part);
}

static const Part *
slope (double x, double y)
{
  Part *part = part_new (KIND_SLOPE);
  path_move_to (&part->path, vec2 (x, y));
  path_line_to (&part->path, vec2 (x + 3, y + 1));
  part->percent = 2;
  return part_seal (part);
}

static const Part *
location (double x, double y, bool today)
{
  Part *part = part_new (KIND_HOLE_LOCATION);
  part->at = vec2 (x, y);
  part->today = today;
  return part_seal (part);
}

/* Heights `apart_m` apart - none when it is 0 - with three slopes among them, the hole in the middle and another one. */
static Hole *
scene (int apart_m)
{
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  Part *green = part_new (KIND_GREEN);
  path_add_ellipse (&green->path, vec2 (0, 0), RADIUS_M, RADIUS_M);
  g_ptr_array_add (parts, (gpointer)part_seal (green));
  for (int x = -15; x <= 15 && apart_m > 0; x += apart_m)
    for (int y = -15; y <= 15; y += apart_m)
      g_ptr_array_add (parts, (gpointer)spot (x + 0.4, y));
  g_ptr_array_add (parts, (gpointer)slope (-10, 8));
  g_ptr_array_add (parts, (gpointer)slope (8, 8));
  g_ptr_array_add (parts, (gpointer)slope (2, -12));
  g_ptr_array_add (parts, (gpointer)location (0, 0, true));
  g_ptr_array_add (parts, (gpointer)location (5, 1, false));
  HoleInfo info;
  hole_info_init (&info);
  return hole_new (&info, (const Part *const *)parts->pdata, parts->len, NULL);
}

/* What is chosen on a drawing of 44 m by 44 m, and the painter that it was chosen with. */
typedef struct
{
  Hole *hole;
  RenderView view;
  Painter painter;
  GArray *chosen;
} Drawing;

static Drawing *
choose (Hole *hole, double px_per_m, double unit_px)
{
  Drawing *drawing = g_new0 (Drawing, 1);
  double side_px = 44 * px_per_m;
  drawing->hole = hole;
  drawing->view = (RenderView){ vec2 (0, 0), px_per_m, 0, side_px, side_px, unit_px, UNIT_YARDS };
  drawing->painter = (Painter){ .hole = hole, .view = &drawing->view, .unit_px = unit_px, .shows_each_height = true };
  drawing->painter.to_drawing = view_to_drawing (&drawing->view);
  drawing->painter.visible_px = (Box){ 0, 0, side_px, side_px };
  drawing->painter.text = text_pen_new (NULL);
  drawing->chosen = heights_choose (&drawing->painter, vec2 (0, 0));
  return drawing;
}

static void
drawing_free (Drawing *drawing)
{
  g_array_unref (drawing->chosen);
  text_pen_free (drawing->painter.text);
  hole_unref (drawing->hole);
  g_free (drawing);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Drawing, drawing_free)

static size_t
count (const Drawing *drawing, Kind kind)
{
  size_t n = 0;
  for (guint i = 0; i < drawing->chosen->len; i++)
    n += hole_part (drawing->hole, g_array_index (drawing->chosen, HeightShown, i).part)->kind == kind;
  return n;
}

static Box
figure (const Drawing *drawing, guint i)
{
  return g_array_index (drawing->chosen, HeightShown, i).name.label.box_px;
}

/* Does a figure touch what is painted of another's mark? */
static bool
touches_mark (const Drawing *drawing, Box figure_px, guint other)
{
  Box boxes[HEIGHT_BOXES];
  size_t part = g_array_index (drawing->chosen, HeightShown, other).part;
  size_t n = height_boxes (&drawing->painter, hole_part (drawing->hole, part), boxes);
  for (size_t k = 0; k < n; k++)
    if (box_overlaps (figure_px, boxes[k]))
      return true;
  return false;
}

START_TEST (on_a_crowded_green_no_figure_touches_another_or_a_mark_or_the_flag)
{
  for (int apart_m = 2; apart_m <= 5; apart_m++)
    {
      g_autoptr (Drawing) drawing = choose (scene (apart_m), CARD_MM_PER_M, CARD_UNIT);
      Box flag;
      ck_assert_uint_eq (flag_on_drawing (drawing->hole, &drawing->view, &flag), 1);
      for (guint i = 0; i < drawing->chosen->len; i++)
        {
          ck_assert (!box_overlaps (figure (drawing, i), flag));
          for (guint k = 0; k < drawing->chosen->len; k++)
            {
              ck_assert (k == i || !box_overlaps (figure (drawing, i), figure (drawing, k)));
              ck_assert_msg (!touches_mark (drawing, figure (drawing, i), k), "every %d m: %u on %u", apart_m, i, k);
            }
        }
    }
}
END_TEST

START_TEST (slopes_stay_and_heights_give_way)
{
  g_autoptr (Drawing) drawing = choose (scene (2), CARD_MM_PER_M, CARD_UNIT);
  ck_assert_uint_eq (count (drawing, KIND_SLOPE), 3);
  ck_assert_uint_ge (count (drawing, KIND_SPOT_HEIGHT), 8);
  ck_assert_uint_lt (count (drawing, KIND_SPOT_HEIGHT), 16 * 16 / 4);
}
END_TEST

START_TEST (of_two_heights_that_crowd_the_one_nearer_to_the_hole_stays)
{
  const Part *parts[] = { spot (9, 1), spot (8, 1), location (0, 0, true) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Drawing) drawing = choose (hole_new (&info, parts, G_N_ELEMENTS (parts), NULL), CARD_MM_PER_M, CARD_UNIT);
  ck_assert_uint_eq (drawing->chosen->len, 1);
  ck_assert_uint_eq (g_array_index (drawing->chosen, HeightShown, 0).part, 1);
}
END_TEST

START_TEST (where_there_is_room_every_height_and_slope_is_shown)
{
  g_autoptr (Drawing) drawing = choose (scene (6), 40, 1);
  ck_assert_uint_eq (count (drawing, KIND_SPOT_HEIGHT), 36);
  ck_assert_uint_eq (count (drawing, KIND_SLOPE), 3);
}
END_TEST

START_TEST (what_lies_beyond_the_edge_of_the_drawing_is_left_out_with_its_figure)
{
  const Part *parts[] = { spot (21.9, 0), spot (0, 30), slope (20.5, -5), spot (5, 5), location (0, 0, true) };
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Drawing) drawing = choose (hole_new (&info, parts, G_N_ELEMENTS (parts), NULL), CARD_MM_PER_M, CARD_UNIT);
  ck_assert_uint_eq (drawing->chosen->len, 1);
  ck_assert_uint_eq (g_array_index (drawing->chosen, HeightShown, 0).part, 3);
}
END_TEST

START_TEST (a_hole_without_heights_shows_none)
{
  HoleInfo info;
  hole_info_init (&info);
  g_autoptr (Drawing) drawing = choose (hole_new (&info, NULL, 0, NULL), CARD_MM_PER_M, CARD_UNIT);
  ck_assert_uint_eq (drawing->chosen->len, 0);
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("render-heights");
  TCase *crowded = tcase_create ("crowded");
  tcase_add_test (crowded, on_a_crowded_green_no_figure_touches_another_or_a_mark_or_the_flag);
  tcase_add_test (crowded, slopes_stay_and_heights_give_way);
  tcase_add_test (crowded, of_two_heights_that_crowd_the_one_nearer_to_the_hole_stays);
  suite_add_tcase (suite, crowded);
  TCase *edges = tcase_create ("edges");
  tcase_add_test (edges, where_there_is_room_every_height_and_slope_is_shown);
  tcase_add_test (edges, what_lies_beyond_the_edge_of_the_drawing_is_left_out_with_its_figure);
  tcase_add_test (edges, a_hole_without_heights_shows_none);
  suite_add_tcase (suite, edges);
  return suite;
}
