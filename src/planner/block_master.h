/* The master program of block_program.c: what of the proposals so far, and of purchases, costs
 * least, and the prices that follow; for block_program.c alone. */
#ifndef PLANNER_BLOCK_MASTER_H
#define PLANNER_BLOCK_MASTER_H

#include "planner/block_parts.h"

struct BlockProgram {
    Arena *arena;
    BlockParts *parts;
    Proposal *proposals; /* [room] those from count to made lend their memory to the next */
    int *family;         /* of each proposal */
    int count, made, room;
    Proposal asked;                        /* the one in the making */
    double *center, *price, *master_price; /* [tie_count] */
    double *family_price;                  /* [family_count] */
    double gap;                            /* of the cost, at which it is solved */
    int most_rounds;                       /* of prices */
    double best_bound, first_penalty, penalty, master_cost, overuse;
    double content; /* gap that is near enough, as a share of the cost alone; 0: none */
    bool has_prices, has_master; /* a master was solved: its prices are set */
    LpBasis basis;               /* of the master; row_count 0: none. Room for all proposals */
    double *share;               /* [room] of proposals, by the last master */
    double *own_value;
    BlockEffort effort;
};

/* One without prices, with room for those of any family. */
Proposal block_master_proposal(Arena *arena, const BlockParts *parts);

/* The column of the master's first proposal. */
int block_master_first(const BlockProgram *program);

/* Keeps what `asked` holds as the proposal of a family. */
void block_master_keep(BlockProgram *program, int family);

/* What a proposal costs at prices of the tying rows, with its own cost. */
double block_priced(const BlockProgram *program, const Proposal *proposal, const double *price);

/* Sets the master's prices, shares, cost and overuse; LP_FAILED when GLPK finds no answer. By
 * the primal simplex, where bounds have changed too: the dual took half as many steps again. */
LpStatus block_master_solve(BlockProgram *program);

/* Drops the proposals that are dearest at the master's prices, but for those in its basis, when
 * there are far more than its rows: they make each of its solves slow. */
void block_master_drop_idle(BlockProgram *program);

#endif
