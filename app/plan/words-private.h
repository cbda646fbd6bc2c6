// SPDX-License-Identifier: GPL-3.0-or-later
/* words-private - what the sentences about plans share. Texts are freed with g_free. */
#ifndef HOLEWRIGHT_WORDS_PRIVATE_H
#define HOLEWRIGHT_WORDS_PRIVATE_H

#include "plan-reasons.h"

/* A Translate of those who gave none. */
const char *words_as_written (const char *text);
/* "14 %". */
char *words_percent (double chance, Translate translate);
/* "5 wood"; of less than a full swing with its share. */
char *words_club (const Club *club, double swing, Translate translate);

#endif
