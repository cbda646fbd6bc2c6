// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the card: page sizes, scales that are refused, the Rules' limits, what it says, the same bytes every time. */
#include "../app/render/card-private.h"
#include "../app/render/overlay-private.h"
#include "render.h"
#include "suite.h"
#include "svg.h"

#include <stdlib.h>
#include <string.h>

#define EXACT_MM 1e-9

/* ---- building blocks ---- */

/* A straight hole of 360 m: sand left of the drive at 190 to 205 m, water across at 240 to 260 m, a round green, a mark behind it. */
static const char straight_hole[]
    = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1' viewBox='-80 -400 160 420'"
      "  hw:number='7' hw:par='4' hw:stroke-index='3' hw:up-bearing='10'><title>Long Acre</title>"
      "<rect id='tee' hw:kind='tee' x='-4' y='-4' width='8' height='8'/>"
      "<rect id='fairway' hw:kind='fairway' x='-15' y='-320' width='30' height='200'/>"
      "<rect hw:kind='bunker' hw:name='sand' x='-30' y='-205' width='12' height='15'/>"
      "<rect hw:kind='penalty-area' hw:name='brook' x='-80' y='-260' width='160' height='20'/>"
      "<circle id='green' hw:kind='green' cx='0' cy='-360' r='14'/>"
      "<circle hw:kind='tee-marker' hw:name='white' cx='0' cy='0' r='1'/>"
      "<circle hw:kind='tee-marker' hw:name='red' cx='0' cy='-60' r='1'/>"
      "<circle hw:kind='hole-location' hw:name='middle' cx='3' cy='-364' r='0.5'/>"
      "<polyline hw:kind='line-of-play' points='0,0 0,-360'/>%s</svg>";

/* A par 3 so short that any page can hold it at a scale that the Rules do not allow for a green. */
static const char short_hole[]
    = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1' viewBox='-20 -60 40 70'>"
      "<circle hw:kind='green' cx='0' cy='-40' r='6'/><circle hw:kind='tee-marker' hw:name='white' cx='0' cy='0' r='1'/>"
      "<circle hw:kind='hole-location' cx='0' cy='-40' r='0.5'/></svg>";

static const char plan_of_two[]
    = "<g hw:kind='plan' hw:tee='white'><line hw:kind='shot' hw:club='driver' x1='0' y1='0' x2='0' y2='-210'/>"
      "<line hw:kind='shot' hw:club='iron' x1='0' y1='-210' x2='3' y2='-364'/></g>";

static const char clubs[] = "club,carry_m,carry_sd_m,side_sd_m\ndriver,210,10,12\niron,150,6,8\n";

static Hole *
read_hole (const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  Hole *hole = svg_read_bytes (bytes, "hole.svg", NULL, &error);
  ck_assert_msg (hole != NULL, "%s", error != NULL ? error->message : "");
  return hole;
}

static Hole *
straight (const char *more)
{
  g_autofree char *text = g_strdup_printf (straight_hole, more);
  return read_hole (text);
}

static Bag *
two_clubs (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = g_bytes_new_static (clubs, sizeof clubs - 1);
  Bag *bag = bag_read_bytes (bytes, "bag.csv", LEVEL_DEFAULT, &error);
  ck_assert_msg (bag != NULL, "%s", error != NULL ? error->message : "");
  return bag;
}

static Card *
lay_out (const Hole *hole, const Bag *bag, CardPage page, int scale, GError **error)
{
  CardOptions options;
  card_options_init (&options);
  options.page = page;
  options.scale = scale;
  return card_new (&(CardContent){ hole, NULL, bag }, &options, error);
}

static bool
has_warning (const Card *card, const char *words)
{
  for (const char *const *warning = card_warnings (card); *warning != NULL; warning++)
    if (strstr (*warning, words) != NULL)
      return true;
  return false;
}

/* ---- known answers ---- */

/* Rules of Golf, Rule 4.3a and Clarification 4.3a/1: a page of green-reading material is at most 4 1/4 x 7 in. */
START_TEST (the_pocket_page_is_the_largest_that_the_rules_allow)
{
  ck_assert_double_eq_tol (card_page_info (CARD_POCKET)->width_mm, 4.25 * 25.4, EXACT_MM);
  ck_assert_double_eq_tol (card_page_info (CARD_POCKET)->height_mm, 7 * 25.4, EXACT_MM);
}
END_TEST

/* ISO 216: A5 is 148 x 210 mm, A6 is 105 x 148 mm. Half of a letter sheet of 8 1/2 x 11 in is 5 1/2 x 8 1/2 in. */
START_TEST (other_pages_have_their_standard_sizes)
{
  static const struct
  {
    const char *token;
    double width_mm, height_mm;
  } known[] = { { "a5", 148, 210 }, { "a6", 105, 148 }, { "half-letter", 139.7, 215.9 } };
  for (size_t i = 0; i < G_N_ELEMENTS (known); i++)
    {
      CardPage page;
      ck_assert (card_page_from_token (known[i].token, &page));
      ck_assert_double_eq_tol (card_page_info (page)->width_mm, known[i].width_mm, EXACT_MM);
      ck_assert_double_eq_tol (card_page_info (page)->height_mm, known[i].height_mm, EXACT_MM);
    }
  CardPage page;
  ck_assert (!card_page_from_token ("a4", &page));
}
END_TEST

START_TEST (a_planned_hole_on_the_pocket_page_draws_no_warning)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  ck_assert_ptr_nonnull (card);
  ck_assert_ptr_null (card_warnings (card)[0]);
}
END_TEST

/* Rule 4.3a, Clarification 4.3a/1: the image of a green is at most 3/8 in to 5 yd, which is 1:480. */
START_TEST (the_green_is_never_drawn_larger_than_the_rules_allow)
{
  g_autoptr (Hole) hole = read_hole (short_hole);
  g_autoptr (Bag) bag = two_clubs ();
  for (CardPage page = 0; page < N_CARD_PAGES; page++)
    {
      g_autoptr (Card) card = lay_out (hole, bag, page, 0, NULL);
      ck_assert_ptr_nonnull (card);
      ck_assert_int_ge (card->green_scale, 480);
      ck_assert (!has_warning (card, "1:480"));
    }
}
END_TEST

START_TEST (a_diagram_larger_than_the_rules_allow_for_a_green_is_named)
{
  g_autoptr (Hole) hole = read_hole (short_hole);
  CardOptions options;
  card_options_init (&options);
  options.page = CARD_HALF_LETTER;
  options.blocks = 1u << 1; /* the diagram alone, which then has the whole width */
  ck_assert_str_eq (card_block_table[1].name, "diagram");
  options.scale = 480;
  g_autoptr (Card) within = card_new (&(CardContent){ hole, NULL, NULL }, &options, NULL);
  options.scale = 479;
  g_autoptr (Card) beyond = card_new (&(CardContent){ hole, NULL, NULL }, &options, NULL);
  ck_assert (!has_warning (within, "1:480"));
  ck_assert (has_warning (beyond, "the diagram shows the green at 1:479"));
}
END_TEST

START_TEST (green_detail_on_a_page_larger_than_the_rules_allow_is_named)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  for (CardPage page = 0; page < N_CARD_PAGES; page++)
    {
      g_autoptr (Card) card = lay_out (hole, bag, page, 0, NULL);
      ck_assert_int_eq (has_warning (card, "4¼ × 7 in"), page == CARD_A5 || page == CARD_HALF_LETTER);
    }
}
END_TEST

START_TEST (a_large_page_without_green_detail_is_nobody_s_business)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  CardOptions options;
  card_options_init (&options);
  options.page = CARD_A5;
  for (int i = 0; card_block_table[i].name != NULL; i++)
    if (strcmp (card_block_table[i].name, "green") == 0)
      options.blocks &= ~(1u << i);
  g_autoptr (Card) card = card_new (&(CardContent){ hole, NULL, bag }, &options, NULL);
  ck_assert_ptr_null (card_warnings (card)[0]);
}
END_TEST

/* ---- fit ---- */

START_TEST (a_scale_that_does_not_fit_is_refused_with_the_next_that_does)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) best = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (lay_out (hole, bag, CARD_POCKET, 1000, &error));
  ck_assert (g_error_matches (error, RENDER_ERROR, RENDER_ERROR_FIT));
  g_autofree char *expected = g_strdup_printf ("the hole does not fit at 1:1000; next scale 1:%d", card_scale (best));
  ck_assert_str_eq (error->message, expected);
  g_autoptr (Card) next = lay_out (hole, bag, CARD_POCKET, card_scale (best), NULL);
  ck_assert_ptr_nonnull (next);
}
END_TEST

START_TEST (the_scale_asked_for_is_the_scale_drawn)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 4321, NULL);
  ck_assert_int_eq (card_scale (card), 4321);
  ck_assert_double_eq_tol (card->view.px_per_m, 1000.0 / 4321, EXACT_MM);
}
END_TEST

START_TEST (tee_shots_and_green_are_on_the_diagram)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  const Vec2 points[] = { { 0, 0 }, { 0, 374 }, { 0, 210 }, { 3, 364 } };
  for (CardPage page = 0; page < N_CARD_PAGES; page++)
    {
      g_autoptr (Card) card = lay_out (hole, bag, page, 0, NULL);
      Box drawing = { 0, 0, card->view.width_px, card->view.height_px };
      for (size_t i = 0; i < G_N_ELEMENTS (points); i++)
        ck_assert (box_contains (drawing, view_point (&card->view, points[i])));
    }
}
END_TEST

/* The box of the ground that a diagram shows. */
static Box
shown (const Card *card)
{
  double half_width = card->view.width_px / card->view.px_per_m / 2, half_height = card->view.height_px / card->view.px_per_m / 2;
  Vec2 middle = card->view.centre;
  return (Box){ middle.x - half_width, middle.y - half_height, middle.x + half_width, middle.y + half_height };
}

/* It is moved no farther than that needs, never off what must be seen, and not for a landmark out of sight. */
START_TEST (a_landmark_at_the_edge_of_the_diagram_is_seen_whole)
{
  g_autoptr (Hole) bare = straight ("");
  g_autoptr (Card) without = lay_out (bare, NULL, CARD_POCKET, 3200, NULL);
  ck_assert_ptr_nonnull (without);
  Box before = shown (without);
  for (int far = 0; far <= 1; far++)
    {
      Vec2 at = vec2 (2, before.y1 + (far ? 10 : 1));
      g_autofree char *mark = g_strdup_printf ("<circle hw:kind='mark' hw:name='spire' cx='%g' cy='%g' r='1'/>", at.x, -at.y);
      g_autoptr (Hole) hole = straight (mark);
      g_autoptr (Card) card = lay_out (hole, NULL, CARD_POCKET, 3200, NULL);
      ck_assert_ptr_nonnull (card);
      Box now = shown (card), must = card_diagram_extent (card);
      ck_assert_double_eq_tol (now.y1, far ? before.y1 : at.y + 4, 1e-9);
      ck_assert_double_eq_tol (now.x0, before.x0, 1e-9);
      ck_assert (must.y0 >= now.y0 - 1e-9 && must.y1 <= now.y1 + 1e-9);
    }
}
END_TEST

START_TEST (a_larger_page_never_gives_a_smaller_drawing)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) a6 = lay_out (hole, bag, CARD_A6, 0, NULL);
  g_autoptr (Card) a5 = lay_out (hole, bag, CARD_A5, 0, NULL);
  ck_assert_int_le (card_scale (a5), card_scale (a6));
}
END_TEST

START_TEST (blocks_neither_overlap_nor_leave_the_page)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  for (CardPage page = 0; page < N_CARD_PAGES; page++)
    {
      g_autoptr (Card) card = lay_out (hole, bag, page, 0, NULL);
      for (size_t i = 0; i < CARD_MOST_BLOCKS; i++)
        {
          Box a = card->boxes[i];
          if (box_is_empty (a))
            continue;
          ck_assert (a.x0 >= 0 && a.y0 >= 0 && a.x1 <= card->width_mm + EXACT_MM && a.y1 <= card->height_mm + EXACT_MM);
          for (size_t k = 0; k < i; k++)
            ck_assert_msg (!box_overlaps (box_grown (a, -EXACT_MM), card->boxes[k]), "blocks %zu and %zu on page %d", k, i,
                           (int)page);
        }
    }
}
END_TEST

START_TEST (too_much_for_the_page_is_an_error_that_names_the_blocks)
{
  g_autoptr (GString) shots = g_string_new ("<g hw:kind='plan'>");
  for (int i = 0; i < 30; i++)
    g_string_append_printf (shots, "<line hw:kind='shot' hw:club='iron' x1='0' y1='%d' x2='3' y2='-364'/>", -i);
  g_string_append (shots, "</g>");
  g_autoptr (Hole) hole = straight (shots->str);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (lay_out (hole, bag, CARD_POCKET, 0, &error));
  ck_assert (g_error_matches (error, RENDER_ERROR, RENDER_ERROR_FIT));
  ck_assert_ptr_nonnull (strstr (error->message, "plan"));
  ck_assert_ptr_nonnull (strstr (error->message, "choose a larger page"));
}
END_TEST

/* ---- what it says ---- */

START_TEST (the_card_keeps_only_the_trouble_that_its_shot_can_meet)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  ck_assert_uint_eq (card->n_shots, 2);
  ck_assert_uint_eq (card->carries[0]->n_rows, 2); /* the brook 240 to 260, and the sand beside the line */
  ck_assert_double_eq_tol (card->carries[0]->rows[0].reach_m, 240, 1e-6);
  ck_assert_double_eq_tol (card->carries[0]->rows[0].carry_m, 260, 1e-6);
  ck_assert_int_eq (card->carries[0]->rows[1].side, SIDE_LEFT);
}
END_TEST

START_TEST (the_aim_is_told_by_what_the_golfer_sees)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  g_autofree char *first = card_aim_words (card, 0), *second = card_aim_words (card, 1);
  ck_assert_str_eq (first, "20 right of the sand"); /* 18 m = 19.7 yd from its near corner, 5 m past it */
  ck_assert_str_eq (second, "at the hole");
}
END_TEST

START_TEST (a_planned_shot_tells_where_its_ball_may_end)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  g_autoptr (GError) error = NULL;
  for (size_t i = 0; i < card->n_shots; i++)
    {
      g_autoptr (OddsTable) odds = odds_table_new (hole, &card->shots[i], &error);
      ck_assert_msg (odds != NULL, "%s", error != NULL ? error->message : "");
      Kind likeliest = KIND_NONE;
      for (int kind = 0; kind < N_KINDS; kind++)
        if (!kind_info ((Kind)kind)->is_trouble && odds->rest[kind] > odds->rest[likeliest])
          likeliest = (Kind)kind;
      g_autofree char *one = card_chance_words (card, i, 1), *all = card_chance_words (card, i, N_KINDS);
      g_autofree char *expected = g_strdup_printf ("%s %.0f %%", kind_info (likeliest)->label, 100 * odds->rest[likeliest]);
      ck_assert_str_eq (one, expected);
      ck_assert (g_str_has_prefix (all, expected));
      ck_assert_uint_gt (strlen (all), strlen (one));
      ck_assert_ptr_null (card_chance_words (card, i, 0));
    }
}
END_TEST

START_TEST (where_the_page_is_full_the_chances_go_first)
{
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (GString) shots = g_string_new (NULL);
  size_t block = 0;
  while (strcmp (card_block_table[block].name, "plan") != 0)
    block++;
  bool was_whole = false, was_left_out = false;
  for (int n = 1;; n++)
    {
      g_string_append_printf (shots, "<line hw:kind='shot' hw:club='iron' x1='0' y1='%d' x2='3' y2='-364'/>", -n);
      g_autofree char *plan = g_strdup_printf ("<g hw:kind='plan'>%s</g>", shots->str);
      g_autoptr (Hole) hole = straight (plan);
      g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
      if (card == NULL)
        break;
      Box box = card->boxes[block];
      CardHeight height = card_measure_plan (card, box.x1 - box.x0);
      ck_assert_double_gt (height.most_mm, height.least_mm + n);
      ck_assert_double_ge (box.y1 - box.y0, height.least_mm - EXACT_MM);
      was_whole = was_whole || box.y1 - box.y0 > height.most_mm - EXACT_MM;
      was_left_out = was_left_out || box.y1 - box.y0 < height.most_mm - EXACT_MM;
    }
  ck_assert (was_whole && was_left_out);
}
END_TEST

START_TEST (a_named_mark_on_the_line_is_what_the_aim_is_told_by)
{
  g_autofree char *more = g_strconcat ("<circle hw:kind='mark' hw:name='steeple' cx='2' cy='-390' r='1'/>", plan_of_two, NULL);
  g_autoptr (Hole) hole = straight (more);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  g_autofree char *words = card_aim_words (card, 0);
  ck_assert_str_eq (words, "at the steeple");
}
END_TEST

START_TEST (mirroring_the_hole_mirrors_the_words)
{
  static const char *const sides[] = { "left", "right" };
  for (int mirrored = 0; mirrored < 2; mirrored++)
    {
      g_autofree char *plan
          = g_strdup_printf ("<rect hw:kind='bunker' hw:name='pit' x='%d' y='-360' width='4' height='20'/><g hw:kind='plan'>"
                             "<line hw:kind='shot' hw:club='driver' x1='0' y1='-150' x2='%d' y2='-350'/></g>",
                             mirrored ? -44 : 40, mirrored ? -25 : 25);
      g_autoptr (Hole) hole = straight (plan);
      g_autoptr (Bag) bag = two_clubs ();
      g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
      g_autofree char *words = card_aim_words (card, 0);
      g_autofree char *expected = g_strdup_printf ("16 %s of the pit", sides[mirrored]); /* 15 m = 16.4 yd */
      ck_assert_str_eq (words, expected);
    }
}
END_TEST

START_TEST (trouble_that_reaches_the_edge_of_the_drawing_has_no_carry)
{
  g_autoptr (Hole) hole
      = straight ("<rect hw:kind='trees' hw:name='wood' x='-40' y='-400' width='80' height='20'/>"
                  "<g hw:kind='plan'><line hw:kind='shot' hw:club='driver' x1='0' y1='-180' x2='0' y2='-360'/></g>");
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  const CarryTable *table = card->carries[0];
  ck_assert_uint_ge (table->n_rows, 2);
  ck_assert_double_eq_tol (table->rows[0].carry_m, 80, 1e-6); /* the brook, whose far side is on the drawing */
  ck_assert (!carry_runs_off (hole, &card->shots[0], &table->rows[0]));
  ck_assert_double_eq_tol (table->rows[1].reach_m, 200, 1e-6);
  ck_assert (carry_runs_off (hole, &card->shots[0], &table->rows[1]));
}
END_TEST

START_TEST (the_day_of_the_plan_is_told_in_the_golfer_s_units)
{
  static const struct
  {
    int from_deg;
    LengthUnit units;
    const char *words;
  } known[]
      = { { 45, UNIT_YARDS, "wind 7 mph from the north-east · 16 °C (carries are for this day)" }, /* 3.13 m/s = 7.0 mph */
          { 359, UNIT_METRES, "wind 3.1 m/s from the north · 16 °C (carries are for this day)" },
          { 200, UNIT_METRES, "wind 3.1 m/s from the south · 16 °C (carries are for this day)" },
          { 240, UNIT_METRES, "wind 3.1 m/s from the south-west · 16 °C (carries are for this day)" } };
  g_autoptr (Bag) bag = two_clubs ();
  for (size_t i = 0; i < G_N_ELEMENTS (known); i++)
    {
      g_autofree char *plan
          = g_strdup_printf ("<g hw:kind='plan' hw:wind_mps='3.13' hw:wind_from_deg='%d' hw:temperature_c='16'>"
                             "<line hw:kind='shot' hw:club='driver' x1='0' y1='0' x2='0' y2='-210'/></g>",
                             known[i].from_deg);
      g_autoptr (Hole) hole = straight (plan);
      CardOptions options;
      card_options_init (&options);
      options.units = known[i].units;
      g_autoptr (Card) card = card_new (&(CardContent){ hole, NULL, bag }, &options, NULL);
      g_autofree char *words = card_day_words (card);
      ck_assert_str_eq (words, known[i].words);
      ck_assert (card_has_block (card, "day"));
    }
  g_autoptr (Hole) calm = straight (plan_of_two);
  g_autoptr (Card) card = lay_out (calm, bag, CARD_POCKET, 0, NULL);
  ck_assert (!card_has_block (card, "day"));
  /* Without shots the card has no carries to speak of. */
  g_autoptr (Hole) windy = straight ("<g hw:kind='plan' hw:temperature_c='16'/>");
  g_autoptr (Card) bare = lay_out (windy, NULL, CARD_POCKET, 0, NULL);
  g_autofree char *words = card_day_words (bare);
  ck_assert_str_eq (words, "16 °C");
}
END_TEST

/* ---- edges ---- */

START_TEST (a_hole_without_a_plan_shows_one_shot_along_the_line_of_play)
{
  g_autoptr (Hole) hole = straight ("");
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  ck_assert_uint_eq (card->n_shots, 1);
  ck_assert (!card->is_planned);
  ck_assert (!card_has_block (card, "plan"));
  ck_assert_str_eq (card->shots[0].club->name, "driver");
}
END_TEST

START_TEST (another_tee_than_the_plan_s_leaves_the_plan_out_and_says_so)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  CardOptions options;
  card_options_init (&options);
  options.tee = "red";
  g_autoptr (Card) card = card_new (&(CardContent){ hole, NULL, bag }, &options, NULL);
  ck_assert (has_warning (card, "another tee than red"));
  ck_assert (!card->is_planned);
  ck_assert_double_eq_tol (card->shots[0].ball.y, 60, 1e-9);
}
END_TEST

START_TEST (without_a_bag_the_card_says_what_it_lacks)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Card) card = lay_out (hole, NULL, CARD_POCKET, 0, NULL);
  ck_assert_ptr_nonnull (card);
  ck_assert (has_warning (card, "there is no bag"));
  ck_assert (!card_has_block (card, "carries") && !card_has_block (card, "plan"));
}
END_TEST

START_TEST (a_plan_with_a_club_that_the_bag_lacks_is_left_out_and_said)
{
  g_autoptr (Hole) hole
      = straight ("<g hw:kind='plan'><line hw:kind='shot' hw:club='spoon' x1='0' y1='0' x2='0' y2='-200'/></g>");
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  ck_assert (has_warning (card, "the plan is left out"));
  ck_assert (has_warning (card, "spoon"));
}
END_TEST

START_TEST (a_hole_with_neither_tee_nor_green_still_prints_and_says_so)
{
  g_autoptr (Hole) hole = read_hole ("<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1'>"
                                     "<rect hw:kind='fairway' x='0' y='-100' width='30' height='100'/></svg>");
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (GError) error = NULL;
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, &error);
  ck_assert_ptr_nonnull (card);
  ck_assert (has_warning (card, "no tee marker"));
  ck_assert (has_warning (card, "no green"));
  g_autoptr (GBytes) bytes = card_bytes (card, "pdf", &error);
  ck_assert_ptr_nonnull (bytes);
}
END_TEST

START_TEST (a_hole_with_nothing_on_it_prints)
{
  g_autoptr (Hole) hole
      = read_hole ("<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1'/>");
  g_autoptr (GError) error = NULL;
  g_autoptr (Card) card = lay_out (hole, NULL, CARD_POCKET, 0, &error);
  ck_assert_msg (card != NULL, "%s", error != NULL ? error->message : "");
  g_autoptr (GBytes) bytes = card_bytes (card, "png", &error);
  ck_assert_ptr_nonnull (bytes);
}
END_TEST

/* ---- files ---- */

START_TEST (the_same_card_gives_the_same_bytes)
{
  static const char *const formats[] = { "pdf", "svg", "png" };
  g_setenv ("SOURCE_DATE_EPOCH", "1700000000", TRUE);
  for (size_t i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      GBytes *bytes[2];
      for (int run = 0; run < 2; run++)
        {
          g_autoptr (Hole) hole = straight (plan_of_two);
          g_autoptr (Bag) bag = two_clubs ();
          g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
          bytes[run] = card_bytes (card, formats[i], NULL);
        }
      ck_assert_msg (g_bytes_equal (bytes[0], bytes[1]), "%s differs", formats[i]);
      g_bytes_unref (bytes[0]);
      g_bytes_unref (bytes[1]);
    }
  g_unsetenv ("SOURCE_DATE_EPOCH");
}
END_TEST

START_TEST (a_date_that_is_none_is_refused)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  g_autoptr (GError) error = NULL;
  g_setenv ("SOURCE_DATE_EPOCH", "yesterday", TRUE);
  ck_assert_ptr_null (card_bytes (card, "pdf", &error));
  g_unsetenv ("SOURCE_DATE_EPOCH");
  ck_assert_ptr_nonnull (error);
  ck_assert_ptr_nonnull (strstr (error->message, "yesterday"));
}
END_TEST

START_TEST (the_ending_chooses_the_format)
{
  g_autoptr (GError) error = NULL;
  ck_assert_str_eq (card_format_of ("card.pdf", NULL), "pdf");
  ck_assert_str_eq (card_format_of ("/tmp/a.b/card.SVG", NULL), "svg");
  ck_assert_str_eq (card_format_of ("x.png", NULL), "png");
  ck_assert_ptr_null (card_format_of ("card.gif", &error));
  ck_assert (g_error_matches (error, RENDER_ERROR, RENDER_ERROR_FORMAT));
  ck_assert_ptr_null (card_format_of ("pdf", NULL));
}
END_TEST

/* Share of pixels of the drawn card whose three channels differ. */
static double
coloured_share (PaintInk ink)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  CardOptions options;
  card_options_init (&options);
  options.ink = ink;
  g_autoptr (Card) card = card_new (&(CardContent){ hole, NULL, bag }, &options, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 216, 356);
  cairo_t *cr = cairo_create (surface);
  card_draw (card, cr, 2);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  size_t coloured = 0, all = 216 * 356;
  for (int y = 0; y < 356; y++)
    {
      const unsigned char *row = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface);
      for (int x = 0; x < 216; x++)
        coloured += abs (row[4 * x] - row[4 * x + 1]) > 2 || abs (row[4 * x + 1] - row[4 * x + 2]) > 2;
    }
  cairo_surface_destroy (surface);
  return (double)coloured / (double)all;
}

START_TEST (the_grey_card_holds_no_colour)
{
  ck_assert_double_eq (coloured_share (PAINT_GREY), 0);
  ck_assert_double_gt (coloured_share (PAINT_COLOUR), 0.05);
}
END_TEST

START_TEST (drawing_leaves_the_context_as_it_was)
{
  g_autoptr (Hole) hole = straight (plan_of_two);
  g_autoptr (Bag) bag = two_clubs ();
  g_autoptr (Card) card = lay_out (hole, bag, CARD_POCKET, 0, NULL);
  cairo_surface_t *surface = cairo_recording_surface_create (CAIRO_CONTENT_COLOR_ALPHA, NULL);
  cairo_t *cr = cairo_create (surface);
  cairo_matrix_t before, after;
  cairo_get_matrix (cr, &before);
  card_draw (card, cr, 3);
  cairo_get_matrix (cr, &after);
  ck_assert_mem_eq (&before, &after, sizeof before);
  ck_assert_int_eq (cairo_status (cr), CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
}
END_TEST

Suite *
suite_make (void)
{
  const struct
  {
    const char *name;
    const TTest *tests[14];
  } cases[] = {
    { "known",
      { the_pocket_page_is_the_largest_that_the_rules_allow, other_pages_have_their_standard_sizes,
        a_planned_hole_on_the_pocket_page_draws_no_warning, the_green_is_never_drawn_larger_than_the_rules_allow,
        a_diagram_larger_than_the_rules_allow_for_a_green_is_named, green_detail_on_a_page_larger_than_the_rules_allow_is_named,
        a_large_page_without_green_detail_is_nobody_s_business } },
    { "fit",
      { a_scale_that_does_not_fit_is_refused_with_the_next_that_does, the_scale_asked_for_is_the_scale_drawn,
        tee_shots_and_green_are_on_the_diagram, a_landmark_at_the_edge_of_the_diagram_is_seen_whole, a_larger_page_never_gives_a_smaller_drawing,
        blocks_neither_overlap_nor_leave_the_page, too_much_for_the_page_is_an_error_that_names_the_blocks } },
    { "words",
      { the_card_keeps_only_the_trouble_that_its_shot_can_meet, the_aim_is_told_by_what_the_golfer_sees,
        a_planned_shot_tells_where_its_ball_may_end, where_the_page_is_full_the_chances_go_first,
        a_named_mark_on_the_line_is_what_the_aim_is_told_by, mirroring_the_hole_mirrors_the_words,
        trouble_that_reaches_the_edge_of_the_drawing_has_no_carry, the_day_of_the_plan_is_told_in_the_golfer_s_units } },
    { "edges",
      { a_hole_without_a_plan_shows_one_shot_along_the_line_of_play,
        another_tee_than_the_plan_s_leaves_the_plan_out_and_says_so, without_a_bag_the_card_says_what_it_lacks,
        a_plan_with_a_club_that_the_bag_lacks_is_left_out_and_said, a_hole_with_neither_tee_nor_green_still_prints_and_says_so,
        a_hole_with_nothing_on_it_prints } },
    { "files",
      { the_same_card_gives_the_same_bytes, a_date_that_is_none_is_refused, the_ending_chooses_the_format,
        the_grey_card_holds_no_colour, drawing_leaves_the_context_as_it_was } },
  };
  Suite *suite = suite_create ("card");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      tcase_set_timeout (tcase, 60);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
