// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * tool-erase - the other end of the pen: a tap takes away what is under it, a stroke what it strikes out on its way. It is in hand for as long as the pen is
 * turned round, whatever the way of drawing; all that one stroke took away is one step of undo. While an outline is drawn point by point it takes the last
 * point back.
 */
#include "tool-draw.h"

#include <glib/gi18n.h>

static HwGrip
erase_find (HwCanvas *canvas, Vec2 at_px)
{
  return (HwGrip){ .kind = HW_GRIP_NONE };
}

static void
say_why_not (HwDesk *desk, const char *label, GError *error)
{
  hw_document_drag_cancel (hw_desk_get_document (desk));
  hw_desk_edit (desk, NULL, label, 0, &error);
}

static const char *
erase_label (const HwGesture *gesture)
{
  const GArray *struck = gesture->struck;
  size_t first = g_array_index (struck, size_t, 0);
  g_autofree char *what = struck->len == 1
                              ? g_strdup (_ (kind_info (hole_part (gesture->base, first)->kind)->label))
                              : g_strdup_printf (g_dngettext (NULL, "%u thing", "%u things", struck->len), struck->len);
  g_autofree char *label = g_strdup_printf (_ ("erase %s"), what);
  return g_intern_string (label);
}

/* Adds what is not yet among those struck, in rising order, and shows the hole without them. */
static void
strike (HwCanvas *canvas, const size_t *parts, size_t n)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  guint n_before = gesture->struck->len;
  for (size_t i = 0; i < n; i++)
    {
      guint at = 0;
      while (at < gesture->struck->len && g_array_index (gesture->struck, size_t, at) < parts[i])
        at++;
      if (at == gesture->struck->len || g_array_index (gesture->struck, size_t, at) != parts[i])
        g_array_insert_val (gesture->struck, at, parts[i]);
    }
  if (gesture->struck->len == n_before)
    return;
  GError *error = NULL;
  Hole *hole = edit_delete (gesture->base, (const size_t *)(const void *)gesture->struck->data, gesture->struck->len, &error);
  if (hole != NULL)
    hw_document_drag_hole (hw_desk_get_document (desk), hole, erase_label (gesture));
  else
    say_why_not (desk, erase_label (gesture), error);
}

/* On its way from the last place to `gesture->at`. */
static void
strike_from (HwCanvas *canvas, Vec2 from)
{
  const HwGesture *gesture = hw_canvas_get_gesture (canvas);
  g_autofree size_t *struck = NULL;
  size_t n = edit_pick_struck (gesture->base, from, gesture->at, hw_tool_metres (canvas, HW_REACH_PX),
                               (const size_t *)(const void *)gesture->spared->data, gesture->spared->len, &struck);
  strike (canvas, struck, n);
}

static bool
erase_press (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDesk *desk = hw_canvas_get_desk (canvas);
  if (gesture->nodes->len > 0)
    return hw_tool_points.key (canvas, GDK_KEY_BackSpace, 0);
  hw_tool_clear (canvas);
  size_t n;
  const size_t *untouchable = hw_desk_get_untouchable (desk, &n);
  g_array_append_vals (gesture->spared, untouchable, (guint)n);
  gesture->is_pen = false;
  gesture->start_px = at_px;
  gesture->at = view_unproject (hw_canvas_get_view (canvas), at_px);
  gesture->base = hole_ref (hw_document_get_kept (hw_desk_get_document (desk)));
  strike_from (canvas, gesture->at);
  return true;
}

static void
erase_drag (HwCanvas *canvas, Vec2 at_px)
{
  HwGesture *gesture = hw_canvas_get_gesture (canvas);
  if (gesture->base == NULL)
    return;
  Vec2 from = gesture->at;
  gesture->has_moved |= vec2_distance (at_px, gesture->start_px) > HW_SLOP_PX;
  gesture->at = view_unproject (hw_canvas_get_view (canvas), at_px);
  strike_from (canvas, from);
}

/* What a tap means: as a click would. */
static void
strike_under (HwCanvas *canvas)
{
  const HwGesture *gesture = hw_canvas_get_gesture (canvas);
  int under = edit_pick (gesture->base, gesture->at, hw_tool_metres (canvas, HW_REACH_PX),
                         (const size_t *)(const void *)gesture->spared->data, gesture->spared->len);
  if (under >= 0)
    strike (canvas, &(size_t){ (size_t)under }, 1);
}

static void
erase_release (HwCanvas *canvas)
{
  const HwGesture *gesture = hw_canvas_get_gesture (canvas);
  HwDocument *document = hw_canvas_get_document (canvas);
  if (gesture->base == NULL)
    return;
  if (!gesture->has_moved && gesture->struck->len == 0)
    strike_under (canvas);
  if (hw_document_is_dragging (document))
    hw_document_drag_end (document);
  hw_tool_clear (canvas);
}

static void
erase_cancel (HwCanvas *canvas)
{
  if (hw_canvas_get_gesture (canvas)->base == NULL)
    return;
  hw_document_drag_cancel (hw_canvas_get_document (canvas));
  hw_tool_clear (canvas);
}

const HwTool hw_tool_erase
    = { "erase", "crosshair", erase_find, erase_press, erase_drag, erase_release, erase_cancel, NULL, NULL, NULL, NULL };
