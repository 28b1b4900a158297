/* The plan of a winter that keeps the rules of the yard, where they can be kept: found after
 * the plan without them, whose rations say what is wanted. In a winter that is short a rule is
 * kept only where no need gets shorter for it: cattle come first. */
#ifndef PLANNER_YARD_PLAN_H
#define PLANNER_YARD_PLAN_H

#include "planner/winter_plan.h"
#include "planner/yard_search.h"

struct YardOutcome {
    YardRules asked, kept;
    const bool *not_whole; /* [block_count * feed_count] bales that are not whole, though the
                              rule is kept elsewhere, or all of them where it is not */
    const WinterPlan *without; /* the plan were there no rules */
    double gap;          /* share of the feed's cost that a better choice could save at most */
    bool is_proved;      /* that share is within YARD_GAP: as good as the least */
    const double *loads; /* [feed_count] whole loads bought; NAN where not by the load */
    const double *left_kg;        /* [feed_count] as fed, bought and not fed */
    YardChoice choice;            /* meaningful when any is kept */
    const LinearProgram *program; /* of that choice, with its whole columns free */
};

/* plan_winter where no rule is on. */
WinterPlan plan_with_yard_rules(Arena *arena, const PlanQuestion *question);

#endif
