// SPDX-License-Identifier: GPL-3.0-or-later
/* Parts by themselves, out of a hole and into one, and drawings of other origin: their size, their colours, their kinds. */
#include "suite.h"
#include "svg.h"

#include <string.h>

/* Places are written to a millimetre. */
#define KEPT_M 0.001

static GBytes *
bytes_of (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

static SvgFragment *
read_text (const char *text, GPtrArray **findings)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = bytes_of (text);
  SvgFragment *fragment = svg_read_fragment (bytes, "clipboard", findings, &error);
  ck_assert_msg (fragment != NULL, "%s", error ? error->message : "");
  return fragment;
}

static GBytes *
contents_of (const char *name)
{
  g_autofree char *path = g_build_filename (g_getenv ("HW_TEST_DATA"), "svg", name, NULL);
  GBytes *bytes = svg_read_contents (path, NULL);
  ck_assert_ptr_nonnull (bytes);
  return bytes;
}

static SvgFragment *
read_data (const char *name, GPtrArray **findings)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = contents_of (name);
  SvgFragment *fragment = svg_read_fragment (bytes, name, findings, &error);
  ck_assert_msg (fragment != NULL, "%s", error ? error->message : "");
  return fragment;
}

static Hole *
read_weir (void)
{
  g_autoptr (GBytes) bytes = contents_of ("weir.svg");
  Hole *hole = svg_read_bytes (bytes, "weir.svg", NULL, NULL);
  ck_assert_ptr_nonnull (hole);
  return hole;
}

/* An empty sheet to put things on. */
static Hole *
blank_hole (void)
{
  HoleInfo info;
  hole_info_init (&info);
  Hole *hole = hole_new (&info, NULL, 0, NULL);
  hole_info_clear (&info);
  return hole;
}

static void
near (double value, double expected, double tolerance)
{
  ck_assert_msg (fabs (value - expected) <= tolerance, "%.9g, not %.9g", value, expected);
}

static void
box_is (Box box, double x0, double y0, double x1, double y1)
{
  near (box.x0, x0, KEPT_M);
  near (box.y0, y0, KEPT_M);
  near (box.x1, x1, KEPT_M);
  near (box.y1, y1, KEPT_M);
}

static size_t
find_id (const SvgFragment *fragment, const char *id)
{
  for (size_t i = 0; i < fragment->n_parts; i++)
    if (g_strcmp0 (fragment->parts[i]->id, id) == 0)
      return i;
  ck_abort_msg ("no part has the id %s", id);
  return 0;
}

/* The hole with all the placed parts on top. */
static Hole *
with_parts (const Hole *hole, const GPtrArray *placed)
{
  Hole *all = hole_with_info (hole, hole_info (hole));
  for (guint i = 0; i < placed->len; i++)
    {
      Hole *more = hole_inserting_part (all, hole_n_parts (all), part_ref (placed->pdata[i]));
      hole_unref (all);
      all = more;
    }
  return all;
}

/* ---- drawings in the manner of other programs ---- */

START_TEST (layers_in_millimetres_keep_their_places_through_nested_transforms)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-layers.svg", NULL);
  ck_assert (fragment->is_foreign);
  ck_assert_uint_eq (fragment->n_parts, 6);
  for (size_t i = 0; i < fragment->n_parts; i++)
    ck_assert_int_eq (fragment->parts[i]->kind, KIND_NONE);
  /* By hand: translate (10,20), y turned upwards. A cubic with both handles 40 off its chord reaches 3/4 of that, 30. */
  box_is (fragment->parts[0]->bounds, 30, -250, 70, -190);
  /* rotate (90 40 40) takes (30..50, 36..44) to (36..44, 30..50), then translate (10,20). */
  box_is (fragment->parts[1]->bounds, 46, -70, 54, -50);
  /* (40,60) goes to (20,40), the radii change places; then (30,60). */
  box_is (fragment->parts[2]->bounds, 26, -66, 34, -54);
  /* matrix (2 0 0 -2 100 100) takes (0..5, 0..5) to (100..110, 90..100), then (110..120, 110..120). */
  box_is (fragment->parts[3]->bounds, 110, -120, 120, -110);
}
END_TEST

START_TEST (the_paper_of_a_drawing_in_millimetres_is_known)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-layers.svg", NULL);
  near (fragment->sheet_width, 210, 1e-9);
  near (fragment->sheet_height, 297, 1e-9);
  near (fragment->unit_mm, 1, 1e-9);
  box_is (fragment->extent, 26, -260, 180, -50);
}
END_TEST

START_TEST (a_drawing_in_pixels_knows_no_ruler)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-classes.svg", NULL);
  ck_assert (fragment->is_foreign);
  near (fragment->sheet_width, 800, 1e-9);
  near (fragment->sheet_height, 600, 1e-9);
  ck_assert (isnan (fragment->unit_mm));
}
END_TEST

START_TEST (sizes_are_read_as_the_standard_says)
{
  static const struct
  {
    const char *root;
    double width, height, unit_mm;
  } rows[] = {
    /* CSS 2.1, section 4.3.2: 96 px = 1 in = 25.4 mm = 72 pt. */
    { "width='1in' height='2in'", 96, 192, 25.4 / 96 },
    { "width='72pt' height='72pt' viewBox='0 0 10 10'", 10, 10, 2.54 },
    { "width='21cm' height='29.7cm' viewBox='0 0 21000 29700'", 21000, 29700, 0.01 },
    { "width='300' height='200'", 300, 200, NAN },
    { "width='100%' height='100%' viewBox='0 0 40 30'", 40, 30, NAN },
    /* SVG 1.1, section 7.8: by default the drawing is scaled to fit both ways. */
    { "width='100mm' height='50mm' viewBox='0 0 100 100'", 100, 100, 0.5 },
    { "", NAN, NAN, NAN },
    { "width='wide' height='-3mm'", NAN, NAN, NAN },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text
          = g_strdup_printf ("<svg xmlns='http://www.w3.org/2000/svg' %s><rect width='3' height='3'/></svg>", rows[i].root);
      g_autoptr (SvgFragment) fragment = read_text (text, NULL);
      ck_assert_msg (isnan (rows[i].width) ? isnan (fragment->sheet_width) : fragment->sheet_width == rows[i].width, "%s",
                     rows[i].root);
      ck_assert (isnan (rows[i].height) ? isnan (fragment->sheet_height) : fragment->sheet_height == rows[i].height);
      ck_assert_msg (isnan (rows[i].unit_mm) ? isnan (fragment->unit_mm) : fabs (fragment->unit_mm - rows[i].unit_mm) < 1e-12,
                     "%s: %g", rows[i].root, fragment->unit_mm);
    }
}
END_TEST

START_TEST (hidden_layers_are_left_out_and_what_cannot_be_taken_is_told)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (SvgFragment) layers = read_data ("foreign-layers.svg", &findings);
  ck_assert_uint_eq (findings->len, 1);
  ck_assert_ptr_nonnull (strstr (((Finding *)findings->pdata[0])->what, "1 of the things drawn"));
  g_clear_pointer (&findings, g_ptr_array_unref);
  g_autoptr (SvgFragment) classes = read_data ("foreign-classes.svg", &findings);
  ck_assert_uint_eq (classes->n_parts, 7);
  ck_assert_uint_eq (findings->len, 1);
  ck_assert_ptr_nonnull (strstr (((Finding *)findings->pdata[0])->what, "3 of the things drawn")); /* line, polyline, text */
}
END_TEST

START_TEST (ids_that_a_program_made_up_are_dropped_and_names_are_kept)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-layers.svg", NULL);
  ck_assert_ptr_null (fragment->parts[0]->id);
  ck_assert_ptr_null (fragment->parts[1]->id);
  ck_assert_str_eq (fragment->parts[2]->id, "back-green");
  ck_assert_str_eq (fragment->parts[3]->name, "Deep one");
}
END_TEST

START_TEST (a_rule_of_filling_given_by_a_class_is_kept)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-classes.svg", NULL);
  const Part *ring = fragment->parts[find_id (fragment, "Ring")];
  double area = 0;
  ck_assert (ring->even_odd && outline_measure (ring->outline, &area, NULL));
  near (area, 60 * 60 - 40 * 40, 1e-6);
}
END_TEST

/* ---- files that other programs made: tests/data/svg/README says which ---- */

/* Box of `inkscape --query-all`: x, y, width, height in CSS px, of which 96 make 25.4 mm, y down; the drawing's unit is a millimetre. */
static void
box_is_what_inkscape_says (const SvgFragment *fragment, const char *id, double x, double y, double width, double height)
{
  const double mm = 25.4 / 96;
  box_is (fragment->parts[find_id (fragment, id)]->bounds, x * mm, -(y + height) * mm, (x + width) * mm, -y * mm);
}

START_TEST (a_file_of_inkscape_gives_its_shapes_at_their_sizes)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (SvgFragment) fragment = read_data ("inkscape.svg", &findings);
  ck_assert (fragment->is_foreign);
  ck_assert_uint_eq (fragment->n_parts, 4);
  near (fragment->unit_mm, 1, 1e-9);
  box_is_what_inkscape_says (fragment, "fairway", 245.669, 226.772, 170.079, 680.315);
  box_is_what_inkscape_says (fragment, "pond", 453.543, 521.575, 151.181, 90.7087);
  box_is_what_inkscape_says (fragment, "sand", 189.099, 257.501, 60.2275, 51.927);
  box_is_what_inkscape_says (fragment, "tree-1", 132.283, 737.008, 37.7953, 37.7953);
  ck_assert_uint_eq (fragment->n_colours, 4);
  ck_assert_uint_eq (findings->len, 1);
  ck_assert_ptr_nonnull (strstr (((Finding *)findings->pdata[0])->what, "use"));
}
END_TEST

START_TEST (a_file_of_fig2dev_gives_its_shapes_at_their_sizes)
{
  g_autoptr (GPtrArray) findings = NULL;
  g_autoptr (SvgFragment) fragment = read_data ("fig2dev.svg", &findings);
  ck_assert (fragment->is_foreign);
  ck_assert_uint_eq (fragment->n_parts, 4);
  ck_assert_uint_eq (findings->len, 0);
  /* The corners as drawn, in units of which 1200 make an inch, magnified by 1.05; its paper is rounded to a point of 279. */
  near (fragment->unit_mm, 25.4 / 1200 * 1.05, 25.4 / 1200 * 1.05 * 0.5 / 279 * 2);
  box_is (fragment->parts[0]->bounds, 1800, -8100, 3600, -900);
  box_is (fragment->parts[1]->bounds, 3700, -2700, 4600, -1800);
  box_is (fragment->parts[2]->bounds, 3600, -6300, 5400, -4500);
  ck_assert_uint_eq (fragment->n_colours, 3);
  ck_assert_str_eq (fragment->colours[0].colour, "#f3e0a8"); /* box and spline */
  ck_assert_uint_eq (fragment->colours[0].n_parts, 2);
}
END_TEST

/* ---- colours ---- */

static void
colour_is (const SvgFragment *fragment, size_t i, const char *colour, bool is_stroke, size_t n_parts)
{
  ck_assert_uint_lt (i, fragment->n_colours);
  ck_assert_str_eq (fragment->colours[i].colour, colour);
  ck_assert_int_eq (fragment->colours[i].is_stroke, is_stroke);
  ck_assert_uint_eq (fragment->colours[i].n_parts, n_parts);
}

START_TEST (colours_of_style_attributes_are_listed_with_their_shapes)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-layers.svg", NULL);
  ck_assert_uint_eq (fragment->n_colours, 5);
  colour_is (fragment, 0, "#9cc79b", false, 2); /* rgb (156, 199, 155) and #9CC79B */
  ck_assert_uint_eq (fragment->colours[0].parts[0], 1);
  ck_assert_uint_eq (fragment->colours[0].parts[1], 2);
  colour_is (fragment, 1, "#b9cf96", false, 1);
  colour_is (fragment, 2, "#efe2bd", false, 1);
  colour_is (fragment, 3, "url(#fade)", false, 1);
  colour_is (fragment, 4, "#3f7f9c", true, 1);
}
END_TEST

START_TEST (colours_of_classes_are_listed_with_their_shapes)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-classes.svg", NULL);
  ck_assert_uint_eq (fragment->n_colours, 4);
  colour_is (fragment, 0, "#2e8b57", false, 3); /* CSS Color Module Level 3, section 4.3: seagreen */
  colour_is (fragment, 1, "#b9cf96", false, 2);
  colour_is (fragment, 2, "#dfe3cc", false, 1);
  colour_is (fragment, 3, "#efe2bd", false, 1);
}
END_TEST

START_TEST (every_way_to_write_a_colour_gives_one_text)
{
  static const char *const rows[][2] = {
    { "fill='#F80'", "#ff8800" },
    { "fill='#f80c'", "#ff8800" },
    { "fill='#FF8800'", "#ff8800" },
    { "fill='#ff8800cc'", "#ff8800" },
    { "fill='rgb(255,136,0)'", "#ff8800" },
    { "fill='rgb( 100% , 53.333% , 0% )'", "#ff8800" },
    { "fill='rgb(300 -4 0 / 50%)'", "#ff0000" },
    { "fill='Gray'", "#808080" }, /* CSS Color Module Level 3, section 4.1 */
    { "fill='#12'", "#12" },
    { "fill='hsl(120,50%,50%)'", "hsl(120,50%,50%)" },
    { "", "#000000" }, /* SVG 1.1, section 11.3: black unless said otherwise */
    { "fill='none'", "none" },
    { "fill='transparent'", "none" },
    { "fill='red' fill-opacity='0'", "none" },
    { "color='#010203' fill='currentColor'", "#010203" },
    { "fill='red' style='fill:blue'", "#0000ff" },
    { "fill='red' style='fill : inherit'", "#000000" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text
          = g_strdup_printf ("<svg xmlns='http://www.w3.org/2000/svg'><rect width='3' height='3' %s/></svg>", rows[i][0]);
      g_autoptr (SvgFragment) fragment = read_text (text, NULL);
      ck_assert_msg (strcmp (fragment->colours[0].colour, rows[i][1]) == 0, "%s: %s", rows[i][0], fragment->colours[0].colour);
    }
}
END_TEST

START_TEST (style_sheets_count_in_the_order_of_the_standard)
{
  /* CSS 2.1, section 6.4: ids before classes before elements before presentation attributes; of equals the later. */
  static const char *const rows[][2] = {
    { "rect{fill:#000001}", "#000001" },
    { "*{fill:#000001} .a{fill:#000002} rect{fill:#000003}", "#000002" },
    { ".b{fill:#000001} .a{fill:#000002}", "#000002" },
    { ".a{fill:#000001} .b{fill:#000002}", "#000002" },
    { "rect.a{fill:#000001} .b{fill:#000002}", "#000001" },
    { "#i{fill:#000001} rect.a{fill:#000002}", "#000001" },
    { ".a{fill:#000001}.a{stroke:red}", "#000001" },
    { ".a , .c { fill : #000001 ; } ;", "#000001" },
    { "@import url(x.css); .a{fill:#000001}", "#000001" },
    { "@media screen{.a{fill:#000001}} .b{fill:#000002}", "#000002" },
    { "/* .a{ */ .b{fill:#000002} /* unfinished", "#000002" },
    { ".a{fill:#000001", "#000001" },
    { "}}{{;.", "#ffffff" },
    { "g .a{fill:#000001} .a:hover{fill:#000002}", "#ffffff" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("<svg xmlns='http://www.w3.org/2000/svg'><style>%s</style>"
                                               "<rect id='i' class='a b' fill='#fff' width='3' height='3'/></svg>",
                                               rows[i][0]);
      g_autoptr (SvgFragment) fragment = read_text (text, NULL);
      ck_assert_msg (strcmp (fragment->colours[0].colour, rows[i][1]) == 0, "%s: %s", rows[i][0], fragment->colours[0].colour);
    }
}
END_TEST

/* ---- into a hole ---- */

START_TEST (a_foreign_drawing_lies_at_the_scale_that_was_asked_for)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-layers.svg", NULL);
  g_autoptr (Hole) hole = blank_hole ();
  double width = fragment->extent.x1 - fragment->extent.x0; /* 154 units: to be 308 m */
  g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, hole, NULL, 308 / width, vec2 (10, 200), NULL);
  Box all = box_empty ();
  for (guint i = 0; i < placed->len; i++)
    all = box_union (all, ((const Part *)placed->pdata[i])->bounds);
  box_is (all, 10 - 154, 200 - 210, 10 + 154, 200 + 210);
  g_autoptr (Hole) with = with_parts (hole, placed);
  g_autoptr (GBytes) written = svg_write_bytes (with, NULL);
  g_autoptr (Hole) back = svg_read_bytes (written, "back.svg", NULL, NULL);
  ck_assert_uint_eq (hole_n_parts (back), 6);
  for (size_t i = 0; i < 6; i++)
    ck_assert_msg (part_equal (hole_part (back, i), placed->pdata[i]), "part %zu", i);
}
END_TEST

START_TEST (kinds_are_given_by_colour)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-classes.svg", NULL);
  static const struct
  {
    const char *colour;
    Kind kind;
  } rows[] = {
    { "#2e8b57", KIND_TREE },
    { "#b9cf96", KIND_FAIRWAY },
    { "#dfe3cc", SVG_LEAVE_OUT },
    { "#efe2bd", KIND_BUNKER },
  };
  Kind kinds[7];
  for (size_t c = 0; c < fragment->n_colours; c++)
    for (size_t i = 0; i < fragment->colours[c].n_parts; i++)
      for (size_t r = 0; r < G_N_ELEMENTS (rows); r++)
        if (strcmp (rows[r].colour, fragment->colours[c].colour) == 0)
          kinds[fragment->colours[c].parts[i]] = rows[r].kind;
  g_autoptr (Hole) hole = blank_hole ();
  Vec2 middle = box_centre (fragment->extent);
  g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, hole, kinds, 1, middle, NULL);
  ck_assert_uint_eq (placed->len, 6);
  const Part *const *parts = (const Part *const *)placed->pdata;
  ck_assert_int_eq (parts[0]->kind, KIND_FAIRWAY);
  ck_assert_int_eq (parts[2]->kind, KIND_BUNKER);
  ck_assert (parts[2]->even_odd);
  ck_assert_int_eq (parts[5]->kind, KIND_TREE); /* matrix (0.5 0 0 0.5 400 100) of (80,20), radius 12 */
  near (parts[5]->at.x, 440, KEPT_M);
  near (parts[5]->at.y, -110, KEPT_M);
  near (parts[5]->radius_m, 6, KEPT_M);
}
END_TEST

START_TEST (a_shape_becomes_a_line_or_a_point_but_not_a_note)
{
  g_autoptr (SvgFragment) fragment = read_text (
      "<svg xmlns='http://www.w3.org/2000/svg'><path d='M0 0L0-300'/><circle cx='4' cy='-300' r='3'/></svg>", NULL);
  g_autoptr (Hole) hole = blank_hole ();
  Vec2 middle = box_centre (fragment->extent);
  const Kind good[] = { KIND_LINE_OF_PLAY, KIND_HOLE_LOCATION }, bad[] = { KIND_NOTE, KIND_GREEN };
  g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, hole, good, 1, middle, NULL);
  const Part *line = placed->pdata[0], *point = placed->pdata[1];
  ck_assert_uint_eq (line->path.n_segs, 2);
  near (line->path.segs[1].to.y, 300, KEPT_M);
  near (point->at.x, 4, KEPT_M);
  near (point->at.y, 300, KEPT_M);
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_fragment_place (fragment, hole, bad, 1, middle, &error));
  ck_assert_ptr_nonnull (strstr (error->message, "cannot become a note; "));
}
END_TEST

START_TEST (scales_that_are_none_are_refused)
{
  g_autoptr (SvgFragment) fragment = read_data ("foreign-classes.svg", NULL);
  g_autoptr (Hole) hole = blank_hole ();
  const double scales[] = { 0, -1, NAN, INFINITY, 1e300, 1e5 };
  for (size_t i = 0; i < G_N_ELEMENTS (scales); i++)
    {
      g_autoptr (GError) error = NULL;
      ck_assert_ptr_null (svg_fragment_place (fragment, hole, NULL, scales[i], vec2 (0, 0), &error));
      ck_assert_ptr_nonnull (strstr (error->message, "; "));
    }
  Kind none[7];
  for (size_t i = 0; i < 7; i++)
    none[i] = SVG_LEAVE_OUT;
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_fragment_place (fragment, hole, none, 1, vec2 (0, 0), &error));
  ck_assert_ptr_nonnull (strstr (error->message, "left out; "));
}
END_TEST

/* ---- between holes ---- */

START_TEST (copied_parts_come_back_with_all_their_facts)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t n = hole_n_parts (hole);
  g_autofree size_t *all = g_new (size_t, n);
  for (size_t i = 0; i < n; i++)
    all[i] = n - 1 - i; /* any order */
  g_autoptr (GBytes) bytes = svg_write_fragment (hole, all, n, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (SvgFragment) fragment = svg_read_fragment (bytes, "clipboard", NULL, &error);
  ck_assert_msg (fragment != NULL, "%s", error ? error->message : "");
  ck_assert (!fragment->is_foreign);
  ck_assert_uint_eq (fragment->n_parts, n);
  for (size_t i = 0; i < n; i++)
    {
      const Part *part = hole_part (hole, i), *back = fragment->parts[i];
      ck_assert_int_eq (back->kind, part->kind);
      ck_assert_uint_eq (back->node, 0);
      if (kind_info (part->kind)->shape == SHAPE_POINT || kind_info (part->kind)->shape == SHAPE_PLAN)
        ck_assert_msg (part_equal (part, back), "part %zu", i);
      ck_assert_str_eq (part->id ? part->id : "", back->id ? back->id : "");
      ck_assert_str_eq (part->name ? part->name : "", back->name ? back->name : "");
      ck_assert (part->stakes == back->stakes && part->stakes_given == back->stakes_given);
      ck_assert_str_eq (part->text ? part->text : "", back->text ? back->text : "");
      near (back->bounds.x0, part->bounds.x0, KEPT_M);
      near (back->bounds.y1, part->bounds.y1, KEPT_M);
    }
}
END_TEST

START_TEST (a_fragment_is_a_small_document_cut_to_its_parts)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t pond = (size_t)hole_find (hole, "Weir pond");
  g_autoptr (GBytes) bytes = svg_write_fragment (hole, &pond, 1, NULL);
  ck_assert_uint_lt (g_bytes_get_size (bytes), 1000);
  g_autoptr (Hole) back = svg_read_bytes (bytes, "clipboard", NULL, NULL);
  Box bounds = hole_part (hole, pond)->bounds, view = hole_info (back)->view_box;
  box_is (view, bounds.x0 - 1, bounds.y0 - 1, bounds.x1 + 1, bounds.y1 + 1);
  ck_assert_ptr_null (hole_info (back)->title);
}
END_TEST

START_TEST (pasting_into_the_same_hole_never_repeats_an_id)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t parts[2] = { (size_t)hole_find (hole, "Weir pond"), (size_t)hole_find (hole, "left-bunker") };
  g_autoptr (GBytes) bytes = svg_write_fragment (hole, parts, 2, NULL);
  g_autoptr (SvgFragment) fragment = svg_read_fragment (bytes, "clipboard", NULL, NULL);
  g_autoptr (Hole) now = hole_ref (hole);
  for (int round = 0; round < 2; round++)
    {
      g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, now, NULL, 1, vec2 (0, 100), NULL);
      Hole *more = with_parts (now, placed);
      hole_unref (now);
      now = more;
    }
  size_t n = hole_n_parts (now);
  ck_assert_str_eq (hole_part (now, n - 1)->id, "pond-3");
  ck_assert_str_eq (hole_part (now, n - 3)->id, "pond-2");
  ck_assert_str_eq (hole_part (now, n - 1)->name, "Weir pond");
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) written = svg_write_bytes (now, &error);
  g_autoptr (Hole) back = svg_read_bytes (written, "back.svg", NULL, &error);
  ck_assert_msg (back != NULL, "%s", error ? error->message : "");
}
END_TEST

START_TEST (ids_of_elements_that_are_no_parts_are_not_taken_either)
{
  g_autoptr (Hole) hole = read_weir (); /* its gradient is called sheen */
  g_autoptr (SvgFragment) fragment
      = read_text ("<svg xmlns='http://www.w3.org/2000/svg'><rect id='sheen' width='3' height='3'/></svg>", NULL);
  g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, hole, NULL, 1, vec2 (0, 0), NULL);
  ck_assert_str_eq (((const Part *)placed->pdata[0])->id, "sheen-2");
}
END_TEST

START_TEST (placing_moves_every_point_of_every_kind_alike)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t n = hole_n_parts (hole);
  g_autofree size_t *all = g_new (size_t, n);
  for (size_t i = 0; i < n; i++)
    all[i] = i;
  g_autoptr (GBytes) bytes = svg_write_fragment (hole, all, n, NULL);
  g_autoptr (SvgFragment) fragment = svg_read_fragment (bytes, "clipboard", NULL, NULL);
  Vec2 middle = vec2_add (box_centre (fragment->extent), vec2 (7, -3));
  g_autoptr (GPtrArray) placed = svg_fragment_place (fragment, hole, NULL, 1, middle, NULL);
  for (size_t i = 0; i < n; i++)
    {
      Box before = fragment->parts[i]->bounds, after = ((const Part *)placed->pdata[i])->bounds;
      near (after.x0, before.x0 + 7, 2 * KEPT_M);
      near (after.y1, before.y1 - 3, 2 * KEPT_M);
    }
}
END_TEST

START_TEST (parts_that_share_an_id_are_copied_all_the_same)
{
  g_autoptr (Hole) hole = read_weir ();
  size_t pond = (size_t)hole_find (hole, "Weir pond");
  g_autoptr (Hole) doubled = hole_inserting_part (hole, pond, part_ref (hole_part (hole, pond)));
  const size_t both[2] = { pond, pond + 1 };
  g_autoptr (GBytes) bytes = svg_write_fragment (doubled, both, 2, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (SvgFragment) fragment = svg_read_fragment (bytes, "clipboard", NULL, &error);
  ck_assert_msg (fragment && fragment->n_parts == 2, "%s", error ? error->message : "");
}
END_TEST

/* ---- what is no drawing ---- */

static void
refuses (GBytes *bytes, const char *why)
{
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_read_fragment (bytes, "clipboard", NULL, &error));
  ck_assert_msg (g_str_has_prefix (error->message, "clipboard:") && strstr (error->message, why)
                     && strstr (error->message, "; ") && !strchr (error->message, '\n'),
                 "%s", error->message);
}

START_TEST (nothing_and_garbage_are_refused_in_one_sentence)
{
  static const char *const rows[][2] = {
    { "", "empty" },
    { "hello", "does not begin as XML" },
    { "<html><body>hello</body></html>", "not svg" },
    { "<svg xmlns='http://www.w3.org/2000/svg'/>", "no closed shape" },
    { "<svg xmlns='http://www.w3.org/2000/svg'><text>x</text></svg>", "no closed shape" },
    { "<svg xmlns='http://www.w3.org/2000/svg'><rect width='3' height='3' display='none'/></svg>", "no closed shape" },
    { "<svg xmlns='http://www.w3.org/2000/svg'><rect width='3'", "not well-formed" },
    { "\x89PNG\r\n", "" },
  };
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GBytes) bytes = bytes_of (rows[i][0]);
      refuses (bytes, rows[i][1]);
    }
  g_autoptr (Hole) hole = read_weir ();
  g_autoptr (GError) error = NULL;
  ck_assert_ptr_null (svg_write_fragment (hole, NULL, 0, &error));
  ck_assert_ptr_nonnull (strstr (error->message, "nothing is selected; "));
}
END_TEST

/* A document of about so many bytes, in paths of about so many each. */
static GBytes *
long_drawing (size_t size, size_t path_size)
{
  GString *text = g_string_new ("<svg xmlns='http://www.w3.org/2000/svg'>");
  while (text->len < size)
    {
      size_t end = text->len + path_size;
      g_string_append (text, "<path d='M0 0");
      while (text->len < end)
        g_string_append (text, "L12.5 -7.25L3 4");
      g_string_append (text, "z'/>\n");
    }
  g_string_append (text, "</svg>");
  return g_string_free_to_bytes (text);
}

START_TEST (thirty_megabytes_are_refused_in_one_sentence)
{
  g_autoptr (GBytes) many = long_drawing (30 * 1000 * 1000, 2000), one = long_drawing (30 * 1000 * 1000, 30 * 1000 * 1000);
  g_autoptr (GBytes) huge = long_drawing (SVG_MOST_BYTES, 2000);
  refuses (many, "200000 path segments");
  refuses (one, "200000 path segments");
  refuses (huge, "larger than 32 MiB");
}
END_TEST

Suite *
suite_make (void)
{
  Suite *suite = suite_create ("svg-fragment");
  TCase *foreign = tcase_create ("drawings of other programs");
  tcase_add_test (foreign, layers_in_millimetres_keep_their_places_through_nested_transforms);
  tcase_add_test (foreign, the_paper_of_a_drawing_in_millimetres_is_known);
  tcase_add_test (foreign, a_drawing_in_pixels_knows_no_ruler);
  tcase_add_test (foreign, sizes_are_read_as_the_standard_says);
  tcase_add_test (foreign, hidden_layers_are_left_out_and_what_cannot_be_taken_is_told);
  tcase_add_test (foreign, ids_that_a_program_made_up_are_dropped_and_names_are_kept);
  tcase_add_test (foreign, a_rule_of_filling_given_by_a_class_is_kept);
  tcase_add_test (foreign, a_file_of_inkscape_gives_its_shapes_at_their_sizes);
  tcase_add_test (foreign, a_file_of_fig2dev_gives_its_shapes_at_their_sizes);
  suite_add_tcase (suite, foreign);
  TCase *colours = tcase_create ("colours");
  tcase_add_test (colours, colours_of_style_attributes_are_listed_with_their_shapes);
  tcase_add_test (colours, colours_of_classes_are_listed_with_their_shapes);
  tcase_add_test (colours, every_way_to_write_a_colour_gives_one_text);
  tcase_add_test (colours, style_sheets_count_in_the_order_of_the_standard);
  suite_add_tcase (suite, colours);
  TCase *placing = tcase_create ("into a hole");
  tcase_add_test (placing, a_foreign_drawing_lies_at_the_scale_that_was_asked_for);
  tcase_add_test (placing, kinds_are_given_by_colour);
  tcase_add_test (placing, a_shape_becomes_a_line_or_a_point_but_not_a_note);
  tcase_add_test (placing, scales_that_are_none_are_refused);
  suite_add_tcase (suite, placing);
  TCase *holes = tcase_create ("between holes");
  tcase_add_test (holes, copied_parts_come_back_with_all_their_facts);
  tcase_add_test (holes, a_fragment_is_a_small_document_cut_to_its_parts);
  tcase_add_test (holes, pasting_into_the_same_hole_never_repeats_an_id);
  tcase_add_test (holes, ids_of_elements_that_are_no_parts_are_not_taken_either);
  tcase_add_test (holes, placing_moves_every_point_of_every_kind_alike);
  tcase_add_test (holes, parts_that_share_an_id_are_copied_all_the_same);
  suite_add_tcase (suite, holes);
  TCase *mistakes = tcase_create ("what is no drawing");
  tcase_set_timeout (mistakes, 60);
  tcase_add_test (mistakes, nothing_and_garbage_are_refused_in_one_sentence);
  tcase_add_test (mistakes, thirty_megabytes_are_refused_in_one_sentence);
  suite_add_tcase (suite, mistakes);
  return suite;
}
