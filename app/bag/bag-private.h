// SPDX-License-Identifier: GPL-3.0-or-later
/* What the reader of bag files needs to make a bag, and the bag's own inside, which edits look into. */
#ifndef HOLEWRIGHT_BAG_PRIVATE_H
#define HOLEWRIGHT_BAG_PRIVATE_H

#include "bag.h"
#include "sheet-private.h"

typedef struct
{
  Club club;
  size_t line; /* of CsvText: the header is 0 */
} BagRow;

struct _Bag
{
  int references;
  GPtrArray *rows;     /* of BagRow, longest carry first */
  GPtrArray *warnings; /* of char *, ended by NULL */
  GBytes *bytes;       /* the file, from which an edit makes another */
  char *name;          /* of the file, for messages */
  Level level;
  LieTable lies;
  SheetLayout layout;
  unsigned header_line;
};

/* The columns of a bag file. */
extern const SheetInfo bag_sheet;

/* A bag without clubs and warnings; bag_seal puts what has been added since in order. */
Bag *bag_new_reading (GBytes *bytes, const char *name, Level level);
void bag_seal (Bag *bag, const SheetLayout *layout);
/* As bag_read_bytes, but a file without clubs is a bag too. */
Bag *bag_read_edited (GBytes *bytes, const char *name, Level level, GError **error);
/* Clubs by value: those of a name that the bag has in place of its own, the others behind the last line. */
Bag *bag_with_clubs (const Bag *bag, const Club *clubs, size_t n_clubs, GError **error);
const BagRow *bag_row (const Bag *bag, size_t i);

#endif
