// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * command - the command line: one row and one function per command; results to `out`, messages to `err`.
 *
 * Exit status: 0 done, 1 the input cannot be used, 2 wrong usage. Messages read "holewright: FILE:LINE: what is wrong; what to do".
 */
#ifndef HOLEWRIGHT_COMMAND_H
#define HOLEWRIGHT_COMMAND_H

#include <stdbool.h>
#include <stdio.h>

typedef struct
{
  const char *name;      /* "carries" */
  const char *arguments; /* "FILE [options]" */
  const char *summary;   /* one line */
  int (*run) (int argc, char **argv, FILE *out, FILE *err); /* argv[0] is the command's name */
} Command;

/* All commands; ends with a row whose name is NULL. */
extern const Command command_table[];

/* Is `word` a command, --help or --version? Then the program needs no display. */
bool command_is (const char *word);
/* Runs argv[1] as a command; argv[0] is the program. Returns the exit status. */
int command_run (int argc, char **argv, FILE *out, FILE *err);

#endif
