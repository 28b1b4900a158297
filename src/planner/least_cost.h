/* The least cost of a winter for comparing it with another. What cattle eat depends on what
 * they are fed, and planning may settle at one of several ends a little apart; two winters are
 * compared fairly when each may settle where the other did. */
#ifndef PLANNER_LEAST_COST_H
#define PLANNER_LEAST_COST_H

#include "planner/winter_plan.h"

typedef struct {
    double money;    /* dollars of feed and hauling */
    double cautions; /* what passing caution lines weighs beside it; the sum is the least */
} LeastCost;

/* Of the plan of least cost, or of the question with the two curved laws standing as in
 * `other`, where that is less and its rations keep to the laws. Another question of another
 * shape, or one that is not balanced, changes nothing. */
LeastCost least_cost_beside(const WinterPlan *cheapest, const WinterPlan *other);

/* The lesser of two. */
LeastCost lesser_cost(LeastCost a, LeastCost b);

/* All a winter comes to at the least, as one winter is weighed against another: feed, hauling,
 * yardage, and what passing caution lines weighs. NAN where it is not balanced. */
double least_total(const WinterPlan *plan);

#endif
