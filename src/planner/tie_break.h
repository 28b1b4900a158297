/* Who eats which stack when is nearly free, so that a grain of noise in a need moves what the
 * cheapest plan gives to whom. A whim that goes with the names of group and feed alone, of
 * up to two dollars a tonne, settles it the same way each time, in whatever order files have
 * it. It settles only where evening out begins: no cost that is told has it in it. */
#ifndef PLANNER_TIE_BREAK_H
#define PLANNER_TIE_BREAK_H

#include "planner/ration_program.h"

#define WHIM_PER_TONNE 2.0 /* dollars a tonne taken, at most; own choice */

/* The plan of least cost and whim, its cost and prices those without the whim. It costs at most
 * `most`: a smaller whim where this one would cost more. `solution` itself, the plan of least
 * cost, where `answer`, what its solve left, is NULL or no such plan is found. */
LpSolution tie_broken(Arena *arena, const RationProgram *program, const BlockStart *answer,
                      const LpSolution *solution, double most);

#endif
