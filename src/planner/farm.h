/* Everything read of a farm: plain values from here on; nothing below can fail on input. */
#ifndef PLANNER_FARM_H
#define PLANNER_FARM_H

#include "cattle/head_change.h"
#include "cattle/mineral_need.h"
#include "cattle/own_need.h"
#include "cattle/requirement_table.h"
#include "cattle/safety_limit.h"
#include "cattle/weather.h"
#include "cattle/winter.h"
#include "stock/field.h"
#include "stock/stack_book.h"

typedef struct {
    Day from, to; /* both are fed */
    const char *group, *feed;
    double kg_per_day;   /* as fed, put out for the whole group */
    double cost_per_day; /* of that: price or value, and hauling */
    double head;         /* that ate it; 0: a file that does not say */
} KeptRation;

/* The last plan that was kept: kept_plan.h */
typedef struct {
    KeptRation *rations;
    int count;
    Day first_day, last_day; /* of all; meaningless with none */
} KeptPlan;

typedef struct {
    Herd herd;
    Winter winter;
    Weather weather;
    Inventory inventory;
    const MineralNeeds *minerals;
    const RequirementTable *requirement_table; /* the alternative to the equations */
    SafetyLimits limits;
    OwnNeeds own_needs;       /* a nutritionist's own figures */
    HeadChanges head_changes; /* after the first day still to feed */
    FeedRecord record;        /* fed.csv and counts.csv */
    KeptPlan kept;            /* none where there is no last-plan.csv */
    bool is_rest_of_winter;   /* farm_from.h: the inventory is what was left */
    Inventory as_counted;     /* then: as it was before */
    const BookValues *book;
    const Handling *handling;
    const GrowthCurves *curves;
    const HarvestWays *ways;
    Fields fields; /* of next year: for the planning of its cut only */
    const BookDensities *densities;
} Farm;

#endif
