/* The master program of block_program.c: what of the proposals so far, and of purchases, costs
 * least, and the prices that follow; for block_program.c alone. */
#ifndef PLANNER_BLOCK_MASTER_H
#define PLANNER_BLOCK_MASTER_H

#include "planner/block_parts.h"

struct BlockProgram {
    Arena *arena;
    BlockParts *parts;
    Proposal *proposals;
    int *family; /* of each proposal */
    int count, room;
    double *center, *price, *master_price; /* [tie_count] */
    double *family_price;                  /* [family_count] */
    double gap;                            /* of the cost, at which it is solved */
    int most_rounds;                       /* of prices */
    double best_bound, first_penalty, penalty, master_cost, overuse;
    bool has_prices;
    LpBasis basis; /* of the master; row_count 0: none */
    double *share; /* [count] of proposals, by the last master */
    const double *own_value;
    BlockEffort effort;
};

/* What a proposal costs at prices of the tying rows, with its own cost. */
double block_priced(const BlockProgram *program, const Proposal *proposal, const double *price);

/* Sets the master's prices, shares, cost and overuse; LP_FAILED when GLPK finds no answer. */
LpStatus block_master_solve(BlockProgram *program, Arena *scratch, LpStart how);

/* Drops the proposals that are dearest at the master's prices, but for those in its basis, when
 * there are far more than its rows: they make each of its solves slow. */
void block_master_drop_idle(BlockProgram *program);

#endif
