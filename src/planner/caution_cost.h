/* What keeping behind the caution lines costs in money. */
#ifndef PLANNER_CAUTION_COST_H
#define PLANNER_CAUTION_COST_H

#include "planner/winter_plan.h"

/* Dollars of feed and hauling that the least cost would be lower by if only hard limits held,
 * the curved laws as they stand; of the plan without rules of the yard where some are kept. 0
 * where cautions weigh nothing; NAN of a plan that is not balanced. */
double caution_cost(const WinterPlan *ruled);

#endif
