/* What keeps futures from being measured by what they cost. The winters are those of
 * support/hand_question.h. */
#include "outcome/comparison.h"
#include "support/told_report.h"
#include "support/unit.h"

static const Report *compared(Arena *arena, const HandQuestion *as_it_is,
                              const HandQuestion *other) {
    const HandQuestion *const questions[] = {as_it_is, other};
    static const char *const NAMES[] = {"As it is", "Other"};
    Future *futures = ARENA_ARRAY(arena, Future, 2);
    for (int i = 0; i < 2; i++) {
        WinterPlan *plan = ARENA_NEW(arena, WinterPlan);
        *plan = plan_winter(arena, &questions[i]->question);
        futures[i] = future_of(arena, NAMES[i], plan, 0.0, UNITS_METRIC);
    }
    const Comparison comparison = {.futures = futures, .count = 2, .units = UNITS_METRIC};
    return comparison_report(arena, &comparison);
}

static HandQuestion *hay_for_cows(Arena *arena, double steady_cost_share) {
    HandQuestion *hand = hand_november(arena);
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 10, 12.0, 30);
    hand->farm.winter.steady_cost_share = steady_cost_share;
    return hand;
}

/* The totals are of least costs: what the other may spend besides is in none of them. */
static void a_future_that_may_spend_more_on_steadiness_says_so(void **state) {
    const Report *report =
        compared(*state, hay_for_cows(*state, 0.001), hay_for_cows(*state, 0.05));
    assert_true(report_says(report, "'Other' may spend up to 5 % of feed and hauling on "
                                    "steadier rations, the farm as it is up to 0.1 %"));
}

static void futures_that_may_spend_alike_on_steadiness_say_nothing_of_it(void **state) {
    const Report *report =
        compared(*state, hay_for_cows(*state, 0.02), hay_for_cows(*state, 0.02));
    assert_false(report_says(report, "steadier rations, the farm"));
    assert_true(report_says(report, "evened out within 2 % of that"));
}

/* Sulfur of 0.15 % where the water brings 0.13 of the 0.26 there may be. */
static void a_future_short_for_its_water_points_at_nothing_tried_below(void **state) {
    HandQuestion *other = hay_for_cows(*state, 0.001);
    HandQuestion *short_of = hand_november(*state);
    PlanFeed *low = hand_offer(short_of, "Low hay", 0.10);
    low->eaten[NUTRIENT_SULFUR] = 0.05;
    low->available_kg = 300.0;
    hand_offer(short_of, "Hay", 0.20)->eaten[NUTRIENT_SULFUR] = 0.15;
    hand_group(short_of, "Cows", 10, 12.0, 30);
    hand_nutrient_limit(short_of, "Sulfur", NUTRIENT_SULFUR, 0.2, 0.26);
    short_of->farm.winter.water_sulfate_mg_per_l = 1000.0;
    short_of->farm.winter.sulfate_is_assumed = true;
    const Report *report = compared(*state, other, short_of);
    assert_true(report_says(report, "Other water would help first."));
    assert_false(report_says(report, "tried below"));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_future_that_may_spend_more_on_steadiness_says_so),
        UNIT_TEST(futures_that_may_spend_alike_on_steadiness_say_nothing_of_it),
        UNIT_TEST(a_future_short_for_its_water_points_at_nothing_tried_below),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
