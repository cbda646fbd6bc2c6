// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * problems - the hole is checked in a thread of its own a moment after the last change, never in a drag; what a newer check overtakes is dropped. What is
 * pressed counts only for the very hole that was checked.
 */
#include "problems.h"

#include "problem-words.h"

#include <glib/gi18n.h>

/* A hole is checked when it has not changed for this long (common practice). */
#define PAUSE_MS 250
/* The list scrolls beyond this height, px. */
#define MOST_HEIGHT_PX 190

struct _HwProblems
{
  GtkWidget parent_instance;
  HwDesk *desk;
  GtkToggleButton *fold;
  GtkImage *arrow;
  GtkLabel *count;
  GtkWidget *scroller;
  GtkListBox *list;
  Hole *checked, *checking; /* `findings` are of `checked` */
  GPtrArray *findings;
  guint pause;
};

G_DEFINE_FINAL_TYPE (HwProblems, hw_problems, GTK_TYPE_WIDGET)

/* ---- what is pressed ---- */

/* The finding of the row that a button stands in; NULL when the hole has changed since it was checked. */
static const Finding *
finding_of (HwProblems *self, GtkWidget *button)
{
  GtkWidget *row = gtk_widget_get_ancestor (button, GTK_TYPE_LIST_BOX_ROW);
  int i = row != NULL ? gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (row)) : -1;
  bool is_fresh = self->checked != NULL && self->checked == hw_document_get_kept (hw_desk_get_document (self->desk));
  return is_fresh && i >= 0 && (guint)i < self->findings->len ? g_ptr_array_index (self->findings, i) : NULL;
}

static void
on_show_cb (HwProblems *self, GtkWidget *button)
{
  const Finding *finding = finding_of (self, button);
  if (finding == NULL)
    return;
  size_t part = (size_t)finding->part;
  hw_desk_set_hidden (self->desk, part, false);
  hw_desk_take_way (self->desk, HW_WAY_SELECT);
  hw_desk_select_one (self->desk, part);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.draw-look", NULL);
}

static void
on_mend_cb (HwProblems *self, GtkWidget *button)
{
  const Finding *finding = finding_of (self, button);
  if (finding == NULL || hw_document_is_dragging (hw_desk_get_document (self->desk)))
    return;
  GError *error = NULL;
  Mend mend = finding->mend_kind;
  Hole *mended = edit_mend (self->checked, mend, (size_t)MAX (finding->part, 0), &error);
  hw_desk_edit (self->desk, mended, hw_mend_step (mend), 0, &error);
}

/* ---- the list ---- */

static GtkWidget *
button_new (HwProblems *self, const char *label, const char *format, const char *words, GCallback pressed)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  g_autofree char *name = g_strdup_printf (format, words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  g_signal_connect_object (button, "clicked", pressed, self, G_CONNECT_SWAPPED);
  return button;
}

static GtkWidget *
text_new (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_set_hexpand (label, TRUE);
  if (style != NULL)
    gtk_widget_add_css_class (label, style);
  return label;
}

static GtkWidget *
row_new (HwProblems *self, const Finding *finding)
{
  g_autofree char *words = hw_problem_words (self->checked, finding);
  const char *advice = finding->mend_kind == MEND_NONE ? hw_problem_advice (finding) : NULL;
  bool has_part = finding->part >= 0 && hole_part (self->checked, (size_t)finding->part)->kind != KIND_PLAN;
  GtkWidget *row = gtk_list_box_row_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6),
            *texts = gtk_box_new (GTK_ORIENTATION_VERTICAL, 1);
  gtk_box_append (GTK_BOX (texts), text_new (words, NULL));
  if (advice != NULL)
    gtk_box_append (GTK_BOX (texts), text_new (advice, "caption"));
  gtk_box_append (GTK_BOX (box), texts);
  if (has_part)
    gtk_box_append (GTK_BOX (box), button_new (self, _ ("Show"), _ ("Show: %s"), words, G_CALLBACK (on_show_cb)));
  if (finding->mend_kind != MEND_NONE)
    gtk_box_append (GTK_BOX (box), button_new (self, _ ("Mend"), _ ("Mend: %s"), words, G_CALLBACK (on_mend_cb)));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  g_autofree char *spoken = advice != NULL ? g_strdup_printf ("%s %s", words, advice) : g_strdup (words);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, spoken, -1);
  return row;
}

/* The row that the focus is in, or -1. */
static int
focused_row (HwProblems *self)
{
  GtkWidget *child = gtk_widget_get_focus_child (GTK_WIDGET (self->list));
  return GTK_IS_LIST_BOX_ROW (child) ? gtk_list_box_row_get_index (GTK_LIST_BOX_ROW (child)) : -1;
}

static void
show (HwProblems *self)
{
  int focused = focused_row (self), n = self->findings != NULL ? (int)self->findings->len : 0;
  for (GtkListBoxRow *row; (row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL;)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (int i = 0; i < n; i++)
    gtk_list_box_append (self->list, row_new (self, g_ptr_array_index (self->findings, i)));
  g_autofree char *count = g_strdup_printf (g_dngettext (NULL, "%d problem", "%d problems", (gulong)n), n);
  gtk_label_set_text (self->count, count);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->fold), GTK_ACCESSIBLE_PROPERTY_LABEL, count, -1);
  gtk_widget_set_visible (GTK_WIDGET (self), n > 0);
  if (focused >= 0 && n > 0)
    gtk_widget_child_focus (GTK_WIDGET (gtk_list_box_get_row_at_index (self->list, MIN (focused, n - 1))), GTK_DIR_TAB_FORWARD);
}

static void
on_folded_cb (HwProblems *self)
{
  bool is_open = gtk_toggle_button_get_active (self->fold);
  gtk_image_set_from_icon_name (self->arrow, is_open ? "pan-down-symbolic" : "pan-end-symbolic");
  gtk_accessible_update_state (GTK_ACCESSIBLE (self->fold), GTK_ACCESSIBLE_STATE_EXPANDED, is_open, -1);
  gtk_widget_set_visible (self->scroller, is_open);
}

/* ---- checking ---- */

static void
check_in_thread (GTask *task, gpointer source, gpointer hole, GCancellable *cancellable)
{
  g_task_return_pointer (task, svg_check_hole (hole), (GDestroyNotify)g_ptr_array_unref);
}

static void
on_checked_cb (GObject *object, GAsyncResult *result, gpointer user_data)
{
  HwProblems *self = HW_PROBLEMS (object);
  Hole *hole = g_task_get_task_data (G_TASK (result));
  g_autoptr (GPtrArray) findings = g_task_propagate_pointer (G_TASK (result), NULL);
  if (self->desk == NULL || hole != self->checking)
    return;
  g_clear_pointer (&self->checked, hole_unref);
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  self->checked = g_steal_pointer (&self->checking);
  self->findings = g_steal_pointer (&findings);
  show (self);
}

static gboolean
on_pause_over_cb (gpointer user_data)
{
  HwProblems *self = user_data;
  HwDocument *document = hw_desk_get_document (self->desk);
  Hole *hole = hw_document_get_kept (document);
  self->pause = 0;
  if (hw_document_is_dragging (document) || hole == NULL || hole == self->checked || hole == self->checking)
    return G_SOURCE_REMOVE;
  g_clear_pointer (&self->checking, hole_unref);
  self->checking = hole_ref (hole);
  g_autoptr (GTask) task = g_task_new (self, NULL, on_checked_cb, NULL);
  g_task_set_task_data (task, hole_ref (hole), (GDestroyNotify)hole_unref);
  g_task_run_in_thread (task, check_in_thread);
  return G_SOURCE_REMOVE;
}

static void
on_changed_cb (HwProblems *self)
{
  g_clear_handle_id (&self->pause, g_source_remove);
  self->pause = g_timeout_add_full (G_PRIORITY_LOW, PAUSE_MS, on_pause_over_cb, self, NULL);
}

void
hw_problems_set_desk (HwProblems *self, HwDesk *desk)
{
  HwDocument *document = hw_desk_get_document (desk);
  self->desk = g_object_ref (desk);
  g_signal_connect_object (document, "hole-changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "opened", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
  on_changed_cb (self);
}

/* ---- the widget ---- */

static void
hw_problems_dispose (GObject *object)
{
  HwProblems *self = HW_PROBLEMS (object);
  g_clear_handle_id (&self->pause, g_source_remove);
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->desk);
  g_clear_pointer (&self->checked, hole_unref);
  g_clear_pointer (&self->checking, hole_unref);
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  G_OBJECT_CLASS (hw_problems_parent_class)->dispose (object);
}

static void
hw_problems_class_init (HwProblemsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_problems_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
hw_problems_init (HwProblems *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (gtk_widget_get_layout_manager (GTK_WIDGET (self))), GTK_ORIENTATION_VERTICAL);
  gtk_widget_add_css_class (GTK_WIDGET (self), "problems");
  gtk_widget_set_visible (GTK_WIDGET (self), FALSE);
  self->fold = GTK_TOGGLE_BUTTON (gtk_toggle_button_new ());
  self->arrow = GTK_IMAGE (gtk_image_new ());
  self->count = GTK_LABEL (text_new (NULL, "heading"));
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->arrow));
  gtk_box_append (GTK_BOX (head), GTK_WIDGET (self->count));
  gtk_box_append (GTK_BOX (head), gtk_image_new_from_icon_name ("dialog-warning-symbolic"));
  gtk_button_set_child (GTK_BUTTON (self->fold), head);
  g_signal_connect_swapped (self->fold, "toggled", G_CALLBACK (on_folded_cb), self);
  self->list = GTK_LIST_BOX (gtk_list_box_new ());
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_NONE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->list), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Problems"), -1);
  self->scroller = gtk_scrolled_window_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scroller), GTK_ACCESSIBLE_PROPERTY_LABEL, _ ("Problems"), -1);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (self->scroller), TRUE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (self->scroller), MOST_HEIGHT_PX);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), GTK_WIDGET (self->list));
  gtk_widget_set_parent (GTK_WIDGET (self->fold), GTK_WIDGET (self));
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
  on_folded_cb (self);
}
