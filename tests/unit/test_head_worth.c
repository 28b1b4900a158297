/* A herd that eats one hay: 12 Mcal a day are 10 kg of dry matter of 1.2 Mcal, and 10 kg eaten
 * take 10 / 0.81 = 12.346 kg of the stack, at 10 cents $1.2346 a head and day. */
#include "planner/head_worth.h"

#include "support/hand_question.h"
#include "support/unit.h"

#define A_DAY (0.1 * 10.0 / 0.81)

static HandQuestion *a_herd(Arena *arena, double hay_kg) {
    HandQuestion *hand = hand_question(arena, 20);
    hand_own(hand, "Hay", 0.1, hay_kg);
    hand_offer(hand, "Bought hay", 0.3);
    hand_group(hand, "Cows", 10.0, 12.0, 10);
    hand_period(hand, 12.0, 10);
    hand_group(hand, "Bulls", 2.0, 12.0, 20);
    return hand;
}

static void one_head_fewer_saves_what_it_eats(void **state) {
    const HandQuestion *hand = a_herd(*state, 1e6);
    const HeadWorth worth = head_worth(&hand->question, 0, hand->farm.winter.first_day);
    assert_near(worth.saved_by_fewer, 20.0 * A_DAY, 1e-4);
    assert_near(worth.cost_of_more, 20.0 * A_DAY, 1e-4);
    assert_int_equal(worth.enough_shipped, 0);
}

static void from_a_day_within_a_period_only_the_days_left_are_saved(void **state) {
    HandQuestion *hand = a_herd(*state, 1e6);
    hand->farm.winter.yardage_per_head_day = 2.0;
    const Day from = calendar_add(hand->farm.winter.first_day, 6); /* 4 days and 10 */
    const HeadWorth worth = head_worth(&hand->question, 0, from);
    assert_near(worth.saved_by_fewer, 14.0 * A_DAY, 1e-4);
    assert_near(worth.yardage, 28.0, 1e-9);
    const PlanQuestion fewer = plan_question_with_head(*state, &hand->question, 0, from, -5.0);
    assert_near(fewer.blocks[0].head, 8.0, 1e-12); /* 10 for six days, 5 for four */
    assert_near(fewer.blocks[1].head, 5.0, 1e-12);
    assert_near(fewer.blocks[2].head, 2.0, 0.0);
}

/* Hay for 12 head on 20 days is 2,963 kg; for 9 head, 2,222. One fewer saves bought hay while
 * any is bought, at $0.30; of one more all is bought. */
static void what_is_saved_is_the_dearest_feed_and_shipping_ends_the_buying(void **state) {
    const HandQuestion *hand = a_herd(*state, 9.0 * 20.0 * 10.0 / 0.81 + 0.01);
    const HeadWorth worth = head_worth(&hand->question, 0, hand->farm.winter.first_day);
    assert_near(worth.saved_by_fewer, 20.0 * 3.0 * A_DAY, 1e-3);
    assert_near(worth.cost_of_more, 20.0 * 3.0 * A_DAY, 1e-3);
    assert_int_equal(worth.enough_shipped, 3);
    const HeadWorth bulls = head_worth(&hand->question, 1, hand->farm.winter.first_day);
    assert_int_equal(bulls.enough_shipped, -1); /* both shipped still leave one to feed */
}

static void at_the_end_of_own_feed_one_more_costs_more_than_one_fewer_saves(void **state) {
    const HandQuestion *hand = a_herd(*state, 12.0 * 20.0 * 10.0 / 0.81 + 0.01);
    const HeadWorth worth = head_worth(&hand->question, 0, hand->farm.winter.first_day);
    assert_near(worth.saved_by_fewer, 20.0 * A_DAY, 1e-3);
    assert_near(worth.cost_of_more, 20.0 * 3.0 * A_DAY, 1e-2);
}

/* Of 10 cows 4 leave on the eleventh day. Without the 6 that are left 140 days of a head are
 * fed from the first day on; hay is there for 110. */
static void no_more_are_shipped_than_there_are_on_the_day(void **state) {
    HandQuestion *hand = a_herd(*state, 110.0 * 10.0 / 0.81 + 0.01);
    hand->blocks[1].head = 6.0;
    const Day then = calendar_add(hand->farm.winter.first_day, 10);
    const HeadWorth worth = head_worth(&hand->question, 0, then);
    assert_near(worth.head, 6.0, 0.0);
    assert_near(worth.saved_by_fewer, 10.0 * 3.0 * A_DAY, 1e-3);
    assert_int_equal(worth.enough_shipped, -1);
    const HeadWorth sooner = head_worth(&hand->question, 0, hand->farm.winter.first_day);
    assert_near(sooner.head, 10.0, 0.0);
    assert_int_equal(sooner.enough_shipped, 5); /* 5 for ten days, 1 for ten, and the bulls */
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(one_head_fewer_saves_what_it_eats),
        UNIT_TEST(from_a_day_within_a_period_only_the_days_left_are_saved),
        UNIT_TEST(what_is_saved_is_the_dearest_feed_and_shipping_ends_the_buying),
        UNIT_TEST(at_the_end_of_own_feed_one_more_costs_more_than_one_fewer_saves),
        UNIT_TEST(no_more_are_shipped_than_there_are_on_the_day),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
