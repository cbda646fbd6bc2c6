// SPDX-License-Identifier: GPL-3.0-or-later
/*
 * What the files of a field's landing share (field-land.c): the cells as balls come down in them, and the balls that are followed to their rest some hundreds at a time.
 *
 *      field-lies.c: how its cells lie ──► field-land.c: balls in their middles ──► field-worth.c: what landing there costs
 */
#ifndef HOLEWRIGHT_PLAN_FIELD_LAND_PRIVATE_H
#define HOLEWRIGHT_PLAN_FIELD_LAND_PRIVATE_H

#include "field-private.h"

#include "odds-rests.h"

/* Balls followed at a time, so that all that is known of them stays near at hand. */
#define BATCH 256

typedef enum
{
  CELL_OUT,    /* no ball comes there; 0, as field_passages has it */
  CELL_EDGE,   /* part of it lies otherwise */
  CELL_SHARP,  /* and it matters */
  CELL_STAYS,  /* what comes there stays */
  CELL_WANTED, /* a ball in its middle is to be followed */
  CELL_KNOWN   /* where it rests is known */
} CellState;

typedef struct
{
  Vec2 at;
  uint8_t lie;
} RestPlace;

typedef struct
{
  const Build *build;
  RunGround *ground;
  Passage *passages;      /* field_passages */
  uint8_t *states, *lies; /* CellState; Lie of the cell's middle */
  RestPlace *rests;       /* of cells that are known */
} Lander;

/* A ball that comes down somewhere in a cell. */
typedef struct
{
  size_t cell;
  Vec2 at;
  float share; /* of the cell's balls */
} Fall;

typedef struct
{
  Lander *lander;
  void (*take) (Lander *lander, const Fall *fall, const RestPlace *rest);
  size_t n;
  Fall falls[BATCH];
  FlightPoint landings[BATCH];
  Vec2 rests[BATCH];
  int lands[BATCH], areas[BATCH];
} Batch;

static inline size_t
field_n_cells (const Field *field)
{
  return (size_t)field->n_across * (size_t)field->n_along;
}

static inline Vec2
field_cell_middle (const Field *field, size_t cell)
{
  return field_point (field, (double)(cell % (size_t)field->n_across), (double)(cell / (size_t)field->n_across));
}

/* Does it count how exactly the cell is worth what it is? */
static inline bool
lander_is_dense (const Lander *lander, size_t cell)
{
  return field_is_in (lander->build, &lander->build->dense, field_cell_middle (lander->build->field, cell));
}

/* Does it matter to strokes on which of two lies a ball rests there? */
bool lander_does_matter (const Lander *lander, Vec2 at, Lie one, Lie other);
/* Each cell's lie and state: out, stays, crossed by an edge, or wanted. */
void lander_find_lies (Lander *lander);
/* One more ball of the batch, which is followed as soon as it is full, and by lander_follow what there is of it. */
void lander_let_fall (Batch *batch, size_t cell, Vec2 at, double share);
void lander_follow (Batch *batch);
/* Of cells whose state is known, those in whose middle a ball rests: what landing there costs. False when cancelled. */
bool lander_value_cells (Batch *batch, GError **error);

#endif
