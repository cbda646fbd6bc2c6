// SPDX-License-Identifier: GPL-3.0-or-later
/* shot-panel - shows how the shot in hand is played and hands what is chosen or typed to the document. */
#include "shot-panel.h"

#include "figure.h"
#include "sentence.h"
#include "speak.h"
#include "typed-entry.h"

#include <glib/gi18n.h>

typedef enum
{
  VALUE_CURVE,
  VALUE_SWING,
  N_VALUES
} ShotValue;

struct _HwShotPanel
{
  GtkWidget parent_instance;
  HwDocument *document;
  Bag *listed_bag; /* the bag whose clubs are in the drop-down */
  bool is_showing; /* changes of the widgets come from the document, not from the golfer */

  GtkWidget *content;
  GtkDropDown *club, *shape;
  GtkBox *shape_box, *swing_box;
  HwFigure *curve_room;
  HwTypedEntry *entries[N_VALUES];
};

G_DEFINE_FINAL_TYPE (HwShotPanel, hw_shot_panel, GTK_TYPE_WIDGET)

/* The shot in hand as written; NULL without one. */
static const Shot *
panel_shot (HwShotPanel *self)
{
  const Part *plan = self->document != NULL ? hw_document_get_plan (self->document) : NULL;
  size_t shot = plan != NULL ? hw_document_get_shot (self->document) : 0;
  return plan != NULL && shot < plan->n_shots ? &plan->shots[shot] : NULL;
}

/* Says why an edit was refused. */
static bool
told (HwShotPanel *self, bool is_done, GError **error)
{
  if (*error != NULL)
    {
      g_autofree char *text = hw_sentence ((*error)->message);
      hw_document_say (self->document, text);
    }
  g_clear_error (error);
  return is_done;
}

/* ---- the club ---- */

static void
list_clubs (HwShotPanel *self, Bag *bag)
{
  if (bag == self->listed_bag)
    return;
  g_clear_pointer (&self->listed_bag, bag_unref);
  self->listed_bag = bag_ref (bag);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  gtk_string_list_append (names, _ ("Chosen by the aim"));
  for (size_t i = 0; i < bag_n_clubs (bag); i++)
    gtk_string_list_append (names, bag_club (bag, i)->name);
  gtk_drop_down_set_model (self->club, G_LIST_MODEL (names));
}

static void
show_choice (GtkDropDown *choice, guint selected)
{
  if (gtk_drop_down_get_selected (choice) != selected)
    gtk_drop_down_set_selected (choice, selected);
}

static void
show_club (HwShotPanel *self, const Shot *written)
{
  Bag *bag = hw_document_get_bag (self->document);
  if (bag == NULL)
    return;
  list_clubs (self, bag);
  guint selected = 0;
  for (size_t i = 0; written->club != NULL && i < bag_n_clubs (bag); i++)
    if (g_ascii_strcasecmp (bag_club (bag, i)->name, written->club) == 0)
      selected = (guint)i + 1;
  show_choice (self->club, selected);
}

static void
on_club_cb (HwShotPanel *self)
{
  if (self->is_showing || self->listed_bag == NULL)
    return;
  guint selected = gtk_drop_down_get_selected (self->club);
  if (selected == GTK_INVALID_LIST_POSITION)
    return;
  const Bag *bag = hw_document_get_bag (self->document);
  hw_document_choose_club (self->document, selected == 0 ? NULL : bag_club (bag, selected - 1)->name);
}

/* ---- shape and curve ---- */

/* A draw or a fade curves as far as is typed to its own side; what is not typed curves as the club usually does. */
static void
show_curve (HwShotPanel *self, const Shot *written)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  LengthUnit units = hw_document_get_units (self->document);
  char text[UNITS_TEXT_SIZE] = "", usual[UNITS_TEXT_SIZE] = "";
  if (scene->n_shots > 0)
    {
      const ShotResult *result = &scene->shots[scene->current];
      units_print_length (fabs (result->curve_m / result->swing), units, usual, sizeof usual);
    }
  if (!isnan (written->curve_m))
    units_print_length (fabs (written->curve_m), units, text, sizeof text);
  hw_typed_entry_show (self->entries[VALUE_CURVE], text, usual);
  gtk_widget_set_sensitive (GTK_WIDGET (self->entries[VALUE_CURVE]),
                            written->shape != SHOT_STRAIGHT || !isnan (written->curve_m));
}

static bool
set_shape (HwShotPanel *self, ShotShape shape, double curve_m)
{
  GError *error = NULL;
  bool is_done = hw_document_set_shape (self->document, shape, curve_m, &error);
  return told (self, is_done, &error);
}

static void
on_shape_cb (HwShotPanel *self)
{
  const Shot *written = panel_shot (self);
  if (self->is_showing || written == NULL)
    return;
  ShotShape shape = (ShotShape)gtk_drop_down_get_selected (self->shape);
  double curve_m = fabs (written->curve_m); // the same curve to the other side
  bool is_done = set_shape (self, shape, shape == SHOT_STRAIGHT ? NAN : shape == SHOT_DRAW ? -curve_m : curve_m);
  if (!is_done)
    show_choice (self->shape, written->shape);
}

static bool
take_curve (HwShotPanel *self, const Shot *written, const char *text)
{
  double curve_m = NAN;
  if (*text != '\0' && (!units_parse_length (text, hw_document_get_units (self->document), &curve_m) || curve_m < 0))
    {
      hw_document_say (self->document, _ ("Say how far the ball curves, such as “6 yd”; draw or fade says which way."));
      return false;
    }
  double sign = written->shape == SHOT_STRAIGHT ? copysign (1, written->curve_m) : written->shape == SHOT_DRAW ? -1 : 1;
  return set_shape (self, written->shape, sign * curve_m);
}

/* ---- the swing ---- */

static void
show_swing (HwShotPanel *self, const Shot *written)
{
  char number[UNITS_TEXT_SIZE], text[UNITS_TEXT_SIZE + 8] = "", hint[UNITS_TEXT_SIZE + 8];
  const PlanScene *scene = hw_document_get_scene (self->document);
  /* The shortest club is fitted to a nearer aim by itself. */
  double flown = scene->n_shots > 0 ? scene->shots[scene->current].swing : 1;
  g_snprintf (hint, sizeof hint, flown < 1 ? _ ("fitted, %.0f %%") : _ ("full"), 100 * flown);
  if (written->swing < 1)
    g_snprintf (text, sizeof text, "%s %%", units_print_decimals (100 * written->swing, 1, number, sizeof number));
  hw_typed_entry_show (self->entries[VALUE_SWING], text, hint);
}

/* "80 %", "0.8", and "80", which can only be meant so. */
static bool
parse_swing (const char *text, double *swing)
{
  if (!units_parse_number (text, swing))
    return units_parse_share (text, swing);
  if (*swing > 1)
    *swing /= 100;
  return true;
}

static bool
take_swing (HwShotPanel *self, const char *text)
{
  double swing = 1;
  if (*text != '\0' && g_strcmp0 (text, _ ("full")) != 0 && !parse_swing (text, &swing))
    {
      hw_document_say (self->document, _ ("Say how much of a full swing it is, such as “80 %”, or nothing for a full one."));
      return false;
    }
  GError *error = NULL;
  bool is_done = hw_document_set_swing (self->document, swing, &error);
  return told (self, is_done, &error);
}

/* ---- both ---- */

static const char *
translated (const char *text)
{
  return _ (text);
}

/* How much less or more it may curve; asked for while the shape is seen. */
static void
show_room (HwShotPanel *self)
{
  if (!gtk_widget_get_mapped (GTK_WIDGET (self->curve_room)))
    return;
  const HwFound *found = hw_document_get_found (self->document);
  g_autofree char *words = found != NULL && found->has_shape
                               ? shape_room_words (found->hole, &found->shot, &found->shape,
                                                   hw_document_get_units (self->document), translated)
                               : NULL;
  hw_figure_set_text (self->curve_room, words != NULL ? words : "");
}

static void
on_curve_room_seen_cb (HwShotPanel *self)
{
  if (self->document == NULL)
    return;
  hw_document_need (self->document, SCENE_NEEDS_ROOM);
  show_room (self);
}

static bool
take_value (gpointer owner, guint which, const char *text)
{
  HwShotPanel *self = owner;
  const Shot *written = panel_shot (self);
  if (text == NULL || written == NULL)
    return true;
  return which == VALUE_CURVE ? take_curve (self, written, text) : take_swing (self, text);
}

static void
on_results_changed_cb (HwShotPanel *self)
{
  const Shot *written = panel_shot (self);
  if (written == NULL)
    return;
  self->is_showing = true;
  show_club (self, written);
  show_choice (self->shape, written->shape);
  show_curve (self, written);
  show_swing (self, written);
  if (gtk_widget_get_mapped (GTK_WIDGET (self->curve_room)))
    on_curve_room_seen_cb (self);
  self->is_showing = false;
}

void
hw_shot_panel_set_document (HwShotPanel *self, HwDocument *document)
{
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "results-told", G_CALLBACK (on_results_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "found", G_CALLBACK (show_room), self, G_CONNECT_SWAPPED);
}

static void
hw_shot_panel_dispose (GObject *object)
{
  HwShotPanel *self = HW_SHOT_PANEL (object);
  self->is_showing = true;
  gtk_widget_dispose_template (GTK_WIDGET (object), HW_TYPE_SHOT_PANEL);
  g_clear_object (&self->document);
  g_clear_pointer (&self->listed_bag, bag_unref);
  G_OBJECT_CLASS (hw_shot_panel_parent_class)->dispose (object);
}

static void
hw_shot_panel_class_init (HwShotPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  G_OBJECT_CLASS (klass)->dispose = hw_shot_panel_dispose;
  g_type_ensure (HW_TYPE_FIGURE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/holewright/Holewright/shot-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, HwShotPanel, content);
  gtk_widget_class_bind_template_child (widget_class, HwShotPanel, club);
  gtk_widget_class_bind_template_child (widget_class, HwShotPanel, shape);
  gtk_widget_class_bind_template_child (widget_class, HwShotPanel, shape_box);
  gtk_widget_class_bind_template_child (widget_class, HwShotPanel, swing_box);
  gtk_widget_class_bind_template_child (widget_class, HwShotPanel, curve_room);
}

static void
hw_shot_panel_init (HwShotPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hw_speak_choice (self->club, _ ("Club"));
  hw_speak_choice (self->shape, _ ("Shape"));
  self->entries[VALUE_CURVE]
      = HW_TYPED_ENTRY (hw_typed_entry_new (_ ("How far the shot curves"), take_value, self, VALUE_CURVE));
  self->entries[VALUE_SWING] = HW_TYPED_ENTRY (hw_typed_entry_new (_ ("Share of a full swing"), take_value, self, VALUE_SWING));
  gtk_box_append (self->shape_box, GTK_WIDGET (self->entries[VALUE_CURVE]));
  gtk_box_prepend (self->swing_box, GTK_WIDGET (self->entries[VALUE_SWING]));
  g_signal_connect_object (self->curve_room, "map", G_CALLBACK (on_curve_room_seen_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->club, "notify::selected", G_CALLBACK (on_club_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->shape, "notify::selected", G_CALLBACK (on_shape_cb), self, G_CONNECT_SWAPPED);
}
