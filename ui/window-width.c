// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * window-width - the panel stands beside the drawing where there is room, else lies over it, and at phone width is a sheet at the foot;
 * there the step switch leaves the header bar, whose parts would be wider than the window, and stands under the sheet.
 */
#include "appearance.h"
#include "window-private.h"

/* Widths in px at text of the usual size: below these the panel folds away, and below these it is a sheet. Larger text and longer words ask for more: a window that cannot be made
   narrower would never fold. */
#define NARROW_PX 900
#define PHONE_PX 640
#define PANEL_WIDTH_PX 356
/* Between the words of the status line and its buttons, px. */
#define STATUS_SPACING_PX 10
/* The switch leaves the header bar, and the panel the side of the drawing, when no more than this is to spare there, px. */
#define SPARE_PX 24
/* Share of the window's height that the sheet takes. */
#define SHEET_SHARE 0.46

static int
least_width_px (GtkWidget *widget)
{
  int least_px;
  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least_px, NULL, NULL, NULL);
  return least_px;
}

static bool
is_at_foot (HwWindow *self)
{
  return gtk_widget_get_parent (self->step_switch) == GTK_WIDGET (self->foot);
}

/* What each kind of layout needs, measured while it is there: narrow ones have smaller buttons, and what the wide one needed says when it may come back. Else it
   would go to and fro. */
static void
measure_needs (HwWindow *self)
{
  GtkWidget *steps = GTK_WIDGET (self->steps);
  int steps_px = least_width_px (steps) - gtk_widget_get_margin_end (steps);
  /* Without the switch there are fewer buttons. */
  if (!is_at_foot (self))
    self->header_px = least_width_px (GTK_WIDGET (self->header));
  if (self->width == HW_WIDTH_NARROW)
    self->narrow_px = steps_px;
  else if (self->width == HW_WIDTH_WIDE)
    self->wide_px = steps_px + self->panel_px;
}

static HwWidth
width_class (HwWindow *self, int width_px)
{
  double scale = hw_text_scale (GTK_WIDGET (self));
  measure_needs (self);
  if (width_px < fmax (PHONE_PX * scale, MAX (self->header_px, self->narrow_px) + SPARE_PX))
    return HW_WIDTH_PHONE;
  return width_px < fmax (NARROW_PX * scale, self->wide_px + SPARE_PX) ? HW_WIDTH_NARROW : HW_WIDTH_WIDE;
}

static void
set_css_class (GtkWidget *widget, const char *name, bool on)
{
  if (on)
    gtk_widget_add_css_class (widget, name);
  else
    gtk_widget_remove_css_class (widget, name);
}

/* At phone width only the button that closes the window stays, on the side where the desktop has it. */
static void
place_buttons (HwWindow *self, bool is_phone)
{
  g_autofree char *layout = NULL;
  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-decoration-layout", &layout, NULL);
  const char *close = layout != NULL ? strstr (layout, "close") : NULL, *middle = layout != NULL ? strchr (layout, ':') : NULL;
  const char *alone = close == NULL ? ":" : middle != NULL && close < middle ? "close:" : ":close";
  gtk_header_bar_set_decoration_layout (self->header, is_phone ? alone : NULL);
}

static void
place_steps (HwWindow *self, bool at_foot)
{
  if (is_at_foot (self) == at_foot)
    return;
  g_object_ref (self->step_switch);
  if (at_foot)
    {
      /* Without any title the header bar would show the window's. */
      gtk_header_bar_set_title_widget (self->header, gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0));
      gtk_box_append (self->foot, self->step_switch);
    }
  else
    {
      gtk_box_remove (self->foot, self->step_switch);
      gtk_header_bar_set_title_widget (self->header, self->step_switch);
    }
  g_object_unref (self->step_switch);
  gtk_widget_set_visible (GTK_WIDGET (self->foot), at_foot);
}

/* As wide as the usual panel, or as its words need in this language. */
static int
panel_width_px (HwWindow *self)
{
  GtkWidget *panel = GTK_WIDGET (self->panels);
  gtk_widget_set_size_request (panel, -1, -1);
  return (int)fmax (round (PANEL_WIDTH_PX * hw_text_scale (GTK_WIDGET (self))), least_width_px (panel));
}

void
hw_window_apply_width (HwWindow *self)
{
  GtkWidget *panel = GTK_WIDGET (self->panels);
  bool is_wide = self->width == HW_WIDTH_WIDE, is_sheet = self->width == HW_WIDTH_PHONE;
  int panel_px = self->panel_px = panel_width_px (self);
  /* A sheet is as wide as the window, which must then leave it room; elsewhere a panel that is wider goes over the drawing. */
  gtk_overlay_set_measure_overlay (GTK_OVERLAY (gtk_widget_get_parent (panel)), panel, is_sheet);
  gtk_widget_set_halign (panel, is_sheet ? GTK_ALIGN_FILL : GTK_ALIGN_END);
  gtk_widget_set_valign (panel, is_sheet ? GTK_ALIGN_END : GTK_ALIGN_FILL);
  gtk_widget_set_size_request (panel, is_sheet ? -1 : panel_px,
                               is_sheet ? (int)(gtk_widget_get_height (GTK_WIDGET (self)) * SHEET_SHARE) : -1);
  /* A size asked for while hidden is not measured again by itself. */
  gtk_widget_queue_resize (panel);
  gtk_widget_set_margin_end (GTK_WIDGET (self->steps), gtk_widget_get_visible (panel) && is_wide ? panel_px : 0);
  set_css_class (panel, "floating", !is_wide);
  set_css_class (panel, "sheet", is_sheet);
  set_css_class (GTK_WIDGET (self), "narrow", !is_wide);
  /* There the words under the pointer have a line of their own. */
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self->plan_status),
                                  is_sheet ? GTK_ORIENTATION_VERTICAL : GTK_ORIENTATION_HORIZONTAL);
  gtk_box_set_spacing (GTK_BOX (self->plan_status), is_sheet ? 0 : STATUS_SPACING_PX);
  hw_hole_chooser_set_narrow (self->hole_chooser, !is_wide);
  gtk_widget_set_visible (self->redo_button, !is_sheet);
  /* There two fingers zoom, as do the keys and the wheel. */
  gtk_widget_set_visible (self->zoom_out_button, !is_sheet);
  gtk_widget_set_visible (self->zoom_in_button, !is_sheet);
  hw_strip_set_phone (self->strip, is_sheet);
  hw_disk_bar_set_phone (self->disk_bar, is_sheet);
  hw_window_update_section (self);
  place_buttons (self, is_sheet);
  place_steps (self, is_sheet);
}

static gboolean
on_width_idle_cb (gpointer user_data)
{
  hw_window_apply_width (user_data);
  return G_SOURCE_REMOVE;
}

void
hw_window_follow_width (HwWindow *self, int width_px)
{
  HwWidth now = width_class (self, width_px);
  /* What the panel has come to show may need more than it had. */
  bool is_other = now != self->width, is_wider = least_width_px (GTK_WIDGET (self->panels)) > self->panel_px;
  if (!is_other && (!is_wider || now == HW_WIDTH_PHONE))
    return;
  bool unfolds = is_other && (now == HW_WIDTH_WIDE || self->width == HW_WIDTH_WIDE);
  self->width = now;
  if (unfolds)
    g_action_group_change_action_state (G_ACTION_GROUP (self), "show-panel", g_variant_new_boolean (now == HW_WIDTH_WIDE));
  /* Margins cannot change while sizes are given out. */
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, on_width_idle_cb, g_object_ref (self), g_object_unref);
}
