// SPDX-License-Identifier: GPL-3.0-or-later
/* speak - what GTK 4.8 leaves unsaid to a screen reader. */
#ifndef HW_SPEAK_H
#define HW_SPEAK_H

#include <gtk/gtk.h>

/* Names a choice from a list and says what is chosen, "Club: 3 wood", on the button within it, which is what takes the focus. Follows the choice. */
void hw_speak_choice (GtkDropDown *choice, const char *name);

#endif
