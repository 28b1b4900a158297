/* Cautions of the limits a ration or a feed alone is held to: feeds kept out for their nitrate,
 * feeds high in it that are fed, and figures beyond a caution line. */
#ifndef OUTCOME_LIMIT_CAUTIONS_H
#define OUTCOME_LIMIT_CAUTIONS_H

#include "outcome/caution_list.h"

/* Whether a figure is beyond the caution line of its limit. */
bool is_beyond_warn(const LimitOutcome *outcome);

void limit_cautions(Cautions *cautions);

#endif
