#include "cattle/dry_matter_intake.h"

#include <assert.h>

#define LEAST_DIVISOR 0.95      /* Mcal NEm per kg */
#define INTAKE_PER_KG_MILK 0.20 /* kg DM */
#define FATNESS_ROWS 5

/* Coefficients of n^2, n and 1 per kg SBW^0.75, n the diet's NEm in Mcal/kg.
 * [NRC_EQUATIONS_2000 ch.7], kept for cows in [NASEM_2016]. Growing forms hold for 1.0 to 2.35
 * Mcal/kg, cow forms for 0.95 to 1.6. */
static const IntakeLaw PUBLISHED[] = {
    [INTAKE_PREGNANT_COW] = {0.04997, 0.0, 0.04631, 0.0},
    [INTAKE_OPEN_COW] = {0.04997, 0.0, 0.03840, 0.0},
    [INTAKE_NURSING_COW] = {0.04997, 0.0, 0.03840, INTAKE_PER_KG_MILK}, /* added per kg milk */
    [INTAKE_CALF] = {-0.0466, 0.2435, -0.1128, 0.0},
    [INTAKE_YEARLING] = {-0.0466, 0.2435, -0.0869, 0.0},
};

IntakeLaw intake_law(IntakeForm form, FeedRate milk, double correction) {
    assert(milk.kg_per_day >= 0.0 && correction > 0.0);
    const IntakeLaw published = PUBLISHED[form];
    return (IntakeLaw){
        .square = correction * published.square,
        .linear = correction * published.linear,
        .constant = correction * published.constant,
        .added = correction * published.added * milk.kg_per_day,
    };
}

IntakeLaw intake_law_add(IntakeLaw a, IntakeLaw b, double share) {
    return (IntakeLaw){
        .square = a.square + share * b.square,
        .linear = a.linear + share * b.linear,
        .constant = a.constant + share * b.constant,
        .added = a.added + share * b.added,
    };
}

/* What the law gives on this diet.
 *
 *     DMI = SBW^0.75 (square n^2 + linear n + constant) / max(n, 0.95) + added      kg DM/day
 *
 * SBW kg; n Mcal NEm per kg DM. [NRC_EQUATIONS_2000 ch.7]; the floor stands under the divisor
 * only, so that straw does not look as if cattle ate more of it the poorer it is. Never below
 * 0. */
FeedRate intake_at(IntakeLaw law, Mass shrunk, EnergyDensity diet_nem) {
    assert(shrunk.kg > 0.0);
    const double n = fmax(diet_nem.mcal_per_kg, 0.0);
    const double per_metabolic_kg =
        (law.square * n * n + law.linear * n + law.constant) / fmax(n, LEAST_DIVISOR);
    const double kg = pow(shrunk.kg, 0.75) * fmax(per_metabolic_kg, 0.0) + law.added;
    return (FeedRate){fmax(kg, 0.0)};
}

/* Steps of [NRC_EQUATIONS_2000 ch.7], joined by straight lines so that a heavier animal never
 * jumps. */
double fatness_intake_factor(Mass equivalent) {
    static const double WEIGHT_KG[FATNESS_ROWS] = {350, 400, 450, 500, 550};
    static const double FACTOR[FATNESS_ROWS] = {1.00, 0.97, 0.90, 0.82, 0.73};
    if (equivalent.kg <= WEIGHT_KG[0]) {
        return FACTOR[0];
    }
    for (int row = 1; row < FATNESS_ROWS; row++) {
        if (equivalent.kg <= WEIGHT_KG[row]) {
            const double share =
                (equivalent.kg - WEIGHT_KG[row - 1]) / (WEIGHT_KG[row] - WEIGHT_KG[row - 1]);
            return FACTOR[row - 1] + share * (FACTOR[row] - FACTOR[row - 1]);
        }
    }
    return FACTOR[FATNESS_ROWS - 1];
}
