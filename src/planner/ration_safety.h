/* The lines of the safety table that hold for a group in a period, as limits of its ration. */
#ifndef PLANNER_RATION_SAFETY_H
#define PLANNER_RATION_SAFETY_H

#include "planner/ration_row.h"

/* Every line of models/coefficients/safety-limits.csv that touches one of the feeds, as a limit
 * without its bounds: [limits of the farm], key NULL where there is none. */
const RationLimit *ration_safety_table(Arena *arena, const PlanQuestion *question);

/* Adds every line of that table that holds for these cattle. What can poison never gives, but
 * for sulfur and salt that tested water brings; the share of straw, a floor, and a balance of
 * minerals, may when the winter is short. */
void ration_safety_add(RationRows *rows);

#endif
