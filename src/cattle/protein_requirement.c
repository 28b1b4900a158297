#include "cattle/protein_requirement.h"

#include <assert.h>

/* Metabolizable protein for maintenance.
 *
 *     MP = 3.8 SBW^0.75      g/day; SBW kg
 *
 * [WILKERSON_1993], used in [NRC_EQUATIONS_2000 ch.3]. Never times the energy factor of milking
 * cows. */
GramRate maintenance_protein(Mass shrunk) {
    assert(shrunk.kg > 0.0);
    return (GramRate){3.8 * pow(shrunk.kg, 0.75)};
}

/* Microbial crude protein that the energy of the diet allows.
 *
 *     0.10 TDN                [GALYEAN_2024]
 *     0.13 TDN                [NRC_2000 p.17]
 *     0.087 TDN + 42.73 g     [GALYEAN_2014], used in [NASEM_2016]; diets below 3.9% fat
 *
 * TDN eaten, g/day here; protein g/day. */
GramRate microbial_protein(MicrobialForm form, FeedRate tdn_intake) {
    assert(tdn_intake.kg_per_day >= 0.0);
    const double tdn_g = tdn_intake.kg_per_day * GRAMS_PER_KG;
    switch (form) {
    case MICROBIAL_TEN_PERCENT:
        return (GramRate){0.10 * tdn_g};
    case MICROBIAL_THIRTEEN_PERCENT:
        return (GramRate){0.13 * tdn_g};
    case MICROBIAL_2016:
        return (GramRate){0.087 * tdn_g + 42.73};
    }
    assert(!"a microbial form that is not in the list");
    return (GramRate){0.0};
}

/* Metabolizable protein the diet supplies.
 *
 *     MP = 0.64 min(MCP, RDP) + 0.80 RUP      g/day
 *
 * MCP microbial protein the energy allows, RDP protein degraded in the rumen, RUP undegraded.
 * [NRC_EQUATIONS_2000 ch.10]; 0.64 and 0.80 as restated in [LANGSTON]. */
GramRate metabolizable_protein_supply(GramRate microbial, GramRate degraded,
                                      GramRate undegraded) {
    const double made_g = fmin(microbial.g_per_day, degraded.g_per_day);
    return (GramRate){MP_PER_MICROBIAL_PROTEIN * made_g +
                      MP_PER_UNDEGRADED_PROTEIN * undegraded.g_per_day};
}
