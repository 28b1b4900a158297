/* Whether a stack was sampled well enough, and lately enough, to go by. The rules are this
 * project's own within common advice. docs/equations/sampling.md */
#ifndef STOCK_STACK_SAMPLING_H
#define STOCK_STACK_SAMPLING_H

#include "stock/stack.h"

#define BALES_TO_CORE 20   /* or all, where there are fewer [NFTA_SAMPLING] */
#define PLACES_TO_SAMPLE 5 /* of a face: 3 to 5 [FEED_SAMPLING_SLIDES] */

typedef enum {
    SAMPLING_NOTHING_TO_SAY, /* not tested, not forage, or well done */
    SAMPLING_NOT_SAID,       /* of how many bales or places */
    SAMPLING_TOO_FEW
} SamplingVerdict;

bool stack_is_in_bales(const Stack *stack);
double stack_cores_wanted(const Stack *stack); /* bales, or places of a face */
SamplingVerdict stack_sampling(const Stack *stack);

#define MOST_DAYS_OF_HAY_TEST MOST_TEST_DAYS
#define MOST_DAYS_OF_SILAGE_TEST 30 /* the face moves on, and so does the feed */

/* From the newest test to the first day it may be fed; false when no day is known. */
bool stack_test_days(const Stack *stack, int *days);
bool stack_test_is_old(const Stack *stack);

#endif
