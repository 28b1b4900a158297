#include "cattle/maintenance.h"

#include <assert.h>

#define SHRUNK_SHARE 0.96
#define FASTING_MCAL 0.077          /* Mcal per kg^0.75 and day */
#define ACCLIMATISATION_MCAL 0.0007 /* Mcal per kg^0.75, day and degree C */
#define ACCLIMATISATION_FROM_C 20.0
#define MCAL_PER_MEGAJOULE (1.0 / 4.184) /* exact by definition */

static double metabolic_weight(Mass shrunk) {
    assert(shrunk.kg > 0.0);
    return pow(shrunk.kg, 0.75);
}

/* Weight after a night without feed and water.
 *
 *     SBW = 0.96 BW      BW full live weight, SBW shrunk weight, kg
 *
 * [UADA_MP391]. */
Mass shrunk_weight(Mass live_weight) {
    assert(live_weight.kg > 0.0);
    return (Mass){SHRUNK_SHARE * live_weight.kg};
}

/* Gains are differences of weights:
 *
 *     SWG = 0.96 G      G gain of full live weight, SWG of shrunk weight, kg/day
 *
 * from the same [UADA_MP391]; the book's tables and equations of growth are of SWG
 * [NRC_EQUATIONS_2000 ch.3]. */
FeedRate shrunk_gain_of(FeedRate live_gain) {
    return (FeedRate){SHRUNK_SHARE * live_gain.kg_per_day};
}

FeedRate live_gain_of(FeedRate shrunk_gain) {
    return (FeedRate){shrunk_gain.kg_per_day / SHRUNK_SHARE};
}

/* Net energy for maintenance in a thermoneutral pen.
 *
 *     NEm = 0.077 SBW^0.75      SBW kg; NEm Mcal/day
 *
 * [LOFGREEN_1968]; the coefficient as restated in [ZINN_2008].
 * Holds for 150 to 1,000 kg. */
EnergyRate fasting_energy(Mass shrunk) {
    return (EnergyRate){FASTING_MCAL * metabolic_weight(shrunk)};
}

/* The same with what kind of animal it is.
 *
 *     NEm = 0.077 SBW^0.75 * BE * SEX * L * COMP
 *
 * BE breed, SEX 1.15 for an intact bull, L 1.20 while milking, COMP previous plane of feeding;
 * all without unit. Form and breed factors [NRC_EQUATIONS_2000 ch.10]; the fifth for milking
 * also in [UF_AN190]. L is for energy only, never for protein, and ends at weaning. */
EnergyRate maintenance_energy(Mass shrunk, MaintenanceFactors factors) {
    assert(factors.breed > 0.0 && factors.sex > 0.0);
    assert(factors.lactation > 0.0 && factors.compensation > 0.0);
    const double factor =
        factors.breed * factors.sex * factors.lactation * factors.compensation;
    return (EnergyRate){factor * fasting_energy(shrunk).mcal_per_day};
}

/* Growing stock off poor feed needs less, fleshy stock more.
 *
 *     COMP = 0.80 + 0.05 (CS - 1)      CS condition score, 1 to 9; 1.00 at CS 5
 *
 * [NRC_EQUATIONS_2000 ch.10]. */
double compensation_factor(double condition_score_9) {
    assert(condition_score_9 >= 1.0 && condition_score_9 <= 9.0);
    return 0.80 + 0.05 * (condition_score_9 - 1.0);
}

/* A body used to the cold burns more all day.
 *
 *     NE = 0.0007 (20 - Tp) SBW^0.75      Tp mean of the previous month, C; Mcal/day
 *
 * Nothing from 20 C up. [NRC_EQUATIONS_2000 ch.1]. */
EnergyRate acclimatisation_energy(Mass shrunk, Temperature previous_month_mean) {
    const double degrees_below = ACCLIMATISATION_FROM_C - previous_month_mean.celsius;
    if (degrees_below <= 0.0) {
        return (EnergyRate){0.0};
    }
    return (EnergyRate){ACCLIMATISATION_MCAL * degrees_below * metabolic_weight(shrunk)};
}

/* Walking to feed and biting it off.
 *
 *     NE = (0.006 pI (0.9 - TDNp) + 0.05 TER / (pAVAIL + 3)) BW / 4.184
 *
 * pI pasture eaten, kg DM/day; TDNp its TDN as a share; TER terrain, 1 flat to 2 hilly; pAVAIL
 * standing feed, t DM/ha; BW live weight, kg; NE Mcal/day. [NRC_EQUATIONS_2000 ch.10]. */
EnergyRate grazing_activity_energy(Mass live_weight, FeedRate grazed, double tdn_share,
                                   double terrain, double available_tonnes_per_ha) {
    assert(live_weight.kg > 0.0 && available_tonnes_per_ha >= 0.0);
    if (grazed.kg_per_day <= 0.0) {
        return (EnergyRate){0.0};
    }
    const double eating = 0.006 * grazed.kg_per_day * fmax(0.9 - tdn_share, 0.0);
    const double walking = 0.05 * terrain / (available_tonnes_per_ha + 3.0);
    return (EnergyRate){(eating + walking) * live_weight.kg * MCAL_PER_MEGAJOULE};
}
