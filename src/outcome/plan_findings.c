#include "outcome/plan_findings.h"
#include "outcome/plan_cautions.h"
#include <math.h>

int group_blocks(const PlanQuestion *question, int group, int *first) {
    int count = 0;
    *first = 0;
    for (int b = 0; b < question->block_count; b++) {
        if (question->blocks[b].group != group)
            continue;
        if (count == 0)
            *first = b;
        count++;
    }
    return count;
}

double put_out_kg(const WinterPlan *plan, int block, int feed) {
    return plan->blocks[block].eaten[feed] * plan_taken_per_eaten(&plan->question->feeds[feed]);
}

double bale_kg(const PlanQuestion *question, int feed) {
    const PlanFeed *of = &question->feeds[feed];
    if (!of->is_own)
        return 0.0;
    const Stack *stack = &question->farm->inventory.stacks.stacks[of->place];
    return stack->bale_count > 0.0 ? stack_as_fed(stack).kg / stack->bale_count : 0.0;
}

bool first_day_fed(const WinterPlan *plan, int feed, Day *day) {
    bool found = false;
    for (int b = 0; b < plan->question->block_count; b++) {
        const Day from = plan->question->blocks[b].from;
        if (plan->blocks[b].eaten[feed] <= 0.0)
            continue;
        if (!found || calendar_days_between(from, *day) > 0)
            *day = from;
        found = true;
    }
    return found;
}

#define WORTH_STEP_KG 1000.0 /* one tonne more, one tonne less */

static void find_worth(Arena *arena, PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const int count = plan->question->own_count;
    double *more = ARENA_ARRAY(arena, double, count);
    double *less = ARENA_ARRAY(arena, double, count);
    for (int f = 0; f < count; f++) {
        const double there = plan->question->feeds[f].available_kg;
        more[f] = -plan_cost_change(arena, plan, f, WORTH_STEP_KG) / WORTH_STEP_KG;
        const double taken_away = fmin(WORTH_STEP_KG, there);
        less[f] = taken_away > 0.0
                      ? plan_cost_change(arena, plan, f, -taken_away) / taken_away
                      : (double)NAN;
    }
    findings->worth_more = more;
    findings->worth_less = less;
}

static void find_sources(Arena *arena, PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const PlanQuestion *question = plan->question;
    bool *is_cited = ARENA_ARRAY(arena, bool, SOURCE_COUNT);
    for (int b = 0; b < question->block_count; b++) {
        for (int i = 0; i < plan->blocks[b].limit_count; i++)
            is_cited[plan->blocks[b].limits[i].limit->source] = true;
    }
    for (int f = 0; f < question->feed_count; f++) {
        const PlanFeed *feed = &question->feeds[f];
        if (plan->taken_kg[f] <= 0.0)
            continue;
        is_cited[feed->feed->analysis.of[NUTRIENT_TDN].source] = true;
        is_cited[feed->feed->analysis.of[NUTRIENT_NEM].source] = true;
        if (!feed->is_own)
            continue;
        const Stack *stack = &question->farm->inventory.stacks.stacks[feed->place];
        if (!stack->loss_is_users)
            is_cited[stack->storage->source] = true;
        if (!stack->waste_is_users)
            is_cited[stack->feeding->source] = true;
    }
    is_cited[SOURCE_UNL_COLD] = true;
    SourceKey *sources = ARENA_ARRAY(arena, SourceKey, SOURCE_COUNT);
    for (int s = 1; s < SOURCE_COUNT; s++) {
        if (is_cited[s])
            sources[findings->source_count++] = (SourceKey)s;
    }
    findings->sources = sources;
}

PlanFindings plan_findings(Arena *arena, const WinterPlan *plan, Units units) {
    PlanFindings findings = {.plan = plan, .units = units};
    findings.runouts = stack_runouts(arena, plan);
    findings.days = days_on_hand(arena, plan);
    find_worth(arena, &findings);
    findings.caution_count = plan_cautions(arena, plan, units, &findings.cautions);
    find_sources(arena, &findings);
    return findings;
}
