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
  void (*run) (HwDesk *desk); /* NULL: done by the window, which has an action of that name */
} HwDeskCommand;

extern const HwDeskCommand hw_desk_command_table[];
/* The commands as a menu. */
GMenuModel *hw_desk_command_menu (void);
/* Gives a widget the keys of the commands. */
void hw_desk_command_add_keys (GtkWidget *widget);

/* With a number that the golfer types: grow (or shrink) by a length, turn anticlockwise by an angle. */
void hw_desk_grow (HwDesk *desk, double distance_m);
void hw_desk_turn (HwDesk *desk, double angle_rad);

/* What is selected as a document of its own, for the clipboard; NULL with `error`. */
GBytes *hw_desk_copy (HwDesk *desk, GError **error);
void hw_desk_cut (HwDesk *desk);
/*
 * Puts parts into the hole as one step of undo and selects them: where they are, or a little beside their twins. False, having said why, when nothing
 * could be put in; what was too small is said as well.
 */
bool hw_desk_paste (HwDesk *desk, const Part *const *parts, size_t n_parts);

#endif
