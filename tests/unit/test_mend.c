/* Mends worked by hand: support/hand_question.h. 100 cows eat 10 kg of hay, 30 days, 30 t:
 * 37,037 kg of a stack at 0.81 of it eaten. */
#include "planner/mend.h"
#include "support/hand_question.h"
#include "support/unit.h"

/* 20 t feed 54 cows (16.2 t / 300 kg) for the winter, or all of them 16.2 days. */
static void too_little_own_hay_is_mended_by_fewer_head_or_days(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 20000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    assert_int_equal(mends_of(*state, &plan, &mends), 2);
    assert_int_equal(mends[0].kind, MEND_FEWER_HEAD);
    assert_near(mends[0].enough, 46.0, 0.0);
    assert_near(mends[0].not_enough, 45.0, 0.0);
    assert_true(isnan(mends[0].cost));
    assert_int_equal(mends[1].kind, MEND_FEWER_DAYS);
    assert_near(mends[1].enough, 14.0, 0.0);
    assert_near(mends[1].not_enough, 13.0, 0.0);
}

/* 17,037 kg are missing; of the dear hay a tenth shrinks away, so 18,930 of it. */
static void more_of_what_is_for_sale_mends_and_the_cheapest_is_first(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    PlanFeed *dear = hand_offer(hand, "Dear hay", 0.30);
    dear->available_kg = 0.0;
    dear->shrink_share = 0.1;
    dear->haul_per_kg = 0.01;
    hand_offer(hand, "Cheap hay", 0.20)->available_kg = 20000.0;
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    assert_int_equal(mends_of(*state, &plan, &mends), 4);
    assert_string_equal(mends[0].name, "Cheap hay");
    const double missing = 30000.0 / 0.81 - 20000.0;
    assert_true(mends[0].enough >= missing - 0.1);
    assert_true(mends[0].enough <= missing * (1.0 + MEND_CLOSE));
    assert_true(mends[0].not_enough < missing);
    assert_near(mends[0].cost, mends[0].enough * 0.20, 1e-6);
    assert_string_equal(mends[1].name, "Dear hay");
    assert_true(mends[1].enough >= missing / 0.9 - 0.1);
    assert_true(mends[1].enough <= missing / 0.9 * (1.0 + MEND_CLOSE));
    assert_near(mends[1].cost, mends[1].enough * (0.30 + 0.9 * 0.01), 1e-6);
    assert_true(isnan(mends[2].cost) && isnan(mends[3].cost));
}

/* Of a herd that lacks nothing but a mineral, selling cattle mends nothing until all are gone,
 * and with one group that is not said. */
static void what_mends_nothing_is_not_said(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 30)->need.calcium.g_per_day = 30.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    const Mend *mends;
    assert_int_equal(mends_of(*state, &plan, &mends), 0);
}

static void a_balanced_plan_needs_no_mend(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 100000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    assert_int_equal(mends_of(*state, &plan, &mends), 0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(too_little_own_hay_is_mended_by_fewer_head_or_days),
        UNIT_TEST(more_of_what_is_for_sale_mends_and_the_cheapest_is_first),
        UNIT_TEST(what_mends_nothing_is_not_said),
        UNIT_TEST(a_balanced_plan_needs_no_mend),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
