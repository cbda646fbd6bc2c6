// SPDX-License-Identifier: GPL-3.0-or-later
/* bag-columns - the columns of the bag's table: one row of a table here is a column there. */
#ifndef HW_BAG_COLUMNS_H
#define HW_BAG_COLUMNS_H

#include "bag.h"

/* Columns that are shown together where not all have room. */
typedef enum
{
  HW_BAG_ALWAYS = 1 << 0,
  HW_BAG_SPREAD = 1 << 1,
  HW_BAG_FLIGHT = 1 << 2,
  HW_BAG_STRIKE = 1 << 3,
  HW_BAG_ALL = HW_BAG_ALWAYS | HW_BAG_SPREAD | HW_BAG_FLIGHT | HW_BAG_STRIKE
} HwBagGroup;

typedef struct
{
  BagColumn column;
  HwBagGroup group;
  const char *head, *tip; /* over the column, and what it means */
  const char *word;       /* in "Undo carry of 7 iron" and in what is wrong */
  const char *name;       /* of a cell, for a screen reader, with the club's name */
  int width_chars;
} HwBagColumn;

enum
{
  HW_N_BAG_COLUMNS = 12
};

/* HW_N_BAG_COLUMNS rows, the club's name first; the surfaces are ticked, the others typed. */
extern const HwBagColumn hw_bag_columns[];

/* What stands in a cell, as short as it can be read: a number of many digits is rounded. Free with g_free. */
char *hw_bag_cell_text (const Bag *bag, size_t i, const HwBagColumn *column, LengthUnit unit);
/* What stands dimly in an empty cell: the spread that the level gives, or the 0 that nothing means; NULL for what is not known. Free with g_free. */
char *hw_bag_cell_hint (const Bag *bag, size_t i, const HwBagColumn *column, LengthUnit unit);
/* An edit's refusal as a sentence beside its cell. Free with g_free. */
char *hw_bag_refusal (const HwBagColumn *column, const char *message);
/* How well a club's figures are known, briefly without the figures; NULL for a club that was not fitted. Free with g_free. */
char *hw_bag_errors_words (const Club *club, LengthUnit unit, bool is_brief);
/* "187–197", and where the level says so "187–197 · level". Free with g_free. */
char *hw_bag_range_words (const Club *club, LengthUnit unit);
/* "18 yd: wide gap"; NULL for a gap that needs no word. Free with g_free. */
char *hw_bag_gap_words (const Bag *bag, size_t i, LengthUnit unit);
/* "152.3 ± 1.2", never broken over two lines: `scale` turns SI into what is read; "–" for what cannot be told. Free with g_free. */
char *hw_bag_figure_words (double value, double se, double scale, int decimals);
/* "scratch men". Borrowed. */
const char *hw_bag_level_words (Level level);

#endif
