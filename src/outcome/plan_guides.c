#include "outcome/plan_guides.h"
#include <math.h>

double plan_minerals_bring(const WinterPlan *plan, int block, Nutrient nutrient) {
    const PlanQuestion *question = plan->question;
    const BlockOutcome *of = &plan->blocks[block];
    double brought = 0.0;
    if (of->dry_matter_kg <= 0.0)
        return (double)NAN;
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if (feed->feed->feed_class == FEED_CLASS_MINERAL && isfinite(feed->eaten[nutrient]))
            brought += of->eaten[f] * feed->eaten[nutrient];
    }
    return brought / of->dry_matter_kg;
}

bool plan_guide_share(const WinterPlan *plan, Nutrient nutrient, double *least, double *most) {
    const double guide = plan->question->farm->minerals->guide[nutrient];
    *least = INFINITY;
    *most = -INFINITY;
    if (guide <= 0.0)
        return false;
    for (int b = 0; b < plan->question->block_count; b++) {
        const double share = plan_minerals_bring(plan, b, nutrient) / guide;
        if (!isfinite(share))
            continue;
        *least = fmin(*least, share);
        *most = fmax(*most, share);
    }
    return *least <= *most;
}
