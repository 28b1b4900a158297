/* Winters small enough to be followed by hand: ten cows that need 12 Mcal of a hay of 1.2 Mcal
 * a kg, which is 10 kg of dry matter and 10 / 0.81 kg of the stack a head and day, and 111.1 kg
 * of dry matter put out a day for all. */
#include "planner/hard_winter_model.h"
#include "support/hand_question.h"
#include "support/unit.h"

#define TAKEN_A_DAY (10.0 * 10.0 / 0.81)
#define PUT_OUT_A_DAY (10.0 * 10.0 / 0.9)

/* By hand the plan's question is changed after it was planned: what is in the yard is other
 * than was thought. */
static const double *only_winter(Arena *arena, const WinterPlan *plan, WinterSpread spread,
                                 const HardWinterModel **model) {
    *model = hard_winter_model(arena, plan, 1, spread);
    double *record = ARENA_ARRAY(arena, double, hard_winter_record_length(*model));
    hard_winter_run(*model, 0, hard_winter_work(arena, *model), record);
    return record;
}

static WinterPlan planned(Arena *arena, const HandQuestion *hand) {
    const WinterPlan plan = plan_winter(arena, &hand->question);
    assert_int_equal(plan.verdict, PLAN_BALANCED);
    return plan;
}

static void a_stack_lighter_than_was_thought_ends_early(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "hay", 0.1, 30 * TAKEN_A_DAY);
    hand_group(hand, "cows", 10, 12.0, 30);
    const WinterPlan plan = planned(*state, hand);
    hand->feeds[0].available_kg *= 0.9;
    const HardWinterModel *model;
    const double *record = only_winter(*state, &plan, (WinterSpread){0}, &model);
    /* 27 days of 30: the 28th, numbered 27, has nothing */
    assert_near(record[RECORD_LAST_DAY], 29, 0);
    assert_near(record[RECORD_SHORT_DAY], 27, 0);
    assert_near(record[record_group(0, GROUP_SHORT_DAY)], 27, 0);
    assert_near(record[record_feed(model, 0, FEED_END_DAY)], 26, 0);
    assert_near(record[record_feed(model, 0, FEED_TAKEN)], 27 * TAKEN_A_DAY, 1e-6);
    assert_near(record[RECORD_SHORT_KG], 3 * PUT_OUT_A_DAY, 1e-6);
}

static void another_forage_of_the_ration_stands_in(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "first", 0.1, 15 * TAKEN_A_DAY);
    hand_own(hand, "second", 0.1, 15 * TAKEN_A_DAY);
    hand_group(hand, "cows", 10, 12.0, 30);
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.blocks[0].eaten[0], 5.0, 1e-6); /* half and half */
    hand->feeds[0].available_kg *= 0.5;
    const HardWinterModel *model;
    const double *record = only_winter(*state, &plan, (WinterSpread){0}, &model);
    /* 15 days of half a ration, then the second takes its place: 22.5 days in all */
    assert_near(record[record_feed(model, 0, FEED_END_DAY)], 14, 0);
    assert_near(record[record_feed(model, 1, FEED_END_DAY)], 22, 0);
    assert_near(record[RECORD_SHORT_DAY], 22, 0);
    assert_near(record[RECORD_SHORT_KG], 7.5 * PUT_OUT_A_DAY, 1e-3);
}

static void forage_that_was_not_in_the_ration_stands_in_last(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "hay", 0.1, 30 * TAKEN_A_DAY);
    hand_own(hand, "dear hay", 0.5, 2 * TAKEN_A_DAY);
    hand_group(hand, "cows", 10, 12.0, 30);
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.taken_kg[1], 0.0, 0.0);
    hand->feeds[0].available_kg *= 0.9;
    const HardWinterModel *model;
    const double *record = only_winter(*state, &plan, (WinterSpread){0}, &model);
    assert_near(record[RECORD_SHORT_DAY], 29, 0); /* 27 and 2 days */
    assert_near(record[record_feed(model, 1, FEED_TAKEN)], 2 * TAKEN_A_DAY, 1e-6);
}

/* Straw of 0.9 Mcal: 8 kg of it and 4 of hay are 12 Mcal in 12 kg, which is all they can eat.
 * When the hay ends, 12 kg of straw are 10.8 Mcal; 4 kg of the dear hay are what lacks. */
static void better_forage_stands_in_where_they_cannot_eat_enough_of_the_ration(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "straw", 0.02, 60 * TAKEN_A_DAY)->eaten[NUTRIENT_NEM] = 0.9;
    hand_own(hand, "hay", 0.1, 30 * 0.4 * TAKEN_A_DAY);
    hand_own(hand, "dear hay", 0.5, 30 * 0.4 * TAKEN_A_DAY);
    hand_group(hand, "cows", 10, 12.0, 30);
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.blocks[0].eaten[0], 8.0, 0.01);
    hand->feeds[1].available_kg *= 0.5;
    const HardWinterModel *model;
    const double *record = only_winter(*state, &plan, (WinterSpread){0}, &model);
    assert_near(record[RECORD_SHORT_DAY], NO_DAY, 0.0);
    assert_near(record[record_feed(model, 1, FEED_END_DAY)], 14, 0);
    assert_near(record[record_feed(model, 2, FEED_TAKEN)], 15 * 0.4 * TAKEN_A_DAY,
                0.01 * TAKEN_A_DAY);
}

static void grain_never_stands_in_for_forage(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "hay", 0.1, 30 * TAKEN_A_DAY);
    hand_own(hand, "grain", 0.5, 30 * TAKEN_A_DAY);
    hand->stuffs[1].feed_class = FEED_CLASS_GRAIN;
    hand_group(hand, "cows", 10, 12.0, 30);
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.taken_kg[1], 0.0, 0.0);
    hand->feeds[0].available_kg *= 0.9;
    const HardWinterModel *model;
    const double *record = only_winter(*state, &plan, (WinterSpread){0}, &model);
    assert_near(record[RECORD_SHORT_DAY], 27, 0);
    assert_near(record[record_feed(model, 1, FEED_TAKEN)], 0.0, 0.0);
}

static void a_load_more_of_hay_feeds_the_rest_of_the_winter(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "hay", 0.1, 30 * TAKEN_A_DAY);
    hand_offer(hand, "three days", 0.5)->load_kg = 3.01 * TAKEN_A_DAY;
    hand_offer(hand, "two days", 0.6)->load_kg = 2.0 * TAKEN_A_DAY;
    hand_group(hand, "cows", 10, 12.0, 30);
    const WinterPlan plan = planned(*state, hand);
    hand->feeds[0].available_kg *= 0.9;
    const HardWinterModel *model;
    const double *record = only_winter(*state, &plan, (WinterSpread){0}, &model);
    assert_near(record[RECORD_SHORT_DAY], 27, 0);
    assert_near(record[record_feed(model, 1, FEED_WITH_LOAD)], 1.0, 0.0);
    assert_near(record[record_feed(model, 2, FEED_WITH_LOAD)], 0.0, 0.0);
}

/* Summer coats: critical at 59 F. At -20 C, -4 F, without wind, 63 % more than upkeep is
 * needed; ten degrees F colder 73 %, which is 1.2 of 12 Mcal. */
static HandQuestion *in_the_cold(Arena *arena) {
    HandQuestion *hand = hand_question(arena, 30);
    hand_own(hand, "hay", 0.1, 90 * TAKEN_A_DAY);
    PlanBlock *block = hand_group(hand, "cows", 10, 12.0, 30);
    block->by_equations = block->need;
    block->by_equations.condition = 5.0;
    hand->farm.weather.month[11].mean.celsius = -20.0;
    hand->farm.weather.is_known[11] = true;
    return hand;
}

static void a_colder_month_takes_what_the_cold_equations_say(void **state) {
    HandQuestion *hand = in_the_cold(*state);
    const WinterPlan plan = planned(*state, hand);
    const HardWinterModel *model;
    const double *record = only_winter(
        *state, &plan, (WinterSpread){.colder_c = 10.0 * CELSIUS_PER_FAHRENHEIT}, &model);
    assert_near(record[record_feed(model, 0, FEED_TAKEN)], 1.1 * 30 * TAKEN_A_DAY, 1e-6);
    assert_near(record[record_group(0, GROUP_COLD)], 0.0, 0.0);
}

/* They eat 12 kg at the most, a fifth more than the ten of the ration. */
static void cattle_eat_no_more_than_they_can(void **state) {
    HandQuestion *hand = in_the_cold(*state);
    const WinterPlan plan = planned(*state, hand);
    const HardWinterModel *model;
    const double *record = only_winter(
        *state, &plan, (WinterSpread){.colder_c = 40.0 * CELSIUS_PER_FAHRENHEIT}, &model);
    assert_near(record[record_feed(model, 0, FEED_TAKEN)], 1.2 * 30 * TAKEN_A_DAY, 1e-6);
    assert_near(record[record_group(0, GROUP_COLD)], 1.0, 0.0);
    assert_near(record[RECORD_SHORT_DAY], NO_DAY, 0.0);
}

/* Growing cattle: E = 12 and G = 6 of 10 kg; upkeep 8 leaves 6 (1 - 8 / 12) = 2 for gain. With
 * 1.2 Mcal more of upkeep k = 9.2 / 12 + 2 / 6 = 1.1. */
static void growing_cattle_get_upkeep_and_gain(void **state) {
    HandQuestion *hand = hand_question(*state, 30);
    hand_own(hand, "hay", 0.1, 90 * TAKEN_A_DAY);
    PlanBlock *block = hand_group(hand, "calves", 10, 8.0, 30);
    block->need.retained.mcal_per_day = 2.0;
    block->need.equivalent = (Mass){300.0};
    block->by_equations = block->need;
    block->by_equations.energy.maintenance = 12.0;
    block->by_equations.condition = 5.0;
    hand->farm.weather.month[11].mean.celsius = -20.0;
    const WinterPlan plan = planned(*state, hand);
    assert_near(plan.blocks[0].eaten[0], 10.0, 1e-3);
    const HardWinterModel *model;
    const double *record = only_winter(
        *state, &plan, (WinterSpread){.colder_c = 10.0 * CELSIUS_PER_FAHRENHEIT}, &model);
    assert_near(record[record_feed(model, 0, FEED_TAKEN)], 1.1 * plan.taken_kg[0],
                1e-3 * plan.taken_kg[0]);
}

/* A weight with an error of a fifth, of exactly as much as is needed: half of the winters last,
 * and a tenth has ended by the day 1 - 1.2816 / 5 of the 200 that there should have been. */
static void chances_and_days_are_those_of_the_spread(void **state) {
    enum { WINTERS = 4000 };
    HandQuestion *hand = hand_question(*state, 200);
    hand_own(hand, "hay", 0.1, 200 * TAKEN_A_DAY)->weight_error_share = 0.2;
    hand_group(hand, "cows", 10, 12.0, 200);
    const WinterPlan plan = planned(*state, hand);
    const HardWinters *winters = hard_winters(*state, &plan, 3, WINTERS);
    assert_int_equal(winters->done, WINTERS);
    assert_near(winters->share_error, sqrt(0.25 / WINTERS), 1e-4);
    assert_near(winters->share, 0.5, 5.0 * winters->share_error);
    assert_false(winters->herd.lasts[IN_ONE_OF_TEN]);
    const int days =
        calendar_days_between(hand->farm.winter.first_day, winters->herd.day[IN_ONE_OF_TEN]);
    assert_near(days, 200.0 * (1.0 - 1.2816 / 5.0), 4.0);
    assert_true(winters->herd.lasts[IN_NINE_OF_TEN]);
    /* the mean beyond the 0.9 point of a normal is 1.755 deviations */
    assert_near(winters->worst_short_kg, 1.755 * 0.2 * 200 * PUT_OUT_A_DAY,
                0.05 * 0.35 * 200 * PUT_OUT_A_DAY);
    assert_near(winters->group_share[0], winters->share, 0.0);
}

int main(void) {
    const struct CMUnitTest tests[] = {
        UNIT_TEST(a_stack_lighter_than_was_thought_ends_early),
        UNIT_TEST(another_forage_of_the_ration_stands_in),
        UNIT_TEST(forage_that_was_not_in_the_ration_stands_in_last),
        UNIT_TEST(better_forage_stands_in_where_they_cannot_eat_enough_of_the_ration),
        UNIT_TEST(grain_never_stands_in_for_forage),
        UNIT_TEST(a_load_more_of_hay_feeds_the_rest_of_the_winter),
        UNIT_TEST(a_colder_month_takes_what_the_cold_equations_say),
        UNIT_TEST(cattle_eat_no_more_than_they_can),
        UNIT_TEST(growing_cattle_get_upkeep_and_gain),
        UNIT_TEST(chances_and_days_are_those_of_the_spread),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
