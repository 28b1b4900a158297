/* The program of a winter with whole numbers of the yard put in: what they come to are bounds
 * of the winter's own columns, and rows where more than one column is spoken of. Unless a rule
 * ties periods together it still falls apart into rations. */
#ifndef PLANNER_YARD_HELD_H
#define PLANNER_YARD_HELD_H

#include "planner/yard_program.h"

/* `fixed` by column of the yard's program, NAN of those that are free: what only these would
 * hold is not held. Rows and columns of the base keep their numbers; the shape has the new rows
 * too. */
RationProgram yard_held_program(Arena *arena, const YardProgram *yard, const double *fixed);

/* Whether a rule has rows from one period to the next of every ration. */
bool yard_ties_periods(const YardRules *rules);

/* Whether a rule says which feeds may be in a ration. */
bool yard_chooses_feeds(const YardRules *rules);

/* A solution of a program with the same base, as one to begin near. */
LpSolution yard_held_near(Arena *arena, const RationProgram *held, const LpSolution *of);

/* By prices, beginning at a solution of a program with the same base or NULL, and whole where
 * prices do not settle: *blocks is then NULL. `content` as of block_program_be_content_with.
 * LP_FAILED where it is too large for that. */
LpSolution yard_held_solve(Arena *arena, const RationProgram *held, const LpSolution *near,
                           double content, BlockProgram **blocks);

#endif
