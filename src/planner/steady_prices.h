/* Where evening out of a whole farm begins: every group evened out by itself at the prices of
 * the cheapest plan, which is quick, then the stacks and the cost brought to hold. For
 * steady_ration.c alone. */
#ifndef PLANNER_STEADY_PRICES_H
#define PLANNER_STEADY_PRICES_H

#include "planner/steady_program.h"

/* What the groups, each by itself, would leave. False, and `start` as it was, when one of them
 * does not finish. */
bool steady_groups_at_prices(const RationProgram *program, const LpTerms *terms,
                             const LpSolution *solution, double most, SteadyStart *start);

/* From there to a plan that holds what all share; no harm when that does not finish. */
void steady_bring_together(Steady *steady, const LpSolution *solution);

#endif
