/* Calcium and phosphorus from the factorial equations. docs/equations/minerals.md
 * Needs of the other minerals are rows of models/coefficients/mineral-needs.csv. */
#ifndef CATTLE_MINERAL_REQUIREMENT_H
#define CATTLE_MINERAL_REQUIREMENT_H

#include "base/quantity.h"

typedef struct {
    Mass shrunk;
    GramRate protein_gain; /* net protein in the gain */
    FeedRate milk;
    Mass calf_birth_weight; /* 0 when there is no calf coming */
    double days_pregnant;   /* fetal part over the last 90 days */
} MineralState;

GramRate calcium_requirement(const MineralState *state);
GramRate phosphorus_requirement(const MineralState *state);

#endif
