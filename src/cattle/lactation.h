/* Milk: yield through lactation, its energy and protein. docs/equations/lactation.md */
#ifndef CATTLE_LACTATION_H
#define CATTLE_LACTATION_H

#include "base/quantity.h"

#define WEEKS_TO_PEAK_MILK 8.5

/* Y = n / (a e^(k n)), k = 1/8.5, peak at 8.5 weeks; days_in_milk <= 0 gives 0. */
FeedRate milk_yield(FeedRate peak, double days_in_milk);

typedef struct {
    double fat_pct, solids_not_fat_pct, protein_pct;
} MilkMake;

extern const MilkMake MILK_OF_BEEF_COW; /* 4.0, 8.3, 3.4 % */

EnergyRate lactation_energy(FeedRate milk, MilkMake make);
GramRate lactation_protein(FeedRate milk, MilkMake make); /* metabolizable protein */

#endif
