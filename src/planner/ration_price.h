/* What the columns of a ration program cost, in whole dollars of the winter. */
#ifndef PLANNER_RATION_PRICE_H
#define PLANNER_RATION_PRICE_H

#include "planner/ration_program.h"

double plan_block_head_days(const PlanBlock *block);

/* Tonnes as fed taken in the whole block for one kg of dry matter eaten a head and day. */
double ration_tonnes_taken(const PlanBlock *block, const PlanFeed *feed);

/* Of one kg of dry matter a head and day: own value and hauling, and what cautions weigh. */
double ration_price_of_eaten(const PlanQuestion *question, int block, int feed);

/* Of a ration at the bound, for what it is beyond the caution line of that limit. */
double ration_price_of_beyond(const PlanQuestion *question, int block,
                              const RationLimit *limit);

#endif
