/* How far the weight of a stack may be from what is written: one standard error, as a share of
 * it. docs/equations/inventory.md */
#ifndef STOCK_WEIGHT_ERROR_H
#define STOCK_WEIGHT_ERROR_H

#include "stock/stack.h"

typedef enum {
    WEIGHT_ON_SCALE,      /* all of it */
    WEIGHT_OF_SOME_BALES, /* of so many, times the count */
    WEIGHT_BY_SIZE,       /* measured with a tape, times a density */
    WEIGHT_BY_EYE         /* nobody says how it was found */
} WeightKnown;

/* `weighed` bales, of WEIGHT_OF_SOME_BALES. */
double weight_error_share(StackKind kind, WeightKnown known, double weighed);

#endif
