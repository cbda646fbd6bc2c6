// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * input - the hole, the bag and the shot that a command line names, with one sentence for whatever is missing.
 */
#include "command-private.h"
#include "svg.h"

#include <string.h>

/* Closer than this, two places typed or drawn are the same (files keep 1 mm). */
#define SAME_PLACE_M 1e-3

static bool
input_error (GError **error, const char *path, const char *what)
{
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s:1: %s", path, what);
  return false;
}

Hole *
input_hole (const char *path, FILE *err, GError **error)
{
  g_autoptr (GPtrArray) findings = NULL;
  Hole *hole = svg_read_file (path, &findings, error);
  for (guint i = 0; hole != NULL && findings != NULL && i < findings->len; i++)
    {
      const Finding *finding = g_ptr_array_index (findings, i);
      g_autofree char *message = g_strdup_printf ("%s:%u: %s; %s", path, MAX (finding->line, 1), finding->what, finding->mend);
      message_print (err, message);
    }
  return hole;
}

bool
input_is_course (const char *path)
{
  g_autofree char *base = g_path_get_basename (path);
  return g_file_test (path, G_FILE_TEST_IS_DIR) || strcmp (base, "course.xml") == 0;
}

/* The bag that --bag names, else bag.csv in the folder of the hole. Free with g_free. */
static char *
bag_path (const Options *options, const char *beside)
{
  if (options->bag != NULL)
    return g_strdup (options->bag);
  g_autofree char *folder = g_file_test (beside, G_FILE_TEST_IS_DIR) ? g_strdup (beside) : g_path_get_dirname (beside);
  return g_build_filename (folder, "bag.csv", NULL);
}

void
input_bag_warnings (const Bag *bag, FILE *err)
{
  for (const char *const *warning = bag_warnings (bag); *warning != NULL; warning++)
    message_print (err, *warning);
}

Bag *
input_lies (const Options *options, Bag *bag, GError **error)
{
  LieTable lies;
  if (options->lies == NULL)
    return bag_ref (bag);
  return lie_table_read_file (options->lies, &lies, error) ? bag_with_lies (bag, &lies) : NULL;
}

Bag *
input_bag (const Options *options, const char *beside, bool needed, FILE *err, GError **error)
{
  g_autofree char *path = bag_path (options, beside);
  if (options->bag == NULL && !g_file_test (path, G_FILE_TEST_EXISTS))
    {
      if (needed)
        g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT,
                     "%s: no bag was named and there is no bag.csv beside the hole; name one with --bag FILE", beside);
      return NULL;
    }
  g_autoptr (Bag) bag = bag_read_file (path, options->level, error);
  if (bag == NULL)
    return NULL;
  input_bag_warnings (bag, err);
  return input_lies (options, bag, error);
}

/* ---- the shot ---- */

/* "X,Y" in metres; false for anything else. */
static bool
scan_place (const char *text, Vec2 *place)
{
  size_t used = units_scan_number (text, &place->x);
  if (used == 0)
    return false;
  text += used;
  while (*text == ' ')
    text++;
  return *text == ',' && units_parse_number (text + 1, &place->y);
}

static bool
find_place (const char *option, const char *text, const char *path, const Hole *hole, Vec2 *place, GError **error)
{
  if (scan_place (text, place))
    {
      if (fabs (place->x) <= SVG_LARGEST_M && fabs (place->y) <= SVG_LARGEST_M)
        return true;
      g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_USAGE, "%s '%s' is no place on a hole; give metres in the hole frame",
                   option, text);
      return false;
    }
  int part = hole_find (hole, text);
  if (part >= 0)
    {
      *place = part_position (hole_part (hole, (size_t)part));
      return true;
    }
  g_autofree char *what
      = g_strdup_printf ("nothing on the hole is called '%s'; give %s a name of the drawing or X,Y in metres, such as %s "
                         "-14,205",
                         text, option, option);
  return input_error (error, path, what);
}

/* "white, yellow" - the names of all parts of a kind. */
static char *
names_of (const Hole *hole, Kind kind)
{
  g_autoptr (GString) names = g_string_new (NULL);
  char buffer[128];
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->kind == kind)
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "",
                              part_label (hole_part (hole, i), buffer, sizeof buffer));
  return g_strdup (names->str);
}

/* Is there the tee marker asked for, or any? `or_else` is what may be done without one. */
static bool
check_tee (const Options *options, const char *path, const Hole *hole, const char *or_else, GError **error)
{
  if (hole_tee (hole, options->tee) >= 0)
    return true;
  g_autofree char *names = names_of (hole, KIND_TEE_MARKER);
  g_autofree char *what
      = hole_tee (hole, NULL) < 0
            ? g_strconcat ("the hole has no tee marker; draw a circle with hw:kind=\"tee-marker\"", or_else, NULL)
            : g_strdup_printf ("there is no tee marker '%s'; the hole has %s",
                               options->tee != NULL ? options->tee : "of the plan", names);
  return input_error (error, path, what);
}

static bool
check_hole_location (const Options *options, const char *path, const Hole *hole, GError **error)
{
  if (options->hole == NULL || hole_hole_location (hole, options->hole) >= 0)
    return true;
  g_autofree char *names = names_of (hole, KIND_HOLE_LOCATION);
  g_autofree char *what = g_strdup_printf ("there is no hole location '%s'; the hole has %s", options->hole,
                                           *names != '\0' ? names : "none: draw a circle with hw:kind=\"hole-location\"");
  return input_error (error, path, what);
}

bool
input_names (const Options *options, const char *path, const Hole *hole, GError **error)
{
  return check_tee (options, path, hole, "", error) && check_hole_location (options, path, hole, error);
}

static bool
find_ball (const Options *options, const char *path, const Hole *hole, Vec2 *ball, GError **error)
{
  if (options->from != NULL)
    return find_place ("--from", options->from, path, hole, ball, error);
  if (!check_tee (options, path, hole, ", or say where the ball lies with --from", error))
    return false;
  *ball = part_position (hole_part (hole, (size_t)hole_tee (hole, options->tee)));
  return true;
}

static bool
find_aim (const Options *options, const char *path, const Hole *hole, Vec2 *aim, GError **error)
{
  if (!check_hole_location (options, path, hole, error))
    return false;
  if (options->aim != NULL)
    return find_place ("--aim", options->aim, path, hole, aim, error);
  if (hole_green (hole, options->hole) < 0)
    return input_error (
        error, path,
        "the hole has no green to aim at; draw an area with hw:kind=\"green\", or say where the shot is aimed with --aim");
  if (!hole_target (hole, options->hole, aim))
    return input_error (
        error, path,
        "the hole has neither a hole location nor a green with a middle; draw one, or say where the shot is aimed with --aim");
  return true;
}

/* The plan's first shot where ball and aim are its own, else NULL. */
static const Shot *
planned_shot (const Hole *hole, Vec2 ball, Vec2 aim)
{
  int plan = hole_plan (hole);
  const Part *part = plan >= 0 ? hole_part (hole, (size_t)plan) : NULL;
  if (part == NULL || part->n_shots == 0)
    return NULL;
  const Shot *shot = &part->shots[0];
  return vec2_distance (shot->from, ball) < SAME_PLACE_M && vec2_distance (shot->aim, aim) < SAME_PLACE_M ? shot : NULL;
}

static const Club *
find_club (const char *path, const Bag *bag, const char *name, GError **error)
{
  const Club *club = bag_find (bag, name);
  if (club != NULL)
    return club;
  g_autoptr (GString) known = g_string_new (NULL);
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    g_string_append_printf (known, "%s%s", i == 0 ? "" : ", ", bag_club (bag, i)->name);
  g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s: the bag has no club '%s'; give one of %s", path, name,
               known->str);
  return NULL;
}

/* The share of a full swing that lands on the aim on this day. */
static bool
fit_swing (const char *path, const Hole *hole, ShotInput *shot, GError **error)
{
  ShotResult full;
  shot->swing = 1;
  if (!odds_shot (hole, NULL, shot, &full, error))
    {
      g_prefix_error (error, "%s:1: ", path);
      return false;
    }
  shot->swing = odds_fit_swing (shot->club, full.plays_m);
  return true;
}

static bool
choose_club (const Options *options, const char *path, const Hole *hole, const Bag *bag, ShotInput *shot, GError **error)
{
  g_autofree char *bag_name = bag_path (options, path);
  const Shot *planned = planned_shot (hole, shot->ball, shot->aim);
  shot->swing = 1;
  shot->shape = planned != NULL ? planned->shape : SHOT_STRAIGHT;
  shot->curve_m = planned != NULL ? planned->curve_m : NAN;
  if (options->club != NULL)
    shot->club = find_club (bag_name, bag, options->club, error);
  else if (planned != NULL && planned->club != NULL)
    {
      shot->swing = planned->swing;
      shot->club = find_club (bag_name, bag, planned->club, error);
    }
  else
    {
      bool from_tee = options->from == NULL || odds_lie (hole, shot->ball) == LIE_TEE;
      shot->club = odds_choose_club (hole, shot->ball, shot->aim, bag, shot->conditions, from_tee, &shot->swing);
      if (shot->club == NULL)
        g_set_error (error, COMMAND_ERROR, COMMAND_ERROR_INPUT, "%s: the bag has no club for this shot; name one with --club",
                     bag_name);
    }
  if (shot->club == NULL)
    return false;
  if (isnan (options->swing))
    return fit_swing (path, hole, shot, error);
  if (options->swing > 0)
    shot->swing = options->swing;
  return true;
}

static char *
shot_title (const Options *options, const Hole *hole, const ShotInput *shot)
{
  char label[128], share[32];
  int tee = hole_tee (hole, options->tee);
  const char *from = options->from != NULL ? options->from : part_label (hole_part (hole, (size_t)tee), label, sizeof label);
  const char *aim = options->aim != NULL ? options->aim : (options->hole != NULL ? options->hole : "the hole");
  if (shot->swing == 1)
    return g_strdup_printf ("Shot: %s, full swing, from %s, aimed at %s", shot->club->name, from, aim);
  return g_strdup_printf ("Shot: %s, %s %% of a full swing, from %s, aimed at %s", shot->club->name,
                          units_print_decimals (100 * shot->swing, 1, share, sizeof share), from, aim);
}

bool
input_shot (const Options *options, const char *path, const Hole *hole, const Bag *bag, const Conditions *conditions,
            ShotInput *shot, char **title, GError **error)
{
  *shot = (ShotInput){ .conditions = conditions, .lies = bag_lies (bag) };
  if (!find_ball (options, path, hole, &shot->ball, error) || !find_aim (options, path, hole, &shot->aim, error))
    return false;
  if (vec2_distance (shot->ball, shot->aim) < SAME_PLACE_M)
    return input_error (error, path, "the aim is on the ball; give --aim another place, or --from");
  if (!choose_club (options, path, hole, bag, shot, error))
    return false;
  *title = shot_title (options, hole, shot);
  return true;
}
