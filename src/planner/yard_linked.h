/* The program of a winter with whole numbers of the yard put in, where a rule ties each period
 * to the one before. Of these rows hardly one in twenty is ever broken: only those are put in
 * that an answer broke, so that the rest still falls apart into rations. */
#ifndef PLANNER_YARD_LINKED_H
#define PLANNER_YARD_LINKED_H

#include "planner/yard_held.h"

/* Share of the cost within which an answer is the least where changes are held: their many
 * prices take long to settle nearer. */
#define YARD_LINKED_GAP 1e-6

/* As yard_held_solve, of the program with `fixed` put in, until its answer breaks no row: *held
 * is the program that was solved last. Rows that were broken are no longer idle in `yard`. */
LpSolution yard_linked_solve(Arena *arena, const YardProgram *yard, const double *fixed,
                             const LpSolution *near, RationProgram *held,
                             BlockProgram **blocks);

/* The same program with all of these rows, and the solution as one of it: for evening out. A
 * row is said to be of the later ration, which block_program takes no program by. */
RationProgram yard_linked_whole(Arena *arena, const YardProgram *yard, const double *fixed,
                                const LpSolution *solution, LpSolution *of_whole);

#endif
