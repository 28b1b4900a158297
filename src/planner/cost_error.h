/* How far the cost of a winter may be off because weights and tests of stacks are: each figure
 * is moved by its standard error up and down, and the plan's last program solved again. Of the
 * difference of two futures only what moves one of them more than the other counts.
 * docs/planner.md */
#ifndef PLANNER_COST_ERROR_H
#define PLANNER_COST_ERROR_H

#include "planner/winter_plan.h"

typedef enum { ERROR_OF_WEIGHT, ERROR_OF_ENERGY, ERROR_OF_PROTEIN, ERROR_KIND_COUNT } ErrorKind;

typedef struct {
    double
        standard; /* error: share of the weight; units of TDN, of protein; NAN: none is said */
    double up, down; /* dollars of cost when the figure is that much more, less; NAN: with such
                        a figure no ration is balanced */
} CostError;

/* [own_count * ERROR_KIND_COUNT] of a balanced plan; NULL of any other. Without rules of the
 * yard where any are kept. */
const CostError *cost_errors(Arena *arena, const WinterPlan *ruled);

/* Standard error, in dollars, of the cost of b less that of a. A stack of both is known by its
 * name, and is off in both alike. */
double cost_difference_error(const WinterPlan *a, const CostError *of_a, const WinterPlan *b,
                             const CostError *of_b);

#endif
