/* Net energy for maintenance. docs/equations/maintenance.md */
#ifndef CATTLE_MAINTENANCE_H
#define CATTLE_MAINTENANCE_H

#include "base/quantity.h"
#include <stdbool.h>

/* Full live weight to shrunk: 0.96. */
Mass shrunk_weight(Mass live_weight);
/* What shrunk weight gains where live weight, as a scale shows it, gains so much; and back. */
FeedRate shrunk_gain_of(FeedRate live_gain);
FeedRate live_gain_of(FeedRate shrunk_gain);

/* NEm = 0.077 SBW^0.75 in a thermoneutral pen. Holds for 150 to 1,000 kg shrunk. */
EnergyRate fasting_energy(Mass shrunk);

typedef struct {
    double breed;        /* 0.90 Bos indicus, 1.00 beef, 1.20 dairy and dual purpose */
    double sex;          /* 1.15 intact bull, else 1.00 */
    double lactation;    /* 1.20 while milking, else 1.00 */
    double compensation; /* 0.80 + 0.05 (CS - 1) for growing stock off poor feed; 1 for cows */
} MaintenanceFactors;

EnergyRate maintenance_energy(Mass shrunk, MaintenanceFactors factors);

double compensation_factor(double condition_score_9);

/* Acclimatisation by last month's mean temperature: adds 0.0007 (20 - T) per kg^0.75 below 20
 * C. An alternative to the coat and wind-chill table, never both. */
EnergyRate acclimatisation_energy(Mass shrunk, Temperature previous_month_mean);

/* Walking and grazing on bales or swaths; zero for yard-fed cattle.
 * pasture intake kg DM/day, its TDN share 0..1, terrain 1 flat to 2 hilly, available t DM/ha.
 */
EnergyRate grazing_activity_energy(Mass live_weight, FeedRate grazed, double tdn_share,
                                   double terrain, double available_tonnes_per_ha);

#endif
