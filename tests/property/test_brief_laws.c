/* The plan in brief leaves out questions and explanations, and nothing else: on any farm it
 * tells every danger and caution of the whole plan, and each number is that of the whole. */
#include "outcome/plan_report.h"
#include "support/planned_farm.h"
#include "support/unit.h"

#include <string.h>

#ifdef __SANITIZE_ADDRESS__
#define FARMS 3
#else
#define FARMS 16
#endif

static const ReportSection *section(const Report *report, const char *key) {
    for (const ReportSection *of = report->first; of; of = of->next) {
        if (text_same(of->key, key))
            return of;
    }
    return NULL;
}

/* How many; each must stand in the other as it is. */
static int remarks_told_by(const ReportSection *whole, const ReportSection *brief) {
    int count = 0;
    for (const ReportPiece *of = whole ? whole->first : NULL; of; of = of->next, count++) {
        const ReportPiece *same = brief ? brief->first : NULL;
        while (same && !(same->severity == of->severity && text_same(same->text, of->text) &&
                         text_same(same->source, of->source)))
            same = same->next;
        if (!same)
            fail_msg("the plan in brief does not tell: %s", of->text);
    }
    return count;
}

static bool is_same_cell(const Cell *a, const Cell *b) {
    return a->kind == b->kind &&
           (a->kind == CELL_EMPTY ||
            (a->kind == CELL_TEXT ? text_same(a->text, b->text)
                                  : a->number == b->number && a->decimals == b->decimals));
}

/* The columns that the brief one has; how many cells. */
static int compare_tables(const ReportTable *whole, const ReportTable *brief) {
    int cells = 0;
    const ReportRow *row = brief->first;
    for (const ReportRow *of = whole->first; of; of = of->next, row = row->next) {
        assert_non_null(row);
        for (int column = 0; column < brief->column_count; column++, cells++)
            assert_true(is_same_cell(&of->cells[column], &row->cells[column]));
    }
    assert_null(row);
    return cells;
}

/* The next table of this key from a section on, both moved behind it; NULL: none. */
static const ReportTable *next_table(const ReportSection **at, const ReportPiece **piece,
                                     const char *key) {
    for (; *at; *at = (*at)->next, *piece = *at ? (*at)->first : NULL) {
        for (; *piece; *piece = (*piece)->next) {
            if ((*piece)->kind == PIECE_TABLE && text_same((*piece)->table->key, key)) {
                const ReportTable *table = (*piece)->table;
                *piece = (*piece)->next;
                return table;
            }
        }
    }
    return NULL;
}

static int compare_all_of(const Report *whole, const Report *brief, const char *key) {
    const ReportSection *in_whole = whole->first, *in_brief = brief->first;
    const ReportPiece *of_whole = in_whole->first, *of_brief = in_brief->first;
    int cells = 0;
    for (;;) {
        const ReportTable *a = next_table(&in_whole, &of_whole, key);
        const ReportTable *b = next_table(&in_brief, &of_brief, key);
        assert_true((a == NULL) == (b == NULL));
        if (!a)
            return cells;
        cells += compare_tables(a, b);
    }
}

static void the_plan_in_brief_tells_every_danger_and_number_of_the_whole(void **state) {
    (void)state;
    int dangers = 0, cautions = 0, rations = 0, purchases = 0, stacks = 0, short_winters = 0;
    for (unsigned long long seed = 1; seed <= FARMS; seed++) {
        Arena *arena = arena_open();
        const FarmSize size = {.groups = 2 + (int)(seed % 3),
                               .stacks = 4,
                               .offers = 6,
                               .days = 60 + 30 * (int)(seed % 4),
                               .is_generous = seed % 2 == 0};
        const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, seed, size));
        const Units units = (Units)(seed % 3);
        const PlanFindings in_brief = plan_findings_in_brief(arena, &farm->plan, units);
        const Report *whole = plan_report(arena, &farm->plan, units);
        const Report *brief = plan_brief_of(arena, &in_brief);
        short_winters += farm->plan.verdict == PLAN_SHORT;
        dangers += remarks_told_by(section(whole, "dangers"), section(brief, "dangers"));
        cautions += remarks_told_by(section(whole, "cautions"), section(brief, "cautions"));
        rations += compare_all_of(whole, brief, "ration");
        purchases += compare_all_of(whole, brief, "purchases");
        stacks += compare_all_of(whole, brief, "stacks");
        assert_int_equal(whole->verdict_severity, brief->verdict_severity);
        assert_string_equal(whole->headline, brief->headline);
        arena_close(arena);
    }
    assert_true(dangers > 0 && cautions > 3 * FARMS && rations > 100 * FARMS);
    assert_true(purchases > 0 && stacks > 0 && short_winters > 0 && short_winters < FARMS);
}

/* What was not asked is not told as an answer. */
static void the_plan_in_brief_says_nothing_it_did_not_ask(void **state) {
    (void)state;
    Arena *arena = arena_open();
    const FarmSize size = {
        .groups = 2, .stacks = 4, .offers = 6, .days = 90, .is_generous = true};
    const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, 2, size));
    const PlanFindings in_brief = plan_findings_in_brief(arena, &farm->plan, UNITS_METRIC);
    const Report *brief = plan_brief_of(arena, &in_brief);
    assert_int_equal(farm->plan.verdict, PLAN_BALANCED);
    assert_null(strstr(brief->verdict, "Own feed alone"));
    for (const ReportFact *fact = brief->first_fact; fact; fact = fact->next)
        assert_string_not_equal(fact->key, "days_on_hand");
    static const char *const UNASKED[] = {"cold_spell", "mends", "winters", "sources"};
    for (size_t i = 0; i < sizeof UNASKED / sizeof *UNASKED; i++)
        assert_null(section(brief, UNASKED[i]));
    assert_non_null(section(brief, "left_out"));
    arena_close(arena);
}

/* Nothing that is fed costs less than the cheapest, which is told as such and as not to feed
 * by. */
static void the_cheapest_plan_costs_what_the_whole_calls_the_least(void **state) {
    (void)state;
    int balanced = 0;
    for (unsigned long long seed = 2; seed <= FARMS; seed += 2) {
        Arena *arena = arena_open();
        const FarmSize size = {
            .groups = 2, .stacks = 4, .offers = 6, .days = 90, .is_generous = true};
        const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, seed, size));
        const WinterPlan cheapest = plan_least_cost(arena, &farm->question);
        PlanFindings as_found = plan_findings_in_brief(arena, &cheapest, UNITS_METRIC);
        as_found.is_as_found = true;
        const Report *report = plan_brief_of(arena, &as_found);
        assert_non_null(section(report, "as_found"));
        assert_true(cheapest.has_settled);
        if (farm->plan.verdict == PLAN_BALANCED) {
            const double least = plan_least(&farm->plan);
            const double found =
                cheapest.cost.total + cheapest.cost.cautions - cheapest.cost.yardage;
            assert_int_equal(cheapest.verdict, PLAN_BALANCED);
            /* the laws are drawn anew where rations were evened out: a part in 10,000 */
            assert_near(found, least, 1e-4 * least);
            balanced++;
        }
        arena_close(arena);
    }
    assert_true(balanced > 0);
}

static const Report *as_found_of(Arena *arena, const PlannedFarm *farm, PlanVerdict verdict) {
    WinterPlan *cheapest = ARENA_NEW(arena, WinterPlan);
    *cheapest = plan_least_cost(arena, &farm->question);
    assert_int_equal(cheapest->verdict, verdict);
    PlanFindings *as_found = ARENA_NEW(arena, PlanFindings);
    *as_found = plan_findings_in_brief(arena, cheapest, UNITS_METRIC);
    as_found->is_as_found = true;
    return plan_brief_of(arena, as_found);
}

/* Had it enough feed it would cost more. */
static void a_short_winter_as_found_is_not_said_to_be_the_least_it_can_cost(void **state) {
    (void)state;
    Arena *arena = arena_open();
    const FarmSize size = {.groups = 2, .stacks = 1, .offers = 0, .days = 120};
    const PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, 1, size));
    const Report *report = as_found_of(arena, farm, PLAN_SHORT);
    const ReportSection *told = section(report, "as_found");
    assert_true(told && strstr(told->first->text, "lack the least"));
    assert_false(told && strstr(told->first->text, "can cost"));
    arena_close(arena);
}

/* What the two differ by would be the evening out and the yard rules, not the winter. */
static void the_cheapest_plan_is_not_held_against_the_plan_kept_to_feed_by(void **state) {
    (void)state;
    Arena *arena = arena_open();
    const FarmSize size = {
        .groups = 2, .stacks = 4, .offers = 6, .days = 90, .is_generous = true};
    PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, 2, size));
    const Day first = farm->farm.winter.first_day;
    KeptRation ration = {.from = first, .to = first, .feed = "A stack"};
    farm->farm.is_rest_of_winter = true;
    farm->farm.kept = (KeptPlan){&ration, 1, first, first};
    const PlanFindings in_brief = plan_findings_in_brief(arena, &farm->plan, UNITS_METRIC);
    assert_non_null(section(plan_brief_of(arena, &in_brief), "changes"));
    assert_null(section(as_found_of(arena, farm, PLAN_BALANCED), "changes"));
    arena_close(arena);
}

/* Without its program, and otherwise not a bit different. */
static void a_plan_that_is_only_read_is_the_plan_itself(void **state) {
    for (int seed = 1; seed <= FARMS; seed++) {
        const PlannedFarm *farm = asked_farm_of(*state, seed, 2);
        const PlanQuestion *question = &farm->question;
        const WinterPlan asked[] = {plan_winter(*state, question),
                                    plan_least_cost(*state, question)};
        const WinterPlan read[] = {plan_winter_to_read(*state, question),
                                   plan_least_cost_to_read(*state, question)};
        for (int i = 0; i < 2; i++) {
            assert_int_equal(asked[i].verdict, read[i].verdict);
            if (asked[i].verdict == PLAN_FAILED)
                continue;
            assert_null(read[i].program);
            assert_memory_equal(&asked[i].cost, &read[i].cost, sizeof read[i].cost);
            for (int b = 0; b < question->block_count; b++) {
                assert_memory_equal(asked[i].blocks[b].eaten, read[i].blocks[b].eaten,
                                    (size_t)question->feed_count * sizeof(double));
                assert_int_equal(asked[i].blocks[b].limit_count, read[i].blocks[b].limit_count);
                for (int l = 0; l < read[i].blocks[b].limit_count; l++) {
                    const LimitOutcome *a = &asked[i].blocks[b].limits[l];
                    const LimitOutcome *r = &read[i].blocks[b].limits[l];
                    assert_string_equal(a->limit->key, r->limit->key);
                    assert_true(a->shadow_price == r->shadow_price && a->least == r->least);
                }
            }
        }
    }
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_plan_in_brief_tells_every_danger_and_number_of_the_whole),
        UNIT_TEST(the_plan_in_brief_says_nothing_it_did_not_ask),
        UNIT_TEST(the_cheapest_plan_costs_what_the_whole_calls_the_least),
        UNIT_TEST(a_short_winter_as_found_is_not_said_to_be_the_least_it_can_cost),
        UNIT_TEST(the_cheapest_plan_is_not_held_against_the_plan_kept_to_feed_by),
        UNIT_TEST(a_plan_that_is_only_read_is_the_plan_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
