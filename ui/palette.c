// SPDX-License-Identifier: GPL-3.0-or-later
/* palette - two rows of buttons for the ways, then the kinds in the order a hole is drawn. */
#include "palette.h"

#include "desk.h"
#include "swatch.h"

#include <glib/gi18n.h>

#define COLUMNS 3

struct _HwPalette
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (HwPalette, hw_palette, GTK_TYPE_WIDGET)

const char *const hw_way_names[] = { "select", "freehand", "points", "circle", "place", "scatter", "cut", "arrow", NULL };

static const struct
{
  const char *label, *tip;
} ways[] = {
  { N_ ("Select"), N_ ("Select, move and reshape (S)") },
  { N_ ("Freehand"), N_ ("Drag an outline; it closes into a smooth area (F)") },
  { N_ ("Points"), N_ ("Point by point; drag to bend, double-click or Enter ends (P)") },
  { N_ ("Circle"), N_ ("Drag a circle from its middle (C)") },
  { N_ ("Place"), N_ ("Put a point down (M)") },
  { N_ ("Tree row"), N_ ("Trees along a stroke (T)") },
};

/* Rows of three, the longest words in the last column. */
static const Kind kinds[] = {
  KIND_TEE,    KIND_FAIRWAY,  KIND_FIRST_CUT,    KIND_GREEN,      KIND_FRINGE,      KIND_DEEP_ROUGH,
  KIND_BUNKER, KIND_WASTE,    KIND_PENALTY_AREA, KIND_WATER,      KIND_TREES,       KIND_OUT_OF_BOUNDS,
  KIND_PATH,   KIND_BUILDING, KIND_ROUGH,        KIND_TEE_MARKER, KIND_TREE,        KIND_HOLE_LOCATION,
  KIND_NOTE,   KIND_MARK,     KIND_LINE_OF_PLAY, KIND_SLOPE,      KIND_SPOT_HEIGHT,
};

static GtkWidget *
kind_button_new (Kind kind)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 5);
  GtkWidget *swatch = hw_swatch_new ();
  hw_swatch_show (swatch, kind, STAKES_RED);
  GtkWidget *label = gtk_label_new (_ (kind_info (kind)->label));
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_box_append (GTK_BOX (box), swatch);
  gtk_box_append (GTK_BOX (box), label);
  GtkWidget *button = gtk_toggle_button_new ();
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.draw-kind");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", kind_info (kind)->token);
  if (hw_way_draws (HW_WAY_ARROW, kind))
    gtk_widget_set_tooltip_text (button, _ ("Drag it downhill"));
  gtk_widget_add_css_class (button, "kind");
  gtk_widget_set_hexpand (button, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (kind_info (kind)->label), -1);
  return button;
}

static void
hw_palette_dispose (GObject *object)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (hw_palette_parent_class)->dispose (object);
}

static void
hw_palette_class_init (HwPaletteClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_palette_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "palette");
}

static GtkWidget *
grid_new (const char *name)
{
  GtkWidget *grid
      = g_object_new (GTK_TYPE_GRID, "accessible-role", GTK_ACCESSIBLE_ROLE_GROUP, "row-spacing", 2, "column-spacing", 2, NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (grid), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return grid;
}

static void
hw_palette_init (HwPalette *self)
{
  GtkBoxLayout *layout = GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self)));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (layout, 10);
  GtkWidget *way_grid = grid_new (_ ("Ways to draw"));
  for (int i = 0; i < (int)G_N_ELEMENTS (ways); i++)
    {
      GtkWidget *button = gtk_toggle_button_new_with_label (_ (ways[i].label));
      gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.draw-way");
      gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", hw_way_names[i]);
      gtk_widget_set_tooltip_text (button, _ (ways[i].tip));
      gtk_widget_add_css_class (button, "pill");
      gtk_grid_attach (GTK_GRID (way_grid), button, i % COLUMNS, i / COLUMNS, 1, 1);
    }
  gtk_grid_set_row_spacing (GTK_GRID (way_grid), 5);
  gtk_grid_set_column_homogeneous (GTK_GRID (way_grid), TRUE);
  gtk_widget_set_parent (way_grid, GTK_WIDGET (self));
  GtkWidget *kind_grid = grid_new (_ ("Kinds"));
  for (int i = 0; i < (int)G_N_ELEMENTS (kinds); i++)
    gtk_grid_attach (GTK_GRID (kind_grid), kind_button_new (kinds[i]), i % COLUMNS, i / COLUMNS, 1, 1);
  gtk_widget_set_parent (kind_grid, GTK_WIDGET (self));
}
