// SPDX-License-Identifier: GPL-3.0-or-later
/* window-private - the window's fields and what its parts share: window.c (parts), window-width.c, window-files.c (open, save, close), window-actions.c. */
#ifndef HW_WINDOW_PRIVATE_H
#define HW_WINDOW_PRIVATE_H

#include "canvas.h"
#include "card-panel.h"
#include "card-view.h"
#include "desk.h"
#include "disk-bar.h"
#include "display-memory.h"
#include "draw-panel.h"
#include "figure.h"
#include "hole-chooser.h"
#include "plan-panel.h"
#include "planner.h"
#include "recovered-bar.h"
#include "section.h"
#include "strip.h"
#include "window.h"

/* How the window is laid out for its width. */
typedef enum
{
  HW_WIDTH_WIDE,   /* the panel stands beside the drawing */
  HW_WIDTH_NARROW, /* it lies over the drawing, folded away until asked for */
  HW_WIDTH_PHONE   /* it is a sheet at the foot, under which the step switch stands */
} HwWidth;

struct _HwWindow
{
  GtkApplicationWindow parent_instance;
  HwSettings *settings;
  HwDocument *document;
  HwDesk *desk;
  HwSolver *solver;
  HwPlanner *planner;
  HwRecovered *recovered;
  HwSession *session;
  char *example;
  Hole *started;   /* a new drawing that waits until unsaved work was dealt with */
  GCancellable *transfer; /* of the drawing that is being read; NULL when none is */
  bool is_closing; /* unsaved work was dealt with */
  HwWidth width;
  int section_px; /* how high the section stands; 0: the window is too low for it */
  int header_px; /* least width of the header bar with the step switch in it, as last measured */
  int narrow_px; /* least width of the drawing's side without the panel, as last measured when narrow */
  int wide_px;   /* and of both beside each other, as last measured when wide */
  int panel_px;  /* as wide as the panel is */
  gulong first_frame; /* handler that traces it */
  HwDisplayMemory *memory;

  GtkHeaderBar *header;
  GtkWidget *step_switch;
  GtkBox *foot;
  HwHoleChooser *hole_chooser;
  GtkStack *steps, *panels;
  GtkWidget *plan_status, *looks, *undo_button, *redo_button, *zoom_out_button, *zoom_in_button;
  HwCanvas *canvas;
  HwStrip *strip;
  HwSection *section;
  GtkRevealer *section_revealer;
  GtkWidget *section_button;
  HwPlanPanel *plan_panel;
  HwDrawPanel *draw_panel;
  HwCardView *card_view;
  HwCardPanel *card_panel;
  HwFigure *status;
  HwRecoveredBar *recovered_bar;
  HwDiskBar *disk_bar;
  GtkInfoBar *message_bar;
  GtkLabel *message;
  GtkWidget *save_elsewhere; /* beside a message that something was not saved */
  GtkMenuButton *menu_button;
  GtkPopover *drawing_menu; /* the drawing's, while that lives */
  GMenu *recent_menu;
};

/* Says something in the message bar. */
void hw_window_say (HwWindow *self, GtkMessageType type, const char *text);
/* The layout for the width at hand: chosen while sizes are given out, and brought about. */
void hw_window_follow_width (HwWindow *self, int width_px);
void hw_window_apply_width (HwWindow *self);
/* The section under the drawing: its action, whether it stands there, and its height as that of the window changes. */
void hw_window_add_section (HwWindow *self);
void hw_window_update_section (HwWindow *self);
void hw_window_follow_height (HwWindow *self, int height_px);
void hw_window_add_actions (HwWindow *self);
/* Words the status line anew. */
void hw_window_update_status (HwWindow *self);
/* Brings sensitivity, state and names of the actions up to date. */
void hw_window_update_actions (HwWindow *self);
void hw_window_update_recent (HwWindow *self);
/* Asks for a new hole, in a dialog over `over`. */
void hw_window_new_hole (HwWindow *self, GtkWindow *over);
/* The course, and the facts of its holes. */
void hw_window_add_course (HwWindow *self);
void hw_window_update_course_actions (HwWindow *self);
/* The plan that the program suggests: its actions, and their sensitivity. */
void hw_window_add_suggest (HwWindow *self);
void hw_window_update_suggest_actions (HwWindow *self, bool in_plan);
/* The bag of clubs. */
void hw_window_add_bag (HwWindow *self);
/* Opens the bag that an earlier run left unsaved, row `i` of what was recovered. */
void hw_window_recover_bag (HwWindow *self, guint i);
/* Draw: its actions, keys and menu, and their sensitivity. */
void hw_window_add_draw (HwWindow *self);
void hw_window_update_draw_actions (HwWindow *self);
/* Cut, copy, paste, and what is dropped on the window. */
void hw_window_add_clipboard (HwWindow *self);
void hw_window_stop_transfer (HwWindow *self);
/* Recovered work, and files that others change. */
void hw_window_add_life (HwWindow *self);
/* File commands, each an action. */
void hw_window_choose_file (HwWindow *self, bool folder);
void hw_window_save (HwWindow *self);
void hw_window_save_as (HwWindow *self);
/* Asks about unsaved work, then does `then`, unless the golfer thinks better of it. */
void hw_window_ask_then (HwWindow *self, void (*then) (HwWindow *self, const char *path), const char *path);
void hw_window_print (HwWindow *self);
void hw_window_export (HwWindow *self);

#endif
