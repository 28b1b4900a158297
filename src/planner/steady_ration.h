/* Many plans cost the same: with linear nutrition who eats which stack when is nearly free.
 * Among those within the farm's steady_cost_share of the least cost, the one that changes
 * rations least from period to period is the one a person can feed. Crumbs are then swept out
 * as far as the cost allows: a feed that makes less than CRUMB_SHARE of what a group eats all
 * winter, and a serving smaller than CRUMB_KG. Minerals and urea are small by nature and have a
 * smaller measure; a protein meal may be small a day. */
#ifndef PLANNER_STEADY_RATION_H
#define PLANNER_STEADY_RATION_H

#include "planner/steady_program.h"

/* Column values of the steadiest plan: at least as many as the program's columns. The
 * solution's own values, with *is_steady false, when evening out does not finish in
 * STEADY_ITERATIONS: a count and not a clock, so that every machine gives the same plan. The
 * program itself is left as it was found. `start`, zeroed at first but for its arena, or NULL,
 * is where the last evening out of a program of the same shape ended, and then where this one
 * did. Ties are broken first where `answer`, what the solve left, is not NULL. */
const double *steady_rations(Arena *arena, const RationProgram *program,
                             const LpSolution *solution, const BlockStart *answer,
                             SteadyStart *start, bool *is_steady);

#define STEADY_ITERATIONS 20000
#define SWEEP_PASSES 12
#define SMALL_CRUMB_SHARE 5e-4 /* of minerals: about 5 g a day; own choice */
#define CRUMB_SHARE 0.04       /* own choice */
#define CRUMB_LOAD_SHARE 0.1   /* of a load of a feed bought; own choice */
#define CRUMB_KG 0.35          /* dry matter a head and day; own choice */

#endif
