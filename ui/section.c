// SPDX-License-Identifier: GPL-3.0-or-later
/* section - paints the section through render, anew in every frame while something is dragged, and tells it to a screen reader when it is let go. */
#include "section.h"

#include "appearance.h"
#include "layer.h"
#include "section-words.h"

struct _HwSection
{
  GtkWidget parent_instance;
  HwDocument *document;
  RenderView view;
  int height_px;
  HwLayer layer;
  GdkFrameClock *clock;
  bool is_due;        /* the results are others since the last frame */
  int width, painted; /* as painted ahead of the snapshot, px; `painted` is the height, 0: not painted */
};

G_DEFINE_FINAL_TYPE (HwSection, hw_section, GTK_TYPE_WIDGET)

/* Paints it this large; false where there is nothing to paint. */
static bool
paint (HwSection *self, int width, int height)
{
  GtkWidget *widget = GTK_WIDGET (self);
  const Section *section = self->document != NULL ? hw_document_get_section (self->document) : NULL;
  if (section == NULL || self->view.width_px <= 0 || width < 1 || height < 1)
    return false;
  cairo_t *cr = hw_layer_begin (&self->layer, widget, width, height);
  PlanScene scene = *hw_document_get_scene (self->document);
  RenderAxis axis = axis_of_view (&self->view, scene.shots[scene.current].ball);
  axis.units = hw_document_get_units (self->document);
  axis.is_dark = hw_appearance_is_dark (widget);
  scene.words = self->layer.words;
  render_section (cr, &axis, &scene, section, height);
  hw_layer_close (&self->layer, cr);
  self->width = width;
  self->painted = height;
  return true;
}

/* Before the frame is laid out and painted: while the canvas's overlays are painted, which begin just before. */
static void
on_before_paint_cb (HwSection *self)
{
  self->painted = 0;
  if (self->is_due && gtk_widget_get_mapped (GTK_WIDGET (self)))
    paint (self, gtk_widget_get_width (GTK_WIDGET (self)), gtk_widget_get_height (GTK_WIDGET (self)));
  self->is_due = false;
}

static void
hw_section_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  HwSection *self = HW_SECTION (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  bool is_painted = self->painted > 0 && self->painted == height && self->width == width;
  if (is_painted || paint (self, width, height))
    hw_layer_show (&self->layer, widget, snapshot);
  self->painted = 0;
}

static void
hw_section_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum, int *natural,
                    int *minimum_baseline, int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 0 : HW_SECTION (widget)->height_px;
}

/* ---- following document and view ---- */

static void
describe (HwSection *self)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  const Section *section = hw_document_get_section (self->document);
  g_autofree char *text = section != NULL ? hw_section_words (scene->hole, &scene->shots[scene->current], scene->carries,
                                                              section, hw_document_get_units (self->document))
                                          : g_strdup ("");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, text, -1);
}

/* Nobody asks for the words, or sees the picture, while it is folded away. */
static void
on_results_changed_cb (HwSection *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  if (!hw_document_is_dragging (self->document))
    describe (self);
  self->is_due = true;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_section_set_document (HwSection *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-changed", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
}

void
hw_section_set_view (HwSection *self, const RenderView *view)
{
  self->view = *view;
  self->painted = 0;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
hw_section_set_height (HwSection *self, int height_px)
{
  if (self->height_px == height_px)
    return;
  self->height_px = height_px;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

/* ---- the widget ---- */

static void
hw_section_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (hw_section_parent_class)->map (widget);
  if (HW_SECTION (widget)->document != NULL)
    describe (HW_SECTION (widget));
}

static void
hw_section_realize (GtkWidget *widget)
{
  HwSection *self = HW_SECTION (widget);
  GTK_WIDGET_CLASS (hw_section_parent_class)->realize (widget);
  self->clock = g_object_ref (gtk_widget_get_frame_clock (widget));
  g_signal_connect_data (self->clock, "before-paint", G_CALLBACK (on_before_paint_cb), self, NULL,
                         G_CONNECT_SWAPPED | G_CONNECT_AFTER);
}

static void
hw_section_unrealize (GtkWidget *widget)
{
  HwSection *self = HW_SECTION (widget);
  g_signal_handlers_disconnect_by_data (self->clock, self);
  g_clear_object (&self->clock);
  self->painted = 0;
  hw_layer_clear (&self->layer);
  GTK_WIDGET_CLASS (hw_section_parent_class)->unrealize (widget);
}

static void
hw_section_dispose (GObject *object)
{
  HwSection *self = HW_SECTION (object);
  hw_layer_clear (&self->layer);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (hw_section_parent_class)->dispose (object);
}

static void
hw_section_class_init (HwSectionClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_section_dispose;
  widget_class->snapshot = hw_section_snapshot;
  widget_class->measure = hw_section_measure;
  widget_class->map = hw_section_map;
  widget_class->realize = hw_section_realize;
  widget_class->unrealize = hw_section_unrealize;
  gtk_widget_class_set_css_name (widget_class, "section");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
hw_section_init (HwSection *self)
{
  gtk_widget_set_overflow (GTK_WIDGET (self), GTK_OVERFLOW_HIDDEN);
}
