/* How far rations hold still from one period to the next. */
#ifndef PLANNER_PLAN_TURNOVER_H
#define PLANNER_PLAN_TURNOVER_H

#include "planner/winter_plan.h"

/* The share of the dry matter eaten that is other feed than in the period before, of the mean
 * of all changes of period, each counted by what its cattle eat: 0 nothing changes, 1 all of it
 * does. More or less of the same mixture is no change. NAN where no group has a second period.
 */
double plan_turnover(const WinterPlan *plan);

#endif
