#include "planner/can_balance.h"

#include "support/hand_question.h"
#include "support/unit.h"

/* 100 cows at 10 kg a day for three periods of ten days; 24.3 t of hay feed 24.3 * 0.81 / 1 t a
 * day: 19.7 days. */
static HandQuestion *short_of_hay(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "Hay", 0.10, 24300.0);
    hand_group(hand, "Cows", 100, 12.0, 10);
    hand_period(hand, 12.0, 10);
    hand_period(hand, 12.0, 10);
    return hand;
}

static PlanQuestion first_days(Arena *arena, const HandQuestion *hand, int days) {
    return plan_question_until(arena, &hand->question,
                               calendar_add(hand->farm.winter.first_day, days - 1));
}

/* On all 30 days a cow gets 6.56 kg of the 10 she needs and the 9 that fill her: a kilogram
 * more would mend a tenth of energy in its third tier, 27, and a ninth of fill in its
 * second, 6. With hay at 33 a cow's day at its best, at 7 kg, is 231 of hay, 21 of energy
 * and 8.4 of fill, and 19.7 days of hay at 10 kg are worth 33 * 196.83: from the 25th day on
 * that is less. */
static void the_prices_of_a_shortage_rule_out_the_days_that_are_short(void **state) {
    const HandQuestion *hand = short_of_hay(*state);
    PlanStart start = {0};
    assert_false(plan_can_be_balanced(*state, &hand->question, &start, NULL));
    for (int days = 1; days <= 30; days++) {
        const PlanQuestion cut = first_days(*state, hand, days);
        PlanStart anew = {0};
        const bool can = plan_can_be_balanced(*state, &cut, &anew, NULL);
        assert_int_equal(can, days <= 19);
        assert_int_equal(plan_must_be_short(&cut, &start), days >= 25);
    }
}

static void nothing_is_ruled_out_before_a_shortage_was_found(void **state) {
    const HandQuestion *hand = short_of_hay(*state);
    PlanStart start = {0};
    assert_false(plan_must_be_short(&hand->question, &start));
    const PlanQuestion cut = first_days(*state, hand, 10);
    assert_true(plan_can_be_balanced(*state, &cut, &start, NULL));
    assert_false(plan_must_be_short(&hand->question, &start));
}

/* The limit that is told is not of the program it was found in, which is gone. */
static void what_falls_short_outlives_its_program(void **state) {
    const HandQuestion *hand = short_of_hay(*state);
    PlanStart start = {0};
    FirstShortage shortage;
    assert_false(plan_can_be_balanced(*state, &hand->question, &start, &shortage));
    assert_int_equal(shortage.group, 0);
    assert_string_equal(shortage.limit->key, "net_energy_maintenance");
    assert_near(shortage.limit->per_kg[0], 1.2, 1e-12);
}

/* Both eat of 24.3 t of hay, which is enough for either. The heifers' need of calcium is more
 * than any hay brings: a kilogram brings none. */
static HandQuestion *two_groups(Arena *arena, double calcium_g) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "Hay", 0.10, 24300.0);
    hand_group(hand, "Cows", 50, 12.0, 30);
    hand_group(hand, "Heifers", 50, 12.0, 30)->need.calcium.g_per_day = calcium_g;
    return hand;
}

static void a_group_that_nothing_in_the_yard_can_help_is_short_alone(void **state) {
    const HandQuestion *hand = two_groups(*state, 30.0);
    assert_true(group_is_short_alone(&hand->question, 1));
    assert_false(group_is_short_alone(&hand->question, 0));
    PlanStart start = {0};
    assert_false(plan_can_be_balanced(*state, &hand->question, &start, NULL));
}

static void groups_that_are_short_only_together_are_not_short_alone(void **state) {
    const HandQuestion *hand = two_groups(*state, 0.0);
    PlanStart start = {0};
    assert_false(plan_can_be_balanced(*state, &hand->question, &start, NULL));
    assert_false(group_is_short_alone(&hand->question, 0));
    assert_false(group_is_short_alone(&hand->question, 1));
}

static void a_herd_of_one_group_is_asked_itself(void **state) {
    assert_false(group_is_short_alone(&short_of_hay(*state)->question, 0));
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(the_prices_of_a_shortage_rule_out_the_days_that_are_short),
        UNIT_TEST(nothing_is_ruled_out_before_a_shortage_was_found),
        UNIT_TEST(what_falls_short_outlives_its_program),
        UNIT_TEST(a_group_that_nothing_in_the_yard_can_help_is_short_alone),
        UNIT_TEST(groups_that_are_short_only_together_are_not_short_alone),
        UNIT_TEST(a_herd_of_one_group_is_asked_itself),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
