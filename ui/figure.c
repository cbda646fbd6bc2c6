// SPDX-License-Identifier: GPL-3.0-or-later
/* figure - the inscription within is none of a screen reader's business; what it says is the figure's own name. */
#include "figure.h"

#include "inscribe.h"

struct _HwFigure
{
  GtkWidget parent_instance;
  GtkInscription *words;
};

G_DEFINE_FINAL_TYPE (HwFigure, hw_figure, GTK_TYPE_WIDGET)

/* The inscription's properties that a template may set. */
static const char *const handed_on[]
    = { "min-chars", "nat-chars", "min-lines", "nat-lines", "text-overflow", "xalign", "yalign" };

void
hw_figure_set_text (HwFigure *self, const char *text)
{
  if (hw_inscribe (self->words, text))
    hw_speak_later (GTK_WIDGET (self), text);
}

static gboolean
hw_figure_query_tooltip (GtkWidget *widget, int x, int y, gboolean keyboard, GtkTooltip *tooltip)
{
  const char *text = gtk_inscription_get_text (HW_FIGURE (widget)->words);
  if (GTK_WIDGET_CLASS (hw_figure_parent_class)->query_tooltip (widget, x, y, keyboard, tooltip))
    return TRUE;
  gtk_tooltip_set_text (tooltip, text);
  return text != NULL && text[0] != '\0';
}

static void
hw_figure_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  g_object_set_property (G_OBJECT (HW_FIGURE (object)->words), handed_on[id - 1], value);
}

static void
hw_figure_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  g_object_get_property (G_OBJECT (HW_FIGURE (object)->words), handed_on[id - 1], value);
}

static void
hw_figure_dispose (GObject *object)
{
  HwFigure *self = HW_FIGURE (object);
  if (self->words != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->words));
  self->words = NULL;
  G_OBJECT_CLASS (hw_figure_parent_class)->dispose (object);
}

static void
hw_figure_class_init (HwFigureClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GObjectClass *theirs = g_type_class_ref (GTK_TYPE_INSCRIPTION);
  object_class->set_property = hw_figure_set_property;
  object_class->get_property = hw_figure_get_property;
  object_class->dispose = hw_figure_dispose;
  for (guint i = 0; i < G_N_ELEMENTS (handed_on); i++)
    g_object_class_install_property (object_class, i + 1,
                                     g_param_spec_override (handed_on[i], g_object_class_find_property (theirs, handed_on[i])));
  g_type_class_unref (theirs);
  widget_class->query_tooltip = hw_figure_query_tooltip;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_LABEL);
}

static void
hw_figure_init (HwFigure *self)
{
  self->words = g_object_new (GTK_TYPE_INSCRIPTION, "accessible-role", GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_widget_set_parent (GTK_WIDGET (self->words), GTK_WIDGET (self));
}
