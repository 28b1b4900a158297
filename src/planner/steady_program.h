/* The smaller program that evening out works on, for steady_ration.c alone. */
#ifndef PLANNER_STEADY_PROGRAM_H
#define PLANNER_STEADY_PROGRAM_H

#include "planner/ration_program.h"

/* Besides steadiness, a grain of weight on every ration kilogram keeps needless feed out. */
#define WEIGHT_PER_KG 1e-4
/* And one on every dollar keeps needless cost out: less than a thousandth of what a dollar is
 * worth where evening out may cost the usual share. */
#define WEIGHT_PER_DOLLAR 1e-3

/* What an evening out leaves for the next of a program of the same shape, [rows] and [columns]
 * of the whole and [block_count * feed_count]: one more than the BasisPlace, 0 where it was
 * left out. */
typedef struct SteadyStart {
    Arena *arena;
    int row_count, column_count; /* 0: nothing yet */
    unsigned char *row, *column, *change, *rise, cost;
    bool *is_barred; /* swept out: by block and feed */
    int steps;       /* that evening out took */
} SteadyStart;

/* The smaller program, and where the whole one's columns and rows went: -1, left out. */
typedef struct {
    Arena *arena;
    const RationProgram *program;
    LpTerms terms; /* of the whole */
    LinearProgram *lp;
    int *column_of, *row_of;
    int group;                      /* the one that is evened out; -1: all together */
    const double *fixed;            /* [columns of the whole] what is held, 0 of what is not */
    double *fixed_sum, *fixed_size; /* [rows of the whole] what that comes to, and its sizes */
    int cost_row;
    int *change_row, *rise; /* [block_count * feed_count] to this ration; -1: none */
    double *base_cost;      /* [eaten_columns] steadiness alone */
    int eaten_columns;      /* of lp: all but the rises */
    int *whole_of;          /* [eaten_columns] the column of the whole */
    LpSolution best;
    int steps; /* of the solver, in all */
} Steady;

/* The smaller program of one group, or with -1 of all, of the plan that `solution` solved and
 * whose values are `value`, at no more than `most` cost of the whole. With `start`, which may
 * be NULL, what was swept out then stays out. */
void steady_program(Steady *steady, Arena *arena, const RationProgram *program,
                    const LpTerms *terms, const LpSolution *solution, const double *value,
                    int group, double most, const SteadyStart *start);

/* Of the best. */
void steady_take_start(SteadyStart *start, const Steady *steady);

/* Solves from a basis, which may lack rows put back since; false, and the best stays, when that
 * does not finish. */
bool steady_solve(Steady *steady, LpStart how, const LpBasis *from);

/* [columns of the whole] what the best gives; what was left out is as it is held. */
const double *steady_values(Arena *arena, const Steady *steady);

/* The basis with rows slack that were put back since. */
LpBasis steady_basis(const Steady *steady, const LpBasis *basis);

/* Its columns cost what steadiness costs, and nothing else. */
static inline void steady_price_columns(Steady *steady) {
    for (int j = 0; j < steady->eaten_columns; j++)
        lp_set_cost(steady->lp, j, steady->base_cost[j]);
}

/* The column of a feed in a ration; -1: left out. */
int steady_column(const Steady *steady, int block, int feed);

/* The block of a column of the whole; -1: of none. */
int steady_block_of(const RationProgram *program, int column);

/* Whether a row or column of this block is left as it is; -1: of none. */
static inline bool steady_is_held(const Steady *steady, int block) {
    return steady->group >= 0 && block >= 0 &&
           steady->program->question->blocks[block].group != steady->group;
}

/* Adds the columns of the whole that may change, which is all of `column_of` and `whole_of`;
 * of `start`, of the same shape or NULL, those it had besides. */
void steady_keep_columns(Steady *steady, const LpSolution *solution, const SteadyStart *start);

#endif
