// SPDX-License-Identifier: GPL-3.0-or-later
/* card-panel - shows the preferences of the card and changes them; the card follows through the document. */
#include "card-panel.h"

#include "speak.h"

#include <glib/gi18n.h>

struct _HwCardPanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  GtkWidget *scroller;
  bool is_showing; /* changes of the widgets come from the document, not from the golfer */
  bool is_stale;
  GtkLabel *scale, *size;
  GtkBox *warnings, *blocks;
  GtkDropDown *page_choice, *units_choice;
};

G_DEFINE_FINAL_TYPE (HwCardPanel, hw_card_panel, GTK_TYPE_WIDGET)

static void
clear_box (GtkBox *box)
{
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL;)
    gtk_box_remove (box, child);
}

static void
add_warning (HwCardPanel *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, "note");
  gtk_box_append (self->warnings, label);
}

static void
show_card (HwCardPanel *self)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (Card) card = hw_document_new_card (self->document, &error);
  clear_box (self->warnings);
  if (card == NULL)
    {
      gtk_label_set_text (self->scale, "");
      gtk_label_set_text (self->size, "");
      add_warning (self, error->message);
      return;
    }
  double width_mm, height_mm;
  card_size_mm (card, &width_mm, &height_mm);
  g_autofree char *scale = g_strdup_printf ("1:%d", card_scale (card));
  g_autofree char *size = g_strdup_printf (_ ("on a page of %.0f × %.0f mm"), width_mm, height_mm);
  gtk_label_set_text (self->scale, scale);
  gtk_label_set_text (self->size, size);
  for (const char *const *warning = card_warnings (card); *warning != NULL; warning++)
    add_warning (self, *warning);
}

static void
show_blocks (HwCardPanel *self, unsigned mask)
{
  GtkWidget *check = gtk_widget_get_first_child (GTK_WIDGET (self->blocks));
  for (unsigned i = 0; check != NULL; i++, check = gtk_widget_get_next_sibling (check))
    gtk_check_button_set_active (GTK_CHECK_BUTTON (check), (mask >> i) & 1);
}

static void
show (HwCardPanel *self)
{
  self->is_stale = false;
  HwSettings *settings = hw_document_get_settings (self->document);
  self->is_showing = true;
  gtk_drop_down_set_selected (self->page_choice, (guint)hw_settings_get_card_page (settings));
  gtk_drop_down_set_selected (self->units_choice, (guint)hw_settings_get_units (settings));
  show_blocks (self, hw_settings_get_card_blocks (settings));
  if (hw_document_has_hole (self->document))
    show_card (self);
  self->is_showing = false;
}

static void
on_changed_cb (HwCardPanel *self)
{
  self->is_stale = true;
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    show (self);
}

static void
on_page_chosen_cb (HwCardPanel *self)
{
  if (!self->is_showing && self->document != NULL)
    hw_settings_set_card_page (hw_document_get_settings (self->document),
                               (CardPage)gtk_drop_down_get_selected (self->page_choice));
}

static void
on_units_chosen_cb (HwCardPanel *self)
{
  if (!self->is_showing && self->document != NULL)
    hw_settings_set_units (hw_document_get_settings (self->document),
                           (LengthUnit)gtk_drop_down_get_selected (self->units_choice));
}

static void
on_block_toggled_cb (HwCardPanel *self)
{
  if (self->is_showing || self->document == NULL)
    return;
  unsigned mask = 0;
  GtkWidget *check = gtk_widget_get_first_child (GTK_WIDGET (self->blocks));
  for (unsigned i = 0; check != NULL; i++, check = gtk_widget_get_next_sibling (check))
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (check)))
      mask |= 1u << i;
  hw_settings_set_card_blocks (hw_document_get_settings (self->document), mask);
}

static void
fill_choices (HwCardPanel *self)
{
  g_autoptr (GtkStringList) pages = gtk_string_list_new (NULL);
  for (int page = 0; page < N_CARD_PAGES; page++)
    gtk_string_list_append (pages, _ (card_page_info ((CardPage)page)->label));
  gtk_drop_down_set_model (self->page_choice, G_LIST_MODEL (pages));
  for (const CardBlock *block = card_block_table; block->name != NULL; block++)
    {
      GtkWidget *check = gtk_check_button_new_with_label (_ (block->label));
      g_signal_connect_swapped (check, "toggled", G_CALLBACK (on_block_toggled_cb), self);
      gtk_box_append (self->blocks, check);
    }
}

void
hw_card_panel_set_document (HwCardPanel *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  self->is_stale = true;
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_changed_cb), self, G_CONNECT_SWAPPED);
}

static void
hw_card_panel_map (GtkWidget *widget)
{
  HwCardPanel *self = HW_CARD_PANEL (widget);
  GTK_WIDGET_CLASS (hw_card_panel_parent_class)->map (widget);
  if (self->is_stale)
    show (self);
}

static void
hw_card_panel_dispose (GObject *object)
{
  HwCardPanel *self = HW_CARD_PANEL (object);
  self->is_showing = true;
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_CARD_PANEL);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_card_panel_parent_class)->dispose (object);
}

static void
hw_card_panel_class_init (HwCardPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_card_panel_dispose;
  widget_class->map = hw_card_panel_map;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/card-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, scroller);
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, scale);
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, size);
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, warnings);
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, blocks);
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, page_choice);
  gtk_widget_class_bind_template_child (widget_class, HwCardPanel, units_choice);
}

static void
hw_card_panel_init (HwCardPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_speak_choice (self->page_choice, _ ("Page"));
  hw_speak_choice (self->units_choice, _ ("Units"));
  self->is_showing = true;
  fill_choices (self);
  self->is_showing = false;
  g_signal_connect_swapped (self->page_choice, "notify::selected", G_CALLBACK (on_page_chosen_cb), self);
  g_signal_connect_swapped (self->units_choice, "notify::selected", G_CALLBACK (on_units_chosen_cb), self);
}
