// SPDX-License-Identifier: GPL-3.0-or-later
/* thing-facts - one row of a table for each fact: its words, the control it has, how it is printed and read. */
#include "thing-facts.h"

#include "sentence.h"
#include "speak.h"
#include "typed-entry.h"

#include <glib/gi18n.h>
#include <string.h>

#define PERCENT_DECIMALS 2
#define BEARING_DECIMALS 1
#define HEIGHT_DECIMALS 1
#define FULL_TURN_DEG 360.0
#define WHOLE_PERCENT 100.0
/* Moves of a slider that follow each other sooner than this are one step of undo (common practice). */
#define SLIDE_PAUSE_US (1 * G_USEC_PER_SEC)
/* A slider that stands this near to a share shows it. */
#define SAME_PERCENT 1e-6
/* Rows of the grid take two facts each. */
#define FACTS_A_ROW 2

/* ---- the table ---- */

typedef enum
{
  CONTROL_ENTRY,
  CONTROL_CHOICE,
  CONTROL_SWITCH,
  CONTROL_SLIDER
} Control;

/* What printing and reading depend on. */
typedef struct
{
  LengthUnit units;
  double up_bearing_deg; /* 0 where the hole has none */
} Context;

typedef struct
{
  const char *caption, *name, *step; /* beside the control; for a screen reader; what undo calls it, with one %s */
  Control control;
  const char *const *words; /* CONTROL_CHOICE: of the values 0, 1...; the last one of having none */
  void (*print) (const Context *context, double value, char *text, size_t size);
  bool (*read) (const Context *context, const char *text, double *value);
  const char *hint; /* said after what cannot be read */
} Row;

static void
append (char *text, size_t size, const char *unit)
{
  if (text[0] != '\0')
    g_strlcat (text, unit, size);
}

static void
print_percent (const Context *context, double percent, char *text, size_t size)
{
  units_print_decimals (percent, PERCENT_DECIMALS, text, size);
  append (text, size, " %");
}

static bool
read_percent (const Context *context, const char *text, double *percent)
{
  g_autofree char *number = g_strdup (text);
  g_strchomp (number);
  if (g_str_has_suffix (number, "%"))
    number[strlen (number) - 1] = '\0';
  return units_parse_number (number, percent);
}

static void
print_bearing (const Context *context, double direction_rad, char *text, size_t size)
{
  double bearing_deg = units_bearing_deg (direction_rad, context->up_bearing_deg), tenths = round (bearing_deg * 10) / 10;
  units_print_decimals (tenths < FULL_TURN_DEG ? tenths : tenths - FULL_TURN_DEG, BEARING_DECIMALS, text, size);
  append (text, size, "°");
}

static bool
read_bearing (const Context *context, const char *text, double *direction_rad)
{
  double angle_rad;
  if (!units_parse_angle (text, &angle_rad))
    return false;
  *direction_rad = units_direction_rad (units_degrees (angle_rad), context->up_bearing_deg);
  return true;
}

static void
print_height (const Context *context, double height_m, char *text, size_t size)
{
  units_print_decimals (unit_height_from_metres (context->units, height_m), HEIGHT_DECIMALS, text, size);
  append (text, size, " ");
  append (text, size, unit_height_suffix (context->units));
}

static bool
read_height (const Context *context, const char *text, double *height_m)
{
  return units_parse_height (text, context->units, height_m);
}

static void
print_whole (const Context *context, double value, char *text, size_t size)
{
  units_print_decimals (value, 0, text, size);
}

static bool
read_whole (const Context *context, const char *text, double *value)
{
  return units_parse_number (text, value);
}

static const char *const stakes_words[] = { N_ ("Red"), N_ ("Yellow"), N_ ("As the area round it"), NULL };

static const Row rows[N_EDIT_FACTS] = {
  [EDIT_FACT_PERCENT] = { N_ ("Falls"), N_ ("Fall of the slope in percent"), N_ ("set the fall of %s"), CONTROL_ENTRY, NULL,
                          print_percent, read_percent, N_ ("type a fall such as 2.5 or 2.5 %") },
  [EDIT_FACT_DOWNHILL]
  = { N_ ("Downhill"), N_ ("Bearing downhill; from up the drawing where the hole’s bearing is not known"), N_ ("turn %s"),
      CONTROL_ENTRY, NULL, print_bearing, read_bearing, N_ ("type degrees clockwise such as 135") },
  [EDIT_FACT_HEIGHT] = { N_ ("High"), N_ ("Height of the trees or of the ground"), N_ ("set the height of %s"), CONTROL_ENTRY,
                         NULL, print_height, read_height, N_ ("type 40 ft, 12 m or a sum such as 12 m + 3 ft") },
  [EDIT_FACT_DENSITY] = { N_ ("Stop"), N_ ("Balls that the trees stop, in percent of those that fly through"),
                          N_ ("set the density of %s"), CONTROL_SLIDER },
  [EDIT_FACT_STAKES]
  = { N_ ("Stakes"), N_ ("Colour of the stakes"), N_ ("set the stakes of %s"), CONTROL_CHOICE, stakes_words },
  [EDIT_FACT_TODAY] = { N_ ("Today’s hole"), N_ ("Today’s hole"), N_ ("make %s today’s"), CONTROL_SWITCH },
  [EDIT_FACT_PAR] = { N_ ("Par"), N_ ("Par from this tee; none: the hole’s"), N_ ("set the par of %s"), CONTROL_ENTRY, NULL,
                      print_whole, read_whole, N_ ("type a whole number such as 4") },
  [EDIT_FACT_FIXED]
  = { N_ ("Pinned"), N_ ("Pinned: stays where it is when readings are adjusted"), N_ ("change the pin of %s"), CONTROL_SWITCH },
  [EDIT_FACT_OPACITY]
  = { N_ ("Opacity"), N_ ("Opacity of the picture in percent"), N_ ("set the opacity of %s"), CONTROL_SLIDER },
};

/* ---- the widget ---- */

struct _HwThingFacts
{
  GtkWidget parent_instance;
  HwDesk *desk;
  bool is_showing;
  GtkGrid *grid;
  GtkLabel *reason;
  GtkWidget *captions[N_EDIT_FACTS], *controls[N_EDIT_FACTS];
  EditFact sliding;
  unsigned gesture;
  gint64 slide_time_us;
};

G_DEFINE_FINAL_TYPE (HwThingFacts, hw_thing_facts, GTK_TYPE_WIDGET)

static Context
context_of (HwThingFacts *self, const Hole *hole)
{
  double bearing_deg = hole_info (hole)->up_bearing_deg;
  return (Context){ hw_document_get_units (hw_desk_get_document (self->desk)), isnan (bearing_deg) ? 0 : bearing_deg };
}

static void
show_reason (HwThingFacts *self, const char *text)
{
  gtk_label_set_text (self->reason, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (self->reason), text != NULL);
}

/* ---- showing ---- */

/* What the things selected share of a fact. */
typedef struct
{
  bool has, may_lack; /* all have it; all may be without it */
  bool differs;
  double value;
} Shared;

static Shared
shared_fact (const Hole *hole, const size_t *parts, size_t n, EditFact fact)
{
  /* One of the hole locations is today's, so several cannot be. */
  Shared shared = { .has = n > 0 && (n == 1 || fact != EDIT_FACT_TODAY), .may_lack = true };
  for (size_t i = 0; i < n && shared.has; i++)
    {
      Kind kind = hole_part (hole, parts[i])->kind;
      double value = edit_get_fact (hole, parts[i], fact);
      shared.has = edit_has_fact (kind, fact);
      shared.may_lack &= edit_may_lack_fact (kind, fact);
      shared.differs |= i > 0 && value != shared.value && !(isnan (value) && isnan (shared.value));
      shared.value = value;
    }
  return shared;
}

static void
show_entry (HwThingFacts *self, EditFact fact, const Shared *shared, const Hole *hole)
{
  Context context = context_of (self, hole);
  char text[2 * UNITS_TEXT_SIZE] = "";
  if (!shared->differs)
    rows[fact].print (&context, shared->value, text, sizeof text);
  hw_typed_entry_show (HW_TYPED_ENTRY (self->controls[fact]), text, shared->differs ? _ ("various") : NULL);
}

static void
show_choice (HwThingFacts *self, EditFact fact, const Shared *shared, const Hole *hole)
{
  GtkDropDown *choice = GTK_DROP_DOWN (self->controls[fact]);
  guint n = g_strv_length ((char **)rows[fact].words), n_shown = shared->may_lack ? n : n - 1;
  if (gtk_drop_down_get_model (choice) == NULL || g_list_model_get_n_items (gtk_drop_down_get_model (choice)) != n_shown)
    {
      g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
      for (guint i = 0; i < n_shown; i++)
        gtk_string_list_append (words, _ (rows[fact].words[i]));
      gtk_drop_down_set_model (choice, G_LIST_MODEL (words));
    }
  guint chosen = shared->differs ? GTK_INVALID_LIST_POSITION : isnan (shared->value) ? n - 1 : (guint)shared->value;
  if (gtk_drop_down_get_selected (choice) != chosen)
    gtk_drop_down_set_selected (choice, chosen);
}

static void
show_switch (HwThingFacts *self, EditFact fact, const Shared *shared, const Hole *hole)
{
  GtkCheckButton *button = GTK_CHECK_BUTTON (self->controls[fact]);
  gtk_check_button_set_inconsistent (button, shared->differs);
  gtk_check_button_set_active (button, !shared->differs && shared->value > 0);
}

static void
show_slider (HwThingFacts *self, EditFact fact, const Shared *shared, const Hole *hole)
{
  GtkRange *slider = GTK_RANGE (self->controls[fact]);
  double percent = shared->value * WHOLE_PERCENT;
  gtk_scale_set_draw_value (GTK_SCALE (slider), !shared->differs);
  if (fabs (gtk_range_get_value (slider) - percent) > SAME_PERCENT)
    gtk_range_set_value (slider, percent);
}

/* The facts that are shown stand side by side. */
static void
place (HwThingFacts *self, GtkWidget *widget, int column, int row, int width)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (GTK_WIDGET (self->grid));
  GtkGridLayoutChild *child = GTK_GRID_LAYOUT_CHILD (gtk_layout_manager_get_layout_child (layout, widget));
  gtk_grid_layout_child_set_column (child, column);
  gtk_grid_layout_child_set_row (child, row);
  gtk_grid_layout_child_set_column_span (child, width);
}

static void
show (HwThingFacts *self)
{
  static void (*const shows[]) (HwThingFacts *, EditFact, const Shared *, const Hole *) = {
    [CONTROL_ENTRY] = show_entry,
    [CONTROL_CHOICE] = show_choice,
    [CONTROL_SWITCH] = show_switch,
    [CONTROL_SLIDER] = show_slider,
  };
  const Hole *hole = hw_desk_get_hole (self->desk);
  size_t n;
  const size_t *parts = hw_desk_get_selection (self->desk, &n);
  int n_shown = 0;
  self->is_showing = true;
  for (EditFact fact = 0; fact < N_EDIT_FACTS; fact++)
    {
      Shared shared = hole != NULL ? shared_fact (hole, parts, n, fact) : (Shared){ 0 };
      int column = 2 * (n_shown % FACTS_A_ROW), row = n_shown / FACTS_A_ROW;
      gtk_widget_set_visible (self->controls[fact], shared.has);
      if (self->captions[fact] != NULL)
        gtk_widget_set_visible (self->captions[fact], shared.has);
      if (!shared.has)
        continue;
      n_shown++;
      shows[rows[fact].control](self, fact, &shared, hole);
      if (self->captions[fact] != NULL)
        place (self, self->captions[fact], column, row, 1);
      place (self, self->controls[fact], column + (self->captions[fact] != NULL), row, self->captions[fact] != NULL ? 1 : 2);
    }
  gtk_widget_set_visible (GTK_WIDGET (self->grid), n_shown > 0);
  self->is_showing = false;
}

/* ---- setting ---- */

static bool
apply (HwThingFacts *self, EditFact fact, double value, unsigned gesture)
{
  HwDocument *document = hw_desk_get_document (self->desk);
  const Hole *hole = hw_document_get_kept (document);
  size_t n;
  const size_t *parts = hw_desk_get_selection (self->desk, &n);
  g_autoptr (GError) error = NULL;
  if (hole == NULL || n == 0 || hw_document_is_dragging (document))
    return true;
  Hole *edited = edit_set_fact (hole, parts, n, fact, value, &error);
  if (edited == NULL)
    {
      g_autofree char *reason = hw_sentence (error->message);
      show (self);
      show_reason (self, reason);
      return false;
    }
  show_reason (self, NULL);
  hw_document_edit (document, edited, hw_desk_label (self->desk, _ (rows[fact].step)), gesture);
  show (self);
  return true;
}

static EditFact
fact_of (HwThingFacts *self, gpointer control)
{
  EditFact fact = 0;
  while (fact < N_EDIT_FACTS - 1 && (gpointer)self->controls[fact] != control)
    fact++;
  return fact;
}

static bool
take (gpointer owner, guint fact, const char *text)
{
  HwThingFacts *self = owner;
  const Hole *hole = hw_desk_get_hole (self->desk);
  double value = NAN;
  if (self->is_showing || hole == NULL)
    return true;
  show_reason (self, NULL);
  if (text == NULL)
    return true;
  Context context = context_of (self, hole);
  if (text[0] != '\0' && !rows[fact].read (&context, text, &value))
    {
      g_autofree char *reason = g_strdup_printf (_ ("“%s” cannot be read; %s."), text, _ (rows[fact].hint));
      show_reason (self, reason);
      return false;
    }
  return apply (self, (EditFact)fact, value, 0);
}

static void
on_chosen_cb (HwThingFacts *self, GParamSpec *pspec, GtkDropDown *choice)
{
  EditFact fact = fact_of (self, choice);
  guint chosen = gtk_drop_down_get_selected (choice);
  if (self->is_showing || chosen == GTK_INVALID_LIST_POSITION)
    return;
  bool is_none = chosen + 1 == g_strv_length ((char **)rows[fact].words);
  apply (self, fact, is_none ? NAN : chosen, 0);
}

static void
on_toggled_cb (HwThingFacts *self, GtkCheckButton *button)
{
  if (!self->is_showing)
    apply (self, fact_of (self, button), gtk_check_button_get_active (button), 0);
}

static void
on_slid_cb (HwThingFacts *self, GtkRange *slider)
{
  EditFact fact = fact_of (self, slider);
  gint64 now_us = g_get_monotonic_time ();
  if (self->is_showing)
    return;
  if (self->gesture == 0 || fact != self->sliding || now_us - self->slide_time_us > SLIDE_PAUSE_US)
    self->gesture = hw_document_new_gesture (hw_desk_get_document (self->desk));
  self->sliding = fact;
  self->slide_time_us = now_us;
  apply (self, fact, round (gtk_range_get_value (slider)) / WHOLE_PERCENT, self->gesture);
}

static void
on_desk_changed_cb (HwThingFacts *self)
{
  if (!hw_document_is_dragging (hw_desk_get_document (self->desk)))
    show_reason (self, NULL);
  show (self);
}

void
hw_thing_facts_set_desk (HwThingFacts *self, HwDesk *desk)
{
  self->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "selected", G_CALLBACK (on_desk_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (hw_document_get_settings (hw_desk_get_document (desk)), "changed", G_CALLBACK (show), self,
                           G_CONNECT_SWAPPED);
  show (self);
}

/* ---- controls ---- */

static GtkWidget *
entry_new (HwThingFacts *self, EditFact fact)
{
  return hw_typed_entry_new (_ (rows[fact].name), take, self, fact);
}

static GtkWidget *
choice_new (HwThingFacts *self, EditFact fact)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);
  hw_speak_choice (GTK_DROP_DOWN (choice), _ (rows[fact].name));
  g_signal_connect_swapped (choice, "notify::selected", G_CALLBACK (on_chosen_cb), self);
  return choice;
}

static GtkWidget *
switch_new (HwThingFacts *self, EditFact fact)
{
  GtkWidget *button = gtk_check_button_new_with_label (_ (rows[fact].caption));
  g_signal_connect_swapped (button, "toggled", G_CALLBACK (on_toggled_cb), self);
  return button;
}

static char *
format_percent (GtkScale *scale, double percent, gpointer user_data)
{
  return g_strdup_printf (_ ("%d %%"), (int)round (percent));
}

static GtkWidget *
slider_new (HwThingFacts *self, EditFact fact)
{
  GtkWidget *slider = gtk_scale_new_with_range (GTK_ORIENTATION_HORIZONTAL, 0, WHOLE_PERCENT, 1);
  gtk_scale_set_draw_value (GTK_SCALE (slider), TRUE);
  gtk_scale_set_value_pos (GTK_SCALE (slider), GTK_POS_RIGHT);
  gtk_scale_set_format_value_func (GTK_SCALE (slider), format_percent, NULL, NULL);
  g_signal_connect_swapped (slider, "value-changed", G_CALLBACK (on_slid_cb), self);
  return slider;
}

static void
add_control (HwThingFacts *self, EditFact fact)
{
  static GtkWidget *(*const news[]) (HwThingFacts *, EditFact) = {
    [CONTROL_ENTRY] = entry_new,
    [CONTROL_CHOICE] = choice_new,
    [CONTROL_SWITCH] = switch_new,
    [CONTROL_SLIDER] = slider_new,
  };
  const Row *row = &rows[fact];
  GtkWidget *control = news[row->control](self, fact);
  gtk_widget_set_hexpand (control, TRUE);
  if (row->control != CONTROL_SWITCH)
    {
      self->captions[fact] = gtk_label_new (_ (row->caption));
      gtk_label_set_xalign (GTK_LABEL (self->captions[fact]), 0);
      gtk_widget_add_css_class (self->captions[fact], "caption");
      gtk_grid_attach (self->grid, self->captions[fact], 0, (int)fact, 1, 1);
    }
  gtk_grid_attach (self->grid, control, 1, (int)fact, 1, 1);
  if (row->control == CONTROL_SWITCH || row->control == CONTROL_SLIDER)
    {
      gtk_accessible_update_property (GTK_ACCESSIBLE (control), GTK_ACCESSIBLE_PROPERTY_LABEL, _ (row->name), -1);
      gtk_widget_set_tooltip_text (control, _ (row->name));
    }
  self->controls[fact] = control;
}

static void
hw_thing_facts_dispose (GObject *object)
{
  HwThingFacts *self = HW_THING_FACTS (object);
  self->is_showing = true;
  for (GtkWidget *child; (child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL;)
    gtk_widget_unparent (child);
  g_clear_object (&self->desk);
  G_OBJECT_CLASS (hw_thing_facts_parent_class)->dispose (object);
}

static void
hw_thing_facts_class_init (HwThingFactsClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_thing_facts_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BOX_LAYOUT);
}

static void
hw_thing_facts_init (HwThingFacts *self)
{
  GtkBoxLayout *layout = GTK_BOX_LAYOUT (gtk_widget_get_layout_manager (GTK_WIDGET (self)));
  gtk_orientable_set_orientation (GTK_ORIENTABLE (layout), GTK_ORIENTATION_VERTICAL);
  gtk_box_layout_set_spacing (layout, 6);
  self->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_row_spacing (self->grid, 5);
  gtk_grid_set_column_spacing (self->grid, 8);
  for (EditFact fact = 0; fact < N_EDIT_FACTS; fact++)
    add_control (self, fact);
  self->reason = GTK_LABEL (g_object_new (GTK_TYPE_LABEL, "accessible-role", GTK_ACCESSIBLE_ROLE_ALERT, "xalign", 0.0, "wrap",
                                          TRUE, "visible", FALSE, NULL));
  gtk_widget_add_css_class (GTK_WIDGET (self->reason), "note");
  gtk_widget_set_parent (GTK_WIDGET (self->grid), GTK_WIDGET (self));
  gtk_widget_set_parent (GTK_WIDGET (self->reason), GTK_WIDGET (self));
}
