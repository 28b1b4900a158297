/* Rows of terms, each content once: rations of one group hold to the same numbers but for a few
 * rows, and the terms of a large farm are then a tenth, and stay near the processor. For
 * block_parts.c and block_refill.c alone. */
#ifndef PLANNER_BLOCK_ROWS_H
#define PLANNER_BLOCK_ROWS_H

#include "base/arena.h"

typedef struct BlockRows BlockRows;

BlockRows *block_rows(Arena *arena);

/* Nothing kept is good any longer: its memory is used again. */
void block_rows_forget(BlockRows *rows);

/* The row of these terms, to the last bit; good until the rows are forgotten. */
const double *block_rows_keep(BlockRows *rows, const double *terms, int count);

#endif
