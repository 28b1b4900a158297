/* Any farm on any morning, with cattle that went and came: it is planned and reported, no more
 * is fed than is left, and who is gone is fed nothing. */
#include "outcome/plan_report.h"
#include "outcome/stock_report.h"
#include "planner/farm_from.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#include <string.h>

enum { FARMS = 60 };

static const char *iso(Arena *arena, Day day) {
    char text[CALENDAR_TEXT_BYTES];
    calendar_print(day, text);
    return arena_print(arena, "%s", text);
}

static const char *drawn_heads(Arena *arena, const Farm *farm, Draws *draws) {
    Text text = text_new(arena);
    text_add(&text, "date,group,head\n");
    for (int i = draw_whole(draws, 0, 5); i > 0; i--) {
        const int group = draw_whole(draws, 0, farm->herd.count - 1);
        const int day = draw_whole(draws, 0, winter_days(&farm->winter) - 1);
        const int head = draw_chance(draws, 0.4) ? 0 : draw_whole(draws, 1, 60);
        text_print(&text, "%s,\"%s\",%d\n",
                   iso(arena, calendar_add(farm->winter.first_day, day)),
                   farm->herd.names[group], head);
    }
    return text.bytes;
}

static const char *drawn_counts(Arena *arena, const Farm *farm, Draws *draws) {
    Text text = text_new(arena);
    text_add(&text, "date,stack,amount,unit\n");
    for (int i = draw_whole(draws, 0, 4); i > 0; i--) {
        const int stack = draw_whole(draws, 0, farm->inventory.stacks.count - 1);
        const int day = draw_whole(draws, 0, winter_days(&farm->winter) - 1);
        text_print(&text, "%s,\"%s\",%d,kg\n",
                   iso(arena, calendar_add(farm->winter.first_day, day)),
                   farm->inventory.stacks.names[stack],
                   draw_chance(draws, 0.5) ? 0 : draw_whole(draws, 1, 40000));
    }
    return text.bytes;
}

/* false: by what was drawn no cattle are left. */
static bool draw_winter(Arena *arena, Farm *farm, Draws *draws) {
    Faults faults = faults_new(arena);
    const RecordContext context = {&farm->inventory, farm->herd.names, farm->herd.count,
                                   farm->winter.first_day, farm->winter.last_day};
    const char *counts = drawn_counts(arena, farm, draws);
    recounts_parse(arena, &faults, &context, "counts.csv", counts, strlen(counts),
                   &farm->record);
    const char *heads = drawn_heads(arena, farm, draws);
    farm->head_changes =
        head_changes_parse(arena, &faults, &farm->herd, farm->winter.first_day,
                           farm->winter.last_day, "head-changes.csv", heads, strlen(heads));
    assert_int_equal(faults.wrong_count, 0);
    return farm_settle_heads(arena, &faults, farm);
}

static void assert_plan_is_fed(const WinterPlan *plan) {
    const PlanQuestion *question = plan->question;
    assert_true(plan->verdict != PLAN_FAILED);
    for (int b = 0; b < question->block_count; b++)
        assert_true(question->blocks[b].head > 0.0 && question->blocks[b].days > 0);
    for (int f = 0; f < question->own_count; f++)
        assert_true(plan->taken_kg[f] <= question->feeds[f].available_kg * (1.0 + 1e-6) + 1e-6);
}

static void try_farm(Arena *arena, unsigned long long seed) {
    const FarmSize size = {3, 5, 6, 40 + (int)(seed % 60), seed % 2 == 0};
    Farm *farm = &asked_farm(arena, farm_drafted(arena, seed, size))->farm;
    Draws draws = draws_new(seed ^ 0xFEEDULL);
    if (!draw_winter(arena, farm, &draws))
        return;
    const Day day = calendar_add(farm->winter.first_day,
                                 draw_whole(&draws, 0, winter_days(&farm->winter) - 2));
    const StockFindings findings = stock_findings(arena, farm, calendar_add(day, -1));
    assert_non_null(stock_report(arena, &findings, UNITS_METRIC));
    Farm rest = *farm;
    Faults faults = faults_new(arena);
    if (!farm_from(arena, &faults, (Place){0}, &rest, day))
        return;
    const PlanQuestion question = plan_question(arena, &rest);
    const WinterPlan plan = plan_winter(arena, &question);
    assert_plan_is_fed(&plan);
    assert_non_null(plan_report(arena, &plan, UNITS_IMPERIAL));
    if (findings.rest)
        assert_true(findings.rest->verdict == plan.verdict);
}

static void any_farm_can_be_planned_from_any_morning(void **state) {
    (void)state;
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        try_farm(arena, seed);
        arena_close(arena);
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_farm_can_be_planned_from_any_morning),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
