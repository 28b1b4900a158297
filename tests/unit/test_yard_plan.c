/* Rules of the yard on winters small enough to be worked by hand. A kg eaten takes 1 / 0.81 kg
 * of the stack, and a cow eats 9 to 12 kg (support/hand_question.h). */
#include "planner/yard_plan.h"
#include "support/hand_question.h"
#include "support/unit.h"

#define TAKEN (1.0 / 0.81)

/* Ten cows for 30 days that want 13.2 Mcal: the poor hay has 1.0 Mcal a kg at $50 a tonne, the
 * good one 1.5 at $100. Cheapest: 12 kg in all, 2.4 of it good. */
static HandQuestion *two_hays(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "poor", 0.05, 1e6)->eaten[NUTRIENT_NEM] = 1.0;
    hand_own(hand, "good", 0.10, 1e6)->eaten[NUTRIENT_NEM] = 1.5;
    hand_group(hand, "cows", 10, 13.2, 30);
    return hand;
}

static FeedingRules *rules_of(HandQuestion *hand) { return &hand->farm.winter.rules; }

static WinterPlan planned(Arena *arena, HandQuestion *hand) {
    const WinterPlan plan = plan_with_yard_rules(arena, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    return plan;
}

static void without_rules_the_plan_says_nothing_of_them(void **state) {
    const WinterPlan plan = planned(*state, two_hays(*state));
    assert_null(plan.yard);
    assert_near(plan.least_cost, 300 * (9.6 * 0.05 + 2.4 * 0.10) * TAKEN, 1e-6);
}

/* Of one hay only the good one has energy enough, 9 kg of it at the least: 0.90 instead of
 * 0.72. */
static void one_feed_a_ration_costs_what_the_dearer_feed_costs(void **state) {
    HandQuestion *hand = two_hays(*state);
    rules_of(hand)->most_feeds = 1;
    const WinterPlan plan = planned(*state, hand);
    assert_true(plan.yard->kept.is_on[YARD_RULE_MOST_FEEDS]);
    assert_near(plan.blocks[0].eaten[0], 0.0, 1e-9);
    assert_near(plan.least_cost, 300 * 9.0 * 0.10 * TAKEN, 1e-6);
    assert_near(plan.yard->without->cost.total, 300 * 0.72 * TAKEN, 300 * 0.72 * TAKEN * 1e-3);
    assert_true(plan.yard->is_proved);
}

/* 30 % of D good: (0.7 + 0.45) D = 13.2, D = 11.478; 0.065 a kg is less than 9 kg of the good.
 */
static void a_feed_is_given_by_its_least_share_or_not(void **state) {
    HandQuestion *hand = two_hays(*state);
    rules_of(hand)->least_share = 0.30;
    const WinterPlan plan = planned(*state, hand);
    assert_true(plan.yard->kept.is_on[YARD_RULE_LEAST_SHARE]);
    assert_near(plan.least_cost, 300 * 13.2 / 1.15 * 0.065 * TAKEN, 1e-4);
    assert_true(plan.blocks[0].eaten[1] >= 0.30 * plan.blocks[0].filling_kg - 1e-6);
}

/* In the second month 12 kg of the poor hay would do. Held to a tenth of what is then eaten,
 * the good falls from 2.4 to 2.4 - 0.1 D only: 0.95 D + 1.2 = 12, D = 11.368, good 1.2632. */
static void a_feed_goes_down_by_the_largest_change_and_no_more(void **state) {
    HandQuestion *hand = two_hays(*state);
    hand_period(hand, 12.0, 30);
    hand->farm.winter.last_day = calendar_add(hand->farm.winter.first_day, 59);
    rules_of(hand)->largest_change_share = 0.10;
    const WinterPlan plan = planned(*state, hand);
    const double later = 10.8 / 0.95;
    const double good = 2.4 - 0.1 * later;
    assert_near(plan.least_cost, 300 * TAKEN * (0.72 + (later - good) * 0.05 + good * 0.10),
                1e-4);
    assert_true(fabs(plan.blocks[1].eaten[1] - plan.blocks[0].eaten[1]) <=
                0.1 * plan.blocks[1].filling_kg + 1e-6);
}

/* 1 kg as fed is 0.81 kg eaten: the good falls from 2.4 to 1.59; 9.615 kg of the poor fill up.
 */
static void a_change_may_be_held_in_kg_put_out(void **state) {
    HandQuestion *hand = two_hays(*state);
    hand_period(hand, 12.0, 30);
    hand->farm.winter.last_day = calendar_add(hand->farm.winter.first_day, 59);
    rules_of(hand)->largest_change_kg = 1.0;
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.least_cost,
                300 * TAKEN * (0.72 + (12.0 - 1.5 * 1.59) * 0.05 + 1.59 * 0.10), 1e-4);
}

/* 9 kg of ten cows for 30 days take 3,333 kg of what is bought: four loads of a tonne, of which
 * 667 kg are left. */
static void a_load_is_bought_whole_and_its_rest_is_left(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_offer(hand, "hay", 0.20)->load_kg = 1000.0;
    hand_group(hand, "cows", 10, 10.0, 30);
    rules_of(hand)->whole_loads = true;
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.yard->loads[0], 4.0, 0.0);
    assert_near(plan.bought_kg[0], 4000.0, 1e-9);
    assert_near(plan.cost.bought, 800.0, 1e-9);
    assert_near(plan.yard->left_kg[0], 4000.0 - plan.taken_kg[0], 1e-6);
    assert_near(plan.cost.total, plan.cost.bought + plan.cost.hauling, 1e-9);
}

/* All there is are 3.5 t: three loads are too few, and a fourth cannot be had. */
static void a_load_that_cannot_be_had_leaves_the_rule_unkept(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    PlanFeed *hay = hand_offer(hand, "hay", 0.20);
    hay->load_kg = 1000.0;
    hay->available_kg = 3500.0;
    hand_group(hand, "cows", 10, 10.0, 30);
    rules_of(hand)->whole_loads = true;
    const WinterPlan plan = planned(*state, hand);
    assert_false(plan.yard->kept.is_on[YARD_RULE_WHOLE_LOADS]);
    assert_true(isnan(plan.yard->loads[0]));
    assert_near(plan.bought_kg[0], 2700.0 * TAKEN, 1.0);
}

/* 9 to 12 kg are 2.6 to 3.5 bales of 300 kg a week: fewer than five, so whole in four weeks, 11
 * of 10.4 to 13.8. */
static void bales_come_out_whole_in_four_weeks_where_they_are_few(void **state) {
    HandQuestion *hand = hand_question(*state, 28);
    hand_own(hand, "bales", 0.10, 1e6)->bale_kg = 300.0;
    const PlanBlock *block = hand_group(hand, "cows", 10, 10.0, 28);
    rules_of(hand)->whole_bales = true;
    assert_int_equal(yard_bale_weeks(block, &hand->feeds[0]), 4);
    const WinterPlan plan = planned(*state, hand);
    assert_true(plan.yard->kept.is_on[YARD_RULE_WHOLE_BALES]);
    assert_near(plan.blocks[0].eaten[0], 11 * 300.0 / TAKEN / 280.0, 1e-6);
    assert_false(plan.yard->not_whole[0]);
}

/* 30 cows eat 10.4 bales a week and more: whole every week; of a short period, in what it has.
 */
static void the_weeks_of_whole_bales_go_by_how_many_there_are(void **state) {
    HandQuestion *hand = hand_question(*state, 28);
    PlanFeed *bales = hand_own(hand, "bales", 0.10, 1e6);
    bales->bale_kg = 300.0;
    PlanBlock *block = hand_group(hand, "cows", 30, 10.0, 28);
    assert_int_equal(yard_bale_weeks(block, bales), 1);
    block->head = 20;
    assert_int_equal(yard_bale_weeks(block, bales), 2);
    block->head = 5;
    block->days = 16;
    assert_int_equal(yard_bale_weeks(block, bales), 2);
    block->days = 5;
    assert_int_equal(yard_bale_weeks(block, bales), 1);
}

/* Ten cows take 148 kg of a pit a day at the most. */
static void a_face_that_wants_more_than_they_eat_stays_shut(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    PlanFeed *pit = hand_own(hand, "pit", 0.05, 1e5);
    hand_own(hand, "hay", 0.10, 1e6);
    hand_group(hand, "cows", 10, 10.0, 30);
    pit->has_face = true;
    pit->least_face_kg_per_day = 140.0;
    const WinterPlan fed = planned(*state, hand);
    assert_true(fed.yard->kept.is_on[YARD_RULE_LEAST_FACE]);
    assert_near(fed.least_cost, 30 * 140.0 * 0.05,
                1e-6); /* 11.34 kg of the cheap beat 9 of hay */
    pit->least_face_kg_per_day = 150.0;
    const WinterPlan shut = planned(*state, hand);
    assert_true(shut.yard->kept.is_on[YARD_RULE_LEAST_FACE]);
    assert_near(shut.blocks[0].eaten[0], 0.0, 1e-9);
    assert_near(shut.least_cost, 300 * 9.0 * 0.10 * TAKEN, 1e-6);
}

/* Each pit lasts one of two months; the other group's month cannot have the other pit open. */
static void one_face_is_open_at_a_time_for_all_groups(void **state) {
    HandQuestion *hand = hand_question(*state, 60);
    for (int f = 0; f < 2; f++)
        hand_own(hand, f == 0 ? "first pit" : "second pit", 0.05, 6000.0 * TAKEN)->has_face =
            true;
    hand_own(hand, "hay", 0.10, 1e6);
    hand_group(hand, "cows", 10, 10.0, 30);
    hand_period(hand, 10.0, 30);
    hand_group(hand, "heifers", 10, 10.0, 30);
    hand_period(hand, 10.0, 30);
    rules_of(hand)->one_face_open = true;
    const WinterPlan plan = planned(*state, hand);
    assert_true(plan.yard->kept.is_on[YARD_RULE_ONE_FACE]);
    for (int month = 0; month < 2; month++) {
        const double first = plan.blocks[month].eaten[0] + plan.blocks[month + 2].eaten[0];
        const double second = plan.blocks[month].eaten[1] + plan.blocks[month + 2].eaten[1];
        assert_true(first < 1e-6 || second < 1e-6);
    }
    /* 5.4 t of 9 kg a month and a pit of 6 t: both months from a pit */
    assert_near(plan.least_cost, 2 * 600 * 9.0 * 0.05 * TAKEN, 1e-3);
}

/* The same hay in two yards: what lies with the cows is fed, and the heifers have the other. */
static void a_haul_to_another_yard_decides_who_gets_which_stack(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    static const char *const YARDS[] = {"Home", "Far"};
    for (int f = 0; f < 2; f++) {
        PlanFeed *hay = hand_own(hand, YARDS[f], 0.10, 2700.0 * TAKEN);
        hay->yard = YARDS[f];
        hay->haul_per_kg = 0.01;
        hay->other_yard_per_kg = 0.02;
        hand_group(hand, f == 0 ? "cows" : "heifers", 10, 10.0, 30);
        hand->groups[f].yard = f == 0 ? "home" : "Far";
    }
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.blocks[0].eaten[0], 9.0, 1e-6);
    assert_near(plan.blocks[1].eaten[1], 9.0, 1e-6);
    assert_near(plan.cost.hauling, 2 * 2700.0 * TAKEN * 0.01, 1e-6);
    assert_near(plan_haul_per_kg(&hand->question, 0, 1), 0.03, 1e-12);
    hand->groups[0].yard = "";
    assert_near(plan_haul_per_kg(&hand->question, 0, 1), 0.01, 1e-12);
}

/* Only a tonne of the good hay: enough for a mix, not for a ration of its own. */
static void a_rule_that_cannot_be_kept_leaves_the_plan_without_it(void **state) {
    HandQuestion *hand = two_hays(*state);
    hand->feeds[1].available_kg = 1000.0;
    rules_of(hand)->most_feeds = 1;
    const WinterPlan plan = planned(*state, hand);
    assert_true(plan.yard->asked.is_on[YARD_RULE_MOST_FEEDS]);
    assert_false(plan.yard->kept.is_on[YARD_RULE_MOST_FEEDS]);
    assert_near(plan.least_cost, 300 * 0.72 * TAKEN, 1e-6);
    assert_near(plan.cost.total, plan.yard->without->cost.total, 0.0);
}

/* The loads beside it are kept all the same. */
static void one_rule_that_cannot_be_kept_does_not_take_the_others_along(void **state) {
    HandQuestion *hand = two_hays(*state);
    hand->feeds[1].available_kg = 1000.0;
    hand_offer(hand, "bought", 0.04)->load_kg = 1000.0;
    hand->feeds[2].eaten[NUTRIENT_NEM] = 1.0;
    rules_of(hand)->most_feeds = 1;
    rules_of(hand)->whole_loads = true;
    const WinterPlan plan = planned(*state, hand);
    assert_false(plan.yard->kept.is_on[YARD_RULE_MOST_FEEDS]);
    assert_true(plan.yard->kept.is_on[YARD_RULE_WHOLE_LOADS]);
    assert_near(plan.bought_kg[2], plan.yard->loads[2] * 1000.0, 1e-9);
}

/* A third of what they would eat, of one hay: three feeds at most are kept for nothing. */
static void a_short_winter_keeps_a_rule_that_makes_it_no_shorter(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "hay", 0.10, 1000.0);
    hand_group(hand, "cows", 10, 10.0, 30);
    rules_of(hand)->most_feeds = 3;
    const WinterPlan plan = plan_with_yard_rules(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_int_equal(yard_rules_count(&plan.yard->kept), 1);
    assert_near(plan.taken_kg[0], 1000.0, 1.0);
}

/* Of two hays that are both eaten up one alone would leave them hungrier. */
static void a_short_winter_drops_a_rule_that_would_make_it_shorter(void **state) {
    HandQuestion *hand = two_hays(*state);
    hand->feeds[0].available_kg = 1000.0;
    hand->feeds[1].available_kg = 500.0;
    rules_of(hand)->most_feeds = 1;
    const WinterPlan plan = plan_with_yard_rules(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_int_equal(yard_rules_count(&plan.yard->asked), 1);
    assert_int_equal(yard_rules_count(&plan.yard->kept), 0);
    assert_near(plan.taken_kg[0] + plan.taken_kg[1], 1500.0, 1.0);
}

/* A hair of shortage: 13.2 Mcal are wanted and 0.05 % of the good hay is missing. */
static void a_trifling_shortage_leaves_the_rules_kept(void **state) {
    HandQuestion *hand = two_hays(*state);
    hand->feeds[1].available_kg = 2.4 * TAKEN * 300 * 0.9995;
    rules_of(hand)->most_feeds = 2;
    rules_of(hand)->least_share = 0.1;
    const WinterPlan plan = plan_with_yard_rules(*state, &hand->question);
    assert_int_equal(plan.verdict, PLAN_SHORT);
    assert_int_equal(yard_rules_count(&plan.yard->kept), 2);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(without_rules_the_plan_says_nothing_of_them),
        UNIT_TEST(one_feed_a_ration_costs_what_the_dearer_feed_costs),
        UNIT_TEST(a_feed_is_given_by_its_least_share_or_not),
        UNIT_TEST(a_feed_goes_down_by_the_largest_change_and_no_more),
        UNIT_TEST(a_change_may_be_held_in_kg_put_out),
        UNIT_TEST(a_load_is_bought_whole_and_its_rest_is_left),
        UNIT_TEST(a_load_that_cannot_be_had_leaves_the_rule_unkept),
        UNIT_TEST(bales_come_out_whole_in_four_weeks_where_they_are_few),
        UNIT_TEST(the_weeks_of_whole_bales_go_by_how_many_there_are),
        UNIT_TEST(a_face_that_wants_more_than_they_eat_stays_shut),
        UNIT_TEST(one_face_is_open_at_a_time_for_all_groups),
        UNIT_TEST(a_haul_to_another_yard_decides_who_gets_which_stack),
        UNIT_TEST(a_rule_that_cannot_be_kept_leaves_the_plan_without_it),
        UNIT_TEST(one_rule_that_cannot_be_kept_does_not_take_the_others_along),
        UNIT_TEST(a_short_winter_keeps_a_rule_that_makes_it_no_shorter),
        UNIT_TEST(a_short_winter_drops_a_rule_that_would_make_it_shorter),
        UNIT_TEST(a_trifling_shortage_leaves_the_rules_kept),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
