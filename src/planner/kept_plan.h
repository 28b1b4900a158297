/* A plan kept beside the inventory, to hold the next one against: last-plan.csv, a row for each
 * feed of each group's period. Written by the program; docs/file-formats.md */
#ifndef PLANNER_KEPT_PLAN_H
#define PLANNER_KEPT_PLAN_H

#include "base/text.h"
#include "planner/winter_plan.h"

/* KeptPlan is of farm.h. */

/* bytes NULL: no such file; then, and with a fault, it has no rations. */
KeptPlan kept_plan_parse(Arena *arena, Faults *faults, const char *file, const char *bytes,
                         size_t length);

/* The file of a plan. */
Text kept_plan_text(Arena *arena, const WinterPlan *plan);

/* Planned between two days, both included: kg of one feed, or of all with NULL, and money. */
double kept_plan_kg(const KeptPlan *kept, const char *feed, Day from, Day to);
double kept_plan_cost(const KeptPlan *kept, Day from, Day to);

#endif
