/* Everything read of a farm: plain values from here on; nothing below can fail on input. */
#ifndef PLANNER_FARM_H
#define PLANNER_FARM_H

#include "cattle/mineral_need.h"
#include "cattle/own_need.h"
#include "cattle/requirement_table.h"
#include "cattle/safety_limit.h"
#include "cattle/weather.h"
#include "cattle/winter.h"
#include "stock/field.h"
#include "stock/inventory.h"

typedef struct {
    Herd herd;
    Winter winter;
    Weather weather;
    Inventory inventory;
    const MineralNeeds *minerals;
    const RequirementTable *requirement_table; /* the alternative to the equations */
    SafetyLimits limits;
    OwnNeeds own_needs; /* a nutritionist's own figures */
    const BookValues *book;
    const Handling *handling;
    const GrowthCurves *curves;
    const HarvestWays *ways;
    Fields fields; /* of next year: for the planning of its cut only */
} Farm;

#endif
