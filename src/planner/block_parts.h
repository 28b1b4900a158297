/* A linear program cut into blocks that only a few rows tie together: rations of one group in
 * one period, tied by the stacks they share. Each block stands here as a small program, scaled,
 * with the basis it was last solved from. For block_program.c alone. */
#ifndef PLANNER_BLOCK_PARTS_H
#define PLANNER_BLOCK_PARTS_H

#include "planner/block_program.h"
#include "planner/small_choice.h"

typedef struct {
    SmallProgram program;
    SmallBasis basis;
    int *column, *row; /* their numbers in the whole program */
    double *column_scale,
        *row_scale;        /* whole value = scale * small value; of a row's price too */
    double *cost;          /* [columns] scaled */
    int *tie_start;        /* [columns + 1] into the next two */
    int *tie;              /* numbers of tying rows, 0 .. tie_count - 1 */
    double *tie_term;      /* scaled */
    const SmallRule *rule; /* what its proposals keep to besides; NULL: nothing */
} Block;

typedef struct {
    const LinearProgram *lp;
    BlockShape shape;
    LpTerms terms;
    int tie_count, own_count;
    int *tie_row;    /* [tie_count] rows of no block */
    int *own_column; /* [own_count] columns of no block */
    int *tie_of_row; /* [rows] -1: of a block */
    Block *blocks;
    SmallWork *work;
    SmallChooser *chooser; /* NULL: no block has a rule */
    double *priced;        /* costs of one block at the prices asked for */
    int *found_column;     /* [columns] of the proposal in the making */
    double *found_value;
} BlockParts;

/* NULL when it does not fall apart so: a column of one block in a row of another, or one with
 * no finite least. */
BlockParts *block_parts(Arena *arena, const LinearProgram *lp, const BlockShape *shape);

/* What every block would do at given prices of the tying rows, [tie_count], joined by family.
 */
typedef struct {
    double cost; /* its own, without the prices */
    double over; /* what it may cost more than the best there is at the prices asked for */
    double *use; /* [tie_count] */
    int count;   /* of columns that are not zero */
    int *column; /* in the whole program */
    double *value;
} Proposal;

/* Solves every block of a family; the proposal is of the arena. */
LpStatus block_parts_propose(BlockParts *parts, Arena *arena, int family, const double *price,
                             Proposal *proposal);

/* The costs of a block at the prices, into parts->priced. */
void block_parts_price(BlockParts *parts, const Block *block, const double *price);

/* Reduced costs and row prices of the block of that number at the prices, into arrays of the
 * whole program, with its basis. Solves the block, without its rule. */
LpStatus block_parts_duals(BlockParts *parts, int number, const double *price,
                           double *reduced_cost, double *shadow_price, LpBasis *basis);

#endif
