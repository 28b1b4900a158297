/* Prices worked by hand: support/hand_question.h, a kg eaten takes 1 / 0.81 kg of the stack. */
#include "planner/price_range.h"
#include "support/hand_question.h"
#include "support/unit.h"

/* The same hay twice: the dear truck's price is the one above which the cheap one's is not
 * bought. */
static void a_feed_leaves_above_the_price_of_what_would_take_its_place(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Near hay", 0.20);
    hand_offer(hand, "Far hay", 0.25);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const PriceRange *prices = price_ranges(*state, &plan);
    assert_near(prices[0].less_above, 0.25, 1e-6);
    assert_near(prices[0].leaves_above, 0.25, 1e-6);
    assert_true(isnan(prices[0].enters_below));
    assert_near(prices[1].enters_below, 0.20, 1e-6);
    assert_true(isnan(prices[1].leaves_above));
}

static void what_nothing_can_replace_is_bought_at_any_price(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Hay", 0.20);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const PriceRange *prices = price_ranges(*state, &plan);
    assert_true(prices[0].less_above >= NO_LIMIT);
    assert_true(prices[0].leaves_above >= NO_LIMIT);
}

/* 37.04 t are fed. 30 t of the far hay can be had: above 25 cents a part of the near hay is
 * replaced by it, but 7 t are needed whatever they cost. */
static void some_of_a_feed_may_be_replaced_and_the_rest_not(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Near hay", 0.20);
    hand_offer(hand, "Far hay", 0.25)->available_kg = 30000.0;
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const PriceRange *prices = price_ranges(*state, &plan);
    assert_near(prices[0].less_above, 0.25, 1e-6);
    assert_true(prices[0].leaves_above >= NO_LIMIT);
}

static void prices_of_a_plan_that_is_short_are_not_said(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Hay", 0.20)->available_kg = 20000.0;
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const PriceRange *prices = price_ranges(*state, &plan);
    assert_true(isnan(prices[0].less_above) && isnan(prices[0].leaves_above));
}

/* 60 t of own hay hold 54 t of dry matter, of which 25 are to be left: 29 t of it, 32.22 t of
 * hay, may be fed, and the rest of the 37.04 t comes from the truck. A tonne more in the stack
 * is a tonne less from the truck: 200 less 100 dollars. */
static void a_tonne_more_of_forage_counts_for_what_is_to_be_left_over(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 60000);
    hand_offer(hand, "Bought hay", 0.20);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand->farm.winter.carry_over_kg = 25000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    assert_near(plan_cost_change(*state, &plan, 0, 1000.0), -100.0, 1e-3);
    assert_near(plan_cost_change(*state, &plan, 0, -1000.0), 100.0, 1e-3);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_feed_leaves_above_the_price_of_what_would_take_its_place),
        UNIT_TEST(what_nothing_can_replace_is_bought_at_any_price),
        UNIT_TEST(some_of_a_feed_may_be_replaced_and_the_rest_not),
        UNIT_TEST(prices_of_a_plan_that_is_short_are_not_said),
        UNIT_TEST(a_tonne_more_of_forage_counts_for_what_is_to_be_left_over),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
