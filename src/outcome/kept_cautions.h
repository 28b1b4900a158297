/* Feeds that some cattle may have none of, for their safety, and why; nitrate aside, which
 * limit_cautions.c tells of. For hazard_cautions.c alone. */
#ifndef OUTCOME_KEPT_CAUTIONS_H
#define OUTCOME_KEPT_CAUTIONS_H

#include "outcome/caution_list.h"

/* Says whom the limit keeps the feed from; nothing where it keeps it from nobody. */
void kept_caution(Cautions *cautions, const SafetyLimit *limit, int feed);

/* A limit on each feed alone, of what a laboratory finds or of bales that heated. */
bool kept_is_hazard(const SafetyLimit *limit);

/* A value such a limit looks at: "700,000 cfu/g". */
const char *kept_value_words(const Cautions *cautions, const SafetyLimit *limit, double value);

#endif
