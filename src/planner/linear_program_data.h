/* What a linear program is made of, for the files that hold it (linear_program_data.c) and that
 * solve it (linear_program.c) alone. */
#ifndef PLANNER_LINEAR_PROGRAM_DATA_H
#define PLANNER_LINEAR_PROGRAM_DATA_H

#include "planner/linear_program.h"

typedef struct {
    double least, most;
} Line;

#define LINE_PIECE 64 /* lines */

/* What only columns have. */
typedef struct {
    double cost[LINE_PIECE];
    bool is_whole[LINE_PIECE]; /* only whole numbers */
} ColumnPiece;

typedef struct {
    Line line[LINE_PIECE];
    ColumnPiece *of_columns; /* NULL: these are rows */
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

static inline double *cost_at(const Lines *columns, int number) {
    return &piece_of(columns, number)->of_columns->cost[(unsigned)number % LINE_PIECE];
}

static inline bool *whole_at(const Lines *columns, int number) {
    return &piece_of(columns, number)->of_columns->is_whole[(unsigned)number % LINE_PIECE];
}

/* What was added at once: a term, or terms of a row that lie elsewhere. */
typedef struct LpEntry {
    int row;
    int column; /* below 0: those of list -column - 1 */
    union {
        double coefficient;
        const double *elsewhere; /* those of the list */
    } of;
} Entry;

/* Columns of rows whose terms lie elsewhere, which many rows have in common. */
typedef struct {
    const int *column;
    int count;
} ColumnList;

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
    ColumnList *list; /* [list_count] */
    int list_count, list_room;
    int row_count, column_count;
};

#endif
