#include "outcome/comparison.h"
#include "base/text.h"
#include "outcome/plan_cautions.h"
#include "planner/hard_winter.h"
#include <math.h>

Future future_of(Arena *arena, const char *name, const WinterPlan *plan, double own_cost,
                 Units units) {
    const PlanQuestion *question = plan->question;
    Future future = {
        .name = name,
        .own_cost = own_cost,
        .cost_words = "",
        .plan = plan,
        .least = {plan->least_cost, plan->least_cautions},
        .errors = cost_errors(arena, plan),
        .days = days_on_hand(arena, plan),
        .chance_of_turnout = plan->winters ? plan->winters->share : (double)NAN,
    };
    future.caution_count = plan_cautions(arena, plan, units, &future.cautions);
    for (int i = 0; i < future.caution_count; i++) {
        const Caution *of = &future.cautions[i];
        if (i > 0 && text_same(of->topic, future.cautions[i - 1].topic))
            continue;
        future.danger_topics += of->severity == SEVERITY_DANGER;
        future.caution_topics += of->severity == SEVERITY_CAUTION;
    }
    const StackRunout *runouts = stack_runouts(arena, plan);
    for (int f = 0; f < question->own_count; f++) {
        future.left_kg += runouts[f].left_kg;
        future.on_hand_value +=
            question->feeds[f].available_kg * question->feeds[f].value_per_kg;
    }
    for (int b = 0; b < question->block_count; b++)
        future.head_days += question->blocks[b].head * question->blocks[b].days;
    return future;
}

double future_cost(const Future *future) {
    const WinterPlan *plan = future->plan;
    if (!plan || plan->verdict != PLAN_BALANCED)
        return (double)NAN;
    return future->least.money + future->least.cautions + plan->cost.yardage + future->own_cost;
}

#define SAME_HERD_SHARE 1e-3

bool comparison_is_same_herd(const Comparison *comparison, const Future *future) {
    const double as_it_is = comparison->futures[0].head_days;
    return future->plan && fabs(future->head_days - as_it_is) <= SAME_HERD_SHARE * as_it_is;
}

bool comparison_is_ranked(const Comparison *comparison, const Future *future) {
    const WinterPlan *as_it_is = comparison->futures[0].plan;
    return comparison_is_same_herd(comparison, future) && as_it_is &&
           future->plan->question->farm->winter.caution_weight ==
               as_it_is->question->farm->winter.caution_weight;
}

int comparison_cheapest(const Comparison *comparison, int first) {
    int cheapest = -1;
    double least = HUGE_VAL;
    for (int i = first; i < comparison->count; i++) {
        const Future *future = &comparison->futures[i];
        const double cost = future_cost(future);
        if (!comparison_is_ranked(comparison, future) || !(cost < least))
            continue;
        least = cost;
        cheapest = i;
    }
    return cheapest;
}

#define SAME_DOLLARS 1.0

CostDifference comparison_difference(const Future *a, const Future *b) {
    CostDifference of = {future_cost(b) - future_cost(a), (double)NAN, DIFFERENCE_NONE};
    if (isnan(of.more))
        return of;
    of.standard = cost_difference_error(a->plan, a->errors, b->plan, b->errors);
    if (fabs(of.more) < SAME_DOLLARS)
        of.is = DIFFERENCE_NONE;
    else if (fabs(of.more) > ERRORS_OF_A_DIFFERENCE * of.standard)
        of.is = DIFFERENCE_BEYOND_ERROR;
    else
        of.is = DIFFERENCE_WITHIN_ERROR;
    return of;
}
