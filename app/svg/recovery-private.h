// SPDX-License-Identifier: GPL-3.0-or-later
/* recovery - which process wrote a copy, and the names of a copy's files. */
#ifndef HOLEWRIGHT_SVG_RECOVERY_PRIVATE_H
#define HOLEWRIGHT_SVG_RECOVERY_PRIVATE_H

#include "document-private.h"

#define RECOVERY_DOCUMENT ".svg"
#define RECOVERY_BAG ".csv"
#define RECOVERY_FACTS ".ini"
/* The group and the words of the facts. */
#define RECOVERY_GROUP "copy"
#define RECOVERY_ORIGINAL "original" /* a file: URI, so that a name in any encoding fits */
#define RECOVERY_HELD "held" /* SHA-256, hexadecimal */
#define RECOVERY_TITLE "title"
#define RECOVERY_BOOT "boot"
#define RECOVERY_TIME "time"

/* A process is one only while its id, its start and the boot of the machine are the same; 0 and NULL: not known. */
typedef struct
{
  gint64 id;
  guint64 started; /* clock ticks after the boot */
} ProcessName;

ProcessName process_self (void);
/* Names this boot of the machine; NULL if the system does not say. Free with g_free. */
char *process_boot (void);
/* Is it running? `boot` may be NULL. */
bool process_is_alive (ProcessName process, const char *boot);

/* Is it a key of ours? Then `*process` receives who made it. */
bool recovery_parse_key (const char *key, ProcessName *process);
/* Path of one of a copy's files. Free with g_free. */
char *recovery_file (const char *folder, const char *key, const char *ending);

#endif
