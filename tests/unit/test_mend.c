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

/* 40 t less 37,037 kg fed leave 2,963 kg, 2,667 kg of dry matter of the 5,000 wanted. */
static void less_kept_for_spring_mends_what_only_that_lacks(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 40000);
    hand_group(hand, "Cows", 100, 12.0, 30);
    hand->farm.winter.carry_over_kg = 5000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    const Mend *mends;
    const int count = mends_of(*state, &plan, &mends);
    double enough = 0.0;
    for (int i = 0; i < count; i++)
        enough = mends[i].kind == MEND_LESS_CARRY_OVER ? mends[i].enough : enough;
    const double missing = 5000.0 - (40000.0 - 30000.0 / 0.81) * 0.9;
    assert_true(enough >= missing - 1.0);
    assert_true(enough <= missing * (1.0 + MEND_CLOSE) + 1.0);
}

/* Of two hays for sale neither is enough alone: each stands for a need the other lacks, energy
 * and calcium. */
static void two_purchases_mend_together_what_neither_does_alone(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "Rich in energy", 0.20)->available_kg = 0.0;
    PlanFeed *other = hand_offer(hand, "Rich in calcium", 0.30);
    other->available_kg = 0.0;
    hand->feeds[0].eaten[NUTRIENT_CALCIUM] = 0.0;
    other->eaten[NUTRIENT_CALCIUM] = 10.0;
    other->eaten[NUTRIENT_NEM] = 0.6; /* alone they cannot eat enough of it */
    hand_group(hand, "Cows", 100, 12.0, 30)->need.calcium.g_per_day = 10.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    assert_true(mends_of(*state, &plan, &mends) >= 1);
    assert_int_equal(mends[0].kind, MEND_MORE_FOR_SALE);
    assert_non_null(mends[0].beside.name);
    assert_string_not_equal(mends[0].beside.name, mends[0].name);
    assert_near(mends[0].cost,
                mends[0].enough * hand->feeds[mends[0].place].price_per_kg +
                    mends[0].beside.kg * hand->feeds[mends[0].beside.place].price_per_kg,
                1e-6);
}

/* Two tonnes of hay and any amount of greenfeed that is reckoned with at 2.0 % nitrate, of
 * which the whole diet may hold 0.5 and one feed 0.885: at 10 kg of both a day 1,620 kg of hay
 * leave 28,380 kg, 94.6 %, to the greenfeed, which may hold 0.5 / 0.946 = 0.5285 % then. */
static HandQuestion *short_for_want_of_a_test(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "Hay", 0.10, 2000);
    hand_own(hand, "Greenfeed", 0.05, 100000)->eaten[NUTRIENT_NITRATE] = 2.0;
    hand->stuffs[1].feed_class = FEED_CLASS_CEREAL;
    hand->stuffs[1].nitrate_for_safety = 2.0;
    hand->stuffs[1].nitrate_is_assumed = true;
    hand_nitrate_limit(hand, 0.5);
    hand_group(hand, "Cows", 100, 12.0, 30);
    return hand;
}

#define GREENFEED_MAY_HOLD (0.5 * 30000.0 / (30000.0 - 2000.0 * 0.81))

static void
a_stack_held_back_as_untested_is_to_be_tested_and_at_that_line_it_balances(void **state) {
    HandQuestion *hand = short_for_want_of_a_test(*state);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    const Mend *mends;
    assert_true(mends_of(*state, &plan, &mends) >= 1);
    assert_int_equal(mends[0].kind, MEND_TEST);
    assert_string_equal(mends[0].name, "Greenfeed");
    assert_true(2.0 - mends[0].enough <= GREENFEED_MAY_HOLD + 1e-9);
    assert_true(2.0 - mends[0].not_enough > GREENFEED_MAY_HOLD - 1e-9);
    assert_near(mends[0].enough - mends[0].not_enough, 0.01, 0.01);
    /* one sample is raised by 15 % for the rest of the stack */
    assert_near(mend_reported(&mends[0], mends[0].enough), (2.0 - mends[0].enough) / 1.15,
                1e-12);
    const PlanQuestion low =
        plan_question_with_test(*state, &hand->question, 1, NUTRIENT_NITRATE, 0.52);
    assert_int_equal(plan_verdict(&low), PLAN_BALANCED);
    const PlanQuestion high =
        plan_question_with_test(*state, &hand->question, 1, NUTRIENT_NITRATE, 0.54);
    assert_int_equal(plan_verdict(&high), PLAN_SHORT);
}

/* The same with rye in the place of greenfeed: a fifth of the diet untested, and tested as much
 * as keeps the whole diet within 1,000 ppb, 1,000 / 0.946 = 1,057 in the rye. */
static void rye_held_to_a_fifth_is_to_be_tested_for_ergot(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "Hay", 0.10, 2000);
    hand_own(hand, "Rye", 0.05, 100000)->eaten[NUTRIENT_ERGOT] = (double)NAN;
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand->stuffs[1].book_feed = "rye_grain";
    SafetyLimit *share = hand_nitrate_limit(hand, 0.20);
    share->kind = LIMIT_SHARE;
    share->subject = SUBJECT_FEEDS;
    share->subject_text = "untested_ergot";
    hand_nitrate_limit(hand, 1000.0)->nutrient = NUTRIENT_ERGOT;
    hand_group(hand, "Cows", 100, 12.0, 30);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    const Mend *mends;
    assert_true(mends_of(*state, &plan, &mends) >= 1);
    assert_int_equal(mends[0].kind, MEND_TEST);
    assert_int_equal(mends[0].test.nutrient, NUTRIENT_ERGOT);
    const double may_hold = 1000.0 * 30000.0 / (30000.0 - 2000.0 * 0.81);
    const double reported = mend_reported(&mends[0], mends[0].enough);
    assert_true(reported <= may_hold + 1e-6 && reported > may_hold - 30.0);
}

static void a_stack_that_was_tested_high_is_not_to_be_tested(void **state) {
    HandQuestion *hand = short_for_want_of_a_test(*state);
    hand->stuffs[1].nitrate_is_assumed = false;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    const int count = mends_of(*state, &plan, &mends);
    for (int i = 0; i < count; i++)
        assert_int_not_equal(mends[i].kind, MEND_TEST);
}

/* Free choice: the feed alone must be under the line, so a test lets it in, not a share. */
static void a_test_lets_in_what_was_barred_alone(void **state) {
    HandQuestion *hand = short_for_want_of_a_test(*state);
    hand->limits[0].kind = LIMIT_EACH_FEED;
    hand_bar(hand, 0, 1, &hand->limits[0]);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    assert_true(mends_of(*state, &plan, &mends) >= 1);
    assert_int_equal(mends[0].kind, MEND_TEST);
    assert_true(2.0 - mends[0].enough <= 0.5);
    assert_true(2.0 - mends[0].not_enough > 0.5);
}

/* 20 t of any feed are too little, however low it tests. */
static void a_test_that_would_not_mend_it_is_not_said(void **state) {
    HandQuestion *hand = short_for_want_of_a_test(*state);
    hand->feeds[1].available_kg = 20000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    const int count = mends_of(*state, &plan, &mends);
    for (int i = 0; i < count; i++)
        assert_int_not_equal(mends[i].kind, MEND_TEST);
}

/* Two stacks of greenfeed at 2.0 % as nobody tested them, each alone 15 t: with 2 t of hay both
 * are needed for 30 t of 10 kg a day, so that no one test mends it, and two do. */
static HandQuestion *short_for_want_of_two_tests(Arena *arena) {
    HandQuestion *hand = short_for_want_of_a_test(arena);
    hand->feeds[1].available_kg = 20000.0;
    hand_own(hand, "Fox Hill", 0.05, 20000.0)->eaten[NUTRIENT_NITRATE] = 2.0;
    hand->stuffs[2] = hand->stuffs[1];
    return hand;
}

static void two_tests_mend_together_what_neither_does_alone(void **state) {
    HandQuestion *hand = short_for_want_of_two_tests(*state);
    const WinterPlan plan = plan_winter(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    const Mend *mends;
    assert_true(mends_of(*state, &plan, &mends) >= 1);
    assert_int_equal(mends[0].kind, MEND_TEST);
    assert_string_equal(mends[0].name, "Greenfeed");
    assert_int_equal(mends[0].other_test.feed, 2);
    /* reckoned alike, they come down alike: to where both are the greenfeed of one stack */
    assert_near(mend_other_reported(&mends[0], mends[0].enough),
                mend_reported(&mends[0], mends[0].enough), 1e-12);
    assert_true(2.0 - mends[0].enough <= GREENFEED_MAY_HOLD + 1e-9);
    assert_true(2.0 - mends[0].not_enough > GREENFEED_MAY_HOLD - 1e-9);
    const PlanQuestion enough =
        mended_question(*state, &hand->question, &mends[0], mends[0].enough);
    assert_int_equal(plan_verdict(&enough), PLAN_BALANCED);
    const PlanQuestion not_enough =
        mended_question(*state, &hand->question, &mends[0], mends[0].not_enough);
    assert_int_equal(plan_verdict(&not_enough), PLAN_SHORT);
}

static void where_one_test_mends_it_no_two_are_asked_for(void **state) {
    HandQuestion *hand = short_for_want_of_two_tests(*state);
    hand->feeds[1].available_kg = 100000.0;
    const WinterPlan plan = plan_winter(*state, &hand->question);
    const Mend *mends;
    const int count = mends_of(*state, &plan, &mends);
    assert_true(count >= 1);
    for (int i = 0; i < count; i++)
        assert_near(mends[i].other_test.reckoned, 0.0, 0.0);
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
        UNIT_TEST(less_kept_for_spring_mends_what_only_that_lacks),
        UNIT_TEST(two_purchases_mend_together_what_neither_does_alone),
        UNIT_TEST(a_stack_held_back_as_untested_is_to_be_tested_and_at_that_line_it_balances),
        UNIT_TEST(rye_held_to_a_fifth_is_to_be_tested_for_ergot),
        UNIT_TEST(a_stack_that_was_tested_high_is_not_to_be_tested),
        UNIT_TEST(a_test_lets_in_what_was_barred_alone),
        UNIT_TEST(a_test_that_would_not_mend_it_is_not_said),
        UNIT_TEST(two_tests_mend_together_what_neither_does_alone),
        UNIT_TEST(where_one_test_mends_it_no_two_are_asked_for),
        UNIT_TEST(a_balanced_plan_needs_no_mend),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
