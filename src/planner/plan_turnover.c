#include "planner/plan_turnover.h"
#include <math.h>

static double sum_of(const double *eaten, int count) {
    double sum = 0.0;
    for (int f = 0; f < count; f++)
        sum += eaten[f];
    return sum;
}

/* The share of a ration that is other feed than in the one before: more or less of the same
 * mixture is none. */
static double share_changed(const double *before, const double *now, int count) {
    const double all_before = sum_of(before, count);
    const double all_now = sum_of(now, count);
    if (all_before <= 0.0 || all_now <= 0.0)
        return 1.0;
    double changed = 0.0;
    for (int f = 0; f < count; f++)
        changed += 0.5 * fabs(now[f] / all_now - before[f] / all_before);
    return changed;
}

double plan_turnover(const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    double changed = 0.0;
    double eaten = 0.0;
    for (int b = 1; b < question->block_count; b++) {
        if (question->blocks[b].group != question->blocks[b - 1].group)
            continue;
        const double *now = plan->blocks[b].eaten;
        const double kg = sum_of(now, question->feed_count) * question->blocks[b].head;
        eaten += kg;
        changed += kg * share_changed(plan->blocks[b - 1].eaten, now, question->feed_count);
    }
    return eaten > 0.0 ? changed / eaten : (double)NAN;
}
