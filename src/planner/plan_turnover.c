#include "planner/plan_turnover.h"
#include <math.h>

double plan_turnover(const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    double changed = 0.0;
    double eaten = 0.0;
    for (int b = 1; b < question->block_count; b++) {
        const double head = question->blocks[b].head;
        if (question->blocks[b].group != question->blocks[b - 1].group)
            continue;
        for (int f = 0; f < question->feed_count; f++) {
            const double before = plan->blocks[b - 1].eaten[f];
            const double now = plan->blocks[b].eaten[f];
            changed += 0.5 * fabs(now - before) * head;
            eaten += now * head;
        }
    }
    return eaten > 0.0 ? changed / eaten : (double)NAN;
}
