/* A variable is a column, or a row's activity. Those not basic stand at a bound: the columns
 * outside `basic`, and the rows in `tight`. With M the terms of the tight rows in the basic
 * columns,
 *
 *     M x_basic = tight bounds - terms of the columns at their bounds
 *     M' price  = cost of the basic columns
 *
 * and every other number follows from these two. */
#include "planner/small_work.h"
#include <string.h>

#define SINGULAR 1e-11

/* ---- the square matrix ---- */

bool small_factorise(SmallWork *work) {
    const int count = work->count;
    double *factor = work->factor;
    for (int t = 0; t < count; t++) {
        for (int s = 0; s < count; s++)
            factor[t * count + s] = term_at(work->program, work->tight[t], work->basic[s]);
        work->swap[t] = t;
    }
    for (int k = 0; k < count; k++) {
        int best = k;
        for (int t = k + 1; t < count; t++) {
            if (fabs(factor[t * count + k]) > fabs(factor[best * count + k]))
                best = t;
        }
        if (fabs(factor[best * count + k]) < SINGULAR)
            return false;
        if (best != k) {
            for (int s = 0; s < count; s++) {
                const double kept = factor[k * count + s];
                factor[k * count + s] = factor[best * count + s];
                factor[best * count + s] = kept;
            }
            const int kept = work->swap[k];
            work->swap[k] = work->swap[best];
            work->swap[best] = kept;
        }
        for (int t = k + 1; t < count; t++) {
            const double times = factor[t * count + k] / factor[k * count + k];
            factor[t * count + k] = times;
            if (times != 0.0)
                take_off(&factor[t * count + k + 1], times, &factor[k * count + k + 1],
                         count - k - 1);
        }
    }
    return true;
}

/* M solved = side: by tight row in, by basic column out. */
void small_solve_columns(const SmallWork *work, const double *side, double *solved) {
    const int count = work->count;
    for (int t = 0; t < count; t++) {
        double sum = side[work->swap[t]];
        for (int s = 0; s < t; s++)
            sum -= work->factor[t * count + s] * solved[s];
        solved[t] = sum;
    }
    for (int t = count - 1; t >= 0; t--) {
        double sum = solved[t];
        for (int s = t + 1; s < count; s++)
            sum -= work->factor[t * count + s] * solved[s];
        solved[t] = sum / work->factor[t * count + t];
    }
}

/* M' solved = side: by basic column in, by tight row out. `side` is used up. */
void small_solve_rows(const SmallWork *work, double *side, double *solved) {
    const int count = work->count;
    for (int s = 0; s < count; s++) {
        double sum = side[s];
        for (int t = 0; t < s; t++)
            sum -= work->factor[t * count + s] * side[t];
        side[s] = sum / work->factor[s * count + s];
    }
    for (int s = count - 1; s >= 0; s--) {
        double sum = side[s];
        for (int t = s + 1; t < count; t++)
            sum -= work->factor[t * count + s] * side[t];
        side[s] = sum;
    }
    for (int t = 0; t < count; t++)
        solved[work->swap[t]] = side[t];
}

/* ---- the basis ---- */

static inline double bound_at(double least, double most, unsigned char side) {
    return side == AT_MOST ? most : least;
}

/* The bound a tight row stands at, of those it has. */
static unsigned char side_there_is(unsigned char side, double least, double most) {
    const bool is_at_most = side == AT_MOST ? isfinite(most) : !isfinite(least);
    return (unsigned char)(is_at_most ? AT_MOST : AT_LEAST);
}

static int read_columns(SmallWork *work, const unsigned char *place) {
    const SmallProgram *program = work->program;
    int basic = 0;
    for (int j = 0; j < program->columns; j++) {
        work->column_side[j] = AT_LEAST;
        work->place_of_column[j] = -1;
        if (place[j] == AT_LEAST)
            continue;
        if (place[j] == AT_MOST) {
            work->column_side[j] = isfinite(program->most[j]) ? AT_MOST : AT_LEAST;
            continue;
        }
        work->place_of_column[j] = basic;
        work->basic[basic++] = j;
    }
    return basic;
}

static int read_rows(SmallWork *work, const unsigned char *place) {
    const SmallProgram *program = work->program;
    int tight = 0;
    for (int i = 0; i < program->rows; i++) {
        work->place_of_row[i] = -1;
        if (place[i] == BASIC)
            continue;
        const double least = program->row_least[i];
        const double most = program->row_most[i];
        if (!isfinite(least) && !isfinite(most))
            continue;
        work->row_side[i] = side_there_is(place[i], least, most);
        work->place_of_row[i] = tight;
        work->tight[tight++] = i;
    }
    return tight;
}

void small_read_basis(SmallWork *work, const SmallBasis *basis) {
    const int basic = read_columns(work, basis->column);
    const int tight = read_rows(work, basis->row);
    work->count = basic == tight ? basic : -1;
}

/* ---- what is kept of it ---- */

SmallKept *small_kept(Arena *arena) {
    SmallKept *kept = ARENA_NEW(arena, SmallKept);
    kept->arena = arena;
    return kept;
}

#define MORE_ROOM 4 /* rows: a basis grows by one at a time */

static void make_room(SmallKept *kept, int count) {
    kept->room = count + MORE_ROOM;
    kept->basic = ARENA_ARRAY(kept->arena, int, kept->room);
    kept->tight = ARENA_ARRAY(kept->arena, int, kept->room);
    kept->swap = ARENA_ARRAY(kept->arena, int, kept->room);
    kept->side = ARENA_ARRAY(kept->arena, unsigned char, kept->room);
    kept->factor = ARENA_ARRAY(kept->arena, double, kept->room * kept->room);
}

void small_keep(const SmallWork *work, SmallKept *kept) {
    const size_t count = (size_t)work->count;
    if (work->count >= kept->room) /* even of none */
        make_room(kept, work->count);
    kept->is_good = true;
    kept->count = work->count;
    memcpy(kept->basic, work->basic, count * sizeof *kept->basic);
    memcpy(kept->tight, work->tight, count * sizeof *kept->tight);
    memcpy(kept->swap, work->swap, count * sizeof *kept->swap);
    memcpy(kept->factor, work->factor, count * count * sizeof *kept->factor);
    for (int t = 0; t < work->count; t++)
        kept->side[t] = work->row_side[work->tight[t]];
    kept->has_most = memchr(work->column_side, AT_MOST, (size_t)work->program->columns) != NULL;
}

void small_read_kept(SmallWork *work, const SmallBasis *basis) {
    const SmallProgram *program = work->program;
    const SmallKept *kept = basis->kept;
    const size_t count = (size_t)kept->count;
    if (kept->has_most) {
        read_columns(work, basis->column);
    } else {
        memset(work->column_side, AT_LEAST, (size_t)program->columns);
        for (int j = 0; j < program->columns; j++)
            work->place_of_column[j] = -1;
        for (int s = 0; s < kept->count; s++)
            work->place_of_column[kept->basic[s]] = s;
        memcpy(work->basic, kept->basic, count * sizeof *kept->basic);
    }
    for (int i = 0; i < program->rows; i++)
        work->place_of_row[i] = -1;
    for (int t = 0; t < kept->count; t++) {
        work->place_of_row[kept->tight[t]] = t;
        work->row_side[kept->tight[t]] = kept->side[t];
    }
    work->count = kept->count;
    memcpy(work->tight, kept->tight, count * sizeof *kept->tight);
    memcpy(work->swap, kept->swap, count * sizeof *kept->swap);
    memcpy(work->factor, kept->factor, count * count * sizeof *kept->factor);
}

/* ---- steps ---- */

void small_write_basis(const SmallWork *work, SmallBasis *basis) {
    for (int j = 0; j < work->program->columns; j++)
        basis->column[j] = work->place_of_column[j] >= 0 ? BASIC : work->column_side[j];
    for (int i = 0; i < work->program->rows; i++)
        basis->row[i] = work->place_of_row[i] >= 0 ? work->row_side[i] : BASIC;
}

void small_take_slack_basis(SmallWork *work) {
    work->count = 0;
    for (int j = 0; j < work->program->columns; j++) {
        work->place_of_column[j] = -1;
        work->column_side[j] = AT_LEAST;
    }
    for (int i = 0; i < work->program->rows; i++)
        work->place_of_row[i] = -1;
}

static double tight_bound(const SmallWork *work, int row) {
    return bound_at(work->program->row_least[row], work->program->row_most[row],
                    work->row_side[row]);
}

static void add_to_one(const SmallWork *work, int count, int row, double *by_row) {
    const double *terms = row_terms(work, row);
    double sum = by_row[row];
    for (int s = 0; s < count; s++)
        sum += terms[work->dense_basic[s]] * work->dense_value[s];
    by_row[row] = sum;
}

/* Side by side they do not wait for one another: half of a solve is here. */
#define ROWS_AT_ONCE 4

static void add_to_four(const SmallWork *work, int count, const int *row, double *by_row) {
    const double *a = row_terms(work, row[0]);
    const double *b = row_terms(work, row[1]);
    const double *c = row_terms(work, row[2]);
    const double *d = row_terms(work, row[3]);
    double sum_a = by_row[row[0]];
    double sum_b = by_row[row[1]];
    double sum_c = by_row[row[2]];
    double sum_d = by_row[row[3]];
    for (int s = 0; s < count; s++) {
        const int column = work->dense_basic[s];
        const double value = work->dense_value[s];
        sum_a += a[column] * value;
        sum_b += b[column] * value;
        sum_c += c[column] * value;
        sum_d += d[column] * value;
    }
    by_row[row[0]] = sum_a;
    by_row[row[1]] = sum_b;
    by_row[row[2]] = sum_c;
    by_row[row[3]] = sum_d;
}

void small_add_basic(SmallWork *work, double *by_row) {
    const SmallProgram *program = work->program;
    const int dense = dense_columns(program);
    int count = 0;
    for (int s = 0; s < work->count; s++) {
        const int column = work->basic[s];
        if (column < dense) {
            work->dense_basic[count] = column;
            work->dense_value[count++] = work->solved[s];
            continue;
        }
        const int row = program->single_row[column - dense];
        if (work->place_of_row[row] < 0)
            by_row[row] += program->single_term[column - dense] * work->solved[s];
    }
    int rows[ROWS_AT_ONCE];
    int waiting = 0;
    for (int i = 0; i < program->rows; i++) {
        if (work->place_of_row[i] >= 0)
            continue;
        rows[waiting++] = i;
        if (waiting == ROWS_AT_ONCE) {
            add_to_four(work, count, rows, by_row);
            waiting = 0;
        }
    }
    for (int w = 0; w < waiting; w++)
        add_to_one(work, count, rows[w], by_row);
}

/* Values of all columns and rows. */
void small_find_values(SmallWork *work) {
    const SmallProgram *program = work->program;
    const int dense = dense_columns(program);
    for (int j = 0; j < program->columns; j++)
        work->value[j] =
            work->place_of_column[j] >= 0
                ? 0.0
                : bound_at(program->least[j], program->most[j], work->column_side[j]);
    for (int i = 0; i < program->rows; i++)
        work->activity[i] = 0.0;
    for (int j = 0; j < program->columns; j++) {
        if (work->value[j] == 0.0)
            continue;
        if (j >= dense) {
            work->activity[program->single_row[j - dense]] +=
                program->single_term[j - dense] * work->value[j];
            continue;
        }
        for (int i = 0; i < program->rows; i++)
            work->activity[i] += program->term[i][j] * work->value[j];
    }
    for (int t = 0; t < work->count; t++)
        work->side[t] = tight_bound(work, work->tight[t]) - work->activity[work->tight[t]];
    small_solve_columns(work, work->side, work->solved);
    for (int s = 0; s < work->count; s++)
        work->value[work->basic[s]] = work->solved[s];
    for (int t = 0; t < work->count; t++)
        work->activity[work->tight[t]] = tight_bound(work, work->tight[t]);
    small_add_basic(work, work->activity);
}

/* Prices of the tight rows and reduced costs of the columns. */
void small_find_prices(SmallWork *work, const double *cost) {
    const SmallProgram *program = work->program;
    work->largest_price = 0.0;
    for (int s = 0; s < work->count; s++) {
        work->side[s] = cost[work->basic[s]];
        if (fabs(work->side[s]) > work->largest_price)
            work->largest_price = fabs(work->side[s]);
    }
    small_solve_rows(work, work->side, work->solved);
    for (int i = 0; i < program->rows; i++)
        work->price[i] = 0.0;
    memcpy(work->reduced, cost, (size_t)program->columns * sizeof *cost);
    const int dense = dense_columns(program);
    for (int t = 0; t < work->count; t++) {
        const double price = work->solved[t];
        work->price[work->tight[t]] = price;
        if (price != 0.0)
            take_off(work->reduced, price, row_terms(work, work->tight[t]), dense);
    }
    for (int k = 0; k < program->singles; k++)
        work->reduced[dense + k] -=
            work->price[program->single_row[k]] * program->single_term[k];
    for (int s = 0; s < work->count; s++)
        work->reduced[work->basic[s]] = 0.0;
}

static void leave_column(SmallWork *work, int column) {
    const int place = work->place_of_column[column];
    const int last = work->basic[work->count - 1];
    work->basic[place] = last;
    work->place_of_column[last] = place;
    work->place_of_column[column] = -1;
}

static void leave_row(SmallWork *work, int row) {
    const int place = work->place_of_row[row];
    const int last = work->tight[work->count - 1];
    work->tight[place] = last;
    work->place_of_row[last] = place;
    work->place_of_row[row] = -1;
}

/* `out`, basic, comes to stand at `side`; `in` becomes basic. */
void small_exchange(SmallWork *work, int out, unsigned char side, int in) {
    const int columns = work->program->columns;
    const bool out_is_row = is_row(work, out);
    const bool in_is_row = is_row(work, in);
    if (out_is_row)
        work->row_side[out - columns] = side;
    else
        work->column_side[out] = side;
    if (!out_is_row && !in_is_row) {
        const int place = work->place_of_column[out];
        work->basic[place] = in;
        work->place_of_column[in] = place;
        work->place_of_column[out] = -1;
    } else if (out_is_row && in_is_row) {
        const int place = work->place_of_row[in - columns];
        work->tight[place] = out - columns;
        work->place_of_row[out - columns] = place;
        work->place_of_row[in - columns] = -1;
    } else if (out_is_row) {
        work->basic[work->count] = in;
        work->place_of_column[in] = work->count;
        work->tight[work->count] = out - columns;
        work->place_of_row[out - columns] = work->count;
        work->count++;
    } else {
        leave_column(work, out);
        leave_row(work, in - columns);
        work->count--;
    }
}
