#include "cattle/lactation.h"

#include <assert.h>

#define DAYS_PER_WEEK 7.0
#define GRAMS_PER_KG_AND_PERCENT 10.0
#define MP_EFFICIENCY 0.65

/* [NRC_EQUATIONS_2000 ch.4]: what the milk of a beef cow is made of when nobody has tested it.
 */
const MilkMake MILK_OF_BEEF_COW = {
    .fat_pct = 4.0, .solids_not_fat_pct = 8.3, .protein_pct = 3.4};

/* Milk through lactation.
 *
 *     Y = n / (a e^(k n)),  k = 1/T,  a = 1 / (PK k e)
 *
 * n week of lactation; T = 8.5 week of the peak; PK peak yield, kg/day; Y kg/day. Written here
 * as Y = PK (n/T) e^(1 - n/T), which is the same. Form [JENKINS_1984], week of the peak
 * [NRC_2000 p.45]. Peaks of 4 to 14 kg for beef and beef cross cows. */
FeedRate milk_yield(FeedRate peak, double days_in_milk) {
    assert(peak.kg_per_day >= 0.0);
    if (days_in_milk <= 0.0) {
        return (FeedRate){0.0};
    }
    const double of_peak_week = days_in_milk / DAYS_PER_WEEK / WEEKS_TO_PEAK_MILK;
    return (FeedRate){peak.kg_per_day * of_peak_week * exp(1.0 - of_peak_week)};
}

/* Energy of the milk, as NEm: milk is made with the efficiency of maintenance.
 *
 *     NE = Y (0.092 MF + 0.049 SNF - 0.0569)      Mcal/day
 *
 * Y kg/day; MF fat, SNF solids not fat, % of milk. [NRC_EQUATIONS_2000 ch.4]. */
EnergyRate lactation_energy(FeedRate milk, MilkMake make) {
    assert(milk.kg_per_day >= 0.0);
    const double mcal_per_kg = 0.092 * make.fat_pct + 0.049 * make.solids_not_fat_pct - 0.0569;
    return (EnergyRate){milk.kg_per_day * mcal_per_kg};
}

/* Metabolizable protein for the milk.
 *
 *     MP = 10 Y P / 0.65      g/day;  Y kg/day; P protein, % of milk
 *
 * [NRC_EQUATIONS_2000 ch.10]. */
GramRate lactation_protein(FeedRate milk, MilkMake make) {
    assert(milk.kg_per_day >= 0.0);
    const double net_g = milk.kg_per_day * make.protein_pct * GRAMS_PER_KG_AND_PERCENT;
    return (GramRate){net_g / MP_EFFICIENCY};
}
