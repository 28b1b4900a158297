/* The inside of small_program.c, shared by the file that keeps the basis (small_basis.c) and
 * those that step from basis to basis (small_dual.c, small_program.c); for these alone. */
#ifndef PLANNER_SMALL_WORK_H
#define PLANNER_SMALL_WORK_H

#include "planner/small_program.h"
#include <math.h>

#define FEASIBLE 1e-9    /* of 1 + the bound */
#define OPTIMAL 1e-10    /* of the terms a reduced cost is made of */
#define LEAST_PIVOT 1e-9 /* of terms near one */
#define BLAND_AFTER 200
#define MOST_STEPS 2000

/* A variable that may move or stop a move: what a unit of it costs, or how far off its bound
 * is, and how fast the move goes with it. */
typedef struct {
    int variable;
    double price_or_room, rate;
} Way;

struct SmallWork {
    const SmallProgram *program;
    const double *cost;
    double *shifted;                     /* [columns] costs of the dual steps */
    int *basic, *tight, count;           /* columns and rows of the square matrix */
    int *place_of_column, *place_of_row; /* in `basic`, `tight`; -1 not in it */
    unsigned char *column_side,
        *row_side;  /* the bound a variable that is not basic stands at */
    double *factor; /* [count * count] L and U of the rows in the order of `swap` */
    int *swap;
    double *value;    /* [columns] */
    double *activity; /* [rows] */
    double *price;    /* [rows] */
    double *reduced;  /* [columns] */
    double *column_rate, *row_rate;
    double *side, *solved; /* [count] */
    int *dense_basic;      /* [count] the basic columns that are not single */
    double *dense_value;   /* [count] what stands at them */
    Way *ways;             /* [columns + rows] */
    double *allowed;
    double largest_price; /* of a basic column */
    bool is_as_before;    /* values were not worked out */
    long steps;
};

/* Of the dense columns. */
static inline const double *row_terms(const SmallWork *work, int row) {
    return work->program->term[row];
}

static inline double term_at(const SmallProgram *program, int row, int column) {
    const int dense = dense_columns(program);
    if (column < dense)
        return program->term[row][column];
    return program->single_row[column - dense] == row ? program->single_term[column - dense]
                                                      : 0.0;
}

/* `times` of the terms off each. */
static inline void take_off(double *restrict from, double times, const double *restrict terms,
                            int count) {
    for (int j = 0; j < count; j++)
        from[j] -= times * terms[j];
}

/* A variable is a number: columns first, then rows. */
static inline bool is_row(const SmallWork *work, int variable) {
    return variable >= work->program->columns;
}

static inline bool is_basic(const SmallWork *work, int variable) {
    return is_row(work, variable) ? work->place_of_row[variable - work->program->columns] < 0
                                  : work->place_of_column[variable] >= 0;
}

typedef struct {
    double value, least, most;
} Stand;

static inline Stand stand_of_column(const SmallWork *work, int column) {
    return (Stand){work->value[column], work->program->least[column],
                   work->program->most[column]};
}

static inline Stand stand_of_row(const SmallWork *work, int row) {
    return (Stand){work->activity[row], work->program->row_least[row],
                   work->program->row_most[row]};
}

static inline Stand stand_of(const SmallWork *work, int variable) {
    return is_row(work, variable) ? stand_of_row(work, variable - work->program->columns)
                                  : stand_of_column(work, variable);
}

static inline double reduced_of(const SmallWork *work, int variable) {
    return is_row(work, variable) ? work->price[variable - work->program->columns]
                                  : work->reduced[variable];
}

static inline unsigned char side_of(const SmallWork *work, int variable) {
    return is_row(work, variable) ? work->row_side[variable - work->program->columns]
                                  : work->column_side[variable];
}

static inline double slack_allowed(double bound) { return FEASIBLE * (1.0 + fabs(bound)); }

/* How far beyond a bound: negative below the least, positive above the most. */
static inline double beyond(Stand at) {
    if (at.value >= at.least && at.value <= at.most)
        return 0.0;
    if (at.value < at.least - slack_allowed(at.least))
        return at.value - at.least;
    if (at.value > at.most + slack_allowed(at.most))
        return at.value - at.most;
    return 0.0;
}

static inline double rate_of(const SmallWork *work, int variable) {
    return is_row(work, variable) ? work->row_rate[variable - work->program->columns]
                                  : work->column_rate[variable];
}

/* The square matrix of the tight rows in the basic columns; false when it is singular. */
bool small_factorise(SmallWork *work);
/* M solved = side, by tight row in and by basic column out; and M' solved = side, the other
 * way, which uses `side` up. */
void small_solve_columns(const SmallWork *work, const double *side, double *solved);
void small_solve_rows(const SmallWork *work, double *side, double *solved);

/* The matrix of a basis, factorised as it is read from its places. */
struct SmallKept {
    Arena *arena;
    bool is_good, has_most;    /* of the basis as it stands; a column stands at its most */
    int count, room;           /* rows of the matrix; for which there is memory */
    int *basic, *tight, *swap; /* [count] */
    unsigned char *side;       /* [count] of the tight rows */
    double *factor;            /* [count * count] */
};

/* As small_read_basis and small_factorise left it, of a basis that is good for what was kept.
 */
void small_read_kept(SmallWork *work, const SmallBasis *basis);
void small_keep(const SmallWork *work, SmallKept *kept);

/* count is -1 when `basis` is none. */
void small_read_basis(SmallWork *work, const SmallBasis *basis);
void small_write_basis(const SmallWork *work, SmallBasis *basis);
void small_take_slack_basis(SmallWork *work);
/* `out`, basic, comes to stand at `side`; `in` becomes basic. */
void small_exchange(SmallWork *work, int out, unsigned char side, int in);

/* Adds what the basic columns, standing at `solved`, bring to each row that is not tight. */
void small_add_basic(SmallWork *work, double *by_row);

/* Values of all columns and rows; prices of the tight rows and reduced costs of the columns. */
void small_find_values(SmallWork *work);
void small_find_prices(SmallWork *work, const double *cost);

/* Costs under which the basis is optimal but for its bounds, then steps to one within them. */
void small_shift_costs(SmallWork *work);
LpStatus small_dual_steps(SmallWork *work);

/* The basic variable farthest beyond its bound, or the first of any; -1: none. */
int small_worst_variable(const SmallWork *work, bool first);

/* The way of the least ratio; of those that come to it with what is allowed each, the one with
 * the surest pivot, or the first. -1: there is none. */
int small_surest_way(const SmallWork *work, int count, bool first);

#endif
