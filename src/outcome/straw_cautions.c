#include "outcome/straw_cautions.h"
#include "base/text.h"
#include "outcome/day_words.h"
#include "planner/ration_row.h"

#define MUCH_STRAW 0.30 /* of a diet, from which its care is told; own choice */

/* So is much straw. */
static void add_straw(Cautions *cautions) {
    const WinterPlan *plan = cautions->plan;
    const PlanQuestion *question = plan->question;
    double most = 0.0;
    int block = 0;
    for (int b = 0; b < question->block_count; b++) {
        double straw = 0.0;
        for (int f = 0; f < question->feed_count; f++) {
            if (question->feeds[f].feed->feed_class == FEED_CLASS_STRAW)
                straw += plan->blocks[b].eaten[f];
        }
        if (straw > most * plan->blocks[b].filling_kg * (1.0 + 1e-3)) {
            most = straw / plan->blocks[b].filling_kg;
            block = b;
        }
    }
    if (most >= MUCH_STRAW)
        caution_add(cautions, CAUTION_STRAW, SEVERITY_CAUTION,
                    arena_print(cautions->arena,
                                "Straw is %.0f %% of what %s eat from %s, the most of any",
                                most * 100.0,
                                question->farm->herd.names[question->blocks[block].group],
                                day_short(cautions->arena, question->blocks[block].from)),
                    SOURCE_NONE);
}

/* Coarse feed with little protein stays in the rumen and blocks it [STRAW_IMPACTION]. */
#define COARSE_ADF_PCT 45.0
#define LITTLE_PROTEIN_PCT 8.0

static double held_pct(const WinterPlan *plan, int block, Nutrient nutrient) {
    const BlockOutcome *of = &plan->blocks[block];
    double held = 0.0;
    for (int f = 0; f < plan->question->feed_count; f++)
        held += of->eaten[f] * ration_known_or_none(plan->question->feeds[f].eaten[nutrient]);
    return held / of->dry_matter_kg;
}

/* Of the groups whose ration is both, the coarsest. */
static void add_impaction(Cautions *cautions) {
    const WinterPlan *plan = cautions->plan;
    bool *is_meant = ARENA_ARRAY(cautions->arena, bool, plan->question->farm->herd.count);
    double coarsest = COARSE_ADF_PCT;
    int worst = -1;
    for (int b = 0; b < plan->question->block_count; b++) {
        const double adf = held_pct(plan, b, NUTRIENT_ADF);
        if (!(adf > COARSE_ADF_PCT) ||
            !(held_pct(plan, b, NUTRIENT_CRUDE_PROTEIN) < LITTLE_PROTEIN_PCT))
            continue;
        is_meant[plan->question->blocks[b].group] = true;
        worst = adf > coarsest ? b : worst;
        coarsest = fmax(coarsest, adf);
    }
    if (worst >= 0)
        caution_add(cautions, CAUTION_STRAW, SEVERITY_CAUTION,
                    arena_print(cautions->arena,
                                "%s: coarse feed with little protein can block the rumen, "
                                "%.0f %% ADF with %.1f %% crude protein at the worst, from %s",
                                group_words(cautions->arena, plan->question, is_meant),
                                coarsest, held_pct(plan, worst, NUTRIENT_CRUDE_PROTEIN),
                                day_short(cautions->arena, plan->question->blocks[worst].from)),
                    SOURCE_STRAW_IMPACTION);
}

void straw_cautions(Cautions *cautions) {
    add_straw(cautions);
    add_impaction(cautions);
}

#define BEYOND 1e-6 /* of the bound: less is the solver's own tolerance */

bool straw_is_beyond_share(const BlockOutcome *block) {
    const StageSet in_need = STAGE_BIT(STAGE_LATE) | STAGE_BIT(STAGE_NURSING);
    for (int i = 0; i < block->limit_count; i++) {
        const LimitOutcome *of = &block->limits[i];
        const SafetyLimit *safety = of->limit->safety;
        if (safety && safety->kind == LIMIT_SHARE && (safety->stages & in_need) &&
            text_same(safety->subject_text, "straw") &&
            of->supplied > of->most * (1.0 + BEYOND))
            return true;
    }
    return false;
}

void straw_beyond_cautions(Cautions *cautions) {
    const PlanQuestion *question = cautions->plan->question;
    for (int g = 0; g < question->farm->herd.count; g++) {
        int first;
        const int count = group_blocks(question, g, &first);
        for (int b = first; b < first + count; b++) {
            if (!straw_is_beyond_share(&cautions->plan->blocks[b]))
                continue;
            caution_add(cautions, CAUTION_STRAW_LATE, SEVERITY_DANGER,
                        arena_print(cautions->arena,
                                    "From %s %s, near calving or in milk, get more straw than "
                                    "is safe for long, because there is not enough other feed "
                                    "for them",
                                    day_short(cautions->arena, question->blocks[b].from),
                                    question->farm->herd.names[g]),
                        SOURCE_ALBERTA_STRAW);
            break;
        }
    }
}
