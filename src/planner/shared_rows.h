/* Rows of terms, each content once: rations of one group hold to the same numbers but for a few
 * rows, and the terms of a large farm are then a tenth, and stay near the processor. */
#ifndef PLANNER_SHARED_ROWS_H
#define PLANNER_SHARED_ROWS_H

#include "base/arena.h"

typedef struct SharedRows SharedRows;

SharedRows *shared_rows(Arena *arena);

/* Nothing kept is good any longer: its memory is used again. */
void shared_rows_forget(SharedRows *rows);

/* The row of these terms, to the last bit; good until the rows are forgotten. */
const double *shared_rows_keep(SharedRows *rows, const double *terms, int count);

#endif
