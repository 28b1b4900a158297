/* What is thin or old in the tests of the stacks a plan feeds, in one line. */
#ifndef OUTCOME_SAMPLING_WORDS_H
#define OUTCOME_SAMPLING_WORDS_H

#include "planner/winter_plan.h"

/* "" when there is nothing to say. */
const char *sampling_words(Arena *arena, const WinterPlan *plan);

#endif
