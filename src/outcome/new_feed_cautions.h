/* What is said where cattle get other forage, or other grain, from one day to the next. */
#ifndef OUTCOME_NEW_FEED_CAUTIONS_H
#define OUTCOME_NEW_FEED_CAUTIONS_H

#include "outcome/caution_list.h"

void new_feed_cautions(Cautions *cautions);

#endif
