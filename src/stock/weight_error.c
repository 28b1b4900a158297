#include "stock/weight_error.h"
#include <math.h>

typedef struct {
    double on_scale, by_size, by_eye;
} WeightErrors;

/* Shares. Of bales by eye: farmers and agents missed the true mean by 100 lb of about 1,200
 * [HFG_BALE_WEIGHT], and a mean miss is 0.80 of a standard error. The others are this project's
 * own choice: a density of a table is as far from the one in the yard as those of one table
 * differ (a bag's 152 to 240 kg/m3, a quarter of pits reaching the density aimed at), and the
 * eye is worse than the tape. */
static WeightErrors errors_of(StackKind kind) {
    switch (kind) {
    case STACK_ROUND_BALES:
    case STACK_SQUARE_BALES:
        return (WeightErrors){0.015, 0.09, 0.10};
    case STACK_BALE_TUBE:
    case STACK_BAG:
    case STACK_SILO:
        return (WeightErrors){0.02, 0.09, 0.15};
    case STACK_BIN:
        return (WeightErrors){0.01, 0.04, 0.08};
    case STACK_PIT:
    case STACK_PILE:
    case STACK_WEDGE:
    case STACK_LOW_STACK:
    case STACK_HIGH_STACK:
    case STACK_FLAT_STACK:
    case STACK_ROUND_STACK:
    case STACK_LOOSE:
    case STACK_KIND_COUNT:
        break;
    }
    return (WeightErrors){0.04, 0.12, 0.20};
}

/* Bales of one stack differ by 7 %, and 2 % stays however many are weighed: the scale, the
 * count, the pick [OWN_CHOICE]. */
#define BALE_DEVIATION_SHARE 0.07
#define REMAINING_ERROR_SHARE 0.02

double weight_error_share(StackKind kind, WeightKnown known, double weighed) {
    const WeightErrors errors = errors_of(kind);
    switch (known) {
    case WEIGHT_ON_SCALE:
        return errors.on_scale;
    case WEIGHT_OF_SOME_BALES:
        return fmin(sqrt(BALE_DEVIATION_SHARE * BALE_DEVIATION_SHARE / weighed +
                         REMAINING_ERROR_SHARE * REMAINING_ERROR_SHARE),
                    errors.by_eye);
    case WEIGHT_BY_SIZE:
        return errors.by_size;
    case WEIGHT_BY_EYE:
        break;
    }
    return errors.by_eye;
}
