/* Condition worked by hand: support/hand_question.h. */
#include "cattle/body_reserve.h"
#include "planner/condition_path.h"
#include "support/hand_question.h"
#include "support/unit.h"

static HandQuestion *cow_of_score_five(Arena *arena, double need_mcal) {
    HandQuestion *hand = hand_question(arena, 60);
    hand_own(hand, "Hay", 0.10, 1000000);
    hand_group(hand, "Cows", 10, need_mcal, 30);
    hand_period(hand, need_mcal, 30);
    hand->groups[0].weight = (Mass){600.0};
    hand->groups[0].condition = 5.0;
    return hand;
}

/* She is filled by 9 kg, 10.8 Mcal, and needs 9.6: 1.2 a day, 36 by the end of the first period
 * and 72 by that of the second, go to her back. */
static void energy_above_the_need_goes_to_the_body(void **state) {
    HandQuestion *hand = cow_of_score_five(*state, 9.6);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Condition *path = condition_path(*state, &plan);
    const Mass weight = {600.0};
    assert_near(path[0].asked, 5.0, 1e-9);
    assert_near(condition_change_energy(weight, 5.0, path[0].given).mcal, 36.0, 1e-5);
    assert_near(condition_change_energy(weight, 5.0, path[1].given).mcal, 72.0, 1e-5);
}

/* 0.5 Mcal of the 12 is there to gain condition: 15 in the first period, 30 in all. */
static void what_is_asked_for_is_what_an_exact_ration_gives(void **state) {
    HandQuestion *hand = cow_of_score_five(*state, 11.5);
    for (int b = 0; b < 2; b++)
        hand->blocks[b].need.energy.condition = 0.5;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Condition *path = condition_path(*state, &plan);
    assert_near(condition_change_energy((Mass){600.0}, 5.0, path[1].asked).mcal, 30.0, 1e-5);
    assert_near(path[1].given, path[1].asked, 1e-4);
}

/* 6,000 kg give 4,860 eaten, of the 6,000 that 10 cows need in 60 days. */
static void a_ration_that_is_short_takes_condition_off(void **state) {
    HandQuestion *hand = cow_of_score_five(*state, 12.0);
    hand->feeds[0].available_kg = 6000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    const Condition *path = condition_path(*state, &plan);
    assert_true(path[0].given < 5.0);
    assert_true(path[1].given < path[0].given);
}

static void no_score_is_reckoned_where_none_is_known(void **state) {
    HandQuestion *hand = cow_of_score_five(*state, 12.0);
    hand->groups[0].condition = 0.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_true(isnan(condition_path(*state, &plan)[0].given));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(energy_above_the_need_goes_to_the_body),
        UNIT_TEST(what_is_asked_for_is_what_an_exact_ration_gives),
        UNIT_TEST(a_ration_that_is_short_takes_condition_off),
        UNIT_TEST(no_score_is_reckoned_where_none_is_known),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
