/* Which feeds a group may have in a period, and the limit that keeps a feed from it. For
 * plan_question.c, which remembers both. */
#ifndef PLANNER_FEED_PERMISSION_H
#define PLANNER_FEED_PERMISSION_H

#include "planner/plan_question.h"

/* barred_by: NULL unless OVER_A_LIMIT. */
Permission feed_permission(const PlanQuestion *question, int block, int feed,
                           const SafetyLimit **barred_by);

/* The first limit under which the block's cattle may have none of a feed: one on each feed
 * alone that it breaks, or one that sets its share at nothing. NULL. */
const SafetyLimit *limit_that_bars(const PlanQuestion *question, int block, int feed);

#endif
