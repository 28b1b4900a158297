/* A winter with more or fewer head of one group, and what one head costs in it. */
#ifndef PLANNER_HEAD_WORTH_H
#define PLANNER_HEAD_WORTH_H

#include "planner/winter_plan.h"

/* The same question with `more` head of a group (fewer when below 0) from a day on. The period
 * that the day falls in has the mean of its head, so that each day's feed is counted. */
PlanQuestion plan_question_with_head(Arena *arena, const PlanQuestion *question, int group,
                                     Day from, double more);

typedef struct {
    double
        head; /* on that day, or on the first after it that there are any; 0: none are left */
    double
        saved_by_fewer;  /* dollars of feed and hauling, of one head fewer; NAN: no such plan */
    double cost_of_more; /* the same of one more */
    double yardage;      /* dollars of one head from that day on */
    /* Head to ship so that nothing but minerals and supplements need be bought: 0 as things
     * stand, -1 not by this group alone. */
    int enough_shipped;
} HeadWorth;

/* From planning anew, at the least cost, without rules of the yard. */
HeadWorth head_worth(const PlanQuestion *question, int group, Day from);

#endif
