// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * facts - the attributes in the program's namespace, one row each: its word in the file, its field, the values it may have and the kinds it
 * belongs to. Reader and writer go through the same rows, so what one writes the other reads.
 */
#ifndef HOLEWRIGHT_SVG_FACTS_PRIVATE_H
#define HOLEWRIGHT_SVG_FACTS_PRIVATE_H

#include "hole.h"

typedef enum
{
  FACT_TEXT,    /* char * */
  FACT_NUMBER,  /* double, NAN if not given */
  FACT_INTEGER, /* int, 0 if not given */
  FACT_FLAG,    /* bool: yes or no */
  FACT_WORD,    /* an enum: its place in `words` */
  FACT_CHOICE,  /* char *, one of `words` */
  FACT_KIND     /* Kind, an area's word */
} FactType;

typedef struct
{
  const char *attribute;
  FactType type;
  size_t field;             /* offset in the struct */
  size_t given;             /* offset of a bool that says the file has it, or FACT_ALWAYS */
  double low, high;         /* FACT_NUMBER and FACT_INTEGER */
  const char *const *words; /* FACT_WORD and FACT_CHOICE, NULL-terminated */
  guint32 kinds;            /* bits of the kinds that have it; part facts only */
  bool is_inherited;        /* also from the nearest g above that has it; part facts only */
} Fact;

#define FACT_ALWAYS G_MAXSIZE

#define N_PART_FACTS 20
#define N_DAY_FACTS 8
#define N_SHOT_FACTS 4
#define N_INFO_FACTS 9
/* In struct Part, NamedDay (attributes without a namespace), Shot and HoleInfo. hw:kind itself, id and the title elements are not rows. */
extern const Fact part_facts[N_PART_FACTS];
extern const Fact day_facts[N_DAY_FACTS];
extern const Fact shot_facts[N_SHOT_FACTS];
extern const Fact info_facts[N_INFO_FACTS];

/* Does a part of this kind have the fact? */
bool fact_applies (const Fact *fact, Kind kind);
/* Sets the field of `base` from the text; false if it is no value the fact may have. An empty text means not given and leaves the default. */
bool fact_read (const Fact *fact, void *base, const char *text);
/* The text of the field in `base`; NULL when it is the same as in `defaults`. Free with g_free. */
char *fact_print (const Fact *fact, const void *base, const void *defaults);
/* What values the fact may have, for a message: "a number from 0 to 1". Free with g_free. */
char *fact_values (const Fact *fact);

#endif
