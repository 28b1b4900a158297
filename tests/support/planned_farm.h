/* A farm from its draft to its plan, and the loop of a law over many farms. */
#ifndef SUPPORT_PLANNED_FARM_H
#define SUPPORT_PLANNED_FARM_H

#include "planner/winter_plan.h"
#include "support/farm_maker.h"

typedef struct {
    Farm farm;
    PlanQuestion question;
    WinterPlan plan;
} PlannedFarm;

/* The draft written, read and asked about; and planned too. Ends the test when it has a fault.
 */
PlannedFarm *asked_farm(Arena *arena, const FarmDraft *draft);
PlannedFarm *planned_farm(Arena *arena, const FarmDraft *draft);

/* The states the plan's last program took, and the least cost of a question with given states:
 * NAN when it cannot be met. With states held the program is linear, so a law must hold
 * exactly. */
const BlockState *states_of(Arena *arena, const WinterPlan *plan);
double least_cost_with(Arena *arena, const PlanQuestion *question, const BlockState *states);

/* NULL when the law holds for this farm, else what broke, as text of the arena. */
typedef const char *(*Law)(Arena *arena, const FarmDraft *draft, unsigned long long seed);

/* Tries a law on farms 1 to `count` of 2 to 4 groups, 6 to 10 feeds and about 100 days, half of
 * them generous. Prints the seed of every farm that breaks it, then fails. */
void assert_law(Law law, int count);

#endif
