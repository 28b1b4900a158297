/* The page of what feeds for sale cost and are worth. */
#ifndef OUTCOME_WORTH_REPORT_H
#define OUTCOME_WORTH_REPORT_H

#include "outcome/measure.h"
#include "planner/feed_worth.h"

Report *worth_report(Arena *arena, const FeedWorths *worths, Units units);

#endif
