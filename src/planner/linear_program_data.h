/* What a linear program is made of, for the files that hold it (linear_program_data.c) and that
 * solve it (linear_program.c) alone. */
#ifndef PLANNER_LINEAR_PROGRAM_DATA_H
#define PLANNER_LINEAR_PROGRAM_DATA_H

#include "planner/linear_program.h"

#define NAME_NUMBERS 3

typedef struct {
    const char *name;
    double cost, least, most;
    int number[NAME_NUMBERS]; /* that its name ends with; 0: no more */
    bool is_whole;            /* of a column: only whole numbers */
} Line;

#define LINE_PIECE 64 /* lines */

typedef struct {
    Line **piece;
    int count, piece_room; /* of the pieces there is room for */
} Lines;

static inline Line *line_at(const Lines *lines, int number) {
    const unsigned at = (unsigned)number;
    return &lines->piece[at / LINE_PIECE][at % LINE_PIECE];
}

/* What was added at once: a term, or terms of a row that lie elsewhere. */
typedef struct LpEntry {
    int row;
    int column; /* below 0: there are -column of them */
    union {
        double coefficient;
        const struct LpTermsElsewhere *elsewhere;
    } of;
} Entry;

typedef struct LpTermsElsewhere {
    const int *column;
    const double *coefficient;
} TermsElsewhere;

/* Lines and entries by the piece: an array that grows would leave as much memory behind again.
 */
#define FIRST_PIECE 256 /* entries; each piece has twice the room of the one before, up to */
#define MOST_PIECE 16384

typedef struct LpPiece {
    struct LpPiece *next;
    int count, room;
    Entry *entry;
} Piece;

struct LinearProgram {
    Arena *arena;
    Lines rows, columns;
    Piece *first, *last;
    int row_count, column_count;
};

#endif
