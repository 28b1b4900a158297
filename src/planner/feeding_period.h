/* Feeding periods: spans in which a group's ration stays the same. One a calendar month, cut
 * where the group changes stage, where a figure of the farm's own begins or ends for it, and
 * where a feed comes or goes. */
#ifndef PLANNER_FEEDING_PERIOD_H
#define PLANNER_FEEDING_PERIOD_H

#include "planner/farm.h"

typedef struct {
    Day from, to; /* both are fed */
} FeedingPeriod;

/* A month's turn within this many days of another cut is left out: nobody changes a ration for
 * less than a week. Own choice. */
#define SHORTEST_PERIOD_DAYS 7

/* The group's periods, in order, covering the winter without gap; returns how many. */
int feeding_periods(Arena *arena, const Farm *farm, const HerdGroup *group,
                    const FeedingPeriod **periods);

#endif
