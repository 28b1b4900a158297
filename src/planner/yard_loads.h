/* Whole loads of what is bought, over a winter that falls apart into rations: branch and bound
 * on the purchases, each program solved from the prices and proposals of the one before. */
#ifndef PLANNER_YARD_LOADS_H
#define PLANNER_YARD_LOADS_H

#include "planner/yard_program.h"

typedef struct {
    LpStatus status;     /* LP_INFEASIBLE: proved that no loads will do */
    double cost, bound;  /* of these loads; none cost less than the bound */
    const double *loads; /* [feed_count] whole; NAN of what is not bought by the load */
    LpSolution solution; /* with these loads, or without any rule of loads */
} YardLoads;

/* `lp` is the program that `blocks` solves; its purchases are left held to the loads found.
 * Without loads in the yard it is solved once. */
YardLoads yard_whole_loads(Arena *arena, const YardProgram *yard, LinearProgram *lp,
                           BlockProgram *blocks);

#endif
