#include "outcome/plan_guides.h"
#include "base/text.h"
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

/* False when there is no guide, or nothing is eaten. */
static bool guide_share(const WinterPlan *plan, Nutrient nutrient, double *least,
                        double *most) {
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

const char *plan_guide_words(Arena *arena, const WinterPlan *plan, SourceKey *source) {
    const MineralNeeds *minerals = plan->question->farm->minerals;
    Text words = text_new(arena);
    text_add(&words, "");
    *source = SOURCE_NONE;
    for (int n = 0; n < NUTRIENT_COUNT; n++) {
        const NutrientKind *kind = nutrient_kind((Nutrient)n);
        double least;
        double most;
        if (!guide_share(plan, (Nutrient)n, &least, &most))
            continue;
        text_print(&words, "%s%s is not planned for: minerals alone bring ",
                   words.length > 0 ? "; " : "", kind->label);
        if (round(most * 100.0) > round(least * 100.0))
            text_print(&words, "%.0f to ", least * 100.0);
        text_print(&words, "%.0f %% of the guide, %g %s", most * 100.0, minerals->guide[n],
                   kind->unit);
        *source = minerals->source[n];
    }
    return words.bytes;
}
