#include "outcome/stock_report.h"
#include "planner/farm_from.h"
#include "planner/yard_plan.h"
#include "stock/stack_keeping.h"
#include <math.h>

/* ---- the rest of winter ---- */

/* The days of feed of the morning after, planned as if that were the first. */
static void plan_rest(Arena *arena, StockFindings *findings) {
    const Winter *winter = &findings->farm->winter;
    Day from = calendar_add(findings->day, 1);
    if (calendar_days_between(winter->first_day, from) < 0)
        from = winter->first_day;
    if (calendar_days_between(from, winter->last_day) < 1)
        return;
    Farm *rest = ARENA_NEW(arena, Farm);
    *rest = *findings->farm;
    Faults faults = faults_new(arena);
    if (!farm_from(arena, &faults, (Place){0}, rest, from))
        return; /* no cattle are left by then */
    PlanQuestion *question = ARENA_NEW(arena, PlanQuestion);
    WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
    *question = plan_question(arena, rest);
    *plan = plan_with_yard_rules(arena, question);
    if (plan->verdict == PLAN_FAILED)
        return;
    findings->rest = plan;
    findings->days = days_on_hand(arena, plan);
    DaysOnHand *group_days = ARENA_ARRAY(arena, DaysOnHand, rest->herd.count);
    for (int g = 0; g < rest->herd.count; g++)
        group_days[g] = group_days_on_hand(arena, plan, g);
    findings->group_days = group_days;
    findings->needed_kg =
        findings->days.eaten_per_day_kg * winter_days(&rest->winter) + winter->carry_over_kg;
}

bool stock_is_short(const StockFindings *findings) {
    return findings->rest && findings->rest->verdict == PLAN_SHORT;
}

/* ---- when each stack runs out ---- */

#define EMPTY_KG 1.0

/* Fed on as of late, and lost in storage meanwhile. */
static bool runs_out_by_recent(const StockFindings *findings, StockStack *of) {
    const Stack *stack = &findings->farm->inventory.stacks.stacks[of->stack];
    const Day last = findings->farm->winter.last_day;
    double left = of->book.left_kg;
    Day day = findings->day;
    while (calendar_days_between(day, last) > 0) {
        const Day next = calendar_add(day, 1);
        left = left * stack_keeps(stack, day, next) - of->book.recent_kg_per_day;
        if (left < 0.0) {
            of->last_fed = day;
            return true;
        }
        day = next;
    }
    return false;
}

static void find_runout(const StockFindings *findings, const StackRunout *planned,
                        StockStack *of) {
    of->basis = RUNOUT_NONE;
    of->is_planned = planned && planned->is_used;
    if (of->book.left_kg < EMPTY_KG)
        of->basis = RUNOUT_EMPTY;
    else if (of->book.was_fed_recently)
        of->basis = runs_out_by_recent(findings, of) ? RUNOUT_BY_RECENT : RUNOUT_NONE;
    else if (planned && planned->runs_out) {
        of->basis = RUNOUT_BY_PLAN;
        of->last_fed = planned->last_fed;
    }
}

static int rank_of(const StockStack *of) {
    switch (of->basis) {
    case RUNOUT_BY_RECENT:
    case RUNOUT_BY_PLAN:
        return 0;
    case RUNOUT_NONE:
        return 1;
    case RUNOUT_EMPTY:
        break;
    }
    return 2;
}

static bool comes_before(const StockStack *a, const StockStack *b) {
    const int ranks = rank_of(a) - rank_of(b);
    if (ranks != 0 || rank_of(a) > 0)
        return ranks < 0;
    return calendar_days_between(a->last_fed, b->last_fed) > 0;
}

static void sort_stacks(StockStack *stacks, int count) {
    for (int i = 1; i < count; i++) {
        const StockStack moved = stacks[i];
        int at = i;
        for (; at > 0 && comes_before(&moved, &stacks[at - 1]); at--)
            stacks[at] = stacks[at - 1];
        stacks[at] = moved;
    }
}

StockFindings stock_findings(Arena *arena, const Farm *farm, Day day) {
    StockFindings findings = {
        .farm = farm, .day = day, .stack_count = farm->inventory.stacks.count};
    findings.days.stopped_by.group = -1;
    plan_rest(arena, &findings);
    const StackRunout *planned = findings.rest ? stack_runouts(arena, findings.rest) : NULL;
    StockStack *stacks = ARENA_ARRAY(arena, StockStack, findings.stack_count);
    for (int i = 0; i < findings.stack_count; i++) {
        stacks[i].stack = i;
        stacks[i].book =
            stack_book(&farm->inventory, &farm->record, i, day, BOOK_IN_THE_EVENING);
        find_runout(&findings, planned ? &planned[i] : NULL, &stacks[i]);
    }
    sort_stacks(stacks, findings.stack_count);
    findings.stacks = stacks;
    return findings;
}
