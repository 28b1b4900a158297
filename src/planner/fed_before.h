/* What a group is used to on the first morning of the rest of a winter: by the last plan that
 * was kept, and by what was written down of own feed where that is less. Never more than is
 * sure: a step-up that begins too low costs some days, and one that begins too high costs
 * cattle. */
#ifndef PLANNER_FED_BEFORE_H
#define PLANNER_FED_BEFORE_H

#include "planner/plan_question.h"

/* A ration of the last plan counts as far as it was the same for so many days: by then whatever
 * it brought in by steps is in. Own choice. */
#define USED_TO_DAYS 28
#define RECORD_WEEKS 2 /* of which the poorer counts, over its days; own choice */

typedef struct {
    bool is_known;
    const double *kg; /* [feed_count] as fed put out a head and day; meaningless unless known */
} FedBefore;

FedBefore fed_before(Arena *arena, const PlanQuestion *question, int group);

#endif
