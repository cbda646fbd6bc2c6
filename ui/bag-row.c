// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-row - knows what it shows, so that what was typed is told from it; a refused text stays in its cell with the reason below. */
#include "bag-row.h"

#include "bag-bar.h"

#include <glib/gi18n.h>

#define CELL_SPACING 2
/* Least width of a name where there is room, and on a phone, in letters. */
#define NAME_CHARS 13
#define NARROW_NAME_CHARS 8

struct _HwBagRow
{
  GtkListBoxRow parent_instance;
  HwBagDesk *desk;
  size_t club;
  char *name; /* of the club */
  GtkGrid *grid;
  GtkWidget *cells[HW_N_BAG_COLUMNS]; /* entries, and one tick */
  char *shown[HW_N_BAG_COLUMNS];      /* what the bag says */
  bool is_wrong[HW_N_BAG_COLUMNS];
  GtkWidget *bar;
  GtkLabel *known, *mistake;
  bool is_full; /* all columns are shown */
  bool is_busy; /* changes of the cells come from here */
};

G_DEFINE_FINAL_TYPE (HwBagRow, hw_bag_row, GTK_TYPE_LIST_BOX_ROW)

static guint mended_signal;

static bool
is_tick (int column)
{
  return hw_bag_columns[column].column == BAG_COLUMN_SURFACES;
}

static char *
text_in (HwBagRow *self, int column)
{
  if (is_tick (column))
    return g_strdup (gtk_check_button_get_active (GTK_CHECK_BUTTON (self->cells[column])) ? "tee" : "");
  return g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->cells[column]))));
}

static void
mark (HwBagRow *self, int column, const char *mistake)
{
  self->is_wrong[column] = mistake != NULL;
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->cells[column]), GTK_ACCESSIBLE_STATE_INVALID,
                               mistake != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
  if (mistake != NULL)
    gtk_widget_add_css_class (self->cells[column], "error");
  else
    gtk_widget_remove_css_class (self->cells[column], "error");
  bool is_any = false;
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    is_any |= self->is_wrong[c];
  if (mistake != NULL)
    {
      gtk_label_set_text (self->mistake, mistake);
      gtk_accessible_update_property (GTK_ACCESSIBLE (self->mistake), GTK_ACCESSIBLE_PROPERTY_LABEL, mistake, -1);
    }
  bool was_any = gtk_widget_get_visible (GTK_WIDGET (self->mistake));
  gtk_widget_set_visible (GTK_WIDGET (self->mistake), is_any);
  if (was_any && !is_any)
    g_signal_emit (self, mended_signal, 0);
}

/* ---- showing ---- */

static void
show_text (HwBagRow *self, int column)
{
  if (is_tick (column))
    gtk_check_button_set_active (GTK_CHECK_BUTTON (self->cells[column]), self->shown[column][0] != '\0');
  else if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (self->cells[column])), self->shown[column]) != 0)
    gtk_editable_set_text (GTK_EDITABLE (self->cells[column]), self->shown[column]);
}

/* The level's figure stands dimly in an empty cell, and is said to be the level's. */
static void
show_hint (HwBagRow *self, int column, const Bag *bag)
{
  const HwBagColumn *info = &hw_bag_columns[column];
  g_autofree char *hint = hw_bag_cell_hint (bag, self->club, info, hw_bag_desk_get_units (self->desk));
  const Club *club = bag_club (bag, self->club);
  bool is_of_level = info->column == BAG_COLUMN_SIDE_SD    ? club->side_sd_from_level
                     : info->column == BAG_COLUMN_CARRY_SD ? club->carry_sd_from_level
                                                           : false;
  bool is_spread = info->column == BAG_COLUMN_SIDE_SD || info->column == BAG_COLUMN_CARRY_SD;
  g_autofree char *told = hint == NULL || !is_spread ? NULL
                          : is_of_level
                              ? g_strdup_printf (_ ("%s from the level, %s"), hint, hw_bag_level_words (bag_level (bag)))
                              : g_strdup_printf (_ ("%s from the range of the carry"), hint);
  g_autofree char *tip = told != NULL ? g_strdup_printf ("%s\n%s", _ (info->tip), told) : g_strdup (_ (info->tip));
  gtk_entry_set_placeholder_text (GTK_ENTRY (self->cells[column]), hint);
  gtk_widget_set_tooltip_text (self->cells[column], tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->cells[column]), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  told != NULL ? told : "", -1);
}

static void
show_cell (HwBagRow *self, int column, const Bag *bag)
{
  const HwBagColumn *info = &hw_bag_columns[column];
  g_autofree char *typed = text_in (self, column);
  bool is_typing = self->shown[column] != NULL && !g_str_equal (typed, self->shown[column]) && !is_tick (column);
  g_free (self->shown[column]);
  self->shown[column] = hw_bag_cell_text (bag, self->club, info, hw_bag_desk_get_units (self->desk));
  if (!is_typing || g_str_equal (typed, self->shown[column]))
    {
      show_text (self, column);
      mark (self, column, NULL);
    }
  g_autofree char *name = g_strdup_printf (_ (info->name), self->name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->cells[column]), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  if (!is_tick (column))
    show_hint (self, column, bag);
}

/* With the figures where not all of them stand above it. */
static void
show_known (HwBagRow *self, const Club *club)
{
  g_autofree char *brief = hw_bag_errors_words (club, hw_bag_desk_get_units (self->desk), true);
  g_autofree char *full = hw_bag_errors_words (club, hw_bag_desk_get_units (self->desk), false);
  gtk_widget_set_visible (GTK_WIDGET (self->known), full != NULL);
  if (full == NULL)
    return;
  gtk_label_set_text (self->known, self->is_full ? brief : full);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->known), full);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->known), GTK_ACCESSIBLE_PROPERTY_LABEL, full, -1);
}

/* Another club's row: what was typed was not for it. */
static void
forget_typing (HwBagRow *self)
{
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    g_clear_pointer (&self->shown[c], g_free);
}

void
hw_bag_row_show (HwBagRow *self, size_t i)
{
  Bag *bag = hw_bag_desk_get_bag (self->desk);
  const Club *club = bag_club (bag, i);
  self->is_busy = true;
  self->club = i;
  g_free (self->name);
  self->name = g_strdup (club->name);
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    show_cell (self, c, bag);
  hw_bag_bar_show (HW_BAG_BAR (self->bar), bag, i, hw_bag_desk_get_units (self->desk));
  show_known (self, club);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, self->name, -1);
  self->is_busy = false;
}

/* ---- typing ---- */

static bool
commit_cell (HwBagRow *self, int column)
{
  const HwBagColumn *info = &hw_bag_columns[column];
  g_autofree char *typed = text_in (self, column);
  int i = hw_bag_desk_find (self->desk, self->name);
  if (self->is_busy || i < 0 || self->shown[column] == NULL)
    return true;
  if (g_str_equal (typed, self->shown[column]))
    {
      mark (self, column, NULL);
      return true;
    }
  g_autoptr (GError) error = NULL;
  Bag *bag = bag_with_cell (hw_bag_desk_get_bag (self->desk), (size_t)i, info->column, typed,
                            hw_bag_desk_get_units (self->desk), &error);
  if (bag == NULL)
    {
      g_autofree char *mistake = hw_bag_refusal (info, error->message);
      mark (self, column, mistake);
      return false;
    }
  /* "Undo carry of 7 iron" */
  g_autofree char *label = g_strdup_printf (_ ("%s of %s"), _ (info->word), self->name);
  g_free (self->shown[column]);
  self->shown[column] = g_strdup (typed);
  mark (self, column, NULL);
  hw_bag_desk_push (self->desk, bag, label);
  return true;
}

bool
hw_bag_row_commit (HwBagRow *self)
{
  bool is_right = true;
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    is_right = commit_cell (self, c) && is_right;
  return is_right;
}

int
hw_bag_row_get_column (HwBagRow *self)
{
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    if ((gtk_widget_get_state_flags (self->cells[c]) & GTK_STATE_FLAG_FOCUS_WITHIN) != 0
        || gtk_widget_is_focus (self->cells[c]))
      return c;
  return -1;
}

bool
hw_bag_row_revert (HwBagRow *self)
{
  int column = hw_bag_row_get_column (self);
  g_autofree char *typed = column >= 0 ? text_in (self, column) : NULL;
  if (column < 0 || self->shown[column] == NULL || g_str_equal (typed, self->shown[column]))
    return false;
  self->is_busy = true;
  show_text (self, column);
  mark (self, column, NULL);
  self->is_busy = false;
  return true;
}

static void
on_leave_cb (GtkEventController *controller, HwBagRow *self)
{
  GtkWidget *cell = gtk_event_controller_get_widget (controller);
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    if (self->cells[c] == cell && gtk_widget_get_mapped (cell))
      {
        commit_cell (self, c);
        return;
      }
}

static void
on_enter_cb (HwBagRow *self)
{
  GtkWidget *list = gtk_widget_get_parent (GTK_WIDGET (self));
  if (GTK_IS_LIST_BOX (list))
    gtk_list_box_select_row (GTK_LIST_BOX (list), GTK_LIST_BOX_ROW (self));
}

static void
on_ticked_cb (HwBagRow *self)
{
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    if (is_tick (c))
      commit_cell (self, c);
}

/* ---- the widget ---- */

size_t
hw_bag_row_get_index (HwBagRow *self)
{
  return self->club;
}

const char *
hw_bag_row_get_name (HwBagRow *self)
{
  return self->name;
}

const char *
hw_bag_row_get_mistake (HwBagRow *self)
{
  return gtk_widget_get_visible (GTK_WIDGET (self->mistake)) ? gtk_label_get_text (self->mistake) : NULL;
}

void
hw_bag_row_focus (HwBagRow *self, int column)
{
  gtk_widget_grab_focus (self->cells[column]);
}

static void
place (GtkGrid *grid, GtkWidget *child, int column, int row, int n_columns, int n_rows)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (grid));
  GtkGridLayoutChild *at = GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout, child));
  gtk_grid_layout_child_set_column (at, column);
  gtk_grid_layout_child_set_row (at, row);
  gtk_grid_layout_child_set_column_span (at, n_columns);
  gtk_grid_layout_child_set_row_span (at, n_rows);
}

void
hw_bag_row_lay_out (HwBagRow *self, HwBagGroup groups, bool is_bar_below)
{
  const int all = HW_N_BAG_COLUMNS + 1;
  const Bag *bag = hw_bag_desk_get_bag (self->desk);
  self->is_full = groups == HW_BAG_ALL;
  if (self->club < bag_n_clubs (bag))
    show_known (self, bag_club (bag, self->club));
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    gtk_widget_set_visible (self->cells[c], (hw_bag_columns[c].group & groups) != 0);
  gtk_editable_set_width_chars (GTK_EDITABLE (self->cells[0]), is_bar_below ? NARROW_NAME_CHARS : NAME_CHARS);
  gtk_widget_set_hexpand (self->cells[0], is_bar_below);
  place (self->grid, self->bar, is_bar_below ? 0 : HW_N_BAG_COLUMNS, is_bar_below ? 1 : 0, is_bar_below ? all : 1,
         is_bar_below ? 1 : 2);
  place (self->grid, GTK_WIDGET (self->known), 0, is_bar_below ? 2 : 1, is_bar_below ? all : HW_N_BAG_COLUMNS, 1);
  place (self->grid, GTK_WIDGET (self->mistake), 0, 3, all, 1);
}

static void
hw_bag_row_dispose (GObject *object)
{
  HwBagRow *self = HW_BAG_ROW (object);
  self->is_busy = true;
  forget_typing (self);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->name, g_free);
  G_OBJECT_CLASS (hw_bag_row_parent_class)->dispose (object);
}

static void
hw_bag_row_class_init (HwBagRowClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_bag_row_dispose;
  mended_signal = g_signal_new ("mended", HW_TYPE_BAG_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static GtkWidget *
cell_new (HwBagRow *self, int column)
{
  const HwBagColumn *info = &hw_bag_columns[column];
  GtkWidget *cell = is_tick (column) ? gtk_check_button_new () : gtk_entry_new ();
  gtk_widget_set_tooltip_text (cell, _ (info->tip));
  gtk_widget_set_valign (cell, GTK_ALIGN_START);
  if (is_tick (column))
    {
      gtk_widget_set_halign (cell, GTK_ALIGN_CENTER);
      gtk_widget_set_size_request (cell, -1, (int)RENDER_BAG_BAR);
      g_signal_connect_swapped (cell, "toggled", G_CALLBACK (on_ticked_cb), self);
      return cell;
    }
  gtk_editable_set_width_chars (GTK_EDITABLE (cell), info->width_chars);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (cell), info->width_chars);
  gtk_editable_set_enable_undo (GTK_EDITABLE (cell), FALSE);
  gtk_editable_set_alignment (GTK_EDITABLE (cell), column == 0 ? 0 : 1);
  gtk_widget_add_css_class (cell, "cell");
  if (column > 0)
    gtk_widget_add_css_class (cell, "figures");
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect (focus, "leave", G_CALLBACK (on_leave_cb), self);
  gtk_widget_add_controller (cell, focus);
  return cell;
}

static GtkLabel *
line_new (const char *style, GtkAccessibleRole role)
{
  GtkLabel *label = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", role, NULL));
  gtk_label_set_xalign (label, 0);
  gtk_widget_add_css_class (GTK_WIDGET (label), style);
  gtk_widget_set_visible (GTK_WIDGET (label), FALSE);
  return label;
}

static void
hw_bag_row_init (HwBagRow *self)
{
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_spacing (self->grid, CELL_SPACING);
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    {
      self->cells[c] = cell_new (self, c);
      gtk_grid_attach (self->grid, self->cells[c], c, 0, 1, 1);
    }
  self->bar = hw_bag_bar_new ();
  gtk_widget_set_valign (self->bar, GTK_ALIGN_START);
  self->known = line_new ("caption", GTK_ACCESSIBLE_ROLE_LABEL);
  /* As wide as the cells above it, which it must not push apart. */
  gtk_label_set_wrap (self->known, TRUE);
  gtk_label_set_max_width_chars (self->known, 1);
  self->mistake = line_new ("note", GTK_ACCESSIBLE_ROLE_ALERT);
  gtk_label_set_wrap (self->mistake, TRUE);
  gtk_grid_attach (self->grid, self->bar, HW_N_BAG_COLUMNS, 0, 1, 2);
  gtk_grid_attach (self->grid, GTK_WIDGET (self->known), 0, 1, HW_N_BAG_COLUMNS, 1);
  gtk_grid_attach (self->grid, GTK_WIDGET (self->mistake), 0, 3, HW_N_BAG_COLUMNS + 1, 1);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (self), GTK_WIDGET (self->grid));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (self), FALSE);
  /* Its cells have the keyboard, not the row. */
  gtk_widget_set_focusable (GTK_WIDGET (self), FALSE);
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_signal_connect_swapped (focus, "enter", G_CALLBACK (on_enter_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}

GtkWidget *
hw_bag_row_new (HwBagDesk *desk, GtkSizeGroup *const *columns)
{
  HwBagRow *self = g_object_new (HW_TYPE_BAG_ROW, NULL);
  self->desk = g_object_ref (desk);
  for (int c = 0; c < HW_N_BAG_COLUMNS; c++)
    gtk_size_group_add_widget (columns[c], self->cells[c]);
  return GTK_WIDGET (self);
}
