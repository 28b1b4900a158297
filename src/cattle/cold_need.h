/* What cold adds to the energy need of one animal, by the coat and wind-chill table or by the
 * heat balance: always one of them, never both. docs/equations/cold-stress.md */
#ifndef CATTLE_COLD_NEED_H
#define CATTLE_COLD_NEED_H

#include "cattle/herd_group.h"
#include "cattle/weather.h"

typedef struct {
    const HerdGroup *group;
    Mass shrunk;
    double condition;           /* 9-point score */
    EnergyRate need;            /* NEm of upkeep, calf and milk, without cold */
    EnergyRate gain;            /* NEg of the gain */
    EnergyRate milk, pregnancy; /* as in the need */
} ColdAnimal;

typedef struct {
    double added; /* NEm, Mcal a day */
    double felt, critical;
} ColdNeed;

ColdNeed cold_need(ColdWay way, const ColdAnimal *animal, Temperature air,
                   const MonthWeather *month);

#endif
