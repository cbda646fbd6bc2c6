// SPDX-License-Identifier: GPL-3.0-or-later
/* desk - a byte of flags for each part of the hole, carried over from one hole to the next by the identity of the parts. */
#include "desk.h"

#include "render.h"
#include "sentence.h"

#include <glib/gi18n.h>

enum
{
  FLAG_SELECTED = 1,
  FLAG_LOCKED = 2,
  FLAG_HIDDEN = 4,
  FLAG_HELD = 8
};

struct _HwDesk
{
  GObject parent_instance;
  HwDocument *document;
  HwWay way;
  Kind kind;

  Hole *hole; /* what `flags` and `node` speak of */
  guint8 *flags;
  GArray *selection, *untouchable; /* size_t */
  int node;
  bool is_holding;
  Hole *still, *still_of; /* kept picture's hole, and the hole it was made of */
};

G_DEFINE_FINAL_TYPE (HwDesk, hw_desk, G_TYPE_OBJECT)

enum
{
  SELECTED,
  MARKED,
  TOOK,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

/* ---- flags ---- */

static size_t
n_parts (HwDesk *self)
{
  return self->hole != NULL ? hole_n_parts (self->hole) : 0;
}

static void
list_flagged (HwDesk *self, GArray *list, guint8 mask)
{
  g_array_set_size (list, 0);
  for (size_t i = 0; i < n_parts (self); i++)
    if (self->flags[i] & mask)
      g_array_append_val (list, i);
}

static void
forget_still (HwDesk *self)
{
  g_clear_pointer (&self->still, hole_unref);
  g_clear_pointer (&self->still_of, hole_unref);
}

/* The flags of the parts of `now`: a part that is still there keeps its own, one that was changed in its place takes over those of its forerunner. */
static guint8 *
carry_flags (HwDesk *self, const Hole *now)
{
  size_t n_before = n_parts (self), n_now = hole_n_parts (now);
  guint8 *flags = g_new0 (guint8, n_now + 1);
  g_autoptr (GHashTable) before = g_hash_table_new (NULL, NULL);
  g_autoptr (GHashTable) after = g_hash_table_new (NULL, NULL);
  for (size_t i = 0; i < n_before; i++)
    g_hash_table_insert (before, (gpointer)hole_part (self->hole, i), GSIZE_TO_POINTER (i + 1));
  for (size_t i = 0; i < n_now; i++)
    g_hash_table_add (after, (gpointer)hole_part (now, i));
  for (size_t i = 0; i < n_now; i++)
    {
      gsize found = GPOINTER_TO_SIZE (g_hash_table_lookup (before, hole_part (now, i)));
      if (found > 0)
        flags[i] = self->flags[found - 1];
      else if (i < n_before && !g_hash_table_contains (after, hole_part (self->hole, i)))
        flags[i] = self->flags[i];
    }
  return flags;
}

static void
follow (HwDesk *self, Hole *now, bool keeps)
{
  if (now == self->hole && keeps)
    return;
  g_autofree guint8 *before = self->flags;
  size_t n_selected = self->selection->len;
  self->flags = now == NULL                   ? NULL
                : keeps && self->hole != NULL ? carry_flags (self, now)
                                              : g_new0 (guint8, hole_n_parts (now) + 1);
  Hole *old = self->hole;
  self->hole = now != NULL ? hole_ref (now) : NULL;
  g_clear_pointer (&old, hole_unref);
  list_flagged (self, self->selection, FLAG_SELECTED);
  list_flagged (self, self->untouchable, FLAG_LOCKED | FLAG_HIDDEN);
  if (!keeps || n_selected != self->selection->len || self->selection->len != 1)
    self->node = -1;
  if (!self->is_holding)
    forget_still (self);
  g_signal_emit (self, signals[SELECTED], 0);
}

static void
on_hole_changed_cb (HwDesk *self)
{
  follow (self, hw_desk_get_hole (self), true);
}

static void
on_opened_cb (HwDesk *self)
{
  Hole *kept = hw_document_get_kept (self->document);
  if (kept != self->hole)
    {
      self->is_holding = false;
      follow (self, kept, false);
    }
}

/* ---- the object ---- */

static void
hw_desk_finalize (GObject *object)
{
  HwDesk *self = HW_DESK (object);
  forget_still (self);
  g_clear_pointer (&self->hole, hole_unref);
  g_free (self->flags);
  g_array_unref (self->selection);
  g_array_unref (self->untouchable);
  g_object_unref (self->document);
  G_OBJECT_CLASS (hw_desk_parent_class)->finalize (object);
}

static void
hw_desk_class_init (HwDeskClass *klass)
{
  static const char *const names[N_SIGNALS] = { "selected", "marked", "took" };
  G_OBJECT_CLASS (klass)->finalize = hw_desk_finalize;
  for (int i = 0; i < N_SIGNALS; i++)
    signals[i] = g_signal_new (names[i], HW_TYPE_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_desk_init (HwDesk *self)
{
  self->selection = g_array_new (FALSE, FALSE, sizeof (size_t));
  self->untouchable = g_array_new (FALSE, FALSE, sizeof (size_t));
  self->node = -1;
  self->kind = KIND_FAIRWAY;
}

HwDesk *
hw_desk_new (HwDocument *document)
{
  HwDesk *self = g_object_new (HW_TYPE_DESK, NULL);
  self->document = g_object_ref (document);
  g_signal_connect_object (document, "opened", G_CALLBACK (on_opened_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (document, "hole-changed", G_CALLBACK (on_hole_changed_cb), self, G_CONNECT_SWAPPED);
  return self;
}

HwDocument *
hw_desk_get_document (HwDesk *self)
{
  return self->document;
}

Hole *
hw_desk_get_hole (HwDesk *self)
{
  return hw_document_is_dragging (self->document) ? hw_document_get_hole (self->document)
                                                  : hw_document_get_kept (self->document);
}

/* ---- the tool ---- */

bool
hw_way_draws (HwWay way, Kind kind)
{
  PartShape shape = kind_info (kind)->shape;
  switch (way)
    {
    case HW_WAY_FREEHAND:
      return shape == SHAPE_AREA;
    case HW_WAY_POINTS:
      return shape == SHAPE_AREA || kind == KIND_LINE_OF_PLAY;
    case HW_WAY_CIRCLE:
      return shape == SHAPE_AREA || kind == KIND_TREE;
    case HW_WAY_PLACE:
      return shape == SHAPE_POINT || shape == SHAPE_TEXT;
    case HW_WAY_SCATTER:
      return kind == KIND_TREE;
    case HW_WAY_ARROW:
      return kind == KIND_SLOPE;
    default:
      return true;
    }
}

HwWay
hw_desk_get_way (HwDesk *self)
{
  return self->way;
}

Kind
hw_desk_get_kind (HwDesk *self)
{
  return self->kind;
}

static void
take (HwDesk *self, HwWay way, Kind kind)
{
  self->way = way;
  self->kind = kind;
  g_signal_emit (self, signals[TOOK], 0);
}

void
hw_desk_take_way (HwDesk *self, HwWay way)
{
  Kind kind = self->kind;
  if (!hw_way_draws (way, kind))
    kind = way == HW_WAY_SCATTER ? KIND_TREE
           : way == HW_WAY_PLACE ? KIND_HOLE_LOCATION
           : way == HW_WAY_ARROW ? KIND_SLOPE
                                 : KIND_FAIRWAY;
  take (self, way, kind);
}

void
hw_desk_take_kind (HwDesk *self, Kind kind)
{
  HwWay way = self->way;
  if (way == HW_WAY_SELECT || way == HW_WAY_CUT || !hw_way_draws (way, kind))
    {
      static const HwWay usual[] = { HW_WAY_FREEHAND, HW_WAY_PLACE, HW_WAY_POINTS, HW_WAY_ARROW };
      size_t first = 0;
      while (!hw_way_draws (usual[first], kind))
        first++;
      way = usual[first];
    }
  take (self, way, kind);
}

/* ---- the selection ---- */

const size_t *
hw_desk_get_selection (HwDesk *self, size_t *n)
{
  *n = self->selection->len;
  return (const size_t *)self->selection->data;
}

int
hw_desk_get_selected (HwDesk *self)
{
  return self->selection->len == 1 ? (int)g_array_index (self->selection, size_t, 0) : -1;
}

bool
hw_desk_is_selected (HwDesk *self, size_t part)
{
  return part < n_parts (self) && self->flags[part] & FLAG_SELECTED;
}

static void
selection_changed (HwDesk *self)
{
  self->node = -1;
  list_flagged (self, self->selection, FLAG_SELECTED);
  g_signal_emit (self, signals[SELECTED], 0);
}

void
hw_desk_select (HwDesk *self, const size_t *parts, size_t n)
{
  for (size_t i = 0; i < n_parts (self); i++)
    self->flags[i] &= (guint8)~FLAG_SELECTED;
  for (size_t i = 0; i < n; i++)
    if (parts[i] < n_parts (self))
      self->flags[parts[i]] |= FLAG_SELECTED;
  selection_changed (self);
}

void
hw_desk_select_one (HwDesk *self, size_t part)
{
  hw_desk_select (self, &part, 1);
}

void
hw_desk_select_none (HwDesk *self)
{
  hw_desk_select (self, NULL, 0);
}

void
hw_desk_toggle (HwDesk *self, size_t part)
{
  if (part >= n_parts (self))
    return;
  self->flags[part] ^= FLAG_SELECTED;
  selection_changed (self);
}

static bool
is_touchable (HwDesk *self, size_t i)
{
  return !(self->flags[i] & (FLAG_LOCKED | FLAG_HIDDEN)) && hole_part (self->hole, i)->kind != KIND_PLAN;
}

void
hw_desk_select_all (HwDesk *self)
{
  for (size_t i = 0; i < n_parts (self); i++)
    if (is_touchable (self, i))
      self->flags[i] |= FLAG_SELECTED;
  selection_changed (self);
}

bool
hw_desk_select_next (HwDesk *self, int step)
{
  int n = (int)n_parts (self);
  int at = step > 0 ? -1 : n;
  if (self->selection->len > 0)
    at = (int)g_array_index (self->selection, size_t, step > 0 ? self->selection->len - 1 : 0);
  for (at += step; at >= 0 && at < n; at += step)
    if (is_touchable (self, (size_t)at))
      {
        hw_desk_select_one (self, (size_t)at);
        return true;
      }
  return false;
}

int
hw_desk_get_node (HwDesk *self)
{
  return self->node;
}

void
hw_desk_set_node (HwDesk *self, int node)
{
  if (self->node == node)
    return;
  self->node = node;
  g_signal_emit (self, signals[SELECTED], 0);
}

/* ---- locked and hidden ---- */

bool
hw_desk_is_locked (HwDesk *self, size_t part)
{
  return part < n_parts (self) && self->flags[part] & FLAG_LOCKED;
}

bool
hw_desk_is_hidden (HwDesk *self, size_t part)
{
  return part < n_parts (self) && self->flags[part] & FLAG_HIDDEN;
}

static void
set_mark (HwDesk *self, size_t part, guint8 flag, bool on)
{
  if (part >= n_parts (self) || ((self->flags[part] & flag) != 0) == on)
    return;
  self->flags[part] = (guint8)(on ? (self->flags[part] | flag) & ~FLAG_SELECTED : self->flags[part] & ~flag);
  list_flagged (self, self->untouchable, FLAG_LOCKED | FLAG_HIDDEN);
  forget_still (self);
  selection_changed (self);
  g_signal_emit (self, signals[MARKED], 0);
}

void
hw_desk_set_locked (HwDesk *self, size_t part, bool locked)
{
  set_mark (self, part, FLAG_LOCKED, locked);
}

void
hw_desk_set_hidden (HwDesk *self, size_t part, bool hidden)
{
  set_mark (self, part, FLAG_HIDDEN, hidden);
}

const size_t *
hw_desk_get_untouchable (HwDesk *self, size_t *n)
{
  *n = self->untouchable->len;
  return (const size_t *)self->untouchable->data;
}

/* ---- pictures ---- */

static bool
is_in_still (HwDesk *self, size_t i)
{
  return !(self->flags[i] & (FLAG_HIDDEN | FLAG_HELD));
}

/* The hole with the parts that `is_in` says. */
static Hole *
hole_of (HwDesk *self, bool (*is_in) (HwDesk *self, size_t i))
{
  g_autofree const Part **parts = g_new (const Part *, n_parts (self) + 1);
  size_t n = 0;
  for (size_t i = 0; i < n_parts (self); i++)
    if (is_in (self, i))
      parts[n++] = part_ref (hole_part (self->hole, i));
  return hole_new (hole_info (self->hole), parts, n, NULL);
}

static Box
bounds_of (const Part *part)
{
  return box_is_empty (part->bounds) ? box_with_point (box_empty (), part->at) : part->bounds;
}

void
hw_desk_hold (HwDesk *self)
{
  if (self->is_holding)
    return;
  self->is_holding = true;
  for (size_t i = 0; i < n_parts (self); i++)
    if (self->flags[i] & FLAG_SELECTED)
      self->flags[i] |= FLAG_HELD;
  forget_still (self);
}

void
hw_desk_let_go (HwDesk *self)
{
  if (!self->is_holding)
    return;
  self->is_holding = false;
  for (size_t i = 0; i < n_parts (self); i++)
    self->flags[i] &= (guint8)~FLAG_HELD;
  forget_still (self);
}

bool
hw_desk_is_holding (HwDesk *self)
{
  return self->is_holding;
}

Hole *
hw_desk_get_still (HwDesk *self)
{
  if (self->hole == NULL)
    return NULL;
  if (self->still == NULL || (!self->is_holding && self->still_of != self->hole))
    {
      forget_still (self);
      bool is_whole = !self->is_holding;
      for (size_t i = 0; is_whole && i < n_parts (self); i++)
        is_whole = !(self->flags[i] & FLAG_HIDDEN);
      self->still = is_whole ? hole_ref (self->hole) : hole_of (self, is_in_still);
      self->still_of = hole_ref (self->hole);
    }
  return self->still;
}

/* Is part `i` painted after `k`? */
static bool
is_over (HwDesk *self, size_t i, size_t k)
{
  unsigned layer = render_layer (hole_part (self->hole, i)->kind), other = render_layer (hole_part (self->hole, k)->kind);
  return layer != other ? layer > other : i > k;
}

/* Part of the picture, but of what stays in it. */
static bool
stays (HwDesk *self, size_t i)
{
  return !(self->flags[i] & (FLAG_HIDDEN | FLAG_HELD)) && hole_part (self->hole, i)->kind != KIND_PLAN;
}

/* Held, or painted over something held that it reaches. */
static bool
is_in_held (HwDesk *self, size_t i)
{
  if (!stays (self, i))
    return self->flags[i] & FLAG_HELD;
  Box bounds = bounds_of (hole_part (self->hole, i));
  for (size_t k = 0; k < n_parts (self); k++)
    if (self->flags[k] & FLAG_HELD && is_over (self, i, k) && box_overlaps (bounds, bounds_of (hole_part (self->hole, k))))
      return true;
  return false;
}

bool
hw_desk_holds_topmost (HwDesk *self)
{
  size_t lowest = n_parts (self);
  for (size_t i = 0; i < n_parts (self); i++)
    if (self->flags[i] & FLAG_HELD && (lowest == n_parts (self) || is_over (self, lowest, i)))
      lowest = i;
  for (size_t i = 0; i < n_parts (self); i++)
    if (lowest < n_parts (self) && stays (self, i) && is_over (self, i, lowest))
      return false;
  return true;
}

Hole *
hw_desk_get_held (HwDesk *self, Box *bounds)
{
  if (!self->is_holding || self->hole == NULL)
    return NULL;
  *bounds = box_empty ();
  for (size_t i = 0; i < n_parts (self); i++)
    if (self->flags[i] & FLAG_HELD)
      *bounds = box_union (*bounds, bounds_of (hole_part (self->hole, i)));
  return hole_of (self, is_in_held);
}

/* ---- words ---- */

static void
append_length (GString *text, const char *format, double length_m, LengthUnit units)
{
  char length[UNITS_TEXT_SIZE];
  if (text->len > 0)
    g_string_append (text, " · ");
  g_string_append_printf (text, format, units_print_whole (length_m, units, length, sizeof length));
}

char *
hw_desk_whereabouts (HwDesk *self, Vec2 at)
{
  GString *text = g_string_new (NULL);
  LengthUnit units = hw_document_get_units (self->document);
  Vec2 target;
  int tee = self->hole != NULL ? hole_tee (self->hole, NULL) : -1;
  if (tee >= 0)
    append_length (text, _ ("%s from the tee"), vec2_distance (at, part_position (hole_part (self->hole, (size_t)tee))), units);
  if (self->hole != NULL && hole_target (self->hole, NULL, &target))
    append_length (text, _ ("%s to the hole"), vec2_distance (at, target), units);
  double along_m, right_m;
  if (self->hole != NULL && edit_measure_place (self->hole, at, &along_m, &right_m))
    append_length (text, right_m < 0 ? _ ("%s left of the line") : _ ("%s right of the line"), fabs (right_m), units);
  return g_string_free (text, FALSE);
}

/* ---- edits ---- */

bool
hw_desk_edit (HwDesk *self, Hole *hole, const char *label, unsigned gesture, GError **error)
{
  if (hole == NULL)
    {
      g_autofree char *reason = hw_sentence (*error != NULL ? (*error)->message : _ ("That cannot be done here."));
      hw_document_say (self->document, reason);
      g_clear_error (error);
      return false;
    }
  return hw_document_edit (self->document, hole, g_intern_string (label), gesture);
}

const char *
hw_desk_label (HwDesk *self, const char *format)
{
  g_autofree char *what = NULL;
  int one = hw_desk_get_selected (self);
  if (one >= 0)
    what = g_strdup (_ (kind_info (hole_part (self->hole, (size_t)one)->kind)->label));
  else
    what = g_strdup_printf (g_dngettext (NULL, "%u thing", "%u things", self->selection->len), self->selection->len);
  g_autofree char *label = g_strdup_printf (format, what);
  return g_intern_string (label);
}
