#include "stock/stack_sampling.h"
#include <math.h>

bool stack_is_in_bales(const Stack *stack) {
    return stack->kind == STACK_ROUND_BALES || stack->kind == STACK_SQUARE_BALES ||
           stack->kind == STACK_BALE_TUBE;
}

double stack_cores_wanted(const Stack *stack) {
    if (!stack_is_in_bales(stack))
        return PLACES_TO_SAMPLE;
    return stack->bale_count > 0.0 ? fmin(stack->bale_count, BALES_TO_CORE) : BALES_TO_CORE;
}

SamplingVerdict stack_sampling(const Stack *stack) {
    const Feedstuff *feed = &stack->feed;
    if (feed->sample_count == 0 || !feed_class_kind(feed->feed_class)->is_forage)
        return SAMPLING_NOTHING_TO_SAY;
    if (feed->sampling.cores_said_count == 0)
        return SAMPLING_NOT_SAID;
    const int not_said = feed->sample_count - feed->sampling.cores_said_count;
    return feed->core_count + not_said < stack_cores_wanted(stack) ? SAMPLING_TOO_FEW
                                                                   : SAMPLING_NOTHING_TO_SAY;
}

static bool is_silage(const Stack *stack) {
    return feed_class_kind(stack->feed.feed_class)->is_forage &&
           stack->feed.analysis.dry_matter.value < MOST_DRY_MATTER_OF_SILAGE;
}

bool stack_test_days(const Stack *stack, int *days) {
    const Sampling *sampling = &stack->feed.sampling;
    if (!sampling->has_date)
        return false;
    *days = calendar_days_between(sampling->newest, stack->allowance.from);
    return true;
}

bool stack_test_is_old(const Stack *stack) {
    int days;
    return stack_test_days(stack, &days) &&
           days > (is_silage(stack) ? MOST_DAYS_OF_SILAGE_TEST : MOST_DAYS_OF_HAY_TEST);
}
