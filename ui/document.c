// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * document - sheets (one per hole file), the hole shown and its results.
 *
 * The hole shown is the one being dragged, else the current state of the history, else that state with a first plan. Results are computed
 * from it whenever it changes; nothing here is cached beyond it.
 */
#include "document-private.h"

#include "edit.h"
#include "sentence.h"
#include "svg.h"
#include "trace.h"

#include <glib/gi18n.h>

G_DEFINE_FINAL_TYPE (HwDocument, hw_document, G_TYPE_OBJECT)

static guint signals[HW_DOCUMENT_N_SIGNALS];

void
hw_document_emit (HwDocument *self, HwDocumentSignal signal)
{
  if (signal == HW_DOCUMENT_HOLE_CHANGED)
    hw_document_keep (self);
  g_signal_emit (self, signals[signal], 0);
  self->is_untold = self->is_untold || signal == HW_DOCUMENT_RESULTS_CHANGED;
  if (self->dragged == NULL)
    hw_document_tell_results (self);
}

void
hw_document_tell_results (HwDocument *self)
{
  if (!self->is_untold)
    return;
  self->is_untold = false;
  g_signal_emit (self, signals[HW_DOCUMENT_RESULTS_TOLD], 0);
}

void
hw_document_say (HwDocument *self, const char *text)
{
  g_signal_emit (self, signals[HW_DOCUMENT_MESSAGE], 0, text);
}

HwSheet *
hw_document_sheet (HwDocument *self)
{
  return self->sheets->len > 0 ? g_ptr_array_index (self->sheets, self->current) : NULL;
}

/* ---- the hole that counts ---- */

/* The hole shown changed: takes the one that counts now and computes it. */
void
hw_document_refresh (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  Hole *now = NULL;
  if (self->dragged != NULL)
    now = hole_ref (self->dragged);
  else if (sheet != NULL)
    {
      Hole *kept = history_current (sheet->history);
      if (hole_plan (kept) < 0)
        now = edit_start_plan (kept, NULL);
      if (now == NULL)
        now = hole_ref (kept);
    }
  g_clear_pointer (&self->shown, hole_unref);
  self->shown = now;
  if (self->dragged != NULL && self->is_drawing)
    {
      hw_document_clear_results (self);
      hw_document_emit (self, HW_DOCUMENT_HOLE_CHANGED);
      return;
    }
  hw_document_compute (self);
  hw_document_emit (self, HW_DOCUMENT_HOLE_CHANGED);
  hw_document_emit (self, HW_DOCUMENT_RESULTS_CHANGED);
}

/* ---- the object ---- */

static void
on_settings_changed_cb (HwDocument *self)
{
  hw_document_load_bag (self);
  hw_document_compute (self);
  hw_document_emit (self, HW_DOCUMENT_RESULTS_CHANGED);
}

static void
hw_document_dispose (GObject *object)
{
  HwDocument *self = HW_DOCUMENT (object);
  if (self->settings != NULL)
    g_signal_handlers_disconnect_by_data (self->settings, self);
  g_clear_object (&self->settings);
  G_OBJECT_CLASS (hw_document_parent_class)->dispose (object);
}

static void
hw_document_finalize (GObject *object)
{
  HwDocument *self = HW_DOCUMENT (object);
  hw_document_drop_ahead (self);
  hw_document_clear_results (self);
  known_shots_free (self->known);
  hw_beside_free (self->beside);
  g_clear_object (&self->follower);
  g_clear_pointer (&self->dragged, hole_unref);
  g_clear_pointer (&self->begun, hole_unref);
  g_clear_pointer (&self->begun_on, hole_unref);
  g_clear_pointer (&self->traced, hole_unref);
  g_clear_pointer (&self->shown, hole_unref);
  g_clear_pointer (&self->bag, bag_unref);
  g_clear_pointer (&self->course, course_free);
  g_ptr_array_unref (self->sheets);
  g_ptr_array_unref (self->peeks);
  g_clear_pointer (&self->keeper, hw_keeper_free);
  g_ptr_array_unref (self->course_steps);
  g_free (self->bag_path);
  g_free (self->bag_failed);
  g_free (self->example);
  G_OBJECT_CLASS (hw_document_parent_class)->finalize (object);
}

static void
hw_document_class_init (HwDocumentClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  object_class->dispose = hw_document_dispose;
  object_class->finalize = hw_document_finalize;
  static const char *const names[] = { "opened", "hole-changed", "results-changed", "results-told", "course-changed", "found" };
  for (int i = 0; i < HW_DOCUMENT_MESSAGE; i++)
    signals[i] = g_signal_new (names[i], HW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[HW_DOCUMENT_MESSAGE]
      = g_signal_new ("message", HW_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

/* What the keeper has to say. */
static void
document_tell (const char *text, gpointer document)
{
  hw_document_say (document, text);
}

static void
hw_document_init (HwDocument *self)
{
  self->known = known_shots_new ();
  self->beside = hw_beside_new ();
  self->keeper = hw_keeper_new (document_tell, self);
  self->follower = hw_follower_new ();
  g_signal_connect_object (self->follower, "found", G_CALLBACK (hw_document_take_found), self, G_CONNECT_SWAPPED);
  self->sheets = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_sheet_free);
  self->peeks = g_ptr_array_new_with_free_func ((GDestroyNotify)hole_unref);
  self->course_steps = g_ptr_array_new_with_free_func ((GDestroyNotify)course_step_free);
}

HwDocument *
hw_document_new (HwSettings *settings, const char *example)
{
  HwDocument *self = g_object_new (HW_TYPE_DOCUMENT, NULL);
  self->settings = g_object_ref (settings);
  self->example = g_strdup (example);
  g_signal_connect_swapped (settings, "changed", G_CALLBACK (on_settings_changed_cb), self);
  return self;
}

HwSettings *
hw_document_get_settings (HwDocument *self)
{
  return self->settings;
}

LengthUnit
hw_document_get_units (HwDocument *self)
{
  return hw_settings_get_units (self->settings);
}

Hole *
hw_document_get_hole (HwDocument *self)
{
  return self->shown;
}

Bag *
hw_document_get_bag (HwDocument *self)
{
  return self->bag;
}

HwBeside *
hw_document_get_beside (HwDocument *self)
{
  return self->beside;
}

const PlanScene *
hw_document_get_scene (HwDocument *self)
{
  return &self->scene;
}

const Section *
hw_document_get_section (HwDocument *self)
{
  if (self->section == NULL && self->scene.n_shots > 0)
    {
      const ShotResult *shot = &self->shots[self->scene.current];
      hw_document_need (self, SCENE_NEEDS_TREES);
      self->section = section_new (self->shown, NULL, shot, self->carries, self->trees);
    }
  return self->section;
}

void
hw_document_want_odds (HwDocument *self, bool wants_odds)
{
  self->wants_odds = wants_odds;
}

const char *
hw_document_get_trouble (HwDocument *self)
{
  return self->trouble;
}

void
hw_document_need (HwDocument *self, unsigned needs)
{
  if (self->scene.n_shots > 0 && needs & (SCENE_NEEDS_ROOM | SCENE_NEEDS_PLACES) && !self->is_followed)
    hw_document_follow (self);
  if (self->scene.n_shots > 0 && needs & SCENE_NEEDS_TREES && self->trees == NULL)
    self->scene.trees = self->trees = tree_table_new (self->shown, &self->shots[self->scene.current]);
}

bool
hw_same_ground (const Hole *a, const Hole *b)
{
  return odds_same_ground (a, b);
}

const Part *
hw_document_get_plan (HwDocument *self)
{
  int plan = self->shown != NULL ? hole_plan (self->shown) : -1;
  return plan >= 0 ? hole_part (self->shown, (size_t)plan) : NULL;
}

size_t
hw_document_get_shot (HwDocument *self)
{
  HwSheet *sheet = hw_document_sheet (self);
  return sheet != NULL ? sheet->shot : 0;
}

void
hw_document_set_shot (HwDocument *self, size_t shot)
{
  HwSheet *sheet = hw_document_sheet (self);
  const Part *plan = hw_document_get_plan (self);
  if (sheet == NULL || plan == NULL || shot >= plan->n_shots || shot == sheet->shot)
    return;
  sheet->shot = shot;
  hw_document_compute (self);
  hw_document_emit (self, HW_DOCUMENT_RESULTS_CHANGED);
}

Card *
hw_document_new_card (HwDocument *self, GError **error)
{
  CardContent content = { .hole = self->shown, .course = self->course, .bag = self->bag };
  CardOptions options;
  card_options_init (&options);
  options.translate = hw_translated;
  options.page = hw_settings_get_card_page (self->settings);
  options.blocks = hw_settings_get_card_blocks (self->settings);
  options.units = hw_settings_get_units (self->settings);
  return card_new (&content, &options, error);
}
