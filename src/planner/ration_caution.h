/* What passing a caution line weighs in the choice of rations. The lines of the table of safety
 * limits have two numbers: past the hard one no ration goes, past the other it may, and is
 * reckoned dearer for it:
 *
 *     weight = caution_price * way gone / way from warn to hard     dollars a head and day
 *
 * in a straight line, so that a ration at the hard number weighs the whole price. It is no
 * money: no cost of feed that is told holds it, and what does is said to be weighed. The way of
 * a ratio is reckoned at a usual intake of a usual ration, which keeps it linear. */
#ifndef PLANNER_RATION_CAUTION_H
#define PLANNER_RATION_CAUTION_H

#include "planner/ration_limit.h"

/* Whether some mix of the `count` feeds that may be fed, numbers in `feed`, could pass a line
 * of a limit of the safety table: where none can, no row need hold it. */
bool limit_can_be_passed(const RationLimit *limit, double line, const int *feed, int count);

/* Whether a row holds the caution line of a limit for a block: it has a price, and some mix
 * of the feeds could pass it. */
bool caution_is_held(const RationLimit *limit, const int *feed, int count);

/* What a ration at the bound is beyond the row of the caution line, in the row's terms. */
double caution_way(const RationLimit *limit, const Requirement *need);

/* How far of that way a ration goes; 0 within the line. A little past 1 it may go where it
 * holds more than is usual of what a ratio is of. */
double caution_share(const RationLimit *limit, const Requirement *need, int feed_count,
                     const double *eaten);

/* Dollars a head and day that a kg of dry matter of a feed weighs for what it is beyond the
 * caution lines on each feed alone: the whole price for a ration of nothing else that is at the
 * hard line. */
double caution_of_feed(const PlanQuestion *question, int block, int feed);

/* Dollars a head and day that a ration weighs, [feed_count] kg eaten; limits of the block. */
double caution_of_ration(const PlanQuestion *question, int block,
                         const RationLimit *const *limits, int limit_count,
                         const double *eaten);

#endif
