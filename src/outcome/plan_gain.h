/* Growing cattle that gain more than was asked, and what sets their ration instead. */
#ifndef OUTCOME_PLAN_GAIN_H
#define OUTCOME_PLAN_GAIN_H

#include "outcome/plan_findings.h"

typedef enum {
    GAIN_AS_ASKED,  /* within 1 %, or nothing was asked */
    GAIN_BY_LIMIT,  /* another need holds the ration up */
    GAIN_BY_EVENING /* no need does: the ration was evened out with those beside it */
} GainCause;

/* Of a balanced plan. `limit` is told for GAIN_BY_LIMIT, else NULL. */
GainCause plan_gain_cause(const WinterPlan *plan, int block, const RationLimit **limit);

/* "More gain than asked: ..." of the blocks of a group; "" when they gain what was asked. */
const char *plan_gain_words(Arena *arena, const WinterPlan *plan, int first, int count);

#endif
