// SPDX-License-Identifier: GPL-3.0-or-later
/* document - what the follower finds of the shot in hand. */
#include "document-private.h"

const HwFound *
hw_document_get_found (HwDocument *self)
{
  const HwFound *found = hw_follower_get_found (self->follower);
  if (self->scene.n_shots == 0)
    return NULL;
  const ShotResult *shot = &self->shots[self->scene.current];
  return hw_found_holds (found, self->shown, self->bag, shot, hw_document_is_dragging (self)) ? found : NULL;
}

static void
show_found (HwDocument *self)
{
  const HwFound *found = hw_document_get_found (self);
  self->scene.room = found != NULL && found->has_room ? &found->room : NULL;
  self->scene.places = found != NULL ? found->places : NULL;
  self->scene.n_places = found != NULL ? found->n_places : 0;
}

void
hw_document_take_found (HwDocument *self)
{
  show_found (self);
  hw_document_emit (self, HW_DOCUMENT_FOUND);
}

void
hw_document_follow (HwDocument *self)
{
  self->is_followed = true;
  hw_follower_ask (self->follower, self->shown, self->bag, &self->shots[self->scene.current]);
  show_found (self);
}
