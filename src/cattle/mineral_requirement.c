#include "cattle/mineral_requirement.h"

#include "cattle/pregnancy.h"

#include <assert.h>
#include <stdbool.h>

#define FETAL_DAYS 90.0

typedef struct {
    double maintenance; /* g per kg shrunk weight */
    double gain;        /* g per g net protein in the gain */
    double milk;        /* g per kg milk */
    double fetal;       /* g per kg calf birth weight, laid down in the last 90 days */
    double absorbed;    /* share of what is eaten */
} MineralFactors;

/* Calcium [NRC_2000 p.55]; phosphorus [NRC_EQUATIONS_2000 ch.5]. */
static const MineralFactors CALCIUM = {0.0154, 0.071, 1.23, 13.7, 0.50};
static const MineralFactors PHOSPHORUS = {0.0160, 0.039, 0.95, 7.6, 0.68};

static bool is_in_last_90_days(const MineralState *state) {
    return state->days_pregnant > GESTATION_DAYS - FETAL_DAYS;
}

/* What must be in the feed.
 *
 *     Ca = (0.0154 SBW + 0.071 NPg + 1.23 Y + 13.7 CBW / 90) / 0.50      g/day
 *     P  = (0.0160 SBW + 0.039 NPg + 0.95 Y +  7.6 CBW / 90) / 0.68      g/day
 *
 * SBW kg; NPg net protein in the gain, g/day; Y milk, kg/day; CBW calf birth weight, kg, its
 * part over the last 90 days only. [NRC_2000 p.55], [NRC_EQUATIONS_2000 ch.5]. */
static GramRate requirement_of(const MineralFactors *factors, const MineralState *state) {
    assert(state->shrunk.kg > 0.0);
    double net_g = factors->maintenance * state->shrunk.kg +
                   factors->gain * state->protein_gain.g_per_day +
                   factors->milk * state->milk.kg_per_day;
    if (is_in_last_90_days(state)) {
        net_g += factors->fetal * state->calf_birth_weight.kg / FETAL_DAYS;
    }
    return (GramRate){net_g / factors->absorbed};
}

GramRate calcium_requirement(const MineralState *state) {
    return requirement_of(&CALCIUM, state);
}

GramRate phosphorus_requirement(const MineralState *state) {
    return requirement_of(&PHOSPHORUS, state);
}
