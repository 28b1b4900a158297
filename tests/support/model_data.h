/* A plan's question as data of models/winter-plan.mod: raw facts, from which the model works
 * out every row anew, and the rations at which the curved laws were straightened. */
#ifndef SUPPORT_MODEL_DATA_H
#define SUPPORT_MODEL_DATA_H

#include "base/text.h"
#include "planner/winter_plan.h"

void model_data(Arena *arena, const WinterPlan *plan, Text *out);

#endif
