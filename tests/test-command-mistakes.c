// SPDX-License-Identifier: GPL-3.0-or-later
/* Tests of the command line: one sentence and the right exit status for every mistake. */
#define _GNU_SOURCE /* open_memstream */

#include "command-runner.h"
#include "geometry.h"

/* ---- bad usage: 2 ---- */

START_TEST (wrong_usage_is_named_and_gives_2)
{
  static const struct
  {
    const char *line, *words;
  } bad[] = {
    { "fly", "there is no command 'fly'" },
    { "carries", "one hole file" },
    { "odds", "one hole file" },
    { "plan", "one hole file or a course's folder" },
    { "plan %s/hole.svg --aim 0,1", "does not know the option '--aim'" },
    { "odds %s/hole.svg %s/bag.csv", "one hole file" },
    { "odds %s/hole.svg --page a5", "does not know the option '--page'" },
    { "carries %s/hole.svg %s/hole.svg", "one hole file" },
    { "card %s/hole.svg --wind 5mph@90", "does not know the option '--wind'" },
    { "carries %s/hole.svg --wind 5@90", "--wind '5@90' is not a wind" },
    { "carries %s/hole.svg --wind 5mph", "--wind '5mph' is not a wind" },
    { "carries %s/hole.svg --wind 5mph@west", "is not a wind" },
    { "carries %s/hole.svg --wind nanmph@3", "is not a wind" },
    { "carries %s/hole.svg --temperature warm", "--temperature 'warm'" },
    { "carries %s/hole.svg --pressure high", "--pressure 'high'" },
    { "carries %s/hole.svg --altitude up", "--altitude 'up'" },
    { "carries %s/hole.svg --humidity wet", "--humidity 'wet'" },
    { "carries %s/hole.svg --firmness hard", "--firmness 'hard'" },
    { "carries %s/hole.svg --green-speed quick", "--green-speed 'quick'" },
    { "carries %s/hole.svg --page a5", "does not know the option '--page'" },
    { "carries %s/hole.svg -x", "does not know the option '-x'" },
    { "carries %s/hole.svg --aim", "'--aim' needs a value" },
    { "carries %s/hole.svg --club=", "empty value" },
    { "carries %s/hole.svg --aim 1e9,0", "no place on a hole" },
    { "carries %s/hole.svg --swing 0", "--swing '0'" },
    { "carries %s/hole.svg --swing 1.01", "--swing '1.01'" },
    { "carries %s/hole.svg --swing nan", "--swing 'nan'" },
    { "carries %s/hole.svg --units feet", "--units 'feet'" },
    { "carries %s/hole.svg --format xml", "--format 'xml'" },
    { "carries %s/hole.svg --level tour", "--level 'tour'" },
    { "carries %s/hole.svg --rows trees", "--rows 'trees'" },
    { "check", "a file or a folder" },
    { "check %s/hole.svg --club five", "does not know the option '--club'" },
    { "card %s/hole.svg", "-o OUT" },
    { "card -o %s/x.pdf", "one hole or folder" },
    { "card %s/hole.svg -o %s/x.gif", "the ending" },
    { "card %s/hole.svg -o %s/x.pdf --page a4", "--page 'a4'" },
    { "card %s/hole.svg -o %s/x.pdf --scale big", "--scale 'big'" },
    { "card %s/hole.svg -o %s/x.pdf --scale 1:2500.5", "--scale '1:2500.5'" },
    { "card %s/hole.svg -o %s/x.pdf --without title,moon", "no block 'moon'" },
    { "card %s/hole.svg -o %s/x.pdf --grey=yes", "takes no value" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    assert_fails (bad[i].line, 2, bad[i].words);
  g_autofree char *path = path_of ("x.pdf");
  ck_assert (!g_file_test (path, G_FILE_TEST_EXISTS));
}
END_TEST

/* ---- input that cannot be used: 1 ---- */

START_TEST (an_aim_on_the_ball_is_refused)
{
  assert_fails ("carries %s/hole.svg --club five --aim white", 1, "hole.svg:1: the aim is on the ball");
  assert_fails ("carries %s/hole.svg --club five --from 3,4 --aim 3,4.0005", 1, "the aim is on the ball");
}
END_TEST

START_TEST (a_day_that_golf_is_not_played_on_is_refused)
{
  assert_fails ("carries %s/hole.svg --wind 300mph@0", 1, "hole.svg with --wind 300mph@0: nobody plays golf in such a wind");
  assert_fails ("carries %s/hole.svg --wind -5mph@0", 1, "such a wind");
  assert_fails ("carries %s/hole.svg --wind 5mph@400", 1, "no such bearing");
  assert_fails ("carries %s/hole.svg --wind 5mph@90", 1, "does not say where north is");
  assert_fails ("carries %s/hole.svg --temperature 80", 1, "such a temperature");
  assert_fails ("carries %s/hole.svg --temperature 200F", 1, "such a temperature");
  assert_fails ("carries %s/hole.svg --pressure -1013", 1, "no such pressure");
  assert_fails ("carries %s/hole.svg --pressure 1e306inHg", 1, "no such pressure");
  assert_fails ("carries %s/hole.svg --altitude 30000ft", 1, "such an altitude");
  assert_fails ("carries %s/hole.svg --humidity 60", 1, "the humidity");
  assert_fails ("carries %s/hole.svg --green-speed 60", 1, "no green is that");
}
END_TEST

START_TEST (a_day_is_blamed_on_the_plan_that_holds_it_and_on_an_option_that_asks_for_it)
{
  g_auto (GStrv) halves = g_strsplit (hole_text, "<g hw:kind='plan'", 2);
  g_autofree char *text
      = g_strconcat (halves[0], "\n\n<g hw:kind='plan' hw:wind_mps='40' hw:wind_from_deg='0'", halves[1], NULL);
  write_file ("windy.svg", text);
  const char *words = "windy.svg:3: nobody plays golf in such a wind";
  assert_fails ("carries %s/windy.svg --club five", 1, words);
  assert_fails ("carries %s/windy.svg --club five --temperature 20", 1, words);
  assert_fails ("carries %s/hole.svg --club five --temperature 90 --humidity 60%", 1,
                "hole.svg with --temperature 90 --humidity 60%: nobody plays golf at such a temperature");
}
END_TEST

START_TEST (names_that_are_not_there_are_answered_with_those_that_are)
{
  assert_fails ("carries %s/hole.svg --club spoon", 1, "the bag has no club 'spoon'; give one of five, seven, wedge");
  assert_fails ("carries %s/hole.svg --tee blue", 1, "hole.svg:1: there is no tee marker 'blue'; the hole has white, red");
  assert_fails ("carries %s/hole.svg --hole left", 1,
                "hole.svg:1: there is no hole location 'left'; the hole has middle, back");
  assert_fails ("carries %s/hole.svg --aim gate", 1, "hole.svg:1: nothing on the hole is called 'gate'");
  assert_fails ("plan %s/hole.svg --tee blue", 1, "hole.svg:1: there is no tee marker 'blue'; the hole has white, red");
  assert_fails ("plan %s/hole.svg --hole left", 1, "hole.svg:1: there is no hole location 'left'; the hole has middle, back");
  assert_fails ("card %s/hole.svg --tee blue -o %s/x.pdf", 1, "hole.svg:1: there is no tee marker 'blue'");
}
END_TEST

START_TEST (a_missing_hole_or_bag_is_named)
{
  assert_fails ("carries %s/none.svg", 1, "none.svg");
  assert_fails ("carries %s", 1, "holewright-command-");
  assert_fails ("plan %s", 1, "the folder holds no course: it has no course.xml; choose a hole's file in it");
  assert_fails ("carries %s/hole.svg --bag %s/none.csv", 1, "none.csv");
  g_autofree char *bag = path_of ("bag.csv");
  g_unlink (bag);
  assert_fails ("carries %s/hole.svg", 1, "there is no bag.csv beside the hole; name one with --bag FILE");
}
END_TEST

START_TEST (a_bag_that_cannot_be_used_is_named_with_its_line)
{
  write_file ("bag.csv", "club,carry_m\nfive,200\nfive,190\n");
  assert_fails ("carries %s/hole.svg", 1, "bag.csv:3: ");
  write_file ("bag.csv", "club,carry_m\nfive,-200\n");
  assert_fails ("carries %s/hole.svg", 1, "bag.csv:2: ");
  write_file ("bag.csv", "club,loft_deg\nfive,20\n");
  assert_fails ("carries %s/hole.svg", 1, "bag.csv:1: ");
}
END_TEST

START_TEST (a_club_that_no_ball_flies_like_is_named_with_its_line)
{
  static const struct
  {
    const char *bag, *words;
  } bad[] = {
    { "club,carry_m,loft_deg\nfive,200,0\n", "bag.csv:2: " },
    { "club,carry_m,loft_deg\nseven,120,\nfive,200,90\n", "bag.csv:3: " },
    { "club,carry_m,loft_deg\nfive,200,-5\n", "bag.csv:2: " },
    { "club,carry_m,apex_m\nfive,20,99\n", "no ball carries that far and rises that high" },
    { "club,carry_m,apex_m\nfive,200,0.01\n", "no ball carries that far and rises that high" },
    { "club,carry_m,loft_deg\nlob,390,64\n", "no ball carries that far off such a loft" },
    { "club,carry_m\nfive,20000\n", "bag.csv:2: carry_m is \"20000\"" },
    { "club,carry_m,curve_m\nfive,200,150\n", "curve" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      write_file ("bag.csv", bad[i].bag);
      assert_fails ("carries %s/hole.svg", 1, bad[i].words);
      assert_fails ("bag %s/bag.csv", 1, bad[i].words);
    }
}
END_TEST

START_TEST (a_table_of_lies_that_cannot_be_used_is_named_with_its_line)
{
  write_file ("own.csv", "lie,carry_pct\nrough,90\nmud,80\n");
  assert_fails ("carries %s/hole.svg --lies %s/own.csv", 1, "own.csv:3: lie is \"mud\"");
  assert_fails ("bag %s/bag.csv --lies %s/none.csv", 1, "none.csv: cannot be read");
  assert_fails ("bag %s/bag.csv --lies %s", 1, "it is a folder");
  write_file ("lies.csv", "lie,least_loft_deg\nsand,steep\n");
  assert_fails ("carries %s/hole.svg", 1, "lies.csv:2: least_loft_deg is \"steep\"");
  g_auto (Said) said = run ("check %s/lies.csv --format csv");
  ck_assert_int_eq (said.status, 1);
  ck_assert_ptr_nonnull (strstr (said.out, "lies.csv,2,error,"));
}
END_TEST

START_TEST (whatever_the_day_or_the_aim_no_number_is_missing_from_the_shot)
{
  /* The limits of the day, and aims that no club reaches. */
  static const char *const lines[]
      = { "--wind 67mph@0 --aim 0,5000 --club wedge", "--wind 67mph@180 --aim 0,0.01 --club five",
          "--temperature 50 --altitude 5000 --humidity 100%",
          "--temperature -20 --pressure 1100hPa --wind 60mph@90 --club seven --swing fit", "--aim 900000,900000 --swing fit" };
  g_auto (GStrv) halves = g_strsplit (hole_text, " hw:number", 2);
  g_autofree char *text = g_strconcat (halves[0], " hw:up-bearing='0' hw:number", halves[1], NULL);
  write_file ("hole.svg", text);
  for (size_t i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autofree char *line = g_strconcat ("carries %s/hole.svg --format json ", lines[i], NULL);
      g_auto (Said) said = run (line);
      ck_assert_msg (said.status == 0, "%s: %s", lines[i], said.err);
      ck_assert_ptr_null (strstr (said.out, "nan"));
      ck_assert_ptr_null (strstr (said.out, "inf"));
      ck_assert_ptr_nonnull (strstr (said.out, "\"plays_yd\": "));
      ck_assert_ptr_null (strstr (said.out, "\"plays_yd\": null"));
      ck_assert_ptr_null (strstr (said.out, "\"rest_y_m\": null"));
    }
}
END_TEST

START_TEST (a_hole_without_a_tee_is_refused_unless_the_ball_is_given)
{
  write_file ("hole.svg", "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1'>"
                          "<rect hw:kind='green' x='-10' y='-210' width='20' height='20'/></svg>");
  assert_fails ("carries %s/hole.svg", 1, "hole.svg:1: the hole has no tee marker");
  g_auto (Said) said = run ("carries %s/hole.svg --from 0,0");
  ck_assert_int_eq (said.status, 0);
}
END_TEST

START_TEST (a_hole_without_a_green_is_refused_unless_the_aim_is_given)
{
  write_file ("hole.svg", "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1'>"
                          "<circle hw:kind='tee-marker' cx='0' cy='0' r='1'/></svg>");
  assert_fails ("carries %s/hole.svg", 1, "hole.svg:1: the hole has no green");
  g_auto (Said) said = run ("carries %s/hole.svg --aim 0,100 --units metres --format csv --rows shot");
  ck_assert_int_eq (said.status, 0);
  ck_assert_ptr_nonnull (strstr (said.err, "hole.svg:1: the hole has no green"));
  ck_assert (g_str_has_suffix (said.out, ",,,\r\n"));
  g_auto (Said) green = run ("carries %s/hole.svg --aim 0,100 --format json --rows green");
  ck_assert_str_eq (green.out, "{\n  \"green\": []\n}\n");
}
END_TEST

/* The odds of hole.svg with these words behind add up to 1, where balls land and where they rest. */
static void
assert_adds_up (const char *words)
{
  g_autofree char *line = g_strconcat ("odds %s/hole.svg --format csv --rows areas ", words, NULL);
  g_auto (Said) said = run (line);
  ck_assert_msg (said.status == 0, "%s: %s", words, said.err);
  g_auto (GStrv) rows = g_strsplit (said.out, "\r\n", -1);
  double landing = 0, rest = 0;
  for (size_t i = 1; rows[i] != NULL && rows[i][0] != '\0'; i++)
    {
      const char *last = strrchr (rows[i], ','), *before = g_strrstr_len (rows[i], last - rows[i], ",");
      landing += g_ascii_strtod (before + 1, NULL);
      rest += g_ascii_strtod (last + 1, NULL);
    }
  ck_assert_msg (fabs (landing - 1) < 1e-6 && fabs (rest - 1) < 1e-6, "%s: landing %.9f, rest %.9f", words, landing, rest);
}

START_TEST (odds_add_up_however_wide_or_narrow_the_balls_scatter)
{
  static const char *const spreads[]
      = { "0,0,0", "10,0,0", "0,8,0", "1e-9,1e-9,0", "10,8,1", "10,8,-1", "100,100,0.5", "100,0,1" };
  for (size_t i = 0; i < G_N_ELEMENTS (spreads); i++)
    {
      g_autofree char *bag = g_strdup_printf ("club,carry_m,carry_sd_m,side_sd_m,correlation\nfive,200,%s\n", spreads[i]);
      write_file ("bag.csv", bag);
      assert_adds_up ("--club five");
    }
  write_file ("bag.csv", "club,carry_m,carry_sd_m,side_sd_m\nfive,200,1000000,4\n");
  assert_fails ("odds %s/hole.svg", 1, "bag.csv:2: carry_sd_m");
  write_file ("bag.csv", "club,carry_m,carry_sd_m,side_sd_m,correlation\nfive,200,10,4,1.01\n");
  assert_fails ("odds %s/hole.svg", 1, "bag.csv:2: correlation");
}
END_TEST

START_TEST (odds_add_up_for_an_aim_outside_everything_and_a_ball_far_away)
{
  assert_adds_up ("--club five --aim 5000,5000");
  assert_adds_up ("--club five --from 9000,9000");
}
END_TEST

START_TEST (odds_add_up_whatever_is_drawn)
{
  static const char head[]
      = "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1' viewBox='-200 -400 400 450'>"
        "<circle hw:kind='tee-marker' cx='0' cy='0' r='1'/>";
  static const char *const drawings[] = {
    "",
    "<path hw:kind='bunker' d='M-20,-180 L20,-220 L20,-180 L-20,-220 Z'/>",
    "<path hw:kind='water' fill-rule='evenodd' d='M-30,-100 h60 v-150 h-60 z M-10,-120 h20 v-80 h-20 z M-10,-200 h20 v-30 h-20 "
    "z'/>",
    "<path hw:kind='water' d='M0,-200 l10,0 l0,10 l10,0 l0,10 l-10,0 l0,-10 l-10,0 z'/><path hw:kind='bunker' d='M0,-200 l10,0 "
    "l0,10 z'/>",
    "<path hw:kind='bunker' d='M0,-200 L5,-205'/><path hw:kind='bunker' d='M0,-200 L5,-205 L0,-200 Z'/>",
  };
  for (size_t i = 0; i < G_N_ELEMENTS (drawings); i++)
    {
      g_autofree char *text = g_strconcat (head, drawings[i], "</svg>", NULL);
      write_file ("hole.svg", text);
      assert_adds_up ("--club five --aim 0,200");
    }
}
END_TEST

START_TEST (odds_of_five_thousand_areas_add_up_and_of_a_tangle_are_refused)
{
  g_autoptr (GString) text
      = g_string_new ("<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='1'>"
                      "<circle hw:kind='tee-marker' cx='0' cy='0' r='1'/>");
  gsize head = text->len;
  for (int i = 0; i < 5000; i++)
    g_string_append_printf (text, "<rect hw:kind='bunker' x='%d' y='%d' width='5' height='4'/>", -105 + 3 * (i % 71),
                            -300 + 3 * (i / 71));
  g_string_append (text, "</svg>");
  write_file ("hole.svg", text->str);
  assert_adds_up ("--club five --aim 0,200");
  g_string_truncate (text, head);
  g_string_append (text, "<path hw:kind='water' hw:name='knot' d='M");
  for (int i = 0; i < 4001; i++)
    g_string_append_printf (text, " %.3f,%.3f", 100 * sin (2 * PI * i * 2000 / 4001),
                            -200 + 100 * cos (2 * PI * i * 2000 / 4001));
  g_string_append (text, " Z'/></svg>");
  write_file ("hole.svg", text->str);
  assert_fails ("odds %s/hole.svg --club five --aim 0,200", 1, "crosses itself more often than can be taken apart");
}
END_TEST

START_TEST (documents_that_are_none_are_refused_by_every_command)
{
  static const char *const bad[]
      = { "",
          "not xml",
          "<svg",
          "<html xmlns='http://www.w3.org/1999/xhtml'/>",
          "<svg xmlns='http://www.w3.org/2000/svg' xmlns:hw='urn:holewright:hole:1' hw:version='99'/>",
          "<!DOCTYPE svg [<!ENTITY a 'b'>]><svg xmlns='http://www.w3.org/2000/svg'>&a;</svg>" };
  for (size_t i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      write_file ("hole.svg", bad[i]);
      assert_fails ("carries %s/hole.svg", 1, "hole.svg");
      assert_fails ("card %s/hole.svg -o %s/x.pdf", 1, "hole.svg");
      g_auto (Said) said = run ("check %s/hole.svg --format csv");
      ck_assert_int_eq (said.status, 1);
      ck_assert_ptr_nonnull (strstr (said.out, ",error,"));
      ck_assert (g_str_has_prefix (said.err, "holewright: "));
    }
  g_autofree char *path = path_of ("x.pdf");
  ck_assert (!g_file_test (path, G_FILE_TEST_EXISTS));
}
END_TEST

START_TEST (an_output_that_cannot_be_written_is_refused)
{
  assert_fails ("carries %s/hole.svg -o %s/no/such/folder.csv", 1, "folder.csv");
  assert_fails ("card %s/hole.svg -o %s/no/such/folder.pdf", 1, "folder.pdf");
}
END_TEST

Suite *
suite_make (void)
{
  const struct
  {
    const char *name;
    const TTest *tests[16];
  } cases[] = {
    { "mistakes",
      { wrong_usage_is_named_and_gives_2, an_aim_on_the_ball_is_refused, a_day_that_golf_is_not_played_on_is_refused,
        a_day_is_blamed_on_the_plan_that_holds_it_and_on_an_option_that_asks_for_it,
        names_that_are_not_there_are_answered_with_those_that_are, a_missing_hole_or_bag_is_named,
        a_bag_that_cannot_be_used_is_named_with_its_line, a_club_that_no_ball_flies_like_is_named_with_its_line,
        a_table_of_lies_that_cannot_be_used_is_named_with_its_line,
        whatever_the_day_or_the_aim_no_number_is_missing_from_the_shot,
        a_hole_without_a_tee_is_refused_unless_the_ball_is_given, a_hole_without_a_green_is_refused_unless_the_aim_is_given,
        documents_that_are_none_are_refused_by_every_command, an_output_that_cannot_be_written_is_refused } },
    { "hostile odds",
      { odds_add_up_however_wide_or_narrow_the_balls_scatter, odds_add_up_for_an_aim_outside_everything_and_a_ball_far_away,
        odds_add_up_whatever_is_drawn, odds_of_five_thousand_areas_add_up_and_of_a_tangle_are_refused } },
  };
  Suite *suite = suite_create ("command-mistakes");
  for (size_t i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TCase *tcase = tcase_create (cases[i].name);
      tcase_add_checked_fixture (tcase, set_up, tear_down);
      tcase_set_timeout (tcase, 60);
      for (size_t k = 0; k < G_N_ELEMENTS (cases[i].tests) && cases[i].tests[k] != NULL; k++)
        tcase_add_test (tcase, cases[i].tests[k]);
      suite_add_tcase (suite, tcase);
    }
  return suite;
}
