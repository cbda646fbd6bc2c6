// SPDX-License-Identifier: GPL-3.0-or-later
/* sentence - what an engine says in passing, as something to be read by itself. */
#ifndef HW_SENTENCE_H
#define HW_SENTENCE_H

/* In the golfer's language, with a capital and a full stop: "there is no green; draw it first" reads "There is no green; draw it first.". Free with g_free. */
char *hw_sentence (const char *text);

/* The text with each number kept on one line with its unit: "86 %" and "12 mph" are not parted where lines break. Free with g_free. */
char *hw_unbroken (const char *text);

/* The text in the golfer's language: for engines and painters that ask for a Translate. Borrowed. */
const char *hw_translated (const char *text);

#endif
