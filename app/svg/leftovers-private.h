// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * leftovers - the hidden files of saves that were killed. A save holds a lock on its hidden file as long as that has its own name; the system drops the
 * lock with the process. So a hidden file that can be locked belongs to nobody.
 */
#ifndef HOLEWRIGHT_SVG_LEFTOVERS_PRIVATE_H
#define HOLEWRIGHT_SVG_LEFTOVERS_PRIVATE_H

#include <stdbool.h>

/* Bytes of a hidden file's name. */
#define LEFTOVER_NAME_SIZE 40

/* A name that nobody else has. */
void leftover_print_name (char name[LEFTOVER_NAME_SIZE]);
/*
 * Takes hold of an open hidden file just made: 0; EEXIST when a cleaner was quicker and has removed it, so that another is to be made; else errno. Also 0
 * where the file system knows no locks; nothing is cleaned there.
 */
int leftover_hold (int file);
/* Removes the user's hidden files that nobody holds from an open folder. What cannot be removed stays for another time. */
void leftovers_clean (int folder);

#endif
