// SPDX-License-Identifier: GPL-3.0-or-later
/* canvas - the widget and what it draws: the kept picture of the hole, the plan's overlays (canvas-overlays.c), scale and north, the tool's highlight. */
#include "canvas-private.h"

#include "appearance.h"
#include "trace.h"
#include "urgency.h"

#include <glib/gi18n.h>

/* A kept picture moved further than this leaves too much bare paper: it is painted again even on the way. */
#define MOST_BARE_PX 120.0
/* Smallest size worth drawing at. */
#define LEAST_WIDTH_PX 240
#define LEAST_HEIGHT_PX 160
/* The pointer rests when nothing followed it for so long. */
#define REST_MS 60

G_DEFINE_FINAL_TYPE (HwCanvas, hw_canvas, GTK_TYPE_WIDGET)

/* ---- drawing ---- */

bool
hw_canvas_needs_picture (HwCanvas *self, Hole *hole)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  bool is_dark = hw_appearance_is_dark (GTK_WIDGET (self));
  if (!hw_drawing_is_stale (&self->drawing, hole, &self->view, scale, is_dark))
    return false;
  if (self->drawing.node == NULL || !hw_canvas_is_moving (self))
    return true;
  Vec2 moved = vec2_sub (view_point (&self->view, self->drawing.view.centre), view_point (&self->view, self->view.centre));
  return self->grip.kind == HW_GRIP_PAPER && fmax (fabs (moved.x), fabs (moved.y)) > MOST_BARE_PX;
}

static void
hw_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwCanvas *self = HW_CANVAS (widget);
  Hole *hole = self->document != NULL ? hw_canvas_still_hole (self) : NULL;
  if (hole == NULL || self->view.width_px <= 0 || self->view.height_px <= 0)
    return;
  if (self->is_painting)
    g_signal_emit_by_name (self, "painting"); // others make use of the time
  hw_beside_finish (self->beside, &self->overlays_share);
  gtk_snapshot_push_clip (snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)self->view.width_px, (float)self->view.height_px));
  if (hw_canvas_needs_picture (self, hole))
    hw_drawing_paint (&self->drawing, widget, hole, &self->view, hw_appearance_is_dark (widget));
  if (!hw_canvas_snapshot_plan (self, snapshot))
    hw_drawing_snapshot (&self->drawing, snapshot, &self->view);
  if (self->is_drawing)
    hw_held_snapshot (&self->held, widget, snapshot, self->desk, &self->view,
                      self->gesture.is_picture ? &self->gesture.moved : NULL);
  hw_margin_snapshot (&self->margin, widget, snapshot, &self->view, hole_info (hole)->up_bearing_deg);
  if (self->tool->draw != NULL)
    self->tool->draw (self, snapshot, &self->under);
  gtk_snapshot_pop (snapshot);
}

/* ---- following the document ---- */

/* What a screen reader says of the drawing. */
void
hw_canvas_describe (HwCanvas *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  if (self->is_drawing)
    {
      hw_canvas_describe_selection (self);
      return;
    }
  if (scene->n_shots == 0)
    {
      const char *trouble = hw_document_get_trouble (self->document);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                      trouble != NULL ? trouble : "", -1);
      return;
    }
  const ShotResult *shot = &scene->shots[scene->current];
  LengthUnit units = hw_document_get_units (self->document);
  char carry[UNITS_TEXT_SIZE], left[UNITS_TEXT_SIZE];
  units_print_length (shot->carry_m, units, carry, sizeof carry);
  units_print_length (isnan (shot->left_m) ? 0 : shot->left_m, units, left, sizeof left);
  g_autofree char *words = g_strdup_printf (_ ("Shot %zu of %zu: %s carries %s, %s left to the hole"), scene->current + 1,
                                            scene->n_shots, shot->club->name, carry, left);
  g_autofree char *green = self->look == HW_LOOK_GREEN ? hw_canvas_green_words (self) : NULL;
  g_autofree char *text = green != NULL ? g_strdup_printf ("%s. %s", words, green) : g_strdup (words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
}

static void
on_opened_cb (HwCanvas *self)
{
  hw_canvas_cancel_drag (self);
  self->is_fitted = self->needs_fit = true;
}

static void
on_hole_changed_cb (HwCanvas *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static gboolean
on_rested_cb (gpointer canvas)
{
  HwCanvas *self = canvas;
  self->rest = 0;
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return G_SOURCE_REMOVE;
}

/* What the overlays show of it lags a few frames behind a drag: it comes with the next, or when the pointer rests. */
static void
on_found_cb (HwCanvas *self)
{
  const unsigned shown = overlay_needs (hw_settings_get_overlays (hw_document_get_settings (self->document)));
  if (self->is_drawing || !(shown & (SCENE_NEEDS_ROOM | SCENE_NEEDS_PLACES)))
    return;
  if (!hw_document_is_dragging (self->document))
    gtk_widget_queue_draw (GTK_WIDGET (self));
  else if (self->rest == 0)
    self->rest = g_timeout_add (REST_MS, on_rested_cb, self);
}

/* The number to play and the side to miss on are written beside the green. */
static void
on_answered_cb (HwCanvas *self)
{
  if (self->is_drawing || self->look != HW_LOOK_GREEN)
    return;
  hw_canvas_describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_results_changed_cb (HwCanvas *self)
{
  if (!hw_document_is_dragging (self->document))
    {
      hw_canvas_describe (self);
      if (self->holding == NULL && (!self->is_drawing || self->needs_fit))
        hw_canvas_reframe (self, false);
    }
  self->is_due = true;
  g_clear_handle_id (&self->rest, g_source_remove);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_canvas_set_document (HwCanvas *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  self->beside = hw_document_get_beside (document);
  g_signal_connect_object (document, "opened", G_CALLBACK (on_opened_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "hole-changed", G_CALLBACK (on_hole_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "found", G_CALLBACK (on_found_cb), self, G_CONNECT_SWAPPED);
}

static void
on_mapped_cb (HwCanvas *self)
{
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_canvas_set_solver (HwCanvas *self, HwSolver *solver)
{
  self->solver = g_object_ref (solver);
  g_signal_connect_object (solver, "mapped", G_CALLBACK (on_mapped_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (solver, "answered", G_CALLBACK (on_answered_cb), self, G_CONNECT_SWAPPED);
}

/* Only what it shows on the drawing matters here. */
static void
on_planned_cb (HwCanvas *self)
{
  PlanScene scene;
  unsigned mask = hw_settings_get_overlays (hw_document_get_settings (self->document));
  unsigned stamp = hw_planner_fill (self->planner, &scene, mask);
  if (stamp == self->planned_stamp)
    return;
  self->planned_stamp = stamp;
  on_mapped_cb (self);
}

void
hw_canvas_set_planner (HwCanvas *self, HwPlanner *planner)
{
  self->planner = g_object_ref (planner);
  g_signal_connect_object (planner, "changed", G_CALLBACK (on_planned_cb), self, G_CONNECT_SWAPPED);
}

HwDocument *
hw_canvas_get_document (HwCanvas *self)
{
  return self->document;
}

bool
hw_canvas_get_pointed (HwCanvas *self, Vec2 *at)
{
  if (!self->is_pointed)
    return false;
  *at = view_unproject (&self->view, self->pointer_px);
  return true;
}

HwGrip *
hw_canvas_get_grip (HwCanvas *self)
{
  return &self->grip;
}

/* ---- a frame, and its trace ---- */

static void
on_before_paint_cb (HwCanvas *self)
{
  hw_urgency_be_steady ();
  self->frame_start_us = g_get_monotonic_time ();
  self->frame_busy_us = hw_trace_busy_us ();
  hw_canvas_paint_ahead (self);
  if (self->document != NULL)
    hw_document_tell_results (self->document);
}

/* The top left of the drawing in the window, its shadow included. */
static Vec2
corner_px (HwCanvas *self)
{
  GtkNative *native = gtk_widget_get_native (GTK_WIDGET (self));
  graphene_point_t corner;
  double shadow_x, shadow_y;
  if (!gtk_widget_compute_point (GTK_WIDGET (self), GTK_WIDGET (native), &GRAPHENE_POINT_INIT (0, 0), &corner))
    return vec2 (NAN, NAN);
  gtk_native_get_surface_transform (native, &shadow_x, &shadow_y);
  return vec2 (corner.x + shadow_x, corner.y + shadow_y);
}

static void
on_after_paint_cb (HwCanvas *self)
{
  hw_canvas_end_painting (self);
  hw_urgency_be_prompt ();
  if (!self->is_tracing)
    return;
  gint64 now_us = g_get_monotonic_time (), frame_us = now_us - self->frame_start_us + self->edit_us;
  gint64 busy_us = hw_trace_busy_us () - self->frame_busy_us + self->edit_busy_us;
  const PlanScene *scene = hw_document_get_scene (self->document);
  HwTraceFrame frame = { .frame_ms = (double)frame_us / 1000.0,
                         .edit_ms = (double)self->edit_us / 1000.0,
                         .busy_ms = (double)busy_us / 1000.0,
                         .at_us = now_us,
                         .n_redraws = self->drawing.n_redraws,
                         .n_paints = self->n_paints,
                         .corner_px = corner_px (self),
                         .place_px = view_point (&self->view, vec2 (0, 0)),
                         .aim_px = vec2 (NAN, NAN),
                         .px_per_m = self->view.px_per_m };
  if (scene->n_shots > 0)
    frame.aim_px = view_point (&self->view, scene->shots[scene->current].aim);
  hw_trace_frame (&frame);
  self->edit_us = self->edit_busy_us = 0;
}

static void
hw_canvas_realize (GtkWidget *widget)
{
  HwCanvas *self = HW_CANVAS (widget);
  GTK_WIDGET_CLASS (hw_canvas_parent_class)->realize (widget);
  self->clock = g_object_ref (gtk_widget_get_frame_clock (widget));
  g_signal_connect_swapped (self->clock, "before-paint", G_CALLBACK (on_before_paint_cb), self);
  g_signal_connect_swapped (self->clock, "after-paint", G_CALLBACK (on_after_paint_cb), self);
}

static void
hw_canvas_unrealize (GtkWidget *widget)
{
  HwCanvas *self = HW_CANVAS (widget);
  if (self->clock != NULL)
    g_signal_handlers_disconnect_by_data (self->clock, self);
  g_clear_object (&self->clock);
  hw_canvas_end_painting (self);
  hw_drawing_clear (&self->drawing);
  hw_held_clear (&self->held);
  hw_margin_clear (&self->margin);
  hw_layer_clear (&self->overlays);
  hw_still_clear (&self->still);
  hw_written_clear (&self->written);
  GTK_WIDGET_CLASS (hw_canvas_parent_class)->unrealize (widget);
}

/* ---- the widget ---- */

/* Ink and labels are as large as the desktop's text asks for. */
static void
follow_text_size (HwCanvas *self)
{
  double unit_px = hw_text_scale (GTK_WIDGET (self));
  if (unit_px == self->view.unit_px)
    return;
  self->view.unit_px = self->turn_from.unit_px = self->turn_to.unit_px = unit_px;
  if (self->is_fitted)
    hw_canvas_reframe (self, false);
  hw_canvas_view_changed (self);
}

static void
hw_canvas_css_changed (GtkWidget *widget, GtkCssStyleChange *change)
{
  GTK_WIDGET_CLASS (hw_canvas_parent_class)->css_changed (widget, change);
  follow_text_size (HW_CANVAS (widget));
}

static void
hw_canvas_system_setting_changed (GtkWidget *widget, GtkSystemSetting setting)
{
  GTK_WIDGET_CLASS (hw_canvas_parent_class)->system_setting_changed (widget, setting);
  follow_text_size (HW_CANVAS (widget));
}

static void
hw_canvas_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                   int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? LEAST_WIDTH_PX : LEAST_HEIGHT_PX;
}

static void
hw_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HwCanvas *self = HW_CANVAS (widget);
  hw_canvas_resize (self, width, height);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    gtk_popover_present (GTK_POPOVER (child)); // a menu that is open keeps its place
  g_signal_emit_by_name (self, "view-changed");
}

static void
hw_canvas_dispose (GObject *object)
{
  HwCanvas *self = HW_CANVAS (object);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (self))) != NULL;)
    gtk_widget_unparent (child); // its menu
  self->holding = NULL;
  g_clear_handle_id (&self->rest, g_source_remove);
  hw_canvas_end_painting (self);
  g_clear_handle_id (&self->gesture.timer, g_source_remove);
  self->beside = NULL;
  g_clear_object (&self->document);
  g_clear_object (&self->planner);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->gesture.base, hole_unref);
  g_clear_pointer (&self->gesture.points, g_array_unref);
  g_clear_pointer (&self->gesture.nodes, g_array_unref);
  g_clear_pointer (&self->gesture.struck, g_array_unref);
  g_clear_pointer (&self->gesture.spared, g_array_unref);
  hw_drawing_clear (&self->drawing);
  hw_held_clear (&self->held);
  hw_margin_clear (&self->margin);
  hw_layer_clear (&self->overlays);
  hw_still_clear (&self->still);
  hw_written_clear (&self->written);
  g_clear_object (&self->solver);
  G_OBJECT_CLASS (hw_canvas_parent_class)->dispose (object);
}

static void
hw_canvas_class_init (HwCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  object_class->dispose = hw_canvas_dispose;
  widget_class->snapshot = hw_canvas_snapshot;
  widget_class->measure = hw_canvas_measure;
  widget_class->size_allocate = hw_canvas_size_allocate;
  widget_class->css_changed = hw_canvas_css_changed;
  widget_class->system_setting_changed = hw_canvas_system_setting_changed;
  widget_class->realize = hw_canvas_realize;
  widget_class->unrealize = hw_canvas_unrealize;
  gtk_widget_class_set_css_name (widget_class, "canvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  g_signal_new ("view-changed", HW_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_signal_new ("painting", HW_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  g_signal_new ("pointed", HW_TYPE_CANVAS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_canvas_init (HwCanvas *self)
{
  self->view = (RenderView){ .px_per_m = 1, .unit_px = 1 };
  self->is_fitted = true;
  self->gesture.points = g_array_new (FALSE, FALSE, sizeof (Vec2));
  self->gesture.nodes = g_array_new (FALSE, FALSE, sizeof (PathNode));
  self->gesture.struck = g_array_new (FALSE, FALSE, sizeof (size_t));
  self->gesture.spared = g_array_new (FALSE, FALSE, sizeof (size_t));
  self->is_tracing = hw_trace_is_on ();
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  hw_canvas_init_input (self);
}
