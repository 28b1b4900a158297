/* Gain of growing cattle, both ways. docs/equations/growth.md */
#ifndef CATTLE_GROWTH_H
#define CATTLE_GROWTH_H

#include "base/quantity.h"

#define STANDARD_REFERENCE_WEIGHT_KG 478.0 /* small marbling; heifers at mature weight */

/* Equivalent shrunk weight: shrunk * 478 / final shrunk weight. */
Mass equivalent_weight(Mass shrunk, Mass final_shrunk);

/* Energy kept in a shrunk gain (>= 0) of kg/day, and back. */
EnergyRate retained_energy(Mass equivalent, FeedRate shrunk_gain);
FeedRate gain_from_energy(Mass equivalent, EnergyRate retained);

/* Net protein in the gain, g/day, never below 0; and the metabolizable protein it takes. */
GramRate protein_in_gain(EnergyRate retained, FeedRate shrunk_gain);
GramRate gain_protein(Mass equivalent, EnergyRate retained, FeedRate shrunk_gain);

/* Target weights of a replacement heifer as shares of mature weight [NRC_2000 ch.3]. */
#define SHARE_AT_BREEDING 0.60
#define SHARE_AT_FIRST_CALVING 0.80
FeedRate gain_to_target(Mass now, Mass target, int days);

#endif
