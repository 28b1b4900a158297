/* One face open at a time on a farm too large for a tree over all of its faces: they are opened
 * in turn, in the order in which they are wanted, each for as long as much is wanted of it, and
 * the days on which one follows the other are moved while that saves. Who eats which silage
 * when is nearly free, so that a turn costs little. */
#ifndef PLANNER_YARD_FACES_H
#define PLANNER_YARD_FACES_H

#include "planner/yard_program.h"

/* `yard` has the rules of faces alone; `near` solves its base. Sets what is open in `fixed`, by
 * column of the yard; false when no turn was found that feeds all. */
bool yard_faces_in_turn(Arena *arena, const YardProgram *yard, const LpSolution *near,
                        double *fixed);

#endif
