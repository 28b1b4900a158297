/* A linear program of many small blocks that few rows tie together, solved by prices: the tying
 * rows (stacks and purchases) get prices, every block (the ration of one group in one period)
 * is solved alone at them, and a master program over what the blocks proposed so far sets new
 * prices, until what the blocks would do at a set of prices and what the master can make of
 * their proposals cost the same but for GAP. That difference bounds the error: it is proven,
 * whatever the road to it.
 *
 * Dantzig and Wolfe's decomposition, with prices drawn half way to the best so far. Blocks of
 * one family (one group) propose together. The answer is that of lp_solve on the whole program,
 * found many times sooner; many plans cost the same, and which of them is found may differ. */
#ifndef PLANNER_BLOCK_PROGRAM_H
#define PLANNER_BLOCK_PROGRAM_H

#include "planner/linear_program.h"

#define BLOCK_PROGRAM_GAP 1e-9 /* of the cost */

typedef struct {
    int row_count, column_count; /* of the program */
    int block_count, family_count;
    const int *block_of_column, *block_of_row; /* [columns], [rows]; -1: of none, tying */
    const int *family_of_block;                /* [block_count] */
} BlockShape;

/* Counts that are the same on every machine. */
typedef struct {
    int rounds;            /* of prices */
    int master_iterations; /* of the simplex on the master */
    long block_solves, block_steps;
} BlockEffort;

typedef struct BlockProgram BlockProgram;

/* NULL when the program is of another size or does not fall apart as the shape says. lp must
 * outlive it. */
BlockProgram *block_program(Arena *arena, const LinearProgram *lp, const BlockShape *shape);

/* Fills a program with the numbers of another of the same shape, in its memory; what was
 * proposed is forgotten. False when it is not of that shape, or a term stands where there was
 * none: a program of it is then to be built. */
bool block_program_refill(BlockProgram *program, const LinearProgram *lp,
                          const BlockShape *shape);

/* After costs and bounds of any columns and rows were changed in lp, but no terms: as if built
 * anew, without the building. */
void block_program_reprice(BlockProgram *program);

/* Where one program is kept, in memory of `arena`, to be filled again. */
typedef struct {
    Arena *arena;
    BlockProgram *program; /* NULL: none yet */
} BlockRoom;

/* The one kept, filled with these numbers, which is good until the next call; where it is of
 * another shape, one of `arena`. NULL as block_program. */
BlockProgram *block_room_program(BlockRoom *room, Arena *arena, const LinearProgram *lp,
                                 const BlockShape *shape);

/* Where a program of the same rows and columns may begin: the prices and bases that the last
 * one ended with, and the prices at which what it uses was proposed. Its memory is the arena's
 * and is used again from solve to solve. */
typedef struct BlockStart BlockStart;

BlockStart *block_start(Arena *arena);
/* Of a program that was solved. */
void block_start_take(BlockStart *start, const BlockProgram *program);
/* What was proposed until now is forgotten; nothing of `start` is kept. False, and no harm,
 * when nothing was taken, or of another size. */
bool block_program_start_from(BlockProgram *program, const BlockStart *start);

/* Begins at the prices and bases of a solution of another program with the same rows and
 * columns; nothing of it is kept. False, and no harm, when it has another size. */
bool block_program_start_near(BlockProgram *program, const LpSolution *solution);

/* From now on a plan within this share of its own cost is near enough: a cost of nothing is
 * still told from any other. */
void block_program_be_content_with(BlockProgram *program, double share);

/* Between solves the bounds of tying rows, and costs and bounds of columns of no block, may be
 * changed in lp: what the blocks proposed is used again. LP_FAILED when prices do not settle;
 * the whole program may still be solved by lp_solve. The basis is complete and optimal for the
 * prices, but of a program whose blocks mix rations not feasible: a good start for the simplex,
 * not more. What the rows come to is not reckoned: activity is NULL. */
LpSolution block_program_solve(BlockProgram *program, Arena *arena);

BlockEffort block_program_effort(const BlockProgram *program);

#endif
