/* What is said of hard winters. The farm is an invented one; what is told is held against what
 * was drawn. */
#include "outcome/plan_report.h"
#include "planner/hard_winter.h"
#include "present/present.h"
#include "support/planned_farm.h"
#include "support/unit.h"
#include <string.h>

static WinterPlan *drawn_plan(Arena *arena, int winters) {
    const FarmSize size = {2, 6, 7, 90, true};
    PlannedFarm *farm = planned_farm(arena, farm_drafted(arena, 2, size));
    assert_int_equal(farm->plan.verdict, PLAN_BALANCED);
    farm->plan.winters = hard_winters(arena, &farm->plan, 1, winters);
    return &farm->plan;
}

static const char *page_of(Arena *arena, const WinterPlan *plan) {
    Text text = text_new(arena);
    present_text(plan_report(arena, plan, UNITS_METRIC), (TextStyle){.width = 200}, &text);
    return text.bytes;
}

static const char *json_of(Arena *arena, const WinterPlan *plan) {
    Text text = text_new(arena);
    present_json(plan_report(arena, plan, UNITS_METRIC), &text);
    return text.bytes;
}

static void the_chance_is_one_sentence_and_its_basis_another(void **state) {
    WinterPlan *plan = drawn_plan(*state, 400);
    const char *page = page_of(*state, plan);
    assert_non_null(strstr(page, "Will it last?"));
    assert_non_null(strstr(
        page, arena_print(*state, "every group has enough to turnout in %.0f of 100 winters",
                          round(100.0 * plan->winters->share))));
    assert_non_null(strstr(page, "400 drawn"));
    assert_non_null(strstr(page, "This is no forecast"));
    assert_non_null(strstr(page, "it is not a ration to feed"));
    assert_non_null(strstr(json_of(*state, plan), "\"chance\": "));
}

static void a_plan_of_which_no_winter_was_drawn_says_nothing_of_it(void **state) {
    WinterPlan *plan = drawn_plan(*state, 10);
    plan->winters = NULL;
    assert_null(strstr(page_of(*state, plan), "Will it last"));
    assert_non_null(strstr(json_of(*state, plan), "\"winters\": null"));
}

static void all_and_none_are_said_only_of_all_and_none(void **state) {
    WinterPlan *plan = drawn_plan(*state, 10);
    HardWinters winters = *plan->winters;
    plan->winters = &winters;
    winters.share = 0.999;
    assert_non_null(strstr(winters_verdict_words(*state, plan), "in 99 of 100 winters"));
    winters.share = 0.001;
    assert_non_null(strstr(winters_verdict_words(*state, plan), "in 1 of 100 winters"));
    winters.share = 1.0;
    assert_non_null(strstr(winters_verdict_words(*state, plan), "in all winters drawn"));
    winters.share = 0.0;
    assert_non_null(strstr(winters_verdict_words(*state, plan), "in none of the winters"));
}

static void winters_that_are_missing_are_cautioned(void **state) {
    WinterPlan *plan = drawn_plan(*state, 10);
    HardWinters winters = *plan->winters;
    plan->winters = &winters;
    winters.remark = "1 of 2 worker processes died.";
    assert_non_null(strstr(page_of(*state, plan), "! 1 of 2 worker processes died."));
    winters.done = 0; /* nothing is reckoned of nothing */
    const char *page = page_of(*state, plan);
    assert_non_null(strstr(page, "! 1 of 2 worker processes died."));
    assert_null(strstr(page, "of 100 winters"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_chance_is_one_sentence_and_its_basis_another),
        UNIT_TEST(a_plan_of_which_no_winter_was_drawn_says_nothing_of_it),
        UNIT_TEST(all_and_none_are_said_only_of_all_and_none),
        UNIT_TEST(winters_that_are_missing_are_cautioned),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
