/* Lines on the whole diet that hold on the average only, where cattle are not fed mixed. */
#ifndef OUTCOME_PICKED_CAUTIONS_H
#define OUTCOME_PICKED_CAUTIONS_H

#include "outcome/caution_list.h"

void picked_cautions(Cautions *cautions);

#endif
