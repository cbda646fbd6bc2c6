// SPDX-License-Identifier: GPL-3.0-or-later
/* canvas-green - the green by itself: what is known of playing to it, and whether the shot in hand then still runs from left to right. */
#include "canvas-private.h"

#include "sentence.h"

#include <glib/gi18n.h>

bool
hw_canvas_find_green (HwCanvas *self, PlanGreen *green)
{
  const PlanScene *scene = hw_document_get_scene (self->document);
  const Bag *bag = hw_document_get_bag (self->document);
  if (scene->n_shots == 0 || bag == NULL)
    return false;
  green->approach = self->solver != NULL ? hw_solver_get_approach (self->solver) : NULL;
  return odds_green_play (scene->hole, NULL, &scene->shots[scene->current], scene->clubs, bag_n_clubs (bag), &green->play);
}

bool
hw_canvas_is_along (HwCanvas *self)
{
  PlanGreen green;
  if (self->look != HW_LOOK_GREEN)
    return self->look == HW_LOOK_ALONG;
  return !hw_canvas_find_green (self, &green) || green.play.is_reached;
}

char *
hw_canvas_green_words (HwCanvas *self)
{
  PlanGreen green;
  LengthUnit units = hw_document_get_units (self->document);
  char front[UNITS_TEXT_SIZE], hole[UNITS_TEXT_SIZE], back[UNITS_TEXT_SIZE], left[UNITS_TEXT_SIZE], right[UNITS_TEXT_SIZE];
  if (!hw_canvas_find_green (self, &green))
    return NULL;
  const GreenNumbers *numbers = &green.play.numbers;
  units_print_length (numbers->front_m, units, front, sizeof front);
  units_print_length (numbers->hole_m, units, hole, sizeof hole);
  units_print_length (numbers->back_m, units, back, sizeof back);
  units_print_length (numbers->left_m, units, left, sizeof left);
  units_print_length (numbers->right_m, units, right, sizeof right);
  g_autofree char *words
      = g_strdup_printf (_ ("The green: front %s, hole %s, back %s, room %s left, %s right"), front, hole, back, left, right);
  if (!green.play.is_reached || green.approach == NULL)
    return g_steal_pointer (&words);
  g_autofree char *advice = approach_words (green.approach, units, hw_translated);
  return g_strdup_printf ("%s. %s", words, advice);
}
