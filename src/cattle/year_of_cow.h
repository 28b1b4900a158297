/* A mature cow through the year, month by month since calving, at the end of each month, as
 * tables of requirements are printed: a steady weight, no cold, no change of condition.
 * docs/equations/year-table.md */
#ifndef CATTLE_YEAR_OF_COW_H
#define CATTLE_YEAR_OF_COW_H

#include "base/quantity.h"

#define MONTHS_OF_YEAR 12

typedef struct {
    Mass shrunk, calf_birth_weight;
    FeedRate peak_milk;
} YearCow;

typedef struct {
    double days_in_milk;  /* 0 once the calf is weaned */
    double days_pregnant; /* 0 before she has conceived */
    FeedRate milk;
    EnergyRate maintenance, lactation, pregnancy; /* NEm */
    GramRate protein, calcium, phosphorus;        /* protein metabolizable */
} CowMonth;

/* month 1 to 12. */
CowMonth cow_month(const YearCow *cow, int month);

EnergyRate cow_month_energy(const CowMonth *month); /* the three parts together */

#endif
