// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-window-private - the window's fields, shared by bag-window.c (what is shown), bag-commands.c (clubs) and bag-files.c (files and unsaved work). */
#ifndef HW_BAG_WINDOW_PRIVATE_H
#define HW_BAG_WINDOW_PRIVATE_H

#include "bag-chooser.h"
#include "bag-desk.h"
#include "bag-table.h"
#include "bag-window.h"

struct _HwBagWindow
{
  GtkWindow parent_instance;
  HwBagDesk *desk;
  GActionMap *actions;
  HwBagChooser *chooser;
  HwBagTable *table;
  GtkDropDown *level;
  GtkBox *choices;
  GtkWidget *groups, *foot, *undo_button, *redo_button;
  GtkLabel *units, *note, *said;
  HwBagGroup group; /* shown where not all columns have room */
  int width;        /* for which it is laid out, px */
  bool is_showing, is_closing;
};

/* Says something in the line at the foot. */
void hw_bag_window_say (HwBagWindow *self, const char *text, bool is_failure);
/* Takes what is typed; false when some of it cannot be taken, which is said. */
bool hw_bag_window_commit (HwBagWindow *self);
/* Shows which bag is in hand. */
void hw_bag_window_show_chooser (HwBagWindow *self);
/* The commands on clubs and on bags, as actions. */
void hw_bag_window_add_commands (HwBagWindow *self);
void hw_bag_window_add_files (HwBagWindow *self);
/* Opens another bag, after what is unsaved was asked about. */
void hw_bag_window_open (HwBagWindow *self, const char *path);
/* Is there anything that would be lost? Then asks, and closes the window unless the golfer thinks better of it. */
bool hw_bag_window_asks_to_close (HwBagWindow *self);

#endif
