/* Condition of mature cattle through the winter, recomputed from what the rations bring: energy
 * above or below the need goes to the body or comes off it. */
#ifndef PLANNER_CONDITION_PATH_H
#define PLANNER_CONDITION_PATH_H

#include "planner/winter_plan.h"

/* 9-point scores at the end of a block; NAN of cattle that grow, and where none is known. */
typedef struct {
    double asked; /* by the change the herd file asks for */
    double given; /* by the ration */
} Condition;

/* [block_count] */
const Condition *condition_path(Arena *arena, const WinterPlan *plan);

#endif
