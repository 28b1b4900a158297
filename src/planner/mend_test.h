/* Tests as mends: which are tried, and the question when a laboratory has looked. For mend.c
 * alone. */
#ifndef PLANNER_MEND_TEST_H
#define PLANNER_MEND_TEST_H

#include "planner/mend.h"

#define MOST_TEST_PAIRS 10

/* Each test that could mend it, or each two of them, at most MOST_TEST_PAIRS; how many. */
int tests_to_try(Arena *arena, const PlanQuestion *question, bool together, const Mend **list);

PlanQuestion plan_question_as_tested(Arena *arena, const PlanQuestion *question,
                                     const Mend *mend, double amount);

#endif
