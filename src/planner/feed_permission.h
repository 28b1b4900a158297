/* Which feeds a group may have in a period, and the limit that keeps a feed from it. For
 * plan_question.c, which remembers both. */
#ifndef PLANNER_FEED_PERMISSION_H
#define PLANNER_FEED_PERMISSION_H

#include "planner/plan_question.h"

/* barred_by: NULL unless OVER_A_LIMIT. Of a feed that hangs on others the permissions of these
 * have to stand in the question already. */
Permission feed_permission(const PlanQuestion *question, int block, int feed,
                           const SafetyLimit **barred_by);

/* Whether it may be fed hangs on what else the cattle may have: urea, on nitrate. */
bool feed_hangs_on_others(const PlanFeed *feed);

/* Of the other feeds the block's cattle may have the one of most nitrate, if with the water it
 * could take their diet above a share; -1. */
int feed_above(const PlanQuestion *question, int block, double nitrate_pct);

/* The first limit under which the block's cattle may have none of a feed: one on each feed
 * alone that it breaks, or one that sets its share at nothing, or one of days
 * that it has not yet lain when the period begins. NULL. */
const SafetyLimit *limit_that_bars(const PlanQuestion *question, int block, int feed);

#endif
