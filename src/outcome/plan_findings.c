#include "outcome/plan_findings.h"
#include "base/text.h"
#include "outcome/plan_cautions.h"
#include "planner/caution_cost.h"
#include <math.h>

#define LITTLE_KG 500.0 /* said in kilograms, not tonnes */
#define HANDFUL_KG 0.5  /* said in grams: it would read as none */

Measure weight_measure(double kg) {
    if (kg > 0.0 && kg <= HANDFUL_KG)
        return MEASURE_SMALL_FEED;
    return kg < LITTLE_KG ? MEASURE_WEIGHT : MEASURE_TONNAGE;
}

const char *weight_words(Arena *arena, Units units, double kg) {
    return measure_words(arena, units, weight_measure(kg), kg);
}

const char *group_words(Arena *arena, const PlanQuestion *question, const bool *is_meant) {
    const Herd *herd = &question->farm->herd;
    Text text = text_new(arena);
    bool is_all = true;
    for (int g = 0; g < herd->count; g++) {
        is_all = is_all && is_meant[g];
        if (is_meant[g])
            text_print(&text, "%s%s", text.length > 0 ? "; " : "", herd->names[g]);
    }
    return is_all && herd->count > 1 ? "all groups" : text.bytes;
}

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

const LimitOutcome *block_limit(const BlockOutcome *block, const char *key) {
    for (int i = 0; i < block->limit_count; i++) {
        if (text_same(block->limits[i].limit->key, key))
            return &block->limits[i];
    }
    return NULL;
}

double put_out_kg(const WinterPlan *plan, int block, int feed) {
    return plan->blocks[block].eaten[feed] * plan_taken_per_eaten(&plan->question->feeds[feed]);
}

#define NOTHING_TO_BUY_KG 0.002 /* own choice */

bool plan_buys(const WinterPlan *plan, int feed) {
    return plan->bought_kg[feed] > NOTHING_TO_BUY_KG;
}

/* Of a mineral, a head and day: less no ration shows. Of a period that does not show it nobody
 * needs it in the yard. */
#define CRUMB_KG 5e-5

static bool first_day_of_more(const WinterPlan *plan, int feed, double least_kg, Day *day) {
    bool found = false;
    for (int b = 0; b < plan->question->block_count; b++) {
        const Day from = plan->question->blocks[b].from;
        if (put_out_kg(plan, b, feed) <= least_kg)
            continue;
        if (!found || calendar_days_between(from, *day) > 0)
            *day = from;
        found = true;
    }
    return found;
}

bool first_day_fed(const WinterPlan *plan, int feed, Day *day) {
    return first_day_of_more(plan, feed, CRUMB_KG, day) ||
           first_day_of_more(plan, feed, 0.0, day);
}

bool bought_by(const WinterPlan *plan, int feed, Day *day) {
    const Day *hauled = plan->question->feeds[feed].delivered_until;
    const bool is_fed = first_day_fed(plan, feed, day);
    if (is_fed && hauled && calendar_days_between(*hauled, *day) > 0)
        *day = *hauled;
    return is_fed;
}

#define WORTH_STEP_KG 1000.0 /* one tonne more, one tonne less */

static void find_worth(Arena *arena, PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const int count = plan->question->own_count;
    double *more = ARENA_ARRAY(arena, double, count);
    double *less = ARENA_ARRAY(arena, double, count);
    for (int f = 0; f < count; f++) {
        more[f] = less[f] = (double)NAN;
        if (plan->verdict != PLAN_BALANCED)
            continue; /* a tonne's worth would be the price put on a shortage */
        const double there = plan->question->feeds[f].available_kg;
        Arena *scratch = arena_open(); /* a solution of the whole winter each */
        more[f] = -plan_cost_change(scratch, plan, f, WORTH_STEP_KG) / WORTH_STEP_KG;
        const double taken_away = fmin(WORTH_STEP_KG, there);
        if (taken_away > 0.0)
            less[f] = plan_cost_change(scratch, plan, f, -taken_away) / taken_away;
        arena_close(scratch);
    }
    findings->worth_more = more;
    findings->worth_less = less;
}

/* The heat balance is of the equations' publications, and the table of diets has no cold. */
static bool goes_by_cold_table(const PlanQuestion *question) {
    bool has_cold = false;
    for (int b = 0; b < question->block_count; b++)
        has_cold |= !question->blocks[b].need.follows_table;
    return has_cold && question->farm->winter.cold_way == COLD_BY_TABLE;
}

static void cite_step_ups(const PlanFindings *findings, bool *is_cited) {
    for (int i = 0; i < findings->step_up_count; i++) {
        const StepUp *of = &findings->step_ups[i];
        for (int f = 0; f < of->feed_count; f++)
            is_cited[step_up_source(of->feeds[f].reason)] = true;
    }
}

static void find_sources(Arena *arena, PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    const PlanQuestion *question = plan->question;
    bool *is_cited = ARENA_ARRAY(arena, bool, SOURCE_COUNT);
    for (int b = 0; b < question->block_count; b++) {
        for (int i = 0; i < plan->blocks[b].limit_count; i++) {
            if (!plan->blocks[b].limits[i].limit->safety)
                is_cited[plan->blocks[b].limits[i].limit->source] = true;
        }
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
        if (stack->density_is_books)
            is_cited[stack->density_source] = true;
        if (!stack->loss_is_users)
            is_cited[stack->storage->source] = true;
        if (!stack->waste_is_users)
            is_cited[stack->feeding->source] = true;
    }
    is_cited[SOURCE_UNL_COLD] = goes_by_cold_table(question);
    cite_step_ups(findings, is_cited);
    for (int i = 0; i < findings->caution_count; i++) {
        SourceKey source;
        if (source_find(findings->cautions[i].source, &source))
            is_cited[source] = true;
    }
    SourceKey *sources = ARENA_ARRAY(arena, SourceKey, SOURCE_COUNT);
    for (int s = 1; s < SOURCE_COUNT; s++) {
        if (is_cited[s])
            sources[findings->source_count++] = (SourceKey)s;
    }
    findings->sources = sources;
}

static void ask(Arena *arena, PlanFindings *findings) {
    const WinterPlan *plan = findings->plan;
    findings->days = days_on_hand(arena, plan);
    find_worth(arena, findings);
    findings->prices = price_ranges(arena, plan);
    findings->caution_cost = caution_cost(plan);
    findings->spells = cold_spells(arena, plan);
    findings->period_spells = cold_spells_by_period(arena, plan);
    findings->mend_count = mends_of(arena, plan, &findings->mends);
}

static const double *unknown(Arena *arena, int count) {
    double *of = ARENA_ARRAY(arena, double, count);
    for (int i = 0; i < count; i++)
        of[i] = (double)NAN;
    return of;
}

static void leave_unasked(Arena *arena, PlanFindings *findings) {
    const PlanQuestion *question = findings->plan->question;
    PriceRange *prices = ARENA_ARRAY(arena, PriceRange, question->feed_count);
    ColdSpell *spells = ARENA_ARRAY(arena, ColdSpell, question->farm->herd.count);
    for (int f = 0; f < question->feed_count; f++)
        prices[f] = (PriceRange){(double)NAN, (double)NAN, (double)NAN};
    for (int g = 0; g < question->farm->herd.count; g++)
        spells[g] = (ColdSpell){.block = -1};
    findings->days = days_by_weight(findings->plan);
    findings->worth_more = unknown(arena, question->own_count);
    findings->worth_less = unknown(arena, question->own_count);
    findings->prices = prices;
    findings->caution_cost = (double)NAN;
    findings->spells = spells;
}

static PlanFindings findings_of(Arena *arena, const WinterPlan *plan, Units units,
                                bool is_brief) {
    PlanFindings findings = {.plan = plan, .units = units, .is_brief = is_brief};
    if (is_brief)
        leave_unasked(arena, &findings);
    else
        ask(arena, &findings);
    findings.runouts = stack_runouts(arena, plan);
    findings.conditions = condition_path(arena, plan);
    findings.caution_count = plan_cautions(arena, plan, units, &findings.cautions);
    findings.step_up_count = step_ups(arena, plan, &findings.step_ups);
    find_sources(arena, &findings);
    return findings;
}

PlanFindings plan_findings(Arena *arena, const WinterPlan *plan, Units units) {
    return findings_of(arena, plan, units, false);
}

PlanFindings plan_findings_in_brief(Arena *arena, const WinterPlan *plan, Units units) {
    return findings_of(arena, plan, units, true);
}
