/* Reading a solved program back into rations, stock, money and limits, and checking the rations
 * by the true equations. Used by winter_plan.c. */
#ifndef PLANNER_PLAN_OUTCOME_H
#define PLANNER_PLAN_OUTCOME_H

#include "planner/can_balance.h"

/* kg DM a head and day of each feed in one block; tiny solver leavings become 0. */
void outcome_eaten(const RationProgram *program, const LpSolution *solution, int block,
                   double *eaten);

/* The forward equations: what the ration in `eaten` does to one head of the block, whatever was
 * asked of it. Fills in dry matter, density, intake, cost and gain. */
void outcome_run_forward(const PlanQuestion *question, int block, BlockOutcome *outcome);

/* The largest relative miss of a law by a ration that was run forward; of a winter that is
 * short only what is eaten beyond the most: a shortage is not a miss. */
double outcome_law_miss(const BlockOutcome *outcome, const Requirement *need, bool is_balanced);

/* The states that the plan's rations give, from which the laws can be straightened anew. */
BlockState *outcome_states(Arena *arena, const WinterPlan *plan);

/* Fills in everything of the plan that follows from the columns' values. */
void outcome_read(Arena *arena, WinterPlan *plan, const double *value,
                  const BlockState *states);

/* What the rations of a solution of the plan's program cost and weigh: the least. */
void outcome_set_least(WinterPlan *plan, const LpSolution *solution);

/* The least that another question of the same blocks and feeds comes to, cautions weighed, with
 * the curved laws as the plan's last program took them; from what that left. NAN where it
 * cannot be solved. */
double outcome_cost_held(const WinterPlan *plan, const PlanQuestion *question);

/* The need whose shortage weighs most in a solved shortage program. */
void outcome_largest_shortage(const RationProgram *program, const LpSolution *solution,
                              FirstShortage *shortage);

#endif
