// SPDX-License-Identifier: GPL-3.0-or-later
/* draw-ink - what Draw inks over the hole: the selection with its nodes and frame, what is being drawn, snaps and live distances. */
#include "tool-draw.h"

#include <glib/gi18n.h>

/* Sizes on the drawing, px. */
#define NODE_PX 3.5
/* Where nodes stand closer together than this, they are drawn smaller, down to LEAST_NODE_PX. */
#define NODE_ROOM_PX 12.0
#define LEAST_NODE_PX 1.8
#define HANDLE_PX 3.0
#define CORNER_PX 4.0
#define POINT_RING_PX 9.0
#define CROSS_PX 9.0
#define LABEL_AWAY_PX 16.0
#define LABEL_PAD_PX 5.0
/* Room for the frame with its knob round what is selected. */
#define FRAME_ROOM_PX (HW_FRAME_ROOM_PX + HW_KNOB_ROOM_PX + 8)

typedef struct
{
  HwCanvas *canvas;
  HwDesk *desk;
  HwGesture *gesture;
  const RenderView *view;
  Affine to_px;
  Hole *hole;
  PangoLayout *words; /* beside the pointer; NULL when there are none */
  Box words_box;      /* their plate, px */
  cairo_t *cr;
} Ink;

static void
use_accent (cairo_t *cr, double alpha)
{
  cairo_set_source_rgba (cr, 0x8a / 255.0, 0x2f / 255.0, 0x6b / 255.0, alpha);
}

static void
use_paper (cairo_t *cr, double alpha)
{
  cairo_set_source_rgba (cr, 0xfd / 255.0, 0xfc / 255.0, 0xf9 / 255.0, alpha);
}

static void
trace (const Ink *ink, const Path *path)
{
  for (size_t i = 0; i < path->n_segs; i++)
    {
      const PathSeg *seg = &path->segs[i];
      Vec2 to = affine_apply (ink->to_px, seg->to), c1 = affine_apply (ink->to_px, seg->c1),
           c2 = affine_apply (ink->to_px, seg->c2);
      if (seg->kind == SEG_MOVE)
        cairo_move_to (ink->cr, to.x, to.y);
      else if (seg->kind == SEG_LINE)
        cairo_line_to (ink->cr, to.x, to.y);
      else if (seg->kind == SEG_CUBIC)
        cairo_curve_to (ink->cr, c1.x, c1.y, c2.x, c2.y, to.x, to.y);
      else
        cairo_close_path (ink->cr);
    }
}

/* A line that can be told from any wash: paper beneath, accent on it. */
static void
stroke_accent (const Ink *ink, double width_px, double alpha)
{
  use_paper (ink->cr, 0.8 * alpha);
  cairo_set_line_width (ink->cr, width_px + 2);
  cairo_stroke_preserve (ink->cr);
  use_accent (ink->cr, alpha);
  cairo_set_line_width (ink->cr, width_px);
  cairo_stroke (ink->cr);
}

static void
ink_part (const Ink *ink, size_t i, double width_px, double alpha)
{
  const Part *part = hole_part (ink->hole, i);
  PartShape shape = kind_info (part->kind)->shape;
  cairo_new_path (ink->cr);
  if (shape == SHAPE_AREA || shape == SHAPE_LINE)
    trace (ink, &part->path);
  else if (shape == SHAPE_POINT || shape == SHAPE_TEXT)
    {
      Vec2 at = affine_apply (ink->to_px, part->at);
      double radius_px = part->kind == KIND_TREE ? part->radius_m * ink->view->px_per_m : 0;
      cairo_arc (ink->cr, at.x, at.y, fmax (radius_px, POINT_RING_PX), 0, 2 * PI);
    }
  else
    for (int corner = 0; corner < 4; corner++)
      {
        Box box = part->bounds;
        Vec2 at = affine_apply (ink->to_px, vec2 (corner == 1 || corner == 2 ? box.x1 : box.x0, corner >= 2 ? box.y1 : box.y0));
        cairo_line_to (ink->cr, at.x, at.y);
        if (corner == 3)
          cairo_close_path (ink->cr);
      }
  stroke_accent (ink, width_px, alpha);
}

void
hw_draw_lines_of_play (cairo_t *cr, const Hole *hole, const RenderView *view)
{
  static const double dash[] = { 7, 4 };
  Ink ink = { .view = view, .to_px = view_to_drawing (view), .cr = cr };
  for (size_t i = 0; i < hole_n_parts (hole); i++)
    if (hole_part (hole, i)->kind == KIND_LINE_OF_PLAY)
      {
        cairo_new_path (cr);
        trace (&ink, &hole_part (hole, i)->path);
        use_paper (cr, 0.7);
        cairo_set_line_width (cr, 3);
        cairo_stroke_preserve (cr);
        cairo_set_dash (cr, dash, 2, 0);
        cairo_set_source_rgb (cr, 0x22 / 255.0, 0x30 / 255.0, 0x3c / 255.0);
        cairo_set_line_width (cr, 1.2);
        cairo_stroke (cr);
        cairo_set_dash (cr, NULL, 0, 0);
      }
}

/* ---- nodes ---- */

static void
ink_handle (const Ink *ink, Vec2 node_px, Vec2 handle)
{
  Vec2 at = affine_apply (ink->to_px, handle);
  if (vec2_distance (at, node_px) < 1)
    return;
  cairo_move_to (ink->cr, node_px.x, node_px.y);
  cairo_line_to (ink->cr, at.x, at.y);
  cairo_set_line_width (ink->cr, 1);
  use_accent (ink->cr, 1);
  cairo_stroke (ink->cr);
  cairo_arc (ink->cr, at.x, at.y, HANDLE_PX, 0, 2 * PI);
  use_accent (ink->cr, 1);
  cairo_fill (ink->cr);
}

/* Half the size of a node: less for an outline of many nodes that is seen from afar. */
static double
node_size_px (const Ink *ink, const PathNode *nodes, size_t n)
{
  double length_px = 0;
  for (size_t i = 1; i < n; i++)
    length_px += vec2_distance (nodes[i - 1].at, nodes[i].at) * ink->view->px_per_m;
  return n > 1 ? fmin (NODE_PX, fmax (LEAST_NODE_PX, NODE_PX * length_px / (double)(n - 1) / NODE_ROOM_PX)) : NODE_PX;
}

static void
ink_nodes (const Ink *ink, const PathNode *nodes, size_t n, int chosen)
{
  double usual_px = node_size_px (ink, nodes, n);
  for (size_t i = 0; i < n; i++)
    {
      Vec2 at = affine_apply (ink->to_px, nodes[i].at);
      double size_px = (int)i == chosen ? NODE_PX : usual_px;
      if ((int)i == chosen)
        {
          ink_handle (ink, at, nodes[i].in);
          ink_handle (ink, at, nodes[i].out);
        }
      cairo_new_path (ink->cr);
      if (nodes[i].is_smooth)
        cairo_arc (ink->cr, at.x, at.y, size_px + 0.5, 0, 2 * PI);
      else
        cairo_rectangle (ink->cr, at.x - size_px, at.y - size_px, 2 * size_px, 2 * size_px);
      if ((int)i == chosen)
        use_accent (ink->cr, 1);
      else
        use_paper (ink->cr, 1);
      cairo_fill_preserve (ink->cr);
      use_accent (ink->cr, 1);
      cairo_set_line_width (ink->cr, 1.2);
      cairo_stroke (ink->cr);
    }
}

static void
ink_selected_nodes (const Ink *ink)
{
  int one = hw_desk_get_selected (ink->desk);
  if (one < 0 || hw_desk_get_way (ink->desk) != HW_WAY_SELECT)
    return;
  const Part *part = hole_part (ink->hole, (size_t)one);
  PartShape shape = kind_info (part->kind)->shape;
  if (shape != SHAPE_AREA && shape != SHAPE_LINE)
    return;
  PathNode *nodes = NULL;
  size_t n = path_nodes (&part->path, &nodes);
  ink_nodes (ink, nodes, n, hw_desk_get_node (ink->desk));
  free (nodes);
}

/* ---- the frame ---- */

static void
ink_frame (const Ink *ink)
{
  static const double dash[] = { 3, 3 };
  Box frame = hw_tool_frame (ink->canvas);
  if (box_is_empty (frame) || hw_desk_get_way (ink->desk) != HW_WAY_SELECT)
    return;
  cairo_t *cr = ink->cr;
  cairo_rectangle (cr, frame.x0 + 0.5, frame.y0 + 0.5, frame.x1 - frame.x0, frame.y1 - frame.y0);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_set_line_width (cr, 1);
  use_accent (cr, 0.75);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  for (int corner = 0; corner <= 4; corner++)
    {
      Vec2 at = hw_tool_frame_grip (frame, corner);
      if (corner == 4)
        cairo_arc (cr, at.x, at.y, CORNER_PX + 0.5, 0, 2 * PI);
      else
        cairo_rectangle (cr, at.x - CORNER_PX, at.y - CORNER_PX, 2 * CORNER_PX, 2 * CORNER_PX);
      use_paper (cr, 1);
      cairo_fill_preserve (cr);
      use_accent (cr, 1);
      cairo_set_line_width (cr, 1.4);
      cairo_stroke (cr);
    }
}

/* ---- what is being drawn ---- */

static void
ink_points (const Ink *ink)
{
  for (guint i = 0; i < ink->gesture->points->len; i++)
    {
      Vec2 at = affine_apply (ink->to_px, g_array_index (ink->gesture->points, Vec2, i));
      cairo_line_to (ink->cr, at.x, at.y);
    }
  stroke_accent (ink, 2, 1);
}

static void
ink_placed (const Ink *ink)
{
  const GArray *placed = ink->gesture->nodes;
  const PathNode *nodes = (const PathNode *)(const void *)placed->data;
  Path path = { 0 };
  path_add_nodes (&path, nodes, placed->len);
  trace (ink, &path);
  path_clear (&path);
  stroke_accent (ink, 2, 1);
  Vec2 last = affine_apply (ink->to_px, nodes[placed->len - 1].at), out = affine_apply (ink->to_px, nodes[placed->len - 1].out);
  Vec2 at = affine_apply (ink->to_px, ink->gesture->at);
  cairo_move_to (ink->cr, last.x, last.y);
  cairo_curve_to (ink->cr, out.x, out.y, at.x, at.y, at.x, at.y);
  stroke_accent (ink, 1.2, 0.6);
  ink_nodes (ink, nodes, placed->len, (int)placed->len - 1);
}

static void
ink_gesture (const Ink *ink)
{
  HwGesture *gesture = ink->gesture;
  cairo_t *cr = ink->cr;
  Vec2 a = affine_apply (ink->to_px, gesture->start), b = affine_apply (ink->to_px, gesture->at);
  cairo_new_path (cr);
  switch (gesture->shape)
    {
    case HW_SHAPE_NONE:
      break;
    case HW_SHAPE_BOX:
      if (!gesture->has_moved)
        break;
      cairo_rectangle (cr, fmin (a.x, b.x), fmin (a.y, b.y), fabs (b.x - a.x), fabs (b.y - a.y));
      use_accent (cr, 0.1);
      cairo_fill_preserve (cr);
      use_accent (cr, 1);
      cairo_set_line_width (cr, 1);
      cairo_stroke (cr);
      break;
    case HW_SHAPE_STROKE:
      ink_points (ink);
      break;
    case HW_SHAPE_NODES:
      ink_placed (ink);
      break;
    case HW_SHAPE_CIRCLE:
      cairo_arc (cr, a.x, a.y, vec2_distance (a, b), 0, 2 * PI);
      stroke_accent (ink, 2, 1);
      break;
    case HW_SHAPE_DOT:
      cairo_arc (cr, b.x, b.y, POINT_RING_PX, 0, 2 * PI);
      stroke_accent (ink, 2, 1);
      break;
    case HW_SHAPE_LINE:
      cairo_move_to (cr, a.x, a.y);
      cairo_line_to (cr, b.x, b.y);
      stroke_accent (ink, 2, 1);
      break;
    }
}

/* ---- words beside the pointer ---- */

/* Lays the words out beside the pointer, all of them within the drawing. */
static void
place_words (Ink *ink, Vec2 at_px, const char *text)
{
  const int most_px = (int)(ink->view->width_px - 2 * LABEL_PAD_PX);
  int width, height;
  ink->words = gtk_widget_create_pango_layout (GTK_WIDGET (ink->canvas), text);
  pango_layout_get_pixel_size (ink->words, &width, &height);
  if (width > most_px && most_px > 0)
    {
      pango_layout_set_width (ink->words, most_px * PANGO_SCALE);
      pango_layout_get_pixel_size (ink->words, &width, &height);
    }
  double x = at_px.x + LABEL_AWAY_PX, y = at_px.y + LABEL_AWAY_PX;
  if (x + width + 2 * LABEL_PAD_PX > ink->view->width_px)
    x = fmax (LABEL_PAD_PX, at_px.x - LABEL_AWAY_PX - width);
  if (y + height + 2 * LABEL_PAD_PX > ink->view->height_px)
    y = fmax (LABEL_PAD_PX, at_px.y - LABEL_AWAY_PX - height);
  ink->words_box = box_grown ((Box){ x, y, x + width, y + height }, LABEL_PAD_PX);
}

static void
ink_words (const Ink *ink)
{
  const Box *box = &ink->words_box;
  cairo_rectangle (ink->cr, box->x0, box->y0, box->x1 - box->x0, box->y1 - box->y0);
  use_paper (ink->cr, 0.92);
  cairo_fill (ink->cr);
  cairo_set_source_rgb (ink->cr, 0x22 / 255.0, 0x30 / 255.0, 0x3c / 255.0);
  cairo_move_to (ink->cr, box->x0 + LABEL_PAD_PX, box->y0 + LABEL_PAD_PX);
  pango_cairo_show_layout (ink->cr, ink->words);
}

static void
append_snap (const Ink *ink, GString *text)
{
  static const char *const names[N_SNAPS] = { NULL, N_ ("point"), N_ ("edge"), N_ ("line of play"), NULL };
  const Snap *snap = &ink->gesture->snap;
  char length[UNITS_TEXT_SIZE];
  if (snap->kind == SNAP_DISTANCE)
    g_string_append_printf (text, _ ("\non %s from the tee"),
                            units_print_length (snap->distance_m, ink->view->units, length, sizeof length));
  else if (snap->kind != SNAP_NONE)
    g_string_append_printf (text, _ ("\non: %s"), _ (names[snap->kind]));
}

static bool
has_words (const Ink *ink)
{
  const HwGesture *gesture = ink->gesture;
  bool is_drawing = gesture->shape != HW_SHAPE_NONE && gesture->shape != HW_SHAPE_BOX;
  return is_drawing || gesture->is_pen || hw_document_is_dragging (hw_desk_get_document (ink->desk));
}

static Vec2
words_at (const Ink *ink)
{
  return ink->gesture->snap.kind != SNAP_NONE ? ink->gesture->snap.at : ink->gesture->at;
}

/* What follows the pointer while something is drawn or dragged: size, distances, what it snapped to. */
static void
word_gesture (Ink *ink)
{
  const HwGesture *gesture = ink->gesture;
  g_autoptr (GString) text = g_string_new (NULL);
  if (!has_words (ink))
    return;
  if (gesture->shape == HW_SHAPE_CIRCLE)
    {
      char across[UNITS_TEXT_SIZE];
      units_print_length (2 * vec2_distance (gesture->start, gesture->at), ink->view->units, across, sizeof across);
      g_string_append_printf (text, _ ("%s across\n"), across);
    }
  g_autofree char *where = hw_desk_whereabouts (ink->desk, words_at (ink));
  g_string_append (text, where);
  append_snap (ink, text);
  if (text->len > 0)
    place_words (ink, affine_apply (ink->to_px, words_at (ink)), text->str[0] == '\n' ? text->str + 1 : text->str);
}

static void
ink_live (const Ink *ink)
{
  if (has_words (ink) && (ink->gesture->snap.kind != SNAP_NONE || ink->gesture->is_pen))
    {
      Vec2 at_px = affine_apply (ink->to_px, words_at (ink));
      cairo_move_to (ink->cr, at_px.x - CROSS_PX, at_px.y);
      cairo_line_to (ink->cr, at_px.x + CROSS_PX, at_px.y);
      cairo_move_to (ink->cr, at_px.x, at_px.y - CROSS_PX);
      cairo_line_to (ink->cr, at_px.x, at_px.y + CROSS_PX);
      stroke_accent (ink, 1.5, 1);
    }
  if (ink->words != NULL)
    ink_words (ink);
}

/* ---- all of it ---- */

static void
ink_selection (const Ink *ink)
{
  size_t n;
  const size_t *parts = hw_desk_get_selection (ink->desk, &n);
  if (n > HW_MOST_MOVING && hw_desk_is_holding (ink->desk))
    return;
  for (size_t i = 0; i < n; i++)
    ink_part (ink, parts[i], 1.6, 1);
}

static Box
with_px (Box box, Vec2 at_px, double room_x_px, double room_y_px)
{
  return box_union (box, (Box){ at_px.x - room_x_px, at_px.y - room_y_px, at_px.x + room_x_px, at_px.y + room_y_px });
}

/* Where all this leaves ink, in whole px within the drawing: only that is painted anew. */
static Box
overlay_box (const Ink *ink, const HwGrip *under, bool has_hover)
{
  const HwGesture *gesture = ink->gesture;
  Box box = box_empty ();
  size_t n;
  const size_t *parts = hw_desk_get_selection (ink->desk, &n);
  if (gesture->is_picture)
    box = box_grown (hw_tool_frame (ink->canvas), FRAME_ROOM_PX);
  for (size_t i = gesture->is_picture ? n : 0; i < n + has_hover; i++)
    {
      const Part *part = hole_part (ink->hole, i < n ? parts[i] : under->shot);
      bool is_point = box_is_empty (part->bounds);
      Vec2 low = is_point ? part->at : vec2 (part->bounds.x0, part->bounds.y0);
      Vec2 high = is_point ? part->at : vec2 (part->bounds.x1, part->bounds.y1);
      box = with_px (box, affine_apply (ink->to_px, low), FRAME_ROOM_PX, FRAME_ROOM_PX);
      box = with_px (box, affine_apply (ink->to_px, high), FRAME_ROOM_PX, FRAME_ROOM_PX);
    }
  int one = hw_desk_get_selected (ink->desk), node = hw_desk_get_node (ink->desk);
  if (one >= 0 && node >= 0) /* handles reach out of the bounds */
    for (size_t i = 0; i < hole_part (ink->hole, (size_t)one)->path.n_segs; i++)
      {
        const PathSeg *seg = &hole_part (ink->hole, (size_t)one)->path.segs[i];
        box = with_px (box, affine_apply (ink->to_px, seg->kind == SEG_CUBIC ? seg->c1 : seg->to), CROSS_PX, CROSS_PX);
        box = with_px (box, affine_apply (ink->to_px, seg->kind == SEG_CUBIC ? seg->c2 : seg->to), CROSS_PX, CROSS_PX);
      }
  for (guint i = 0; i < gesture->points->len; i++)
    box = with_px (box, affine_apply (ink->to_px, g_array_index (gesture->points, Vec2, i)), CROSS_PX, CROSS_PX);
  for (guint i = 0; i < gesture->nodes->len; i++)
    {
      const PathNode *placed = &g_array_index (gesture->nodes, PathNode, i);
      box = with_px (box, affine_apply (ink->to_px, placed->in), CROSS_PX, CROSS_PX);
      box = with_px (box, affine_apply (ink->to_px, placed->out), CROSS_PX, CROSS_PX);
    }
  bool is_dragging = hw_document_is_dragging (hw_desk_get_document (ink->desk));
  if (gesture->shape != HW_SHAPE_NONE || gesture->is_pen || is_dragging)
    {
      Vec2 a = affine_apply (ink->to_px, gesture->start), b = affine_apply (ink->to_px, gesture->at);
      double radius_px = gesture->shape == HW_SHAPE_CIRCLE ? vec2_distance (a, b) : 0;
      bool has_start = gesture->shape != HW_SHAPE_NONE && gesture->shape != HW_SHAPE_NODES;
      if (has_start)
        box = with_px (box, a, radius_px + CROSS_PX, radius_px + CROSS_PX);
      box = with_px (box, b, CROSS_PX + 2, CROSS_PX + 2);
      box = with_px (box, affine_apply (ink->to_px, words_at (ink)), CROSS_PX + 2, CROSS_PX + 2);
    }
  if (ink->words != NULL)
    box = box_union (box, ink->words_box);
  return (Box){ fmax (0, floor (box.x0)), fmax (0, floor (box.y0)), fmin (ink->view->width_px, ceil (box.x1)),
                fmin (ink->view->height_px, ceil (box.y1)) };
}

void
hw_tool_draw_overlay (HwCanvas *canvas, GtkSnapshot *snapshot, const HwGrip *under)
{
  Ink ink = { .canvas = canvas, .desk = hw_canvas_get_desk (canvas), .gesture = hw_canvas_get_gesture (canvas) };
  ink.view = hw_canvas_get_view (canvas);
  ink.to_px = view_to_drawing (ink.view);
  ink.hole = hw_desk_get_hole (ink.desk);
  if (ink.hole == NULL)
    return;
  size_t n;
  hw_desk_get_selection (ink.desk, &n);
  bool has_hover
      = under->kind == HW_GRIP_THING && under->shot < hole_n_parts (ink.hole) && !hw_desk_is_selected (ink.desk, under->shot);
  if (n == 0 && !has_hover && ink.gesture->shape == HW_SHAPE_NONE && !ink.gesture->is_pen)
    return;
  word_gesture (&ink);
  g_autoptr (PangoLayout) words = ink.words;
  Box box = overlay_box (&ink, under, has_hover);
  if (!(box.x1 > box.x0) || !(box.y1 > box.y0))
    return;
  ink.cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT ((float)box.x0, (float)box.y0, (float)(box.x1 - box.x0), (float)(box.y1 - box.y0)));
  cairo_set_line_join (ink.cr, CAIRO_LINE_JOIN_ROUND);
  if (has_hover)
    ink_part (&ink, under->shot, 1.4, 0.6);
  ink_selection (&ink);
  ink_frame (&ink);
  ink_selected_nodes (&ink);
  ink_gesture (&ink);
  ink_live (&ink);
  cairo_destroy (ink.cr);
}
