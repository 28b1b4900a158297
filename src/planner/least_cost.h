/* The least cost of a winter for comparing it with another. What cattle eat depends on what
 * they are fed, and planning may settle at one of several ends a little apart; two winters are
 * compared fairly when each may settle where the other did. */
#ifndef PLANNER_LEAST_COST_H
#define PLANNER_LEAST_COST_H

#include "planner/winter_plan.h"

/* Dollars of feed and hauling: of the plan of least cost, or of the question with the two
 * curved laws standing as in `other`, where that is cheaper and its rations keep to the laws.
 * Another question of another shape, or one that is not balanced, changes nothing. */
double least_cost_beside(const WinterPlan *cheapest, const WinterPlan *other);

#endif
