// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-table - follows the desk: finds each club's row again by its name, makes what is missing, and puts them in the bag's order. */
#include "bag-table.h"

#include "bag-bar.h"
#include "bag-row.h"

#include <glib/gi18n.h>

struct _HwBagTable
{
  GtkWidget parent_instance;
  HwBagDesk *desk;
  GtkListBox *list;
  GtkGrid *heads;
  GtkWidget *head_labels[HW_N_BAG_COLUMNS], *ruler, *scroller;
  GtkSizeGroup *columns[HW_N_BAG_COLUMNS];
  HwBagGroup groups;
  bool is_bar_below;
};

G_DEFINE_FINAL_TYPE (HwBagTable, hw_bag_table, GTK_TYPE_WIDGET)

static guint mended_signal;

static HwBagRow *
row_at (HwBagTable *self, int i)
{
  GtkListBoxRow *row = i >= 0 ? gtk_list_box_get_row_at_index (self->list, i) : NULL;
  return row != NULL ? HW_BAG_ROW (row) : NULL;
}

static HwBagRow *
focused_row (HwBagTable *self)
{
  HwBagRow *row;
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    if (hw_bag_row_get_column (row) >= 0)
      return row;
  return NULL;
}

/* ---- following the desk ---- */

static int
by_index (GtkListBoxRow *a, GtkListBoxRow *b, gpointer data)
{
  size_t i = hw_bag_row_get_index (HW_BAG_ROW (a)), k = hw_bag_row_get_index (HW_BAG_ROW (b));
  return i < k ? -1 : i > k;
}

static void
on_mended_cb (HwBagTable *self)
{
  g_signal_emit (self, mended_signal, 0);
}

static HwBagRow *
row_new (HwBagTable *self)
{
  GtkWidget *row = hw_bag_row_new (self->desk, self->columns);
  g_signal_connect_object (row, "mended", G_CALLBACK (on_mended_cb), self, G_CONNECT_SWAPPED);
  return HW_BAG_ROW (row);
}

/* Gives each club the row of its name; what rows are left over stay in `spare`, in order. */
static void
match_rows (HwBagTable *self, const Bag *bag, HwBagRow **rows, GPtrArray *spare)
{
  HwBagRow *row;
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    {
      int club = hw_bag_desk_find (self->desk, hw_bag_row_get_name (row));
      if (club >= 0 && rows[club] == NULL)
        rows[club] = row;
      else
        g_ptr_array_add (spare, row);
    }
}

static size_t
count_missing (HwBagRow *const *rows, size_t n)
{
  size_t missing = 0;
  for (size_t i = 0; i < n; i++)
    missing += rows[i] == NULL;
  return missing;
}

static void
on_changed_cb (HwBagTable *self)
{
  Bag *bag = hw_bag_desk_get_bag (self->desk);
  size_t n = bag_n_clubs (bag);
  g_autofree HwBagRow **rows = g_new0 (HwBagRow *, n + 1);
  g_autoptr (GPtrArray) spare = g_ptr_array_new ();
  match_rows (self, bag, rows, spare);
  /* One club without a row and one row without a club: it was renamed. */
  bool is_renamed = spare->len == 1 && count_missing (rows, n) == 1;
  for (size_t i = 0; i < n; i++)
    {
      bool is_new = rows[i] == NULL && !is_renamed;
      if (rows[i] == NULL)
        rows[i] = is_new ? row_new (self) : g_ptr_array_index (spare, 0);
      hw_bag_row_show (rows[i], i);
      if (!is_new)
        continue;
      hw_bag_row_lay_out (rows[i], self->groups, self->is_bar_below);
      gtk_list_box_append (self->list, GTK_WIDGET (rows[i]));
    }
  for (guint k = 0; k < spare->len && !is_renamed; k++)
    gtk_list_box_remove (self->list, g_ptr_array_index (spare, k));
  gtk_list_box_invalidate_sort (self->list);
  hw_bag_bar_show_ruler (HW_BAG_BAR (self->ruler), bag, hw_bag_desk_get_units (self->desk));
}

void
hw_bag_table_set_desk (HwBagTable *self, HwBagDesk *desk)
{
  self->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
  on_changed_cb (self);
}

/* ---- the keyboard ---- */

int
hw_bag_table_get_selected (HwBagTable *self)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (self->list);
  return row != NULL ? (int)hw_bag_row_get_index (HW_BAG_ROW (row)) : -1;
}

void
hw_bag_table_select (HwBagTable *self, size_t i, int column)
{
  HwBagRow *row = row_at (self, (int)i);
  if (row != NULL)
    hw_bag_row_focus (row, column);
}

bool
hw_bag_table_commit (HwBagTable *self, const char **mistake)
{
  HwBagRow *row;
  /* A row that is taken may move: the wrong ones are looked for when all are. */
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    hw_bag_row_commit (row);
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    if (hw_bag_row_get_mistake (row) != NULL)
      {
        *mistake = hw_bag_row_get_mistake (row);
        return false;
      }
  return true;
}

bool
hw_bag_table_revert (HwBagTable *self)
{
  HwBagRow *row = focused_row (self);
  return row != NULL && hw_bag_row_revert (row);
}

static gboolean
on_key_cb (HwBagTable *self, guint keyval, guint keycode, GdkModifierType state)
{
  HwBagRow *row = focused_row (self);
  int step = keyval == GDK_KEY_Up                                                               ? -1
             : keyval == GDK_KEY_Down || keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter ? 1
                                                                                                : 0;
  if (row == NULL || (state & (GDK_ALT_MASK | GDK_CONTROL_MASK | GDK_SHIFT_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  if (keyval == GDK_KEY_Escape)
    return hw_bag_row_revert (row) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
  int column = hw_bag_row_get_column (row), to = gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row)) + step;
  if (step == 0)
    return GDK_EVENT_PROPAGATE;
  HwBagRow *next = row_at (self, to);
  /* Who presses Return in the last row, or on a mistake, stays there. */
  if (hw_bag_row_commit (row) && next != NULL)
    hw_bag_row_focus (next, column);
  return GDK_EVENT_STOP;
}

/* ---- the widget ---- */

void
hw_bag_table_lay_out (HwBagTable *self, HwBagGroup groups, bool is_bar_below)
{
  HwBagRow *row;
  self->groups = groups;
  self->is_bar_below = is_bar_below;
  for (int i = 0; (row = row_at (self, i)) != NULL; i++)
    hw_bag_row_lay_out (row, groups, is_bar_below);
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    gtk_widget_set_visible (self->head_labels[c], (hw_bag_columns[c].group & groups) != 0);
  gtk_widget_set_hexpand (self->head_labels[0], is_bar_below);
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self->heads));
  GtkGridLayoutChild *at = GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout, self->ruler));
  gtk_grid_layout_child_set_column (at, is_bar_below ? 0 : HW_N_BAG_COLUMNS);
  gtk_grid_layout_child_set_row (at, is_bar_below ? 1 : 0);
  gtk_grid_layout_child_set_column_span (at, is_bar_below ? HW_N_BAG_COLUMNS + 1 : 1);
}

static void
add_heads (HwBagTable *self)
{
  self->heads = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_spacing (self->heads, 2);
  gtk_widget_add_css_class (GTK_WIDGET (self->heads), "course-heads");
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    {
      self->columns[c] = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
      self->head_labels[c] = gtk_label_new (_ (hw_bag_columns[c].head));
      gtk_label_set_xalign (GTK_LABEL (self->head_labels[c]), c == 0 ? 0 : 1);
      gtk_widget_set_margin_start (self->head_labels[c], c == 0 ? 6 : 0);
      gtk_widget_set_margin_end (self->head_labels[c], c == 0 ? 0 : 6);
      gtk_widget_add_css_class (self->head_labels[c], "caption");
      gtk_widget_set_tooltip_text (self->head_labels[c], _ (hw_bag_columns[c].tip));
      gtk_size_group_add_widget (self->columns[c], self->head_labels[c]);
      gtk_grid_attach (self->heads, self->head_labels[c], c, 0, 1, 1);
    }
  self->ruler = hw_bag_bar_new ();
  gtk_grid_attach (self->heads, self->ruler, HW_N_BAG_COLUMNS, 0, 1, 1);
  gtk_widget_set_parent (GTK_WIDGET (self->heads), GTK_WIDGET (self));
}

static void
hw_bag_table_dispose (GObject *object)
{
  HwBagTable *self = HW_BAG_TABLE (object);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->desk);
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    g_clear_object (&self->columns[c]);
  G_OBJECT_CLASS (hw_bag_table_parent_class)->dispose (object);
}

static void
hw_bag_table_class_init (HwBagTableClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_bag_table_dispose;
  mended_signal = g_signal_new ("mended", HW_TYPE_BAG_TABLE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
hw_bag_table_init (HwBagTable *self)
{
  self->groups = HW_BAG_ALL;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))), GTK_ORIENTATION_VERTICAL);
  add_heads (self);
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_sort_func (self->list, by_index, NULL, NULL);
  gtk_widget_add_css_class (GTK_WIDGET (self->list), "bag-clubs");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Clubs"), -1);
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_object (keys, "key-pressed", G_CALLBACK (on_key_cb), self, G_CONNECT_SWAPPED);
  gtk_widget_add_controller (GTK_WIDGET (self->list), keys);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->list));
  gtk_widget_set_vexpand (self->scroller, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scroller), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Clubs"), -1);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
}
