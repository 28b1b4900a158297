/* One small linear program, dense and solved in microseconds: the ration of one group in one
 * period at given prices.
 *
 *     minimise  sum of cost[j] x[j]
 *     so that   row_least[i] <= sum of term of row i and column j x[j] <= row_most[i]
 *               least[j] <= x[j] <= most[j],   least[j] finite
 *
 * Few rows of a ration are ever tight, so the solver keeps only these: a basis is a set of
 * tight rows and as many columns, and its square matrix is factorised anew at each step, so
 * nothing drifts. From a basis that the bounds have left behind it goes by the dual simplex,
 * its costs shifted to fit, and then by the primal with the true costs; ties go to the lowest
 * number, and after many steps without end to Bland's rule. Everything depends on the program
 * alone.
 *
 * Terms near one are best: see block_parts.c for the scaling. */
#ifndef PLANNER_SMALL_PROGRAM_H
#define PLANNER_SMALL_PROGRAM_H

#include "planner/linear_program.h"

typedef struct {
    int rows, columns;
    const double *const *term; /* [rows] of [dense columns]: programs may share rows */
    double *row_least, *row_most, *least, *most;
    int singles;     /* the last so many columns have one term each: what a row lacks */
    int *single_row; /* [singles] */
    double *single_term;
} SmallProgram;

static inline int dense_columns(const SmallProgram *program) {
    return program->columns - program->singles;
}

/* What a solve that took no step worked out of its basis, for the next. */
typedef struct SmallKept SmallKept;

SmallKept *small_kept(Arena *arena);

/* BasisPlace of each row and column; as many columns BASIC as rows are not. */
typedef struct {
    unsigned char *row, *column;
    bool keeps_bounds; /* said by the caller: it was optimal for other costs, all else the same
                        */
    SmallKept *kept;   /* NULL: nothing is to be kept */
} SmallBasis;

typedef struct SmallWork SmallWork;

/* Room for programs up to this size; used again from solve to solve. */
SmallWork *small_work(Arena *arena, int most_rows, int most_columns);

/* The basis in which every row is slack and every column at its least. */
void small_basis_reset(const SmallProgram *program, SmallBasis *basis);

/* Solves from `basis` and leaves the optimal one there; one that is no basis is dropped for the
 * slack one. LP_FAILED after far more steps than any ration takes. */
LpStatus small_solve(SmallWork *work, const SmallProgram *program, const double *cost,
                     SmallBasis *basis);

/* Only the values that a basis stands for; false when it is none. */
bool small_stand_at(SmallWork *work, const SmallProgram *program, const SmallBasis *basis);

/* The last solve took no step from a basis that keeps its bounds: its values are those of the
 * time before, and were not worked out again. */
bool small_is_as_before(const SmallWork *work);

/* Of the last solve, when it was optimal. reduced_cost by column; row_price by row: cost per
 * unit more of the bound it is tight at, 0 of a slack row. */
const double *small_values(const SmallWork *work);
const double *small_reduced_costs(const SmallWork *work);
const double *small_row_prices(const SmallWork *work);
double small_cost(const SmallWork *work);
/* Steps of all solves so far. */
long small_steps(const SmallWork *work);

#endif
