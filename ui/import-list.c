// SPDX-License-Identifier: GPL-3.0-or-later
/* import-list - a list view, so that thousands of shapes cost no more than those in sight; a row knows its colour or shape by its position. */
#include "import-list.h"

#include <glib/gi18n.h>

#define CHIP_WIDTH_PX 18
#define CHIP_HEIGHT_PX 16
#define CHIP_LINE_PX 3.0
/* The drop-downs stand below each other, px. */
#define KINDS_WIDTH_PX 150
#define LEAST_HEIGHT_PX 120

struct _HwImportList
{
  GtkWidget parent_instance;
  const SvgFragment *fragment;
  size_t *colour_of;   /* of each part */
  HwChoice *by_colour; /* of each colour */
  HwChoice *by_shape;  /* of each part */
  bool shows_shapes;
  GtkListView *view;
  GtkSingleSelection *rows;
};

G_DEFINE_FINAL_TYPE (HwImportList, hw_import_list, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  MARKED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* ---- what is chosen ---- */

static HwChoice *
choice_of_row (HwImportList *self, guint row)
{
  return self->shows_shapes ? &self->by_shape[row] : &self->by_colour[row];
}

HwChoice
hw_import_list_get_choice (HwImportList *self, size_t part)
{
  HwChoice own = self->by_shape[part];
  return own != HW_CHOICE_AS_COLOUR ? own : self->by_colour[self->colour_of[part]];
}

static HwChoice
guessed (Kind kind, HwChoice otherwise)
{
  return kind != KIND_NONE ? (HwChoice)kind : otherwise;
}

static void
guess_all (HwImportList *self)
{
  const SvgFragment *fragment = self->fragment;
  for (size_t c = 0; c < fragment->n_colours; c++)
    {
      self->by_colour[c] = guessed (svg_guess_colour (fragment, c), HW_CHOICE_OPEN);
      for (size_t i = 0; i < fragment->colours[c].n_parts; i++)
        {
          size_t part = fragment->colours[c].parts[i];
          HwChoice own = guessed (svg_guess_part (fragment, part), HW_CHOICE_AS_COLOUR);
          self->colour_of[part] = c;
          self->by_shape[part] = own == self->by_colour[c] ? HW_CHOICE_AS_COLOUR : own;
        }
    }
}

bool
hw_import_list_is_marked (HwImportList *self, size_t part)
{
  guint row = gtk_single_selection_get_selected (self->rows);
  return row != GTK_INVALID_LIST_POSITION && (self->shows_shapes ? part == row : self->colour_of[part] == row);
}

/* ---- rows ---- */

static void
on_draw_chip_cb (GtkDrawingArea *chip, cairo_t *cr, int width, int height, gpointer user_data)
{
  const SvgColour *colour = g_object_get_data (G_OBJECT (chip), "colour");
  GdkRGBA ink, edge;
  gtk_style_context_get_color (gtk_widget_get_style_context (GTK_WIDGET (chip)), &edge);
  bool has_ink = colour != NULL && gdk_rgba_parse (&ink, colour->colour);
  cairo_rectangle (cr, CHIP_LINE_PX / 2, CHIP_LINE_PX / 2, width - CHIP_LINE_PX, height - CHIP_LINE_PX);
  gdk_cairo_set_source_rgba (cr, has_ink ? &ink : &edge);
  cairo_set_line_width (cr, has_ink && colour->is_stroke ? CHIP_LINE_PX : 1);
  if (has_ink && !colour->is_stroke)
    {
      cairo_fill_preserve (cr);
      gdk_cairo_set_source_rgba (cr, &edge);
    }
  cairo_stroke (cr);
  if (has_ink)
    return;
  /* No plain colour: struck through. */
  cairo_move_to (cr, CHIP_LINE_PX / 2, height - CHIP_LINE_PX / 2);
  cairo_line_to (cr, width - CHIP_LINE_PX / 2, CHIP_LINE_PX / 2);
  cairo_stroke (cr);
}

static char *
name_of_shape (const Part *part, size_t i)
{
  char buffer[96];
  if (part->name != NULL || part->id != NULL)
    return g_strdup (part_label (part, buffer, sizeof buffer));
  return g_strdup_printf (_ ("shape %zu"), i + 1);
}

static char *
name_of_row (HwImportList *self, guint row)
{
  if (self->shows_shapes)
    return name_of_shape (self->fragment->parts[row], row);
  const SvgColour *colour = &self->fragment->colours[row];
  const Part *first = self->fragment->parts[colour->parts[0]];
  if (colour->n_parts == 1 && (first->name != NULL || first->id != NULL))
    return name_of_shape (first, colour->parts[0]);
  return g_strdup_printf (g_dngettext (NULL, "%zu shape", "%zu shapes", colour->n_parts), colour->n_parts);
}

static void
on_chose (GtkWidget *kinds, HwChoice choice, gpointer user_data)
{
  GtkListItem *item = user_data;
  HwImportList *self = HW_IMPORT_LIST (gtk_widget_get_ancestor (kinds, HW_TYPE_IMPORT_LIST));
  *choice_of_row (self, gtk_list_item_get_position (item)) = choice;
  gtk_single_selection_set_selected (self->rows, gtk_list_item_get_position (item));
  g_signal_emit (self, signals[CHOSEN], 0);
}

static void
on_setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item, HwImportList *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *chip = gtk_drawing_area_new ();
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (chip), CHIP_WIDTH_PX);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (chip), CHIP_HEIGHT_PX);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (chip), on_draw_chip_cb, NULL, NULL);
  gtk_widget_set_valign (chip, GTK_ALIGN_CENTER);
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (box), chip);
  gtk_box_append (GTK_BOX (box), label);
  GtkWidget *kinds = hw_import_kinds_new (self->shows_shapes, on_chose, item);
  gtk_widget_set_size_request (kinds, KINDS_WIDTH_PX, -1);
  gtk_box_append (GTK_BOX (box), kinds);
  gtk_list_item_set_child (item, box);
  gtk_list_item_set_activatable (item, FALSE);
}

static void
on_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item, HwImportList *self)
{
  guint row = gtk_list_item_get_position (item);
  GtkWidget *chip = gtk_widget_get_first_child (gtk_list_item_get_child (item));
  GtkWidget *label = gtk_widget_get_next_sibling (chip), *kinds = gtk_widget_get_next_sibling (label);
  const SvgColour *colour = &self->fragment->colours[self->shows_shapes ? self->colour_of[row] : row];
  g_autofree char *name = name_of_row (self, row);
  g_autofree char *spoken = g_strdup_printf (_ ("Kind of %s, %s"), name, colour->colour);
  g_object_set_data (G_OBJECT (chip), "colour", (gpointer)colour);
  gtk_widget_queue_draw (chip);
  gtk_label_set_text (GTK_LABEL (label), name);
  gtk_widget_set_tooltip_text (chip, colour->colour);
  hw_import_kinds_show (kinds, *choice_of_row (self, row));
  gtk_accessible_update_property (GTK_ACCESSIBLE (kinds), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
}

/* ---- the list ---- */

static void
on_row_selected_cb (HwImportList *self)
{
  g_signal_emit (self, signals[MARKED], 0);
}

/* Rows anew: as many as there are colours or shapes, none selected. */
static void
show_rows (HwImportList *self)
{
  size_t n = self->shows_shapes ? self->fragment->n_parts : self->fragment->n_colours;
  GtkStringList *strings = gtk_string_list_new (NULL);
  for (size_t i = 0; i < n; i++)
    gtk_string_list_append (strings, "");
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup_cb), self);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind_cb), self);
  gtk_list_view_set_model (self->view, NULL);
  gtk_list_view_set_factory (self->view, factory);
  g_object_unref (factory);
  g_clear_object (&self->rows);
  self->rows = gtk_single_selection_new (NULL);
  gtk_single_selection_set_autoselect (self->rows, FALSE);
  gtk_single_selection_set_can_unselect (self->rows, TRUE);
  gtk_single_selection_set_model (self->rows, G_LIST_MODEL (strings));
  g_object_unref (strings);
  g_signal_connect_swapped (self->rows, "notify::selected", G_CALLBACK (on_row_selected_cb), self);
  gtk_list_view_set_model (self->view, GTK_SELECTION_MODEL (self->rows));
  g_signal_emit (self, signals[MARKED], 0);
}

void
hw_import_list_set_fragment (HwImportList *self, const SvgFragment *fragment)
{
  self->fragment = fragment;
  self->colour_of = g_new0 (size_t, fragment->n_parts + 1);
  self->by_shape = g_new0 (HwChoice, fragment->n_parts + 1);
  self->by_colour = g_new0 (HwChoice, fragment->n_colours + 1);
  guess_all (self);
  show_rows (self);
}

void
hw_import_list_set_by_shape (HwImportList *self, bool by_shape)
{
  if (self->shows_shapes == by_shape)
    return;
  self->shows_shapes = by_shape;
  show_rows (self);
}

void
hw_import_list_leave_out_open (HwImportList *self)
{
  for (size_t c = 0; c < self->fragment->n_colours; c++)
    if (self->by_colour[c] == HW_CHOICE_OPEN)
      self->by_colour[c] = SVG_LEAVE_OUT;
  show_rows (self);
  g_signal_emit (self, signals[CHOSEN], 0);
}

static void
hw_import_list_dispose (GObject *object)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&HW_IMPORT_LIST (object)->rows);
  G_OBJECT_CLASS (hw_import_list_parent_class)->dispose (object);
}

static void
hw_import_list_finalize (GObject *object)
{
  HwImportList *self = HW_IMPORT_LIST (object);
  g_free (self->colour_of);
  g_free (self->by_colour);
  g_free (self->by_shape);
  G_OBJECT_CLASS (hw_import_list_parent_class)->finalize (object);
}

static void
hw_import_list_class_init (HwImportListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  object_class->dispose = hw_import_list_dispose;
  object_class->finalize = hw_import_list_finalize;
  static const char *const names[N_SIGNALS] = { "chosen", "marked" };
  for (int i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], HW_TYPE_IMPORT_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
hw_import_list_init (HwImportList *self)
{
  self->view = GTK_LIST_VIEW (gtk_list_view_new (NULL, NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->view), "import-rows");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->view), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Shapes and their kinds"), -1);
  GtkWidget *scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), GTK_WIDGET (self->view));
  gtk_scrolled_window_set_min_content_height (GTK_SCROLLED_WINDOW (scroller), LEAST_HEIGHT_PX);
  gtk_widget_set_parent (scroller, GTK_WIDGET (self));
}
