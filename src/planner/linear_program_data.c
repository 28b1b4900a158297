/* The program as data: columns, rows and terms, and the text other solvers read. */
#include "planner/linear_program_data.h"
#include "base/quantity.h"
#include <assert.h>
#include <math.h>
#include <string.h>

LinearProgram *lp_new(Arena *arena) {
    LinearProgram *lp = ARENA_NEW(arena, LinearProgram);
    lp->arena = arena;
    return lp;
}

static void add_line(Arena *arena, Lines *lines, Line line) {
    const int pieces = lines->count / LINE_PIECE;
    if (lines->count % LINE_PIECE == 0) {
        if (pieces == lines->piece_room) {
            lines->piece_room = pieces > 0 ? 2 * pieces : 4;
            LinePiece **larger = ARENA_ARRAY(arena, LinePiece *, lines->piece_room);
            for (int p = 0; p < pieces; p++)
                larger[p] = lines->piece[p];
            lines->piece = larger;
        }
        lines->piece[pieces] = ARENA_NEW(arena, LinePiece);
    }
    *line_at(lines, lines->count++) = line;
}

static void add_column(Arena *arena, Lines *columns, Line line, double cost, bool is_whole) {
    const int number = columns->count;
    add_line(arena, columns, line);
    if (number % LINE_PIECE == 0)
        piece_of(columns, number)->of_columns = ARENA_NEW(arena, ColumnPiece);
    *cost_at(columns, number) = cost;
    *whole_at(columns, number) = is_whole;
}

static Lines copied_rows(Arena *arena, const Lines *rows) {
    Lines copy = {0};
    for (int i = 0; i < rows->count; i++)
        add_line(arena, &copy, *line_at(rows, i));
    return copy;
}

static Lines copied_columns(Arena *arena, const Lines *columns) {
    Lines copy = {0};
    for (int j = 0; j < columns->count; j++)
        add_column(arena, &copy, *line_at(columns, j), *cost_at(columns, j),
                   *whole_at(columns, j));
    return copy;
}

static void add_piece(LinearProgram *lp) {
    Piece *piece = ARENA_NEW(lp->arena, Piece);
    const int twice = lp->last ? 2 * lp->last->room : FIRST_PIECE;
    piece->room = twice < MOST_PIECE ? twice : MOST_PIECE;
    piece->entry = ARENA_ARRAY(lp->arena, Entry, piece->room);
    if (lp->last)
        lp->last->next = piece;
    else
        lp->first = piece;
    lp->last = piece;
}

static Entry *next_entry(LinearProgram *lp) {
    if (!lp->last || lp->last->count == lp->last->room)
        add_piece(lp);
    return &lp->last->entry[lp->last->count++];
}

LinearProgram *lp_copy(const LinearProgram *lp, Arena *arena) {
    LinearProgram *copy = ARENA_NEW(arena, LinearProgram);
    *copy = *lp;
    copy->arena = arena;
    copy->rows = copied_rows(arena, &lp->rows);
    copy->columns = copied_columns(arena, &lp->columns);
    copy->list = ARENA_COPY(arena, ColumnList, lp->list, lp->list_count);
    copy->list_room = lp->list_count;
    copy->first = copy->last = NULL;
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);)
        *next_entry(copy) = *walk.entry;
    return copy;
}

int lp_add_column(LinearProgram *lp, double cost, double least, double most) {
    assert(isfinite(cost) && !isnan(least) && !isnan(most) && least <= most);
    add_column(lp->arena, &lp->columns, (Line){least, most}, cost, false);
    return lp->column_count++;
}

int lp_add_row(LinearProgram *lp, double least, double most) {
    assert(!isnan(least) && !isnan(most) && least <= most);
    add_line(lp->arena, &lp->rows, (Line){least, most});
    return lp->row_count++;
}

void lp_add_term(LinearProgram *lp, int row, int column, double coefficient) {
    assert(isfinite(coefficient) && row >= 0 && row < lp->row_count && column >= 0 &&
           column < lp->column_count);
    if (coefficient != 0.0)
        *next_entry(lp) = (Entry){row, column, {coefficient}};
}

/* The number of the list, most likely that of the row before. */
static int list_of(LinearProgram *lp, int count, const int *column) {
    assert(lp->list || lp->list_count == 0);
    const ColumnList *last = lp->list_count > 0 ? &lp->list[lp->list_count - 1] : NULL;
    if (last && last->column == column && last->count == count)
        return lp->list_count - 1;
    if (lp->list_count == lp->list_room) {
        lp->list_room = lp->list_room > 0 ? 2 * lp->list_room : 8;
        ColumnList *larger = ARENA_ARRAY(lp->arena, ColumnList, lp->list_room);
        for (int i = 0; i < lp->list_count; i++)
            larger[i] = lp->list[i];
        lp->list = larger;
    }
    lp->list[lp->list_count] = (ColumnList){column, count};
    return lp->list_count++;
}

void lp_add_row_terms(LinearProgram *lp, int row, int count, const int *column,
                      const double *coefficient) {
    assert(row >= 0 && row < lp->row_count);
    for (int k = 0; k < count; k++)
        assert(isfinite(coefficient[k]) && column[k] >= 0 && column[k] < lp->column_count);
    if (count == 0)
        return;
    *next_entry(lp) = (Entry){row, -1 - list_of(lp, count, column), {.elsewhere = coefficient}};
}

void lp_set_cost(LinearProgram *lp, int column, double cost) {
    assert(isfinite(cost));
    *cost_at(&lp->columns, column) = cost;
}

void lp_set_column_bounds(LinearProgram *lp, int column, double least, double most) {
    assert(least <= most);
    line_at(&lp->columns, column)->least = least;
    line_at(&lp->columns, column)->most = most;
}

void lp_set_row_bounds(LinearProgram *lp, int row, double least, double most) {
    assert(least <= most);
    line_at(&lp->rows, row)->least = least;
    line_at(&lp->rows, row)->most = most;
}

void lp_set_whole(LinearProgram *lp, int column, bool is_whole) {
    *whole_at(&lp->columns, column) = is_whole;
}

int lp_row_count(const LinearProgram *lp) { return lp->row_count; }
int lp_column_count(const LinearProgram *lp) { return lp->column_count; }
double lp_cost(const LinearProgram *lp, int column) { return *cost_at(&lp->columns, column); }
double lp_column_least(const LinearProgram *lp, int column) {
    return line_at(&lp->columns, column)->least;
}
double lp_column_most(const LinearProgram *lp, int column) {
    return line_at(&lp->columns, column)->most;
}
bool lp_is_whole(const LinearProgram *lp, int column) {
    return *whole_at(&lp->columns, column);
}
double lp_row_least(const LinearProgram *lp, int row) { return line_at(&lp->rows, row)->least; }
double lp_row_most(const LinearProgram *lp, int row) { return line_at(&lp->rows, row)->most; }

static void drop_leavings(const LinearProgram *lp, Arena *arena, LpTerms *by) {
    double *largest = ARENA_ARRAY(arena, double, lp->row_count);
    for (int k = 0; k < by->start[lp->column_count]; k++) {
        if (fabs(by->coefficient[k]) > largest[by->row[k]])
            largest[by->row[k]] = fabs(by->coefficient[k]);
    }
    int kept = 0;
    for (int j = 0; j < lp->column_count; j++) {
        const int first = by->start[j];
        by->start[j] = kept;
        for (int k = first; k < by->start[j + 1]; k++) {
            if (fabs(by->coefficient[k]) <= LP_LEAVINGS * largest[by->row[k]])
                continue;
            by->row[kept] = by->row[k];
            by->coefficient[kept++] = by->coefficient[k];
        }
    }
    by->start[lp->column_count] = kept;
}

LpWalk lp_walk(const LinearProgram *lp) { return (LpWalk){.piece = lp->first}; }

bool lp_walk_on(LpWalk *walk) {
    if (walk->piece && walk->next == walk->piece->count) {
        walk->piece = walk->piece->next;
        walk->next = 0;
    }
    if (!walk->piece)
        return false;
    walk->entry = &walk->piece->entry[walk->next++];
    return true;
}

LpStretch lp_stretch(const LinearProgram *lp, const Entry *entry) {
    if (entry->column >= 0)
        return (LpStretch){entry->row, 1, &entry->column, &entry->of.coefficient};
    const ColumnList *list = &lp->list[-1 - entry->column];
    return (LpStretch){entry->row, list->count, list->column, entry->of.elsewhere};
}

static bool is_taken(const bool *is_wanted, int row) { return !is_wanted || is_wanted[row]; }

/* Counts the terms of each column into start, from 1; returns how many there are. */
static int count_by_column(const LinearProgram *lp, const bool *is_wanted, int *start) {
    int count = 0;
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);) {
        const LpStretch of = lp_stretch(lp, walk.entry);
        for (int k = 0; is_taken(is_wanted, of.row) && k < of.count; k++) {
            const bool is_term = of.coefficient[k] != 0.0;
            start[of.column[k] + 1] += is_term;
            count += is_term;
        }
    }
    return count;
}

/* Terms in the order of their columns, and of each column as they were added. */
static void sort_by_column(const LinearProgram *lp, const bool *is_wanted, LpTerms *by,
                           int *next) {
    for (int j = 0; j < lp->column_count; j++) {
        by->start[j + 1] += by->start[j];
        next[j] = by->start[j];
    }
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);) {
        const LpStretch of = lp_stretch(lp, walk.entry);
        for (int k = 0; is_taken(is_wanted, of.row) && k < of.count; k++) {
            if (of.coefficient[k] == 0.0)
                continue;
            const int place = next[of.column[k]]++;
            by->row[place] = of.row;
            by->coefficient[place] = of.coefficient[k];
        }
    }
}

/* Terms of one row and column become one, in their own memory. */
static void add_up(const LinearProgram *lp, LpTerms *by, int *place_of_row) {
    int count = 0;
    for (int j = 0; j < lp->column_count; j++) {
        const int first = by->start[j];
        by->start[j] = count;
        for (int k = first; k < by->start[j + 1]; k++) {
            const int place = place_of_row[by->row[k]] - 1; /* in this column */
            if (place >= by->start[j]) {
                by->coefficient[place] += by->coefficient[k];
                continue;
            }
            place_of_row[by->row[k]] = count + 1;
            by->row[count] = by->row[k];
            by->coefficient[count++] = by->coefficient[k];
        }
    }
    by->start[lp->column_count] = count;
}

LpTerms lp_terms_of_rows(const LinearProgram *lp, Arena *arena, const bool *is_wanted) {
    LpTerms by = {.start = ARENA_ARRAY(arena, int, lp->column_count + 1)};
    const int count = count_by_column(lp, is_wanted, by.start);
    by.row = ARENA_ARRAY(arena, int, count);
    by.coefficient = ARENA_ARRAY(arena, double, count);
    Arena *scratch = arena_open();
    sort_by_column(lp, is_wanted, &by, ARENA_ARRAY(scratch, int, lp->column_count));
    add_up(lp, &by, ARENA_ARRAY(scratch, int, lp->row_count));
    drop_leavings(lp, scratch, &by);
    arena_close(scratch);
    return by;
}

LpTerms lp_terms(const LinearProgram *lp, Arena *arena) {
    return lp_terms_of_rows(lp, arena, NULL);
}

double lp_cost_of(const LinearProgram *lp, const double *value) {
    double cost = 0.0;
    for (int j = 0; j < lp->column_count; j++)
        cost += *cost_at(&lp->columns, j) * value[j];
    return cost;
}

void lp_add_activities(const LinearProgram *lp, const double *value, double *activity) {
    for (LpWalk walk = lp_walk(lp); lp_walk_on(&walk);) {
        const LpStretch of = lp_stretch(lp, walk.entry);
        for (int k = 0; k < of.count; k++)
            activity[of.row] += of.coefficient[k] * value[of.column[k]];
    }
}

/* ---- MPS ---- */

static void mps_bound(Text *out, const char *kind, int column, double value) {
    text_print(out, " %s B x%d %.17g\n", kind, column + 1, value);
}

/* Columns between the two markers take only whole numbers. */
static void mps_marker(Text *out, bool begins) {
    text_print(out, " MARK 'MARKER' '%s'\n", begins ? "INTORG" : "INTEND");
}

static void mps_columns(const LinearProgram *lp, Text *out) {
    const LpTerms by = lp_terms(lp, lp->arena);
    bool is_whole = false;
    text_add(out, "COLUMNS\n");
    for (int j = 0; j < lp->column_count; j++) {
        if (*whole_at(&lp->columns, j) != is_whole) {
            is_whole = !is_whole;
            mps_marker(out, is_whole);
        }
        text_print(out, " x%d COST %.17g\n", j + 1, *cost_at(&lp->columns, j));
        for (int k = by.start[j]; k < by.start[j + 1]; k++)
            text_print(out, " x%d r%d %.17g\n", j + 1, by.row[k] + 1, by.coefficient[k]);
    }
    if (is_whole)
        mps_marker(out, false);
}

static void mps_rows(const LinearProgram *lp, Text *out) {
    text_add(out, "ROWS\n N COST\n");
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = line_at(&lp->rows, i);
        const char *kind = "N";
        if (row->least == row->most)
            kind = "E";
        else if (isfinite(row->most))
            kind = "L";
        else if (isfinite(row->least))
            kind = "G";
        text_print(out, " %s r%d\n", kind, i + 1);
    }
}

void lp_mps_text(const LinearProgram *lp, Text *out) {
    text_add(out, "NAME WINTER FREE\n"); /* some readers take it for fixed columns otherwise */
    mps_rows(lp, out);
    mps_columns(lp, out);
    text_add(out, "RHS\n");
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = line_at(&lp->rows, i);
        const double side = isfinite(row->most) ? row->most : row->least;
        if (isfinite(side) && side != 0.0)
            text_print(out, " RHS r%d %.17g\n", i + 1, side);
    }
    text_add(out, "RANGES\n");
    for (int i = 0; i < lp->row_count; i++) {
        const Line *row = line_at(&lp->rows, i);
        if (isfinite(row->most) && isfinite(row->least) && row->most > row->least)
            text_print(out, " RANGE r%d %.17g\n", i + 1, row->most - row->least);
    }
    text_add(out, "BOUNDS\n");
    for (int j = 0; j < lp->column_count; j++) {
        const Line *column = line_at(&lp->columns, j);
        if (!isfinite(column->least))
            text_print(out, " %s B x%d\n", isfinite(column->most) ? "MI" : "FR", j + 1);
        else if (column->least != 0.0)
            mps_bound(out, "LO", j, column->least);
        else if (*whole_at(&lp->columns, j) && !isfinite(column->most))
            text_print(out, " PL B x%d\n", j + 1); /* some readers take it for 0 or 1 */
        if (isfinite(column->most))
            mps_bound(out, "UP", j, column->most);
    }
    text_add(out, "ENDATA\n");
}
