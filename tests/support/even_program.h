/* The second program of a plan, for other solvers: of all rations that cost no more than
 * evening out may, those that change least from period to period. As a book would state it,
 * over the whole program that the plan ends with: what the planner leaves out of it, and how it
 * goes about it, is its own affair (planner/steady_program.h). */
#ifndef SUPPORT_EVEN_PROGRAM_H
#define SUPPORT_EVEN_PROGRAM_H

#include "planner/winter_plan.h"

LinearProgram *even_program(Arena *arena, const WinterPlan *plan);

/* What the rations of a plan come to by the aim of that program: each change, kilograms a head,
 * times the root of the head that it meets, and a grain for what is fed and what it costs. */
double even_program_aim_of(const WinterPlan *plan);

#endif
