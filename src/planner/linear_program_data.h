/* What a linear program is made of, for the files that hold it (linear_program_data.c) and that
 * solve it (linear_program.c) alone. */
#ifndef PLANNER_LINEAR_PROGRAM_DATA_H
#define PLANNER_LINEAR_PROGRAM_DATA_H

#include "planner/linear_program.h"

typedef struct {
    double cost, least, most;
} Line;

#define LINE_PIECE 64 /* lines */

typedef struct {
    Line line[LINE_PIECE];
    bool is_whole[LINE_PIECE]; /* of a column: only whole numbers */
} LinePiece;

typedef struct {
    LinePiece **piece;
    int count, piece_room; /* of the pieces there is room for */
} Lines;

static inline LinePiece *piece_of(const Lines *lines, int number) {
    return lines->piece[(unsigned)number / LINE_PIECE];
}

static inline Line *line_at(const Lines *lines, int number) {
    return &piece_of(lines, number)->line[(unsigned)number % LINE_PIECE];
}

static inline bool *whole_at(const Lines *lines, int number) {
    return &piece_of(lines, number)->is_whole[(unsigned)number % LINE_PIECE];
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
