#include "cattle/growth.h"

#include <assert.h>

#define EMPTY_BODY_SHARE 0.891 /* of shrunk weight, growing cattle */
#define EMPTY_GAIN_SHARE 0.956 /* of shrunk gain */
#define HEAVY_FROM_KG 300.0

/* Weight of an animal of standard frame at the same stage of fattening.
 *
 *     EQSBW = SBW * 478 / FSBW      kg; FSBW final shrunk weight: of a steer at small marbling,
 *                                   of a heifer at maturity
 *
 * [NRC_EQUATIONS_2000 ch.3]. */
Mass equivalent_weight(Mass shrunk, Mass final_shrunk) {
    assert(shrunk.kg > 0.0 && final_shrunk.kg > 0.0);
    return (Mass){shrunk.kg * STANDARD_REFERENCE_WEIGHT_KG / final_shrunk.kg};
}

/* Energy kept in the gain.
 *
 *     RE = 0.0635 EQEBW^0.75 EBG^1.097      Mcal/day
 *
 * EQEBW = 0.891 EQSBW, kg; EBG = 0.956 SWG, kg/day; SWG shrunk gain. [GARRETT_1980] as used in
 * [NRC_EQUATIONS_2000 ch.3]. Holds for 150 to 550 kg and up to 2.5 kg/day. */
EnergyRate retained_energy(Mass equivalent, FeedRate shrunk_gain) {
    assert(equivalent.kg > 0.0);
    if (shrunk_gain.kg_per_day <= 0.0) {
        return (EnergyRate){0.0};
    }
    const double empty_weight_kg = EMPTY_BODY_SHARE * equivalent.kg;
    const double empty_gain_kg = EMPTY_GAIN_SHARE * shrunk_gain.kg_per_day;
    return (EnergyRate){0.0635 * pow(empty_weight_kg, 0.75) * pow(empty_gain_kg, 1.097)};
}

/* Gain from the energy left over.
 *
 *     SWG = 13.91 RE^0.9116 EQSBW^-0.6837      kg/day;  RE Mcal/day; EQSBW kg
 *
 * [NRC_EQUATIONS_2000 ch.3]. The printed inverse of the equation above, rounded by its authors.
 */
FeedRate gain_from_energy(Mass equivalent, EnergyRate retained) {
    assert(equivalent.kg > 0.0);
    if (retained.mcal_per_day <= 0.0) {
        return (FeedRate){0.0};
    }
    return (FeedRate){13.91 * pow(retained.mcal_per_day, 0.9116) * pow(equivalent.kg, -0.6837)};
}

/* Net protein in the gain.
 *
 *     NPg = SWG (268 - 29.4 RE / SWG)      g/day, never below 0
 *
 * SWG kg/day; RE Mcal/day. [NRC_EQUATIONS_2000 ch.3]. The bracket falls below 0 past 9.1 Mcal
 * per kg of gain, fatter than any gain the equation was fitted to. */
GramRate protein_in_gain(EnergyRate retained, FeedRate shrunk_gain) {
    const double net_g = 268.0 * shrunk_gain.kg_per_day - 29.4 * retained.mcal_per_day;
    return (GramRate){fmax(net_g, 0.0)};
}

/* Metabolizable protein for the gain.
 *
 *     MPg = NPg / (0.834 - 0.00114 EQSBW)      g/day; the divisor is 0.492 above 300 kg
 *
 * [NRC_EQUATIONS_2000 ch.3 and ch.10]. */
GramRate gain_protein(Mass equivalent, EnergyRate retained, FeedRate shrunk_gain) {
    assert(equivalent.kg > 0.0);
    const double efficiency = 0.834 - 0.00114 * fmin(equivalent.kg, HEAVY_FROM_KG);
    return (GramRate){protein_in_gain(retained, shrunk_gain).g_per_day / efficiency};
}

/* Daily gain that brings an animal to its target in time; 0 when it is there already.
 *
 *     (target - now) / days      kg/day */
FeedRate gain_to_target(Mass now, Mass target, int days) {
    assert(days > 0);
    return (FeedRate){fmax(target.kg - now.kg, 0.0) / days};
}
