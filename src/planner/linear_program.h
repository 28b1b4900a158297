/* A linear program as plain data, and its solution.
 *
 *     minimise  sum of cost[j] x[j]
 *     so that   least[i] <= sum of a[i,j] x[j] <= most[i]     for each row i
 *               least[j] <= x[j] <= most[j]                   for each column j
 *
 * and, for those columns that are set whole, x[j] a whole number (lp_solve_whole only).
 *
 * NO_LIMIT and -NO_LIMIT stand for no bound. Rows and columns count from 0. The solver lives
 * inside one call (the only user of <glpk.h>): no handle outlives it, so a program can be
 * changed and solved again, starting from the basis of the last solution. */
#ifndef PLANNER_LINEAR_PROGRAM_H
#define PLANNER_LINEAR_PROGRAM_H

#include "base/arena.h"
#include "base/text.h"

typedef struct LinearProgram LinearProgram;

LinearProgram *lp_new(Arena *arena);
LinearProgram *lp_copy(const LinearProgram *lp, Arena *arena);
int lp_add_column(LinearProgram *lp, double cost, double least, double most);
int lp_add_row(LinearProgram *lp, double least, double most);
/* Terms of one row and column add up. Coefficients are finite. */
void lp_add_term(LinearProgram *lp, int row, int column, double coefficient);
/* Many of one row: [count] of each, some perhaps of 0. They are not copied: they must stay as
 * they are and outlive the program and its copies; rows may share them. */
void lp_add_row_terms(LinearProgram *lp, int row, int count, const int *column,
                      const double *coefficient);

void lp_set_cost(LinearProgram *lp, int column, double cost);
void lp_set_column_bounds(LinearProgram *lp, int column, double least, double most);
void lp_set_row_bounds(LinearProgram *lp, int row, double least, double most);
void lp_set_whole(LinearProgram *lp, int column, bool is_whole);

int lp_row_count(const LinearProgram *lp);
int lp_column_count(const LinearProgram *lp);
double lp_cost(const LinearProgram *lp, int column);
double lp_row_least(const LinearProgram *lp, int row);
double lp_column_least(const LinearProgram *lp, int column);
double lp_column_most(const LinearProgram *lp, int column);
bool lp_is_whole(const LinearProgram *lp, int column);
double lp_row_most(const LinearProgram *lp, int row);

/* Terms by column, those of one place added up, what rounding left of equal numbers dropped. */
typedef struct {
    int *start; /* [column_count + 1] */
    int *row;
    double *coefficient;
} LpTerms;

LpTerms lp_terms(const LinearProgram *lp, Arena *arena);
/* Those of the rows wanted alone. */
LpTerms lp_terms_of_rows(const LinearProgram *lp, Arena *arena, const bool *is_wanted);

/* What rounding leaves of two numbers that should cancel is no coefficient: scaling would take
 * it for one and blow its row up. */
#define LP_LEAVINGS 1e-12 /* of the largest in its row */

/* Terms of one row that were added together, some perhaps of 0. */
typedef struct {
    int row, count;
    const int *column;         /* [count] */
    const double *coefficient; /* [count] */
} LpStretch;

/* Goes over all terms in the order in which they were added: lp_walk_on moves to the first
 * stretch, then to the next; false past the last. An entry can be looked at again later. */
typedef struct {
    const struct LpPiece *piece;
    int next;
    const struct LpEntry *entry;
} LpWalk;

LpWalk lp_walk(const LinearProgram *lp);
bool lp_walk_on(LpWalk *walk);
LpStretch lp_stretch(const LinearProgram *lp, const struct LpEntry *entry);

/* What given values of the columns cost. */
double lp_cost_of(const LinearProgram *lp, const double *value);

/* Adds to each row what its terms come to at given values of the columns. */
void lp_add_activities(const LinearProgram *lp, const double *value, double *activity);

typedef enum { AT_LEAST, AT_MOST, BASIC } BasisPlace;

typedef struct {
    int row_count, column_count;
    unsigned char *row, *column; /* BasisPlace */
} LpBasis;

typedef enum { LP_OPTIMAL, LP_INFEASIBLE, LP_UNBOUNDED, LP_FAILED } LpStatus;

/* What changed since the basis was optimal decides the method that starts near the answer. */
typedef enum {
    START_COLD,
    START_COSTS_CHANGED, /* basis still feasible: primal simplex */
    START_BOUNDS_CHANGED /* basis still dual feasible: dual simplex */
} LpStart;

typedef struct {
    LpStatus status;
    double cost;
    const double *value, *reduced_cost;    /* by column */
    const double *activity, *shadow_price; /* by row: cost per unit more of the binding bound */
    LpBasis basis;
    int iterations;
    const char *remark; /* "" or why it failed */
} LpSolution;

/* start is NULL with START_COLD. iteration_limit <= 0: none of the
 * caller's; a method that goes round in a circle is given up for the next in any case. A basis
 * of another size, or one the solver rejects, is dropped and the solve is cold. LP_FAILED after
 * a limit or numerical trouble. */
LpSolution lp_solve(const LinearProgram *lp, Arena *arena, LpStart how, const LpBasis *start,
                    int iteration_limit);

/* is_fine: bounds and reduced costs held a hundred times closer than is usual. */
typedef struct {
    int iteration_limit;
    bool is_fine;
} LpCare;

LpSolution lp_solve_with(const LinearProgram *lp, Arena *arena, LpStart how,
                         const LpBasis *start, LpCare care);

/* How long whole numbers are looked for: counts, so that every machine gives the same answer.
 */
typedef struct {
    int nodes, iterations;
    double gap; /* share of the cost within which an answer is good enough */
} LpEffort;

typedef struct {
    LpStatus status;     /* LP_OPTIMAL: values were found; LP_INFEASIBLE: proved that none are;
                            LP_FAILED: none found within the effort */
    double cost, bound;  /* of the values; no values cost less than the bound */
    const double *value; /* by column; whole ones exactly so */
    int nodes, iterations;
    const char *remark;
} LpWhole;

/* By branch and bound from `start` (a basis as of lp_solve, or NULL). `known`, values by column
 * that keep every row, or NULL, is where the search begins: it is what is returned when nothing
 * better is found. */
LpWhole lp_solve_whole(const LinearProgram *lp, Arena *arena, const LpBasis *start,
                       const double *known, LpEffort effort);

/* The program in free MPS, the open format other solvers read: rows are r1, r2 ..., columns x1,
 * x2 ... */
void lp_mps_text(const LinearProgram *lp, Text *out);

#endif
