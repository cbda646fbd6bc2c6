// SPDX-License-Identifier: GPL-3.0-or-later
/* Where balls about a pattern end, kept for a pattern that is moved about. */
#ifndef HOLEWRIGHT_ROOM_PRIVATE_H
#define HOLEWRIGHT_ROOM_PRIVATE_H

#include "rest-private.h"

typedef struct _RoomField RoomField;

/* `ground` and `faces` are borrowed; patterns are asked about that were moved by `farthest_m` at most. Free with room_field_free. */
RoomField *room_field_new (const Ground *ground, const Faces *faces, const Strike *strike, double farthest_m);
void room_field_free (RoomField *field);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (RoomField, room_field_free)
/*
 * Chance 0..1 that a ball of the strike is in trouble at rest when its pattern is moved so far: as odds_table_new tells, within REST_ERROR. False for a pattern that is
 * not finite.
 */
bool room_field_trouble (RoomField *field, Vec2 by_m, double *trouble);

#endif
