// SPDX-License-Identifier: GPL-3.0-or-later
/* import-kinds - areas first, in the order a hole is drawn, then lines and points; each with its swatch. */
#include "import-kinds.h"

#include "swatch.h"

#include <glib/gi18n.h>

static const HwChoice choices[] = {
  HW_CHOICE_OPEN,  SVG_LEAVE_OUT,      KIND_TEE,           KIND_FAIRWAY,      KIND_FIRST_CUT, KIND_GREEN,
  KIND_FRINGE,     KIND_ROUGH,         KIND_DEEP_ROUGH,    KIND_BUNKER,       KIND_WASTE,     KIND_PENALTY_AREA,
  KIND_WATER,      KIND_TREES,         KIND_OUT_OF_BOUNDS, KIND_PATH,         KIND_BUILDING,  KIND_TREE,
  KIND_TEE_MARKER, KIND_HOLE_LOCATION, KIND_MARK,          KIND_LINE_OF_PLAY, KIND_NONE,
};

typedef struct
{
  bool for_shape, is_showing;
  HwChose chose;
  gpointer user_data;
} Kinds;

static HwChoice
choice_at (const Kinds *kinds, guint row)
{
  return row == 0 && kinds->for_shape ? HW_CHOICE_AS_COLOUR : choices[row];
}

static const char *
label_of (HwChoice choice)
{
  switch (choice)
    {
    case HW_CHOICE_OPEN:
      return _ ("choose a kind");
    case HW_CHOICE_AS_COLOUR:
      return _ ("as its colour");
    case SVG_LEAVE_OUT:
      return _ ("leave out");
    case KIND_NONE:
      return _ ("without a kind");
    default:
      return _ (kind_info ((Kind)choice)->label);
    }
}

/* ---- rows ---- */

static void
on_setup_cb (GtkSignalListItemFactory *factory, GtkListItem *item)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 7);
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_box_append (GTK_BOX (box), hw_swatch_new ());
  gtk_box_append (GTK_BOX (box), label);
  gtk_list_item_set_child (item, box);
}

static void
on_bind_cb (GtkSignalListItemFactory *factory, GtkListItem *item)
{
  GObject *row = gtk_list_item_get_item (item);
  HwChoice choice = GPOINTER_TO_INT (g_object_get_data (row, "choice"));
  GtkWidget *swatch = gtk_widget_get_first_child (gtk_list_item_get_child (item));
  bool is_kind = choice > KIND_NONE && choice < N_KINDS;
  if (is_kind)
    hw_swatch_show (swatch, (Kind)choice, STAKES_RED);
  gtk_widget_set_visible (swatch, is_kind);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_next_sibling (swatch)), label_of (choice));
}

static void
on_selected_cb (GtkWidget *widget, GParamSpec *property, Kinds *kinds)
{
  guint row = gtk_drop_down_get_selected (GTK_DROP_DOWN (widget));
  if (!kinds->is_showing && row < G_N_ELEMENTS (choices))
    kinds->chose (widget, choice_at (kinds, row), kinds->user_data);
}

GtkWidget *
hw_import_kinds_new (bool for_shape, HwChose chose, gpointer user_data)
{
  Kinds *kinds = g_new0 (Kinds, 1);
  *kinds = (Kinds){ for_shape, true, chose, user_data };
  GListStore *rows = g_list_store_new (GTK_TYPE_STRING_OBJECT);
  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    {
      HwChoice choice = choice_at (kinds, i);
      g_autoptr (GtkStringObject) row = gtk_string_object_new (label_of (choice));
      g_object_set_data (G_OBJECT (row), "choice", GINT_TO_POINTER (choice));
      g_list_store_append (rows, row);
    }
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup_cb), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind_cb), NULL);
  GtkWidget *widget = gtk_drop_down_new (G_LIST_MODEL (rows), NULL);
  gtk_drop_down_set_factory (GTK_DROP_DOWN (widget), factory);
  g_object_unref (factory);
  g_object_set_data_full (G_OBJECT (widget), "kinds", kinds, g_free);
  g_signal_connect (widget, "notify::selected", G_CALLBACK (on_selected_cb), kinds);
  kinds->is_showing = false;
  return widget;
}

void
hw_import_kinds_show (GtkWidget *widget, HwChoice choice)
{
  Kinds *kinds = g_object_get_data (G_OBJECT (widget), "kinds");
  guint row = 0;
  while (row + 1 < G_N_ELEMENTS (choices) && choice_at (kinds, row) != choice)
    row++;
  kinds->is_showing = true;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (widget), row);
  kinds->is_showing = false;
}
