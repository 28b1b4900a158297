/* What is said of straw: of much of it, of coarse feed with little protein, and of cows near
 * calving or in milk that a short winter leaves little else. */
#ifndef OUTCOME_STRAW_CAUTIONS_H
#define OUTCOME_STRAW_CAUTIONS_H

#include "outcome/caution_list.h"

void straw_cautions(Cautions *cautions);

/* A danger for each group that gets more of it near calving or in milk than its share, from the
 * first day on. */
void straw_beyond_cautions(Cautions *cautions);
bool straw_is_beyond_share(const BlockOutcome *block);

#endif
