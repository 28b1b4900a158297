/* Places in a question by the names a test knows them by; a test that asks for what is not
 * there fails. */
#ifndef SUPPORT_FOUND_IN_H
#define SUPPORT_FOUND_IN_H

#include "planner/plan_question.h"

int found_feed(const PlanQuestion *question, const char *name);

/* The period of the group that the day is in. */
int found_block(const PlanQuestion *question, const char *group, Day day);

#endif
