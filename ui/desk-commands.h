// SPDX-License-Identifier: GPL-3.0-or-later
/* desk-commands - what can be done to the things selected, as a table: an action, a menu item and a key each. */
#ifndef HW_DESK_COMMANDS_H
#define HW_DESK_COMMANDS_H

#include "desk.h"

#include <gtk/gtk.h>

typedef struct
{
  const char *name; /* of the action, "draw-delete"; NULL ends the table, "" starts a submenu under its label */
  const char *label;
  const char *keys[2]; /* on the drawing and on the list of things; may be NULL */
  bool (*can) (HwDesk *desk);
  void (*run) (HwDesk *desk);
} HwDeskCommand;

extern const HwDeskCommand hw_desk_command_table[];
/* The commands as a menu. */
GMenuModel *hw_desk_command_menu (void);
/* Gives a widget the keys of the commands. */
void hw_desk_command_add_keys (GtkWidget *widget);

/* With a number that the golfer types: grow (or shrink) by a length, turn anticlockwise by an angle. */
void hw_desk_grow (HwDesk *desk, double distance_m);
void hw_desk_turn (HwDesk *desk, double angle_rad);

#endif
