#include "outcome/cut_findings.h"
#include "planner/price_range.h"
#include <math.h>

CutFuture cut_future(const CutWishes *wishes, FutureName name) {
    const bool is_first = name == FUTURE_FIRST || name == FUTURE_FIRST_BUY;
    const int which = is_first ? 0 : 1;
    const bool buys = name == FUTURE_FIRST_BUY || name == FUTURE_SECOND_BUY;
    CutFuture future = {.days = is_first ? CUT_EARLIEST : CUT_LATEST,
                        .barred_offer = buys ? -1 : wishes->offer};
    if (name == FUTURE_PLANNED)
        return (CutFuture){.days = CUT_AS_PLANNED, .barred_offer = -1};
    if (wishes->date_count > which) {
        future.days = CUT_ON_DAY;
        future.day = wishes->dates[which];
    }
    return future;
}

/* Without an offer there is nothing to leave out: the first two say it all. */
static bool is_asked(const CutWishes *wishes, FutureName name) {
    return wishes->offer >= 0 || (name != FUTURE_FIRST_BUY && name != FUTURE_SECOND_BUY);
}

static FutureName cheapest_of(const CutFindings *findings) {
    FutureName cheapest = FUTURE_COUNT;
    for (int name = 0; name < FUTURE_PLANNED; name++) {
        const CutPlan *plan = &findings->plans[name];
        if (findings->is_there[name] && plan->verdict == PLAN_BALANCED &&
            (cheapest == FUTURE_COUNT ||
             plan->cost.total < findings->plans[cheapest].cost.total))
            cheapest = (FutureName)name;
    }
    return cheapest;
}

static GrowingYear year_of(YearName name) {
    GrowingYear year = growing_year_expected();
    switch (name) {
    case YEAR_DRY_CUTS:
        year.rain = 0.0;
        break;
    case YEAR_WET_CUTS:
        year.rain = 1.0;
        break;
    case YEAR_THIN:
        year.yield_deviations = -1.0;
        break;
    case YEAR_HEAVY:
        year.yield_deviations = 1.0;
        break;
    case YEAR_POOR_TESTS:
        year.quality_deviations = -1.0;
        break;
    case YEAR_EXPECTED:
    case YEAR_COUNT:
        break;
    }
    return year;
}

/* The hectares are as planned: what the year is like is known when they are cut. */
static void add_years(CutFindings *findings) {
    for (int y = 0; y < YEAR_COUNT; y++) {
        Arena *scratch = arena_open();
        const CutQuestion question =
            cut_question(scratch, findings->farm, year_of((YearName)y));
        for (int name = 0; name < FUTURE_COUNT; name++) {
            const CutPlan *expected = &findings->plans[name];
            findings->year_cost[y][name] = (double)NAN;
            if (!findings->is_there[name] || expected->verdict != PLAN_BALANCED)
                continue;
            const CutTerms terms = {.hectares = expected->hectares, .price_of = -1};
            const CutPlan plan = cut_plan(scratch, &question, expected->future, &terms);
            if (plan.verdict == PLAN_BALANCED)
                findings->year_cost[y][name] = plan.cost.total;
        }
        arena_close(scratch);
    }
}

static void add_turn(CutFindings *findings) {
    const CutPlan *first = &findings->plans[FUTURE_FIRST_BUY];
    const CutPlan *second = &findings->plans[FUTURE_SECOND_BUY];
    findings->has_turn = findings->wishes.offer >= 0 && first->verdict == PLAN_BALANCED &&
                         second->verdict == PLAN_BALANCED;
    if (findings->has_turn)
        findings->turn = cut_turn(&findings->question, first->future, second->future,
                                  findings->wishes.offer);
}

static double offer_worth(const CutFindings *findings) {
    const CutPlan *planned = &findings->plans[FUTURE_PLANNED];
    const int feed = planned->question->own_count + findings->wishes.offer;
    if (findings->wishes.offer < 0 || planned->verdict != PLAN_BALANCED ||
        planned->question->feeds[feed].available_kg < KG_PER_TONNE)
        return (double)NAN;
    return plan_worth_of_first(&planned->plan, feed, KG_PER_TONNE);
}

CutFindings cut_findings(Arena *arena, const Farm *farm, const CutWishes *wishes) {
    CutFindings findings = {.wishes = *wishes, .farm = farm, .remark = ""};
    findings.question = cut_question(arena, farm, growing_year_expected());
    for (int name = 0; name < FUTURE_COUNT; name++) {
        findings.is_there[name] = is_asked(wishes, (FutureName)name);
        if (!findings.is_there[name])
            continue;
        findings.plans[name] =
            cut_plan(arena, &findings.question, cut_future(wishes, (FutureName)name), NULL);
        if (findings.plans[name].verdict == PLAN_FAILED) {
            findings.has_failed = true;
            findings.remark = findings.plans[name].plan.remark;
            return findings;
        }
    }
    findings.is_balanced = findings.plans[FUTURE_PLANNED].verdict == PLAN_BALANCED;
    findings.cheapest = cheapest_of(&findings);
    add_turn(&findings);
    findings.offer_worth_per_kg = offer_worth(&findings);
    add_years(&findings);
    return findings;
}
