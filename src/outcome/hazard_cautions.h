/* Cautions of what is seldom tested or lies outside the ration: toxins, plants, water, bunk,
 * ionophores. */
#ifndef OUTCOME_HAZARD_CAUTIONS_H
#define OUTCOME_HAZARD_CAUTIONS_H

#include "outcome/caution_list.h"

void hazard_cautions(Cautions *cautions);

#endif
