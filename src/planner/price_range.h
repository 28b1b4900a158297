/* What more or less of a feed is worth, and the prices at which what is bought changes: by
 * solving the plan's last program again, in which the two curved laws stand as straight lines
 * at the plan's rations, and before rations were evened out: of that program they are exact, of
 * a plan made anew they are close. */
#ifndef PLANNER_PRICE_RANGE_H
#define PLANNER_PRICE_RANGE_H

#include "planner/winter_plan.h"

/* Per kg as fed. NAN: own feed, not this case, or not found. NO_LIMIT: at any price. */
typedef struct {
    double enters_below; /* not bought: below it some is, above it less than PRICE_STEP_KG */
    double less_above;   /* bought: above it less is, below it at most LESS_SHARE of it less */
    double leaves_above; /* bought: below it some is, above it less than PRICE_STEP_KG */
} PriceRange;

#define PRICE_STEP_KG 10.0
#define LESS_SHARE 0.1

/* [feed_count]; of the plan without rules of the yard where any are kept; all NAN for a plan
 * that is not balanced: its prices would be those put on a shortage. */
const PriceRange *price_ranges(Arena *arena, const WinterPlan *ruled);

/* Dollars for the best plan with this much more (or less) of a feed on hand, less that of the
 * plan. kg as fed; NAN when it cannot be solved. */
double plan_cost_change(Arena *arena, const WinterPlan *plan, int feed, double more_kg);

/* What the first `paid_kg` of an offer save where none can be had, a kg: below that price, and
 * above none, it pays to haul so much home. NO_LIMIT: without it the herd
 * cannot be fed. NAN: it cannot be told. */
double plan_worth_of_first(const WinterPlan *plan, int feed, double paid_kg);

#endif
