/* Rules inside the blocks of a block program that are not linear: what a block proposes then
 * keeps to them, and so does each part of what the master mixes. The bound is that of days
 * split between rations of which each keeps the rules, which a plan that splits none cannot
 * undercut. */
#ifndef PLANNER_BLOCK_CHOICE_H
#define PLANNER_BLOCK_CHOICE_H

#include "planner/block_program.h"

/* Of one block, in columns of the whole program, all counted in kilograms. */
typedef struct {
    int count;          /* of the columns the rules speak of */
    const int *column;  /* [count] */
    double *bale;       /* [count] kilograms; 0: by any amount */
    int most;           /* of them; 0: any number */
    double least_share; /* 0: none */
    int most_nodes;
} BlockRule;

/* From here on proposals keep the rules, [block_count], and prices are sought until the gap is
 * so small a share of the cost, or for so many rounds: block_program_solve then says LP_FAILED,
 * and the bound holds all the same. */
void block_choice_rules(BlockProgram *program, const BlockRule *rules, double gap,
                        int most_rounds);

/* No plan costs less, by the last solve; -NO_LIMIT where none was proved. */
double block_choice_bound(const BlockProgram *program);

/* A part of what a block does in the answer: `weight` of it, the parts of a block add up to 1.
 */
typedef struct {
    int block, count;  /* of the columns that are not zero */
    const int *column; /* of the whole program */
    const double *value;
    double weight;
} BlockPart;

/* The answer of the last solve as parts of which each keeps the rules, with as few blocks of
 * more than one part as a corner has: no more than there are tying rows. NULL when that was not
 * found. */
const BlockPart *block_choice_parts(BlockProgram *program, Arena *arena, int *count);

/* Where the choice of one block is drawn to: [count] each, of the rule's columns. */
typedef struct {
    const double *added_cost;
    const double *least, *most;
} BlockLean;

/* The cheapest that one block can do by a rule at prices of the program's rows. *value,
 * [count], is set when it is LP_OPTIMAL. */
LpStatus block_choice_of(BlockProgram *program, int number, const BlockRule *rule,
                         const double *row_price, const BlockLean *lean, double *value);

#endif
