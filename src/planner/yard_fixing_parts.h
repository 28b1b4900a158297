/* What fixing whole numbers a few at a time is made of, for yard_fixing.c, yard_thinning.c and
 * yard_fixing_bales.c alone. */
#ifndef PLANNER_YARD_FIXING_PARTS_H
#define PLANNER_YARD_FIXING_PARTS_H

#include "planner/yard_program.h"

typedef struct {
    Arena *arena;
    const YardProgram *yard;
    const PlanQuestion *question;
    const double *target;
    const bool *known; /* [block_count * feed_count] sets to be bettered; NULL: none */
    LpSolution best;   /* of the program as it is fixed now */
    bool has_most, has_least, is_tied, by_target;
    int solves, steps;
    double *most_loads; /* [feed_count] of whole_loads, before any was fixed */
    bool *must;         /* [block_count * feed_count] cannot be done without */
    bool *not_whole;
} FixSearch;

/* Bounds to be tried on one column. */
typedef struct {
    int column;
    double least, most;
} Fix;

/* Places in arrays of rations and feeds. */
static inline int yard_fix_cell(const FixSearch *search, int block, int feed) {
    return block * search->question->feed_count + feed;
}

static inline int yard_fix_cells(const FixSearch *search) {
    return search->question->block_count * search->question->feed_count;
}

/* Whether any effort is left. */
bool yard_fix_may_solve(const FixSearch *search);

/* Solves the program as it is fixed now, from the best so far; false, and that stays, when it
 * has no answer or no effort is left. */
bool yard_fix_solve(FixSearch *search, LpStart how);

/* Tries all of them at once; where that cannot be, each half, down to one. Sets has_failed of
 * those that cannot. */
void yard_fix_all(FixSearch *search, const Fix *fixes, int count, bool *has_failed);

/* True when one column could be held to a value, and is. */
bool yard_fix_one(FixSearch *search, int column, double value);

/* ---- yard_thinning.c ---- */

/* Thins rations to the feeds they may have, those that standing in so many periods before and
 * after makes main ones, and bars the others; false when no effort is left. Some rations may
 * still have too many. */
bool yard_fix_thin(FixSearch *search, int reach);

/* ---- yard_fixing_bales.c ---- */

/* Rounds bales to what is wanted, those of fewest bales first; false when no effort is left. */
bool yard_fix_bales(FixSearch *search);

#endif
