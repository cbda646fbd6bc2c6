// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * odds-green - from where the green is played next: from the ball, when a club gets there, else from where the shot in hand stops.
 */
#ifndef HOLEWRIGHT_ODDS_GREEN_H
#define HOLEWRIGHT_ODDS_GREEN_H

#include "odds.h"

typedef struct
{
  Vec2 from;            /* the ball, or where this shot comes to rest */
  GreenNumbers numbers; /* from there */
  bool is_reached;      /* a club gets to the green from the ball */
} GreenPlay;

/*
 * `clubs` are the bag's on this day from the shot's ball; NULL or none: only the club in hand is asked. A club gets there when its full carry and run reach the
 * front of the green on the line from the ball to the hole; a club for the tee only from a tee. False without a green, and with both balls on the hole or the
 * green missed by the line to it.
 */
bool odds_green_play (const Hole *hole, const char *hole_name, const ShotResult *shot, const ClubToday *clubs, size_t n_clubs,
                      GreenPlay *play);

#endif
