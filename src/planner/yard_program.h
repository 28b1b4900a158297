/* The rows of the yard's rules, put over the program of a winter: with some columns whole, the
 * cheapest plan that keeps them. docs/planner.md */
#ifndef PLANNER_YARD_PROGRAM_H
#define PLANNER_YARD_PROGRAM_H

#include "planner/ration_program.h"
#include "planner/yard_rule.h"

/* Days in which no group changes its ration, for what is shared: a face. */
typedef struct {
    Day from;
    int days;
} YardSlice;

typedef struct {
    const RationProgram *base;
    LinearProgram
        *lp; /* a copy of the base's, with the rules' rows and columns after its own */
    int base_rows, base_columns;
    int *used;  /* [block_count * feed_count] whole columns, 0 or 1: it is in the ration; -1 */
    int *bales; /* same shape: whole columns, bales in yard_bale_weeks; -1 */
    int *loads; /* [feed_count] whole columns; -1 */
    int slice_count;
    const YardSlice *slices;
    int *open;   /* [slice_count * feed_count] whole columns, 0 or 1: its face is open; -1 */
    int *shut;   /* same shape: rows that let nothing be taken of what is not open; -1 */
    int *change; /* [block_count * feed_count] the first of its rows from the period before;
                    -1 */
    int first_change; /* these rows are the last: from here on */
    bool *is_idle;    /* by row: of a change that no answer made so far. True at first */
} YardProgram;

/* Columns and rows depend on the question and the rules alone, not on the states: programs of
 * one question are of one shape. */
YardProgram yard_program(Arena *arena, const RationProgram *base, const YardRules *rules);

/* The basis of the base, or of a program with rows after the base's, whose rules are not kept
 * yet: for START_BOUNDS_CHANGED. */
LpBasis yard_basis(Arena *arena, const YardProgram *yard, const LpBasis *of_base);

/* The most dry matter of a feed that can be in a ration: what no cattle would eat, or all there
 * is of it. */
double yard_most_eaten(const PlanQuestion *question, int block, int feed);

#endif
