// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * sketch - a first drawing from par, length and bend.
 *
 * The tee stands at (0,0) and the first leg runs up the sheet. Everything is laid along the route: straight to the pivot, straight on to the middle of the
 * green, with the bend rounded for what is mown.
 */
#include "edit-private.h"

/* What a sketch may ask for. */
#define SHORTEST_M 50.0
#define LONGEST_M 800.0
#define FEWEST_PAR 3
#define MOST_PAR 6
#define NARROWEST_M 10.0
#define WIDEST_M 100.0
#define SHORTEST_LEG_M 20.0
#define FLATTEST_BEND_RAD (PI / 180)
#define SHARPEST_BEND_RAD (PI / 2)

/* Everything from here to the end of the list is common practice. */
#define FAIRWAY_WIDTH_M 30.0
#define BEND_RAD (35 * PI / 180)
#define DRIVE_M 220.0           /* where a drive from the back tee ends: holes bend there */
#define DRIVE_SHARE 0.6         /* ... or here on a hole too short for that */
#define FAIRWAY_FROM_M 110.0    /* a fairway begins this far from the back tee */
#define FAIRWAY_FROM_SHARE 0.35 /* ... or here on a short hole */
#define FAIRWAY_SHORT_M 8.0     /* and ends this far before the green */
#define FAIRWAY_TAPER_M 28.0    /* its ends narrow over this length */
#define FAIRWAY_STEP_M 26.0     /* from node to node along its sides */
#define SHORTEST_FAIRWAY_M 20.0
#define FIRST_CUT_M 4.0 /* width of the first cut beside it */
#define GREEN_DEPTH_M 32.0
#define GREEN_WIDTH_M 26.0
#define GREEN_NODES 10
#define FRINGE_M 1.5
#define TEE_WIDTH_M 8.0
#define TEE_DEPTH_M 12.0
#define TEE_CORNER_M 1.5
#define TEE_BEHIND_M 3.0 /* from the markers back to the middle of the tee */
#define TEE_ASIDE_M 11.0 /* forward tees stand aside of the line */
#define SHEET_MARGIN_M 35.0
/* How far a mown edge swings in and out, as a share of half its width, and the length of a swing. */
#define SWING 0.13
#define SWING_M 190.0
/* The rounded bend leaves the pivot at most this share of half the width off the middle. */
#define PIVOT_OFF 0.4
/* Of the shorter leg, so that straight remains on both sides of the bend. */
#define BEND_OF_LEG 0.8
#define LEAST_RADIUS_M 12.0
/* A strip follows the rounded bend on its inside up to this share of the radius; a corner there is cut by as much as this leaves of it. */
#define WIDEST_SHARE 0.6
#define CORNER_SHARE 0.95
/* Nodes of a side come no nearer to each other than this. */
#define SHORTEST_STEP_M 8.0

void
hole_sketch_init (HoleSketch *sketch)
{
  *sketch = (HoleSketch){
    .par = 4, .length_m = 350, .bend = BEND_NONE, .bend_at_m = NAN, .bend_angle_rad = NAN, .fairway_width_m = NAN
  };
}

/* ---- the route ---- */

typedef struct
{
  double length_m, bend_at_m;
  double turn_rad; /* anticlockwise: a bend to the left */
  Vec2 pivot, direction[2], end;
  double radius_m, tangent_m; /* of the rounded bend; 0 for none */
} Route;

static void
route_init (Route *route, const HoleSketch *sketch, double half_width_m)
{
  *route = (Route){ .length_m = sketch->length_m, .bend_at_m = sketch->length_m / 2, .direction = { { 0, 1 }, { 0, 1 } } };
  if (sketch->bend != BEND_NONE)
    {
      double angle = isnan (sketch->bend_angle_rad) ? BEND_RAD : sketch->bend_angle_rad;
      route->bend_at_m = isnan (sketch->bend_at_m) ? fmin (DRIVE_M, DRIVE_SHARE * sketch->length_m) : sketch->bend_at_m;
      route->turn_rad = sketch->bend == BEND_LEFT ? angle : -angle;
      route->direction[1] = vec2 (-sin (route->turn_rad), cos (route->turn_rad));
      double leg_m = fmin (route->bend_at_m, route->length_m - route->bend_at_m);
      double near_pivot_m = fmax (LEAST_RADIUS_M, PIVOT_OFF * half_width_m / (1 / cos (angle / 2) - 1));
      route->radius_m = fmin (near_pivot_m, BEND_OF_LEG * leg_m / tan (angle / 2));
      route->tangent_m = route->radius_m * tan (angle / 2);
    }
  route->pivot = vec2_scale (route->direction[0], route->bend_at_m);
  route->end = vec2_add (route->pivot, vec2_scale (route->direction[1], route->length_m - route->bend_at_m));
}

/*
 * Place and direction on the rounded route, by distance along the unrounded one. In the bend the angle grows with that distance, so that it comes
 * out whole on the other side.
 */
static Vec2
route_point (const Route *route, double along_m, Vec2 *direction)
{
  double from_pivot_m = along_m - route->bend_at_m;
  int leg = from_pivot_m > 0;
  *direction = route->direction[leg];
  if (fabs (from_pivot_m) >= route->tangent_m)
    return vec2_add (route->pivot, vec2_scale (*direction, from_pivot_m));
  double share = (from_pivot_m / route->tangent_m + 1) / 2, side = route->turn_rad > 0 ? 1 : -1;
  Vec2 start = vec2_sub (route->pivot, vec2_scale (route->direction[0], route->tangent_m));
  Vec2 centre = vec2_add (start, vec2_scale (vec2_left (route->direction[0]), side * route->radius_m));
  Affine turn = affine_rotation (share * route->turn_rad);
  *direction = affine_apply_direction (turn, route->direction[0]);
  return vec2_add (centre, affine_apply_direction (turn, vec2_sub (start, centre)));
}

/* ---- shapes ---- */

/* A closed curve through the points, smooth at each: the tangent follows the neighbours, handles are a third of the way to each. */
static void
smooth_ring (Path *path, const Vec2 *points, size_t n_points)
{
  path_move_to (path, points[0]);
  for (size_t i = 0; i < n_points; i++)
    {
      Vec2 before = points[(i + n_points - 1) % n_points], from = points[i], to = points[(i + 1) % n_points],
           after = points[(i + 2) % n_points];
      double third_m = vec2_distance (from, to) / 3;
      Vec2 leave = vec2_unit (vec2_sub (to, before)), arrive = vec2_unit (vec2_sub (after, from));
      path_cubic_to (path, vec2_add (from, vec2_scale (leave, third_m)), vec2_sub (to, vec2_scale (arrive, third_m)), to);
    }
  path_close (path);
}

static const Part *
seal_on_grid (Part *part)
{
  grid_path (&part->path);
  return part_seal (part);
}

/* A strip along the route between two distances, with rounded ends. */
typedef struct
{
  const Route *route;
  double from_m, to_m, half_width_m;
} Strip;

/* Is the strip at this side of the bend too wide to follow the rounded route? Then its edges there are straight and meet in a corner. */
static bool
has_corner (const Strip *strip, int side)
{
  return strip->route->turn_rad * side > 0 && strip->half_width_m * (1 + SWING) > WIDEST_SHARE * strip->route->radius_m;
}

/* Half the width of one side (+1 left, -1 right) at a place. */
static double
strip_half_width (const Strip *strip, double along_m, int side)
{
  const Route *route = strip->route;
  double swing = SWING * sin (2 * PI * along_m / SWING_M + (side > 0 ? 0.6 : 2.9));
  double half_m = strip->half_width_m * (1 + swing);
  if (along_m != route->bend_at_m || !has_corner (strip, side))
    return half_m;
  double stretch = 1 / cos (route->turn_rad / 2); /* of what is measured square to the legs, along the bisector */
  return half_m * stretch * CORNER_SHARE - route->radius_m * (stretch - 1);
}

/* A node that would lie round the corner. */
static bool
is_beyond_corner (const Strip *strip, double along_m, int side)
{
  double from_bend_m = fabs (along_m - strip->route->bend_at_m);
  return has_corner (strip, side) && from_bend_m > 0
         && from_bend_m < SHORTEST_STEP_M + strip->half_width_m * (1 + SWING) * tan (fabs (strip->route->turn_rad) / 2);
}

static Vec2
strip_edge (const Strip *strip, double along_m, int side)
{
  Vec2 direction, at = route_point (strip->route, along_m, &direction);
  double taper_m = fmin (FAIRWAY_TAPER_M, (strip->to_m - strip->from_m) / 2);
  double from_end = fmin (1, fmin (along_m - strip->from_m, strip->to_m - along_m) / taper_m);
  double round_off = sqrt (fmax (0, 1 - (1 - from_end) * (1 - from_end)));
  return vec2_add (at, vec2_scale (vec2_left (direction), side * round_off * strip_half_width (strip, along_m, side)));
}

/* Distances evenly from `from` to `to`, about a step apart, without the first. */
static void
add_evenly (GArray *along, double from, double to)
{
  double n = fmax (1, round ((to - from) / FAIRWAY_STEP_M));
  for (double i = 1; i <= n; i++)
    {
      double next = from + (to - from) * i / n;
      g_array_append_val (along, next);
    }
}

/* Where the sides have nodes: close together where the ends round off, one at the bend, evenly between. */
static GArray *
strip_nodes (const Strip *strip)
{
  static const double near_tip[] = { 0.12, 0.5, 1 };
  double taper_m = fmin (FAIRWAY_TAPER_M, (strip->to_m - strip->from_m) / 2), bend_m = strip->route->bend_at_m;
  GArray *along = g_array_new (FALSE, FALSE, sizeof (double));
  for (size_t i = 0; i < G_N_ELEMENTS (near_tip); i++)
    {
      double next = strip->from_m + near_tip[i] * taper_m;
      g_array_append_val (along, next);
    }
  double first = strip->from_m + taper_m, last = strip->to_m - taper_m;
  bool is_bent = strip->route->turn_rad != 0 && bend_m > first + SHORTEST_STEP_M && bend_m < last - SHORTEST_STEP_M;
  if (is_bent)
    add_evenly (along, first, bend_m);
  if (last > first + SHORTEST_STEP_M)
    add_evenly (along, is_bent ? bend_m : first, last);
  for (size_t i = G_N_ELEMENTS (near_tip) - 1; i-- > 0;)
    {
      double next = strip->to_m - near_tip[i] * taper_m;
      g_array_append_val (along, next);
    }
  return along;
}

static void
add_edge (GArray *points, const Strip *strip, double along_m, int side)
{
  Vec2 point = strip_edge (strip, along_m, side);
  if (!is_beyond_corner (strip, along_m, side))
    g_array_append_val (points, point);
}

/* The strip's outline anticlockwise from its near tip, as an array of Vec2. */
static GArray *
strip_outline (const Strip *strip)
{
  g_autoptr (GArray) along = strip_nodes (strip);
  GArray *points = g_array_new (FALSE, FALSE, sizeof (Vec2));
  add_edge (points, strip, strip->from_m, 0);
  for (guint i = 0; i < along->len; i++)
    add_edge (points, strip, g_array_index (along, double, i), -1);
  add_edge (points, strip, strip->to_m, 0);
  for (guint i = along->len; i-- > 0;)
    add_edge (points, strip, g_array_index (along, double, i), 1);
  return points;
}

/* A smooth outline through the points of an anticlockwise ring, each moved outwards. */
static const Part *
ring_part (Kind kind, const Vec2 *points, size_t n_points, double outwards_m)
{
  g_autofree Vec2 *moved = g_new (Vec2, n_points);
  for (size_t i = 0; i < n_points; i++)
    {
      Vec2 along = vec2_unit (vec2_sub (points[(i + 1) % n_points], points[(i + n_points - 1) % n_points]));
      moved[i] = vec2_sub (points[i], vec2_scale (vec2_left (along), outwards_m));
    }
  Part *part = part_new (kind);
  smooth_ring (&part->path, moved, n_points);
  grid_path (&part->path);
  return part_seal (part);
}

/* A green's outline round the end of the route, anticlockwise, moved by `shift`. */
static void
green_outline (const Route *route, Vec2 shift, Vec2 points[GREEN_NODES])
{
  Vec2 deep = route->direction[1], left = vec2_left (deep);
  for (int i = 0; i < GREEN_NODES; i++)
    {
      double angle = 2 * PI * i / GREEN_NODES, share = 1 + 0.07 * cos (2 * angle + 0.9) + 0.06 * cos (3 * angle - 0.5);
      Vec2 off = vec2_add (vec2_scale (deep, GREEN_DEPTH_M / 2 * share * sin (angle)),
                           vec2_scale (left, -GREEN_WIDTH_M / 2 * share * cos (angle)));
      points[i] = vec2_add (vec2_add (route->end, shift), off);
    }
}

static const Part *
tee_part (Vec2 marker)
{
  Part *part = part_new (KIND_TEE);
  Box box = { marker.x - TEE_WIDTH_M / 2, marker.y - TEE_BEHIND_M - TEE_DEPTH_M / 2, marker.x + TEE_WIDTH_M / 2,
              marker.y - TEE_BEHIND_M + TEE_DEPTH_M / 2 };
  path_add_rectangle (&part->path, box, TEE_CORNER_M, TEE_CORNER_M);
  return seal_on_grid (part);
}

static const Part *
point_part (Kind kind, const char *name, Vec2 at)
{
  Part *part = part_new (kind);
  part->name = g_strdup (name);
  part->at = grid_point (at);
  part->radius_m = kind_info (kind)->radius_m;
  part->today = kind == KIND_HOLE_LOCATION;
  return part_seal (part);
}

static const Part *
line_part (const Route *route)
{
  Part *part = part_new (KIND_LINE_OF_PLAY);
  path_move_to (&part->path, vec2 (0, 0));
  if (route->turn_rad != 0)
    path_line_to (&part->path, route->pivot);
  path_line_to (&part->path, route->end);
  return seal_on_grid (part);
}

/* ---- the whole ---- */

/* Sets of tees, the back one first: how far forward of it as a share of the length, and which way aside. Common practice. */
static const struct
{
  const char *name;
  double forward, aside;
} tees[] = { { "white", 0, 0 }, { "yellow", 0.05, 1 }, { "red", 0.13, -1 } };

static Vec2
tee_place (const Route *route, size_t i)
{
  return grid_point (vec2 (tees[i].aside * TEE_ASIDE_M, tees[i].forward * route->length_m));
}

static void
add_fairway (GPtrArray *parts, const Route *route, double half_width_m)
{
  Strip strip = { .route = route, .half_width_m = half_width_m };
  strip.from_m = fmin (FAIRWAY_FROM_M, FAIRWAY_FROM_SHARE * route->length_m);
  strip.to_m = route->length_m - GREEN_DEPTH_M / 2 - FAIRWAY_SHORT_M;
  if (strip.to_m - strip.from_m < SHORTEST_FAIRWAY_M)
    return;
  g_autoptr (GArray) outline = strip_outline (&strip);
  const Vec2 *points = (const Vec2 *)outline->data;
  g_ptr_array_add (parts, (gpointer)ring_part (KIND_FIRST_CUT, points, outline->len, FIRST_CUT_M));
  g_ptr_array_add (parts, (gpointer)ring_part (KIND_FAIRWAY, points, outline->len, 0));
}

static void
add_green (GPtrArray *parts, const Route *route)
{
  Vec2 points[GREEN_NODES];
  green_outline (route, vec2 (0, 0), points);
  const Part *draft = ring_part (KIND_GREEN, points, GREEN_NODES, 0);
  Vec2 shift = vec2_sub (route->end, part_position (draft)); /* the hole is measured to the middle of what is drawn */
  part_unref (draft);
  green_outline (route, shift, points);
  g_ptr_array_add (parts, (gpointer)ring_part (KIND_FRINGE, points, GREEN_NODES, FRINGE_M));
  g_ptr_array_add (parts, (gpointer)ring_part (KIND_GREEN, points, GREEN_NODES, 0));
}

static bool
check_sketch (const HoleSketch *sketch, GError **error)
{
  const char *why = NULL;
  double at_m = sketch->bend_at_m, angle = sketch->bend_angle_rad, width_m = sketch->fairway_width_m;
  bool is_bent = sketch->bend != BEND_NONE;
  if (!(sketch->length_m >= SHORTEST_M && sketch->length_m <= LONGEST_M))
    why = "a hole is 50 to 800 metres long (55 to 875 yards); type another length";
  else if (sketch->par < FEWEST_PAR || sketch->par > MOST_PAR)
    why = "par is 3, 4, 5 or 6; choose one of them";
  else if (is_bent && !isnan (at_m) && !(at_m >= SHORTEST_LEG_M && at_m <= sketch->length_m - SHORTEST_LEG_M))
    why = "the bend must lie between tee and green, 20 metres from each; type another distance";
  else if (is_bent && !isnan (angle) && !(angle >= FLATTEST_BEND_RAD && angle <= SHARPEST_BEND_RAD))
    why = "a hole bends by 1 to 90 degrees; type another angle";
  else if (!isnan (width_m) && !(width_m >= NARROWEST_M && width_m <= WIDEST_M))
    why = "a fairway is 10 to 100 metres wide (11 to 109 yards); type another width";
  if (why)
    refuse (error, EDIT_ERROR_NUMBER, why);
  return why == NULL;
}

/* The hole on a sheet of whole metres with room round it. */
static Hole *
hole_on_sheet (const HoleSketch *sketch, const GPtrArray *parts)
{
  HoleInfo info;
  hole_info_init (&info);
  Box sheet = box_empty ();
  for (guint i = 0; i < parts->len; i++)
    sheet = box_union (sheet, ((const Part *)parts->pdata[i])->bounds);
  sheet = box_grown (sheet, SHEET_MARGIN_M);
  info.view_box = (Box){ floor (sheet.x0), floor (sheet.y0), ceil (sheet.x1), ceil (sheet.y1) };
  info.title = clean_text (sketch->title);
  info.number = MAX (sketch->number, 0);
  info.par = sketch->par;
  Hole *hole = hole_new (&info, (const Part *const *)parts->pdata, parts->len, NULL);
  hole_info_clear (&info);
  return hole;
}

Hole *
edit_sketch_hole (const HoleSketch *sketch, GError **error)
{
  if (!check_sketch (sketch, error))
    return NULL;
  double width_m = isnan (sketch->fairway_width_m) ? FAIRWAY_WIDTH_M : sketch->fairway_width_m;
  Route route;
  route_init (&route, sketch, width_m / 2);
  g_autoptr (GPtrArray) parts = g_ptr_array_new ();
  if (sketch->par > FEWEST_PAR)
    add_fairway (parts, &route, width_m / 2);
  for (size_t i = 0; i < G_N_ELEMENTS (tees); i++)
    g_ptr_array_add (parts, (gpointer)tee_part (tee_place (&route, i)));
  add_green (parts, &route);
  g_ptr_array_add (parts, (gpointer)line_part (&route));
  for (size_t i = 0; i < G_N_ELEMENTS (tees); i++)
    g_ptr_array_add (parts, (gpointer)point_part (KIND_TEE_MARKER, tees[i].name, tee_place (&route, i)));
  g_ptr_array_add (parts, (gpointer)point_part (KIND_HOLE_LOCATION, "middle", route.end));
  return hole_on_sheet (sketch, parts);
}

/* ---- an empty sheet ---- */

#define SMALLEST_SHEET_M 20.0
#define LARGEST_SHEET_M 2000.0
/* Of its length, how much of the sheet lies behind the tee. */
#define BEHIND_TEE 0.08

/* A size the sheet can have; what is no number counts as too small. */
static double
sheet_size (double size_m)
{
  return fmin (fmax (SMALLEST_SHEET_M, size_m), LARGEST_SHEET_M);
}

Hole *
edit_empty_hole (double width_m, double length_m)
{
  double width = grid_length (sheet_size (width_m)), length = grid_length (sheet_size (length_m)),
         behind = grid_length (BEHIND_TEE * length);
  HoleInfo info;
  hole_info_init (&info);
  info.view_box = (Box){ grid_length (-width / 2), -behind, grid_length (width / 2), length - behind };
  Hole *hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  return hole;
}
