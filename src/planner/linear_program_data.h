/* What a linear program is made of, for the files that hold it (linear_program_data.c) and that
 * solve it (linear_program.c) alone. */
#ifndef PLANNER_LINEAR_PROGRAM_DATA_H
#define PLANNER_LINEAR_PROGRAM_DATA_H

#include "planner/linear_program.h"

typedef struct {
    const char *name;
    double cost, least, most;
    bool is_whole; /* of a column: only whole numbers */
} Line;

typedef struct {
    int row, column;
    double coefficient;
} Term;

struct LinearProgram {
    Arena *arena;
    Line *rows, *columns;
    Term *terms;
    int row_count, row_room, column_count, column_room, term_count, term_room;
};

#endif
