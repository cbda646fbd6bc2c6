// SPDX-License-Identifier: GPL-3.0-or-later
/* plan, the number to play and the side to miss on in a few words. */
#include "plan-number.h"
#include "suite.h"

/* ---- known answers ---- */

START_TEST (the_number_to_play_reads_as_a_golfer_says_it)
{
  static const struct
  {
    double past_m, right_m;
    const char *words;
  } known[] = { { 0.4, -0.9, "plays 150, at the hole" },
                { 4, 0, "plays 150, 4 past the hole" },
                { -3, 0.5, "plays 150, 3 short of the hole" },
                { 0, 2, "plays 150, 2 right of the hole" },
                { 0, -2, "plays 150, 2 left of the hole" },
                { 6, 3, "plays 150, 6 past the hole, 3 right" },
                { 6, -3, "plays 150, 6 past the hole, 3 left" },
                { -6, 3, "plays 150, 6 short of the hole, 3 right" },
                { -6, -3, "plays 150, 6 short of the hole, 3 left" } };
  for (size_t i = 0; i < G_N_ELEMENTS (known); i++)
    {
      Approach approach = { .plays_m = 150, .past_m = known[i].past_m, .right_m = known[i].right_m };
      g_autofree char *words = approach_number_words (&approach, UNIT_METRES, NULL);
      ck_assert_str_eq (words, known[i].words);
    }
}
END_TEST

START_TEST (the_side_to_miss_on_is_told_when_it_is_worth_it)
{
  Approach approach = { .misses = { [MISS_SHORT] = 3, [MISS_LONG] = 2.2, [MISS_LEFT] = 2.5, [MISS_RIGHT] = 2.6 },
                        .safest = MISS_LONG,
                        .dearest = MISS_SHORT };
  static const char *const words[N_MISSES] = { "miss short", "miss long", "miss left", "miss right" };
  for (int side = 0; side < N_MISSES; side++)
    {
      approach.safest = (Miss)side;
      approach.dearest = (Miss)((side + 1) % N_MISSES);
      approach.misses[approach.safest] = 2;
      approach.misses[approach.dearest] = 3;
      ck_assert_str_eq (approach_miss_words (&approach, NULL), words[side]);
    }
  approach.misses[approach.dearest] = approach.misses[approach.safest] + 0.9 * NUMBER_SAME_STROKES;
  ck_assert_ptr_null (approach_miss_words (&approach, NULL));
  approach.misses[approach.dearest] = NAN;
  ck_assert_ptr_null (approach_miss_words (&approach, NULL));
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("plan-number");
  TCase *words = tcase_create ("words");
  tcase_add_test (words, the_number_to_play_reads_as_a_golfer_says_it);
  tcase_add_test (words, the_side_to_miss_on_is_told_when_it_is_worth_it);
  suite_add_tcase (suite, words);
  return suite;
}
