/* Own feeds held back only because no laboratory looked at them: those the plan reckons with as
 * the worst of their kind. What a test would have to say, and the question when it says so. */
#ifndef PLANNER_UNTESTED_FEED_H
#define PLANNER_UNTESTED_FEED_H

#include "planner/plan_question.h"

typedef struct {
    int feed;
    Nutrient nutrient; /* nitrate, sulfur, dicoumarol or ergot */
    double reckoned;   /* with so much the plan reckons now, in the nutrient's unit */
    double likely;     /* the least that a test can be hoped to find, on the same footing */
} UntestedFeed;

#define ANALYSES_HOLDING_BACK 4

/* By feed, at most ANALYSES_HOLDING_BACK of each; how many. */
int untested_feeds(Arena *arena, const PlanQuestion *question, const UntestedFeed **list);

/* The same question when the plan reckons with so much of it because a laboratory looked. */
PlanQuestion plan_question_with_test(Arena *arena, const PlanQuestion *whole, int feed,
                                     Nutrient nutrient, double reckoned);

/* What a report of one sample says where the plan then reckons with `reckoned`: less where the
 * plan raises a single sample for the rest of the stack. */
double reported_by_one_sample(Nutrient nutrient, double reckoned);

/* Tests that say no more than this apart are one, in the nutrient's unit. */
double test_step(Nutrient nutrient);

#endif
