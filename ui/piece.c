// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * piece - what is in sight is asked for when it is drawn, and drawn anew when it was scrolled. A clear colour lies under a piece, which is another whenever it is asked
 * for its picture: GTK asks for that only when something in it changed.
 */
#include "piece.h"

/* Letters and shadows may stand out beyond what holds them by so much, px. */
#define BEYOND_PX 6.0f

typedef struct
{
  GtkAdjustment *scrolled; /* of what it scrolls in; NULL while it does not */
} HwReelPrivate;

G_DEFINE_TYPE_WITH_PRIVATE (HwReel, hw_reel, GTK_TYPE_BOX)

/* What of a widget is in sight, in its own px; false where it is not in anything that scrolls. */
static bool
in_sight (GtkWidget *widget, graphene_rect_t *sight)
{
  GtkWidget *port = gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT);
  if (port == NULL || !gtk_widget_compute_bounds (port, widget, sight))
    return false;
  graphene_rect_inset (sight, -BEYOND_PX, -BEYOND_PX);
  return true;
}

static void
hw_reel_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  graphene_rect_t sight, bounds;
  bool is_cut = in_sight (widget, &sight);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (!is_cut || !gtk_widget_compute_bounds (child, widget, &bounds) || graphene_rect_intersection (&bounds, &sight, NULL))
      gtk_widget_snapshot_child (widget, child, snapshot);
}

static void
let_go (HwReel *self)
{
  HwReelPrivate *private = hw_reel_get_instance_private (self);
  if (private->scrolled != NULL)
    g_signal_handlers_disconnect_by_data (private->scrolled, self);
  g_clear_object (&private->scrolled);
}

static void
hw_reel_map (GtkWidget *widget)
{
  HwReelPrivate *private = hw_reel_get_instance_private (HW_REEL (widget));
  GtkWidget *port = gtk_widget_get_ancestor (widget, GTK_TYPE_VIEWPORT);
  GTK_WIDGET_CLASS (hw_reel_parent_class)->map (widget);
  let_go (HW_REEL (widget));
  GtkAdjustment *scrolled = port != NULL ? gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (port)) : NULL;
  if (scrolled == NULL)
    return;
  private->scrolled = g_object_ref (scrolled);
  g_signal_connect_swapped (scrolled, "value-changed", G_CALLBACK (gtk_widget_queue_draw), widget);
  g_signal_connect_swapped (scrolled, "changed", G_CALLBACK (gtk_widget_queue_draw), widget);
}

static void
hw_reel_unmap (GtkWidget *widget)
{
  let_go (HW_REEL (widget));
  GTK_WIDGET_CLASS (hw_reel_parent_class)->unmap (widget);
}

static void
hw_reel_class_init (HwReelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  widget_class->snapshot = hw_reel_snapshot;
  widget_class->map = hw_reel_map;
  widget_class->unmap = hw_reel_unmap;
}

static void
hw_reel_init (HwReel *self)
{
}

struct _HwPiece
{
  HwReel parent_instance;
  unsigned n_told;
};

G_DEFINE_FINAL_TYPE (HwPiece, hw_piece, HW_TYPE_REEL)

void
hw_piece_tell (GtkSnapshot *snapshot, const graphene_rect_t *bounds, bool is_changed, unsigned *n_told)
{
  *n_told += is_changed;
  GdkRGBA clear = { .red = (float)(*n_told % 2) };
  gtk_snapshot_append_color (snapshot, &clear, bounds);
}

static void
hw_piece_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  graphene_rect_t bounds
      = GRAPHENE_RECT_INIT (0, 0, (float)gtk_widget_get_width (widget), (float)gtk_widget_get_height (widget));
  hw_piece_tell (snapshot, graphene_rect_inset (&bounds, -BEYOND_PX, 0), true, &HW_PIECE (widget)->n_told);
  GTK_WIDGET_CLASS (hw_piece_parent_class)->snapshot (widget, snapshot);
}

static void
hw_piece_class_init (HwPieceClass *klass)
{
  GTK_WIDGET_CLASS (klass)->snapshot = hw_piece_snapshot;
}

static void
hw_piece_init (HwPiece *self)
{
}
