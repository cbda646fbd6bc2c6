// SPDX-License-Identifier: GPL-3.0-or-later
/* inscribe - short texts that change at every frame of a drag. */
#ifndef HW_INSCRIBE_H
#define HW_INSCRIBE_H

#include <gtk/gtk.h>
#include <stdbool.h>

/* Sets the text if it is another than shown, and says whether it was. Where the language runs from right to left the text stands as GTK would
 * stand a label's: an inscription by itself goes by the direction of its words, and a Latin name in an Arabic window would stand at the wrong end. */
bool hw_inscribe (GtkInscription *inscription, const char *text);
/* Makes it wide enough for each of these texts, which a translation may have lengthened: it does not measure its text itself. Once, when it is made. */
void hw_inscription_hold (GtkInscription *inscription, const char *const *texts, size_t n_texts);
/* Tells a screen reader what the widget says, a moment later: every property told is a message to all who listen, and only the last is of use. */
void hw_speak_later (GtkWidget *widget, const char *text);

#endif
